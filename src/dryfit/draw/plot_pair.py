"""Force against travel of the rows of a line: each way its own curve, and where both are equal."""

from dataclasses import dataclass

from dryfit.draw.paper import Drawing, Ink, Item, Pen, Stroke
from dryfit.draw.plot_frame import Frame, Scale, sheet
from dryfit.draw.plot_signs import (
    between,
    disc,
    key_hatched,
    key_line,
    key_of,
    limits_told,
    through,
    told,
    wanted,
)


@dataclass(frozen=True, slots=True)
class Pushed:
    """A line pushed along: how far it has gone, and what the rows that stop it each way carry."""

    travel: float
    ahead: float
    back: float


@dataclass(frozen=True, slots=True)
class PairPlot:
    """How hard rows are pressed as their shaft is pushed along.

    Attributes
    ----------
    title
        Of the plot.
    across, upwards
        Travel from rest, and force.
    pushed
        The line under each push, from back to ahead.
    ahead, back
        Names of the rows that stop it either way.
    force, band
        With which they are pressed together at rest, and the band of nine in ten if known.
    wanted
        Limits of that force, where it has them.
    places
        Decimals of travel and force.
    """

    title: str
    across: Scale
    upwards: Scale
    pushed: tuple[Pushed, ...]
    ahead: str
    back: str
    force: float
    band: tuple[float, float] | None = None
    wanted: tuple[float | None, float | None] = (None, None)
    places: tuple[int, int] = (1, 0)


def pair_plot(plot: PairPlot) -> Drawing:
    """Draw how hard rows are pressed against each other."""
    known = [
        key_hatched(f"wanted: {limits_told(plot.wanted, plot.upwards.unit, plot.places[1])}")
        if plot.wanted != (None, None)
        else None,
        key_line(Pen.OUTLINE, f"carried by {plot.ahead}"),
        key_line(Pen.ASSUMED, f"carried by {plot.back}"),
        key_of(lambda at: (disc(at, ink=Ink.MARKED),), _at_rest(plot)),
    ]
    laid = sheet(plot.title, plot.across, plot.upwards, key=[key for key in known if key])
    frame = laid.frame
    return laid.drawing([*wanted(frame, plot.wanted), *_curves(frame, plot), *_rest(frame, plot)])


def _at_rest(plot: PairPlot) -> str:
    """Say how hard they are pressed with no push."""
    unit, places = plot.upwards.unit, plot.places[1]
    if not plot.force:
        return "at rest, no push: nothing is pressed"
    band = f"; nine in ten {between(plot.band, unit, places)}" if plot.band else ""
    return f"at rest, no push: {told(plot.force, places)} {unit}{band}"


def _curves(frame: Frame, plot: PairPlot) -> tuple[Item, ...]:
    ahead = [(p.travel, p.ahead) for p in plot.pushed]
    back = [(p.travel, p.back) for p in plot.pushed]
    return (*through(frame, ahead, Pen.OUTLINE), *through(frame, back, Pen.ASSUMED))


def _rest(frame: Frame, plot: PairPlot) -> tuple[Item, ...]:
    """Mark where it rests: both curves cross there."""
    x, y = frame.at((0.0, plot.force))
    rules = (((frame.left, y), (x, y)), ((x, frame.low), (x, y)))
    lines = (Stroke(rule, Pen.EDGE, ink=Ink.MARKED) for rule in rules)
    return (*lines, disc((x, y), ink=Ink.MARKED))
