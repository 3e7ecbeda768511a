"""Cylindrical involute gears, spur and helical as one: a spur gear has no helix angle.

The involute and its inverse, angles in the transverse plane and at the base cylinder, the
circles of one gear, centre distance and working angle of a pair. Module, pressure angle and
profile shift are those of the tool, in the normal plane.
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula


@formula("0 <= angle < pi/2")
def involute(angle: Number) -> Result:
    r"""Involute of an angle.

    .. math:: \operatorname{inv}\alpha = \tan\alpha - \alpha

    Parameters
    ----------
    angle
        alpha, pressure angle at the point of the flank [rad]

    Returns
    -------
    involute
        inv alpha [rad]

    Valid
    -----
    Any angle below a right one.

    Source
    ------
    [METRIC] section 3; it is a definition.

    Examples
    --------
    >>> involute(np.radians(20.0))
    0.0149044
    """
    return np.tan(angle) - angle


@formula("value > 0")
def angle_of_involute(value: Number) -> Result:
    r"""Angle whose involute is given.

    Newton's rule on tan a - a, which bends one way only: from above it comes down to the
    angle without a miss. It starts at the lower of two bounds from above,

    .. math:: \alpha_0 = \min(\sqrt[3]{3v},\; \arctan(v + 2))

    Parameters
    ----------
    value
        v, involute of the angle [rad]

    Returns
    -------
    angle
        alpha [rad]

    Valid
    -----
    Any involute above nothing.

    Source
    ------
    Definition of the involute.

    Examples
    --------
    >>> angle_of_involute(0.0149044) * 180 / np.pi
    20.0
    """
    angle = np.minimum(np.cbrt(3 * value), np.arctan(value + 2))
    for _ in range(8):
        angle = angle - (np.tan(angle) - angle - value) / np.tan(angle) ** 2
    return angle


@formula("0 < pressure_angle < pi/2", "-1.5 < helix_angle < 1.5")
def transverse_angle(pressure_angle: Number, helix_angle: Number) -> Result:
    r"""Pressure angle square to the axis; for a worm, in the section along its axis.

    .. math:: \tan\alpha_t = \tan\alpha_n / \cos\beta

    Parameters
    ----------
    pressure_angle
        alpha_n, pressure angle of the tool [rad]
    helix_angle
        beta, helix angle at the reference circle; for a worm its lead angle [rad]

    Returns
    -------
    transverse_angle
        alpha_t; for a worm alpha_x [rad]

    Valid
    -----
    Helix angles of either hand below 1.5 rad.

    Source
    ------
    [METRIC] section 6; for worms section 9.

    Examples
    --------
    >>> transverse_angle(np.radians(20.0), np.radians(30.0)) * 180 / np.pi
    22.7959
    """
    return np.arctan(np.tan(pressure_angle) / np.cos(helix_angle))


@formula("0 < pressure_angle < pi/2", "-1.5 < helix_angle < 1.5")
def base_helix_angle(pressure_angle: Number, helix_angle: Number) -> Result:
    r"""Helix angle at the base cylinder.

    .. math:: \sin\beta_b = \sin\beta\,\cos\alpha_n

    Parameters
    ----------
    pressure_angle
        alpha_n, pressure angle of the tool [rad]
    helix_angle
        beta, helix angle at the reference circle [rad]

    Returns
    -------
    base_helix_angle
        beta_b, of the same hand [rad]

    Valid
    -----
    Helix angles of either hand below 1.5 rad.

    Source
    ------
    Geometry of the involute helicoid.

    Examples
    --------
    >>> base_helix_angle(np.radians(20.0), np.radians(15.0)) * 180 / np.pi
    14.0761
    """
    return np.arcsin(np.sin(helix_angle) * np.cos(pressure_angle))


class GearCircles(NamedTuple):
    """Circles of one gear."""

    pitch_diameter: Result
    base_diameter: Result
    tip_diameter: Result


@formula("module > 0", "teeth > 0", "0 < pressure_angle < pi/2", "-1.5 < helix_angle < 1.5")
def gear_circles(
    module: Number,
    teeth: Number,
    *,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
    profile_shift: Number = 0.0,
    addendum: Number = 1.0,
) -> GearCircles:
    r"""Reference, base and tip circle of one gear.

    .. math:: d = \frac{z\,m_n}{\cos\beta}, \quad d_b = d\cos\alpha_t, \quad
        d_a = d + 2 m_n (h_a^* + x)

    Parameters
    ----------
    module
        m_n, of the tool [m]
    teeth
        z, number of teeth [-]
    pressure_angle
        alpha_n, of the tool [rad]
    helix_angle
        beta, at the reference circle [rad]
    profile_shift
        x, shift of the tool away from the gear, in modules [-]
    addendum
        h_a*, height of a tooth without shift above the reference circle, in modules [-]

    Returns
    -------
    pitch_diameter
        d, reference circle [m]
    base_diameter
        d_b [m]
    tip_diameter
        d_a, not shortened for its mate [m]

    Valid
    -----
    External gears.

    Source
    ------
    [METRIC] sections 4 and 6.

    Examples
    --------
    >>> gear_circles(0.002, 30.0, pressure_angle=np.radians(20.0)).base_diameter * 1e3
    56.3816
    """
    pitch = teeth * module / np.cos(helix_angle)
    return GearCircles(
        pitch,
        pitch * np.cos(transverse_angle(pressure_angle, helix_angle)),
        pitch + 2 * module * (addendum + profile_shift),
    )


@formula("centre_distance > 0", "standard_distance > 0", "0 < transverse_angle < pi/2")
def working_angle(
    centre_distance: Number, standard_distance: Number, transverse_angle: Number
) -> Result:
    r"""Pressure angle at which a pair works at a given centre distance.

    .. math:: \cos\alpha_{wt} = \frac{a_0}{a}\cos\alpha_t

    Parameters
    ----------
    centre_distance
        a, as fitted [m]
    standard_distance
        a_0, half the sum of the reference diameters [m]
    transverse_angle
        alpha_t, pressure angle at the reference circles [rad]

    Returns
    -------
    working_angle
        alpha_wt, in the transverse plane [rad]

    Valid
    -----
    External pairs; not a number where the base circles would overlap.

    Source
    ------
    [METRIC] section 4.

    Examples
    --------
    >>> working_angle(0.0565, 0.054, np.radians(20.0)) * 180 / np.pi
    26.0888
    """
    return np.arccos(standard_distance / centre_distance * np.cos(transverse_angle))


class GearPair(NamedTuple):
    """A pair that meshes without lash."""

    standard_distance: Result
    centre_distance: Result
    working_angle: Result
    working_diameter: Result
    mate_working_diameter: Result


@formula(
    "module > 0",
    "teeth > 0",
    "mate_teeth > 0",
    "0 < pressure_angle < pi/2",
    "-1.5 < helix_angle < 1.5",
)
def gear_pair(
    module: Number,
    teeth: Number,
    mate_teeth: Number,
    *,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
    profile_shift: Number = 0.0,
    mate_profile_shift: Number = 0.0,
) -> GearPair:
    r"""Centre distance at which teeth of full thickness mesh without lash.

    .. math:: \operatorname{inv}\alpha_{wt} = \operatorname{inv}\alpha_t
        + 2\tan\alpha_n\frac{x_1 + x_2}{z_1 + z_2}

    Parameters
    ----------
    module
        m_n, of the tool [m]
    teeth, mate_teeth
        z_1 and z_2, numbers of teeth [-], [-]
    pressure_angle
        alpha_n, of the tool [rad]
    helix_angle
        beta, at the reference circle, either hand [rad]
    profile_shift, mate_profile_shift
        x_1 and x_2, shifts of the tool away from each gear, in modules [-], [-]

    Returns
    -------
    standard_distance
        a_0, half the sum of the reference diameters [m]
    centre_distance
        a, without lash [m]
    working_angle
        alpha_wt, in the transverse plane [rad]
    working_diameter, mate_working_diameter
        d_w1 and d_w2, circles that roll on each other [m], [m]

    Valid
    -----
    External pairs on parallel shafts; the mate's helix has the other hand.

    Source
    ------
    [METRIC] sections 4 and 6.

    Examples
    --------
    >>> pair = gear_pair(
    ...     0.003, 12.0, 24.0, pressure_angle=np.radians(20.0),
    ...     profile_shift=0.6, mate_profile_shift=0.36,
    ... )
    >>> pair.centre_distance * 1e3
    56.4999
    """
    teeth_sum = teeth + mate_teeth
    standard = module * teeth_sum / 2 / np.cos(helix_angle)
    transverse = transverse_angle(pressure_angle, helix_angle)
    shifts = profile_shift + mate_profile_shift
    angle = angle_of_involute(
        involute(transverse) + 2 * np.tan(pressure_angle) * shifts / teeth_sum
    )
    centre = standard * np.cos(transverse) / np.cos(angle)
    return GearPair(
        standard,
        centre,
        angle,
        2 * centre * teeth / teeth_sum,
        2 * centre * mate_teeth / teeth_sum,
    )
