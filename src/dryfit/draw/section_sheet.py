"""What stands beside the views on a sheet: the scale bar, notes, and the tables of what is what."""

from collections.abc import Sequence

from dryfit.draw.lettering import box, width
from dryfit.draw.paper import Group, Layer, Lettering, Pen, Stroke

NOTE, ROW = 2.5, 4.6
"""Height of the letters of notes and tables, and from one line of them to the next [mm]."""

INCH = 25.4

BARS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2e3, 5e3, 1e4, 2e4, 5e4)
"""Lengths of a scale bar [mm of iron]."""

INCHES = (0.05, 0.1, 0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 20.0, 40.0, 80.0, 200.0, 400.0, 800.0, 2e3)
"""The same in inches."""


def scale_words(scale: float) -> str:
    """Write a scale as a drawing does."""
    return f"{scale:g} : 1" if scale >= 1 else f"1 : {1 / scale:g}"


def scale_bar(scale: float, left: float, top: float) -> tuple[Group, float, float]:
    """Draw a bar in millimetres and one in inches; also how high they are, and where they end."""
    items: list[Stroke | Lettering] = []
    for n, (whole, unit, name) in enumerate(
        ((_nice(BARS, scale), 1.0, "mm"), (_nice(INCHES, scale * INCH), INCH, "in"))
    ):
        y = top - 4.0 - n * 6.0
        long = whole * unit * scale
        items.append(Stroke(((left, y), (left + long, y))))
        for part in range(5 if n == 0 else 4) if long > 12 else ():
            x = left + long * part / (5 if n == 0 else 4)
            items.append(Stroke(((x, y), (x, y + (2.0 if part == 0 else 1.2))), Pen.EDGE))
        items.append(Stroke(((left + long, y), (left + long, y + 2.0)), Pen.EDGE))
        items.append(Lettering((left + long + 2.0, y - 0.3), f"{whole:g} {name}", NOTE))
    right = max(box(item)[2] for item in items if isinstance(item, Lettering))
    return Group(Layer.TEXT, tuple(items)), 12.0, right + 8.0


def _nice(lengths: Sequence[float], scale: float) -> float:
    """Take the length nearest to 45 mm of paper."""
    return min(lengths, key=lambda one: abs(one * scale - 45.0))


def written(lines: Sequence[str], left: float, top: float, room: float) -> tuple[Group, float]:
    """Write notes one under the other, in smaller letters where one is long; and how high [mm]."""
    items = []
    for n, line in enumerate(lines):
        height = fitting(line, NOTE, room)
        items.append(Lettering((left, top - (n + 1) * ROW + 1.2), line, height))
    return Group(Layer.TEXT, tuple(items)), len(lines) * ROW


def fitting(text: str, height: float, room: float) -> float:
    """Give the height of letters with which a text has room [mm]."""
    wide = width(text, height)
    return height if wide <= room else height * room / wide


Rows = Sequence[tuple[str, ...]]
"""Rows of a table, all of as many columns."""


def tables(parts: Rows, lengths: Rows, top: float, room: float) -> tuple[list[Group], float]:
    """Write the parts in as many columns as fit, below them the lengths; and how high [mm]."""
    beside = max(1, int((room + GUTTER) // (sum(_wanted(parts)) + GUTTER))) if parts else 1
    tall = -(-len(parts) // beside)
    share = (room + GUTTER) / beside
    groups, high = [], 0.0
    for n in range(beside if parts else 0):
        some = parts[n * tall : (n + 1) * tall]
        group, deep = _table(some, n * share, top, share - GUTTER)
        groups.append(group)
        high = max(high, deep)
    below, deep = _table(lengths, 0.0, top - high - ROW, room)
    return [*groups, below], high + ROW + deep


GUTTER = 6.0
"""Room between two tables [mm]."""


def _wanted(rows: Rows) -> list[float]:
    """Say how wide each column of a table wants to be [mm]."""
    return [max(width(cell, NOTE) for cell in column) + 3.0 for column in zip(*rows, strict=True)]


def _table(rows: Rows, left: float, top: float, room: float) -> tuple[Group, float]:
    """Write a table; where it is too wide its widest column gives way, in smaller letters."""
    columns = _wanted(rows)
    if sum(columns) > room and columns:
        widest = columns.index(max(columns))
        columns[widest] = max(columns[widest] - (sum(columns) - room), 0.3 * room)
    squeeze = min(1.0, room / sum(columns)) if columns else 1.0
    items = []
    for n, row in enumerate(rows):
        x, y = left, top - (n + 1) * ROW + 1.2
        for text, wide in zip(row, columns, strict=True):
            if text:
                height = fitting(text, NOTE, wide * squeeze - 1.5)
                items.append(Lettering((x, y), text, height))
            x += wide * squeeze
    return Group(Layer.TEXT, tuple(items)), len(rows) * ROW
