"""A tight ring driven home and drawn off: a sleeve on its face, claws or a drift behind it."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from dryfit.plan.bodies import NIP, Stretch
from dryfit.plan.masks import bits
from dryfit.plan.nest import Nest
from dryfit.plan.reach import FAR, Reach, least_shut, radii_of
from dryfit.plan.strip import strip

CLAW, GRIP = 5.0, 1.0
"""Thickness of the claw of a puller, and how high a face it has to have hold of [mm]: estimates."""

Radii = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Tight:
    """A ring that grips what it sits on or in.

    Attributes
    ----------
    body
        The body that it is, or is a piece of.
    span
        From where to where it reaches along the line [mm].
    radii
        From its bore to its outside [mm].
    inside
        Whether it grips with its bore; else with its outside.
    """

    body: str
    span: tuple[float, float]
    radii: Radii
    inside: bool


def sleeves(nest: Nest, ring: Tight, way: str, *, typed: bool = False) -> Iterator[Reach]:
    """Say whether a sleeve half as thick as a ring is high gets to its face from an end.

    Examples
    --------
    >>> from dryfit.plan.bodies import Body, stretch
    >>> bearing = Body("bearing", (stretch(0, 10, 20, 26), stretch(0, 10, 34, 40)))
    >>> gear = Body("gear", (stretch(10, 20, 20, 50),))
    >>> nest, outer = Nest((bearing, gear)), Tight("bearing", (0, 10), (34, 40), inside=False)
    >>> [nest.told(reach.shut_by) for way in nest.ways for reach in sleeves(nest, outer, way)]
    [('gear',), ()]
    """
    own, (low, high) = 1 << nest.at[ring.body], ring.radii
    face, half = ring.span[1] if way == nest.ways[0] else ring.span[0], (high - low) / 2
    found = dict[Reach, None]()
    for at in (low, low + half / 2, low + half):
        shut = nest.zone((face, face), (at, at + half), way, typed=typed) & ~own
        found[Reach("sleeve", way, shut)] = None
    yield from found


def pullers(nest: Nest, ring: Tight, way: str, *, typed: bool = False) -> tuple[Reach, ...]:
    """Say what gets behind a ring to draw it off towards an end, or to drive it there.

    Claws from the end that it goes to, round what it is a piece of, or within it if it is a ring
    by itself; plates from outside; a drift from the other end. Each wants `GRIP` of its face.

    Parameters
    ----------
    nest, ring
        The line, and the ring.
    way
        Towards which end it is drawn.
    typed
        Whether only what somebody typed is in the way.
    """
    to_last, number = way == nest.ways[0], nest.at[ring.body]
    (first, last), (low, high) = ring.span, ring.radii
    rear, back = (first, nest.ways[1]) if to_last else (last, nest.ways[0])
    behind = (first - CLAW, first) if to_last else (last, last + CLAW)
    along = (min(behind[0], first), max(behind[1], last))

    def shut(span: tuple[float, float], radii: Radii, from_: str) -> int:
        return nest.zone(span, radii, from_, typed=typed)

    def filled(radii: Radii) -> int:
        return nest.filling(behind, radii, typed=typed)

    own = 1 << number
    if ring.inside:
        held, round_it = (high - GRIP, high), radii_of(nest.bodies[number])[1]
        claws = filled((held[0], round_it + CLAW)) | shut(along, (round_it, round_it + CLAW), way)
        plates = shut(behind, (held[0], FAR), "outwards")
        found = [("claws", way, claws & ~own), ("plates", "outwards", plates & ~own)]
    else:
        held, within = (low, low + GRIP), max(0.0, low - CLAW)
        claws = filled((within, held[1])) | shut(along, (within, low), way)
        found = [("claws", way, claws)]
    found.append(("drift", back, shut((rear, rear), held, back) & ~own))
    return tuple(Reach(*one) for one in found if not one[2] & own)


def kept_on(nest: Nest, ring: Tight, host: str, stays: Sequence[str]) -> tuple[str, ...]:
    """Name what keeps every puller from a tight ring, however the unit is stripped; else nothing.

    All is off that comes off without it, in the case or, where ring and host come out together,
    on the bench. It may be drawn off by what lies against it, too: a sleeve, another ring.

    Parameters
    ----------
    nest, ring
        The line, and the ring.
    host
        What it grips.
    stays
        What is never taken out: cases.

    Examples
    --------
    A ring against a shoulder as high as itself, and against a lower one:

    >>> from dryfit.plan.bodies import Body, stretch
    >>> ring = Body("ring", (stretch(10, 20, 20, 26),))
    >>> high, low = (stretch(0, 10, 0, radius) for radius in (26, 23))
    >>> tight = Tight("ring", (10, 20), (20, 26), inside=True)
    >>> for shoulder in (high, low):
    ...     shaft = Body("shaft", (shoulder, stretch(10, 40, 0, 20)))
    ...     print(kept_on(Nest((shaft, ring)), tight, "shaft", ["shaft"]))
    ('shaft',)
    ()
    """
    own, fixed = nest.mask([ring.body, host]), nest.mask(stays)
    bare = _stripped(nest, nest.full, {ring.body, host, *stays})
    groups = (nest.unit(own, way, bare) for way in range(len(nest.every_way)))
    dressed = (_stripped(nest, group, {ring.body, host}) for group in groups if not group & fixed)
    stops = [nest.stops(nest.at[ring.body], way, typed=True) for way in (0, 1)]
    ways = [way for n, way in enumerate(nest.ways) if not stops[n] >> nest.at[host] & 1]
    tries = product((bare, *dressed), ways)
    met = (least_shut(nest, _pulled(nest, ring, host, way), there) for there, way in tries)
    return min(met, key=len, default=())


def _stripped(nest: Nest, there: int, kept: Collection[str]) -> int:
    """Give what is left of some bodies once all is off that comes off without those kept."""
    bodies = tuple(nest.bodies[n] for n in bits(there))
    part = nest if there == nest.full else Nest(bodies, nest.first, nest.last)
    off = (body for taken in strip(part, [*kept]).taken for body in taken.bodies)
    return there & ~nest.mask(off)


def _pulled(nest: Nest, ring: Tight, host: str, way: str) -> Iterator[Reach]:
    """Give the pullers behind a ring, and behind what would push it off."""
    seen, waiting = {host, ring.body}, [ring]
    while waiting:
        one = waiting.pop()
        yield from pullers(nest, one, way, typed=True)
        behind = [other for other in _against(nest, one, way) if other.body not in seen]
        seen |= {other.body for other in behind}
        waiting += behind


def _against(nest: Nest, ring: Tight, way: str) -> Iterator[Tight]:
    """Give what lies against the face of a ring that looks away from where it is drawn to."""
    face = ring.span[0] if way == nest.ways[0] else ring.span[1]
    for body in nest.bodies:
        near = next((cell for cell in body.cells if _lies_against(cell, face, ring.radii)), None)
        if near is not None:
            radii = min(near.inner), max(near.outer)
            piece = [c for c in body.cells if min(c.inner) < radii[1] and max(c.outer) > radii[0]]
            span = min(c.first for c in piece), max(c.last for c in piece)
            yield Tight(body.name, span, radii, ring.inside)


def _lies_against(cell: Stretch, face: float, radii: Radii) -> bool:
    touches = min(abs(cell.last - face), abs(cell.first - face)) < NIP
    return touches and min(max(cell.outer), radii[1]) - max(min(cell.inner), radii[0]) > GRIP
