"""The walk to nothing: readings, their line, nought with its band, where to stop."""

from dataclasses import dataclass

from dryfit.draw.paper import Anchor, Drawing, Ink, Item, Lettering, Pen, Point, Stroke
from dryfit.draw.plot_frame import BODY, Frame, Scale, sheet
from dryfit.draw.plot_signs import (
    box,
    disc,
    key_line,
    key_of,
    open_disc,
    pointer,
    through,
    told,
)


@dataclass(frozen=True, slots=True)
class Step:
    """One reading of a walk, and whether it was left out of the line."""

    at: float
    read: float
    left_out: bool = False


@dataclass(frozen=True, slots=True)
class WalkPlot:
    """A walk to nothing.

    Attributes
    ----------
    title
        Of the plot.
    across, upwards
        Mark or pack, and what was read.
    steps
        The readings.
    slope
        Reading for one unit across.
    nothing, low, high
        Where the line reads nothing, and the band of nine in ten.
    stop, stop_words
        Where to stop, and what it comes to.
    places
        Decimals across and upwards.
    warning
        What is to be cleared up before it is gone by.
    """

    title: str
    across: Scale
    upwards: Scale
    steps: tuple[Step, ...]
    slope: float
    nothing: float
    low: float
    high: float
    stop: float
    stop_words: str
    places: tuple[int, int] = (2, 3)
    warning: str = ""


def walk_plot(plot: WalkPlot) -> Drawing:
    """Draw a walk to nothing."""
    unit, places = plot.across.unit, plot.places[0]
    left_out = any(step.left_out for step in plot.steps)
    half = told((plot.high - plot.low) / 2, places)
    known = [
        key_of(lambda at: (disc(at, ink=Ink.MARKED),), "read"),
        key_of(open_disc, "read, but left out of the line") if left_out else None,
        key_line(Pen.OUTLINE, "the line through the readings; thin beyond them"),
        key_of(
            _band_sign,
            f"reads nothing at {told(plot.nothing, places)} {unit}, plus or minus {half}, "
            "nine times in ten",
        ),
        key_of(lambda at: (pointer((at[0], at[1] + 1.5)),), plot.stop_words),
        key_of(_mark, plot.warning) if plot.warning else None,
    ]
    laid = sheet(
        plot.title,
        plot.across,
        plot.upwards,
        key=[key for key in known if key],
        under=POINTER_ROW,
    )
    frame = laid.frame
    return laid.drawing(
        [item for draw in (_nought, _line, _band, _stop, _read) for item in draw(frame, plot)]
    )


POINTER_ROW = 4.5
"""Room for the pointer below the figures [mm]."""


def _nought(frame: Frame, _: WalkPlot) -> tuple[Item, ...]:
    if not frame.ys[0] < 0 < frame.ys[1]:
        return ()
    return (Stroke(((frame.left, frame.y(0)), (frame.right, frame.y(0))), Pen.EDGE),)


def _line(frame: Frame, plot: WalkPlot) -> tuple[Item, ...]:
    """Draw the line thick where it was read, thin where it is only believed."""
    ats = [step.at for step in plot.steps if not step.left_out]
    ends = [*ats, plot.nothing, plot.stop]

    def along(one: float, two: float) -> list[Point]:
        return [(at, (at - plot.nothing) * plot.slope) for at in (one, two)]

    read = through(frame, along(min(ats), max(ats)), Pen.OUTLINE)
    beyond = through(frame, along(min(ends), max(ends)), Pen.EDGE)
    return (*beyond, *read)


def _mark(at: Point) -> tuple[Item, ...]:
    place = (at[0], at[1] - BODY / 2)
    return (Lettering(place, "!", BODY, Anchor.MIDDLE, bold=True),)


def _band_sign(at: Point) -> tuple[Item, ...]:
    x, y = at
    return (box((x - 4.0, y - 0.5), (x + 4.0, y + 0.5)), *_ends(x - 4.0, x + 4.0, y))


def _ends(low: float, high: float, y: float) -> tuple[Item, ...]:
    return tuple(Stroke(((x, y - 1.5), (x, y + 1.5)), Pen.EDGE) for x in (low, high))


def _band(frame: Frame, plot: WalkPlot) -> tuple[Item, ...]:
    """Draw where the line may read nothing."""
    low, high = (frame.x(min(max(v, frame.xs[0]), frame.xs[1])) for v in (plot.low, plot.high))
    y = frame.y(0)
    return (box((low, y - 0.5), (high, y + 0.5)), *_ends(low, high, y))


def _stop(frame: Frame, plot: WalkPlot) -> tuple[Item, ...]:
    """Plumb down to where to stop."""
    x, y = frame.at((plot.stop, (plot.stop - plot.nothing) * plot.slope))
    tip = (x, frame.low - 6.0)
    return (Stroke(((x, y), (x, frame.low)), Pen.EDGE, ink=Ink.MARKED), pointer(tip))


def _read(frame: Frame, plot: WalkPlot) -> tuple[Item, ...]:
    found: list[Item] = []
    for step in plot.steps:
        at = frame.at((step.at, step.read))
        found += open_disc(at) if step.left_out else (disc(at, ink=Ink.MARKED),)
    return tuple(found)
