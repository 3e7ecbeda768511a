"""Where the lands of a part lie, and what sits on them.

Reading order: `stretches` places the lands of one side of a part, `roosts` the parts of a stack on
what they sit on, `seat_of` finds the land under a ring. All of it by nominal sizes: what is not
known is left out. An end of a part that no size reaches lies beyond all its other spots.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import inf

from dryfit.model.lands import BORE, OUTSIDE, Land, lands
from dryfit.model.parts import Bearing, Turned
from dryfit.model.rebuild import FIRST_END, LAST_END, Between, Line, Rebuild, Stack
from dryfit.model.spots import Spot
from dryfit.quantities import NotKnown, Place, Size
from dryfit.solve.luck import NoLuck, full
from dryfit.solve.rings import INNER, OUTER, sides
from dryfit.solve.sizes import metres
from dryfit.solve.spots import lay_out

OVERHANG = 1e-3
"""A ring may stand over the edge of a land by so much, which its chamfer clears [m]: estimate."""

SIDE_OF = {INNER: OUTSIDE, OUTER: BORE}
"""On which side of its host a ring of a bearing sits."""

Spots = Mapping[str, tuple[int, float]]
"""Spots of a part: which group of them sizes tie together, and where in it each lies [m]."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A diameter with where on its part it holds.

    Attributes
    ----------
    place
        Of its size in the text.
    key
        Of its land; empty where one size holds all along.
    size
        As typed.
    group
        Of the spots that bound it; None where it goes from end to end and no size reaches these.
    first, last
        Where it begins and ends [m]; endless where it goes to an end that no size reaches.
    reach
        Where the first and the last spot of each group lie [m].
    """

    place: Place
    key: str
    size: Size | NotKnown
    group: int | None
    first: float
    last: float
    reach: Mapping[int, tuple[float, float]]

    def within(self, group: int) -> tuple[float, float] | None:
        """Say from where to where it certainly goes, among the spots of a group."""
        if self.group not in (None, group):
            return None
        least, most = self.reach[group]
        first = least if self.first == -inf < least < self.last else self.first
        last = most if self.last == inf > most > self.first else self.last
        return first, last


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


def spots_of(rebuild: Rebuild, part: str) -> Spots:
    """Place the spots of a part, those together that known sizes tie together.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    part
        The part [text]

    Returns
    -------
    spots
        By name: number of their group, and place in it [m]; a spot that no size reaches is alone
        in its group, but the two ends of the part only have a place where a size gives it

    Valid
    -----
    Any part; sizes that contradict each other are evened out.

    Source
    ------
    As `lay_out`.

    Examples
    --------
    >>> from dryfit.quantities import read_size
    >>> size = Between("s.a to s.b", Spot("s", "a"), Spot("s", "b"), read_size("5", "mm"))
    >>> spots_of(Rebuild("mm", sizes={size.key: size}), "s")
    {'a': (0, 0.0), 'b': (0, 0.005)}
    """
    left = [b for b in rebuild.sizes.values() if b.start.part == part and isinstance(b.size, Size)]
    found: dict[str, tuple[int, float]] = {}
    group = 0
    while left:
        tied, names = _tied(left)
        left = [b for b in left if b not in tied]
        values = {b.key: full(NoLuck(), _length(b)) for b in tied}
        layout = lay_out(part, tied, used=(), values=values, doubts={}, draws=NoLuck(), assumed={})
        found |= {name: (group, float(layout.offsets[name][0])) for name in sorted(names)}
        group += 1
    alone = sorted(_named(rebuild, part) - {*found, FIRST_END, LAST_END})
    return found | {name: (group + i, 0.0) for i, name in enumerate(alone)}


def _named(rebuild: Rebuild, part: str) -> set[str]:
    """List the spots of a part that stacks and its own lands name."""
    record = rebuild.parts.get(part)
    sides = (record.outside, record.bore) if isinstance(record, Turned) else ()
    stacks = [stack for line in rebuild.lines.values() for stack in line.stacks]
    own = {name for side in sides for land in lands(side) for name in land.spots}
    return own | {spot.name for stack in stacks for spot in stack.spots if spot.part == part}


def _length(between: Between) -> float:
    return metres(between.size) if isinstance(between.size, Size) else 0.0


def _tied(sizes: list[Between]) -> tuple[list[Between], set[str]]:
    """Take the sizes that hang together with the first of them."""
    names = {sizes[0].start.name, sizes[0].end.name}
    tied: list[Between] = []
    while True:
        more = [b for b in sizes if b not in tied and names & {b.start.name, b.end.name}]
        if not more:
            return tied, names
        tied += more
        names |= {spot.name for b in more for spot in (b.start, b.end)}


def stretches(rebuild: Rebuild, part: str, side: str, line: Line) -> list[Stretch]:
    """Place the lands of one side of a part.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    part
        The part [text]
    side
        `OUTSIDE` or `BORE` [text]
    line
        Only lands along this one; a case has bores along several [line]

    Returns
    -------
    stretches
        Those whose place is known [m]

    Valid
    -----
    Any part; one without lands has none.

    Source
    ------
    None needed.

    Examples
    --------
    >>> stretches(Rebuild("mm"), "spindle", OUTSIDE, Line("spindle", "nose", "tail", ()))
    []
    """
    record = rebuild.parts.get(part)
    typed = getattr(record, side, None) if isinstance(record, Turned) else None
    if typed is None:
        return []
    spots = spots_of(rebuild, part)
    ends: dict[int, tuple[float, float]] = {}
    for group, at in spots.values():
        least, most = ends.get(group, (at, at))
        ends[group] = min(least, at), max(most, at)
    place: Place = ("parts", part, side)
    if not isinstance(typed, tuple):
        typed_lands = [(place, "", Land(FIRST_END, LAST_END, typed))]
    else:
        typed_lands = [((*place, land.key), land.key, land) for land in lands(typed)]
    found = []
    for where, key, land in typed_lands:
        bounds = _bounds(land, spots)
        if bounds and _along(rebuild, part, land) == line.name:
            found.append(Stretch(where, key, land.size, *bounds, ends))
    return found


def _bounds(land: Land, spots: Spots) -> tuple[int | None, float, float] | None:
    """Say in which group of spots a land lies, and from where to where."""
    endless = {FIRST_END: -inf, LAST_END: inf}
    tied = [spots[name] for name in (land.start, land.end) if name in spots]
    bare = [name for name in (land.start, land.end) if name not in spots]
    loose = [endless[name] for name in bare if name in endless]
    if len(tied) == 2 and tied[0][0] != tied[1][0]:
        return None
    if len(tied) + len(loose) != 2:
        return None
    ends = [*loose, *(at for _, at in tied)]
    return (tied[0][0] if tied else None), min(ends), max(ends)


def _along(rebuild: Rebuild, part: str, land: Land) -> str | None:
    """Name the one line along which a land lies; None where it may be any of several."""
    lying: dict[str, set[str]] = {}
    for line in rebuild.lines.values():
        used = {s.name for stack in line.stacks for s in stack.spots if s.part == part}
        if used:
            lying[line.name] = used
    here = set(lying)
    for name in land.spots:
        here &= {line for line, used in lying.items() if name in used} or here
    return here.pop() if len(here) == 1 else None


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
    """Find the land on or in which a ring of a bearing sits.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    bearing
        The bearing [text]
    ring
        `INNER` or `OUTER` [text]
    host
        What that ring sits on or in [text]

    Returns
    -------
    stretch
        None unless it is one land for certain, and the whole ring stands on it [stretch]

    Valid
    -----
    Any bearing.

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
    if getattr(rebuild.parts.get(host), side, None) is None or not isinstance(part, Bearing):
        return None
    found: dict[Place, Stretch] = {}
    for line in rebuild.lines.values():
        here = stretches(rebuild, host, side, line)
        for stack in line.stacks:
            parts = [spot.part for spot in stack.spots]
            if bearing in parts and sides(rebuild, parts, part) == {ring}:
                under = [s for s in here if not s.key] or _under(rebuild, stack, part, host, here)
                found |= {stretch.place: stretch for stretch in under}
    return next(iter(found.values())) if len(found) == 1 else None


def _under(
    rebuild: Rebuild, stack: Stack, part: Bearing, host: str, here: list[Stretch]
) -> list[Stretch]:
    """List the lands under a ring of a stack that all that is known of its place agrees on."""
    known = [roost for roost in roosts(rebuild, stack, part.name, host) if roost.exact]
    return [stretch for stretch in here if known and all(_bears(stretch, r) for r in known)]


def _bears(stretch: Stretch, roost: Roost) -> bool:
    """Tell whether the whole of a ring stands on a land."""
    if stretch.group not in (None, roost.group) or roost.near is None or roost.far is None:
        return False
    return stretch.first <= roost.near + OVERHANG and roost.far - OVERHANG <= stretch.last
