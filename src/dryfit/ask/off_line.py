"""What does not lie on the line of a walk: which readings, by how much, and what may be behind it.

The slope is known: a nut advances by its pitch, a pack takes or gives what it is thicker. Each way
in which a walk goes wrong leaves its own trace, and each is tried as a line of its own: the last
readings flat near nothing, one point off, all from one point on shifted, another slope. What is
far better than the rest is named; where two do about as well both are.

Reasons are common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from dryfit.ask.lines import Line, Point, freely, most_misfit, through

Trace = Literal[
    "flat",
    "stays",
    "more",
    "less",
    "shift up",
    "shift down",
    "slope less",
    "slope more",
    "no fall",
    "other way",
    "whole",
]

SURE = 2.5758
"""Standard errors by which a slope is off in one walk of a hundred, by its errors alone."""

CLEAR = 2.0
"""Standard errors a flat reading lies above the line."""

NEXT_BEST = 2.7
"""A reason whose misfit is no more than this above the least is not told from it: nine in ten."""

STAYS = 0.25
"""Share of the fall it should have shown, up to which a reading has stayed as it was: estimate."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """One thing that may be behind readings off the line.

    Attributes
    ----------
    trace
        What it looks like.
    first
        The reading it begins at, counted from 0; None where it is all of them.
    off
        By how much that reading is more than the line [m], or by what the slope is that of the
        thread or pack [-]; None where it is all of them.
    """

    trace: Trace
    first: int | None
    off: float | None


@dataclass(frozen=True, slots=True)
class Looked:
    """The line to go by, the readings left out of it, and what is in doubt.

    `wider` is by what the band of the line is to be widened since the readings scatter [-].
    """

    line: Line
    left_out: tuple[int, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    wider: float = 1.0


def look(points: Sequence[Point], slope: float, yields: float) -> Looked:
    """Find what is off the line.

    Parameters
    ----------
    points
        Two or more, in the order in which they were read.
    slope
        What a unit of mark should do to the reading [m].
    yields
        The most that may be read at no float, because things yield under the push [m].
    """
    whole = through(points, slope)
    own = freely(points)
    if abs(own.slope - slope) <= SURE * own.slope_error and whole.fits:
        return Looked(whole)
    flat = _flat(points, slope, yields)
    if flat is not None:
        return flat
    few = len(points) <= 3
    found = _as_a_whole(whole, own, slope) if few else _named(points, whole, own, slope)
    share = own.slope / slope
    if share > STAYS or all(doubt.first is not None for doubt in found.doubts):
        return found
    return Looked(whole, (), (Doubt("no fall" if share > -STAYS else "other way", None, share),))


def _flat(points: Sequence[Point], slope: float, yields: float) -> Looked | None:
    """Take away last readings that lie above the line and are no more than what may yield."""
    for kept in range(len(points) - 1, 1, -1):
        line, last = through(points[:kept], slope), points[kept]
        over = last.read - line.read_at(last.at)
        near = last.read < yields + CLEAR * last.error
        if line.fits and near and over > CLEAR * last.error:
            return Looked(line, tuple(range(kept, len(points))), (Doubt("flat", kept, over),))
    return None


def _as_a_whole(whole: Line, own: Line, slope: float) -> Looked:
    """Judge so few readings together: no single one can be named."""
    doubts = [Doubt("whole", None, None)]
    if own.fits and abs(own.slope - slope) > SURE * own.slope_error:
        doubts.append(_slope_doubt(own, slope))
    return Looked(whole, (), tuple(doubts), _wider(whole))


def _slope_doubt(own: Line, slope: float) -> Doubt:
    share = own.slope / slope
    return Doubt("slope less" if share < 1 else "slope more", None, share)


def _wider(line: Line) -> float:
    """By how much the errors must be larger than thought for the points to fit."""
    return float(max(1.0, line.misfit / line.free) ** 0.5) if line.free else 1.0


def _named(points: Sequence[Point], whole: Line, own: Line, slope: float) -> Looked:
    """Try each way of going wrong, and name the ones that explain the readings."""
    count = len(points)
    tried = [(own.misfit, Looked(own, (), (_slope_doubt(own, slope),)))]
    tried = tried if own.slope / slope > STAYS else []
    tried += [_without(points, one, slope) for one in range(count)]
    tried += [_shifted(points, one, slope) for one in range(2, count - 1)]
    most = most_misfit(count - 2)
    least = min(misfit for misfit, _ in tried)
    told = [found for misfit, found in tried if misfit <= min(most, least + NEXT_BEST)]
    if len(told) == 1:
        return told[0]
    doubts = tuple(doubt for found in told for doubt in found.doubts)
    return Looked(whole, (), (Doubt("whole", None, None), *doubts), _wider(whole))


def _without(points: Sequence[Point], one: int, slope: float) -> tuple[float, Looked]:
    """Leave one point out."""
    line = through([*points[:one], *points[one + 1 :]], slope)
    off = points[one].read - line.read_at(points[one].at)
    trace: Trace = "less" if off < 0 else "stays" if _stays(points, one, slope) else "more"
    doubts = [Doubt(trace, one, off)]
    if one == 0 and off < 0 and _stays(points, 1, slope):
        doubts.append(Doubt("stays", 1, -off))
    return line.misfit, Looked(line, (one,), tuple(doubts))


def _shifted(points: Sequence[Point], one: int, slope: float) -> tuple[float, Looked]:
    """Take all from one point on for a line of their own, which then is the one to go by."""
    before, after = through(points[:one], slope), through(points[one:], slope)
    off = points[one].read - before.read_at(points[one].at)
    trace: Trace = (
        "shift down" if off < 0 else "stays" if _stays(points, one, slope) else "shift up"
    )
    found = Looked(after, tuple(range(one)), (Doubt(trace, one, off),))
    return before.misfit + after.misfit, found


def _stays(points: Sequence[Point], one: int, slope: float) -> bool:
    """Tell whether a reading is about the one before, though the mark moved."""
    if one == 0:
        return False
    should = slope * (points[one].at - points[one - 1].at)
    return abs(points[one].read - points[one - 1].read) <= STAYS * abs(should)


PER_INCH = (8, 9, 10, 11, 12, 14, 16, 18, 20, 24)
PITCHES: tuple[tuple[str, float], ...] = (
    *((f"{mm:g} mm", mm / 1e3) for mm in (0.75, 1, 1.5, 2, 3, 4)),
    *((f"{count} threads per inch", 0.0254 / count) for count in PER_INCH),
)
"""Common pitches of nuts that set bearings [m]."""


def pitches_that_fit(pitch: float, error: float, most: int = 3) -> tuple[str, ...]:
    """Name the common pitches near to what the readings make of it, the nearest first.

    Parameters
    ----------
    pitch, error
        By the readings' own slope, and how far it may be off [m]
    most
        How many to name.

    Examples
    --------
    >>> pitches_that_fit(1.58e-3, 0.05e-3)
    ('16 threads per inch',)
    """
    near = sorted((abs(size - pitch), name) for name, size in PITCHES)
    return tuple(name for away, name in near if away <= error)[:most]
