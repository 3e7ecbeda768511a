"""What is worked out in a process of its own, by name. Nothing here is imported by the pages.

Each takes bytes and plain values and gives frozen data, which can be sent between processes.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any

FIRST_LOOK = 2_000
"""Draws of a first look; usual is ten times as many, or fewer where parts give."""


@dataclass(frozen=True)
class Picture:
    """A drawing as SVG, or why there is none; see `app.paper.known.Drawn`."""

    svg: str
    why: str
    letters: dict[str, str]
    balloons: dict[str, str]


def choose(data: bytes, draws: int | None = None) -> Any:
    """Answer a text: settings, chances, checks, what raises it."""
    from dryfit.app.usecases.choose import answered
    from dryfit.app.usecases.opening import open_text
    from dryfit.ask.asking import usual_draws

    opened = open_text(data)
    usual = usual_draws(opened.rebuild)
    return answered(opened, None if draws is None else min(draws, usual))


def review(data: bytes) -> Any:
    """Say what is wrong with a text and what is not known yet."""
    from dryfit.app.usecases.review import ReviewRequest
    from dryfit.app.usecases.review import review as ask

    return ask(ReviewRequest(data))


def picture(data: bytes) -> Picture:
    """Draw a unit, its tables apart."""
    from dryfit.app.usecases.opening import open_text
    from dryfit.app.usecases.order import OrderAnswer
    from dryfit.app.usecases.picture import picture as draw

    opened = open_text(data)
    if opened.stopped:
        return Picture("", "There is no drawing: the text has to be put right first.", {}, {})
    drawn = draw(opened, OrderAnswer("", False, ()))  # steps have pictures of their own
    return Picture(drawn.svg, drawn.why, dict(drawn.letters), dict(drawn.balloons))


def order(data: bytes) -> Any:
    """Derive the order of assembly."""
    from dryfit.app.usecases.order import OrderRequest
    from dryfit.app.usecases.order import order as ask

    return ask(OrderRequest(data))


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
    "review": review,
    "picture": picture,
    "order": order,
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
