"""Springs against their own energy and against what must hold for any of them."""

from math import sqrt

import numpy as np
import pytest
from scipy.integrate import quad

from dryfit.mechanics.holders import cover_spring
from dryfit.mechanics.springs import disc_spring, spring_force


@pytest.mark.parametrize("cone", [0.0, 0.4, 1.3, 1.6])
def test_stiffness_is_the_slope_of_the_force(cone: float) -> None:
    """What a solver takes as slope is the slope: loose, working and solid."""
    step = 1e-9
    at = np.array([-0.3e-3, 0.1e-3, 0.55e-3, 0.98e-3, 1.02e-3])
    given = {"travel": 1e-3, "rate": 2e5, "cone": cone, "solid_stiffness": 1e8}
    above, below = (spring_force(at + one, **given).force for one in (step, -step))
    np.testing.assert_allclose(
        (above - below) / (2 * step), spring_force(at, **given).stiffness, rtol=1e-4, atol=1e-3
    )


def test_force_has_no_jump() -> None:
    """Where a spring is just free and just flat the force goes on evenly."""
    for at in (0.0, 1e-3):
        below, above = (
            spring_force(at + one, 1e-3, 2e5, cone=1.2).force for one in (-1e-12, 1e-12)
        )
        assert above - below == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize(("cone", "convex"), [(0.0, True), (1.0, True), (1.41, True), (1.5, False)])
def test_high_cones_snap_through(cone: float, convex: bool) -> None:
    """Up to root two of cone over thickness the force never falls; beyond it does, as is said."""
    force = spring_force(np.linspace(-1e-3, 2e-3, 3001), 1e-3, 2e5, cone=cone).force
    assert bool(np.all(np.diff(force) >= -1e-9)) is convex
    assert (cone <= sqrt(2)) is convex


def test_disc_stores_what_is_put_in() -> None:
    """The work to flatten a disc is that of the two terms of its energy, worked out by hand.

    F = k s (1 + q^2 (1 - x)(1 - x/2)) over x = s/h gives k h^2 (1/2 + q^2/8).
    """
    size = {"outside": 0.05, "inside": 0.0254, "thickness": 0.002, "cone_height": 0.0014}
    work, _ = quad(lambda s: disc_spring(s, **size).force, 0.0, 0.0014)
    rate = disc_spring(0.0014, **size).force / 0.0014
    assert work == pytest.approx(rate * 0.0014**2 * (1 / 2 + 0.7**2 / 8), rel=1e-9)


def test_almost_flat_disc_is_a_plate() -> None:
    """A disc with hardly a cone is an annular plate pushed at both edges.

    Eight per cent: the disc formula takes the section as rigid, which is 6 % too stiff at 2 to 1.
    """
    disc = disc_spring(1e-9, 0.05, 0.025, thickness=0.002, cone_height=1e-6).stiffness
    plate = cover_spring(0.05, 0.025, 0.002, inner="free").stiffness
    assert plate < disc < 1.08 * plate
