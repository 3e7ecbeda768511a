"""Covers against the plate equation solved by numbers, gaskets against what must hold."""

from math import pi
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from dryfit.mechanics.holders import GASKET, cover_spring, gasket_nipped

POISSON = 0.28


def slopes(r: Any, y: Any, load: float) -> Any:
    """Plate equation for deflection, slope and its derivative, under a load inside of r."""
    stiffness = 1 / (12 * (1 - POISSON**2))
    return [y[1], y[2], -y[2] / r + y[1] / r**2 + load / (2 * pi * r * stiffness)]


def plate_by_numbers(ratio: float, outer: str, inner: str) -> float:
    """Travel of the ring load per force: a = E = t = 1, by collocation.

    Two zones, inside and outside of the ring load, each from 0 to 1. A solid plate has a pinhole
    that cannot tilt; where there is a hole the inside zone lies idle.
    """
    hole = 1e-4

    def equations(t: Any, y: Any) -> Any:
        within = slopes(hole + t * (ratio - hole), y[:3], 0.0)
        beyond = slopes(ratio + t * (1 - ratio), y[3:], 1.0)
        return np.vstack(
            [(ratio - hole) * np.array(within), (1 - ratio) * np.array(beyond)],
        )

    def edges(at: Any, end: Any) -> Any:
        tilt = end[5] + POISSON * end[4] if outer == "supported" else end[4]
        joint = {
            "solid": [at[1], at[4] - end[1], at[5] - end[2]],
            "free": [at[1], end[1], at[5] + POISSON * at[4] / ratio],
            "guided": [at[1], end[1], at[4]],
        }
        return np.array([end[3], tilt, at[3] - end[0], *joint[inner]])

    mesh = np.unique(np.concatenate([np.geomspace(1e-6, 1.0, 300), [0.0]]))
    found = solve_bvp(equations, edges, mesh, np.zeros((6, mesh.size)), tol=1e-6, max_nodes=100000)
    assert found.success
    return float(found.y[3, 0])


@pytest.mark.parametrize("outer", ["supported", "clamped"])
@pytest.mark.parametrize("inner", ["solid", "free", "guided"])
@pytest.mark.parametrize("ratio", [0.35, 0.7])
def test_cover_agrees_with_the_plate_equation(ratio: float, outer: str, inner: str) -> None:
    """A cover's stiffness is that of a plate whose equation is solved without any formula."""
    ours = cover_spring(2.0, 2 * ratio, 1.0, outer=outer, inner=inner, modulus=1.0, poisson=POISSON)
    assert ours.give == pytest.approx(plate_by_numbers(ratio, outer, inner), rel=1e-4)
    assert ours.stiffness * ours.give == pytest.approx(1.0)


def test_cover_is_stiffer_the_better_it_is_held() -> None:
    """Holding either edge never makes a cover softer, from wide spigots to narrow."""
    spigots = np.linspace(0.02, 0.095, 16)
    held: dict[tuple[str, str], Any] = {
        (outer, inner): cover_spring(0.1, spigots, 0.008, outer=outer, inner=inner).stiffness
        for outer in ("supported", "clamped")
        for inner in ("free", "solid", "guided")
    }
    for inner in ("free", "solid", "guided"):
        assert np.all(held["clamped", inner] > held["supported", inner])
    for outer in ("supported", "clamped"):
        assert np.all(held[outer, "solid"] > held[outer, "free"])
        assert np.all(held[outer, "guided"] > held[outer, "solid"])


@pytest.mark.parametrize(
    ("outer", "inner", "told"),
    [("glued", "free", "supported, clamped"), ("clamped", "glued", "solid, free, guided")],
)
def test_unknown_edge_says_what_there_is(outer: str, inner: str, told: str) -> None:
    """An edge that is none is answered with those there are."""
    with pytest.raises(ValueError, match=told):
        cover_spring(0.1, 0.05, 0.008, outer=outer, inner=inner)


def test_gasket_thins_with_pressure() -> None:
    """A gasket is never thicker than free nor thinner than nothing, and less the harder nipped."""
    pressures = np.geomspace(1e3, 1e8, 50)
    for low, high in GASKET.values():
        least, most = (gasket_nipped(1e-3, c, pressure=pressures) for c in (high, low))
        assert np.all(np.diff(least) < 0)
        assert np.all((least > 0) & (least < most) & (most < 1e-3))
