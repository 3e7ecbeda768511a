"""Errors drawn for typed sizes, against the formulas of the GUM."""

from math import sqrt

import numpy as np

from dryfit.mechanics.instruments import INSTRUMENTS
from dryfit.quantities import Size, read_size
from dryfit.solve.luck import Luck
from dryfit.solve.sizes import Gauge, making_error, reading_error, true_size

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


def test_a_length_read_twice_by_one_caliper_shows_the_same() -> None:
    """What the caliper reads long both times shows in neither: its own errors alone, 0.51 of 0.03.

    By hand, JCGM 100:2008, 5.2.2 with a correlation of -1 for the shared part: the second reading
    less the first has twice 0.51 of the variance of one, where another instrument would have two.
    """
    true = true_size(DRAWS, ("a",), _size("12.34"), CALIPER) * 1e3
    again = true + reading_error(DRAWS, ("b",), CALIPER, 0.01234) * 1e3
    other = true + reading_error(DRAWS, ("b",), Gauge("x", CALIPER.instrument), 0.01234) * 1e3
    assert abs(again.std() - 0.03 * sqrt(2 * 0.51 / 3)) < 1.5e-4
    assert abs(other.std() - 0.03 * sqrt(2 / 3)) < 1.5e-4


def test_a_pack_read_again_by_the_micrometer_that_made_it_shows_what_was_meant() -> None:
    """0.004 of micrometer: made and read by one, only each reading's own error is left."""
    by = Gauge("micrometer", INSTRUMENTS["micrometer"])
    made = making_error(DRAWS, "shim", None, by) * 1e3
    shown = made + reading_error(DRAWS, ("b",), by, 0.0) * 1e3
    assert abs(shown.std() - 0.004 * sqrt(2 * 0.51 / 3)) < 2e-5


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
