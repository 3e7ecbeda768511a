"""The first page, which asks what is on the bench."""

import asyncio
import re
from dataclasses import dataclass
from io import BytesIO
from typing import ClassVar

from dryfit.app.pages.asked import Asked, Done, Page, Refused, Slip, path
from dryfit.app.pages.edits import place_in
from dryfit.app.pages.frame import Frame, frame, when
from dryfit.app.pages.kind import bare
from dryfit.app.pages.listed import list_again, put_away, told_apart
from dryfit.app.pages.rows import sizes_words
from dryfit.app.pages.strip_ticks import MARK, PHASE
from dryfit.app.usecases import demos
from dryfit.app.usecases.begin import start
from dryfit.app.words.kinds import KINDS
from dryfit.document.characters import decode
from dryfit.document.read import read_document
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import NotKnown
from dryfit.quantities.finding import Finding
from dryfit.store.journal import LONGEST_STEP, Step, note
from dryfit.store.opening import Store
from dryfit.store.parcel import Unpacked, unpack
from dryfit.store.revisions import begin, newest, rebuilds, refuse_text

ZIP = b"PK"
"""How every zip begins."""

OURS = re.compile(r"^\s*['\"]?dryfit['\"]?\s*:", re.MULTILINE)
"""The line that every text of dryfit has."""


@dataclass(frozen=True, slots=True)
class UnitRow:
    """A unit that was begun: what it is, when it was last changed, and where to go on."""

    number: int
    title: str
    told: str
    changed: str
    page: str


@dataclass(frozen=True, slots=True)
class KindCard:
    """A kind to point at."""

    start: str
    name: str
    told: str
    drawing: str


@dataclass(frozen=True)
class FirstPage(Page):
    """Units begun, those put away, and what to begin with."""

    template: ClassVar[str] = "first.html"
    frame: Frame
    units: tuple[UnitRow, ...]
    away: tuple[UnitRow, ...]
    kinds: tuple[KindCard, ...]
    demos: tuple[str, ...]
    slip: Slip | None


async def page(asked: Asked) -> FirstPage:
    """Show the first page."""
    units = [_row(asked, number) for number in rebuilds(asked.store)]
    away = tuple(one for one in units if put_away(asked.store, one.number))
    listed = tuple(one for one in units if one not in away)
    cards = tuple(KindCard(one.start, one.name, one.told, bare(one)) for one in KINDS)
    return FirstPage(frame(asked, ""), listed, away, cards, demos.names(), asked.slip)


def _row(asked: Asked, number: int) -> UnitRow:
    kept = newest(asked.store, number)
    document = read_document(kept.text)
    rebuild = document.rebuild
    return UnitRow(
        number,
        rebuild.title or f"Unit {number}",
        f"unit {number}, {sizes_words(document)}",
        when(kept.at),
        "measure" if _known(rebuild) else "strip",
    )


def _known(rebuild: Rebuild) -> int:
    return sum(not isinstance(size.size, NotKnown) for size in rebuild.sizes.values())


async def begin_here(asked: Asked) -> Done:
    """Begin a unit with the text of a demo, or with nothing."""
    form = asked.form
    if form.get("kind") == "blank":
        kept = begin(asked.store, told_apart(asked.store, start("blank")))
        return Done(path(kept.rebuild, "text"))  # lines are typed there
    name = form.get("demo", "")
    if name not in demos.names():
        message = f"there is no demo '{name[:40]}'"
        found = Finding("page.demo", (), message, "choose one of the list")
        raise Refused(Slip((), form, (found,)))
    kept = begin(asked.store, told_apart(asked.store, demos.text(name)))
    return Done(path(kept.rebuild, "measure"))


async def bring_in(asked: Asked) -> Done:
    """Begin a unit with a text or a zip from elsewhere; all of it or nothing."""
    data = asked.files.get("brought")
    if data is None:
        message, way_out = "no file was chosen", "choose a text or a zip first"
        raise Refused(_beside(asked, Finding("bring.none", (), message, way_out)))
    if data.startswith(ZIP):
        done = await asyncio.to_thread(unpack, asked.store, BytesIO(data))
        return Done(_brought(asked.store, done))
    if wrong := _no_text(data):
        raise Refused(_beside(asked, wrong))
    return Done(path(begin(asked.store, data).rebuild, "measure"))


def _beside(asked: Asked, wrong: Finding) -> Slip:
    return Slip(place_in(asked.form), asked.form, (wrong,))


def _no_text(data: bytes) -> Finding | None:
    """Say why a file is no text of dryfit; what is wrong within one is put right in the unit."""
    if not data:
        message = "the file is empty: there is nothing in it"
        return Finding("bring.empty", (), message, "have it sent again, or choose another")
    refuse_text(data)
    if not OURS.search(decode(data)[0]):
        message = "this is no text of dryfit: no line begins with 'dryfit:'"
        return Finding("bring.other", (), message, "choose the text or the zip that dryfit wrote")
    return None


def _brought(store: Store, done: Unpacked) -> str:
    """Say where to go on; what of a zip could not be kept is noted, and shown there."""
    unit = done.revision.rebuild
    list_again(store, unit)
    if not done.findings:
        return path(unit, "measure")
    told = "; ".join(found.message for found in done.findings)
    how = {**PHASE, "sort": MARK, "on": "brought in"}
    note(store, unit, Step("brought in", told[:LONGEST_STEP], how))
    return path(unit, "strip", hash_="marks")


async def light(asked: Asked) -> Done:
    """Change how bright the pages are, and go back to where that was asked for."""
    to = asked.form.get("back", "/")
    return Done(to if to.startswith("/") and not to.startswith("//") else "/")
