"""`book`: all that is known of a unit, on sheets of paper for the bench."""

from dataclasses import dataclass, replace
from datetime import date

from dryfit.app.paper.behind import part_sheets, size_sheets, source_sheet, walk_sheets
from dryfit.app.paper.blocks import Sheet
from dryfit.app.paper.checking import check_sheets
from dryfit.app.paper.fitting import setting_sheets
from dryfit.app.paper.front import cover, noted, wanted
from dryfit.app.paper.known import Drawn, Known
from dryfit.app.paper.press import Imprint, Paper, cannot_be_set, pressed
from dryfit.app.paper.walking import walk_forms
from dryfit.app.usecases.choose import answered, unread
from dryfit.app.usecases.opening import FindingAnswer, Opened, open_text
from dryfit.app.usecases.picture import picture
from dryfit.app.words.around import named
from dryfit.app.words.figures import figures


@dataclass(frozen=True)
class BookRequest:
    """A text, the name of its file, the day to print on every sheet, and the paper."""

    text: bytes
    file: str
    printed: date
    paper: Paper = "a4"
    draws: int | None = None


@dataclass(frozen=True)
class BookAnswer:
    """A book.

    Attributes
    ----------
    findings
        All that was found, also letters that no face inside has.
    pdf
        The book.
    titles
        Of its sections, in their order.
    answered
        Whether the text could be answered; where it could not, the book says what stops it.
    """

    findings: tuple[FindingAnswer, ...]
    pdf: bytes
    titles: tuple[str, ...]
    answered: bool


def book(request: BookRequest) -> BookAnswer:
    """Make the book of a unit."""
    opened = open_text(request.text)
    known = known_of(opened, request.text, request.draws)
    imprint = Imprint(named(known.answer), request.file, request.printed, request.paper)
    return bound(known, opened, sheets_of(known), imprint, noted_after=1)


def known_of(opened: Opened, text: bytes, draws: int | None = None) -> Known:
    """Collect all that is known of a unit."""
    answer = answered(opened, draws)
    show = figures("mm" if answer.system == "mm" else "inch", None)
    drawn = picture(text) if answer.answered else Drawn(why=UNDRAWN)
    return Known(opened.rebuild, answer, show, drawn)


def unasked(opened: Opened) -> Known:
    """Take what is written of a unit, and ask nothing of it."""
    show = figures(opened.system, None)
    return Known(opened.rebuild, replace(unread(opened), answered=True), show, Drawn())


UNDRAWN = "There is no drawing: the text has to be put right first."


def sheets_of(known: Known) -> tuple[Sheet, ...]:
    """Write all sections of a book but what was found."""
    return (
        cover(known),
        *setting_sheets(known),
        *walk_forms(known, taken_alone=True),
        *walk_sheets(known),
        *wanted(known),
        *check_sheets(known),
        *size_sheets(known),
        *part_sheets(known),
        source_sheet(known),
    )


def bound(
    known: Known, opened: Opened, sheets: tuple[Sheet, ...], imprint: Imprint, *, noted_after: int
) -> BookAnswer:
    """Put what was found behind so many sheets, and print them all."""
    letters = tuple(_letter(opened, c) for c in cannot_be_set(sheets, imprint))
    findings = (*opened.findings, *letters)
    before, after = sheets[:noted_after], sheets[noted_after:]
    every = (*before, *noted(findings, known), *after)
    titles = tuple(one.title for one in every)
    return BookAnswer(findings, pressed(every, imprint), titles, known.answer.answered)


def _letter(opened: Opened, character: str) -> FindingAnswer:
    """Name a character that no face inside has."""
    code = f"U+{ord(character):04X}"
    lines = opened.document.tree.text.splitlines() or [""]
    line = next((n for n, text in enumerate(lines) if character in text), None)
    column = 0 if line is None else lines[line].index(character) + 1
    return FindingAnswer(
        "paper.letter",
        "note",
        0 if line is None else line + 1,
        column,
        f"the faces of the book have no {code}; it stands there as ‹{code}›",
        "write it in other letters, or live with its code",
        "",
    )
