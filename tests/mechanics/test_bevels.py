"""Bevel blanks against the geometry of cones, and patterns against the shifts that cause them."""

import numpy as np
import pytest

from dryfit.mechanics.bevels import TAPERS, BevelBlank, bevel_blank, pitch_cones
from dryfit.mechanics.contact_pattern import PATTERNS, expected_pattern, pattern_correction

SHAFT_ANGLES = np.radians([40.0, 75.0, 90.0, 110.0])


@pytest.mark.parametrize("shaft_angle", SHAFT_ANGLES)
def test_pitch_cones_roll_on_each_other(shaft_angle: float) -> None:
    """Both cones share one pitch line, so their radii there are as the teeth."""
    cones = pitch_cones(20.0, 35.0, shaft_angle)
    assert np.sin(cones.mate_cone_angle) / np.sin(cones.cone_angle) == pytest.approx(35 / 20)
    assert cones.cone_angle + cones.mate_cone_angle == pytest.approx(shaft_angle)


@pytest.mark.parametrize("shaft_angle", SHAFT_ANGLES)
def test_mitre_gears_share_the_shaft_angle(shaft_angle: float) -> None:
    """Two gears alike have half of the shaft angle each."""
    assert pitch_cones(22.0, 22.0, shaft_angle).cone_angle == pytest.approx(shaft_angle / 2)


def blank(cone_angle: float, teeth: float, taper: str) -> BevelBlank:
    """Take a gear of a pair of module 4, b 20, cut to 4 and 5 mm."""
    return bevel_blank(
        4.0,
        teeth,
        cone_angle,
        face_width=20.0,
        addendum=4.0,
        dedendum=5.0,
        mate_dedendum=5.0,
        taper=taper,
    )


@pytest.mark.parametrize("taper", TAPERS)
@pytest.mark.parametrize("shaft_angle", SHAFT_ANGLES)
def test_crown_and_toe_lie_on_their_cones(shaft_angle: float, taper: str) -> None:
    """The crown stands square above the heel of the pitch line, the toe on the face cone."""
    angle = pitch_cones(20.0, 35.0, shaft_angle).cone_angle
    sizes = blank(angle, 20.0, taper)
    pitch_line = np.array([np.cos(angle), np.sin(angle)])
    crown = np.array([sizes.apex_to_crown, sizes.outside_diameter / 2])
    back = crown - sizes.cone_distance * pitch_line
    assert back @ pitch_line == pytest.approx(0, abs=1e-9)
    assert np.linalg.norm(back) == pytest.approx(4.0)
    rise = (sizes.outside_diameter - sizes.inner_outside_diameter) / 2
    tip = np.array([sizes.face_along_axis, rise])
    assert np.arctan2(tip[1], tip[0]) == pytest.approx(sizes.face_angle)
    assert tip @ pitch_line == pytest.approx(20.0)


@pytest.mark.parametrize("shaft_angle", SHAFT_ANGLES)
def test_parallel_clearance_runs_along_the_root_of_the_mate(shaft_angle: float) -> None:
    """Face angle of one and root angle of the other make the shaft angle."""
    cones = pitch_cones(20.0, 35.0, shaft_angle)
    own = blank(cones.cone_angle, 20.0, "parallel clearance")
    mate = blank(cones.mate_cone_angle, 35.0, "parallel clearance")
    assert own.face_angle + mate.root_angle == pytest.approx(shaft_angle)


def test_unknown_taper_is_told_what_there_is() -> None:
    """A word that is not known brings the words that are."""
    with pytest.raises(ValueError, match="to apex, parallel clearance"):
        blank(0.5, 20.0, "uniform")


@pytest.mark.parametrize(("pattern", "sign"), [("toe", -1), ("heel", 1), ("high", 1), ("low", -1)])
def test_a_pattern_is_what_its_cause_would_bring(pattern: str, sign: int) -> None:
    """The first move of a correction undoes a shift that by itself brings that pattern."""
    told = pattern_correction(pattern)
    wheel = -told.wheel if told.first == "wheel" else 0.0
    pinion = -told.pinion if told.first == "pinion" else 0.0
    cones = pitch_cones(20.0, 40.0, np.pi / 2)
    signs = expected_pattern(
        wheel,
        pinion,
        wheel_cone_angle=cones.mate_cone_angle,
        pinion_cone_angle=cones.cone_angle,
    )
    assert (signs.lengthwise if told.first == "wheel" else signs.height) == sign


def test_the_second_move_restores_lash() -> None:
    """Both moves of a correction change the lash opposite ways."""
    assert all(told.wheel == -told.pinion for told in PATTERNS.values())


def test_unknown_pattern_is_told_what_there_is() -> None:
    """A word that is not known brings the words that are."""
    with pytest.raises(ValueError, match="toe, heel, high, low, centred"):
        pattern_correction("middle")
