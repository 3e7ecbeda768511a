"""What is worked out in a process of its own, by name. Nothing here is imported by the pages.

Each takes bytes and plain values and gives frozen data, which can be sent between processes.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dryfit.app.usecases.opening import FindingAnswer

FIRST_LOOK = 2_000
"""Draws of a first look; usual is ten times as many, or fewer where parts give."""


@dataclass(frozen=True)
class Picture:
    """A drawing as SVG, or why there is none, see `app.paper.known.Drawn`; and all findings."""

    svg: str
    why: str
    letters: dict[str, str]
    balloons: dict[str, str]
    lines: dict[str, str] = field(default_factory=dict)
    findings: "tuple[FindingAnswer, ...]" = ()


@lru_cache(maxsize=4)
def _opened(data: bytes) -> Any:
    """Open a text once for all that is asked of it."""
    from dryfit.app.usecases.opening import open_text

    return open_text(data)


def choose(data: bytes, draws: int | None = None) -> Any:
    """Answer a text: settings, chances, checks, what raises it."""
    from dryfit.ask.asking import usual_draws

    fewer = draws is not None and draws < usual_draws(_opened(data).rebuild)
    return _chosen(data, draws if fewer else None)


@lru_cache(maxsize=4)
def _chosen(data: bytes, draws: int | None) -> Any:
    """Answer a text; asked for by more than one page, so the last answers are kept."""
    from dryfit.app.usecases.choose import answered

    return answered(_opened(data), draws)


def setting(data: bytes, draws: int | None = None) -> Any:
    """Tell the same answer in the words of the page Set."""
    from dryfit.app.pages.set_say import told
    from dryfit.ask.asking import usual_draws

    rebuild = _opened(data).rebuild
    first = draws if draws is not None and draws < usual_draws(rebuild) else 0
    return told(choose(data, draws), rebuild, first or 0)


def tried(data: bytes, packs: tuple[tuple[str, str], ...]) -> Any:
    """Try other packs on; `packs` by setting as typed."""
    from dryfit.app.pages.set_tried import tried as ask

    return ask(data, packs)


def wanted(data: bytes) -> Any:
    """List what is wanted of a unit."""
    from dryfit.app.pages.set_wanted import wanted as ask

    return ask(data)


def plots(data: bytes, kind: str) -> Any:
    """Draw the plots of one kind."""
    from dryfit.app.pages.set_plots import plots as ask

    return ask(data, kind)


def walk(data: bytes, typed: Any) -> Any:
    """Answer a walk that belongs to no unit."""
    from dryfit.app.pages.walk_say import walked

    return walked(typed)


def walk_rows(data: bytes, rows: Any, by: str) -> Any:
    """Read the rows of a walk of a unit: what is wrong with each."""
    from dryfit.app.pages.walk_say import rows_read
    from dryfit.document.read import read_document

    return rows_read(rows, by, read_document(data).rebuild.system)


def walks(data: bytes, part: str) -> Any:
    """Answer the walks of a unit that are written for a setting or nut."""
    from dryfit.app.pages.walk_say import walks_of

    return walks_of(data, part)


def first_answer(data: bytes, draws: int | None = None) -> Any:
    """Say what a unit just begun tells already, and what makes that doubtful."""
    from dryfit.app.usecases.doubt import doubts
    from dryfit.app.words.figures import figures
    from dryfit.app.words.first_answer import first_answer as told

    opened = _opened(data)
    return told(choose(data, draws), doubts(opened), figures(opened.system, None))


def review(data: bytes) -> Any:
    """Say what is wrong with a text and what is not known yet."""
    from dryfit.app.usecases.review import ReviewRequest
    from dryfit.app.usecases.review import review as ask

    return ask(ReviewRequest(data))


def picture(data: bytes, links: str = "") -> Picture:
    """Draw a unit, its tables apart; behind `links` stands the name of the part touched."""
    from dryfit.app.usecases.picture import picture as draw

    opened = _opened(data)
    if opened.stopped:
        why = "There is no drawing: the text has to be put right first."
        return Picture("", why, {}, {}, findings=opened.findings)
    drawn = draw(opened, links)
    return Picture(
        drawn.svg,
        drawn.why,
        dict(drawn.letters),
        dict(drawn.balloons),
        dict(drawn.lines),
        (*opened.findings, *drawn.findings),
    )


def matters(data: bytes, packs: tuple[tuple[str, float], ...], draws: int) -> Any:
    """Say what each size makes of the doubt in what is wanted."""
    from dryfit.app.usecases.matters import matters as ask

    return ask(_opened(data), packs, draws)


def order(data: bytes) -> Any:
    """Derive the order of assembly."""
    from dryfit.app.usecases.order import OrderRequest
    from dryfit.app.usecases.order import order as ask

    return ask(OrderRequest(data))


def taken_apart(data: bytes) -> Any:
    """Say how each line comes apart."""
    from dryfit.app.usecases.order import strip_of
    from dryfit.app.words.order import taken_apart as told

    return told(strip_of(_opened(data)))


def build(data: bytes) -> Any:
    """Derive the order of assembly, with words and a picture for each step."""
    from dryfit.app.pages.build_order import build_order

    return build_order(data)


@dataclass(frozen=True)
class Printed:
    """Sheets to print, or why there are none."""

    pdf: bytes
    findings: tuple[Any, ...]


def printed(data: bytes, what: str, file: str, day: str, paper: Any) -> Printed:
    """Make the whole book (`what` is `book`) or one of its sheets."""
    from dryfit.app.usecases.book import BookRequest, book
    from dryfit.app.usecases.sheets import SheetRequest, sheet

    on = date.fromisoformat(day)
    done = (
        book(BookRequest(data, file, on, paper))
        if what == BOOK
        else sheet(SheetRequest(what, data, file, on, paper))
    )
    return Printed(done.pdf, done.findings)


BOOK = "book"


def drawing_file(data: bytes, ending: str) -> bytes | None:
    """Draw a unit with its tables as a file; None where the text has to be put right first."""
    from dryfit.app.usecases.drawing import DrawRequest, draw
    from dryfit.draw.written import written

    answer = draw(DrawRequest(data))
    return None if answer.drawing is None else written(answer.drawing, ending)


def plots_file(data: bytes, paper: str) -> bytes | None:
    """Plot all that can be plotted of a unit, a sheet each; None where there is nothing."""
    from dryfit.app.usecases.plots import PlotRequest, plot
    from dryfit.draw.pdf import pages

    answer = plot(PlotRequest(data))
    if not answer.drawings:
        return None
    return pages(answer.drawings, answer.title or answer.drawings[0].title, paper=paper)


TASKS: dict[str, Callable[..., Any]] = {
    "choose": choose,
    "setting": setting,
    "tried": tried,
    "wanted": wanted,
    "plots": plots,
    "walk": walk,
    "walk_rows": walk_rows,
    "walks": walks,
    "first_answer": first_answer,
    "review": review,
    "picture": picture,
    "matters": matters,
    "order": order,
    "taken_apart": taken_apart,
    "build": build,
    "printed": printed,
    "drawing_file": drawing_file,
    "plots_file": plots_file,
}


@cache
def warm() -> None:
    """Load what nearly every task needs."""
    from dryfit.app.usecases import choose as _answers
    from dryfit.app.usecases import picture as _drawings

    del _answers, _drawings
