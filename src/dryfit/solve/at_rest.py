"""Where the spots of all bodies of a line lie in the finished, cold unit with sizes as typed.

Reading order: the answer, `at_rest`, then `closing`, which gives lengths that nobody knows values
with which the line closes, for a picture of it.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from dryfit.mechanics.springs import spring_force
from dryfit.model.rebuild import BUILT, FIRST_END, LAST_END, Line, Rebuild
from dryfit.model.spots import Spot
from dryfit.solve.benchtop import NoAnswer, NotYet, lay_on
from dryfit.solve.elastic import Held, Stray, hold
from dryfit.solve.joints import cover_on
from dryfit.solve.luck import full
from dryfit.solve.network import Network, floating, network
from dryfit.solve.newton import Unsettled
from dryfit.solve.rigid import nearest
from dryfit.solve.rings import INNER, OUTER, on_rings, owner, ring
from dryfit.solve.sample import Sample
from dryfit.solve.seats import seats
from dryfit.solve.states import Fitted, conditions

Places = Mapping[str, Mapping[str, float]]
"""Where each spot of each body lies along a line [m]."""


@dataclass(frozen=True, slots=True)
class AtRest:
    """A line at rest.

    Attributes
    ----------
    places
        Where each spot of each body lies [m].
    stacks
        Its stacks, bearings as their rings.
    hosts
        What each ring, nut and cover sits on, in or is screwed to.
    joints
        For each thing that is screwed on, the spot of its host and its own that meet there.
    lacking
        Keys of lengths that are not known.
    settled
        Whether the parts came to rest with all that gives; if not they lie as rigid ones would.
    """

    places: Places
    stacks: tuple[tuple[Spot, ...], ...]
    hosts: Mapping[str, str]
    joints: Mapping[str, tuple[Spot, Spot]]
    lacking: frozenset[str]
    settled: bool


def at_rest(
    rebuild: Rebuild,
    line: Line,
    sample: Sample,
    *,
    packs: Mapping[str, float],
    assumed: Mapping[str, float],
) -> AtRest:
    """Lay all bodies of a line where they come to rest.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    line
        One of its lines [line]
    sample
        True sizes; the first draw counts [m], shape (n,) each
    packs
        Thickness of each setting [m]
    assumed
        Values for what is not known, by key [m]

    Returns
    -------
    at rest
        Places along the line, counted from a spot of the case [m]

    Valid
    -----
    One housing.

    Source
    ------
    As `elastic.hold`, and `rigid.nearest` where that finds no rest.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> from dryfit.solve.sample import sample
    >>> line = Line("spindle", "nose", "tail", ())
    >>> at_rest(Rebuild("mm"), line, sample(Rebuild("mm"), NoLuck()), packs={}, assumed={}).places
    {}
    """
    put = _put(rebuild, sample, packs, assumed)
    net = network(rebuild, line, sample, put)
    held = _held(rebuild, line, sample, put)
    stacks = tuple(tuple(on_rings(rebuild, stack.spots)) for stack in line.stacks)
    bodies = _rigid(net) if held is None else {b: float(held.place(b)[0]) for b in held.bodies}
    bodies = {net.case: 0.0, **bodies}
    places = {
        body: {name: bodies.get(body, 0.0) + float(x[0]) for name, x in layout.offsets.items()}
        for body, layout in net.layouts.items()
    }
    lacking = frozenset().union(*(layout.lacking for layout in net.layouts.values()))
    hosts = {**seats(rebuild, stacks), **net.hosts, **dict(_screwed(net))}
    joints = dict(_joints(rebuild, stacks, net.case))
    return AtRest(_pressed(net, places, bodies), stacks, hosts, joints, lacking, held is not None)


def _put(
    rebuild: Rebuild, sample: Sample, packs: Mapping[str, float], assumed: Mapping[str, float]
) -> Fitted:
    thick = {name: full(sample.draws, pack) for name, pack in packs.items()}
    return Fitted(thick, conditions(rebuild, BUILT, sample.draws), {}, assumed)


def _held(rebuild: Rebuild, line: Line, sample: Sample, put: Fitted) -> Held | None:
    """Bring the line to rest; None where it has no place of rest."""
    try:
        bench = lay_on(rebuild, sample, put, line)
        return bench.at_rest({}) if bench.net.gives else hold(bench.net, {})
    except (NoAnswer, NotYet, Stray, Unsettled):
        return None


def _rigid(net: Network) -> dict[str, float]:
    """Push all to the first end; what nothing stops goes with a neighbour."""
    found = {net.case: 0.0}
    found |= {body: float(place[0]) for body, place in nearest(net.closed, net.case).items()}
    for _ in net.layouts:
        for contact in net.closed:
            if contact.before in found and contact.after not in found:
                found[contact.after] = found[contact.before] + float(contact.length[0])
            elif contact.after in found and contact.before not in found:
                found[contact.before] = found[contact.after] - float(contact.length[0])
    return found


def _screwed(net: Network) -> Iterator[tuple[str, str]]:
    """Say what each cover and nut is screwed to."""
    for guest, pull in net.pulls.items():
        if guest not in net.hosts:
            yield guest, pull.before if pull.after == guest else pull.after


def _joints(
    rebuild: Rebuild, stacks: Sequence[Sequence[Spot]], case: str
) -> Iterator[tuple[str, tuple[Spot, Spot]]]:
    """Say where each thing that is screwed on meets what it is screwed to."""
    loose = floating(rebuild)
    for stack in stacks:
        guest = cover_on(rebuild, stack, case, loose)
        if guest:
            ends = stack[0], stack[-1]
            yield guest, ends if ends[1].part == guest else (ends[1], ends[0])


def _pressed(net: Network, places: Places, bodies: Mapping[str, float]) -> Places:
    """Give each spring the height to which it is pressed."""
    found = {body: dict(spots) for body, spots in places.items()}
    for contact in net.contacts:
        if contact.law and contact.law.formula is spring_force:
            apart = bodies.get(contact.after, 0.0) - bodies.get(contact.before, 0.0)
            over = float(contact.length[0]) - apart
            if over > 0:
                found[contact.before][LAST_END] -= over
    return found


LOOSE = 0.02
"""Weight of an estimate against that of two faces that touch [-]."""

HARD = 1e3
"""Weight of a length that is known [-]."""


def closing(
    rebuild: Rebuild,
    line: Line,
    sample: Sample,
    *,
    packs: Mapping[str, float],
    likely: Callable[[str, str, str], float],
) -> dict[str, float]:
    """Give lengths that are not known values with which the faces of a line meet, for a picture.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    line
        One of its lines [line]
    sample
        True sizes; the first draw counts [m], shape (n,) each
    packs
        Thickness of each setting [m]
    likely
        Estimate of a length by part and its two spots [m]

    Returns
    -------
    assumed
        By key of what is not known [m]

    Valid
    -----
    Any line.

    Source
    ------
    Least squares: faces that may touch meet, as far as estimates allow.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> from dryfit.solve.sample import sample
    >>> line = Line("spindle", "nose", "tail", ())
    >>> closing(Rebuild("mm"), line, sample(Rebuild("mm"), NoLuck()), packs={},
    ...         likely=lambda part, start, end: 0.1)
    {}
    """
    net = network(rebuild, line, sample, _put(rebuild, sample, packs, {}))
    spots = [(body, name) for body, lay in net.layouts.items() for name in lay.offsets]
    number = {spot: at for at, spot in enumerate(spots)}
    open_ = {key: ends for key, ends in _open(rebuild, net) if {*ends} <= {*number}}
    if not open_:
        return {}
    rows = [(*ends, _likely(rebuild, key, ends, likely), LOOSE) for key, ends in open_.items()]
    rows += [row for row in _known(rebuild, net, sample) if {row[0], row[1]} <= {*number}]
    for stack in line.stacks:
        for a, b in pairwise(on_rings(rebuild, stack.spots)):
            if a.part != b.part:
                rows.append(((a.part, a.name), (b.part, b.name), 0.0, 1.0))
    rows += [(*ends, 0.0, 1.0) for ends in _pairs_of_rings(net)]
    design = np.zeros((len(rows), len(spots)))
    for n, (start, end, _, weight) in enumerate(rows):
        design[n, number[start]], design[n, number[end]] = -weight, weight
    aim = np.array([length * weight for *_, length, weight in rows])
    at = np.linalg.lstsq(design, aim, rcond=None)[0]
    return {key: float(at[number[end]] - at[number[start]]) for key, (start, end) in open_.items()}


def _likely(
    rebuild: Rebuild, key: str, ends: tuple["End", "End"], likely: Callable[[str, str, str], float]
) -> float:
    """Estimate a length; one that nobody thought of to a spot somewhere within is a part of it."""
    length = likely(owner(ends[0][0]), ends[0][1], ends[1][1])
    whole = key in rebuild.sizes or key == ends[0][0]
    return length if whole else WITHIN * length


WITHIN = 0.4
"""Share of the length of a part at which a spot within it is taken to lie [-]: estimate."""

End = tuple[str, str]
"""A spot, by body and name."""


def _open(rebuild: Rebuild, net: Network) -> Iterator[tuple[str, tuple[End, End]]]:
    """List the lengths between spots that are not known, with their two ends."""
    for body, layout in net.layouts.items():
        for key in layout.lacking:
            between = rebuild.sizes.get(key)
            if between:
                yield key, ((body, between.start.name), (body, between.end.name))
            elif key == body:
                yield key, ((body, FIRST_END), (body, LAST_END))
            elif key.startswith(f"{body}.") and f" to {body}." in key:
                start, _, end = key.removeprefix(f"{body}.").partition(f" to {body}.")
                yield key, ((body, start), (body, end))


def _pairs_of_rings(net: Network) -> Iterator[tuple[End, End]]:
    """List the rings of each bearing: its row keeps them beside each other."""
    for body in net.layouts:
        outer = ring(owner(body), OUTER)
        if body == ring(owner(body), INNER) and outer in net.layouts:
            yield (body, FIRST_END), (outer, FIRST_END)


def _known(
    rebuild: Rebuild, net: Network, sample: Sample
) -> Iterator[tuple[End, End, float, float]]:
    """List the lengths that are known: sizes, rings, packs."""
    for body, layout in net.layouts.items():
        own = [
            b for key, b in rebuild.sizes.items() if b.start.part == body and key in sample.sizes
        ]
        for size in own:
            ends = (body, size.start.name), (body, size.end.name)
            yield *ends, float(sample.sizes[size.key][0]), HARD
        if not own and not layout.lacking and {FIRST_END, LAST_END} <= {*layout.offsets}:
            long = float((layout.offsets[LAST_END] - layout.offsets[FIRST_END])[0])
            yield (body, FIRST_END), (body, LAST_END), long, HARD
