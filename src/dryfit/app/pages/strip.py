"""Strip: how it comes apart, what to note at each part, what was read before, photographs."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from dryfit.app.pages.asked import Asked, Page, Slip
from dryfit.app.pages.frame import Frame, frame
from dryfit.app.pages.photographs import Shot, shots
from dryfit.app.pages.strip_found import FoundBox, forces, found_boxes
from dryfit.app.pages.strip_ticks import (
    LineTicks,
    Mark,
    Tick,
    Ticks,
    can_be_shown,
    line_ticks,
    marks,
)
from dryfit.app.words.strip_down import BEFORE, DO_NOT_LOSE, HARM
from dryfit.mechanics.instruments import INSTRUMENTS
from dryfit.quantities.finding import Finding

if TYPE_CHECKING:
    from dryfit.app.words.order import TakenApart


@dataclass(frozen=True)
class StripPage(Page):
    """All that is done and noted before and during the strip.

    Attributes
    ----------
    care
        What can hurt.
    before, keep
        What to do before a screw is turned, and what must not be lost.
    found, forces
        Boxes for what was read and fitted; readings of a balance, which are noted.
    lines
        Parts line by line, each with what to write down.
    marks, shots, shown
        Marks that were noted, photographs, and what either may be of.
    begun
        Whether anything was noted yet.
    rest
        What was not kept and belongs to no box of the page.
    """

    template: ClassVar[str] = "strip.html"
    frame: Frame
    slip: Slip | None
    care: tuple[str, ...]
    before: tuple[Tick, ...]
    found: tuple[FoundBox, ...]
    forces: tuple[Tick, ...]
    lines: tuple[LineTicks, ...]
    keep: tuple[Tick, ...]
    marks: tuple[Mark, ...]
    shots: tuple[Shot, ...]
    shown: tuple[str, ...]
    instruments: tuple[str, ...]
    begun: bool
    rest: tuple[Finding, ...]


@dataclass(frozen=True)
class OrderPiece(Page):
    """How each line comes apart; nothing where the sizes do not tell yet."""

    template: ClassVar[str] = "strip_order.html"
    lines: "tuple[TakenApart, ...]"


async def page(asked: Asked) -> StripPage:
    """Show the strip."""
    rebuild, ticks, found = asked.document.rebuild, Ticks(asked), found_boxes(asked)
    before = tuple(ticks.of(text, text) for text in BEFORE)
    weighed = tuple(ticks.of(f"as found: {name}", name, how) for name, how in forces(rebuild))
    return StripPage(
        frame(asked, "strip"),
        asked.slip,
        HARM,
        before,
        found,
        weighed,
        tuple(line_ticks(rebuild, ticks)),
        tuple(ticks.of(text, text) for text in DO_NOT_LOSE),
        marks(asked),
        shots(asked),
        can_be_shown(rebuild),
        tuple(dict.fromkeys((*rebuild.instruments, *INSTRUMENTS))),
        ticks.begun or any(box.seen for box in found),
        _rest(asked.slip),
    )


def _rest(slip: Slip | None) -> tuple[Finding, ...]:
    """Take what was not kept and has no box of its own on this page."""
    if slip is None or slip.place or "step" in slip.typed:
        return ()
    return slip.findings


async def order(asked: Asked) -> OrderPiece:
    """Show in which order it comes apart, by the shapes."""
    return OrderPiece(await asked.work("taken_apart"))
