"""What book and sheets share: all that is known of a unit, and sheets bound into one PDF."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from dryfit.app.paper.blocks import Sheet
from dryfit.app.paper.known import Drawn, Known
from dryfit.app.paper.press import Imprint, cannot_be_set, pressed
from dryfit.app.usecases.choose import answered_by, asking_of, unread
from dryfit.app.usecases.opening import FindingAnswer, Opened
from dryfit.app.usecases.order import order_of, strip_of
from dryfit.app.usecases.ordering.answers import OrderAnswer
from dryfit.app.usecases.picture import Findings, picture, step_pictures, strip_pictures
from dryfit.app.words.figures import figures


@dataclass(frozen=True)
class BookAnswer:
    """A book, or one sheet.

    Attributes
    ----------
    findings
        All that was found, also of the drawing, and letters that no face inside has.
    pdf
        The sheets.
    titles
        Of its sections, in their order.
    answered
        Whether the text could be answered; where it could not, a sheet says what stops it.
    """

    findings: Findings
    pdf: bytes
    titles: tuple[str, ...]
    answered: bool


def known_of(opened: Opened, draws: int | None = None, pins: tuple[str, ...] = ()) -> Known:
    """Collect all that is known of a unit; pins are wishes for its order."""
    asking = asking_of(opened, draws)
    answer = answered_by(opened, asking)
    show = figures("mm" if answer.system == "mm" else "inch", None)
    order = order_of(opened, pins, asking=None if draws else asking)
    drawn = (
        replace(picture(opened), steps=step_pictures(opened, order))
        if answer.answered
        else Drawn(why=UNDRAWN)
    )
    return Known(opened.document.tree.text, opened.rebuild, answer, show, drawn, order)


UNDRAWN = "There is no drawing: the text has to be put right first."


def unasked(opened: Opened, *, strip: bool) -> Known:
    """Take what is written of a unit, and how it comes apart if wanted; ask nothing else of it."""
    answer = replace(unread(opened), answered=not opened.stopped)
    show = figures(opened.system, None)
    order = strip_of(opened) if strip else OrderAnswer(opened.rebuild.title, False, ())
    drawn = Drawn(offs=strip_pictures(opened, order))
    return Known(opened.document.tree.text, opened.rebuild, answer, show, drawn, order)


def bound(
    known: Known, found: Findings, imprint: Imprint, write: Callable[[Findings], tuple[Sheet, ...]]
) -> BookAnswer:
    """Write sheets that say what was found, and print them."""
    missing = cannot_be_set(write(found), imprint)
    told = (*found, *(_letter(known.text, character) for character in missing))
    sheets = write(told)
    titles = tuple(one.title for one in sheets)
    findings = (*told, *known.drawn.findings)
    return BookAnswer(findings, pressed(sheets, imprint), titles, known.answer.answered)


def _letter(text: str, character: str) -> FindingAnswer:
    """Name a character that no face inside has, where it first stands."""
    code = f"U+{ord(character):04X}"
    line, column = _place(text, character)
    told = f"the faces of the book have no {code}; it stands there as ‹{code}›"
    return FindingAnswer(LETTER, "note", line, column, told, WAY_OUT, "")


LETTER = "paper.letter"
"""Code of what is found of a letter that no face has."""

WAY_OUT = "write it in other letters, or leave it as it is"


def _place(text: str, character: str) -> tuple[int, int]:
    """Say in which line and column a character first stands; noughts if it does not."""
    before, found, _ = text.partition(character)
    return (before.count("\n") + 1, len(before.rpartition("\n")[2]) + 1) if found else (0, 0)
