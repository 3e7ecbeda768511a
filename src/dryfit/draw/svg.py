"""A drawing as SVG: lines, areas and text, black on white by itself, to be restyled by a page.

Every group is a `<g>` with the name of its layer as class, and of a part with an id and the part's
name in `data-part`; all that the part takes up is one path of the class `hit`, which shows nothing
by itself. Pens and inks are classes too; what they look like stands in attributes, which any rule
of a page's style sheet overrides.
"""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import Any

from dryfit.draw.environment import environment
from dryfit.draw.lettering import size_of_type, written
from dryfit.draw.paper import (
    Anchor,
    Area,
    Drawing,
    Group,
    Ink,
    Item,
    Lettering,
    Pen,
    Point,
    Ring,
    Stroke,
)
from dryfit.draw.pens import NIBS

TEMPLATES = Path(__file__).parent / "templates"
FACES = "Fira Sans, DejaVu Sans, Noto Sans, Liberation Sans, Arial, sans-serif"
"""Faces that the table of widths covers; Arial is as wide as Liberation Sans."""

BLACK, WHITE = "#000", "#fff"


@dataclass(frozen=True, slots=True)
class Element:
    """One element of a group; without text if that is None."""

    tag: str
    attributes: dict[str, str]
    text: str | None = None


@dataclass(frozen=True, slots=True)
class Layered:
    """One `<g>`: its attributes, its title if it is of a part, what is in it."""

    attributes: dict[str, str]
    title: str
    items: tuple[Element, ...]
    link: str = ""


Links = Callable[[str], str]
"""Gives the address that a touch on a part leads to; nothing where to none."""


def no_links(_part: str) -> str:
    """Lead nowhere."""
    return ""


def svg(drawing: Drawing, links: Links = no_links) -> str:
    """Write a drawing as SVG of its true size in millimetres, each part a link where it has one.

    The links are for a finger or a mouse: by key, and for a screen reader, a page lists them
    beside. A picture must hold nothing that can be pressed, so with links it is a group.
    """
    names: dict[str, int] = {}
    return (
        environment(TEMPLATES)
        .get_template("drawing.svg")
        .render(
            width=number(drawing.width),
            height=number(drawing.height),
            faces=FACES,
            role="img" if links is no_links else "group",
            title=written(drawing.title),
            groups=[_layered(group, drawing.height, names, links) for group in drawing.groups],
        )
    )


def number(value: float) -> str:
    """Write a length [mm] to a thousandth, without what says nothing.

    >>> number(12.3400), number(-0.0001), number(100)
    ('12.34', '0', '100')
    """
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _layered(group: Group, height: float, names: dict[str, int], links: Links) -> Layered:
    items = tuple(_elements(group.items, height))
    attributes = {"class": group.layer.value}
    if group.part is None:
        return Layered(attributes, "", items)
    attributes |= {"id": _identity(group.part, names), "data-part": written(group.part)}
    reach = (_hit(group.reach, height),) if group.reach else ()
    return Layered(attributes, written(group.part), (*reach, *items), links(group.part))


def _hit(reach: Iterable[tuple[Point, ...]], height: float) -> Element:
    """Write where a part is met: filled with nothing, for a page to fill or to listen to."""
    course = "".join(_through(outline, height) + "Z" for outline in reach)
    return Element("path", {"class": "hit", "fill": "none", "d": course})


def _identity(part: str, names: dict[str, int]) -> str:
    """Make an id that HTML takes, another one for each group."""
    name = "part-" + re.sub(r"\W+", "-", part).strip("-").lower()
    names[name] = names.get(name, 0) + 1
    return name if names[name] == 1 else f"{name}--{names[name]}"


def _elements(items: Iterable[Item], height: float) -> Iterable[Element]:
    """Write items; strokes that follow each other with the same pen become one path."""
    for (kind, pen, ink), same in groupby(items, _drawn_alike):
        if kind is Stroke:
            yield _path([_course(s, height) for s in same if isinstance(s, Stroke)], pen, ink)
        else:
            yield from (WRITERS[kind](item, height) for item in same)


def _drawn_alike(item: Item) -> tuple[type[Item], Pen | None, Ink]:
    return type(item), item.pen if isinstance(item, Stroke | Ring) else None, item.ink


def _path(courses: list[str], pen: Pen | None, ink: Ink) -> Element:
    return Element("path", {**_line(pen or Pen.OUTLINE, ink), "d": "".join(courses)})


def _line(pen: Pen, ink: Ink) -> dict[str, str]:
    """Say how a pen draws, for a page to restyle and by itself."""
    nib = NIBS[pen]
    dashes = " ".join(number(d) for d in nib.dashes)
    return {
        "class": f"{pen.value} {ink.value}",
        "stroke": BLACK,
        "stroke-width": number(nib.width),
        **({"stroke-dasharray": dashes} if dashes else {}),
    }


def _course(stroke: Stroke, height: float) -> str:
    return _through(stroke.points, height) + ("Z" if stroke.closed else "")


def _through(points: tuple[Point, ...], height: float) -> str:
    return "M" + "L".join(f"{number(x)} {number(height - y)}" for x, y in points)


def _ring(ring: Ring, height: float) -> Element:
    x, y = ring.centre
    place = {"cx": number(x), "cy": number(height - y), "r": number(ring.radius)}
    return Element("circle", {**_line(ring.pen, ring.ink), **place})


def _area(area: Area, height: float) -> Element:
    kind, fill = ("blank", WHITE) if area.blank else ("solid", BLACK)
    look = {"class": f"{kind} {area.ink.value}", "fill": fill}
    return Element("path", {**look, "d": _through(area.points, height) + "Z"})


def _lettering(lettering: Lettering, height: float) -> Element:
    x, y = number(lettering.at[0]), number(height - lettering.at[1])
    look = {
        "class": f"lettering {lettering.ink.value}",
        "x": x,
        "y": y,
        "font-size": number(size_of_type(lettering)),
        "fill": BLACK,
        "xml:space": "preserve",
    }
    if lettering.anchor is not Anchor.START:
        look["text-anchor"] = lettering.anchor.value
    if lettering.bold:
        look["font-weight"] = "700"
    if lettering.turned:
        look["transform"] = f"rotate(-90 {x} {y})"
    return Element("text", look, written(lettering.text))


WRITERS: dict[type[Item], Callable[[Any, float], Element]] = {
    Ring: _ring,
    Area: _area,
    Lettering: _lettering,
}
