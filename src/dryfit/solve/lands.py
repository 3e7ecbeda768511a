"""Where the lands of a part lie.

All of it by nominal sizes: what is not known is left out. An end of a part that no size reaches
lies beyond all its other spots.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf

from dryfit.model.lands import Land, lands
from dryfit.model.parts import Turned
from dryfit.model.rebuild import FIRST_END, LAST_END, Between, Line, Rebuild
from dryfit.quantities import NotKnown, Place, Size
from dryfit.solve.luck import NoLuck, full
from dryfit.solve.sizes import metres
from dryfit.solve.spots import lay_out

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

    @property
    def diameter(self) -> float:
        """Its nominal size [m]; nothing where it is not known."""
        return metres(self.size) if isinstance(self.size, Size) else 0.0

    def within(self, group: int) -> tuple[float, float] | None:
        """Say from where to where it certainly goes, among the spots of a group."""
        if self.group not in (None, group):
            return None
        least, most = self.reach[group]
        first = least if self.first == -inf < least < self.last else self.first
        last = most if self.last == inf > most > self.first else self.last
        return first, last


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
    >>> from dryfit.model.spots import Spot
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
    >>> stretches(Rebuild("mm"), "spindle", "outside", Line("spindle", "nose", "tail", ()))
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
