"""Measure: the drawing as the way in to the sizes of a part."""

from dataclasses import dataclass
from typing import ClassVar

from dryfit.app.pages.asked import Asked, Page, Slip
from dryfit.app.pages.frame import Frame, frame
from dryfit.app.usecases.opening import FindingAnswer


@dataclass(frozen=True)
class DrawingPiece(Page):
    """The half-section of the unit, or why there is none."""

    template: ClassVar[str] = "drawing.html"
    svg: str
    why: str


@dataclass(frozen=True)
class MeasurePage(Page):
    """Parts and sizes of a unit."""

    template: ClassVar[str] = "measure.html"
    frame: Frame
    slip: Slip | None
    findings: tuple[FindingAnswer, ...]


async def page(asked: Asked) -> MeasurePage:
    """Show what is measured, and what is wrong with it."""
    found = await asked.work("review")
    return MeasurePage(frame(asked, "measure"), asked.slip, found.findings)


async def drawing(asked: Asked) -> DrawingPiece:
    """Show the drawing alone."""
    drawn = await asked.work("picture")
    return DrawingPiece(drawn.svg, drawn.why)
