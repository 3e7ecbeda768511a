"""Drawings of all demos and of the page with one of every kind, and what is read back from them."""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from dryfit.app.usecases import demos
from dryfit.app.usecases.drawing import DrawAnswer, DrawRequest, draw
from dryfit.app.usecases.opening import open_text
from dryfit.draw.lettering import box
from dryfit.draw.paper import Area, Drawing, Group, Layer, Lettering, Pen, Point, Ring, Stroke

ROOT = Path(__file__).resolve().parent.parent.parent
(*_, EVERY_KIND) = re.findall(
    r"```yaml\n(.*?)```", (ROOT / "docs" / "format.md").read_text(encoding="utf-8"), re.DOTALL
)
TEXTS = {name: demos.text(name) for name in demos.names()} | {"every kind": EVERY_KIND.encode()}

Box = tuple[float, float, float, float]


def sheets() -> Iterator[tuple[str, str | None]]:
    """List the drawings there are: of each text the whole unit and each line."""
    for name, text in TEXTS.items():
        yield name, None
        for line in open_text(text).rebuild.lines:
            yield name, line


@cache
def answer(name: str, line: str | None = None, gaps: float = 1.0) -> DrawAnswer:
    """Draw one of them, once."""
    return draw(DrawRequest(TEXTS[name], line, gaps))


def sheet(name: str, line: str | None = None, gaps: float = 1.0) -> Drawing:
    """Give the drawing alone."""
    drawing = answer(name, line, gaps).drawing
    assert drawing is not None
    return drawing


def part(drawing: Drawing, name: str) -> Group:
    """Find the group of a part."""
    (only,) = [g for g in drawing.groups if g.layer is Layer.PARTS and g.part == name]
    return only


def points(item: object) -> list[Point]:
    """List the points of an item; of a circle those that reach furthest."""
    if isinstance(item, Stroke | Area):
        return [*item.points]
    if isinstance(item, Ring):
        (x, y), r = item.centre, item.radius
        return [(x - r, y), (x + r, y), (x, y - r), (x, y + r)]
    return []


def outlines(group: Group) -> list[Stroke]:
    """List the thick lines of a group."""
    thick = (Pen.OUTLINE, Pen.ASSUMED)
    return [i for i in group.items if isinstance(i, Stroke) and i.pen in thick]


def axis(drawing: Drawing) -> float:
    """Find the height of the axis: the first centre line."""
    group = next(g for g in drawing.groups if g.layer is Layer.AXES)
    first = group.items[0]
    assert isinstance(first, Stroke)
    return first.points[0][1]


def lettering(drawing: Drawing) -> list[tuple[Box, str]]:
    """List all lettering with the room it takes, and balloons with theirs."""
    found = []
    for group in drawing.groups:
        for item in group.items:
            if isinstance(item, Lettering) and group.layer is not Layer.BALLOONS:
                found.append((box(item), item.text))
            if isinstance(item, Ring) and group.layer is Layer.BALLOONS:
                (x, y), r = item.centre, item.radius
                found.append(((x - r, y - r, x + r, y + r), f"({group.part})"))
    return found


def leaders(drawing: Drawing) -> list[tuple[Point, Point]]:
    """List the leaders of balloons."""
    found = []
    for group in drawing.groups:
        if group.layer is Layer.BALLOONS:
            (stroke,) = [i for i in group.items if isinstance(i, Stroke)]
            found.append((stroke.points[0], stroke.points[-1]))
    return found
