"""The display list: what lies on a sheet, as strokes, areas and lettering in millimetres of paper.

The origin is the lower left corner of the sheet, x to the right, y up. Views and plots make a
`Drawing`; the writers of SVG, PDF and DXF read it and know nothing else. Nothing in it is clever:
hatching is lines, arrowheads are areas, a circle is a circle.
"""

from dataclasses import dataclass
from enum import Enum

Point = tuple[float, float]
"""x and y on the sheet [mm]."""


class Pen(Enum):
    """What a line means; its width and dashes follow from that (ISO 128-2: two widths, 1 to 2)."""

    OUTLINE = "outline"
    """Thick: visible edges, and what closes a block."""
    EDGE = "edge"
    """Thin: edges within a part, rules, leaders, dimension and extension lines."""
    HATCH = "hatch"
    """Thinner still: section lines."""
    CENTRE = "centre"
    """Thin, long dash and dot: axes, pitch lines, lines of contact."""
    ASSUMED = "assumed"
    """Thick and dashed: an outline whose size is not known."""


class Ink(Enum):
    """What is there, or what somebody marked out: measured, chosen or next to do."""

    IRON = "iron"
    MARKED = "marked"


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points; closed, it comes back to the first."""

    points: tuple[Point, ...]
    pen: Pen = Pen.OUTLINE
    closed: bool = False
    ink: Ink = Ink.IRON


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle."""

    centre: Point
    radius: float
    pen: Pen = Pen.OUTLINE
    ink: Ink = Ink.IRON


@dataclass(frozen=True, slots=True)
class Area:
    """A filled outline without an edge: blank paper that covers what lies below, or solid ink."""

    points: tuple[Point, ...]
    blank: bool = False
    ink: Ink = Ink.IRON


class Anchor(Enum):
    """Which point of a piece of lettering lies at the place told; always on its base line."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True)
class Lettering:
    """One line of text; `height` is that of its capitals [mm]."""

    at: Point
    text: str
    height: float
    anchor: Anchor = Anchor.START
    bold: bool = False
    ink: Ink = Ink.IRON
    turned: bool = False
    """Whether it reads upwards, a quarter turn to the left."""


Item = Stroke | Ring | Area | Lettering


class Layer(Enum):
    """What a group is for; the writers name their layers so."""

    PARTS = "parts"
    AXES = "axes"
    SIZES = "sizes"
    BALLOONS = "balloons"
    MARKS = "marks"
    TEXT = "text"
    PLOT = "plot"


@dataclass(frozen=True, slots=True)
class Group:
    """Items that belong together, from below to above; of one part if `part` names it.

    `reach` is all of the sheet that the part takes up, as outlines: where a finger meets it.
    """

    layer: Layer
    items: tuple[Item, ...]
    part: str | None = None
    reach: tuple[tuple[Point, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Drawing:
    """One sheet [mm] with its groups, from below to above."""

    title: str
    width: float
    height: float
    groups: tuple[Group, ...]
    scale: float | None = None
    """Millimetres of paper to one of iron, where it has one."""
