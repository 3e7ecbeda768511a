"""Straight bevel gears at any shaft angle: pitch cones and the sizes of a blank.

Cone angles are measured from a gear's own axis. The apex is where the shafts cross; toe is the
small end of a tooth, heel the large end, where module and pitch diameter are taken.
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula

TAPERS = ("to apex", "parallel clearance")
"""How the tip of a tooth runs: all to the apex, or along the root of the mate."""


class PitchCones(NamedTuple):
    """Angles of two pitch cones."""

    cone_angle: Result
    mate_cone_angle: Result


@formula("teeth > 0", "mate_teeth > 0", "0 < shaft_angle < pi")
def pitch_cones(teeth: Number, mate_teeth: Number, shaft_angle: Number) -> PitchCones:
    r"""Pitch angles of a pair.

    .. math:: \tan\delta_1 = \frac{\sin\Sigma}{z_2/z_1 + \cos\Sigma}, \quad
        \delta_2 = \Sigma - \delta_1

    Parameters
    ----------
    teeth, mate_teeth
        z_1 and z_2, numbers of teeth [-], [-]
    shaft_angle
        Sigma, between the axes, each pointing from the apex to its gear [rad]

    Returns
    -------
    cone_angle, mate_cone_angle
        delta_1 and delta_2 [rad], [rad]

    Valid
    -----
    Any shaft angle. A mate above a right angle is an internal gear.

    Source
    ------
    [METRIC] section 8.

    Examples
    --------
    >>> cones = pitch_cones(20.0, 40.0, np.pi / 2)
    >>> cones.cone_angle * 180 / np.pi
    26.56505
    """
    angle = np.arctan2(np.sin(shaft_angle), mate_teeth / teeth + np.cos(shaft_angle))
    return PitchCones(angle, shaft_angle - angle)


class BevelBlank(NamedTuple):
    """Sizes of a bevel blank."""

    pitch_diameter: Result
    mean_pitch_radius: Result
    cone_distance: Result
    mean_cone_distance: Result
    face_angle: Result
    root_angle: Result
    outside_diameter: Result
    apex_to_crown: Result
    face_along_axis: Result
    inner_outside_diameter: Result
    virtual_teeth: Result


@formula(
    "module > 0",
    "teeth > 0",
    "0 < cone_angle < pi",
    "face_width > 0",
    "addendum > 0",
    "dedendum > 0",
    "mate_dedendum > 0",
)
def bevel_blank(
    module: Number,
    teeth: Number,
    cone_angle: Number,
    *,
    face_width: Number,
    addendum: Number,
    dedendum: Number,
    mate_dedendum: Number,
    taper: str = "to apex",
) -> BevelBlank:
    r"""Sizes of the blank of one straight bevel gear.

    With the cone distance :math:`R = d/(2\sin\delta)`, the dedendum angle
    :math:`\theta_f = \arctan(h_f/R)` and the addendum angle :math:`\theta_a`, which is
    :math:`\arctan(h_a/R)`, or the mate's :math:`\theta_f` where the clearance is parallel:

    .. math:: d_a = d + 2 h_a\cos\delta, \quad X = R\cos\delta - h_a\sin\delta, \quad
        X_b = \frac{b\cos(\delta + \theta_a)}{\cos\theta_a}

    Parameters
    ----------
    module
        m, at the heel [m]
    teeth
        z, number of teeth [-]
    cone_angle
        delta, pitch angle [rad]
    face_width
        b, length of a tooth along the pitch cone [m]
    addendum, dedendum
        h_a and h_f, above and below the pitch cone at the heel [m], [m]
    mate_dedendum
        h_f of the mate; only used for parallel clearance [m]
    taper
        One of `TAPERS` [text]

    Returns
    -------
    pitch_diameter
        d, at the heel [m]
    mean_pitch_radius
        r_m, at mid face; where tooth forces are taken [m]
    cone_distance, mean_cone_distance
        R and R_m, from the apex to the heel and to mid face [m], [m]
    face_angle, root_angle
        delta + theta_a and delta - theta_f [rad], [rad]
    outside_diameter
        d_a, at the crown, where face cone and back cone meet [m]
    apex_to_crown
        X, along the axis [m]
    face_along_axis
        X_b, from the crown to the toe's tip, along the axis [m]
    inner_outside_diameter
        d_i, at the toe's tip [m]
    virtual_teeth
        z_v, of the spur gear that the back cone unrolls to [-]

    Valid
    -----
    The back cone is square to the pitch cone and the crown is not turned off.

    Source
    ------
    [METRIC] section 8; [NAVY] p. 14-16 for face, root and back cone.

    Examples
    --------
    >>> blank = bevel_blank(
    ...     0.003, 20.0, np.arctan(0.5), face_width=0.022,
    ...     addendum=0.003, dedendum=0.00375, mate_dedendum=0.00375,
    ... )
    >>> blank.apex_to_crown * 1e3
    58.6584
    """
    diameter = module * teeth
    distance = diameter / 2 / np.sin(cone_angle)
    mean_distance = distance - face_width / 2
    addendum_angle = np.arctan(_tip_height(taper, addendum, mate_dedendum) / distance)
    face_angle = cone_angle + addendum_angle
    tip_length = face_width / np.cos(addendum_angle)
    outside = diameter + 2 * addendum * np.cos(cone_angle)
    return BevelBlank(
        diameter,
        mean_distance * np.sin(cone_angle),
        distance,
        mean_distance,
        face_angle,
        cone_angle - np.arctan(dedendum / distance),
        outside,
        distance * np.cos(cone_angle) - addendum * np.sin(cone_angle),
        tip_length * np.cos(face_angle),
        outside - 2 * tip_length * np.sin(face_angle),
        teeth / np.cos(cone_angle),
    )


def _tip_height(taper: str, addendum: Number, mate_dedendum: Number) -> Number:
    """Height over the cone distance whose angle the tip runs at."""
    if taper not in TAPERS:
        raise ValueError(f"no taper '{taper}'; there are: {', '.join(TAPERS)}")
    return addendum if taper == "to apex" else mate_dedendum


@formula("mounting_distance > 0", "apex_to_crown > 0")
def crown_to_back(mounting_distance: Number, apex_to_crown: Number) -> Result:
    """Distance on the bench from the locating face to the crown.

    Parameters
    ----------
    mounting_distance
        From the crossing point of the axes to the face the gear locates by [m]
    apex_to_crown
        From the crossing point to the crown [m]

    Returns
    -------
    crown_to_back
        What a depth gauge reads between crown and back, along the axis [m]

    Valid
    -----
    The crown is not turned off.

    Source
    ------
    Definition of the mounting distance.

    Examples
    --------
    >>> crown_to_back(0.080, 0.0586584) * 1e3
    21.3416
    """
    return mounting_distance - apex_to_crown
