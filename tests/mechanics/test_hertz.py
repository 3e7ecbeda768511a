"""The contact of two curved bodies against scipy, and against what must hold for any of them."""

import numpy as np
import pytest
from scipy.special import ellipe, ellipkm1

from dryfit.mechanics.elliptic import complete_integrals, ellipticity
from dryfit.mechanics.hertz import (
    contact_constant,
    contact_ellipse,
    contacts_in_line,
    groove_curvature,
)


def test_integrals_are_those_of_scipy() -> None:
    """Elliptic integrals without scipy are the same to the last digits."""
    complement = np.geomspace(1e-12, 1, 200)
    found = complete_integrals(complement)
    np.testing.assert_allclose(found.first, ellipkm1(complement), rtol=1e-13)
    np.testing.assert_allclose(found.second, ellipe(1 - complement), rtol=1e-10)


def test_ellipticity_solves_its_equation() -> None:
    """The shape of the contact fits both curvatures, from a ball on a plane to a long roller."""
    ratio = np.concatenate([[1.0], 1 + np.geomspace(1e-9, 1, 30), np.geomspace(2, 1e5, 60)])
    k = ellipticity(ratio)
    first, second = ellipkm1(1 / k**2), ellipe(1 - 1 / k**2)
    solved = k > 1.01
    again = (k**2 * second - first)[solved] / (first - second)[solved]
    np.testing.assert_allclose(again, ratio[solved], rtol=1e-9)
    np.testing.assert_allclose(k[~solved], ratio[~solved] ** (2 / 3), rtol=1e-4)


@pytest.mark.parametrize("lean", [-0.2, 0.0, 0.2])
def test_pressure_carries_the_load(lean: float) -> None:
    """Two thirds of the peak pressure over the ellipse is the load."""
    curvature = groove_curvature(10e-3, 0.52, lean)
    ellipse = contact_ellipse(500.0, *curvature)
    area = np.pi * ellipse.long * ellipse.short
    assert 2 / 3 * ellipse.peak * area == pytest.approx(500.0)


def test_approach_is_the_work_of_the_contact() -> None:
    """The energy of a Hertz contact is 2/5 of load times approach: both follow from one law."""
    constant = contact_constant(*groove_curvature(10e-3, 0.52, 0.2))
    approach = np.linspace(0, 10e-6, 100001)
    load = constant * approach**1.5
    work = np.sum((load[1:] + load[:-1]) / 2 * np.diff(approach))
    assert work == pytest.approx(0.4 * load[-1] * approach[-1], rel=1e-6)


def test_a_closer_groove_is_stiffer() -> None:
    """A groove nearer to the ball carries more at the same approach, and so does a bigger ball."""
    tight, wide = (contact_constant(*groove_curvature(10e-3, f, 0.2)) for f in (0.515, 0.53))
    bigger = contact_constant(*groove_curvature(12e-3, 0.515, 0.2))
    assert wide < tight < bigger


def test_no_load_no_pressure() -> None:
    """A contact that carries nothing has no size and no pressure, and that is an answer."""
    assert contact_ellipse(0.0, 100.0, 0.9) == (0.0, 0.0, 0.0)


def test_the_softer_contact_rules() -> None:
    """Two contacts in line are softer than either."""
    assert contacts_in_line(2e10, 3e10) < 2e10
