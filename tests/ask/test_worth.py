"""Share of doubt that a better reading removes, against theory and a published function."""

import numpy as np
import pytest

from dryfit.ask.worth import share_removed

RNG = np.random.default_rng(7)
COUNT = 50_000


@pytest.mark.parametrize("left", [0.0, 0.02])
def test_linear_sum_gives_the_closed_form(left: float) -> None:
    """For a sum of normals: R = corr^2 s^2 / (s^2 + u^2) (conditional variance, closed form)."""
    weights, deviations = np.array([1.0, 0.5, 0.2, -0.7]), np.array([0.03, 0.05, 0.1, 0.01])
    draws = deviations * RNG.standard_normal((COUNT, 4))
    values = draws @ weights
    parts = (weights * deviations) ** 2
    theory = parts / parts.sum() * deviations**2 / (deviations**2 + left**2)
    noise = RNG.standard_normal(COUNT)
    ours = [share_removed(values, draws[:, i], left, noise) for i in range(4)]
    # 50 000 draws in 37 bins: scatter of a share about 0.004
    assert ours == pytest.approx(list(theory), abs=0.015)


def test_curved_function_of_ishigami() -> None:
    """Ishigami and Homma 1990 (a = 7, b = 0.1): first-order shares 0.3139, 0.4424, 0.

    The closed form stands in Saltelli et al., Global Sensitivity Analysis, 2008 (from memory).
    """
    x = RNG.uniform(-np.pi, np.pi, (COUNT, 3))
    values = np.sin(x[:, 0]) + 7 * np.sin(x[:, 1]) ** 2 + 0.1 * x[:, 2] ** 4 * np.sin(x[:, 0])
    ours = [share_removed(values, x[:, i], 0.0, np.zeros(COUNT)) for i in range(3)]
    assert ours == pytest.approx([0.3139, 0.4424, 0.0], abs=0.012)


def test_kinked_reading_is_not_judged_by_a_straight_line() -> None:
    """|x| + a little y: a straight line sees nothing of x, the share must be large."""
    x, y = RNG.standard_normal((2, COUNT))
    values = np.abs(x) + 0.2 * y
    theory = (1 - 2 / np.pi) / (1 - 2 / np.pi + 0.04)
    assert np.corrcoef(x, values)[0, 1] ** 2 < 0.01
    assert share_removed(values, x, 0.0, np.zeros(COUNT)) == pytest.approx(theory, abs=0.03)
