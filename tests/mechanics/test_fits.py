"""Lame's ring: its limits, its balance, and the growth of raceways."""

import numpy as np
import pytest
from scipy.integrate import quad, solve_bvp

from dryfit.mechanics.fits import (
    clearance_left,
    diameter_growth,
    hoop_stress,
    inner_track_growth,
    interference_left,
    outer_track_growth,
    press_pressure,
)

WALL = {"inside": 0.05, "outside": 0.09, "inner_pressure": 30e6, "outer_pressure": 12e6}


def test_hoop_stress_balances_the_pressures() -> None:
    """Cut a ring in half: what holds it together is what pushes it apart."""
    pull, _ = quad(lambda at: hoop_stress(at, **WALL), 0.05, 0.09)
    assert pull == pytest.approx(30e6 * 0.05 - 12e6 * 0.09, rel=1e-9)


def test_growth_follows_the_hoop_strain() -> None:
    """Stress and growth agree as Hooke's law wants them to, anywhere in the wall."""
    at = np.linspace(0.05, 0.09, 9)
    hoop = hoop_stress(at, **WALL)
    radial = 2 * (30e6 * 0.05**2 - 12e6 * 0.09**2) / (0.09**2 - 0.05**2) - hoop
    grown = diameter_growth(at, **WALL, modulus=100e9, poisson=0.25)
    assert grown / at == pytest.approx((hoop - 0.25 * radial) / 100e9, rel=1e-9)
    assert radial[[0, -1]] == pytest.approx([-30e6, -12e6])


def test_growth_solves_the_ring_equation() -> None:
    """A numerical solution of the ring, which knows no closed form, gives the same growth."""
    modulus, poisson = 206e9, 0.3
    stiff = modulus / (1 - poisson**2)

    def slope(r: np.ndarray, y: np.ndarray) -> np.ndarray:
        return np.vstack([y[1], y[0] / r**2 - y[1] / r])

    def ends(near: np.ndarray, far: np.ndarray) -> np.ndarray:
        inner = stiff * (near[1] + poisson * near[0] / 0.025) / 30e6 + 1
        outer = stiff * (far[1] + poisson * far[0] / 0.045) / 30e6 + 12 / 30
        return np.array([inner, outer])

    grid = np.linspace(0.025, 0.045, 50)
    solved = solve_bvp(slope, ends, grid, np.zeros((2, 50)), tol=1e-10)
    assert solved.success
    grown = diameter_growth(2 * grid, **WALL, modulus=modulus, poisson=poisson) / 2
    assert solved.sol(grid)[0] == pytest.approx(grown, rel=1e-6)


def test_thin_ring() -> None:
    """A thin ring on a rigid shaft carries E t delta / d over its wall, as a hoop does."""
    thickness = 1e-5
    pressure = press_pressure(10e-6, 0.1, 0.1 + 2 * thickness, shaft_modulus=1e18)
    hoop = 206e9 * 10e-6 / 0.1
    assert pressure == pytest.approx(2 * hoop * thickness / 0.1, rel=5e-4)
    assert hoop_stress(0.1, 0.1, 0.1 + 2 * thickness, inner_pressure=pressure) == pytest.approx(
        hoop, rel=5e-4
    )


def test_housing_without_bounds() -> None:
    """The larger the housing the nearer its fit comes to E delta / 2d, which it reaches."""
    sizes = np.array([0.2, 1.0, 10.0, np.inf])
    pressure = press_pressure(10e-6, 0.1, sizes)
    assert np.all(np.diff(pressure) > 0)
    assert pressure[-1] == pytest.approx(206e9 * 10e-6 / 0.2)
    assert outer_track_growth(10e-6, 0.1, 0.085, housing_outside=np.inf) == pytest.approx(
        -10e-6 * 0.85
    )


def test_joint_closes() -> None:
    """Under the pressure of the joint, hub and shaft have given way by the whole interference."""
    pressure = press_pressure(
        40e-6, 0.06, 0.08, shaft_bore=0.03, shaft_modulus=110e9, hub_modulus=71e9, hub_poisson=0.33
    )
    hub = diameter_growth(0.06, 0.06, 0.08, inner_pressure=pressure, modulus=71e9, poisson=0.33)
    shaft = diameter_growth(0.06, 0.03, 0.06, outer_pressure=pressure, modulus=110e9)
    assert hub - shaft == pytest.approx(40e-6)


def test_raceways_follow_the_short_formulas() -> None:
    """Rings in steel grow as bearing handbooks reckon, whatever Poisson's ratio."""
    d, F, hollow = 0.05, 0.06, 0.025
    grown = inner_track_growth(12e-6, d, F, shaft_bore=hollow)
    assert grown == pytest.approx(12e-6 * F / d * (d**2 - hollow**2) / (F**2 - hollow**2))
    D, E, H = 0.09, 0.078, 0.12
    shrunk = outer_track_growth(12e-6, D, E, housing_outside=H)
    assert shrunk == pytest.approx(-12e-6 * E / D * (H**2 - D**2) / (H**2 - E**2))


def test_loose_draws_stay_loose() -> None:
    """Among a thousand draws those with clearance press nothing and none comes out as unknown."""
    fit = np.array([-5e-6, 0.0, 5e-6, np.nan])
    grown = inner_track_growth(interference_left(fit, 1e-6, 1e-6), 0.05, 0.06)
    assert grown[:2].tolist() == [0.0, 0.0]
    assert grown[2] == pytest.approx((5 - 1.6) * 1e-6 * 5 / 6)
    assert np.isnan(grown[3])
    assert clearance_left(10e-6, grown)[2] < 10e-6
