"""What a better reading is worth, from a whole document and beside another library."""

from collections.abc import Callable
from math import erf, pi, sqrt

import numpy as np
import pytest
from scipy.stats import sobol_indices, uniform

from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.targets import targets
from dryfit.ask.worth import Worth, share_removed, worth

DRAWS = 100_000

ROW = """
dryfit: 1
sizes in: mm
title: Four sizes in a row
measured with: caliper
lines:
  block:
    from left to right:
      row: [room.left, one, two, shaft, room.right]
parts:
  room: {kind: housing}
  one: {kind: spacer}
  two: {kind: spacer}
  shaft: {kind: shaft}
sizes:
  room.left to room.right: 50.50 +/- 0.016
  one: 20.00 +/- 0.012
  two: 20.00 +/- 0.010
  shaft: 10.00 +/- 0.008
needs:
  float: {kind: float, of: shaft, want: 0.48 to 0.52}
"""

# Deviations are half of what is typed: 8, 6, 5 and 4 um, variance of the float 64 + 36 + 25 + 16.
# A micrometer is good to 4 um + L/50 (DIN 863), so to 5.01, 4.4, 4.4 and 4.2 um; over sqrt(3):
# u = 2.893, 2.540, 2.540 and 2.425 um.
DEVIATION = {"room.left to room.right": 8.0, "one": 6.0, "two": 5.0, "shaft": 4.0}
AGAIN = {"room.left to room.right": 2.893, "one": 2.540, "two": 2.540, "shaft": 2.425}
WHOLE = 64 + 36 + 25 + 16


@pytest.fixture(scope="module")
def told() -> dict[str, Worth]:
    """What the document is told, by size."""
    opened = open_text(ROW)
    assert not opened.stopped, opened.findings
    found = worth(Asking(opened.rebuild, DRAWS), targets(opened.rebuild), {})
    return {one.key: one for one in found}


@pytest.mark.parametrize("key", [*DEVIATION])
def test_share_that_a_micrometer_removes(told: dict[str, Worth], key: str) -> None:
    """Of a sum of normals s^2 / sum x s^2 / (s^2 + u^2) goes (variance of a conditional mean).

    100 000 draws: a share of 0.4 scatters by 0.0024, and 46 bins leave up to 0.4 % of it within.
    """
    s, u = DEVIATION[key], AGAIN[key]
    assert told[key].better == "micrometer"
    assert told[key].share == pytest.approx(s**2 / WHOLE * s**2 / (s**2 + u**2), abs=0.012)


@pytest.mark.parametrize("key", [*DEVIATION])
def test_chance_after_reading_it_again(told: dict[str, Worth], key: str) -> None:
    """If it reads the same, s^2 is replaced by u^2: chance 2 Phi(20 um / deviation) - 1.

    The error left is a rectangle and half of it common, a tenth of the variance at most: that
    shifts the chance by less than 0.001; the standard error is 0.0008.
    """
    left = WHOLE - DEVIATION[key] ** 2 + AGAIN[key] ** 2
    assert told[key].chance == pytest.approx(erf(20 / sqrt(left) / sqrt(2)), abs=0.004)


def test_sizes_are_told_by_what_they_gain(told: dict[str, Worth]) -> None:
    """The coarsest first."""
    assert [*told] == [*DEVIATION]


def _ishigami(x: np.ndarray) -> np.ndarray:
    return np.asarray(np.sin(x[0]) + 7 * np.sin(x[1]) ** 2 + 0.1 * x[2] ** 4 * np.sin(x[0]))


def _float_that_ends(x: np.ndarray) -> np.ndarray:
    """A float that is never less than nothing: a dial shows no more once parts touch."""
    return np.asarray(np.maximum(0.4 + 0.2 * x[0] - 0.1 * x[1] + 0.05 * x[2], 0.0))


@pytest.mark.parametrize("function", [_ishigami, _float_that_ends])
def test_shares_are_those_of_another_library(
    function: Callable[[np.ndarray], np.ndarray],
) -> None:
    """scipy.stats.sobol_indices by Saltelli's scheme, first-order shares of curved functions.

    Theirs scatter by 0.00005 with 2**16 points, ours by 0.002: five of these, and 0.002 that bins
    leave within.
    """
    flat = uniform(loc=-pi, scale=2 * pi)
    rng = np.random.default_rng(11)
    theirs = sobol_indices(func=function, n=2**16, dists=[flat] * 3, random_state=rng)
    x = rng.uniform(-pi, pi, (3, DRAWS))
    ours = [share_removed(function(x), one, 0.0, np.zeros(DRAWS)) for one in x]
    assert ours == pytest.approx([float(s) for s in theirs.first_order], abs=0.012)
