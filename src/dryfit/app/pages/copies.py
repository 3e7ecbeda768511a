"""Copies of all that is kept, and the one click that brings one back."""

import asyncio
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import ClassVar

from dryfit.app.pages.asked import Asked, Done, Page, Refused, Slip
from dryfit.app.pages.frame import Frame, frame, when
from dryfit.store.copies import Copy
from dryfit.store.trouble import Trouble

WHY = {
    "start": "at a start",
    "new-form": "before a newer dryfit changed its form",
    "bring-back": "before another copy was brought back",
}


@dataclass(frozen=True, slots=True)
class CopyRow:
    """One copy: the name it is brought back by, its number, when and what for."""

    name: str
    number: int
    at: str
    why: str


@dataclass(frozen=True)
class CopiesPage(Page):
    """The copies there are."""

    template: ClassVar[str] = "copies.html"
    frame: Frame
    slip: Slip | None
    folder: str
    copies: tuple[CopyRow, ...]
    brought: str


async def page(asked: Asked) -> CopiesPage:
    """Show the copies."""
    rows = tuple(row(copy) for copy in asked.store.copies())
    brought = asked.query.get("brought", "")
    known = brought if brought in {str(one.number) for one in rows} else ""
    folder = str(asked.store.folder.path)
    return CopiesPage(frame(asked, "copies"), asked.slip, folder, rows, known)


def row(copy: Copy) -> CopyRow:
    """Tell of a copy."""
    made = datetime.strptime(copy.at, "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC)
    return CopyRow(copy.name, copy.number, when(made.isoformat()), WHY.get(copy.why, copy.why))


async def bring_back(asked: Asked) -> Done:
    """Put a copy in the place of what is there, which is kept as a copy first."""
    try:
        kept = await asyncio.to_thread(asked.store.bring_back, asked.form.get("copy", ""))
    except Trouble as trouble:
        raise Refused(Slip((), asked.form, (trouble.finding,))) from trouble
    return Done(f"/copies?brought={kept.number}")
