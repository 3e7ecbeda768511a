"""Drawings as PDF: pages of their size, or on sheets to print; the same bytes every time."""

import json
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

import fontpkg_fira_sans
import typst

from dryfit.draw.lettering import CAP, in_print, lines_of
from dryfit.draw.paper import Drawing, Item, Lettering
from dryfit.draw.svg import svg

PAPERS = {"a4": "a4", "letter": "us-letter"}
"""Sheets to print on, and what typst calls them."""

PAGES = b"""\
#set document(title: sys.inputs.title, date: none)
#let drawings = json(bytes(sys.inputs.drawings))
#let drawn(one) = image(
  bytes(one.svg), format: "svg", alt: one.title, width: 1mm * one.width, height: 1mm * one.height,
)
#if sys.inputs.paper == "" {
  for one in drawings {
    page(width: 1mm * one.width, height: 1mm * one.height, margin: 0mm, drawn(one))
  }
} else {
  set text(font: "Fira Sans", size: 9pt)
  set page(
    paper: sys.inputs.paper,
    margin: (top: 15mm, rest: 8mm),
    header: context {
      let (at, all) = (counter(page).get(), counter(page).final())
      [#sys.inputs.head #h(1fr) #at.first() of #all.first()]
    },
  )
  set align(center)
  for one in drawings {
    block(breakable: false, above: 0mm, below: 4mm, drawn(one))
  }
}
"""
"""The pages; what is drawn and the titles are handed over as data, never as part of this."""


def pdf(drawing: Drawing) -> bytes:
    """Write a drawing as a page of its size; letters that no face has are told by their number."""
    return pages([drawing], drawing.title)


def pages(drawings: Sequence[Drawing], title: str, *, paper: str | None = None) -> bytes:
    """Write drawings, each on a page of its size, or one below the other on sheets of `PAPERS`."""
    shown = [in_print_only(drawing) for drawing in drawings]
    told = [
        {"title": one.title, "width": one.width, "height": one.height, "svg": svg(one)}
        for one in shown
    ]
    inputs = {
        "title": in_print(title),
        "head": _head(in_print(title)),
        "paper": PAPERS[paper] if paper else "",
        "drawings": json.dumps(told),
    }
    written: bytes = typst.compile(PAGES, format="pdf", font_paths=faces(), sys_inputs=inputs)
    return written


HEAD, TYPE = 160.0, 9 * 0.3528 * CAP
"""Room for the title at the head of a sheet, and how high its letters are [mm]."""


def _head(title: str) -> str:
    """Cut a title to the one line that the head of a sheet has."""
    lines = lines_of(title, HEAD, TYPE)
    return f"{lines[0]} ..." if len(lines) > 1 else title


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
