"""The first page, which asks what is on the bench."""

from dataclasses import dataclass
from typing import ClassVar

from dryfit.app.pages.asked import Asked, Done, Page, Refused, Slip, path
from dryfit.app.pages.frame import Frame, frame, when
from dryfit.app.usecases import demos
from dryfit.document.read import read_document
from dryfit.quantities.finding import Finding
from dryfit.store.revisions import begin, newest, rebuilds


@dataclass(frozen=True, slots=True)
class UnitRow:
    """A unit that was begun, and when it was last changed."""

    number: int
    title: str
    changed: str


@dataclass(frozen=True)
class FirstPage(Page):
    """Units begun, and what to begin with."""

    template: ClassVar[str] = "first.html"
    frame: Frame
    units: tuple[UnitRow, ...]
    demos: tuple[str, ...]
    slip: Slip | None


async def page(asked: Asked) -> FirstPage:
    """Show the first page."""
    units = tuple(_row(asked, number) for number in rebuilds(asked.store))
    return FirstPage(frame(asked, ""), units, demos.names(), asked.slip)


def _row(asked: Asked, number: int) -> UnitRow:
    kept = newest(asked.store, number)
    title = read_document(kept.text).rebuild.title
    return UnitRow(number, title or f"Unit {number}", when(kept.at))


async def begin_demo(asked: Asked) -> Done:
    """Begin a unit with the text of a demo."""
    name = asked.form.get("demo", "")
    if name not in demos.names():
        message = f"there is no demo '{name}'"
        found = Finding("page.demo", (), message, "choose one of the list")
        raise Refused(Slip((), asked.form, (found,)))
    kept = begin(asked.store, demos.text(name))
    return Done(path(kept.rebuild, "measure"))


async def light(asked: Asked) -> Done:
    """Change how bright the pages are, and go back to where that was asked for."""
    to = asked.form.get("back", "/")
    return Done(to if to.startswith("/") and not to.startswith("//") else "/")
