"""The first answer of a unit just begun: what to fit, how wide what it reads is, and why."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from dryfit.app.pages.asked import Asked, Page, Slip, path
from dryfit.app.pages.frame import Frame, frame
from dryfit.app.pages.tasks import FIRST_LOOK

if TYPE_CHECKING:
    from dryfit.app.words.first_answer import FirstAnswer

USUAL = "usual"
"""What follows the address of the piece once a first look has been shown."""


@dataclass(frozen=True)
class FirstAnswerPage(Page):
    """What is round the answer: it is worked out behind it."""

    template: ClassVar[str] = "first_answer.html"
    frame: Frame
    slip: Slip | None


@dataclass(frozen=True)
class FirstAnswerPiece(Page):
    """The answer; `next` is where it is told with as many draws as usual, once that is known."""

    template: ClassVar[str] = "first_answer_piece.html"
    unit: int
    answer: "FirstAnswer"
    next: str


async def page(asked: Asked) -> FirstAnswerPage:
    """Show the page at once."""
    return FirstAnswerPage(frame(asked, "first-answer"), asked.slip)


async def piece(asked: Asked) -> FirstAnswerPiece:
    """Show a first look, then the answer."""
    unit = asked.revision.rebuild
    if asked.at == USUAL:
        return FirstAnswerPiece(unit, await asked.work("first_answer", pace="long"), "")
    answer = await asked.work("first_answer", FIRST_LOOK)
    more = path(unit, "first-answer/told", USUAL) if answer.reads else ""
    return FirstAnswerPiece(unit, answer, more)
