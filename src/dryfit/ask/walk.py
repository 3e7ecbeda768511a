"""The walk to nothing: floats read at a few marks of a nut, or with a few packs, and where it ends.

While there is float, it falls by as much as the nut advances or the pack changes, so the readings
lie on a line of known slope. Where that line comes to nothing the dial would read nothing.

A reading is taken at a push, and what yields under the push is in it, the same at every mark. So
the rows touch a little sooner, where the line still reads what yields; once they touch, readings
flatten out. A float that is wanted is one that the dial reads at the same push; a nip is counted
from where the rows touch.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import NormalDist
from typing import Literal

from dryfit.ask.lines import NINE_IN_TEN, Line, Point, freely
from dryfit.ask.off_line import SURE, Doubt, Looked, look

USUAL_PUSH = 50.0
"""A push by hand where none is told [N]."""

YIELDS = (1e-6, 3e-6, 10e-6)
"""What yields under that push, both ways together: least, middle, most [m].

Common practice says a few micrometres; the spread is an estimate, from a pair of taper rows to a
pair of angular contact rows of 15 degrees, 30 mm bore (Palmgren's formulas, from memory).
"""

TOO_FAR = 2.0
"""A line is not extended beyond so many times the walk that was read: estimate."""

Checked = Literal["none", "whole", "each"]


@dataclass(frozen=True, slots=True)
class Reading:
    """One float read at a mark.

    Attributes
    ----------
    mark, mark_error
        Where, in any unit, and one standard deviation of setting it there.
    read, read_error
        The float read [m], and one standard deviation of what is its own error.
    """

    mark: float
    read: float
    mark_error: float = 0.0
    read_error: float = 0.0


@dataclass(frozen=True, slots=True)
class Goal:
    """What is wanted: a float by the dial (`float`) or a nip of the rows (`nip`) [m]."""

    sort: Literal["float", "nip"]
    size: float


@dataclass(frozen=True, slots=True)
class Spot:
    """A mark, the band that holds it nine times in ten, and how far it is from the last mark."""

    at: float
    low: float
    high: float
    on: float


@dataclass(frozen=True, slots=True)
class Walk:
    """Where a walk ends.

    Attributes
    ----------
    looked
        The line to go by, what was left out of it and what is in doubt.
    off
        By how much each reading is more than the line [m].
    checked
        `none` for two readings, `whole` for three, `each` from four on.
    nothing
        Where the dial would read nothing.
    yields
        What yields under the push: least, middle, most [m].
    goal
        Where to go.
    ends
        The float there, or the nip [m]: one standard deviation of it.
    reach
        How far the goal lies beyond the readings, over the length of the walk [-].
    own
        The line that the readings make without knowing the slope.
    """

    looked: Looked
    off: tuple[float, ...]
    checked: Checked
    nothing: Spot
    yields: tuple[float, float, float]
    goal: Spot
    ends: float
    reach: float
    own: Line

    @property
    def doubts(self) -> tuple[Doubt, ...]:
        """What is in doubt."""
        return self.looked.doubts


def yields_under(push: float | None) -> tuple[float, float, float]:
    """Estimate what rows and faces yield under a push both ways: least, middle, most [m].

    Balls in grooves yield by the power 2/3 of the force (Hertz); the estimate grows with it.

    >>> [round(y * 1e6, 2) for y in yields_under(400.0)]
    [4.0, 12.0, 40.0]
    """
    share = ((push or USUAL_PUSH) / USUAL_PUSH) ** (2 / 3)
    low, middle, high = YIELDS
    return low * share, middle * share, high * share


def slope_sign(readings: Sequence[Reading], size: float = 1.0) -> int:
    """Say whether the reading grows (1) or falls (-1) along the marks; 0 if that cannot be told."""
    own = freely(_points(readings, size))
    if abs(own.slope) <= SURE * own.slope_error:
        return 0
    return 1 if own.slope > 0 else -1


def walk(
    readings: Sequence[Reading],
    slope: float,
    *,
    goal: Goal | None = None,
    push: float | None = None,
    shared: float = 0.0,
    yields: tuple[float, float, float] | None = None,
) -> Walk:
    """Walk to nothing.

    Parameters
    ----------
    readings
        Two or more at different marks, in the order in which they were read.
    slope
        What one unit of mark does to the float [m], less than nought if it takes float.
    goal
        What is wanted; None to stop where the dial reads nothing.
    push
        Force with which each reading was taken [N]; None for a push by hand.
    shared
        One standard deviation of the error that all readings have in common [m].
    yields
        What yields under that push, where it is known: least, middle, most [m].

    Examples
    --------
    A nut of pitch 1.5 mm; 0.060 mm was read last, 0.008 is wanted. By hand
    (0.060 - 0.008) / 1.5 x 360 = 12.5 degrees:

    >>> read = [Reading(0, 0.085e-3, 1, 5e-6), Reading(6, 0.060e-3, 1, 5e-6)]
    >>> walk(read, -1.5e-3 / 360, goal=Goal("float", 8e-6)).goal.on
    12.48
    """
    points = _points(readings, slope)
    yields = yields or yields_under(push)
    looked = look(points, slope, yields[2])
    aim = _aim(goal, yields)
    at = looked.line.where(aim)
    last, first = readings[-1].mark, readings[0].mark
    beyond = max(0.0, (at - last) / (last - first), (first - at) / (last - first))
    return Walk(
        looked,
        tuple(p.read - looked.line.read_at(p.at) for p in points),
        "none" if len(points) < 3 else "whole" if len(points) == 3 else "each",
        _spot(looked, 0.0, shared, last),
        yields,
        _spot(looked, aim, shared, last),
        _ends(looked, at, readings, shared=shared, yields=yields, goal=goal),
        beyond,
        freely(points),
    )


def _points(readings: Sequence[Reading], slope: float) -> list[Point]:
    """Put the error of setting the mark into that of the reading."""
    return [
        Point(r.mark, r.read, max(sqrt(r.read_error**2 + (slope * r.mark_error) ** 2), 1e-9))
        for r in readings
    ]


def _aim(goal: Goal | None, yields: tuple[float, float, float]) -> float:
    """Say what the line reads where to stop; less than nothing beyond it [m]."""
    if goal is None:
        return 0.0
    return goal.size if goal.sort == "float" else yields[1] - goal.size


def _spot(looked: Looked, read: float, shared: float, last: float) -> Spot:
    """Find a mark by its reading, with the usual band of a calibration line."""
    line = looked.line
    at = line.where(read)
    error = sqrt((looked.wider * line.error_at(at)) ** 2 + shared**2)
    half = NINE_IN_TEN * error / abs(line.slope)
    return Spot(at, at - half, at + half, at - last)


def _ends(
    looked: Looked,
    at: float,
    readings: Sequence[Reading],
    *,
    shared: float,
    yields: tuple[float, float, float],
    goal: Goal | None,
) -> float:
    """How far the float or nip may be off once the mark is set: one standard deviation [m]."""
    line = looked.line
    setting = line.slope * sqrt(sum(r.mark_error**2 for r in readings) / len(readings))
    unseen = 0.0
    if goal is not None and goal.sort == "nip":
        unseen = (yields[2] - yields[0]) / 2 / NINE_IN_TEN
    return sqrt((looked.wider * line.error_at(at)) ** 2 + shared**2 + setting**2 + unseen**2)


def chance_within(middle: float, error: float, low: float, high: float) -> float:
    """Say how likely a size with this error lies between limits [-].

    >>> chance_within(0.0, 1.0, -1.6449, 1.6449)
    0.9
    """
    spread = NormalDist(middle, max(error, 1e-12))
    return spread.cdf(high) - spread.cdf(low)
