"""One line of bodies, and what each would have to be rid of to come off: `Nest`.

Reading order: a move, the nest with its masks, zones, groups.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from dryfit.plan.bodies import ALL_ROUND, Body, Level
from dryfit.plan.doors import Door, across, ways_through
from dryfit.plan.masks import bits
from dryfit.plan.sweep import Cells, Levels, both_ways, cells_of, threads_of
from dryfit.plan.zones import Sense, covered, zone


@dataclass(frozen=True, slots=True)
class Move:
    """A way for a body to come off.

    Attributes
    ----------
    way
        As it is told: "to nose", "outwards".
    stops
        Bodies that must be gone.
    surely
        Those of them that stop it by sizes that were typed; the others by estimates.
    takes
        By what the others are passed, body by body, where it takes more than a push.
    """

    way: str
    stops: int
    surely: int
    takes: Mapping[int, Level] = field(default_factory=dict)


Takes = dict[int, Level]
Sides = list[tuple[str, list[int], list[int], list[Takes]]]


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
    sits
        What a body sits on or in, and goes with, by name.
    more
        Further bodies that stop one, by name and way: those of other lines.
    doors
        Ways in beside the line.
    """

    bodies: tuple[Body, ...]
    first: str = "first"
    last: str = "last"
    held: Mapping[str, frozenset[str]] = field(default_factory=dict)
    sits: Mapping[str, str] = field(default_factory=dict)
    more: Mapping[tuple[str, str], frozenset[str]] = field(default_factory=dict)
    doors: tuple[Door, ...] = ()

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
    def typed(self) -> tuple[Levels, Levels]:
        """The same by sides that were typed alone."""
        unsure = any(any(cell.unsure) for body in self.bodies for cell in body.cells)
        return both_ways(self.bodies, typed=True) if unsure else self.levels

    @cached_property
    def cells(self) -> Cells:
        """All stretches where they lie."""
        return cells_of([body.cells for body in self.bodies], threads_of(self.bodies))

    @cached_property
    def typed_cells(self) -> Cells:
        """The same with sides that somebody typed alone."""
        return cells_of([b.cells for b in self.bodies], threads_of(self.bodies), typed=True)

    @property
    def ways(self) -> tuple[str, str]:
        """Both ways along the line in words, towards the last end first."""
        return f"to {self.last}", f"to {self.first}"

    @property
    def every_way(self) -> tuple[str, ...]:
        """All ways by which several bodies may leave as one: along the line, and through doors."""
        return (*self.ways, *(door.way for door in self.doors))

    @cached_property
    def sides(self) -> Sides:
        """For both ways along the line what stops each body, surely too, and what it passes how."""
        return [
            (way, *self._stopped(level, typed))
            for way, level, typed in zip(self.ways, self.levels, self.typed, strict=True)
        ]

    @cached_property
    def moves(self) -> tuple[tuple[Move, ...], ...]:
        """For each body its ways off."""
        return tuple(self._moves(n, body) for n, body in enumerate(self.bodies))

    def _stopped(self, level: Levels, typed: Levels) -> tuple[list[int], list[int], list[Takes]]:
        """Say for each body what stops it one way, by typed sides too, and what it passes how."""
        can = np.array([body.can for body in self.bodies], dtype=np.int8)[:, None]
        stops = packed(level > can)
        surely = stops if typed is level else packed((typed > can) & (level > can))
        takes: list[Takes] = [{} for _ in self.bodies]
        for one, other in zip(*np.nonzero((level > 0) & (level <= can)), strict=True):
            takes[one][int(other)] = Level(level[one, other])
        return stops, surely, takes

    def _moves(self, number: int, body: Body) -> tuple[Move, ...]:
        if body.outwards:
            stops = self._held(number) | self.above(number)
            return (Move("outwards", stops, stops),)
        found = []
        for n, (way, _, _, takes) in enumerate(self.sides):
            stops, surely = (self.stops(number, n, typed=typed) for typed in (False, True))
            found.append(Move(way, stops, surely, takes[number]))
        return (*found, *(move for door in self.doors for move in self._through(number, door)))

    def _held(self, number: int) -> int:
        """Give the bodies that hold one besides their shape."""
        return self.mask(self.held.get(self.bodies[number].name, ()))

    def _lid(self, door: Door) -> int:
        return 1 << self.at[door.lid] if door.lid else 0

    def _through(self, number: int, door: Door) -> Iterator[Move]:
        """Give the ways of a body through a door, straight across or along the line first."""
        host, seat = self.at[door.host], self.at.get(self.sits.get(self.bodies[number].name, ""))
        if number == host or self.bodies[number].name == door.lid:
            return
        besides = self._held(number) | self._lid(door)
        for stops in ways_through(self.cells, number, host, door, seat):
            yield Move(door.way, besides | stops, besides | stops)

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
        typed: bool = False,
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
        typed
            Whether only sides count that somebody typed.
        """
        cells = self.typed_cells if typed else self.cells
        return zone(cells, span, radii, self._sense(toward), angles=angles)

    def filling(
        self, span: tuple[float, float], radii: tuple[float, float], *, typed: bool = False
    ) -> int:
        """Give the bodies that lie in a ring [mm]."""
        return zone(self.typed_cells if typed else self.cells, span, radii, Sense.HERE)

    def _sense(self, way: str) -> Sense:
        to_last, to_first = self.ways
        return {to_last: Sense.TO_LAST, to_first: Sense.TO_FIRST, "outwards": Sense.OUTWARDS}[way]

    def above(self, number: int) -> int:
        """Give the bodies that lie outside of one, over its whole length, where it goes out.

        What lies within half of a case does not keep it from being lifted off.
        """
        found, body = 0, self.bodies[number]
        whole = body.outwards == ALL_ROUND
        for cell in body.cells:
            low = min(cell.inner) if whole else max(cell.outer)
            span, radii = (cell.first, cell.last), (low, np.inf)
            found |= self.zone(span, radii, "outwards", angles=cell.angles & body.outwards)
        return found & ~(1 << number)

    def seen(self, there: int, at: float, radii: tuple[float, float], *, toward: str) -> float:
        """Say which share of a flat face can be seen from an end past the bodies that are there."""
        return 1.0 - covered(self.cells, there, at, radii, self._sense(toward))

    @cached_property
    def riders(self) -> tuple[int, ...]:
        """For each body those that sit on or in it."""
        found = [0] * len(self.bodies)
        for name, host in self.sits.items():
            if name in self.at and host in self.at:
                found[self.at[host]] |= 1 << self.at[name]
        return tuple(found)

    def unit(
        self, start: int, way: int, there: int, *, typed: bool = False, riding: bool = True
    ) -> int:
        """Give what comes along if some bodies leave one way: what stops them, what they carry."""
        group = start
        while True:
            grown = group
            for n in bits(group):
                grown |= self.stops(n, way, typed=typed) & there
                grown |= self.riders[n] & there if riding else 0
            if grown == group:
                return group
            group = grown

    def yields(self, name: str) -> bool:
        """Tell a body with a lip or an O-ring."""
        return any(cell.gives for cell in self.bodies[self.at[name]].cells)

    def screwed_to(self, number: int) -> int:
        """Give the other bodies that bear a thread of one."""
        own = {cell.thread for cell in self.bodies[number].cells} - {""}
        bearing = (n for n, b in enumerate(self.bodies) if own & {c.thread for c in b.cells})
        return sum(1 << n for n in bearing if n != number)

    def stops(self, number: int, way: int, *, typed: bool) -> int:
        """Give what stops a body one of the ways by which several may leave as one.

        Everything stops half of a case: it is lifted off alone. A key stays in its shaft.
        """
        held, outwards = self._held(number), self.bodies[number].outwards
        if self.bodies[number].is_half:
            return self.full
        if outwards:
            held |= self.mask(name for name in [self.sits.get(self.bodies[number].name)] if name)
        if way >= len(self.ways):
            door = self.doors[way - len(self.ways)]
            met = across(self.cells, number, self.at[door.host], door)
            return held | self._lid(door) | met
        told, stops, surely, _ = self.sides[way]
        besides = self.mask(self.more.get((self.bodies[number].name, told), ()))
        return held | besides | (surely if typed else stops)[number]


def packed(flags: "np.ndarray[tuple[int, int], np.dtype[np.bool_]]") -> list[int]:
    """Turn rows of flags into masks."""
    rows = np.packbits(flags, axis=1, bitorder="little")
    return [int.from_bytes(row.tobytes(), "little") for row in rows]
