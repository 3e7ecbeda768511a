"""A row of balls between two grooves: force, stiffness, angle, under any approach and ring growth.

The centres of the two groove radii are A apart while the balls just touch. Pushing the rings
together or growing one of them moves these centres; what their distance has more than A is pressed
out of the balls. So the contact angle is free, and one law serves angular contact, deep groove and
thrust balls:

    U = (2/5) Z K (s - A)^(5/2),  s = sqrt(R^2 + y^2)

with y and R the axial and radial distance of the centres. `approach` counts from where the balls
just touch at the free angle, positive as the rings are pushed together. A growth is one of a
diameter: positive where the inner track gets larger or the outer track gets larger.
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.pushed import Pushed

NEWTON = 60
"""Steps of the search for an approach. It begins where there is force in any case; the force is
convex there, so after the first step all others go down to the answer and not past it."""

SMALLEST = 1e-300
"""Keeps a row whose centres coincide, and so carries nothing, from nought over nought."""


class Balls(NamedTuple):
    """How the balls of a row are loaded.

    Attributes
    ----------
    approach
        Of the rings, from where the balls just touch [m].
    angle
        Contact angle [rad].
    load
        On each ball [N].
    """

    approach: Result
    angle: Result
    load: Result


@formula("ball > 0", "0.5 < inner_conformity", "0.5 < outer_conformity")
def groove_distance(ball: Number, inner_conformity: Number, outer_conformity: Number) -> Result:
    r"""Distance of the groove centres while the balls just touch.

    .. math:: A = (f_i + f_o - 1) D

    Parameters
    ----------
    ball
        D, ball diameter [m]
    inner_conformity, outer_conformity
        f, groove radius over ball diameter [-]

    Returns
    -------
    distance
        A [m]

    Valid
    -----
    Both conformities above 0.5.

    Source
    ------
    [HARRIS] ch. 2, eq. 2.5 to 2.7.

    Examples
    --------
    >>> groove_distance(22.225e-3, 0.5232, 0.5232) * 1e3
    1.03124
    """
    return (inner_conformity + outer_conformity - 1) * ball


@formula("0 <= clearance < distance")
def free_angle(clearance: Number, distance: Number) -> Result:
    r"""Contact angle that a deep groove bearing takes up when pushed without load.

    .. math:: \cos\alpha_0 = 1 - G / (2 A)

    Parameters
    ----------
    clearance
        G, radial internal clearance, measured across the diameter [m]
    distance
        A, of the groove centres [m]

    Returns
    -------
    angle
        alpha_0 [rad]

    Valid
    -----
    0 <= clearance < distance.

    Source
    ------
    [HARRIS] ch. 2, eq. 2.9.

    Examples
    --------
    >>> free_angle(10e-6, 0.4166e-3) * 180 / np.pi
    8.886
    """
    return np.arccos(1 - clearance / (2 * distance))


@formula("0 <= clearance < distance")
def float_of_clearance(clearance: Number, distance: Number) -> Result:
    r"""End float of a deep groove bearing, from side to side without load.

    .. math:: e = \sqrt{4 A G - G^2}

    Parameters
    ----------
    clearance
        G, radial internal clearance, measured across the diameter [m]
    distance
        A, of the groove centres [m]

    Returns
    -------
    float
        e [m]

    Valid
    -----
    0 <= clearance < distance.

    Source
    ------
    [HARRIS] ch. 2, eq. 2.12: 2 A sin(alpha_0).

    Examples
    --------
    Ten micrometres across are an eighth of a millimetre along:

    >>> float_of_clearance(10e-6, 0.4166e-3) * 1e3
    0.1287
    """
    return np.sqrt(4 * distance * clearance - clearance**2)


@formula("axial >= 0", "0 <= angle < pi/2")
def radial_shake(axial: Number, angle: Number) -> Result:
    r"""Radial shake of a row that is left with axial play, from side to side.

    .. math:: s = e \tan\alpha

    Parameters
    ----------
    axial
        e, axial play [m]
    angle
        alpha, contact angle [rad]

    Returns
    -------
    shake
        s [m]

    Valid
    -----
    Balls or tapers; the play small against the groove centres' distance. A pair shares its float:
    with the shaft in the middle each row has half of it.

    Source
    ------
    Geometry: a radial shift r closes the contact on its side by r cos(alpha), of the gap
    (e/2) sin(alpha) that half the play leaves.

    Examples
    --------
    >>> radial_shake(0.050e-3, np.radians(14.04)) * 1e6
    12.50
    """
    return axial * np.tan(angle)


def _centres(
    approach: Number, angle: Number, inner_growth: Number, outer_growth: Number, distance: Number
) -> tuple[Result, Result]:
    """Give axial and radial distance of the groove centres, never pulled past each other."""
    along = np.maximum(distance * np.sin(angle) + approach, 0.0)
    return along, distance * np.cos(angle) + (inner_growth - outer_growth) / 2


def _pushed(along: Result, across: Result, distance: Number, constant: Result) -> Pushed:
    """Give the derivatives of the energy."""
    apart = np.sqrt(along * along + across * across)
    pressed = np.maximum(apart - distance, 0.0)
    root = constant * np.sqrt(pressed)
    lean = along / np.maximum(apart, SMALLEST)
    bend = pressed * (1 - lean * lean) / np.maximum(apart, SMALLEST)
    return Pushed(root * pressed * lean, root * (1.5 * lean * lean + bend))


@formula("0 <= angle <= pi/2", "distance > 0", "balls > 0", "constant > 0")
def ball_row(
    approach: Number,
    angle: Number,
    *,
    distance: Number,
    balls: Number,
    constant: Number,
    inner_growth: Number = 0.0,
    outer_growth: Number = 0.0,
) -> Pushed:
    r"""Force and stiffness of an angular contact row; nothing as soon as the balls are free.

    .. math:: F = Z K (s - A)_+^{3/2} \frac{y}{s}, \quad
       \frac{dF}{dy} = Z K \sqrt{s - A}
       \left[\frac{3}{2}\frac{y^2}{s^2} + (s - A)\frac{R^2}{s^3}\right]

    with y = max(A sin(alpha) + approach, 0) and R = A cos(alpha) + (inner - outer growth) / 2.

    Parameters
    ----------
    approach
        Of the rings, from where the balls just touch; minus: play [m]
    angle
        alpha, free contact angle, of a thrust ball bearing pi/2 [rad]
    distance
        A, of the groove centres [m]
    balls
        Z [-]
    constant
        K, of both contacts of a ball in line [N/m^1.5]
    inner_growth
        Growth of the inner track's diameter [m]
    outer_growth
        Growth of the outer track's diameter [m]

    Returns
    -------
    force
        F, pushing the rings apart again [N]
    stiffness
        dF/dy [N/m]

    Valid
    -----
    Thrust without radial load or tilt; elastic; K taken as constant while the angle changes, which
    moves the force by less than 0.5 % over 5 degrees.

    Source
    ------
    [HARRIS] ch. 7, eq. 7.33 to 7.36, written as the derivative of an energy.

    Examples
    --------
    A bearing of 90 mm bore, 36 micrometres in:

    >>> force, stiffness = ball_row(
    ...     35.99e-6, np.radians(40), distance=1.03124e-3, balls=16, constant=4.663e5 * 10**4.5
    ... )
    >>> round(force), stiffness / 1e6
    (17802, 767.39)
    """
    along, across = _centres(approach, angle, inner_growth, outer_growth, distance)
    return _pushed(along, across, distance, balls * constant)


@formula("0 <= clearance < distance", "distance > 0", "balls > 0", "constant > 0")
def deep_groove_row(
    shift: Number,
    clearance: Number,
    *,
    distance: Number,
    balls: Number,
    constant: Number,
    inner_growth: Number = 0.0,
    outer_growth: Number = 0.0,
) -> Pushed:
    r"""Force and stiffness of a deep groove row, which stops both ways.

    The law of `ball_row` with y = shift and R = A - clearance / 2 + (inner - outer growth) / 2.

    Parameters
    ----------
    shift
        Of the inner ring from the middle of its float, either way [m]
    clearance
        Radial internal clearance, measured across the diameter, before any growth [m]
    distance
        A, of the groove centres [m]
    balls
        Z [-]
    constant
        K, of both contacts of a ball in line [N/m^1.5]
    inner_growth
        Growth of the inner track's diameter [m]
    outer_growth
        Growth of the outer track's diameter [m]

    Returns
    -------
    force
        Pushing back; it has the sign of the shift [N]
    stiffness
        Its derivative [N/m]

    Valid
    -----
    As `ball_row`. Growth beyond the clearance makes the row tight across, which it may be.

    Source
    ------
    [HARRIS] ch. 2, eq. 2.9 and ch. 7, eq. 7.33.

    Examples
    --------
    Within its float it gives nothing:

    >>> row = {"distance": 0.4166e-3, "balls": 9, "constant": 1.0e10}
    >>> deep_groove_row(0.060e-3, 10e-6, **row).force
    0.0
    >>> deep_groove_row(-0.070e-3, 10e-6, **row).force < 0
    True
    """
    across = distance - clearance / 2 + (inner_growth - outer_growth) / 2
    return _pushed(shift, across, distance, balls * constant)


@formula("0 <= angle <= pi/2", "distance > 0", "balls > 0", "constant > 0")
def ball_row_energy(
    approach: Number,
    angle: Number,
    *,
    distance: Number,
    balls: Number,
    constant: Number,
    inner_growth: Number = 0.0,
    outer_growth: Number = 0.0,
) -> Result:
    r"""Energy stored in a row, whose derivative is the force of `ball_row`.

    .. math:: U = \frac{2}{5} Z K (s - A)_+^{5/2}

    Parameters
    ----------
    approach
        Of the rings, from where the balls just touch [m]
    angle
        alpha, free contact angle [rad]
    distance
        A, of the groove centres [m]
    balls
        Z [-]
    constant
        K, of both contacts of a ball in line [N/m^1.5]
    inner_growth
        Growth of the inner track's diameter [m]
    outer_growth
        Growth of the outer track's diameter [m]

    Returns
    -------
    energy
        U [N m]

    Valid
    -----
    As `ball_row`.

    Source
    ------
    [HARRIS] ch. 7, eq. 7.4 integrated: the work done on every ball.

    Examples
    --------
    >>> ball_row_energy(0.0, 0.5, distance=1e-3, balls=16, constant=1.5e10)
    0.0
    """
    along, across = _centres(approach, angle, inner_growth, outer_growth, distance)
    pressed = np.maximum(np.sqrt(along**2 + across**2) - distance, 0.0)
    return 0.4 * balls * constant * pressed**2.5


@formula("force >= 0", "0 < angle <= pi/2", "distance > 0", "balls > 0", "constant > 0")
def ball_row_under(
    force: Number,
    angle: Number,
    *,
    distance: Number,
    balls: Number,
    constant: Number,
    inner_growth: Number = 0.0,
    outer_growth: Number = 0.0,
) -> Balls:
    """Approach, contact angle and ball load of a row under a thrust: `ball_row` turned round.

    Parameters
    ----------
    force
        Thrust [N]
    angle
        Free contact angle [rad]
    distance
        A, of the groove centres [m]
    balls
        Z [-]
    constant
        K, of both contacts of a ball in line [N/m^1.5]
    inner_growth
        Growth of the inner track's diameter [m]
    outer_growth
        Growth of the outer track's diameter [m]

    Returns
    -------
    approach
        Of the rings; at no thrust and with growth that loosens the row, the play is not counted [m]
    angle
        Contact angle under the thrust [rad]
    load
        On each ball [N]

    Valid
    -----
    As `ball_row`; an angle above nought.

    Source
    ------
    [HARRIS] ch. 7, eq. 7.33 to 7.36.

    Examples
    --------
    >>> found = ball_row_under(
    ...     17800.0, np.radians(40), distance=1.03124e-3, balls=16, constant=4.663e5 * 10**4.5
    ... )
    >>> found.approach * 1e6, found.angle * 180 / np.pi, found.load
    (35.99, 41.50, 1679.0)
    """
    across = distance * np.cos(angle) + (inner_growth - outer_growth) / 2
    along = np.hypot(distance, distance)
    for _ in range(NEWTON):
        row = _pushed(along, across, distance, balls * constant)
        along = along - (row.force - force) / np.maximum(row.stiffness, SMALLEST)
    pressed = np.maximum(np.sqrt(along**2 + across**2) - distance, 0.0)
    return Balls(
        along - distance * np.sin(angle), np.arctan2(along, across), constant * pressed**1.5
    )
