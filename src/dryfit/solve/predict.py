"""What a check reads: the one question that everything else puts to the model.

`READERS` has one entry for each kind of check and of need; each gives the true value with its
sign (negative: too long by so much) and what the dial or feeler shows of it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from dryfit.mechanics.ball_rows import radial_shake
from dryfit.mechanics.springs import spring_force
from dryfit.model.rebuild import FINGERS, FIRST_END, LAST_END, Check, Lift, Line, Need, Rebuild
from dryfit.model.spots import Spot
from dryfit.model.state_rules import parts_read
from dryfit.solve.benchtop import Bench, LeftOut, NoAnswer, NothingStops, NotYet, lay_on
from dryfit.solve.joints import cover_on
from dryfit.solve.lift import lift
from dryfit.solve.luck import Array, full
from dryfit.solve.meshes import flushness, lash
from dryfit.solve.network import TOUCHING, floating
from dryfit.solve.preloads import preload
from dryfit.solve.rigid import Contact, nearest, room, too_long, turned
from dryfit.solve.rings import INNER, on_rings, owner, ring
from dryfit.solve.sample import Sample
from dryfit.solve.sizes import gauge, true_size
from dryfit.solve.states import Fitted, conditions
from dryfit.solve.turning import cord_pull


@dataclass(frozen=True, slots=True)
class Reading:
    """What a check finds.

    Attributes
    ----------
    true
        The travel, gap or length itself, negative where parts are too long [m], shape (n,).
    shown
        What the instrument shows of it, without its own error [m], shape (n,).
    lacking
        Keys of sizes that are not known and that the value may hang on.
    gives
        Whether parts of the line give, so that less than nothing means rows pressed together.
    """

    true: Array
    shown: Array
    lacking: frozenset[str]
    gives: bool = False


def predict(
    rebuild: Rebuild,
    asked: Check | Need,
    sample: Sample,
    *,
    packs: Mapping[str, Array],
    assumed: Mapping[str, float] | None = None,
    extra: Mapping[str, float | Array] | None = None,
    state: str | None = None,
) -> Reading:
    """Say what a check reads or how a need is met.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    asked
        One of its checks or needs [check]
    sample
        True sizes [m], shape (n,) each
    packs
        Thickness of each setting [m], shape (n,) each
    assumed
        Values for what is not known, by key [m]
    extra
        What lies under a part besides, how far a cover is not home or a nut stands back, by part;
        or what lies on a face, by its spot [m]
    state
        Another state than that of the check [text]

    Returns
    -------
    reading
        True and shown value [m], shape (n,) each

    Raises
    ------
    NoAnswer
        The part asked for, or one it rests on, is not stopped one way, or only far off.

    Valid
    -----
    Rigid parts; references already checked.

    Source
    ------
    None needed: lengths add up.

    Examples
    --------
    See tests/solve/test_network.py for a worked unit.

    >>> sorted(READERS)[:4]
    ['backlash', 'cord pull', 'depth', 'end float']
    """
    try:
        bench = laid_for(
            rebuild, asked, sample, packs=packs, assumed=assumed, extra=extra, state=state
        )
        found = READERS[asked.kind](bench, asked)
    except NotYet as not_yet:
        nought = full(sample.draws, 0.0)
        return Reading(nought, nought, not_yet.lacking, gives=True)
    lacking = [layout.lacking for layout in bench.net.layouts.values()]
    unknown = frozenset().union(*lacking, *found[2:])
    return Reading(found[0], found[1], unknown, bench.net.gives)


def laid_for(
    rebuild: Rebuild,
    asked: Check | Need,
    sample: Sample,
    *,
    packs: Mapping[str, Array],
    assumed: Mapping[str, float] | None = None,
    extra: Mapping[str, float | Array] | None = None,
    state: str | None = None,
) -> Bench:
    """Lay a unit on the bench as a check wants it, to look along its line.

    Parameters
    ----------
    rebuild, asked, sample, packs, assumed, extra, state
        As `predict` [as there]

    Returns
    -------
    bench
        The unit in that state [bench]

    Raises
    ------
    NoAnswer
        As `predict`.
    NotYet
        Sizes of a line that gives are not known.

    Valid
    -----
    As `predict`.

    Source
    ------
    None needed.

    Examples
    --------
    See tests/ask/test_pushed.py.

    >>> from dryfit.model.rebuild import FloatNeed
    >>> from dryfit.solve.luck import NoLuck
    >>> from dryfit.solve.sample import sample
    >>> unit, need = Rebuild("mm"), FloatNeed("float", "float", of="shaft")
    >>> laid_for(unit, need, sample(unit, NoLuck()), packs={}).net.gives
    False
    """
    now = conditions(rebuild, state or asked.state, sample.draws)
    for part in parts_read(rebuild, asked):
        if part in now.left_out:
            raise LeftOut(part, state or asked.state)
    fitted = {
        part: true_size(sample.draws, ("fitted", state or asked.state, part), size, by)
        for part, size in now.fitted.items()
        if (by := gauge(rebuild, size.instrument))
    }
    put = Fitted({**packs, **fitted}, now, extra or {}, assumed or {})
    return lay_on(rebuild, sample, put, line_of(rebuild, asked))


def line_of(rebuild: Rebuild, asked: Check | Need) -> Line:
    """Find the line along which a check is read: the first of `lines_of`.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    asked
        A check or need [check]

    Returns
    -------
    line
        One of the rebuild's lines, or one without stacks for what lies in none [line]

    Valid
    -----
    Any check.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.model.rebuild import FloatNeed
    >>> line = Line("spindle", "nose", "tail", ())
    >>> need = FloatNeed("float", "float", of="shaft")
    >>> line_of(Rebuild("mm", lines={"spindle": line}), need).name
    'spindle'
    """
    return lines_of(rebuild, asked)[0]


NO_LINE = Line("", "", "", ())
"""For what is read across: a plain bearing lifts whatever lies along its shaft."""


def lines_of(rebuild: Rebuild, asked: Check | Need) -> tuple[Line, ...]:
    """Find the lines that a check hangs on: of a mesh, those of both members.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    asked
        A check or need [check]

    Returns
    -------
    lines
        The one along which it is read first; at least one [lines]

    Valid
    -----
    Any check.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.model.rebuild import FloatNeed
    >>> [line.name for line in lines_of(Rebuild("mm"), FloatNeed("float", "float", of="shaft"))]
    ['']
    """
    mesh = rebuild.meshes.get(getattr(asked, "mesh", ""))
    groups = [set(parts_of(asked))]
    if mesh:
        groups = [{mesh.wheel}, {mesh.pinion}]
        groups = groups[::-1] if getattr(asked, "on", None) == "pinion" else groups
    found = [line for group in groups if (line := _holding(rebuild, group))]
    if not found and not isinstance(asked, Lift):
        found = [*rebuild.lines.values()][:1]
    return tuple(found) or (NO_LINE,)


def _holding(rebuild: Rebuild, parts: set[str]) -> Line | None:
    for line in rebuild.lines.values():
        if parts <= {spot.part for stack in line.stacks for spot in stack.spots}:
            return line
    return None


def parts_of(asked: Check | Need) -> tuple[str, ...]:
    """List the parts that a check or need names.

    Parameters
    ----------
    asked
        A check or need [check]

    Returns
    -------
    parts
        Their names [text]

    Valid
    -----
    Any check.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.model.rebuild import FloatNeed
    >>> parts_of(FloatNeed("float", "float", of="shaft"))
    ('shaft',)
    """
    named = [getattr(asked, key, None) for key in ("of", "at")]
    spots = [getattr(asked, key, None) for key in ("from_", "to")]
    return tuple([n for n in named if n] + [s.part for s in spots if s])


def _float(bench: Bench, asked: Any) -> tuple[Array, Array]:
    """Travel of a part between all that stops it; nothing is left to read once it binds.

    Where parts give, the lengths are those under clamp, less than nothing is how far rows are
    pressed together, and the dial shows the travel from a push one way to one the other way, what
    yields under it included.
    """
    left = _travel(bench, asked.of)
    if not bench.net.gives:
        return left, np.maximum(left, 0.0)
    still = bench.at_rest({})
    push = bench.push(asked.name, getattr(asked, "push", None))
    there, back = (bench.at_rest({asked.of: way * push}, still) for way in (1.0, -1.0))
    return left, there.place(asked.of) - back.place(asked.of)


def _travel(bench: Bench, of: str) -> Array:
    """Travel without any push; less than nothing is how far parts are too long, or rows nipped."""
    still = bench.at_rest({}) if bench.net.gives else None
    left = room(still.pressed() if still else bench.net.closed, of, bench.net.case)
    if left is None:
        raise NothingStops(of)
    return np.where(left > NOUGHT, left, np.minimum(-still.nip(), left)) if still else left


def _needed_float(bench: Bench, need: Any) -> tuple[Array, Array]:
    """The same where no dial is put to it."""
    left = _travel(bench, need.of)
    return left, np.maximum(left, 0.0)


def _gap(bench: Bench, asked: Any) -> tuple[Array, Array]:
    """Gap under a cover, or the room at the seat of a part that is left out."""
    if asked.at in bench.left_out:
        room_left = _seat(bench, asked.at)
        return room_left, np.maximum(room_left, 0.0)
    if asked.at not in bench.net.pulls:
        raise NothingStops(asked.at)
    gap = _stand_off(bench, asked.at)
    return gap, _nipped(bench, asked.at, FINGERS) if bench.net.gives else gap


def _nipped(bench: Bench, cover: str, screws: str) -> Array:
    """Gap under a cover whose screws are not tight: what lies inside is pressed a little."""
    put = replace(bench.put, now=replace(bench.put.now, screws=screws))
    nipped = lay_on(bench.rebuild, bench.sample, put, bench.line)
    home = bench.net.pulls[cover]
    still = nipped.at_rest({})
    way = home if home.before == cover else replace(home, before=home.after, after=home.before)
    apart = still.place(cover) - still.place(way.after)
    beyond = apart + home.length if home.before == cover else -apart + home.length
    gap: Array = np.maximum(beyond, 0.0) + _cocked(bench, cover)
    return gap


def _stand_off(bench: Bench, cover: str) -> Array:
    """How far the parts inside hold a cover off its joint; nought when it is home.

    Springs are pressed solid, as screws do. Parts that are nipped among themselves have no places
    while nothing gives; the cover is then just touched on.
    """
    pull = bench.net.pulls[cover]
    others = [c for name, c in bench.net.pulls.items() if name != cover]
    last = pull.before == cover
    contacts = [_squeezed(contact) for contact in (*bench.net.contacts, *others)]
    contacts = contacts if last else turned(contacts)
    places = nearest(contacts, bench.net.case)
    off: Array = places[cover] + pull.length + _cocked(bench, cover)
    nipped = too_long(contacts, places, bench.net.case)
    if not bench.net.gives or not np.any(nipped):
        return off
    return np.where(nipped, _nipped(bench, cover, TOUCHING), off)


def _cocked(bench: Bench, cover: str) -> Any:
    """Say how far a cover is not home: a feeler goes in there too."""
    return bench.put.extra.get(cover, 0.0)


def _squeezed(contact: Contact) -> Contact:
    """Press a spring solid."""
    if contact.law is None or contact.law.formula is not spring_force:
        return contact
    return replace(contact, length=contact.length - contact.law.arguments["travel"])


def _lengths(bench: Bench) -> list[Contact]:
    """Give all contacts as long as they are: under clamp where parts give."""
    return bench.at_rest({}).pressed() if bench.net.gives else [*bench.net.closed]


def _seat(bench: Bench, part: str) -> Array:
    """Room between the neighbours of a part that is left out, pushed apart."""
    for stack in bench.line.stacks:
        spots = on_rings(bench.rebuild, stack.spots)
        at = [n for n, spot in enumerate(spots) if owner(spot.part) == part]
        fitted = [n for n, spot in enumerate(spots) if owner(spot.part) not in bench.left_out]
        before = [n for n in fitted if at and n < at[0]]
        after = [n for n in fitted if at and n > at[-1]]
        cover = cover_on(bench.rebuild, spots, bench.net.case, floating(bench.rebuild))
        if at and cover in bench.net.pulls:
            return _stand_off(bench, str(cover))
        if before and after:
            return _apart(bench, spots[before[-1]], spots[after[0]])
    raise NoAnswer(
        f"nothing is fitted on both sides of where '{part}' sits, so there is no gap",
        "name a cover that is fitted, or a part left out between two others",
    )


def _apart(bench: Bench, before: Spot, after: Spot) -> Array:
    """Greatest distance to which two spots can be pushed apart."""
    net = bench.net
    here = net.layouts[before.part].offsets[before.name]
    there = net.layouts[after.part].offsets[after.name]
    if before.part == after.part:
        return there - here
    back = nearest(_lengths(bench), after.part).get(before.part)
    if back is None:
        raise NothingStops(before.part)
    return there - here - back


def _depth(bench: Bench, asked: Any) -> tuple[Array, Array]:
    """Distance between two spots with all loose parts held to one end."""
    to_last = asked.held == bench.line.last
    contacts = _lengths(bench)
    found = nearest(turned(contacts) if to_last else contacts, bench.net.case)
    ends = [
        _stand(bench, spot, found, -1.0 if to_last else 1.0) for spot in (asked.from_, asked.to)
    ]
    distance = ends[1] - ends[0]
    return distance, np.abs(distance)


def _stand(bench: Bench, spot: Spot, found: Mapping[str, Array], sign: float) -> Array:
    """Where a spot stands, from the case."""
    layout = bench.net.layouts.get(spot.part)
    if layout is None or spot.name not in layout.offsets:
        raise NoAnswer(
            f"no stack or size of '{bench.line.name}' reaches '{spot}'",
            "read a depth between two spots of one line, each in a stack or with a size to it",
        )
    offset = layout.offsets[spot.name]
    if spot.part == bench.net.case:
        return offset
    if spot.part not in found:
        raise NothingStops(spot.part)
    return offset + sign * found[spot.part]


def _thickness(bench: Bench, asked: Any) -> tuple[Array, Array]:
    """Length of one part between its ends."""
    layout = bench.net.layouts.get(asked.of)
    if layout is None or not {FIRST_END, LAST_END} <= {*layout.offsets}:
        raise NoAnswer(
            f"no stack goes through '{asked.of}' from end to end, so it has no thickness",
            "name a shim, washer or spacer; between two spots of a part read a depth",
        )
    offsets = layout.offsets
    length = offsets[LAST_END] - offsets[FIRST_END]
    return length, np.abs(length)


def _shake(bench: Bench, asked: Any) -> tuple[Array, Array]:
    """Radial shake of a row: its clearance, or what the float leaves it in the middle."""
    inner = ring(asked.of, INNER)
    rows = [c for c in bench.net.contacts if {owner(c.before), owner(c.after)} == {asked.of}]
    laws = [c.law.arguments for c in rows if c.law]
    if not laws:
        raise NothingStops(asked.of)
    if "clearance" in laws[0]:
        grown = laws[0]["inner_growth"] - laws[0]["outer_growth"]
        shake: Array = np.maximum(laws[0]["clearance"] - grown, 0.0)
        return shake, shake
    left = room(bench.at_rest({}).pressed(), inner, bench.net.case)
    if left is None:
        raise NothingStops(asked.of)
    shake = radial_shake(np.maximum(left, 0.0), laws[0]["angle"])
    return shake, shake


def _nip(bench: Bench, asked: Any) -> tuple[Array, Array]:
    """How far the rows are pressed together; less than nothing is float."""
    left = _travel(bench, asked.of)
    return -left, np.maximum(-left, 0.0)


NOUGHT = 1e-9
"""A float no larger than this is none: what rows are pressed together then counts [m]."""

Found = tuple[Array, Array] | tuple[Array, Array, frozenset[str]]
"""True value, what is shown of it, and perhaps what is not known."""

READERS: dict[str, Callable[[Bench, Any], Found]] = {
    "float": _needed_float,
    "nip": _nip,
    "preload": preload,
    "lash": lash,
    "end float": _float,
    "gap": _gap,
    "depth": _depth,
    "thickness": _thickness,
    "backlash": lash,
    "shake": _shake,
    "cord pull": cord_pull,
    "flushness": flushness,
    "lift": lift,
}

NEWTON = "N"

SHOWN_IN = dict.fromkeys(READERS, "m") | {"cord pull": NEWTON, "preload": NEWTON}
"""Unit of what each kind of check shows."""
