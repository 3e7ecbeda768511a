"""Book: every sheet to print, and all that can be taken away as a file."""

import asyncio
import re
import unicodedata
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from datetime import date
from io import BytesIO
from typing import ClassVar

from dryfit.app.pages.asked import Asked, File, Page, Slip
from dryfit.app.pages.frame import Frame, frame
from dryfit.store.parcel import pack
from dryfit.store.readings import export
from dryfit.store.spreadsheet import readings_table, sizes_table
from dryfit.store.trouble import Trouble


@dataclass(frozen=True, slots=True)
class Row:
    """A sheet to print or a file to take away: its name in the address, title, what it is for."""

    name: str
    title: str
    told: str


SHEETS = (
    Row("book", "The whole book", "all of it, in the order of the work"),
    Row("strip-down", "Strip-down", "what to write down before it is taken apart"),
    Row("settings", "Settings", "each pack and nut: what to fit, by which way"),
    Row("walk", "Walk to nothing", "a form to take along a row of readings"),
    Row("order", "Order", "what goes on when, with its hold points"),
    Row("readings", "Readings", "what every check should read, with a box for each"),
    Row("record", "Record", "what was found, fitted and read, for the next one"),
    Row("help", "Asking for help", "one page to show to another person"),
)

FILES = (
    Row("text", "The text", "sizes and readings as you typed them: yours to keep, any editor"),
    Row("parcel", "Text and photographs", "a zip; bring it in on any machine with dryfit"),
    Row("sizes", "Sizes as a table", "CSV for a spreadsheet"),
    Row("readings", "Readings as a table", "CSV, those struck out marked"),
    Row("drawing.svg", "Drawing, SVG", "to scale, for a screen"),
    Row("drawing.pdf", "Drawing, PDF", "to scale, to print"),
    Row("drawing.dxf", "Drawing, DXF", "for a drawing program"),
    Row("plots", "Plots, PDF", "readings against packs, what makes up each doubt"),
)


@dataclass(frozen=True)
class BookPage(Page):
    """What there is to print and to take away."""

    template: ClassVar[str] = "book.html"
    frame: Frame
    slip: Slip | None
    sheets: tuple[Row, ...] = SHEETS
    files: tuple[Row, ...] = FILES


async def page(asked: Asked) -> BookPage:
    """Show what there is."""
    return BookPage(frame(asked, "book"), asked.slip)


async def sheet(asked: Asked) -> File:
    """Print one sheet, or the book."""
    if asked.at not in {row.name for row in SHEETS}:
        raise nothing(asked.at)
    day = date.today().isoformat()
    name = file_name(asked)
    paper = "letter" if asked.query.get("paper") == "letter" else "a4"
    done = await asked.work("printed", asked.at, f"{name}.yaml", day, paper, pace="long")
    return File(done.pdf, "application/pdf")


async def file(asked: Asked) -> File:
    """Give one file."""
    maker = MAKERS.get(asked.at)
    if maker is None:
        raise nothing(asked.at)
    return await maker(asked, file_name(asked))


def nothing(name: str) -> Trouble:
    """Say that there is no file or sheet of a name."""
    return Trouble("book.none", f"there is nothing called '{name[:40]}' in the book", "choose one")


def file_name(asked: Asked) -> str:
    """Name the files of a unit after its title, in letters that every system takes."""
    title = asked.document.rebuild.title
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    words = re.findall(r"[a-z0-9]+", plain)
    return "-".join(words)[:60] or f"unit-{asked.revision.rebuild}"


async def _text(asked: Asked, name: str) -> File:
    told = export(asked.store, asked.revision.rebuild)
    return File(told.text.encode(), "application/yaml", f"{name}.yaml")


async def _parcel(asked: Asked, name: str) -> File:
    held = BytesIO()
    await asyncio.to_thread(pack, asked.store, asked.revision.rebuild, held)
    return File(held.getvalue(), "application/zip", f"{name}.zip")


async def _sizes(asked: Asked, name: str) -> File:
    table = sizes_table(asked.store, asked.revision.rebuild)
    return File(table, "text/csv; charset=utf-8", f"{name}-sizes.csv")


async def _readings(asked: Asked, name: str) -> File:
    table = readings_table(asked.store, asked.revision.rebuild)
    return File(table, "text/csv; charset=utf-8", f"{name}-readings.csv")


async def _plots(asked: Asked, name: str) -> File:
    made = await asked.work("plots_file", "a4", pace="long")
    return File(_made(made), "application/pdf", f"{name}-plots.pdf")


def _drawing(ending: str, media: str) -> "Maker":
    async def make(asked: Asked, name: str) -> File:
        made = await asked.work("drawing_file", ending)
        return File(_made(made), media, f"{name}{ending}")

    return make


def _made(data: bytes | None) -> bytes:
    if data is None:
        way_out = "see under Measure what has to be put right"
        raise Trouble("book.unanswered", "there is nothing to draw yet", way_out)
    return data


Maker = Callable[[Asked, str], Awaitable[File]]

MAKERS: dict[str, Maker] = {
    "text": _text,
    "parcel": _parcel,
    "sizes": _sizes,
    "readings": _readings,
    "drawing.svg": _drawing(".svg", "image/svg+xml"),
    "drawing.pdf": _drawing(".pdf", "application/pdf"),
    "drawing.dxf": _drawing(".dxf", "image/vnd.dxf"),
    "plots": _plots,
}
"""Who makes each of `FILES`."""
