"""What is worked out in a process of its own, by name. Nothing here is imported by the pages.

Each takes bytes and plain values and gives frozen data, which can be sent between processes.
"""

from collections.abc import Callable
from dataclasses import dataclass
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


TASKS: dict[str, Callable[..., Any]] = {
    "choose": choose,
    "review": review,
    "picture": picture,
    "order": order,
    "build": build,
}


@cache
def warm() -> None:
    """Load what nearly every task needs."""
    from dryfit.app.usecases import choose as _answers
    from dryfit.app.usecases import picture as _drawings

    del _answers, _drawings
