"""The press: sheets as data go in, the bytes of a PDF come out.

Nothing is written to disk and nothing read but the template beside this and the faces; no text of
a user is ever code. The file is PDF/A-2b, so all faces are inside it, and the same sheets with the
same date give the same bytes.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from functools import cache
from importlib.resources import files
from typing import Any, Literal

from dryfit.app.paper.blocks import Sheet, as_data
from dryfit.app.paper.letters import legible, missing
from dryfit.app.words.trade import LIMITS, PRACTICE

Paper = Literal["a4", "letter"]
PAPERS: dict[Paper, str] = {"a4": "a4", "letter": "us-letter"}

MARK = "made by dryfit"
"""Stands in every file from here, so that it is known again."""

LONGEST = 70
"""Letters of a title that go into the head of every sheet."""


@dataclass(frozen=True)
class Imprint:
    """What stands on every sheet beside its own: the unit, the file's name, the date, the paper."""

    unit: str
    file: str
    printed: date
    paper: Paper


def pressed(sheets: tuple[Sheet, ...], imprint: Imprint) -> bytes:
    """Set sheets and give the PDF."""
    import typst

    day = datetime.combine(imprint.printed, time(), UTC)
    made = typst.compile(
        (files("dryfit.app.paper") / "sheet.typ").read_bytes(),
        font_paths=_faces(),
        ignore_system_fonts=True,
        sys_inputs={"told": json.dumps(_told(sheets, imprint))},
        pdf_standards="a-2b",
        timestamp=day,
    )
    if not isinstance(made, bytes):
        raise TypeError("typst gives one PDF as bytes")
    return made


def cannot_be_set(sheets: tuple[Sheet, ...], imprint: Imprint) -> tuple[str, ...]:
    """List the characters on some sheets that no face inside has."""
    return missing((imprint.unit, imprint.file, *_texts(as_data(sheets))))


@cache
def _faces() -> Any:
    """Load the faces of Fira Sans and those inside typst, once."""
    import typst

    return typst.Fonts(False, True, [str(files("fontpkg_fira_sans") / "files")])


def _told(sheets: tuple[Sheet, ...], imprint: Imprint) -> dict[str, Any]:
    day = imprint.printed
    told = {
        "unit": short(imprint.unit),
        "file": short(imprint.file),
        "printed": f"{day.day} {day:%B} {day.year}",
        "foot": f"{LIMITS} {PRACTICE}",
        "sheets": as_data(sheets),
    }
    return {**each(told, legible), "paper": PAPERS[imprint.paper], "mark": MARK}


def short(text: str) -> str:
    """Cut what is too long for the head of a sheet."""
    return text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"


def each(data: Any, change: Callable[[str], str]) -> Any:
    """Change every text in some data but drawings and what the template goes by."""
    if isinstance(data, str):
        return change(data)
    if isinstance(data, list):
        return [each(one, change) for one in data]
    if isinstance(data, dict):
        return {k: v if k in AS_IT_IS else each(v, change) for k, v in data.items()}
    return data


AS_IT_IS = ("block", "svg")


def _texts(data: Any) -> tuple[str, ...]:
    """List every text in some data."""
    seen: list[str] = []

    def note(text: str) -> str:
        seen.append(text)
        return text

    each(data, note)
    return tuple(seen)
