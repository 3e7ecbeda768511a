"""Errors drawn for typed sizes, against the formulas of the GUM."""

from math import sqrt

import numpy as np

from dryfit.mechanics.instruments import INSTRUMENTS
from dryfit.quantities import Size, read_size
from dryfit.solve.luck import Luck
from dryfit.solve.sizes import Gauge, true_size

CALIPER = Gauge("caliper", INSTRUMENTS["caliper"])
DRAWS = Luck(200_000)


def _size(text: str) -> Size:
    size = read_size(text, "mm")
    assert isinstance(size, Size)
    return size


def test_typed_tolerance_is_two_standard_deviations() -> None:
    """`+/- 0.02` gives a standard uncertainty of 0.010 (JCGM 100:2008, 6.3.3, k = 2)."""
    values = true_size(DRAWS, ("a",), _size("12.34 +/- 0.02"), CALIPER) * 1e3
    # standard error of the mean 22 nm, of the deviation 16 nm: five of each
    assert abs(values.mean() - 12.34) < 1.1e-4
    assert abs(values.std() - 0.010) < 8e-5


def test_instrument_limit_is_a_rectangle_in_variance() -> None:
    """A caliper good to 0.03 gives 0.03 / sqrt(3) (JCGM 100:2008, 4.3.7), shared part included."""
    values = true_size(DRAWS, ("a",), _size("12.34"), CALIPER) * 1e3
    assert abs(values.std() - 0.03 / sqrt(3)) < 1.5e-4


def test_two_readings_of_one_caliper_lean_the_same_way() -> None:
    """Half of the variance is common (0.7**2), so a difference is surer than a sum."""
    a = true_size(DRAWS, ("a",), _size("12.34"), CALIPER)
    b = true_size(DRAWS, ("b",), _size("20.10"), CALIPER)
    assert abs(np.corrcoef(a, b)[0, 1] - 0.49) < 0.01
    assert (a - b).std() < (a + b).std()


def test_coarse_digits_add_their_rounding() -> None:
    """149 typed without decimals is only known to the millimetre (JCGM 100:2008, F.2.2.1)."""
    values = true_size(DRAWS, ("a",), _size("149"), CALIPER) * 1e3
    assert abs(values.std() - sqrt(0.03**2 / 3 + 1 / 12)) < 2e-3


def test_error_lengthens_or_shortens_whatever_the_sign() -> None:
    """A size written towards the other end has the same error in its length."""
    there = true_size(DRAWS, ("a",), _size("6.20"), CALIPER)
    back = true_size(DRAWS, ("a",), _size("-6.20"), CALIPER)
    assert np.array_equal(there, -back)


def test_more_draws_begin_with_the_same_ones() -> None:
    """A first look at 2 000 draws is the beginning of the full 20 000."""
    few = true_size(Luck(2_000), ("a",), _size("6.20"), CALIPER)
    many = true_size(Luck(20_000), ("a",), _size("6.20"), CALIPER)
    assert np.array_equal(few, many[:2_000])
