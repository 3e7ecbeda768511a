"""What a half-section is made from, and where its lines lie on paper.

Reading order: the lines and marks that are handed in, then the frame that lays one line on paper.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from dryfit.draw.paper import Point
from dryfit.shape.cells import Solid

Radial = tuple[float, float]
"""Place along a line and radius [mm]."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A line as it is drawn.

    Attributes
    ----------
    name, first, last
        The line and the names of its ends.
    solids
        Its parts.
    thin
        Lines of contact and pitch lines, each from one place and radius to another [mm].
    openings
        Openings at the side of a case, drawn where it is seen from outside.
    """

    name: str
    first: str
    last: str
    solids: tuple[Solid, ...]
    thin: tuple[tuple[Radial, Radial], ...] = ()
    openings: tuple["Opening", ...] = ()


@dataclass(frozen=True, slots=True)
class Opening:
    """An opening at the side of a part: from where to where, and half its width [mm]."""

    part: str
    first: float
    last: float
    half: float


@dataclass(frozen=True, slots=True)
class Crossing:
    """A line that crosses the one drawn along: drawn upwards from where they cross.

    Attributes
    ----------
    line
        The other line.
    at, own
        Where they cross, along the one drawn and along the other [mm].
    way
        +1 if the other line's last end is above, -1 if its first end is.
    """

    line: Shown
    at: float
    own: float
    way: float


@dataclass(frozen=True, slots=True)
class Span:
    """A length between two faces of a line, by its letter [mm]; behind it "?" if not known."""

    letter: str
    first: float
    last: float


@dataclass(frozen=True, slots=True)
class Gap:
    """Two faces that may touch and do not: a label, the gap, and the radius where it is [mm]."""

    label: str
    first: float
    last: float
    radius: float


@dataclass(frozen=True)
class View:
    """One line to be drawn, with all that is marked on it."""

    line: Shown
    crossing: Crossing | None = None
    spans: tuple[Span, ...] = ()
    gaps: tuple[Gap, ...] = ()


@dataclass(frozen=True)
class Subject:
    """All that a sheet shows.

    Attributes
    ----------
    title
        Of the sheet.
    views
        Its lines.
    numbers
        Number of the balloon of each part.
    cases, shafts, settings, lit
        Parts that go round all, that are not cut, that are marked as settings, that are lit: their
        section lines lie closer.
    exaggerated
        How many times too large gaps are drawn.
    notes
        Lines of text under the views.
    parts, lengths
        Rows of the two tables: a number or letter, what it is, and what is told of it.
    """

    title: str
    views: tuple[View, ...]
    numbers: Mapping[str, int]
    cases: frozenset[str] = frozenset()
    shafts: frozenset[str] = frozenset()
    settings: frozenset[str] = frozenset()
    lit: frozenset[str] = frozenset()
    exaggerated: float = 1.0
    notes: tuple[str, ...] = ()
    parts: tuple[tuple[str, ...], ...] = ()
    lengths: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True)
class Stretch:
    """How places along a line go to places along its picture [mm]: gaps may be drawn wider."""

    gaps: tuple[tuple[float, float], ...] = ()
    times: float = 1.0

    def __call__(self, at: float) -> float:
        """Give the place in the picture, before scale."""
        return at + sum((self.times - 1) * (min(max(at, a), b) - a) for a, b in self.gaps if b > a)


def stretch(gaps: Sequence[Gap], times: float) -> Stretch:
    """Widen gaps so many times; gaps that lie over each other count once."""
    merged: list[tuple[float, float]] = []
    for a, b in sorted((g.first, g.last) for g in gaps):
        if merged and a < merged[-1][1]:
            merged[-1] = (merged[-1][0], max(b, merged[-1][1]))
        else:
            merged.append((a, b))
    return Stretch(tuple(merged), times)


@dataclass(frozen=True)
class Frame:
    """Lays a line on paper: one side of it.

    Attributes
    ----------
    origin
        Where its place `at` is on paper [mm].
    at
        That place along the line [mm].
    along, across
        Directions on paper of the line and away from its axis.
    scale
        Paper to iron [-].
    bend
        Places along the line to places along the picture.
    """

    origin: Point
    at: float
    along: Point
    across: Point
    scale: float
    bend: Stretch = Stretch()

    def __call__(self, place: Radial) -> Point:
        """Give the point on paper of a place and radius [mm]."""
        x = self.scale * (self.bend(place[0]) - self.bend(self.at))
        y = self.scale * place[1]
        return (
            self.origin[0] + x * self.along[0] + y * self.across[0],
            self.origin[1] + x * self.along[1] + y * self.across[1],
        )
