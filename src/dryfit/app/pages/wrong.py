"""The page that says what went wrong, where no other page can."""

from dataclasses import dataclass
from typing import ClassVar

from starlette.exceptions import HTTPException

from dryfit.app.pages.asked import Page
from dryfit.app.pages.desk import Closing, Overtaken
from dryfit.app.pages.frame import Frame
from dryfit.app.pages.guard import TooMuch
from dryfit.app.pages.hand import Failed
from dryfit.store.trouble import Trouble

NOT_THERE = frozenset(
    {"store.rebuild", "store.revision", "store.number", "book.none", "kind.none", "photograph.gone"}
)
"""Codes of what an address named that is not there."""


@dataclass(frozen=True)
class WrongPage(Page):
    """What is wrong, and the way out; `status` is the number that a browser is told."""

    template: ClassVar[str] = "wrong.html"
    frame: Frame
    status: int
    message: str
    way_out: str


def wrong_page(error: Exception) -> WrongPage:
    """Word what went wrong."""
    status, message, way_out = _worded(error)
    return WrongPage(Frame(""), status, message, way_out)


def _worded(error: Exception) -> tuple[int, str, str]:
    if isinstance(error, Trouble):
        found = error.finding
        return 404 if found.code in NOT_THERE else 500, found.message, found.way_out
    if isinstance(error, TooMuch):
        message = f"that is more than the {error.most} MB that go here; nothing of it was kept"
        return 413, message, "bring in a smaller one"
    if isinstance(error, Overtaken):
        message = "the text was changed while this was being worked out"
        return 409, message, "load the page again"
    if isinstance(error, Closing):
        message = "dryfit is being closed; all that was kept is kept"
        return 503, message, "start it again, then load the page again"
    if isinstance(error, HTTPException) and error.status_code == 404:
        return 404, "there is no such page", "go to the first page"
    if isinstance(error, HTTPException):
        return error.status_code, f"this could not be read ({error.detail})", "load the page again"
    told = error if isinstance(error, Failed) else type(error).__name__
    message = f"dryfit broke while working this out ({told}); all that was kept is kept"
    return 500, message, "undo the last change, or report it"
