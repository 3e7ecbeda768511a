"""What sits on which land.

Reading order: `roosts` places the parts of a stack on what they sit on, `seat_of` finds the land
under a ring. All of it by nominal sizes, with the parts of a stack pushed together.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from dryfit.model.lands import BORE, OUTSIDE
from dryfit.model.parts import Bearing, Part, Ring
from dryfit.model.rebuild import FIRST_END, LAST_END, Rebuild, Stack
from dryfit.model.spots import Spot
from dryfit.quantities import Place, Size
from dryfit.solve.lands import Stretch, spots_of, stretches
from dryfit.solve.rings import INNER, OUTER, sides
from dryfit.solve.sizes import metres

OVERHANG = 1e-3
"""A ring may stand over the edge of a land by so much, which its chamfer clears [m]: estimate."""

SIDE_OF = {INNER: OUTSIDE, OUTER: BORE}
"""On which side of its host a ring of a bearing sits."""


@dataclass(frozen=True, slots=True)
class Roost:
    """Where along its host one face of a part of a stack comes to lie.

    Attributes
    ----------
    group, near
        The place on the host that the face nearer to the line's first end has; as far as known,
        no further along the line than this [m].
    far
        The same of its other face; no less far along than this [m].
    exact
        Whether both are the faces themselves.
    """

    group: int
    near: float | None
    far: float | None
    exact: bool


def roosts(rebuild: Rebuild, stack: Stack, part: str, host: str) -> Iterator[Roost]:
    """Say where a part of a stack comes to lie on another part of it.

    It lies behind the last spot of the host before it, and before the first one after it, with the
    parts between them pushed together.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    stack
        One that both lie in [stack]
    part
        What sits there [text]
    host
        What it sits on or in [text]

    Returns
    -------
    roosts
        One from each of the two spots, as far as they are there and have a place [m]

    Valid
    -----
    Any stack.

    Source
    ------
    None needed.

    Examples
    --------
    >>> stack = Stack("s", (Spot("shaft", "shoulder"), Spot("ring", "first end")))
    >>> [*roosts(Rebuild("mm"), stack, "ring", "shaft")]
    []
    """
    placed = spots_of(rebuild, host)
    mine = [i for i, spot in enumerate(stack.spots) if spot.part == part]
    if not mine:
        return
    if {stack.spots[i].name for i in mine} - {FIRST_END, LAST_END}:
        return  # it touches by a face inside it
    own = _from_to(rebuild, stack, Spot(part, FIRST_END), Spot(part, LAST_END))
    before = [i for i, s in enumerate(stack.spots[: mine[0]]) if s.part == host]
    after = [i for i, s in enumerate(stack.spots) if s.part == host and i > mine[-1]]
    if before and stack.spots[before[-1]].name in placed:
        group, at = placed[stack.spots[before[-1]].name]
        run = _length_of(rebuild, stack, stack.spots[before[-1] + 1 : mine[0]])
        near = None if run is None else at + run
        far = at if near is None or own is None else near + own
        yield Roost(group, near, far, near is not None and own is not None)
    if after and stack.spots[after[0]].name in placed:
        group, at = placed[stack.spots[after[0]].name]
        run = _length_of(rebuild, stack, stack.spots[mine[-1] + 1 : after[0]])
        back = None if run is None else at - run
        near = at if back is None or own is None else back - own
        yield Roost(group, near, back, back is not None and own is not None)


def _length_of(rebuild: Rebuild, stack: Stack, spots: Iterable[Spot]) -> float | None:
    """Add up the parts between the spots of a stack; None where one is not known."""
    total = 0.0
    for one, other in pairwise(spots):
        if one.part == other.part:
            length = _from_to(rebuild, stack, one, other)
            if length is None:
                return None
            total += length
    return total


def _from_to(rebuild: Rebuild, stack: Stack, one: Spot, other: Spot) -> float | None:
    """Give the nominal way from one spot of a part to the next of it in a stack."""
    part = rebuild.parts.get(one.part)
    if isinstance(part, Bearing):
        told = sides(rebuild, [spot.part for spot in stack.spots], part)
        own = part.inner_width if told == {INNER} else part.outer_width
        width = own if own is not None else part.width
        return metres(width) if isinstance(width, Size) else None
    if one.part in rebuild.settings:
        fitted = rebuild.settings[one.part].fitted
        return metres(fitted) if fitted else None
    spots = spots_of(rebuild, one.part)
    if one.name not in spots or other.name not in spots:
        return None
    (group, start), (other_group, end) = spots[one.name], spots[other.name]
    return end - start if group == other_group else None


def seat_of(rebuild: Rebuild, bearing: str, ring: str, host: str) -> Stretch | None:
    """Find the land on or in which a ring of a bearing, or a plain ring, sits.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    bearing
        The bearing, or a plain ring [text]
    ring
        `INNER` or `OUTER`; of a plain ring, by which side it fits [text]
    host
        What that ring sits on or in [text]

    Returns
    -------
    stretch
        None unless it is one land for certain, and the whole ring stands on it [stretch]

    Valid
    -----
    Any bearing or plain ring.

    Source
    ------
    None needed.

    Examples
    --------
    >>> seat_of(Rebuild("mm"), "front", INNER, "spindle") is None
    True
    """
    side = SIDE_OF[ring]
    part = rebuild.parts.get(bearing)
    if getattr(rebuild.parts.get(host), side, None) is None:
        return None
    if not isinstance(part, Bearing | Ring):
        return None
    found: dict[Place, Stretch] = {}
    for line in rebuild.lines.values():
        here = stretches(rebuild, host, side, line)
        for stack in line.stacks:
            parts = [spot.part for spot in stack.spots]
            whole = isinstance(part, Ring) and host in parts
            if bearing in parts and (whole or _goes_through(rebuild, parts, part, ring)):
                under = [s for s in here if not s.key] or _under(rebuild, stack, part, host, here)
                found |= {stretch.place: stretch for stretch in under}
    return next(iter(found.values())) if len(found) == 1 else None


def _goes_through(rebuild: Rebuild, parts: list[str], part: Part, ring: str) -> bool:
    """Tell whether a stack goes through one ring of a bearing."""
    return isinstance(part, Bearing) and sides(rebuild, parts, part) == {ring}


def _under(
    rebuild: Rebuild, stack: Stack, part: Part, host: str, here: list[Stretch]
) -> list[Stretch]:
    """List the lands under a ring of a stack that all that is known of its place agrees on."""
    known = [roost for roost in roosts(rebuild, stack, part.name, host) if roost.exact]
    return [stretch for stretch in here if known and all(_bears(stretch, r) for r in known)]


def _bears(stretch: Stretch, roost: Roost) -> bool:
    """Tell whether the whole of a ring stands on a land."""
    if stretch.group not in (None, roost.group) or roost.near is None or roost.far is None:
        return False
    return stretch.first <= roost.near + OVERHANG and roost.far - OVERHANG <= stretch.last
