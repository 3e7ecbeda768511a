"""Lash of gear teeth on parallel and on worm shafts, and what a dial makes of any lash.

Signs: a positive opening is centres apart and gives more lash. Bevels are in `bevel_lash`.

Lash is an arc at the circle where the teeth touch, with the mate held. `normal` is the same gap
square to the flank. Both members have the same arc; as angles they differ by the ratio of teeth.

Arc and normal, cylindrical gears, worms, run-out, the dial.
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.gears import base_helix_angle, involute, transverse_angle, working_angle


class Lash(NamedTuple):
    """Lash of a mesh as an arc and square to the flank."""

    arc: Result
    normal: Result


@formula("0 < pressure_angle < pi/2", "-1.5 < helix_angle < 1.5")
def normal_lash(arc: Number, pressure_angle: Number, helix_angle: Number = 0.0) -> Result:
    r"""Lash square to the flank: what a feeler between the teeth finds.

    .. math:: j_n = j_t\cos\alpha_n\cos\beta

    Parameters
    ----------
    arc
        j_t, lash along the pitch circle [m]
    pressure_angle
        alpha_n, square to the tooth [rad]
    helix_angle
        beta, of a helical or spiral tooth [rad]

    Returns
    -------
    normal
        j_n [m]

    Valid
    -----
    Pressure and helix angle taken at the circle of the arc.

    Source
    ------
    [METRIC] section 14.

    Examples
    --------
    >>> normal_lash(100e-6, np.radians(20.0)) * 1e6
    93.969
    """
    return arc * np.cos(pressure_angle) * np.cos(helix_angle)


@formula("0 < pressure_angle < pi/2", "-1.5 < helix_angle < 1.5")
def arc_of_normal(normal: Number, pressure_angle: Number, helix_angle: Number = 0.0) -> Result:
    r"""Lash along the pitch circle from lash square to the flank, as tables give it.

    .. math:: j_t = \frac{j_n}{\cos\alpha_n\cos\beta}

    Parameters
    ----------
    normal
        j_n, lash square to the flank [m]
    pressure_angle
        alpha_n, square to the tooth [rad]
    helix_angle
        beta, of a helical or spiral tooth [rad]

    Returns
    -------
    arc
        j_t [m]

    Valid
    -----
    Pressure and helix angle taken at the circle of the arc.

    Source
    ------
    [METRIC] section 14.

    Examples
    --------
    >>> arc_of_normal(93.969e-6, np.radians(20.0)) * 1e6
    100.0
    """
    return normal / normal_lash(1.0, pressure_angle, helix_angle)


@formula(
    "centre_distance > 0",
    "module > 0",
    "teeth_sum > 0",
    "0 < pressure_angle < pi/2",
    "-1.5 < helix_angle < 1.5",
)
def cylindrical_lash(
    centre_distance: Number,
    module: Number,
    teeth_sum: Number,
    *,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
    profile_shifts: Number = 0.0,
    thinning: Number = 0.0,
) -> Lash:
    r"""Lash of a spur or helical pair at a centre distance, by the exact involute.

    .. math:: j_t = 2a\left(\operatorname{inv}\alpha_{wt} - \operatorname{inv}\alpha_t
        - 2\tan\alpha_n\frac{\sum x}{\sum z}\right) + \frac{a}{a_0}\frac{\sum A_s}{\cos\beta},
        \qquad j_n = j_t\cos\alpha_{wt}\cos\beta_b

    An error of the centre distance is told by the difference of two calls. Axial float f of a
    helical gear is no lash; see `mesh_shift`.

    Parameters
    ----------
    centre_distance
        a, as fitted [m]
    module
        m_n, of the tool [m]
    teeth_sum
        Teeth of both gears together [-]
    pressure_angle
        alpha_n, of the tool [rad]
    helix_angle
        beta, at the reference circle, either hand [rad]
    profile_shifts
        Sum of both profile shifts, in modules [-]
    thinning
        Sum of both allowances: how much thinner the teeth are cut, square to the tooth [m]

    Returns
    -------
    arc
        j_t, at the working circles [m]
    normal
        j_n, square to the flank [m]

    Valid
    -----
    External pairs on parallel shafts. Below nothing, the teeth would overlap by so much.

    Source
    ------
    Involute geometry; its slope at the standard distance is [METRIC] eq. 14-2 and 14-3.

    Examples
    --------
    >>> cylindrical_lash(0.06005, 0.002, 60.0, pressure_angle=np.radians(20.0)).arc * 1e6
    36.54
    """
    standard = module * teeth_sum / 2 / np.cos(helix_angle)
    transverse = transverse_angle(pressure_angle, helix_angle)
    working = working_angle(centre_distance, standard, transverse)
    shifts = 2 * np.tan(pressure_angle) * profile_shifts / teeth_sum
    opened = 2 * centre_distance * (involute(working) - involute(transverse) - shifts)
    thinned = centre_distance / standard * thinning / np.cos(helix_angle)
    base_helix = base_helix_angle(pressure_angle, helix_angle)
    return Lash(opened + thinned, normal_lash(opened + thinned, working, base_helix))


@formula("-1.5 < helix_angle < 1.5")
def mesh_shift(axial_shift: Number, helix_angle: Number) -> Result:
    r"""Turn of a helical gear against its mate when it is slid along its axis.

    Not a lash: both flanks move alike, as along a thread. But a shaft with end float slides
    when the torque turns round, and then a dial shows this arc on top of the lash.

    .. math:: \Delta = f\tan\beta

    Parameters
    ----------
    axial_shift
        f, along the axis [m]
    helix_angle
        beta, at the pitch circle, right hand positive [rad]

    Returns
    -------
    arc
        At the pitch circle, as a right-hand screw turns when it moves the same way [m]

    Valid
    -----
    Nothing changes but the place along the axis.

    Source
    ------
    Definition of the helix angle.

    Examples
    --------
    >>> mesh_shift(100e-6, np.radians(15.0)) * 1e6
    26.795
    """
    return axial_shift * np.tan(helix_angle)


class WormLash(NamedTuple):
    """Lash of a worm pair."""

    arc: Result
    normal: Result
    worm_angle: Result


@formula("0 < pressure_angle < pi/2", "0 < lead_angle < pi/2", "lead > 0")
def worm_lash(
    opening: Number,
    end_float: Number = 0.0,
    *,
    pressure_angle: Number,
    lead_angle: Number,
    lead: Number,
    lash_before: Number = 0.0,
) -> WormLash:
    r"""Lash of a worm pair, with the end float of the worm in it.

    .. math:: j_{t2} = j_{t0} + 2\,\Delta a\tan\alpha_x + f, \quad
        j_n = j_{t2}\cos\gamma\cos\alpha_n, \quad \varphi_1 = 2\pi j_{t2}/p_z

    End float is felt one to one on the wheel, and is easily taken for lash. Moving the wheel
    along its own axis sets no lash; it moves the contact.

    Parameters
    ----------
    opening
        Delta a, centres apart by so much [m]
    end_float
        f, of the worm along its axis; nothing where the worm is held one way [m]
    pressure_angle
        alpha_n, square to the thread [rad]
    lead_angle
        gamma, of the thread [rad]
    lead
        p_z, travel of the thread in one turn [m]
    lash_before
        j_t0, arc on the wheel's pitch circle without opening and float [m]

    Returns
    -------
    arc
        j_t2, on the wheel's pitch circle with the worm held from turning [m]
    normal
        j_n, the same play square to the flank [m]
    worm_angle
        Turn of the worm with the wheel held [rad]

    Valid
    -----
    Shafts at a right angle.

    Source
    ------
    The worm's axial section is a rack; [METRIC] section 14 for 2 tan alpha_x.

    Examples
    --------
    >>> worm_lash(
    ...     100e-6, pressure_angle=np.radians(20.0), lead_angle=np.radians(7.76517), lead=18.85e-3
    ... ).arc * 1e6
    73.47
    """
    axial = transverse_angle(pressure_angle, lead_angle)
    arc = lash_before + 2 * opening * np.tan(axial) + end_float
    return WormLash(
        arc, normal_lash(arc, pressure_angle, lead_angle), lash_angle(arc, lead / 2 / np.pi)
    )


@formula("0 < smaller_lead <= larger_lead")
def dual_lead_lash(worm_shift: Number, larger_lead: Number, smaller_lead: Number) -> Result:
    r"""Change of lash when a worm whose two flanks differ in lead is shifted along its axis.

    .. math:: \Delta j = \Delta x\,\frac{p_1 - p_2}{(p_1 + p_2)/2}

    Parameters
    ----------
    worm_shift
        Delta x, along the axis, positive where thinner thread comes to the wheel [m]
    larger_lead, smaller_lead
        p_1 and p_2, leads of the two flanks [m], [m]

    Returns
    -------
    lash_change
        Delta j, on the wheel's pitch circle [m]

    Valid
    -----
    The wheel stays where it is.

    Source
    ------
    Geometry: the thread grows by p_1 - p_2 in each turn.

    Examples
    --------
    >>> dual_lead_lash(1e-3, 20.2e-3, 19.8e-3) * 1e6
    20.0
    """
    return worm_shift * (larger_lead - smaller_lead) / ((larger_lead + smaller_lead) / 2)


class RunOutLash(NamedTuple):
    """What run-out does to lash."""

    here: Result
    tightest: Result


@formula("run_out >= 0", "mate_run_out >= 0", "0 < transverse_angle < pi/2")
def run_out_lash(
    run_out: Number,
    phase: Number,
    mate_run_out: Number = 0.0,
    *,
    mate_phase: Number = 0.0,
    transverse_angle: Number,
) -> RunOutLash:
    r"""Change of lash round the gears by run-out of their pitch circles.

    .. math:: \Delta j = 2\tan\alpha_t(e_1\cos\varphi_1 + e_2\cos\varphi_2),
        \qquad e = \mathrm{run\text{-}out}/2

    Parameters
    ----------
    run_out, mate_run_out
        Full swing of a dial on the pitch surface; for a bevel square to its cone [m], [m]
    phase, mate_phase
        phi, turn from where the low side of each gear is in mesh [rad], [rad]
    transverse_angle
        alpha_t, pressure angle square to the axis [rad]

    Returns
    -------
    here
        Change of lash in this position; positive is more [m]
    tightest
        Where the high sides of both meet [m]

    Valid
    -----
    Run-out small against the module. With one tooth number a multiple of the other, the high
    sides need not ever meet.

    Source
    ------
    [METRIC] eq. 14-3 for each position.

    Examples
    --------
    >>> run_out_lash(50e-6, np.pi, transverse_angle=np.radians(20.0)).here * 1e6
    -18.199
    """
    slope = np.tan(transverse_angle)
    here = run_out * np.cos(phase) + mate_run_out * np.cos(mate_phase)
    return RunOutLash(slope * here, -slope * (run_out + mate_run_out))


@formula("contact_radius > 0", "dial_radius > 0", "0 <= stylus_angle < pi/2")
def dial_reading(
    lash: Number, contact_radius: Number, dial_radius: Number, *, stylus_angle: Number = 0.0
) -> Result:
    r"""What a dial shows of a lash.

    .. math:: j_\mathrm{dial} = j_t\,\frac{r_\mathrm{dial}}{r_c}\cos\psi

    Parameters
    ----------
    lash
        j_t, arc where the teeth touch [m]
    contact_radius
        r_c, from the axis of the gear the dial is on to where its teeth touch [m]
    dial_radius
        From the same axis to the stylus, on a tooth or a lever [m]
    stylus_angle
        psi, by which the stylus leans off the direction of turning [rad]

    Returns
    -------
    reading
        Full swing of the dial, the mate held [m]

    Valid
    -----
    The gear has no end float of its own in the reading.

    Source
    ------
    Geometry.

    Examples
    --------
    A lever of 100 mm on a gear of 30 mm radius:

    >>> dial_reading(100e-6, 0.030, 0.100) * 1e6
    333.33
    """
    return lash * dial_radius / contact_radius * np.cos(stylus_angle)


@formula("contact_radius > 0")
def lash_angle(lash: Number, contact_radius: Number) -> Result:
    """Lash as a turn of a gear, its mate held.

    Parameters
    ----------
    lash
        Arc where the teeth touch [m]
    contact_radius
        From the gear's axis to there; for a worm its lead over 2 pi [m]

    Returns
    -------
    angle
        Turn of the gear [rad]

    Valid
    -----
    Small angles.

    Source
    ------
    Definition of the arc.

    Examples
    --------
    >>> lash_angle(50e-6, 0.050) * 180 / np.pi * 60
    3.4377
    """
    return lash / contact_radius
