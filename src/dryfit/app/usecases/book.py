"""`book`: all that is known of a unit, on sheets of paper for the bench."""

from dataclasses import dataclass
from datetime import date
from functools import partial

from dryfit.app.paper.behind import (
    line_drawings,
    size_and_part_sheets,
    source_sheet,
    walk_sheets,
)
from dryfit.app.paper.blocks import Sheet
from dryfit.app.paper.checking import check_sheets
from dryfit.app.paper.fitting import setting_sheets
from dryfit.app.paper.front import cover, wanted
from dryfit.app.paper.known import Known
from dryfit.app.paper.ordering import order_sheets
from dryfit.app.paper.press import Imprint, Paper
from dryfit.app.paper.walking import walk_forms
from dryfit.app.usecases.binding import BookAnswer, bound, known_of
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.picture import Findings
from dryfit.app.words.around import named


@dataclass(frozen=True)
class BookRequest:
    """A text, the name of its file, the day to print on every sheet, and the paper."""

    text: bytes
    file: str
    printed: date
    paper: Paper = "a4"
    draws: int | None = None


def book(request: BookRequest) -> BookAnswer:
    """Make the book of a unit."""
    opened = open_text(request.text)
    known = known_of(opened, request.draws)
    imprint = Imprint(named(known.answer), request.file, request.printed, request.paper)
    return bound(known, opened.findings, imprint, partial(sheets_of, known))


def sheets_of(known: Known, findings: Findings) -> tuple[Sheet, ...]:
    """Write all sections of a book."""
    return (
        cover(known),
        *wanted(findings, known),
        *setting_sheets(known),
        *walk_forms(known, taken_alone=True),
        *walk_sheets(known),
        *order_sheets(known),
        *check_sheets(known),
        *line_drawings(known),
        *size_and_part_sheets(known),
        source_sheet(known),
    )
