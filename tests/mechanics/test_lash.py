"""Lash against exact flanks: involutes in the plane and on the sphere, and there and back."""

import numpy as np
import pytest

from dryfit.mechanics.bevel_lash import (
    bevel_contact_radius,
    bevel_lash,
    cone_movement,
    separation_of_lash,
    shifts_of_movement,
)
from dryfit.mechanics.bevels import pitch_cones
from dryfit.mechanics.formula import Array
from dryfit.mechanics.gears import gear_pair, transverse_angle
from dryfit.mechanics.lash import arc_of_normal, cylindrical_lash, normal_lash
from dryfit.mechanics.recommended_lash import TABLES, bevel_lash_band, cylindrical_lash_band

RNG = np.random.default_rng(4)
ALPHA = np.radians(20.0)


def test_pair_without_lash_has_none() -> None:
    """At the centre distance for no lash there is none, whatever shift and helix."""
    shift, mate = RNG.uniform(-0.1, 0.6, (2, 50))
    helix = RNG.uniform(-0.5, 0.5, 50)
    pair = gear_pair(
        2.5,
        18.0,
        43.0,
        pressure_angle=ALPHA,
        helix_angle=helix,
        profile_shift=shift,
        mate_profile_shift=mate,
    )
    lash = cylindrical_lash(
        pair.centre_distance,
        2.5,
        61.0,
        pressure_angle=ALPHA,
        helix_angle=helix,
        profile_shifts=shift + mate,
    )
    np.testing.assert_allclose(lash.arc, 0, atol=1e-11)


def test_first_opening_counts_twice_its_slope() -> None:
    """A little opening gives 2 tan of the transverse angle of arc, 2 sin alpha square to it."""
    helix = np.radians(25.0)
    standard = 2.0 * 60 / 2 / np.cos(helix)
    lash = cylindrical_lash(standard + 1e-4, 2.0, 60.0, pressure_angle=ALPHA, helix_angle=helix)
    slope = 2 * np.tan(transverse_angle(ALPHA, helix))
    assert lash.arc / 1e-4 == pytest.approx(slope, rel=1e-4)
    assert lash.normal / 1e-4 == pytest.approx(2 * np.sin(ALPHA), rel=1e-4)


def flank(base_radius: float, start: float, hand: int) -> Array:
    """Draw an involute from the base circle outwards, in the plane."""
    roll = np.linspace(0, 0.9, 4001)
    angle = start + hand * (roll - np.arctan(roll))
    radius = base_radius * np.sqrt(1 + roll**2)
    points: Array = radius[:, None] * np.stack([np.cos(angle), np.sin(angle)], 1)
    return points


def test_drawn_teeth_show_the_lash() -> None:
    """A tooth drawn in the space of its mate has the gaps to both flanks that are told."""
    inv = np.tan(ALPHA) - ALPHA
    centre = 60.2
    told = cylindrical_lash(centre, 2.0, 60.0, pressure_angle=ALPHA)
    gaps = []
    for hand in (-1, 1):
        tooth = flank(20 * np.cos(ALPHA), -hand * (np.pi / 40 + inv), hand)
        space = flank(40 * np.cos(ALPHA), hand * (np.pi / 80 - inv), hand)
        space = np.array([centre, 0.0]) + space * [-1.0, -1.0]
        near = [np.min(np.hypot(*(space - point).T)) for point in tooth[::20]]
        gaps.append(np.min(near))
    # Nearest points of two polylines with steps of 0.01 mm: 1e-3 of the gap.
    assert sum(gaps) == pytest.approx(told.normal, rel=2e-3)


def test_shifts_come_back_from_separation_and_flushness() -> None:
    """Lash and flushness together tell both shifts, at any shaft angle."""
    shift, mate = RNG.normal(0, 1e-4, (2, 200))
    cone, mate_cone = RNG.uniform(0.2, 1.3, (2, 200))
    angles = {"cone_angle": cone, "mate_cone_angle": mate_cone}
    moved = cone_movement(shift, mate, **angles)
    back = shifts_of_movement(moved.separation, moved.flushness, **angles)
    np.testing.assert_allclose(back.shift, shift, atol=1e-15)
    np.testing.assert_allclose(back.mate_shift, mate, atol=1e-15)


def test_lash_tells_the_separation() -> None:
    """What the shifts do to lash leads back to how far the cones stand apart."""
    angles = {"cone_angle": 0.5, "mate_cone_angle": 0.8}
    told = bevel_lash(6e-5, -2e-5, **angles, pressure_angle=ALPHA, spiral_angle=0.6)
    moved = cone_movement(6e-5, -2e-5, **angles)
    assert separation_of_lash(told.arc, ALPHA, 0.6) == pytest.approx(moved.separation)


def test_mitre_pair_does_not_care_which_member_moves() -> None:
    """In a pair of gears alike at a right angle either shim does the same to lash."""
    angles = {"cone_angle": np.pi / 4, "mate_cone_angle": np.pi / 4, "pressure_angle": ALPHA}
    one, other = bevel_lash(1e-4, 0.0, **angles), bevel_lash(0.0, 1e-4, **angles)
    assert one == pytest.approx(other)
    assert one.arc == pytest.approx(2 * np.tan(ALPHA) * 1e-4 / np.sqrt(2))


def sphere_involute(polar: float, base: float) -> float:
    """Azimuth of the involute of a base cone, at an angle from the axis."""
    rolled = np.arccos(np.cos(polar) / np.cos(base)) / np.sin(base)
    return float(rolled - np.arccos(np.tan(base) / np.tan(polar)))


@pytest.mark.parametrize("pressure_angle", np.radians([14.5, 20.0]))
@pytest.mark.parametrize("shaft_angle", np.radians([75.0, 90.0]))
@pytest.mark.parametrize("member", [0, 1])
def test_exact_bevel_tooth_opens_as_told(
    pressure_angle: float, shaft_angle: float, member: int
) -> None:
    """A tooth of rays with true spherical flanks, slid along its axis, opens by the formula."""
    cones = pitch_cones(20.0, 40.0, shaft_angle)
    cone = cones[member]
    base = np.arcsin(np.sin(cone) * np.cos(pressure_angle))
    distance = 67.0
    radius, height = distance * np.sin(cone), distance * np.cos(cone)

    def opened(shift: float) -> float:
        polar = np.arctan2(radius, height - shift)
        change = sphere_involute(polar, base) - sphere_involute(cone, base)
        return float(2 * radius * change)

    told = bevel_lash(
        *((0.05, 0.0) if member == 0 else (0.0, 0.05)),
        cone_angle=cones.cone_angle,
        mate_cone_angle=cones.mate_cone_angle,
        pressure_angle=pressure_angle,
    )
    # Curved flanks: 0.7 per cent one way, which cancels to the second order both ways.
    assert opened(0.05) == pytest.approx(told.arc, rel=8e-3)
    assert (opened(0.05) - opened(-0.05)) / 2 == pytest.approx(told.arc, rel=2e-4)
    assert told.low < told.arc < told.high


@pytest.mark.parametrize("separation", [0.05, -0.05])
def test_full_length_teeth_touch_where_the_angle_is_least(separation: float) -> None:
    """Teeth that are not crowned stop at the end of the face where they meet first."""
    cone = np.arctan(0.5)
    radii = np.linspace(45.0, 67.0, 2001) * np.sin(cone)
    before, change = 0.004, 2 * np.tan(ALPHA) * separation
    least = np.min(before + change / radii)
    contact = bevel_contact_radius(67.0, 22.0, cone, separation=separation, contact="full length")
    assert before + change / contact == pytest.approx(least)


def test_unknown_contact_is_told_what_there_is() -> None:
    """A word that is not known brings the words that are."""
    with pytest.raises(ValueError, match="crowned, full length"):
        bevel_contact_radius(67.0, 22.0, 0.5, contact="relieved")


def test_normal_and_arc_are_inverse() -> None:
    """A feeler and a dial tell the same lash."""
    assert normal_lash(arc_of_normal(1e-4, ALPHA, 0.6), ALPHA, 0.6) == pytest.approx(1e-4)


def test_tables_are_whole() -> None:
    """Every row of the tables has its limits, the low one below; blanks stay blank together."""
    bevel, pairs = TABLES["bevel"], TABLES["cylindrical"]
    for quality in ("accurate", "commercial"):
        low, high = (np.array(bevel[quality][limit]) for limit in ("low", "high"))
        assert low.shape == high.shape == (len(bevel["pitch"]),)
        assert np.all(low < high)
        assert np.all(np.diff(low) <= 0)
        assert np.all(np.diff(high) <= 0)
    low, high = np.array(pairs["low"]), np.array(pairs["high"])
    assert low.shape == high.shape == (len(pairs["centre"]) - 1, len(pairs["pitch"]) - 1)
    assert np.array_equal(np.isnan(low), np.isnan(high))
    assert np.all((low < high) | np.isnan(low))


def test_blank_of_a_table_is_no_number() -> None:
    """Fine teeth far apart are not in the table, and no figure is made up."""
    assert np.isnan(cylindrical_lash_band(0.0015, 2.0).low)


def test_ends_of_the_tables_are_read() -> None:
    """The largest and the finest gears of a table still get its figures, in arrays too."""
    inch = 0.0254
    band = cylindrical_lash_band(np.array([2.0, 1 / 19.9]) * inch, np.array([119.9, 0.1]) * inch)
    assert band.low / inch == pytest.approx([0.080, 0.005])
    assert bevel_lash_band(inch * np.array([1.0, 0.001])).low / inch == pytest.approx([0.02, 0])
