"""Signs of warmth along the axis, for the four arrangements, and the span where it cancels."""

import numpy as np
import pytest

from dryfit.mechanics.thermal import axial_shift, length_change, neutral_span, pair_float_change

ALPHA = 12e-6
WARM_SHAFT = {
    "shaft_expansion": ALPHA,
    "shaft_rise": 20.0,
    "housing_expansion": ALPHA,
    "housing_rise": 0.0,
}


def closing(track: float, angle: float) -> float:
    """Close two equal rows by the growth of a track 20 K warmer."""
    grown = length_change(track, ALPHA, 20.0)
    return 2 * float(axial_shift(grown, np.radians(angle)))


@pytest.mark.parametrize(
    ("arrangement", "span", "track", "angle", "sign"),
    [
        ("balls face to face", 0.12, 0.060, 25.0, -1),
        ("tapers face to face", 0.12, 0.060, 12.0, -1),
        ("balls back to back, far apart", -0.25, 0.060, 25.0, 1),
        ("tapers back to back, close", -0.12, 0.060, 12.0, -1),
    ],
)
def test_warm_shaft_in_four_arrangements(
    arrangement: str, span: float, track: float, angle: float, sign: int
) -> None:
    """A warm shaft always takes float face to face; back to back the span decides."""
    change = pair_float_change(span, span, closing(track, angle), **WARM_SHAFT)
    assert np.sign(change) == sign, arrangement
    # By hand, with cot(25) = 2.1445 and cot(12) = 4.7046: -L - 60 cot(angle) in 0.24 um a mm.
    by_hand = {25.0: 2.1445, 12.0: 4.7046}[angle]
    assert change * 1e6 == pytest.approx(0.24 * (-span * 1e3 - 60 * by_hand), abs=0.01)


@pytest.mark.parametrize("angle", [10.0, 15.0, 25.0, 40.0])
def test_coinciding_apexes_keep_the_float(angle: float) -> None:
    """At the neutral span back to back, and only there, a warm shaft leaves the float alone."""
    lean = np.radians(angle)
    span = neutral_span(0.080, lean, second_diameter=0.080, second_angle=lean)
    warmed = pair_float_change(
        -span * np.array([0.9, 1.0, 1.1]),
        -span * np.array([0.9, 1.0, 1.1]),
        closing(0.080, angle),
        **WARM_SHAFT,
    )
    assert np.sign(np.round(warmed, 15)).tolist() == [-1, 0, 1]


def test_all_equally_warm_changes_little() -> None:
    """A unit of one metal that warms as a whole keeps its float, to the part it grows by."""
    evenly = WARM_SHAFT | {"housing_rise": 20.0}
    assert pair_float_change(0.2, 0.2, **evenly) == pytest.approx(0.0, abs=1e-12)
