"""Bodies as blocking sees them: what is one piece on the bench, and what each stretch can pass.

Reading order: levels of what stops what, a stretch, a body, how a key cuts its way.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum

ALL_ROUND = (1 << 64) - 1
"""Every class of angles: each key, bolt circle or split line has one, bit 0 is everywhere else."""

HALF = 1 << 63
"""That of the upper half of a split case."""

SAME = 1e-6
"""Places and radii are the same within this [mm]."""


FAR = 1e6
"""Further than anything reaches [mm]."""

NIP = 0.05
"""Faces that lie in each other by no more than this only touch [mm]: nip, estimate."""


class Level(IntEnum):
    """What it takes to get one body past another, the easiest first."""

    FREE = 0
    SLIDE = 1
    PRESS = 2
    SNAP = 3
    SCREW = 4
    HARD = 5


@dataclass(frozen=True, slots=True)
class Stretch:
    """A ring from `first` to `last` along the axis; its radii may slope from end to end.

    Attributes
    ----------
    first, last
        Where it begins and ends [mm].
    inner, outer
        Its radii at both ends [mm].
    angles
        Classes of angles in which it is there.
    thread
        Which thread it bears; empty for none.
    gives
        By how much it yields across, as a lip or an O-ring does [mm].
    unsure
        By how much its inner and outer radius may be off, where nobody typed them [mm]: it stops
        nothing by less.
    """

    first: float
    last: float
    inner: tuple[float, float]
    outer: tuple[float, float]
    angles: int = ALL_ROUND
    thread: str = ""
    gives: float = 0.0
    unsure: tuple[float, float] = (0.0, 0.0)

    def drawn_back(self, *, wholly: bool) -> tuple[tuple[float, float], tuple[float, float]]:
        """Give its inner and outer radii less what they may be off, or all that is not typed."""
        (a, b), (c, d) = self.inner, self.outer
        inner, outer = (FAR if wholly and off else off for off in self.unsure)
        return (a + inner, b + inner), (c - outer, d - outer)

    def grown(self, inner: float, outer: float) -> "Stretch":
        """Give the same with its sides so much further out [mm]."""
        return replace(
            self,
            inner=(self.inner[0] + inner, self.inner[1] + inner),
            outer=(self.outer[0] + outer, self.outer[1] + outer),
        )


def stretch(
    first: float,
    last: float,
    inner: float,
    outer: float,
    *,
    thread: str = "",
    gives: float = 0.0,
) -> Stretch:
    """Give a stretch with level sides."""
    return Stretch(first, last, (inner, inner), (outer, outer), thread=thread, gives=gives)


@dataclass(frozen=True, slots=True)
class Body:
    """What is handled in one piece.

    Attributes
    ----------
    name
        Its name.
    cells
        Its stretches where it lies in the finished unit.
    can
        The most it is made to pass: a nut is screwed, a retaining ring sprung.
    leaving
        Its stretches while it is put on or taken off, if it is sprung for that.
    outwards
        Classes of angles towards which it goes in and out across the axis, as a key or half of a
        split case does; none for what goes along it.
    """

    name: str
    cells: tuple[Stretch, ...]
    can: Level = Level.PRESS
    leaving: tuple[Stretch, ...] = ()
    outwards: int = 0

    @property
    def goes_round(self) -> bool:
        """Whether some of it goes all round, but for the ways of keys; not so a key or screws."""
        return any(cell.angles.bit_count() > 1 for cell in self.cells)

    @property
    def is_half(self) -> bool:
        """Whether it is half of a split case, which is lifted off."""
        return self.outwards not in (0, ALL_ROUND)

    @property
    def moving(self) -> tuple[Stretch, ...]:
        """Its stretches while it moves."""
        return self.leaving or self.cells


def keyed(bodies: Sequence[Body], keys: Iterable[str]) -> list[Body]:
    """Give each key or screw a class of angles, and every body that it lies in a way for it.

    What is an estimate inside and outside, as the head of a screw, makes no way.

    A way goes through the whole stretch that the key lies in, from its floor or up to its roof:
    slots are open to an end, or the hub could not be put over the key.
    """
    found = list(bodies)
    for number, key in enumerate(keys, start=1):
        bit = 1 << number
        (own,) = (body for body in found if body.name == key)
        cuts = [c for c in own.cells if not all(c.unsure)]
        slots = [(c.first, c.last, min(c.inner), max(c.outer)) for c in cuts]
        found = [
            _in_class(body, bit) if body.name == key else _slotted(body, slots, bit)
            for body in found
        ]
    return found


def _in_class(body: Body, bit: int) -> Body:
    return replace(body, cells=tuple(replace(cell, angles=bit) for cell in body.cells))


def _slotted(body: Body, slots: list[tuple[float, float, float, float]], bit: int) -> Body:
    cells = [*body.cells]
    for slot in slots:
        cells = [piece for cell in cells for piece in _cut(cell, slot, bit)]
    return replace(body, cells=tuple(cells))


def _cut(cell: Stretch, slot: tuple[float, float, float, float], bit: int) -> list[Stretch]:
    """Take the way of a key out of a stretch that it lies in, in the class of the key."""
    first, last, low, high = slot
    inside = min(cell.last, last) - max(cell.first, first) > SAME
    inner, outer = max(cell.inner), min(cell.outer)
    if not inside or min(outer, high) - max(inner, low) <= SAME or not cell.angles & bit:
        return [cell]
    others = cell.angles & ~bit
    pieces = [replace(cell, angles=others)]
    if low > inner:
        pieces.append(replace(cell, outer=(low, low), angles=bit, thread=""))
    if high < outer:
        pieces.append(replace(cell, inner=(high, high), angles=bit, thread=""))
    return pieces
