"""One line of bodies, and what each would have to be rid of to come off: `Nest`.

Reading order: a move, the nest with its masks, taking it apart, what is locked in.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from dryfit.plan.bodies import ALL_ROUND, SAME, Body, Level
from dryfit.plan.masks import bits
from dryfit.plan.sweep import Cells, Levels, both_ways, cells_of, threads_of


@dataclass(frozen=True, slots=True)
class Move:
    """A way for a body to come off.

    Attributes
    ----------
    way
        As it is told: "to nose", "outwards".
    stops
        Bodies that must be gone.
    takes
        By what the others are passed, body by body, where it takes more than a push.
    """

    way: str
    stops: int
    takes: Mapping[int, Level] = field(default_factory=dict)


@dataclass(frozen=True)
class Nest:
    """Bodies on one axis.

    Attributes
    ----------
    bodies
        Where they lie in the finished unit.
    first, last
        What the two ends of the line are called.
    held
        Bodies that others hold besides their shape, by name: a cover by its screws, what is staked
        by its stake.
    more
        Further bodies that stop one, by name and way: those of other lines.
    """

    bodies: tuple[Body, ...]
    first: str = "first"
    last: str = "last"
    held: Mapping[str, frozenset[str]] = field(default_factory=dict)
    more: Mapping[tuple[str, str], frozenset[str]] = field(default_factory=dict)

    @cached_property
    def at(self) -> dict[str, int]:
        """Places of bodies by name."""
        return {body.name: n for n, body in enumerate(self.bodies)}

    @property
    def full(self) -> int:
        """All bodies."""
        return (1 << len(self.bodies)) - 1

    @cached_property
    def levels(self) -> tuple[Levels, Levels]:
        """What it takes to get each past each other, towards the last end and the first."""
        return both_ways(self.bodies)

    @cached_property
    def cells(self) -> Cells:
        """All stretches where they lie."""
        return cells_of([body.cells for body in self.bodies], threads_of(self.bodies))

    @property
    def ways(self) -> tuple[str, str]:
        """Both ways along the line in words, towards the last end first."""
        return f"to {self.last}", f"to {self.first}"

    @cached_property
    def moves(self) -> tuple[tuple[Move, ...], ...]:
        """For each body its ways off."""
        return tuple(self._moves(n, body) for n, body in enumerate(self.bodies))

    def _moves(self, number: int, body: Body) -> tuple[Move, ...]:
        held = self.mask(self.held.get(body.name, ()))
        if body.outwards:
            return (Move("outwards", held | self.above(number)),)
        found = []
        for way, level in zip(self.ways, self.levels, strict=True):
            row = level[number]
            stops = packed(row > body.can) | self.mask(self.more.get((body.name, way), ()))
            takes = {int(n): Level(row[n]) for n in np.nonzero((row > 0) & (row <= body.can))[0]}
            found.append(Move(way, held | stops, takes))
        return tuple(found)

    def mask(self, names: Iterable[str]) -> int:
        """Give the mask of bodies by name."""
        return sum(1 << self.at[name] for name in set(names))

    def told(self, mask: int) -> tuple[str, ...]:
        """Name the bodies of a mask."""
        return tuple(self.bodies[n].name for n in bits(mask))

    def zone(
        self,
        span: tuple[float, float],
        radii: tuple[float, float],
        toward: str,
        *,
        angles: int = ALL_ROUND,
    ) -> int:
        """Give the bodies in the way of a ring that is brought in from an end, or from outside.

        Parameters
        ----------
        span, radii
            Where it is to be in the end [mm].
        toward
            The way from there to where it comes from: one of `ways`, or "outwards".
        angles
            Classes of angles in which it is.
        """
        cells = self.cells
        low, high = cells.inner.min(axis=1), cells.outer.max(axis=1)
        across = np.minimum(high, radii[1]) - np.maximum(low, radii[0]) > SAME
        along = np.minimum(cells.last, span[1]) - np.maximum(cells.first, span[0]) > SAME
        to_last, to_first = self.ways
        hit = {
            to_last: across & (cells.last > span[0] + SAME),
            to_first: across & (cells.first < span[1] - SAME),
            "outwards": along & (high > radii[0] + SAME),
        }[toward]
        hit = hit & ((cells.angles & np.uint64(angles)) != 0)
        return sum(1 << int(n) for n in np.unique(cells.body[hit]))

    def above(self, number: int) -> int:
        """Give the bodies that lie outside of one, over its whole length."""
        found = 0
        for cell in self.bodies[number].cells:
            span, radii = (cell.first, cell.last), (min(cell.inner), np.inf)
            found |= self.zone(span, radii, "outwards", angles=cell.angles)
        return found & ~(1 << number)

    def seen(self, there: int, at: float, radii: tuple[float, float], toward: str) -> float:
        """Say which share of a flat face can be seen from an end past the bodies that are there."""
        cells = self.cells
        ahead = cells.last > at + SAME if toward == self.ways[0] else cells.first < at - SAME
        present = np.array([bool(there >> int(n) & 1) for n in cells.body], dtype=bool)
        covered, end = 0.0, radii[0]
        which = np.nonzero(ahead & present)[0]
        rings = sorted((float(min(cells.inner[n])), float(max(cells.outer[n]))) for n in which)
        for low, high in rings:
            low, high = max(low, end), min(high, radii[1])
            if high > low:
                covered += high**2 - low**2
                end = high
        return 1.0 - covered / (radii[1] ** 2 - radii[0] ** 2)

    def unit(self, start: int, way: int, there: int) -> int:
        """Give what has to come along if some bodies leave one way: whatever stops them."""
        group = start
        while True:
            grown = group
            for n in bits(group):
                moves = self.moves[n]
                grown |= (moves[way].stops if len(moves) > way else self.full) & there
            if grown == group:
                return group
            group = grown


def packed(flags: "np.ndarray[tuple[int], np.dtype[np.bool_]]") -> int:
    """Turn flags into a mask."""
    return int.from_bytes(np.packbits(flags, bitorder="little").tobytes(), "little")


@dataclass(frozen=True, slots=True)
class Taken:
    """What comes off in one go, and by which way."""

    bodies: tuple[str, ...]
    way: str


@dataclass(frozen=True, slots=True)
class Strip:
    """A nest taken apart.

    Attributes
    ----------
    taken
        What comes off, the first first; put together it is gone backwards.
    locked
        What will not come off, each with what it would need.
    """

    taken: tuple[Taken, ...]
    locked: Mapping[str, str]


def strip(nest: Nest, stays: Sequence[str] = ()) -> Strip:
    """Take a nest apart body by body, or by the smallest group that moves as one.

    Bodies only come off, and that only frees the others: it never runs into a corner of its own
    making, and what is left when it stops is locked.

    Examples
    --------
    >>> from dryfit.plan.bodies import stretch
    >>> pin = Body("pin", (stretch(0, 5, 0, 8), stretch(5, 30, 0, 5)))
    >>> ring = Body("ring", (stretch(10, 20, 5, 9),))
    >>> [(taken.bodies, taken.way) for taken in strip(Nest((pin, ring)), ["pin"]).taken]
    [(('ring',), 'to last')]
    """
    fixed = nest.mask(stays)
    there, taken = nest.full, list[Taken]()
    while there & ~fixed:
        found = _single(nest, there, fixed) or _group(nest, there, fixed)
        if found is None:
            break
        group, way = found
        taken.append(Taken(nest.told(group), way))
        there ^= group
    return Strip(tuple(taken), _needs(nest, there, fixed) if there & ~fixed else {})


def _single(nest: Nest, there: int, fixed: int) -> tuple[int, str] | None:
    for n in sorted(bits(there & ~fixed), reverse=True):
        for move in nest.moves[n]:
            if not move.stops & there & ~(1 << n):
                return 1 << n, move.way
    return None


def _group(nest: Nest, there: int, fixed: int) -> tuple[int, str] | None:
    """Find the smallest group that leaves one way and leaves something behind."""
    groups = [
        (nest.unit(1 << n, way, there), name)
        for n in bits(there & ~fixed)
        for way, name in enumerate(nest.ways)
    ]
    free = [(group, name) for group, name in groups if not group & fixed and group != there]
    return min(free, key=lambda one: one[0].bit_count(), default=None)


def _needs(nest: Nest, there: int, fixed: int) -> dict[str, str]:
    """Say of each body that is locked what stops it each way, and how hard."""
    return {nest.bodies[n].name: _need(nest, n, there) for n in bits(there & ~fixed)}


def _need(nest: Nest, number: int, there: int) -> str:
    told = []
    for way, move in enumerate(nest.moves[number]):
        stops = [
            f"'{nest.bodies[n].name}'{_how(nest, number, way, n)}" for n in bits(move.stops & there)
        ]
        told.append(f"{move.way}: {', '.join(stops)}")
    return "; ".join(told)


HOW = {Level.SCREW: " (to be unscrewed)", Level.SNAP: " (to be sprung)"}
"""What a body would need to get past another, where that helps."""


def _how(nest: Nest, number: int, way: int, other: int) -> str:
    if nest.bodies[number].outwards:
        return ""
    return HOW.get(Level(nest.levels[way][number, other]), "")
