"""What a check reads: the one question that everything else puts to the model.

`READERS` has one entry for each kind of check and of need; each gives the true value with its
sign (negative: too long by so much) and what the dial or feeler shows of it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from dryfit.model.rebuild import FIRST_END, LAST_END, Check, Line, Need, Rebuild, Spot
from dryfit.solve.elastic import Held, Stray, hold
from dryfit.solve.joints import cover_on
from dryfit.solve.luck import Array, Draws
from dryfit.solve.network import Fitted, Network, floating, network
from dryfit.solve.rigid import nearest, room, turned
from dryfit.solve.rings import owner
from dryfit.solve.sample import Sample
from dryfit.solve.sizes import gauge, true_size
from dryfit.solve.states import conditions

PUSH, PUSH_SPREAD = 50.0, 0.3
"""A push by hand on the end of a shaft where none is told [N], and how far it may differ [-]."""


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
    """

    true: Array
    shown: Array
    lacking: frozenset[str]


@dataclass(frozen=True, slots=True)
class Bench:
    """A line in the state in which a check is read."""

    rebuild: Rebuild
    line: Line
    net: Network
    left_out: frozenset[str]
    draws: Draws


class NothingStops(Exception):
    """A part runs out of the line: nothing stops it one way.

    Attributes
    ----------
    part
        The part that runs out.
    """

    def __init__(self, part: str) -> None:
        super().__init__(f"nothing stops {part} one way")
        self.part = part


def predict(
    rebuild: Rebuild,
    asked: Check | Need,
    sample: Sample,
    *,
    packs: Mapping[str, Array],
    assumed: Mapping[str, float] | None = None,
    extra: Mapping[str, float] | None = None,
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
        What lies under a part besides, or how far a cover is not home, by part [m]
    state
        Another state than that of the check [text]

    Returns
    -------
    reading
        True and shown value [m], shape (n,) each

    Raises
    ------
    NothingStops
        The part asked for, or one it rests on, is not stopped one way.

    Valid
    -----
    Rigid parts; references already checked.

    Source
    ------
    None needed: lengths add up.

    Examples
    --------
    See tests/solve/test_predict.py for a worked unit.

    >>> sorted(READERS)
    ['depth', 'end float', 'float', 'gap', 'thickness']
    """
    now = conditions(rebuild, state or asked.state, sample.draws)
    fitted = {
        part: true_size(sample.draws, ("fitted", state or asked.state, part), size, by)
        for part, size in now.fitted.items()
        if (by := gauge(rebuild, size.instrument))
    }
    line = line_of(rebuild, asked)
    put = Fitted({**packs, **fitted}, now, extra or {}, assumed or {})
    net = network(rebuild, line, sample, put)
    true, shown = READERS[asked.kind](Bench(rebuild, line, net, now.left_out, sample.draws), asked)
    lacking = frozenset().union(*(layout.lacking for layout in net.layouts.values()))
    return Reading(true, shown, lacking)


def line_of(rebuild: Rebuild, asked: Check | Need) -> Line:
    """Find the line along which a check is read: the first that holds all its parts.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    asked
        A check or need [check]

    Returns
    -------
    line
        One of the rebuild's lines [line]

    Valid
    -----
    Parts that stand in a line, as `model.rules` makes sure.

    Source
    ------
    None needed.

    Examples
    --------
    >>> line = Line("spindle", "nose", "tail", ())
    >>> line_of(Rebuild("mm", lines={"spindle": line}), Need("float", "float", of="shaft")).name
    'spindle'
    """
    wanted = set(parts_of(asked))
    for line in rebuild.lines.values():
        if wanted <= {spot.part for stack in line.stacks for spot in stack.spots}:
            return line
    return next(iter(rebuild.lines.values()))


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
    >>> parts_of(Need("float", "float", of="shaft"))
    ('shaft',)
    """
    named = [getattr(asked, key, None) for key in ("of", "at")]
    spots = [getattr(asked, key, None) for key in ("from_", "to")]
    return tuple([n for n in named if n] + [s.part for s in spots if s])


def _float(bench: Bench, asked: Any) -> tuple[Array, Array]:
    """Travel of a part between all that stops it; nothing is left to read once it binds.

    Where parts give, the lengths are those under clamp, and the dial shows the travel from a push
    one way to one the other way, what yields under it included.
    """
    if not bench.net.gives:
        left = room(bench.net.closed, asked.of, bench.net.case)
        if left is None:
            raise NothingStops(asked.of)
        return left, np.maximum(left, 0.0)
    still = _at_rest(bench, {})
    left = room(still.pressed(), asked.of, bench.net.case)
    if left is None:
        raise NothingStops(asked.of)
    push = bench.draws.flat("checks", asked.name, "push") * PUSH_SPREAD + 1.0
    push = push * (asked.push.si if getattr(asked, "push", None) else PUSH)
    there, back = (_at_rest(bench, {asked.of: way * push}, still) for way in (1.0, -1.0))
    return left, there.place(asked.of) - back.place(asked.of)


def _at_rest(bench: Bench, pushes: Mapping[str, Array], start: Held | None = None) -> Held:
    """Bring the line to rest; what runs away is told by the name of its part."""
    try:
        return hold(bench.net, pushes, start)
    except Stray as stray:
        raise NothingStops(owner(stray.bodies[0])) from stray


def _gap(bench: Bench, asked: Any) -> tuple[Array, Array]:
    """Gap under a cover, or the room at the seat of a part that is left out."""
    if asked.at in bench.left_out:
        room_left = _seat(bench, asked.at)
        return room_left, np.maximum(room_left, 0.0)
    if asked.at not in bench.net.pulls:
        raise NothingStops(asked.at)
    gap = _stand_off(bench.net, asked.at)
    return gap, gap


def _stand_off(net: Network, cover: str) -> Array:
    """How far the parts inside hold a cover off its joint; nought when it is home."""
    pull = net.pulls[cover]
    others = [c for name, c in net.pulls.items() if name != cover]
    contacts = [*net.contacts, *others]
    last = pull.before == cover
    return nearest(contacts if last else turned(contacts), net.case)[cover] + pull.length


def _seat(bench: Bench, part: str) -> Array:
    """Room between the neighbours of a part that is left out, pushed apart."""
    for stack in bench.line.stacks:
        at = [n for n, spot in enumerate(stack.spots) if spot.part == part]
        fitted = [n for n, spot in enumerate(stack.spots) if spot.part not in bench.left_out]
        before = [n for n in fitted if at and n < at[0]]
        after = [n for n in fitted if at and n > at[-1]]
        cover = cover_on(bench.rebuild, stack.spots, bench.net.case, floating(bench.rebuild))
        if at and cover in bench.net.pulls:
            return _stand_off(bench.net, str(cover))
        if before and after:
            return _apart(bench.net, stack.spots[before[-1]], stack.spots[after[0]])
    raise NothingStops(part)


def _apart(net: Network, before: Spot, after: Spot) -> Array:
    """Greatest distance to which two spots can be pushed apart."""
    here = net.layouts[before.part].offsets[before.name]
    there = net.layouts[after.part].offsets[after.name]
    if before.part == after.part:
        return there - here
    back = nearest(net.closed, after.part).get(before.part)
    if back is None:
        raise NothingStops(before.part)
    return there - here - back


def _depth(bench: Bench, asked: Any) -> tuple[Array, Array]:
    """Distance between two spots with all loose parts held to one end."""
    to_last = asked.held == bench.line.last
    contacts = bench.net.closed
    found = nearest(turned(contacts) if to_last else contacts, bench.net.case)
    ends = [
        _stand(bench, spot, found, -1.0 if to_last else 1.0) for spot in (asked.from_, asked.to)
    ]
    distance = ends[1] - ends[0]
    return distance, np.abs(distance)


def _stand(bench: Bench, spot: Spot, found: Mapping[str, Array], sign: float) -> Array:
    """Where a spot stands, from the case."""
    offset = bench.net.layouts[spot.part].offsets[spot.name]
    if spot.part == bench.net.case:
        return offset
    if spot.part not in found:
        raise NothingStops(spot.part)
    return offset + sign * found[spot.part]


def _thickness(bench: Bench, asked: Any) -> tuple[Array, Array]:
    """Length of one part between its ends."""
    offsets = bench.net.layouts[asked.of].offsets
    length = offsets[LAST_END] - offsets[FIRST_END]
    return length, np.abs(length)


READERS: dict[str, Callable[[Bench, Any], tuple[Array, Array]]] = {
    "float": _float,
    "end float": _float,
    "gap": _gap,
    "depth": _depth,
    "thickness": _thickness,
}
