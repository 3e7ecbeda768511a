"""Lines through readings against scipy: weighted least squares, and the limit of the misfit."""

import numpy as np
import pytest
from scipy.optimize import curve_fit
from scipy.stats import chi2, linregress

from dryfit.ask.lines import NINE_IN_TEN, ONE_IN_A_HUNDRED, Point, freely, most_misfit, through

RNG = np.random.default_rng(11)
MARKS = np.array([0.0, 4.0, 9.0, 15.0, 22.0])
ERRORS = np.array([5.0, 8.0, 4.0, 12.0, 6.0])
READ = 90.0 - 4.0 * MARKS + ERRORS * RNG.standard_normal(5)


def _points(errors: np.ndarray = ERRORS) -> list[Point]:
    return [Point(*row) for row in zip(MARKS, READ, errors, strict=True)]


def test_free_line_is_that_of_curve_fit() -> None:
    """scipy.optimize.curve_fit with absolute errors gives slope, its error, and the zero."""
    (height, slope), cov = curve_fit(
        lambda x, a, b: a + b * x, MARKS, READ, sigma=ERRORS, absolute_sigma=True
    )
    ours = freely(_points())
    assert ours.slope == pytest.approx(slope, rel=1e-6)
    assert ours.slope_error == pytest.approx(np.sqrt(cov[1, 1]), rel=1e-6)
    assert ours.where(0.0) == pytest.approx(-height / slope, rel=1e-6)
    at = 30.0
    assert ours.error_at(at) == pytest.approx(
        np.sqrt(cov[0, 0] + 2 * at * cov[0, 1] + at * at * cov[1, 1]), rel=1e-6
    )
    off = (READ - height - slope * MARKS) / ERRORS
    assert ours.misfit == pytest.approx(float(off @ off), rel=1e-6)
    assert ours.free == 3


def test_equal_errors_give_the_line_of_linregress() -> None:
    """scipy.stats.linregress on the same points, which all count the same."""
    line = linregress(MARKS, READ)
    ours = freely(_points(np.full(5, 7.0)))
    assert ours.slope == pytest.approx(line.slope, rel=1e-9)
    assert ours.read_at(0.0) == pytest.approx(line.intercept, rel=1e-9)


def test_line_of_known_slope_is_that_of_curve_fit() -> None:
    """With the slope held only the height is fitted: one degree of freedom more."""
    (height,), cov = curve_fit(
        lambda x, a: a - 4.0 * x, MARKS, READ, sigma=ERRORS, absolute_sigma=True
    )
    ours = through(_points(), -4.0)
    assert ours.read_at(0.0) == pytest.approx(height, rel=1e-6)
    assert ours.error_at(50.0) == pytest.approx(np.sqrt(cov[0, 0]), rel=1e-6)
    assert ours.where(10.0) == pytest.approx((height - 10.0) / 4.0, rel=1e-6)
    assert ours.free == 4


@pytest.mark.parametrize("free", range(1, 13))
def test_limit_of_the_misfit_is_that_of_chi_squared(free: int) -> None:
    """scipy.stats.chi2: the approximation is within 1 in 100 of the upper hundredth."""
    assert most_misfit(free) == pytest.approx(chi2.ppf(0.99, free), rel=0.01)


def test_quantiles_are_those_of_the_normal_table() -> None:
    """Any table of the normal distribution: 1.6449 for 95 in 100, 2.3263 for 99 in 100."""
    assert (NINE_IN_TEN, ONE_IN_A_HUNDRED) == (1.6449, 2.3263)


THERMOMETER = (
    (21.521, -0.171),
    (22.012, -0.169),
    (22.512, -0.166),
    (23.003, -0.159),
    (23.507, -0.164),
    (23.999, -0.165),
    (24.513, -0.156),
    (25.002, -0.157),
    (25.503, -0.159),
    (26.010, -0.161),
    (26.511, -0.160),
)
"""Readings and corrections of the GUM, JCGM 100:2008, H.3, table H.6 (data from memory)."""


def test_line_is_that_of_the_thermometer_in_the_gum() -> None:
    """Intercept at 20 degrees, slope, their errors and correlation as H.3.3 prints them.

    y1 = -0.1712, s(y1) = 0.0029, y2 = 0.002 18, s(y2) = 0.000 67, r = -0.930, s = 0.0035. The line
    back from its points is that of a walk to nothing: what is far from them is less sure.
    """
    s = 0.0035
    line = freely([Point(at - 20, read, s) for at, read in THERMOMETER])
    assert line.read_at(0.0) == pytest.approx(-0.1712, abs=0.00005)
    assert line.slope == pytest.approx(0.00218, abs=0.000005)
    assert line.error_at(0.0) == pytest.approx(0.0029, abs=0.00005)
    assert line.slope_error == pytest.approx(0.00067, abs=0.000005)
    together = -line.middle * line.slope_error / line.error_at(0.0)
    assert together == pytest.approx(-0.930, abs=0.0005)
    assert s * (line.misfit / line.free) ** 0.5 == pytest.approx(s, abs=0.00005)
