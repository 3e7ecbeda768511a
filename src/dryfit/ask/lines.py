"""A straight line through a few readings: its slope known, or found from the readings themselves.

`through` lays a line of known slope, `freely` one of its own. Each point counts by its own error,
which is known beforehand from the instrument, so quantiles are those of the normal distribution.

Source: NIST/SEMATECH e-Handbook of Statistical Methods, 2.3.6 and 4.5.2, and Draper and Smith,
Applied Regression Analysis, ch. 1 and 3 (weighted least squares, calibration lines), from memory.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, sqrt

NINE_IN_TEN = 1.6449
"""Half width of a band that holds nine in ten, in standard deviations."""

ONE_IN_A_HUNDRED = 2.3263
"""What one in a hundred exceeds, to one side, in standard deviations."""


@dataclass(frozen=True, slots=True)
class Point:
    """One reading at its mark; the error is one standard deviation of the reading [m]."""

    at: float
    read: float
    error: float


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points.

    Attributes
    ----------
    slope, slope_error
        Metres a unit of mark, and its standard error; 0 where the slope was known.
    middle
        Weighted mean of the marks.
    height, height_error
        Of the line there, and its standard error [m].
    misfit
        Sum of squares of what the points are off, each over its own error [-].
    free
        Points more than were needed for the line.
    """

    slope: float
    slope_error: float
    middle: float
    height: float
    height_error: float
    misfit: float
    free: int

    @property
    def fits(self) -> bool:
        """Whether the points lie as near to it as 99 in 100 such sets would."""
        return self.misfit <= most_misfit(self.free)

    def read_at(self, at: float) -> float:
        """Say what the line reads at a mark [m]."""
        return self.height + self.slope * (at - self.middle)

    def error_at(self, at: float) -> float:
        """Say how far the line may be off at a mark, one standard deviation [m]."""
        return sqrt(self.height_error**2 + (self.slope_error * (at - self.middle)) ** 2)

    def where(self, read: float) -> float:
        """Say at which mark the line has this reading."""
        return self.middle + (read - self.height) / self.slope


def through(points: Sequence[Point], slope: float) -> Line:
    """Lay a line of known slope: its height is the weighted mean of what the points make of it.

    Examples
    --------
    Two points 2 apart, equally good, and a slope of -1:

    >>> line = through([Point(0.0, 3.0, 0.1), Point(1.0, 2.2, 0.1)], -1.0)
    >>> line.where(0.0), line.misfit, line.free
    (3.1, 2.0, 1)
    """
    total, middle, height = _means(points)
    line = Line(slope, 0.0, middle, height, 1 / sqrt(total), 0.0, len(points) - 1)
    return _judged(line, points)


def freely(points: Sequence[Point]) -> Line:
    """Lay the line of least squares, from two points on.

    Examples
    --------
    >>> line = freely([Point(0.0, 3.0, 0.1), Point(2.0, 2.0, 0.1)])
    >>> line.slope, line.slope_error, line.where(0.0)
    (-0.5, 0.0707, 6.0)
    """
    total, middle, height = _means(points)
    spread = sum((p.at - middle) ** 2 / p.error**2 for p in points)
    slope = sum((p.at - middle) * (p.read - height) / p.error**2 for p in points) / spread
    line = Line(slope, 1 / sqrt(spread), middle, height, 1 / sqrt(total), 0.0, len(points) - 2)
    return _judged(line, points)


def _means(points: Sequence[Point]) -> tuple[float, float, float]:
    """Give the sum of the weights, and the weighted means of marks and readings."""
    weights = [1 / p.error**2 for p in points]
    total = sum(weights)
    middle = sum(w * p.at for w, p in zip(weights, points, strict=True)) / total
    height = sum(w * p.read for w, p in zip(weights, points, strict=True)) / total
    return total, middle, height


def _judged(line: Line, points: Sequence[Point]) -> Line:
    """Add how far the points are off."""
    misfit = sum(((p.read - line.read_at(p.at)) / p.error) ** 2 for p in points)
    return Line(
        line.slope,
        line.slope_error,
        line.middle,
        line.height,
        line.height_error,
        misfit,
        line.free,
    )


def most_misfit(free: int) -> float:
    """Give the misfit that one set in a hundred exceeds by its errors alone [-].

    The upper hundredth of chi-squared by the cube root of Wilson and Hilferty (1931, from memory),
    within 1 in 100 of it. Where no point is left over there is nothing to judge.

    >>> most_misfit(2), most_misfit(5)
    (9.2, 15.1)
    """
    if free < 1:
        return inf
    part = 2 / (9 * free)
    return float(free * (1 - part + ONE_IN_A_HUNDRED * sqrt(part)) ** 3)
