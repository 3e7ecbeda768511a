"""Reads plots back from their display list, by the figures at their ticks alone."""

import re
from dataclasses import dataclass

import numpy as np

from dryfit.draw.lettering import box
from dryfit.draw.paper import (
    Anchor,
    Area,
    Drawing,
    Ink,
    Item,
    Layer,
    Lettering,
    Pen,
    Point,
    Stroke,
)


@dataclass(frozen=True)
class Read:
    """A plot and how its axes are read: value = rate x place + start."""

    drawing: Drawing
    across: tuple[float, float]
    upwards: tuple[float, float]

    def at(self, point: Point) -> Point:
        """Read a point off both axes."""
        return (
            self.across[0] * point[0] + self.across[1],
            self.upwards[0] * point[1] + self.upwards[1],
        )

    def strokes(self, pen: Pen, ink: Ink) -> list[list[Point]]:
        """Read all lines of a pen, in values."""
        found = (i for i in items(self.drawing, Layer.PLOT) if isinstance(i, Stroke))
        return [[self.at(p) for p in s.points] for s in found if (s.pen, s.ink) == (pen, ink)]

    def areas(self, ink: Ink) -> list[Point]:
        """Read the middle of each filled area, in values."""
        found = (i for i in items(self.drawing, Layer.PLOT) if isinstance(i, Area))
        return [self.at(middle(a)) for a in found if a.ink is ink and not a.blank]


def middle(area: Area) -> Point:
    """Give the middle of the room that an area takes."""
    xs, ys = zip(*area.points, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def items(drawing: Drawing, layer: Layer) -> list[Item]:
    """List what is in the groups of a layer."""
    return [item for group in drawing.groups if group.layer is layer for item in group.items]


def letters(drawing: Drawing) -> list[Lettering]:
    """List all lettering."""
    every = (item for group in drawing.groups for item in group.items)
    return [item for item in every if isinstance(item, Lettering)]


def is_figure(text: str) -> bool:
    """Tell a figure of an axis."""
    return re.fullmatch(r"−?\d+(\.\d+)?", text) is not None


def value(text: str) -> float:
    """Read a figure."""
    return float(text.replace("−", "-"))


def read(drawing: Drawing) -> Read:
    """Find out how the axes of a plot are to be read."""
    figures = [one for one in letters(drawing) if is_figure(one.text)]
    across = [(f.at[0], value(f.text)) for f in figures if f.anchor is Anchor.MIDDLE]
    left = [f for f in figures if f.anchor is Anchor.END]
    upwards = [(f.at[1] + f.height / 2, value(f.text)) for f in left]
    return Read(drawing, _line(across), _line(upwards))


def _line(pairs: list[tuple[float, float]]) -> tuple[float, float]:
    """Lay the line through ticks, which must all lie on it."""
    places, values = (np.array(group) for group in zip(*pairs, strict=True))
    rate, start = np.polyfit(places, values, 1)
    np.testing.assert_allclose(rate * places + start, values, atol=1e-6 * np.ptp(values))
    return float(rate), float(start)


def clashes(drawing: Drawing) -> list[str]:
    """List texts that lie over one another or leave the sheet."""
    boxes = [(one.text, box(one)) for one in letters(drawing)]
    found = [
        f"{one!r} over {other!r}"
        for n, (one, a) in enumerate(boxes)
        for other, b in boxes[n + 1 :]
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]
    return found + [
        f"{text!r} leaves the sheet"
        for text, (left, low, right, high) in boxes
        if left < 0 or low < 0 or right > drawing.width or high > drawing.height
    ]
