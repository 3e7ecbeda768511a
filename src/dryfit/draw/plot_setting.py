"""Reading against setting: the line, its band, what is wanted, and what can be made."""

from dataclasses import dataclass
from itertools import chain

from dryfit.draw.paper import Drawing, Ink, Item, Pen, Point, Stroke
from dryfit.draw.plot_frame import BELOW, Frame, Scale, sheet
from dryfit.draw.plot_signs import (
    barred,
    between,
    box,
    disc,
    key_hatched,
    key_line,
    key_of,
    limits_told,
    through,
    told,
    wanted,
)
from dryfit.draw.plot_ticks import Span


@dataclass(frozen=True, slots=True)
class Asked:
    """What is found with one setting: as typed, and the band that holds nine of ten."""

    at: float
    typed: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class SettingPlot:
    """How a reading follows a setting.

    Attributes
    ----------
    title
        Of the plot.
    across, upwards
        The setting and the reading, with the spans to show.
    asked
        What is found with each setting, in its order.
    wanted
        Limits of the reading, where it has them.
    stock
        What can be made of the setting.
    stock_words
        Where from.
    chosen, chosen_words
        What is in hand, and why; None where nothing is.
    places
        Decimals of setting and reading.
    """

    title: str
    across: Scale
    upwards: Scale
    asked: tuple[Asked, ...]
    wanted: tuple[float | None, float | None]
    stock: tuple[float, ...] = ()
    stock_words: str = ""
    chosen: Asked | None = None
    chosen_words: str = ""
    places: tuple[int, int] = (2, 2)


STOCK_ROW = 4.5
"""Room for the row of what can be made [mm]."""


def setting_plot(plot: SettingPlot) -> Drawing:
    """Draw how a reading follows a setting."""
    known = [
        key_hatched(f"wanted: {limits_told(plot.wanted, plot.upwards.unit, plot.places[1])}")
        if plot.wanted != (None, None)
        else None,
        key_line(Pen.OUTLINE, "if every size is as typed"),
        key_line(Pen.EDGE, "nine in ten lie between these"),
        key_of(_bar, plot.stock_words) if plot.stock else None,
        key_of(lambda at: (disc(at, ink=Ink.MARKED),), _chosen_words(plot, plot.chosen))
        if plot.chosen
        else None,
    ]
    laid = sheet(
        plot.title,
        plot.across,
        plot.upwards,
        key=[key for key in known if key],
        under=STOCK_ROW if plot.stock else 0.0,
    )
    frame = laid.frame
    return laid.drawing(
        [
            *wanted(frame, plot.wanted),
            *_nought(frame),
            *_curves(frame, plot.asked),
            *_stock(frame, plot),
            *(_chosen(frame, plot.chosen, stocked=bool(plot.stock)) if plot.chosen else ()),
        ]
    )


def _chosen_words(plot: SettingPlot, chosen: Asked) -> str:
    """Say what is in hand and what comes of it."""
    across, upwards = plot.places
    band: Span = (chosen.low, chosen.high)
    return (
        f"{told(chosen.at, across)} {plot.across.unit}, {plot.chosen_words}: "
        f"{told(chosen.typed, upwards)}; nine in ten "
        f"{between(band, plot.upwards.unit, upwards)}"
    )


def _nought(frame: Frame) -> tuple[Item, ...]:
    """Rule off nothing where there is less than that."""
    if not frame.ys[0] < 0 < frame.ys[1]:
        return ()
    return (Stroke(((frame.left, frame.y(0)), (frame.right, frame.y(0))), Pen.EDGE),)


def _curves(frame: Frame, asked: tuple[Asked, ...]) -> tuple[Item, ...]:
    edges: tuple[list[Point], list[Point]] = (
        [(a.at, a.low) for a in asked],
        [(a.at, a.high) for a in asked],
    )
    bands = chain.from_iterable(through(frame, edge, Pen.EDGE, ink=Ink.MARKED) for edge in edges)
    middle = through(frame, [(a.at, a.typed) for a in asked], Pen.OUTLINE, ink=Ink.MARKED)
    return (*bands, *middle)


def _row(frame: Frame) -> float:
    """Height of the row of what can be made [mm]."""
    return frame.low - BELOW - STOCK_ROW + 1.2


def _bar(at: Point) -> tuple[Item, ...]:
    x, y = at
    return (box((x - 0.35, y - 1.3), (x + 0.35, y + 1.3)),)


def _stock(frame: Frame, plot: SettingPlot) -> tuple[Item, ...]:
    shown = (v for v in plot.stock if frame.xs[0] <= v <= frame.xs[1])
    return tuple(chain.from_iterable(_bar((frame.x(v), _row(frame))) for v in shown))


def _chosen(frame: Frame, chosen: Asked, *, stocked: bool) -> tuple[Item, ...]:
    """Mark what is in hand, its band, and where it stands in the row."""
    if not frame.holds((chosen.at, chosen.typed)):
        return ()
    x = frame.x(chosen.at)
    low, high = (min(max(v, frame.ys[0]), frame.ys[1]) for v in (chosen.low, chosen.high))
    foot = frame.low
    mark: tuple[Item, ...] = ()
    if stocked:
        row = _row(frame)
        mark = (box((x - 0.9, row - 1.8), (x + 0.9, row + 1.8), ink=Ink.MARKED),)
    stem = Stroke(((x, foot), (x, frame.y(chosen.typed))), Pen.EDGE, ink=Ink.MARKED)
    bars = barred((x, frame.y(low)), (x, frame.y(high)))
    return (stem, *bars, disc(frame.at((chosen.at, chosen.typed)), ink=Ink.MARKED), *mark)
