"""Lash of bevel gears from where their members stand, and the way back to the shims.

Signs: a positive shift is of a member along its own axis, away from the crossing point, and gives
more lash. Lash is an arc where the teeth touch, with the mate held; `lash.dial_reading` and
`lash.lash_angle` turn it into what is read, at the radius of `bevel_contact_radius`.
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.lash import normal_lash

CONTACTS = ("crowned", "full length")
"""How bevel teeth bear: crowned near mid face, not crowned over the whole face."""


class ConeMovement(NamedTuple):
    """How two pitch cones stand to each other when their members are shifted."""

    separation: Result
    flushness: Result


@formula("0 < cone_angle < pi", "0 < mate_cone_angle < pi")
def cone_movement(
    shift: Number, mate_shift: Number, *, cone_angle: Number, mate_cone_angle: Number
) -> ConeMovement:
    r"""Opening of two pitch cones, and how far one heel stands behind the other.

    .. math:: s = a_1\sin\delta_1 + a_2\sin\delta_2, \qquad
        f = a_1\cos\delta_1 - a_2\cos\delta_2

    Parameters
    ----------
    shift, mate_shift
        a_1 and a_2, of each member along its axis away from the crossing point [m], [m]
    cone_angle, mate_cone_angle
        delta_1 and delta_2, pitch angles [rad], [rad]

    Returns
    -------
    separation
        s, square to the pitch line; lash follows it [m]
    flushness
        f, along the pitch line: how far this heel stands out beyond the mate's [m]

    Valid
    -----
    Straight or spiral bevels; flushness is only to be felt where the back cones are square to
    the pitch cones and not turned off.

    Source
    ------
    Geometry of the pitch cones.

    Examples
    --------
    >>> cone_movement(
    ...     100e-6, 100e-6, cone_angle=np.radians(30.0), mate_cone_angle=np.radians(60.0)
    ... ).separation * 1e6
    136.603
    """
    return ConeMovement(
        shift * np.sin(cone_angle) + mate_shift * np.sin(mate_cone_angle),
        shift * np.cos(cone_angle) - mate_shift * np.cos(mate_cone_angle),
    )


class Shifts(NamedTuple):
    """Shifts of two members along their axes."""

    shift: Result
    mate_shift: Result


@formula("0 < cone_angle < pi", "0 < mate_cone_angle < pi")
def shifts_of_movement(
    separation: Number, flushness: Number, *, cone_angle: Number, mate_cone_angle: Number
) -> Shifts:
    r"""Shifts of both members from the opening of the cones and the step between the heels.

    .. math:: a_1 = \frac{s\cos\delta_2 + f\sin\delta_2}{\sin\Sigma}, \qquad
        a_2 = \frac{s\cos\delta_1 - f\sin\delta_1}{\sin\Sigma}

    Parameters
    ----------
    separation
        s, as `separation_of_lash` gives it [m]
    flushness
        f, how far this heel stands out beyond the mate's, along the pitch line [m]
    cone_angle, mate_cone_angle
        delta_1 and delta_2, pitch angles [rad], [rad]

    Returns
    -------
    shift, mate_shift
        a_1 and a_2, away from the crossing point [m], [m]

    Valid
    -----
    Shafts that cross at an angle; lash alone or flushness alone cannot tell both shifts.

    Source
    ------
    Inverse of `cone_movement`.

    Examples
    --------
    >>> shifts_of_movement(
    ...     136.603e-6, 36.603e-6, cone_angle=np.radians(30.0), mate_cone_angle=np.radians(60.0)
    ... ).shift * 1e6
    100.0
    """
    crossing = np.sin(cone_angle + mate_cone_angle)
    along = separation * np.cos(mate_cone_angle) + flushness * np.sin(mate_cone_angle)
    mate_along = separation * np.cos(cone_angle) - flushness * np.sin(cone_angle)
    return Shifts(along / crossing, mate_along / crossing)


@formula("0 < pressure_angle < pi/2", "-1.5 < spiral_angle < 1.5")
def separation_of_lash(lash: Number, pressure_angle: Number, spiral_angle: Number = 0.0) -> Result:
    r"""Opening of the pitch surfaces that gives a change of lash.

    .. math:: s = \frac{j_t\cos\beta}{2\tan\alpha_n}

    Parameters
    ----------
    lash
        j_t, change of lash as an arc where the teeth touch [m]
    pressure_angle
        alpha_n, square to the tooth [rad]
    spiral_angle
        beta, of spiral teeth at mid face [rad]

    Returns
    -------
    separation
        s, square to the pitch line [m]

    Valid
    -----
    Small openings: a tenth of a module or less.

    Source
    ------
    [METRIC] eq. 14-3: 1.374 at 20 degrees, 1.933 at 14.5.

    Examples
    --------
    >>> separation_of_lash(1.0, np.radians(20.0))
    1.3737
    """
    return lash * np.cos(spiral_angle) / 2 / np.tan(pressure_angle)


class BevelLash(NamedTuple):
    """Lash of a bevel pair, with the limits of what its shifts do."""

    arc: Result
    normal: Result
    low: Result
    high: Result


@formula(
    "0 < cone_angle < pi",
    "0 < mate_cone_angle < pi",
    "0 < pressure_angle < pi/2",
    "-1.5 < spiral_angle < 1.5",
)
def bevel_lash(
    shift: Number,
    mate_shift: Number,
    *,
    cone_angle: Number,
    mate_cone_angle: Number,
    pressure_angle: Number,
    spiral_angle: Number = 0.0,
    lash_before: Number = 0.0,
) -> BevelLash:
    r"""Lash of a bevel pair whose members are shifted along their axes.

    .. math:: j_t = j_{t0} + \frac{2\tan\alpha_n}{\cos\beta}
        (a_1\sin\delta_1 + a_2\sin\delta_2), \qquad j_n = j_t\cos\alpha_n\cos\beta

    The taper of the teeth adds nothing: a straight tooth is a cone of rays, as thick in angle
    at the toe as at the heel. But a shift also slides the cones along each other and moves the
    contact up or down the flank, most on the member with the smaller cone angle; `low` and
    `high` allow for that.

    Parameters
    ----------
    shift, mate_shift
        a_1 and a_2, away from the crossing point [m], [m]
    cone_angle, mate_cone_angle
        delta_1 and delta_2, pitch angles [rad], [rad]
    pressure_angle
        alpha_n, square to the tooth [rad]
    spiral_angle
        beta, of spiral teeth at mid face [rad]
    lash_before
        j_t0, arc where the teeth touch, without the shifts [m]

    Returns
    -------
    arc
        j_t, where the teeth touch: see `bevel_contact_radius` [m]
    normal
        j_n, square to the flank [m]
    low, high
        Arc at the least and at the greatest effect of each shift: -30 and +20 per cent for the
        smaller cone, 15 per cent either way for the larger and for a mitre pair [m], [m]

    Valid
    -----
    Shifts of a twentieth of a module or less. The allowances stand for straight teeth at
    ratios up to 2, with and without crown, from a search for first contact over the whole
    flanks of spherical involutes.

    Source
    ------
    Geometry of the pitch cones; [METRIC] section 14 for shafts at a right angle. Allowances:
    ours.

    Examples
    --------
    The wheel of a 20/40 pair, 0.05 mm out:

    >>> bevel_lash(
    ...     0.0, 50e-6, cone_angle=np.arctan(0.5), mate_cone_angle=np.arctan(2.0),
    ...     pressure_angle=np.radians(20.0),
    ... ).arc * 1e6
    32.55
    """
    per_shift = 2 * np.tan(pressure_angle) / np.cos(spiral_angle)
    own = per_shift * np.sin(cone_angle) * shift
    mates = per_shift * np.sin(mate_cone_angle) * mate_shift
    least, most = _effect(own, cone_angle, mate_cone_angle)
    mates_least, mates_most = _effect(mates, mate_cone_angle, cone_angle)
    arc = lash_before + own + mates
    return BevelLash(
        arc,
        normal_lash(arc, pressure_angle, spiral_angle),
        lash_before + least + mates_least,
        lash_before + most + mates_most,
    )


def _effect(change: Number, cone_angle: Number, mate_cone_angle: Number) -> tuple[Result, Result]:
    """Limits of a change of lash by the shift of one member."""
    weak = change * np.where(cone_angle < mate_cone_angle, 0.70, 0.85)
    strong = change * np.where(cone_angle < mate_cone_angle, 1.20, 1.15)
    return np.minimum(weak, strong), np.maximum(weak, strong)


@formula("0 < face_width < cone_distance", "0 < cone_angle < pi")
def bevel_contact_radius(
    cone_distance: Number,
    face_width: Number,
    cone_angle: Number,
    *,
    separation: Number = 0.0,
    contact: str = "crowned",
) -> Result:
    r"""Radius at which the teeth of a bevel gear touch when lash is felt.

    Crowned teeth touch at mid face. Teeth that are not crowned carry at the heel when the cones
    are apart, and at the toe when they are together.

    .. math:: r_c = (R - k b)\sin\delta, \quad k = \tfrac12, 0, 1

    Parameters
    ----------
    cone_distance
        R, from the apex to the heel [m]
    face_width
        b, length of a tooth along the pitch cone [m]
    cone_angle
        delta, pitch angle [rad]
    separation
        Opening of the pitch cones, as `cone_movement` gives it [m]
    contact
        One of `CONTACTS` [text]

    Returns
    -------
    radius
        r_c, from the gear's own axis [m]

    Valid
    -----
    Straight teeth; a search for first contact on whole flanks agrees within 3 per cent. The
    `lash_before` of `bevel_lash` belongs to this radius: an angle of play is a longer arc there
    than nearer the toe.

    Source
    ------
    Geometry; the places of contact from our own search.

    Examples
    --------
    >>> bevel_contact_radius(0.067082, 0.022, np.arctan(0.5)) * 1e3
    25.0806
    """
    return (cone_distance - face_width * _from_heel(separation, contact)) * np.sin(cone_angle)


def _from_heel(separation: Number, contact: str) -> Result:
    """Share of the face between heel and contact."""
    if contact not in CONTACTS:
        raise ValueError(f"no contact '{contact}'; there are: {', '.join(CONTACTS)}")
    together = np.sign(np.maximum(-separation, 0.0))
    return 0.5 if contact == "crowned" else together
