"""Tooth forces against vectors: the mate presses square on the flank, whichever way it leans.

Axes of a gear at its mesh: x outward to the mesh, y around, z along its own axis.
"""

from itertools import product

import numpy as np
import pytest

from dryfit.mechanics.bevels import pitch_cones
from dryfit.mechanics.formula import Array
from dryfit.mechanics.gears import transverse_angle
from dryfit.mechanics.tooth_forces import (
    ToothForces,
    WormForces,
    bevel_forces,
    cylindrical_forces,
    worm_forces,
)

ALPHA = np.radians(20.0)
X, Y, Z = np.eye(3)


def vector(forces: ToothForces | WormForces) -> Array:
    """Put forces on a gear into its axes; separating is towards the axis."""
    return np.array([-forces.separating, forces.around, forces.along])


def into_tooth(length: Array, up: Array, across: Array, lean: float, push: float) -> Array:
    """Give the direction square to a flank, into the tooth, that pushes it along `across`.

    The flank holds the tooth's length and its profile, which goes `up` and leans towards the
    middle of the tooth.
    """
    profile = np.cos(lean) * up + np.sign(push) * np.sin(lean) * across
    normal = np.cross(length, profile)
    normal = normal / np.linalg.norm(normal)
    into: Array = normal * np.sign(normal @ across * push)
    return into


@pytest.mark.parametrize(("hand", "sense"), list(product([-1, 0, 1], [-1, 1])))
def test_helical_force_is_square_to_the_flank(hand: int, sense: int) -> None:
    """Thrust of a helical gear goes the way its hand and the torque say."""
    helix, torque = hand * np.radians(25.0), sense * 10.0
    tooth = np.cos(helix) * Z + np.sin(helix) * Y
    square = into_tooth(tooth, X, Y, transverse_angle(ALPHA, helix), -torque)
    expected = square * (-torque / 0.05) / square[1]
    got = cylindrical_forces(torque, 0.05, pressure_angle=ALPHA, helix_angle=helix)
    np.testing.assert_allclose(vector(got), expected, atol=1e-10)


def test_right_hand_rule_of_the_thumb() -> None:
    """A right-hand driver that turns as the fingers of a right hand is pushed as its thumb."""
    got = cylindrical_forces(10.0, 0.05, pressure_angle=ALPHA, helix_angle=np.radians(25.0))
    assert got.along > 0


@pytest.mark.parametrize("sense", [-1, 1])
def test_helical_mates_push_back_alike(sense: int) -> None:
    """What a gear does to its mate comes back, with the mate's hand and torque."""
    own = cylindrical_forces(sense * 10.0, 0.05, pressure_angle=ALPHA, helix_angle=0.4)
    mate = cylindrical_forces(sense * 30.0, 0.15, pressure_angle=ALPHA, helix_angle=-0.4)
    turned = np.diag([-1.0, -1.0, 1.0])  # the mate's mesh is on its other side
    np.testing.assert_allclose(turned @ vector(mate), -vector(own), atol=1e-10)


@pytest.mark.parametrize(("shaft_angle", "sense"), list(product([60, 90, 110], [-1, 1])))
def test_bevel_force_is_square_to_the_flank(shaft_angle: int, sense: int) -> None:
    """A straight bevel is pushed out of mesh on either flank, at any shaft angle."""
    cone = pitch_cones(20.0, 40.0, np.radians(shaft_angle)).cone_angle
    torque = sense * 10.0
    pitch_line = np.cos(cone) * Z + np.sin(cone) * X
    up = np.cos(cone) * X - np.sin(cone) * Z
    square = into_tooth(pitch_line, up, Y, ALPHA, -torque)
    got = bevel_forces(torque, 0.03, cone_angle=cone, pressure_angle=ALPHA)
    np.testing.assert_allclose(vector(got), square * (-torque / 0.03) / square[1], atol=1e-10)
    assert got.along > 0


@pytest.mark.parametrize("shaft_angle", [60, 90, 110])
def test_bevel_mates_push_back_alike(shaft_angle: int) -> None:
    """Both members' forces in one frame cancel at any shaft angle."""
    crossing = np.radians(shaft_angle)
    cones = pitch_cones(20.0, 40.0, crossing)
    own = bevel_forces(10.0, 0.03, cone_angle=cones.cone_angle, pressure_angle=ALPHA)
    mate = bevel_forces(20.0, 0.06, cone_angle=cones.mate_cone_angle, pressure_angle=ALPHA)
    mate_z = np.cos(crossing) * Z + np.sin(crossing) * X
    mate_x = np.sin(crossing) * Z - np.cos(crossing) * X
    placed = np.stack([mate_x, np.cross(mate_z, mate_x), mate_z], 1)
    np.testing.assert_allclose(placed @ vector(mate), -vector(own), atol=1e-10)


@pytest.mark.parametrize(
    ("hand", "sense", "friction"), list(product([-1, 1], [-1, 1], [0.0, 0.08]))
)
def test_worm_force_is_square_to_the_thread_and_dragged(
    hand: int, sense: int, friction: float
) -> None:
    """A worm is pushed the way its hand and turning say, and dragged back along its thread."""
    lead, torque = hand * np.radians(15.0), sense * 2.0
    thread = np.cos(lead) * Y + np.sin(lead) * Z
    across = np.cross(thread, X)
    push = float(-torque * (Y @ across))
    square = into_tooth(thread, X, across, ALPHA, push)
    pressed = square - friction * sense * thread
    expected = pressed * (-torque / 0.02) / pressed[1]
    got = worm_forces(torque, 0.02, lead_angle=lead, pressure_angle=ALPHA, friction=friction)
    np.testing.assert_allclose(vector(got), expected, atol=1e-10)


@pytest.mark.parametrize(("hand", "sense"), list(product([-1, 1], [-1, 1])))
def test_worm_wheel_gets_what_the_worm_gives(hand: int, sense: int) -> None:
    """Without friction the wheel, taken as a helical gear of its own, has the same forces."""
    lead = hand * np.radians(15.0)
    worm = worm_forces(sense * 2.0, 0.02, lead_angle=lead, pressure_angle=ALPHA)
    wheel = cylindrical_forces(
        -worm.wheel_around * 0.08, 0.08, pressure_angle=ALPHA, helix_angle=lead
    )
    assert wheel.around == pytest.approx(worm.wheel_around)
    assert wheel.along == pytest.approx(worm.wheel_along)
    assert wheel.separating == pytest.approx(worm.separating)


def test_low_lead_locks_itself() -> None:
    """A worm whose wheel cannot turn it has no finite force for a torque at its shaft."""
    got = worm_forces(1.0, 0.02, lead_angle=np.radians(3.0), pressure_angle=ALPHA, friction=-0.10)
    assert np.isinf(got.along)
