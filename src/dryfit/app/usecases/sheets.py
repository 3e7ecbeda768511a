"""`sheet`: one sheet of a unit for itself, or an empty one."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date

from dryfit.app.paper.blocks import Sheet
from dryfit.app.paper.checking import check_sheets
from dryfit.app.paper.fitting import setting_sheets
from dryfit.app.paper.front import noted
from dryfit.app.paper.helping import help_sheet
from dryfit.app.paper.known import Known
from dryfit.app.paper.ordering import order_sheets
from dryfit.app.paper.press import Imprint, Paper
from dryfit.app.paper.record import record_sheets
from dryfit.app.paper.strip_down import strip_sheets
from dryfit.app.paper.summary import reading_sheet
from dryfit.app.paper.walking import walk_forms
from dryfit.app.usecases.begin import start
from dryfit.app.usecases.binding import LETTER, BookAnswer, bound, known_of, unasked
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.picture import Findings
from dryfit.model.rebuild import Rebuild


@dataclass(frozen=True)
class SheetRequest:
    """Which sheet, the text it is made for, and what is printed on it.

    Attributes
    ----------
    name
        One of `names()`.
    text
        A document; None for an empty sheet.
    start
        Kind of start document a strip-down sheet is made for, where there is no text yet.
    pins
        Wishes for the order.
    """

    name: str
    text: bytes | None
    file: str
    printed: date
    paper: Paper = "a4"
    start: str | None = None
    draws: int | None = None
    pins: tuple[str, ...] = ()


def names() -> tuple[str, ...]:
    """List the sheets there are."""
    return tuple(SHEETS)


def needs_text(name: str) -> bool:
    """Tell whether a sheet is nothing without a document."""
    return name in ("order", "readings", "settings")


def sheet(request: SheetRequest) -> BookAnswer:
    """Make one sheet, which may go on over more than one page."""
    text = request.text
    if text is None and request.start is not None:
        text = start(request.start)
    opened = open_text(text or start("blank"))
    asked = request.name != STRIP_DOWN and text is not None
    known = (
        known_of(opened, request.draws, request.pins)
        if asked
        else unasked(opened, strip=request.text is not None)
    )
    unit = opened.rebuild.title if text is not None else ""
    imprint = Imprint(unit, request.file, request.printed, request.paper)
    found = opened.findings if request.text is not None else ()
    sheets = SHEETS[request.name](known if text is not None else None)
    done = bound(known, found, imprint, lambda told: (*sheets, *noted(_to_say(told))))
    return replace(done, answered=True) if request.text is None else done


def _to_say(findings: Findings) -> Findings:
    """Leave out what is but to be kept in mind: a sheet by itself is for one thing."""
    return tuple(f for f in findings if f.level == "stop" or f.code == LETTER)


STRIP_DOWN = "strip-down"


def _strip_down(known: Known | None) -> tuple[Sheet, ...]:
    if known is None:
        return strip_sheets(Rebuild("mm"))
    return strip_sheets(known.rebuild, known.order, known.drawn.offs)


def _order(known: Known | None) -> tuple[Sheet, ...]:
    return order_sheets(known) if known else ()


def _help(known: Known | None) -> tuple[Sheet, ...]:
    return (help_sheet(known),)


def _readings(known: Known | None) -> tuple[Sheet, ...]:
    return (reading_sheet(known), *check_sheets(known)) if known else ()


def _settings(known: Known | None) -> tuple[Sheet, ...]:
    return (*setting_sheets(known), *walk_forms(known, taken_alone=True)) if known else ()


SHEETS: dict[str, Callable[[Known | None], tuple[Sheet, ...]]] = {
    STRIP_DOWN: _strip_down,
    "help": _help,
    "walk": walk_forms,
    "order": _order,
    "record": record_sheets,
    "readings": _readings,
    "settings": _settings,
}
