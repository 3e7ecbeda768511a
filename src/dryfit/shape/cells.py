"""Cells: stretches along an axis with a ring of something between two radii.

Reading order: what a cell is of and which of its sides are estimates, the cell, the solid that is
all cells of a part. All lengths in millimetres.
"""

from dataclasses import dataclass, replace
from enum import Enum, Flag, auto
from math import pi


class What(Enum):
    """What a cell is of."""

    METAL = "metal"
    THREAD = "thread"
    TOOTH = "tooth"
    BALL = "ball"
    ROLLER = "roller"
    LIP = "seal lip"
    SHIM = "shim"
    GASKET = "gasket"
    KEY = "key"
    SPRING = "spring"

    @property
    def is_full(self) -> bool:
        """Whether it is metal through and through, a thread included."""
        return self in (What.METAL, What.THREAD)


class Guess(Flag):
    """Sides of a cell that are estimates, because nobody typed their size."""

    NONE = 0
    FIRST = auto()
    LAST = auto()
    INNER = auto()
    OUTER = auto()
    ENDS = FIRST | LAST
    ROUND = INNER | OUTER
    ALL = ENDS | ROUND


@dataclass(frozen=True, slots=True)
class Cell:
    """A ring from `first` to `last` along the axis; its radii may slope from end to end.

    Attributes
    ----------
    first, last
        Where it begins and ends [mm].
    inner, outer
        Its radii at both ends [mm].
    what
        What it is of.
    guess
        Which of its sides are estimates.
    share
        How much of the ring is filled, where it is balls, rollers or teeth [-].
    piece
        Which loose piece of the part it belongs to, such as a ring of a bearing.
    """

    first: float
    last: float
    inner: tuple[float, float]
    outer: tuple[float, float]
    what: What = What.METAL
    guess: Guess = Guess.NONE
    share: float = 1.0
    piece: str = ""

    @property
    def length(self) -> float:
        """How long it is [mm]."""
        return self.last - self.first

    @property
    def volume(self) -> float:
        """How much it fills [mm^3]."""
        return self.share * (_frustum(self.outer, self.length) - _frustum(self.inner, self.length))

    def moved(self, way: float) -> "Cell":
        """Give the same so much further along."""
        if not way:
            return self
        return replace(self, first=self.first + way, last=self.last + way)

    def radii(self, at: float) -> tuple[float, float]:
        """Say from which radius to which it goes at a place within it [mm]."""
        part = (at - self.first) / self.length if self.length else 0.0
        low, high = (a + (b - a) * part for a, b in (self.inner, self.outer))
        return low, high


def _frustum(radii: tuple[float, float], length: float) -> float:
    """Volume of a cone cut off at both ends [mm^3]."""
    a, b = radii
    return pi * length * (a * a + a * b + b * b) / 3


def ring(
    first: float,
    last: float,
    inner: float,
    outer: float,
    *,
    what: What = What.METAL,
    guess: Guess = Guess.NONE,
    share: float = 1.0,
    piece: str = "",
) -> Cell:
    """Give a cell with level sides."""
    return Cell(first, last, (inner, inner), (outer, outer), what, guess, share, piece)


@dataclass(frozen=True, slots=True)
class Solid:
    """All cells of a part.

    Attributes
    ----------
    part, kind
        Its name and kind.
    cells
        In its own axis, counted from its own place.
    place
        Where that lies along the line [mm].
    """

    part: str
    kind: str
    cells: tuple[Cell, ...]
    place: float = 0.0

    @property
    def laid(self) -> tuple[Cell, ...]:
        """Its cells along the line."""
        return tuple(cell.moved(self.place) for cell in self.cells)

    @property
    def span(self) -> tuple[float, float]:
        """From where to where it reaches along the line [mm]."""
        return min(c.first for c in self.laid), max(c.last for c in self.laid)

    @property
    def reach(self) -> float:
        """Its greatest radius [mm]."""
        return max(max(c.outer) for c in self.cells)

    @property
    def volume(self) -> float:
        """How much it fills [mm^3]."""
        return sum(cell.volume for cell in self.cells)

    @property
    def guessed(self) -> bool:
        """Whether some of it is an estimate."""
        return any(cell.guess for cell in self.cells)
