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
