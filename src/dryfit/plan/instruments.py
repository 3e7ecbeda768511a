"""Instruments as shapes: dials on faces and rims, feelers in gaps, all of them through openings."""

from collections.abc import Iterable, Iterator

from dryfit.plan.bodies import Body, Stretch
from dryfit.plan.nest import Nest
from dryfit.plan.reach import FAR, Reach

PROBE, ROD, BLADE, BEND = 4.0, 2.0, 0.5, 10.0
"""Thickness of a dial's probe, of a depth gauge's rod and of a pack of feelers, and the room beside
a gap that a leaf bent at its end wants [mm]: estimates."""

TOUCH = 1.0
"""How far within its edge a probe that hangs over a face touches it [mm]: estimate."""

DIAL, DEPTH, FEELER = "dial", "depth gauge", "feeler"
STRAIGHTEDGE, CORD = "straightedge", "cord"

Span = tuple[float, float]

ALL: Span = (-FAR, FAR)
"""All of a body, wherever it lies [mm]."""


def probes(
    nest: Nest,
    at: float,
    radius: float,
    *,
    thick: float = PROBE,
    tool: str = DIAL,
    typed: bool = False,
) -> tuple[Reach, ...]:
    """Say from which end a probe gets to a face at a place and radius [mm].

    `typed`: only what somebody typed is in the way.
    """
    radii = (max(0.0, radius - thick / 2), radius + thick / 2)
    found = ((way, nest.zone((at, at), radii, way, typed=typed)) for way in nest.ways)
    return tuple(Reach(tool, way, met) for way, met in found)


def on_faces(
    nest: Nest, body: str, tool: str = DIAL, *, within: Span = ALL, typed: bool = False
) -> Iterator[Reach]:
    """Say how a dial gets to a flat face of a body: at its rim, halfway in, or at its bore.

    At both it may hang over the edge by all but what touches, on either side.

    `within`: only of the stretches that lie in there [mm].

    Examples
    --------
    A pin in a cup, its head bare: the other end is within.

    >>> from dryfit.plan.bodies import stretch
    >>> pin = Body("pin", (stretch(0, 5, 0, 8), stretch(5, 30, 0, 5)))
    >>> cup = Body("cup", (stretch(10, 35, 5, 9), stretch(35, 40, 0, 9)))
    >>> nest = Nest((pin, cup))
    >>> [(reach.way, nest.told(reach.shut_by)) for reach in on_faces(nest, "pin")]
    [('to last', ('cup',)), ('to first', ())]
    """
    number = nest.at[body]
    found = dict[Reach, None]()
    for cell in _cells(nest.bodies[number], within):
        inner, outer = min(cell.inner), max(cell.outer)
        for way, at in zip(nest.ways, (cell.last, cell.first), strict=True):
            for radius in _held_at(inner, outer):
                every = probes(nest, at, radius, tool=tool, typed=typed)
                found |= dict.fromkeys(one for one in every if one.way == way)
    yield from _not_past_itself(found, number)


def _held_at(inner: float, outer: float) -> tuple[float, ...]:
    """Say at which radii a probe is tried on a flat face [mm]."""
    edges = (outer - TOUCH, outer - PROBE / 2, inner + PROBE / 2, inner + TOUCH)
    return (*edges[:2], (inner + outer) / 2, *edges[2:])


def on_rims(
    nest: Nest, body: str, tool: str = DIAL, *, within: Span = ALL, typed: bool = False
) -> Iterator[Reach]:
    """Say how something `PROBE` wide gets to the outside of a body: across, or along it.

    `within`: only of the stretches that lie in there [mm].

    Examples
    --------
    A pin that stands out of a cup by 6 mm is got at from the side; in the cup it is not.

    >>> from dryfit.plan.bodies import stretch
    >>> pin, cup = Body("pin", (stretch(0, 30, 0, 5),)), Body("cup", (stretch(6, 40, 5, 9),))
    >>> nest = Nest((pin, cup))
    >>> [nest.told(r.shut_by) for r in on_rims(nest, "pin") if r.way == "outwards"]
    [(), ('cup',)]
    """
    number = nest.at[body]
    found = dict[Reach, None]()
    for cell in _cells(nest.bodies[number], within):
        first, last, outer = cell.first, cell.last, max(cell.outer)
        if last - first < PROBE:
            continue
        for start in (first, (first + last - PROBE) / 2, last - PROBE):
            band = (start, start + PROBE)
            shut = nest.zone(band, (outer, FAR), "outwards", typed=typed)
            found[Reach(tool, "outwards", shut)] = None
        for way, at in zip(nest.ways, (last - PROBE, first + PROBE), strict=True):
            shut = nest.zone((at, at), (outer, outer + PROBE), way, typed=typed)
            found[Reach(tool, way, shut)] = None
    yield from _not_past_itself(found, number)


def _cells(body: Body, within: Span) -> Iterator[Stretch]:
    return (cell for cell in body.cells if within[0] <= cell.first and cell.last <= within[1])


def _not_past_itself(found: Iterable[Reach], number: int) -> Iterator[Reach]:
    """Leave out the ways that the body itself is in."""
    return (one for one in found if not one.shut_by >> number & 1)


def feelers(
    nest: Nest, own: Iterable[str], span: Span, *, radius: float, typed: bool = False
) -> tuple[Reach, ...]:
    """Say how a feeler gets into a gap between two faces: from outside, or bent, along the line.

    Parameters
    ----------
    own
        Bodies that are no hindrance: what stands off, and what is left out while it is felt.
    span, radius
        Where the gap opens, of a feeler's thickness or more [mm].
    typed
        Whether only what somebody typed is in the way.
    """
    free, beside = nest.mask(own), (radius, radius + BEND)
    room = dict.fromkeys(nest.ways, beside) | {"outwards": (radius, FAR)}
    return tuple(
        Reach(FEELER, way, nest.zone(span, radii, way, typed=typed) & ~free)
        for way, radii in room.items()
    )


def through_openings(nest: Nest, tool: str = DIAL) -> Iterator[Reach]:
    """Say how an instrument gets in at the side of a case that is open, or still parted."""
    for door in nest.doors:
        lid = 1 << nest.at[door.lid] if door.lid else 0
        way = f"before '{door.lid}' is on" if door.lid else "through the opening"
        yield Reach(tool, way, lid)
