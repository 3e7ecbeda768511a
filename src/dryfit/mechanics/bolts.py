"""Bolts and nuts: torque and the force it gives, preload, and the share of load a bolt takes.

One relation of force and torque, `_lever`, serves tightening, undoing and both directions.
"""

from math import pi
from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.tables import read_table

TABLE = read_table("bolts.toml")

NUT_FACTOR: dict[str, float] = {
    name: value for name, value in TABLE["nut_factor"].items() if name != "source"
}
"""K of the short form of torque, by state of the thread."""

FRICTION: dict[str, tuple[float, float]] = {
    name: (value[0], value[1]) for name, value in TABLE["friction"].items() if name != "source"
}
"""Least and greatest friction of thread and face."""

PROOF_STRESS: dict[str, tuple[float, float]] = {
    name: (value[0] * 1e6, value[1] * 1e6)
    for name, value in TABLE["proof_stress"].items()
    if name != "source"
}
"""Yield stress by property class, up to 16 mm and above [Pa]."""

HAND = TABLE["hand"]
"""What a person can apply, with the sources."""

FLANK_60 = pi / 6
OILED = 0.12
"""Middle of what oiled steel on steel has."""


class Band(NamedTuple):
    """Least and greatest."""

    low: Result
    high: Result


class BoltTorque(NamedTuple):
    """Torque both ways: see `bolt_torque`."""

    tighten: Result
    undo: Result


class Preload(NamedTuple):
    """What a bolt bears: see `vdi_preload`."""

    force: Result
    torque: Result


class BoltLoad(NamedTuple):
    """What bolt and joint carry: see `bolt_load`."""

    bolt: Result
    clamped: Result
    stress: Result


def _lever(
    climb: Number,
    pitch_diameter: Number,
    flank_angle: Number,
    thread_friction: Number,
    face: Number,
) -> Number:
    """Work out torque per force; climb is the tangent of the lead angle, minus when undoing."""
    grip = thread_friction / np.cos(flank_angle)
    return (pitch_diameter * (climb + grip) / (1 - climb * grip) + face) / 2


@formula(
    "0 < pitch < pitch_diameter",
    "0 <= face_diameter",
    "0 <= thread_friction",
    "0 <= face_friction",
    "0 <= flank_angle < pi/2",
)
def bolt_torque(
    force: Number,
    pitch_diameter: Number,
    pitch: Number,
    *,
    face_diameter: Number,
    thread_friction: Number = OILED,
    face_friction: Number = OILED,
    flank_angle: Number = FLANK_60,
) -> BoltTorque:
    r"""Torque that pulls a bolt or nut up to a force, and that which undoes it again.

    .. math:: T = F\left(\frac{d_2}{2}\,
        \frac{\pm\tan\lambda + \mu\sec\alpha}{1 \mp \mu\tan\lambda\sec\alpha}
        + \frac{\mu_f d_f}{2}\right),\quad \tan\lambda = \frac{P}{\pi d_2}

    Parameters
    ----------
    force
        F, in the bolt [N]
    pitch_diameter
        d2, effective diameter of the thread [m]
    pitch
        P, from thread to thread [m]
    face_diameter
        d_f, mean diameter of the face that rubs [m]
    thread_friction, face_friction
        mu, mu_f, coefficients of friction [-]
    flank_angle
        alpha, half of the angle between the flanks [rad]

    Returns
    -------
    tighten
        T, at the nut or head [N m]
    undo
        T, the other way round; minus means that it runs loose by itself [N m]

    Valid
    -----
    Single-start thread, no locking insert, not rusted. Friction differs from bolt to bolt: a force
    from a torque is known to some 30 %; after years more friction is usual.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 8-5, 8-6 and 8-26.

    Examples
    --------
    A 3/4-16 UNF bolt to 25 kip, friction 0.15, in lbf in:

    >>> torque = bolt_torque(111.2e3, 18.019e-3, 1.5875e-3, face_diameter=23.81e-3,
    ...     thread_friction=0.15, face_friction=0.15)
    >>> torque.tighten / 0.112985, torque.undo / 0.112985
    (3551., 3038.)
    """
    face = face_friction * face_diameter
    climb = pitch / (pi * pitch_diameter)
    up, down = (
        force * _lever(slope, pitch_diameter, flank_angle, thread_friction, face)
        for slope in (climb, -climb)
    )
    return BoltTorque(up, down)


@formula(
    "0 < pitch < pitch_diameter",
    "0 <= face_diameter",
    "0 <= low_friction <= high_friction",
    "0 <= flank_angle < pi/2",
)
def force_band(
    torque: Number,
    pitch_diameter: Number,
    pitch: Number,
    *,
    face_diameter: Number,
    low_friction: Number = 0.08,
    high_friction: Number = 0.16,
    flank_angle: Number = FLANK_60,
) -> Band:
    r"""Force that a torque gives, least and greatest; both frictions alike for one value.

    The inverse of `bolt_torque` with the friction of thread and face at its ends.

    Parameters
    ----------
    torque
        T, at the nut or head [N m]
    pitch_diameter
        d2, effective diameter of the thread [m]
    pitch
        P, from thread to thread [m]
    face_diameter
        d_f, mean diameter of the face that rubs [m]
    low_friction, high_friction
        mu, of thread and face together [-]
    flank_angle
        alpha, half of the angle between the flanks [rad]

    Returns
    -------
    low
        F at the high friction [N]
    high
        F at the low friction [N]

    Valid
    -----
    The defaults are for oiled steel. Ten oiled bolts of one batch scattered by 17 % (two standard
    deviations); two workshops differ by more.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 8-26 and table 8-14; the band is [VDI2230] friction class B, from memory.

    Examples
    --------
    >>> band = force_band(30.0, 29.026e-3, 1.5e-3, face_diameter=0.040)
    >>> band.low, band.high
    (4895., 9429.)
    """
    climb = pitch / (pi * pitch_diameter)
    levers = (
        _lever(climb, pitch_diameter, flank_angle, friction, friction * face_diameter)
        for friction in (high_friction, low_friction)
    )
    low, high = (torque / lever for lever in levers)
    return Band(low, high)


@formula("0 < diameter", "0 < nut_factor")
def short_torque(force: Number, diameter: Number, nut_factor: Number = 0.20) -> Result:
    r"""Torque by the short form, from the outside diameter alone.

    .. math:: T = K F d

    Parameters
    ----------
    force
        F, in the bolt [N]
    diameter
        d, nominal outside diameter [m]
    nut_factor
        K: `NUT_FACTOR` has it by state of the thread [-]

    Returns
    -------
    torque
        T, at the nut or head [N m]

    Valid
    -----
    Hexagon heads and nuts; a nut with a broad face needs `bolt_torque`. Good to 30 %.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 8-27, K in table 8-15.

    Examples
    --------
    >>> short_torque(20e3, 0.008)
    32.0
    """
    return nut_factor * force * diameter


@formula("0 < diameter", "0 < nut_factor")
def short_force(torque: Number, diameter: Number, nut_factor: Number = 0.20) -> Result:
    r"""Force by the short form, from the outside diameter alone.

    .. math:: F = \frac{T}{K d}

    Parameters
    ----------
    torque
        T, at the nut or head [N m]
    diameter
        d, nominal outside diameter [m]
    nut_factor
        K: `NUT_FACTOR` has it by state of the thread [-]

    Returns
    -------
    force
        F, in the bolt [N]

    Valid
    -----
    As `short_torque`.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 8-27, K in table 8-15.

    Examples
    --------
    >>> short_force(32.0, 0.008)
    20000.
    """
    return torque / (nut_factor * diameter)


@formula("0 < stress_area", "0 < proof_stress", "0 < share <= 1")
def proof_preload(stress_area: Number, proof_stress: Number, share: Number = 0.75) -> Result:
    r"""Preload as a share of what the bolt bears without set.

    .. math:: F_i = \nu A_s S_p

    Parameters
    ----------
    stress_area
        A_s, of the thread [m^2]
    proof_stress
        S_p, of the property class [Pa]
    share
        nu: 0.75 for a joint that is taken apart again, 0.90 for good [-]

    Returns
    -------
    preload
        F_i, in the bolt [N]

    Valid
    -----
    Tension alone; `vdi_preload` also counts the twist while tightening.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 8-31 and 8-32, from memory.

    Examples
    --------
    >>> proof_preload(36.6e-6, 600e6)
    16470.
    """
    return share * stress_area * proof_stress


@formula(
    "0 < pitch < core_diameter",
    "core_diameter <= pitch_diameter",
    "0 < proof_stress",
    "0 <= face_diameter",
    "0 <= thread_friction",
    "0 <= face_friction",
    "0 < used <= 1",
    "0 <= flank_angle < pi/2",
)
def vdi_preload(
    pitch_diameter: Number,
    core_diameter: Number,
    pitch: Number,
    *,
    proof_stress: Number,
    face_diameter: Number,
    thread_friction: Number = OILED,
    face_friction: Number = OILED,
    used: Number = 0.9,
    flank_angle: Number = FLANK_60,
) -> Preload:
    r"""Force and torque at which pull and twist together use so much of the yield stress.

    .. math:: F_M = \frac{\nu R_p A_s}{\sqrt{1 + 3\left[\frac{3 d_2}{2 d_0}
        \left(\frac{P}{\pi d_2} + \mu\sec\alpha\right)\right]^2}},\quad d_0 = \frac{d_2 + d_3}{2}

    Parameters
    ----------
    pitch_diameter
        d2, effective diameter of the thread [m]
    core_diameter
        d3, of the bolt [m]
    pitch
        P, from thread to thread [m]
    proof_stress
        R_p, stress at 0.2 % set [Pa]
    face_diameter
        d_f, mean diameter of the face that rubs [m]
    thread_friction, face_friction
        mu, mu_f, coefficients of friction [-]
    used
        nu, share of the yield stress that is used [-]
    flank_angle
        alpha, half of the angle between the flanks [rad]

    Returns
    -------
    force
        F_M, in the bolt when tightened [N]
    torque
        That gives it, as `bolt_torque` has it [N m]

    Valid
    -----
    Solid bolts with a shank no thinner than the thread.

    Source
    ------
    [VDI2230], formula from memory; meets its printed table of fine threads within 0.3 % in force
    and 0.5 % in torque, where the table adds lead and friction.

    Examples
    --------
    M8x1 of class 8.8:

    >>> bolt = vdi_preload(7.350e-3, 6.773e-3, 1e-3, proof_stress=640e6, face_diameter=10.315e-3)
    >>> bolt.force / 1e3, bolt.torque
    (20.2, 26.1)
    """
    middle = (pitch_diameter + core_diameter) / 2
    climb = pitch / (pi * pitch_diameter)
    twist = 1.5 * pitch_diameter / middle * (climb + thread_friction / np.cos(flank_angle))
    force = used * proof_stress * pi / 4 * middle**2 / np.sqrt(1 + 3 * twist**2)
    face = face_friction * face_diameter
    return Preload(force, force * _lever(climb, pitch_diameter, flank_angle, thread_friction, face))


@formula("0 < bolt_stiffness", "0 < joint_stiffness")
def joint_constant(bolt_stiffness: Number, joint_stiffness: Number) -> Result:
    r"""Share of an outside load that the bolt takes on top of its preload.

    .. math:: C = \frac{k_b}{k_b + k_m}

    Parameters
    ----------
    bolt_stiffness
        k_b, of the bolt in the grip [N/m]
    joint_stiffness
        k_m, of what is clamped [N/m]

    Returns
    -------
    constant
        C [-]

    Valid
    -----
    The joint stays shut and the load acts under the head and nut.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 8-22 f.

    Examples
    --------
    >>> joint_constant(6.5, 13.8)
    0.320
    """
    return bolt_stiffness / (bolt_stiffness + joint_stiffness)


@formula("0 <= preload", "0 <= constant <= 1", "0 < stress_area")
def bolt_load(preload: Number, load: Number, constant: Number, *, stress_area: Number) -> BoltLoad:
    r"""What the bolt and the joint carry under an outside load, also after the joint opens.

    .. math:: F_m = \max(F_i - (1 - C) P,\ 0),\quad F_b = F_m + P

    Parameters
    ----------
    preload
        F_i, of one bolt [N]
    load
        P, that pulls the joint apart at one bolt [N]
    constant
        C, of the joint [-]
    stress_area
        A_s, of the thread [m^2]

    Returns
    -------
    bolt
        F_b, in the bolt [N]
    clamped
        F_m, left between the faces; nothing when they part [N]
    stress
        Of the bolt [Pa]

    Valid
    -----
    Straight pull, no prying.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 8-24 and 8-25.

    Examples
    --------
    >>> bolt_load(25.0, 6.0, 0.320, stress_area=0.373).stress
    72.17
    """
    clamped = np.maximum(preload - (1 - constant) * load, 0.0)
    bolt = clamped + load
    return BoltLoad(bolt, clamped, bolt / stress_area)


@formula("0 < radius")
def hand_torque(hand_force: Number, radius: Number) -> Result:
    r"""Torque of a hand on a spanner, or of a balance on a cord or bar.

    .. math:: T = F r

    Parameters
    ----------
    hand_force
        F, square to the spanner; `HAND` has what a person can apply [N]
    radius
        r, from the middle of the nut to the hand [m]

    Returns
    -------
    torque
        T, at the nut [N m]

    Valid
    -----
    Pulled square to the spanner.

    Source
    ------
    Lever.

    Examples
    --------
    A level pull of 225 N on a pin spanner of 250 mm:

    >>> hand_torque(225.0, 0.250)
    56.25
    """
    return hand_force * radius
