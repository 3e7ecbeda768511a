"""Taper rows and plain faces as springs."""

import numpy as np
import pytest

from dryfit.mechanics.formula import Formula
from dryfit.mechanics.roller_rows import face_row, line_approach, taper_row

TAPER = {"angle": np.radians(14), "rollers": 17.0, "length": 12e-3}


@pytest.mark.parametrize(
    ("row", "given"), [(taper_row, TAPER), (face_row, {"area": 400e-6})], ids=["taper", "face"]
)
def test_stiffness_is_the_slope_of_the_force(
    row: Formula[..., object], given: dict[str, float]
) -> None:
    """Force only rises, its slope is the stiffness, and what is apart stops nothing."""
    approach = np.linspace(-10e-6, 50e-6, 60)
    found, up, down = (row(approach + s, **given) for s in (0, 1e-9, -1e-9))
    away = abs(approach) > 1e-7
    slope = (up.force - down.force) / 2e-9  # type: ignore[attr-defined]
    np.testing.assert_allclose(found.stiffness[away], slope[away], rtol=1e-3)  # type: ignore[attr-defined]
    assert not found.force[approach < 0].any()  # type: ignore[attr-defined]


def test_taper_row_is_its_rollers() -> None:
    """Seventeen rollers, each pressed as the handbook's line contact says, carry the thrust."""
    angle = TAPER["angle"]
    force = taper_row(10e-6, **TAPER).force
    each = force / (TAPER["rollers"] * np.sin(angle))
    assert line_approach(each, TAPER["length"]) == pytest.approx(10e-6 * np.sin(angle), rel=1e-12)


def test_growth_of_a_cone_is_worth_its_cotangent() -> None:
    """A cone that grows on its shaft tightens as if pushed by half of it times cot(angle)."""
    grown = taper_row(5e-6, **TAPER, inner_growth=2e-6).force
    pushed = taper_row(5e-6 + 1e-6 / np.tan(TAPER["angle"]), **TAPER).force
    assert grown == pytest.approx(pushed, rel=1e-12)
