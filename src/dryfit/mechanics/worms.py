"""Worm and wheel on crossed shafts: lead, lead angle, centre distance, axial pressure angle."""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.gears import transverse_angle


class WormPair(NamedTuple):
    """Geometry of a worm and its wheel."""

    axial_pitch: Result
    lead: Result
    lead_angle: Result
    axial_angle: Result
    wheel_diameter: Result
    centre_distance: Result
    ratio: Result


@formula(
    "axial_module > 0",
    "starts > 0",
    "wheel_teeth > 0",
    "worm_diameter > 0",
    "0 < pressure_angle < pi/2",
)
def worm_pair(
    axial_module: Number,
    starts: Number,
    wheel_teeth: Number,
    *,
    worm_diameter: Number,
    pressure_angle: Number,
) -> WormPair:
    r"""Geometry of a worm and its wheel.

    .. math:: \tan\gamma = \frac{m_x z_1}{d_1}, \quad
        \tan\alpha_x = \frac{\tan\alpha_n}{\cos\gamma}, \quad
        a = \frac{d_1 + m_x z_2}{2}

    Parameters
    ----------
    axial_module
        m_x, axial pitch of the worm over pi; the wheel's module [m]
    starts
        z_1, threads of the worm [-]
    wheel_teeth
        z_2, teeth of the wheel [-]
    worm_diameter
        d_1, pitch diameter of the worm [m]
    pressure_angle
        alpha_n, square to the thread [rad]

    Returns
    -------
    axial_pitch
        From one thread to the next [m]
    lead
        Travel of the thread in one turn [m]
    lead_angle
        gamma, of the thread at the pitch diameter [rad]
    axial_angle
        alpha_x, pressure angle in the section along the worm's axis [rad]
    wheel_diameter
        d_2, pitch diameter of the wheel [m]
    centre_distance
        a, of a wheel without profile shift [m]
    ratio
        Turns of the worm to one of the wheel [-]

    Valid
    -----
    Shafts at a right angle; a wheel cut with profile shift sits that much further out.

    Source
    ------
    [MOTT] p. 343; [METRIC] section 9.

    Examples
    --------
    >>> pair = worm_pair(
    ...     0.003, 2.0, 30.0, worm_diameter=0.044, pressure_angle=np.radians(20.0)
    ... )
    >>> pair.lead_angle * 180 / np.pi
    7.76517
    """
    pitch = np.pi * axial_module
    lead_angle = np.arctan(axial_module * starts / worm_diameter)
    wheel_diameter = axial_module * wheel_teeth
    return WormPair(
        pitch,
        pitch * starts,
        lead_angle,
        transverse_angle(pressure_angle, lead_angle),
        wheel_diameter,
        (worm_diameter + wheel_diameter) / 2,
        wheel_teeth / starts,
    )
