"""A drawing as DXF, in millimetres of iron where it has a scale, else of paper.

Layers are named by what they are for and the pen, such as `PARTS-OUTLINE`, with line width and
line type. What belongs to a part is a block with the part's name, inserted once; the name as it
is written in the document stands in its extended data. What is marked out is blue.
"""

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from io import StringIO
from typing import Any

from ezdxf._options import options
from ezdxf.document import Drawing as Sheet
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.base import BaseLayout
from ezdxf.units import MM

from dryfit.draw.lettering import coded, written
from dryfit.draw.paper import (
    Anchor,
    Area,
    Drawing,
    Group,
    Ink,
    Item,
    Layer,
    Lettering,
    Point,
    Ring,
    Stroke,
)
from dryfit.draw.pens import NIBS, THIN

VERSION = "R2010"
FACES = {"LETTERING": "arial.ttf", "LETTERING-BOLD": "arialbd.ttf"}
"""Styles of text and the faces they ask for; what lacks them takes another one."""

APPLICATION = "DRYFIT"
LETTERING, AREA = "LETTERING", "AREA"
"""What stands in the name of a layer for a pen."""

BYLAYER, BLUE, BLACK_OR_WHITE = 256, 5, 7
LONGEST_NAME = 200
ALIGNED = {
    Anchor.START: TextEntityAlignment.LEFT,
    Anchor.MIDDLE: TextEntityAlignment.CENTER,
    Anchor.END: TextEntityAlignment.RIGHT,
}
CODES = re.compile(r"(?<=%)%|\\(?=[UM]\+)|\^(?=\^*\Z)", re.IGNORECASE)
"""What readers of DXF take for a code: %%c, \\U+2300; and a caret that ends a line gets lost."""


def dxf(drawing: Drawing) -> str:
    """Write a drawing as the text of a DXF file."""
    with _without_time():
        sheet = new(VERSION)
        _set_up(sheet, drawing)
        blocks: dict[str, int] = {}
        for group in drawing.groups:
            _put(sheet, group, drawing.scale or 1.0, blocks)
        stream = StringIO()
        sheet.write(stream)
    return stream.getvalue()


@contextmanager
def _without_time() -> Iterator[None]:
    """Let the same drawing be the same file: no time, no new number for the file."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _set_up(sheet: Sheet, drawing: Drawing) -> None:
    """Lay down units, line types, faces and layers."""
    scale = drawing.scale or 1.0
    sheet.units = MM
    sheet.header["$LTSCALE"] = 1 / scale
    sheet.header["$LWDISPLAY"] = 1
    sheet.header["$EXTMIN"] = (0.0, 0.0, 0.0)
    sheet.appids.add(APPLICATION)
    for style, face in FACES.items():
        sheet.styles.add(style, font=face)
    for pen, nib in NIBS.items():
        if nib.dashes:
            signed = [d * (-1) ** n for n, d in enumerate(nib.dashes)]
            sheet.linetypes.add(pen.name, [sum(nib.dashes), *signed], description=pen.value)
    for layer in dict.fromkeys(group.layer for group in drawing.groups):
        _add_layers(sheet, layer)
    wide, high = drawing.width / scale, drawing.height / scale
    sheet.header["$EXTMAX"] = (wide, high, 0.0)
    sheet.set_modelspace_vport(high, (wide / 2, high / 2))


def _add_layers(sheet: Sheet, layer: Layer) -> None:
    for pen, nib in NIBS.items():
        sheet.layers.add(
            _named(layer, pen.name),
            color=BLACK_OR_WHITE,
            linetype=pen.name if nib.dashes else "Continuous",
            lineweight=round(nib.width * 100),
        )
    for other in (LETTERING, AREA):
        sheet.layers.add(_named(layer, other), color=BLACK_OR_WHITE, lineweight=round(THIN * 100))


def _named(layer: Layer, what: str) -> str:
    return f"{layer.name}-{what}"


def _put(sheet: Sheet, group: Group, scale: float, blocks: dict[str, int]) -> None:
    """Put a group into model space, that of a part as a block."""
    space: BaseLayout = sheet.modelspace()
    if group.part is not None:
        name = _block_name(group.part, blocks)
        space.add_blockref(name, (0, 0), {"layer": "0"}).set_xdata(
            APPLICATION, [(1000, written(group.part)[:LONGEST_NAME])]
        )
        space = sheet.blocks.new(name)
    for item in group.items:
        ADD[type(item)](space, item, group.layer, scale)


def _block_name(part: str, blocks: dict[str, int]) -> str:
    """Name a block so that every program takes it, another one for each group."""
    name = re.sub(r"[^\w .()-]", "_", written(part)).strip()[:LONGEST_NAME] or "_"
    key = name.lower()
    blocks[key] = blocks.get(key, 0) + 1
    return name if blocks[key] == 1 else f"{name} ({blocks[key]})"


def _look(layer: Layer, what: str, ink: Ink) -> dict[str, Any]:
    """Say on which layer something lies, and its colour where that is not the layer's."""
    return {"layer": _named(layer, what), **({"color": BLUE} if ink is Ink.MARKED else {})}


def _at(point: Point, scale: float) -> Point:
    return point[0] / scale, point[1] / scale


def _stroke(space: BaseLayout, stroke: Stroke, layer: Layer, scale: float) -> None:
    look = _look(layer, stroke.pen.name, stroke.ink)
    points = [_at(p, scale) for p in stroke.points]
    if len(points) == 2 and not stroke.closed:
        space.add_line(points[0], points[1], look)
    else:
        space.add_lwpolyline(points, close=stroke.closed, dxfattribs=look)


def _ring(space: BaseLayout, ring: Ring, layer: Layer, scale: float) -> None:
    look = _look(layer, ring.pen.name, ring.ink)
    space.add_circle(_at(ring.centre, scale), ring.radius / scale, look)


def _area(space: BaseLayout, area: Area, layer: Layer, scale: float) -> None:
    points = [_at(p, scale) for p in area.points]
    if area.blank:
        space.add_wipeout(points, {"layer": _named(layer, AREA)})
        return
    look = _look(layer, AREA, area.ink)
    hatch = space.add_hatch(BLUE if area.ink is Ink.MARKED else BYLAYER, dxfattribs=look)
    hatch.paths.add_polyline_path(points, is_closed=True)


def _lettering(space: BaseLayout, lettering: Lettering, layer: Layer, scale: float) -> None:
    look = _look(layer, LETTERING, lettering.ink)
    look["style"] = "LETTERING-BOLD" if lettering.bold else "LETTERING"
    text = space.add_text(
        literal(lettering.text),
        height=lettering.height / scale,
        rotation=90.0 if lettering.turned else 0.0,
        dxfattribs=look,
    )
    text.set_placement(_at(lettering.at, scale), align=ALIGNED[lettering.anchor])


def literal(text: str) -> str:
    """Write a text so that no reader of DXF takes part of it for a code.

    >>> literal("5%%c^I")
    '5%‹0025›c^ I'
    """
    return CODES.sub(lambda found: coded(found[0]), written(text)).replace("^", "^ ")


ADD: dict[type[Item], Callable[[BaseLayout, Any, Layer, float], None]] = {
    Stroke: _stroke,
    Ring: _ring,
    Area: _area,
    Lettering: _lettering,
}
