"""A drawing as PDF: one page of its size, lines and letters, the same bytes every time."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import fontpkg_fira_sans
import typst

from dryfit.draw.lettering import in_print
from dryfit.draw.paper import Drawing, Item, Lettering
from dryfit.draw.svg import number, svg

PAGE = b"""\
#set document(title: sys.inputs.title, date: none)
#set page(width: 1mm * float(sys.inputs.width), height: 1mm * float(sys.inputs.height), margin: 0mm)
#image(
  bytes(sys.inputs.drawing), format: "svg", alt: sys.inputs.title, width: 100%, height: 100%,
)
"""
"""The page; what is drawn and its title are handed over as data, never as part of it."""


def pdf(drawing: Drawing) -> bytes:
    """Write a drawing as a page of PDF; letters that no face has are told by their number."""
    shown = in_print_only(drawing)
    inputs = {
        "title": shown.title,
        "width": number(drawing.width),
        "height": number(drawing.height),
        "drawing": svg(shown),
    }
    written: bytes = typst.compile(PAGE, format="pdf", font_paths=faces(), sys_inputs=inputs)
    return written


@cache
def faces() -> typst.Fonts:
    """Load the faces of the package and those inside typst; none of the machine's."""
    folder = Path(fontpkg_fira_sans.__file__).parent / "files"
    return typst.Fonts(include_system_fonts=False, font_paths=[folder])


def in_print_only(drawing: Drawing) -> Drawing:
    """Give a drawing with no letter that the faces of a PDF lack."""
    groups = (replace(g, items=tuple(_in_print(item) for item in g.items)) for g in drawing.groups)
    return replace(drawing, title=in_print(drawing.title), groups=tuple(groups))


def _in_print(item: Item) -> Item:
    return replace(item, text=in_print(item.text)) if isinstance(item, Lettering) else item
