"""Readings on teeth against drawn involutes, and there and back."""

import numpy as np
import pytest
from scipy.optimize import brentq

from dryfit.mechanics.formula import Array
from dryfit.mechanics.gears import angle_of_involute, involute
from dryfit.mechanics.tooth_measures import (
    chordal_thickness,
    module_of_outside,
    module_of_spans,
    outside_diameter,
    over_pins,
    profile_shift_of_pins,
    profile_shift_of_span,
    span,
    teeth_to_span,
)

ALPHA = np.radians(20.0)


def on_flank(base_radius: float, start: float, hand: int, roll: Array) -> Array:
    """Points of an involute that leaves the base circle at `start`."""
    angle = start + hand * (roll - np.arctan(roll))
    radius = base_radius * np.sqrt(1 + roll**2)
    points: Array = radius[:, None] * np.stack([np.cos(angle), np.sin(angle)], 1)
    return points


@pytest.mark.parametrize("value", [1e-9, 1e-5, 0.0149, 0.3, 2.0, 20.0])
def test_angle_of_involute_is_the_root(value: float) -> None:
    """The angle agrees with a general root finder, from flat to steep."""
    root = brentq(lambda angle: np.tan(angle) - angle - value, 1e-6, np.pi / 2 - 1e-9, xtol=1e-14)
    assert angle_of_involute(value) == pytest.approx(root, rel=1e-7)


def test_angles_come_back_from_their_involutes() -> None:
    """A thousand angles at once are found again."""
    angles = np.linspace(0.01, 1.5, 1000)
    np.testing.assert_allclose(angle_of_involute(involute(angles)), angles, rtol=1e-9)


def test_span_is_the_same_at_any_height() -> None:
    """Anvils that touch higher or lower on the flanks read the same."""
    teeth, spanned, module = 24, 4, 3.0
    base = module * teeth / 2 * np.cos(ALPHA)
    half = (2 * spanned - 1) * np.pi / teeth / 2 + float(involute(ALPHA))
    told = span(module, float(teeth), float(spanned), pressure_angle=ALPHA)
    lean = np.linspace(-0.1, 0.1, 5)
    right = on_flank(base, half, -1, half + lean)
    left = on_flank(base, -half, 1, half - lean)
    np.testing.assert_allclose(np.hypot(*(right - left).T), told, rtol=1e-12)


@pytest.mark.parametrize("teeth", [19, 24])
@pytest.mark.parametrize("shift", [0.0, 0.3])
def test_pin_touches_the_drawn_flank(teeth: int, shift: float) -> None:
    """A pin at the told place touches the flank and does not cut it; the size is across two."""
    module, pin = 2.0, 3.6
    told = over_pins(module, float(teeth), pin, pressure_angle=ALPHA, profile_shift=shift)
    places = np.pi * 2 / teeth * np.array([0, teeth // 2])
    base = module * teeth / 2 * np.cos(ALPHA)
    middle = base / np.cos(told.pin_angle)
    ends = middle * np.stack([np.cos(places), np.sin(places)], 1)
    assert np.linalg.norm(ends[1] - ends[0]) + pin == pytest.approx(told.size)
    half = np.pi / 2 / teeth - 2 * shift * np.tan(ALPHA) / teeth - float(involute(ALPHA))
    flank = on_flank(base, half, 1, np.linspace(0, 1.2, 20001))
    # The nearest of 20 000 points is off the nearest of the curve by less than 1e-6 mm.
    assert np.min(np.hypot(*(flank - ends[0]).T)) == pytest.approx(pin / 2, abs=1e-6)


@pytest.mark.parametrize("teeth", [19.0, 24.0])
def test_profile_shift_comes_back(teeth: float) -> None:
    """Span and size over pins both lead back to the shift the gear was cut with."""
    shifts = np.linspace(-0.3, 0.6, 7)
    angles = {"pressure_angle": ALPHA, "helix_angle": 0.35}
    spans = span(2.0, teeth, 4.0, **angles, profile_shift=shifts)
    sizes = over_pins(2.0, teeth, 3.8, **angles, profile_shift=shifts).size
    by_span = profile_shift_of_span(spans, 2.0, teeth, teeth_spanned=4.0, **angles)
    by_pins = profile_shift_of_pins(sizes, 2.0, teeth, pin_diameter=3.8, **angles)
    np.testing.assert_allclose(by_span, shifts, atol=1e-9)
    np.testing.assert_allclose(by_pins, shifts, atol=1e-9)


def test_two_spans_tell_the_module_of_a_shifted_gear() -> None:
    """The outside diameter of a shifted gear misleads, its base pitch does not."""
    less, more = span(3.0, 24.0, np.array([3.0, 4.0]), pressure_angle=ALPHA, profile_shift=0.4)
    assert module_of_spans(less, more, ALPHA).module == pytest.approx(3.0)
    assert module_of_outside(80.4, 24.0) == pytest.approx(3.09, abs=0.005)


def test_span_touches_near_mid_height() -> None:
    """With the teeth that are told, anvils touch within half a module of the working middle."""
    for teeth in np.arange(15.0, 90.0, 5.0):
        spanned = np.round(teeth_to_span(teeth, pressure_angle=ALPHA))
        base = teeth / 2 * np.cos(ALPHA)
        touch = np.hypot(base, span(1.0, teeth, spanned, pressure_angle=ALPHA) / 2)
        assert touch == pytest.approx(teeth / 2, abs=0.6)


def test_chord_is_the_chord_of_its_arc() -> None:
    """Vernier setting of a spur gear: chord and sagitta of the tooth's arc."""
    told = chordal_thickness(1.0, 30.0, 1.0, pressure_angle=ALPHA)
    assert told.chord == pytest.approx(2 * 15 * np.sin(np.pi / 60))
    assert told.height - 1 == pytest.approx(15 - np.sqrt(15**2 - (told.chord / 2) ** 2))


def test_odd_teeth_read_small() -> None:
    """From tip to tip an odd gear reads less than its diameter, the fewer teeth the more."""
    tips = 50.0 * np.exp(2j * np.pi * np.arange(7) / 7)
    widest = np.max(np.abs(tips - tips[0]))
    assert outside_diameter(widest, 7.0) == pytest.approx(100.0)
    assert outside_diameter(100.0, 8.0) == 100.0
