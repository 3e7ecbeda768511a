"""How warm a place runs against time: what was read, the room, where it should level, the stop."""

from collections.abc import Iterator
from dataclasses import dataclass

from dryfit.draw.paper import Anchor, Drawing, Ink, Item, Lettering, Pen, Point, Stroke
from dryfit.draw.plot_frame import BODY, Frame, Scale, sheet
from dryfit.draw.plot_lines import hatched
from dryfit.draw.plot_signs import open_disc, through

AT_LEAST = 60.0
"""Minutes that are shown at least."""


@dataclass(frozen=True, slots=True)
class WarmthPlot:
    """The warmth of one place.

    Attributes
    ----------
    title
        Of the plot.
    unit
        In which warmth is told.
    log
        Minutes and warmth of each reading, in order; at least one.
    room
        Warmth of the room.
    stop
        Warmth at which it is stopped.
    levels
        Between which warmths, and from which minute on, a sound run lies.
    """

    title: str
    unit: str
    log: tuple[Point, ...]
    room: float
    stop: float
    levels: tuple[float, float, float]


def warmth_plot(plot: WarmthPlot) -> Drawing:
    """Draw how warm a place runs."""
    last = max(plot.log[-1][0], AT_LEAST)
    warmths = [plot.room, plot.stop, *(warmth for _, warmth in plot.log)]
    air = 0.1 * (max(warmths) - min(warmths))
    across = Scale("minutes", "", (0.0, last * 1.02))
    laid = sheet(
        plot.title, across, Scale("warmth", plot.unit, (min(warmths) - air, max(warmths) + air))
    )
    frame = laid.frame
    return laid.drawing([*_levels(frame, plot), *_rules(frame, plot), *_log(frame, plot)])


def _levels(frame: Frame, plot: WarmthPlot) -> Iterator[Item]:
    """Hatch where a sound run levels."""
    low, high, since = plot.levels
    left, top = frame.at((since, high))
    yield from hatched((left, frame.y(low)), (frame.right, top))
    yield Lettering((left, top + 1.2), "levels here", BODY)


def _rules(frame: Frame, plot: WarmthPlot) -> Iterator[Item]:
    """Rule off the stop and the room."""
    for warmth, words, pen in ((plot.stop, "stop", Pen.OUTLINE), (plot.room, "room", Pen.CENTRE)):
        y = frame.y(warmth)
        yield Stroke(((frame.left, y), (frame.right, y)), pen)
        yield Lettering((frame.right, y + 1.2), words, BODY, Anchor.END, bold=warmth == plot.stop)


def _log(frame: Frame, plot: WarmthPlot) -> Iterator[Item]:
    yield from through(frame, list(plot.log), Pen.OUTLINE, ink=Ink.MARKED)
    for point in plot.log:
        disc, edge = open_disc(frame.at(point), 1.4)
        yield disc
        if isinstance(edge, Stroke):
            yield Stroke(edge.points, Pen.OUTLINE, closed=True, ink=Ink.MARKED)
