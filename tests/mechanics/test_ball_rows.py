"""A row of balls as a spring: its force is the slope of its energy, whatever is done to it."""

import numpy as np
import pytest
from scipy.optimize import brentq

from dryfit.mechanics.ball_rows import (
    ball_row,
    ball_row_energy,
    ball_row_under,
    deep_groove_row,
    float_of_clearance,
    free_angle,
    radial_shake,
)

ROW = {"distance": 0.42e-3, "balls": 12.0, "constant": 1.3e10}
"""About a bearing of 40 mm bore."""

ANGLES = [np.radians(15), np.radians(25), np.radians(40), np.pi / 2]
GROWTHS = [(0.0, 0.0), (20e-6, 0.0), (0.0, 20e-6), (30e-6, 5e-6)]


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize(("inner", "outer"), GROWTHS)
def test_force_is_the_slope_of_the_energy(angle: float, inner: float, outer: float) -> None:
    """Force and stiffness agree with the energy, so that no work comes from nowhere."""
    given = ROW | {"inner_growth": inner, "outer_growth": outer}
    approach = np.linspace(-20e-6, 60e-6, 41)
    step = 1e-9
    row = ball_row(approach, angle, **given)
    up, down = (ball_row_energy(approach + s, angle, **given) for s in (step, -step))
    stronger, weaker = (ball_row(approach + s, angle, **given).force for s in (step, -step))
    np.testing.assert_allclose(row.force, (up - down) / (2 * step), rtol=1e-4, atol=0.01)
    away = abs(approach) > 2 * step
    slope = (stronger - weaker) / (2 * step)
    np.testing.assert_allclose(row.stiffness[away], slope[away], rtol=1e-3, atol=10)
    assert np.all(np.diff(row.force) >= 0)


@pytest.mark.parametrize("angle", ANGLES)
def test_a_row_pulled_apart_stops_nothing(angle: float) -> None:
    """A bearing fitted the wrong way round does not hold the shaft, however far it goes."""
    row = ball_row(-np.geomspace(1e-9, 5e-3, 50), angle, **ROW)
    assert not row.force.any()
    assert not row.stiffness.any()


def test_an_inner_ring_that_grows_tightens_and_an_outer_one_loosens() -> None:
    """A tight shaft adds preload, a warm housing takes it away."""
    angle = np.radians(25)
    alone = ball_row(10e-6, angle, **ROW).force
    assert ball_row(10e-6, angle, **ROW, inner_growth=5e-6).force > alone
    assert ball_row(10e-6, angle, **ROW, outer_growth=5e-6).force < alone


@pytest.mark.parametrize("angle", ANGLES[:-1])
def test_a_small_growth_is_worth_its_cotangent(angle: float) -> None:
    """Ring growth counts along the shaft as half of it times cot(angle)."""
    growth = 0.1e-6
    along = growth / 2 / np.tan(angle)
    assert ball_row(-1.001 * along, angle, **ROW, inner_growth=growth).force == 0
    assert ball_row(-0.999 * along, angle, **ROW, inner_growth=growth).force > 0


@pytest.mark.parametrize("force", [0.1, 50.0, 1000.0, 30000.0])
@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize(("inner", "outer"), GROWTHS)
def test_approach_under_a_force_gives_that_force(
    force: float, angle: float, inner: float, outer: float
) -> None:
    """Asked either way round, the same row answers the same."""
    given = ROW | {"inner_growth": inner, "outer_growth": outer}
    under = ball_row_under(force, angle, **given)
    assert ball_row(under.approach, angle, **given).force == pytest.approx(force, rel=1e-9)
    thrust = ROW["balls"] * under.load * np.sin(under.angle)
    assert thrust == pytest.approx(force, rel=1e-9)


@pytest.mark.parametrize("force", [200.0, 5000.0])
@pytest.mark.parametrize("angle", ANGLES[:-1])
def test_approach_as_the_equation_of_the_angle_gives_it(force: float, angle: float) -> None:
    """Solved by scipy as the textbook writes it, for the angle, the approach is the same."""
    distance, balls, constant = ROW["distance"], ROW["balls"], ROW["constant"]

    def short(free: float) -> float:
        pressed = distance * (np.cos(angle) / np.cos(free) - 1)
        return float(balls * constant * pressed**1.5 * np.sin(free) - force)

    free = brentq(short, angle, 1.5, xtol=1e-14)
    approach = distance * np.sin(free - angle) / np.cos(free)
    under = ball_row_under(force, angle, **ROW)
    assert under.angle == pytest.approx(free, rel=1e-9)
    assert under.approach == pytest.approx(approach, rel=1e-7)


def test_deep_groove_holds_both_ways_beyond_its_float() -> None:
    """Within the float it gives nothing, beyond it the same on either side."""
    half = float_of_clearance(12e-6, ROW["distance"]) / 2
    inside = deep_groove_row(np.linspace(-half, half, 21) * (1 - 1e-9), 12e-6, **ROW)
    assert not inside.force.any()
    there, back = (deep_groove_row(s * (half + 5e-6), 12e-6, **ROW) for s in (1, -1))
    assert there.force > 0
    assert back.force == -there.force
    assert back.stiffness == there.stiffness


def test_deep_groove_is_angular_contact_at_its_free_angle() -> None:
    """One law: from where the balls touch, a deep groove row is an angular contact row."""
    angle = free_angle(12e-6, ROW["distance"])
    half = float_of_clearance(12e-6, ROW["distance"]) / 2
    assert deep_groove_row(half + 8e-6, 12e-6, **ROW).force == pytest.approx(
        ball_row(8e-6, angle, **ROW).force, rel=1e-9
    )


def test_growth_takes_clearance_away() -> None:
    """A ring that grows by three micrometres is a bearing with three micrometres less."""
    grown = deep_groove_row(60e-6, 12e-6, **ROW, inner_growth=3e-6).force
    assert grown == pytest.approx(deep_groove_row(60e-6, 9e-6, **ROW).force, rel=1e-12)


def test_shake_of_a_small_float_is_the_clearance() -> None:
    """A deep groove bearing shakes by its clearance; its float times tan(angle) is near it."""
    clearance, distance = 10e-6, ROW["distance"]
    axial = float_of_clearance(clearance, distance)
    shake = radial_shake(axial, free_angle(clearance, distance))
    assert shake == pytest.approx(2 * clearance, rel=0.03)
