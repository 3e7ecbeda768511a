"""What is worked out in a process of its own, by name. Nothing here is imported by the pages.

Each takes bytes and plain values and gives frozen data, which can be sent between processes.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
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
    from dryfit.app.usecases.choose import answered
    from dryfit.ask.asking import usual_draws

    opened = _opened(data)
    usual = usual_draws(opened.rebuild)
    return answered(opened, None if draws is None else min(draws, usual))


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


TASKS: dict[str, Callable[..., Any]] = {
    "choose": choose,
    "review": review,
    "picture": picture,
    "matters": matters,
    "order": order,
}


@cache
def warm() -> None:
    """Load what nearly every task needs."""
    from dryfit.app.usecases import choose as _answers
    from dryfit.app.usecases import picture as _drawings

    del _answers, _drawings
