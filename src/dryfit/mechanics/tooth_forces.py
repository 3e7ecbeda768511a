"""Forces on gear teeth along, around and square to the gear's own axis, with their signs.

Each gear has an axis of its own. Where the mesh is seen from the axis is *outward*; *around* is
the sense that a right-handed screw turns in when it moves along +axis. A torque is what the
shaft puts on the gear: on a driver with the turning, on a driven gear against it, by hand
whichever way is felt, which chooses the flank. So turning sense and drive come in by its sign.

For parallel shafts +axis is the same way on both. For a bevel +axis points away from the
crossing point. A worm's +axis is free to choose; its wheel's then follows (`worm_forces`).
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.gears import transverse_angle


class ToothForces(NamedTuple):
    """What the mate's teeth do to a gear."""

    around: Result
    separating: Result
    along: Result


@formula("pitch_radius > 0", "0 < pressure_angle < pi/2", "-1.5 < helix_angle < 1.5")
def cylindrical_forces(
    torque: Number, pitch_radius: Number, *, pressure_angle: Number, helix_angle: Number = 0.0
) -> ToothForces:
    r"""Forces on a spur or helical gear.

    .. math:: F_t = -T/r, \quad F_r = |F_t|\tan\alpha_t, \quad F_a = -F_t\tan\beta

    A right-hand driver is pushed the way a right hand's thumb points with the fingers round
    the way it turns; a left-hand driver the other way; the driven gear against its driver.

    Parameters
    ----------
    torque
        T, of the shaft on the gear, positive around its axis [N m]
    pitch_radius
        r, where the teeth touch [m]
    pressure_angle
        alpha_n, square to the tooth [rad]
    helix_angle
        beta, right hand positive, so the mate's is the negative; a worm wheel rocked against
        a worm that is held has the lead angle here, with the worm's hand [rad]

    Returns
    -------
    around
        F_t, positive around the axis, at the mesh [N]
    separating
        F_r, from the mesh towards the gear's own axis, never negative [N]
    along
        F_a, positive along the axis [N]

    Valid
    -----
    External teeth without friction, parallel shafts.

    Source
    ------
    [SHIGLEY] 13-14 and 13-16; signs from the normal of the flank.

    Examples
    --------
    >>> forces = cylindrical_forces(
    ...     10.0, 0.050, pressure_angle=np.radians(20.0), helix_angle=np.radians(15.0)
    ... )
    >>> forces.along
    53.59
    """
    around = -torque / pitch_radius
    slope = np.tan(transverse_angle(pressure_angle, helix_angle))
    return ToothForces(around, np.abs(around) * slope, -around * np.tan(helix_angle))


@formula("mean_pitch_radius > 0", "0 < cone_angle < pi", "0 < pressure_angle < pi/2")
def bevel_forces(
    torque: Number, mean_pitch_radius: Number, *, cone_angle: Number, pressure_angle: Number
) -> ToothForces:
    r"""Forces on a straight bevel gear, taken at mid face.

    .. math:: F_t = -T/r_m, \quad F_r = |F_t|\tan\alpha\cos\delta, \quad
        F_a = |F_t|\tan\alpha\sin\delta

    Parameters
    ----------
    torque
        T, of the shaft on the gear, positive around its axis [N m]
    mean_pitch_radius
        r_m, at mid face [m]
    cone_angle
        delta, pitch angle, at any shaft angle [rad]
    pressure_angle
        alpha [rad]

    Returns
    -------
    around
        F_t, positive around the axis, at the mesh [N]
    separating
        F_r, from the mesh towards the gear's own axis [N]
    along
        F_a, away from the crossing point on either flank [N]

    Valid
    -----
    Straight teeth without friction; the load taken as if at mid face.

    Source
    ------
    [SHIGLEY] 13-15.

    Examples
    --------
    >>> forces = bevel_forces(
    ...     10.0, 0.050, cone_angle=np.radians(45.0), pressure_angle=np.radians(20.0)
    ... )
    >>> forces.along
    51.47
    """
    around = -torque / mean_pitch_radius
    apart = np.abs(around) * np.tan(pressure_angle)
    return ToothForces(around, apart * np.cos(cone_angle), apart * np.sin(cone_angle))


class WormForces(NamedTuple):
    """What a worm and its wheel do to each other."""

    around: Result
    separating: Result
    along: Result
    wheel_around: Result
    wheel_along: Result


@formula("pitch_radius > 0", "-1.5 < lead_angle < 1.5", "0 < pressure_angle < pi/2")
def worm_forces(
    torque: Number,
    pitch_radius: Number,
    *,
    lead_angle: Number,
    pressure_angle: Number,
    friction: Number = 0.0,
) -> WormForces:
    r"""Forces between a worm and its wheel, with friction.

    With the force W on the flank, for a right-hand worm that is turned by its shaft:

    .. math:: F_{t1} = -\frac{T_1}{r_1}, \quad
        W = \frac{|T_1|/r_1}{\cos\alpha_n\sin\gamma + \mu\cos\gamma}, \quad
        |F_{a1}| = W(\cos\alpha_n\cos\gamma - \mu\sin\gamma), \quad F_r = W\sin\alpha_n

    The wheel's axis is taken to point the way the worm's surface moves at the mesh when the
    worm turns around +axis; its rim then moves along the worm's +axis when it turns around its
    own.

    Parameters
    ----------
    torque
        T_1, of its shaft on the worm, positive around its axis [N m]
    pitch_radius
        r_1, of the worm [m]
    lead_angle
        gamma, right hand positive [rad]
    pressure_angle
        alpha_n, square to the thread [rad]
    friction
        mu; negative where the wheel drives and the shaft holds the worm back [-]

    Returns
    -------
    around
        F_t1, on the worm, positive around its axis [N]
    separating
        F_r, pushes each member from the mesh towards its own axis [N]
    along
        F_a1, on the worm, positive along its axis [N]
    wheel_around, wheel_along
        On the wheel, around and along its axis [N], [N]

    Valid
    -----
    Shafts at a right angle, some lead. Infinite where the wheel cannot turn the worm.

    Source
    ------
    [MEDH] p. 99; [SHIGLEY] 13-17; signs from the normal of the flank.

    Examples
    --------
    >>> forces = worm_forces(
    ...     1.0, 0.022, lead_angle=np.radians(7.76517), pressure_angle=np.radians(20.0),
    ...     friction=0.05,
    ... )
    >>> forces.along
    238.03
    """
    lead, force = np.abs(lead_angle), torque / pitch_radius
    share = np.cos(pressure_angle) * np.sin(lead) + friction * np.cos(lead)
    flank = force / np.maximum(share, 0.0)
    thrust = flank * (np.cos(pressure_angle) * np.cos(lead) - friction * np.sin(lead))
    along = np.sign(lead_angle) * thrust
    return WormForces(-force, np.abs(flank) * np.sin(pressure_angle), along, -along, force)
