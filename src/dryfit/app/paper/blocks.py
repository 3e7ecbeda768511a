"""What a sheet is made of: blocks from above to below, plain data for the template beside this."""

from dataclasses import dataclass, fields, is_dataclass
from typing import Any

from dryfit.app.words.said import Said

BODY = 12.5
"""Size of type to be read at arm's length [pt]."""


@dataclass(frozen=True, slots=True)
class Text:
    """A paragraph."""

    text: str
    size: float = BODY
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Head:
    """A head within a sheet."""

    text: str


@dataclass(frozen=True, slots=True)
class Point:
    """One sentence of a list, and how many steps it stands in."""

    text: str
    deep: int = 0
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Points:
    """Sentences one below the other, each behind a dash if `dashed`."""

    points: tuple[Point, ...]
    label: str = ""
    dashed: bool = False
    size: float = BODY


@dataclass(frozen=True, slots=True)
class Ticks:
    """Sentences, each behind a box to tick."""

    texts: tuple[str, ...]
    size: float = 13.0


@dataclass(frozen=True, slots=True)
class Step:
    """A step of work behind a box to tick.

    Attributes
    ----------
    number, text
        Which it is, and what is done.
    before
        What can be done no more after it.
    care, more
        What to mind, and what else is to be said.
    should, mark
        Of a hold point: what it should read, and the unit in the corner of its box for a pencil.
    hold
        Whether it is one.
    no_return
        Why there is no easy way back from it.
    svg, alt
        A small picture of it, and what that shows.
    """

    number: str
    text: str
    before: str = ""
    care: tuple[str, ...] = ()
    more: tuple[str, ...] = ()
    should: str = ""
    mark: str = ""
    hold: bool = False
    no_return: tuple[str, ...] = ()
    svg: str = ""
    alt: str = ""


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps one below the other; a hold point stands in a frame."""

    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure below its name; `other` is the same in the other system."""

    label: str
    value: str
    other: str = ""
    size: float = 17.0
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Figures:
    """Figures side by side, and how wide each is."""

    figures: tuple[Figure, ...]
    widths: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Box:
    """A box for a pencil below its name, with a unit in its corner."""

    label: str
    mark: str = ""
    wide: float = 1.0
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Boxes:
    """Boxes side by side, so high [mm]."""

    boxes: tuple[Box, ...]
    high: float = 14.0


@dataclass(frozen=True, slots=True)
class Term:
    """One term of a sum: a figure that is given, or a box for one, behind its sign."""

    label: str
    sign: str = ""
    given: str = ""
    mark: str = ""
    wide: float = 1.0
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Sum:
    """A sum for a pencil."""

    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table: cells of text, None for a box; a width of 0 is as wide as what stands in it."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str | None, ...], ...]
    widths: tuple[float, ...]
    right: tuple[int, ...] = ()
    high: float = 8.5
    tight: float = 1.7


@dataclass(frozen=True, slots=True)
class Care:
    """A caution."""

    text: str


@dataclass(frozen=True, slots=True)
class Setup:
    """What is needed before a task begins: names and what they are."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Columns:
    """Blocks side by side."""

    columns: tuple[tuple["Block", ...], ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing, and what it shows; 0 high [mm] is all that is left of the sheet."""

    svg: str
    alt: str
    high: float = 0.0
    framed: bool = True


@dataclass(frozen=True, slots=True)
class Squares:
    """Squared paper, to sketch on; 0 high [mm] is all that is left of the sheet."""

    label: str
    high: float = 0.0


@dataclass(frozen=True, slots=True)
class Grid:
    """Axes without figures, to plot on: what goes across, and its lines either way."""

    across: str
    columns: int = 60
    rows: int = 25
    high: float = 0.0


@dataclass(frozen=True, slots=True)
class Notes:
    """Ruled lines on all that is left of a sheet; nothing where little is left."""

    label: str = "notes"


Block = (
    Text
    | Head
    | Points
    | Ticks
    | Steps
    | Figures
    | Boxes
    | Sum
    | Table
    | Care
    | Setup
    | Columns
    | Picture
    | Squares
    | Grid
    | Notes
)


@dataclass(frozen=True, slots=True)
class Sheet:
    """One section: it begins a sheet of paper and may go on over more."""

    title: str
    blocks: tuple[Block, ...]
    why: str = ""
    cover: bool = False


def as_data(record: Any) -> Any:
    """Give records as dicts and lists; each block names its sort."""
    if is_dataclass(record):
        inner = {one.name: as_data(getattr(record, one.name)) for one in fields(record)}
        return {"block": type(record).__name__, **inner}
    if isinstance(record, tuple):
        return [as_data(one) for one in record]
    return record


def said(lines: list[Said], *, strong: bool = False, size: float = BODY) -> tuple[Block, ...]:
    """Set sentences below each other, those that stand deeper further in; heads are left out."""
    points = [
        Point(_arrow(line.text), deep := max(line.by // 2 - 1, 0), strong and not deep)
        for line in lines
        if line.sort == "text" and line.text
    ]
    return (Points(tuple(points), size=size),) if points else ()


def _arrow(text: str) -> str:
    """Set the arrow of a plain page as one, and no more than one blank."""
    return " ".join(text.replace("<-", "\N{LEFTWARDS ARROW}").split())


def sentence(text: str) -> str:
    """Begin with a capital and end with a full stop."""
    text = " ".join(text.split())
    return text[:1].upper() + text[1:] + ("" if text[-1:] in ".:?" else ".")
