"""Dynamic and static rating of ball bearings from their balls (ISO 281, ISO 76).

The formulas of the standards have constants in newton and millimetre.
"""

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.tables import read_table
from dryfit.quantities.finding import Range

_TABLE = read_table("ratings.toml")

B_M = 1.3
"""b_m, today's steel and make, for all ball bearings but those with filling slots."""

MEGA = 1e6
"""N/mm^2 in pascal."""

STEEP = Range("angle", np.pi / 4, np.pi / 2, "rad", "ISO 281:2007, 5.1")
"""What counts as a thrust bearing."""

FLAT = np.radians(89.9)
"""From here on a contact angle is the 90 degrees of a thrust bearing [rad]."""

LARGE = 25.4
"""Ball diameter above which the power changes [mm]."""


def _factor(name: str, lean: Number, first: int) -> Result:
    """Read a table by its steps of 0.01, straight between them."""
    column = np.array(_TABLE[name])
    return np.interp(lean, (np.arange(len(column)) + first) / 100, column)


@formula("0.01 <= lean <= 0.4")
def dynamic_factor(lean: Number) -> Result:
    """Factor f_c of a radial or angular contact ball bearing.

    Parameters
    ----------
    lean
        D cos(angle) / pitch diameter [-]

    Returns
    -------
    factor
        f_c, for N and mm [-]

    Valid
    -----
    0.01 <= lean <= 0.4, grooves of usual conformity (0.52 inner, 0.53 outer at most); N and mm.

    Source
    ------
    [ISO281] table 2.

    Examples
    --------
    >>> dynamic_factor(0.07)
    51.1
    """
    return _factor("dynamic_radial", lean, 1)


@formula("0.01 <= lean <= 0.2")
def dynamic_thrust_factor(lean: Number) -> Result:
    """Factor f_c of a thrust ball bearing of 90 degrees.

    Parameters
    ----------
    lean
        D / pitch diameter [-]

    Returns
    -------
    factor
        f_c, for N and mm [-]

    Valid
    -----
    0.01 <= lean <= 0.2; N and mm.

    Source
    ------
    [ISO281] table 4, from memory.

    Examples
    --------
    >>> dynamic_thrust_factor(0.12)
    77.4
    """
    return _factor("dynamic_thrust", lean, 1)


@formula("0 <= lean <= 0.4")
def static_factor(lean: Number) -> Result:
    """Factor f_0 of a radial or angular contact ball bearing.

    Parameters
    ----------
    lean
        D cos(angle) / pitch diameter [-]

    Returns
    -------
    factor
        f_0 [Pa]

    Valid
    -----
    0 <= lean <= 0.4. The table stands in N/mm^2.

    Source
    ------
    [ISO76] table 1.

    Examples
    --------
    >>> static_factor(0.07) / 1e6
    16.1
    """
    return _factor("static_radial", lean, 0) * MEGA


@formula("0 <= lean <= 0.19")
def static_thrust_factor(lean: Number) -> Result:
    """Factor f_0 of a thrust ball bearing.

    Parameters
    ----------
    lean
        D cos(angle) / pitch diameter [-]

    Returns
    -------
    factor
        f_0 [Pa]

    Valid
    -----
    0 <= lean <= 0.19. The table stands in N/mm^2.

    Source
    ------
    [ISO76] table 1, from memory.

    Examples
    --------
    >>> static_thrust_factor(0.046) / 1e6
    57.82
    """
    return _factor("static_thrust", lean, 0) * MEGA


def _size_term(ball: Number) -> Result:
    """Give D^1.8 in millimetres, and the other power for large balls."""
    millimetres = ball * 1e3
    return np.where(millimetres <= LARGE, millimetres**1.8, 3.647 * millimetres**1.4)


@formula("factor > 0", "ball > 0", "balls > 0", "0 <= angle < pi/2", "rows >= 1")
def dynamic_rating(
    factor: Number, ball: Number, balls: Number, *, angle: Number = 0.0, rows: Number = 1
) -> Result:
    r"""Dynamic radial rating C of a ball bearing.

    .. math:: C = b_m f_c (i \cos\alpha)^{0.7} Z^{2/3} D^{1.8}

    Parameters
    ----------
    factor
        f_c, from `dynamic_factor` [-]
    ball
        D, ball diameter [m]
    balls
        Z, in each row [-]
    angle
        alpha, contact angle [rad]
    rows
        i [-]

    Returns
    -------
    rating
        C [N]

    Valid
    -----
    Deep groove and angular contact. The constants stand in N and mm; above 25.4 mm the ball counts
    as 3.647 D^1.4.

    Source
    ------
    [ISO281] eq. 1 and 2.

    Examples
    --------
    >>> round(dynamic_rating(51.1, 7.5e-3, 27, angle=np.radians(40)))
    18651
    """
    lean = (rows * np.cos(angle)) ** 0.7
    return B_M * factor * lean * balls ** (2 / 3) * _size_term(ball)


@formula("factor > 0", "ball > 0", "balls > 0", "0 < angle <= pi/2", ranges=(STEEP,))
def dynamic_thrust_rating(
    factor: Number, ball: Number, balls: Number, *, angle: Number = np.pi / 2
) -> Result:
    r"""Dynamic axial rating C_a of a single row thrust ball bearing.

    .. math:: C_a = b_m f_c (\cos\alpha)^{0.7} \tan\alpha\, Z^{2/3} D^{1.8}, \quad
       C_a = b_m f_c Z^{2/3} D^{1.8} \text{ at } 90^\circ

    Parameters
    ----------
    factor
        f_c for this angle [-]
    ball
        D, ball diameter [m]
    balls
        Z [-]
    angle
        alpha, contact angle [rad]

    Returns
    -------
    rating
        C_a [N]

    Valid
    -----
    Contact angles of 45 degrees and more. The constants stand in N and mm.

    Source
    ------
    [ISO281] eq. 8 to 11.

    Examples
    --------
    >>> round(dynamic_thrust_rating(61.12, 7.5e-3, 27, angle=np.radians(60)))
    28663
    """
    lean = np.where(angle >= FLAT, 1.0, np.cos(angle) ** 0.7 * np.tan(angle))
    return B_M * factor * lean * balls ** (2 / 3) * _size_term(ball)


@formula("rating > 0", "0 < angle < pi/2")
def axial_of_radial_rating(rating: Number, angle: Number) -> Result:
    r"""Dynamic axial rating of an angular contact bearing from its radial one.

    .. math:: C_a = 1.91 \tan\alpha\,(1 - 0.333 \sin\alpha)\, C

    Parameters
    ----------
    rating
        C, see `dynamic_rating` [N]
    angle
        alpha, contact angle [rad]

    Returns
    -------
    rating
        C_a, for comparison with thrust bearings [N]

    Valid
    -----
    Angular contact ball bearings up to 45 degrees.

    Source
    ------
    [ISO281] annex: discontinuity at 45 degrees, example 2 as printed in GOST 18855-2013.

    Examples
    --------
    >>> round(axial_of_radial_rating(18651.0, np.radians(40)))
    23493
    """
    return 1.91 * np.tan(angle) * (1 - 0.333 * np.sin(angle)) * rating


@formula("factor > 0", "ball > 0", "balls > 0", "0 <= angle < pi/2", "rows >= 1")
def static_rating(
    factor: Number, ball: Number, balls: Number, *, angle: Number = 0.0, rows: Number = 1
) -> Result:
    r"""Static radial rating C_0 of a ball bearing.

    .. math:: C_0 = f_0\, i\, Z D^2 \cos\alpha

    Parameters
    ----------
    factor
        f_0, from `static_factor` [Pa]
    ball
        D, ball diameter [m]
    balls
        Z, in each row [-]
    angle
        alpha, contact angle [rad]
    rows
        i [-]

    Returns
    -------
    rating
        C_0 [N]

    Valid
    -----
    Deep groove and angular contact.

    Source
    ------
    [ISO76] eq. 1.

    Examples
    --------
    >>> round(static_rating(16.1e6, 7.5e-3, 27, angle=np.radians(40)))
    18731
    """
    return factor * rows * balls * ball**2 * np.cos(angle)


@formula("factor > 0", "ball > 0", "balls > 0", "0 < angle <= pi/2")
def static_thrust_rating(
    factor: Number, ball: Number, balls: Number, *, angle: Number = np.pi / 2
) -> Result:
    r"""Static axial rating C_0a of a single row thrust ball bearing.

    .. math:: C_{0a} = f_0 Z D^2 \sin\alpha

    Parameters
    ----------
    factor
        f_0, from `static_thrust_factor` [Pa]
    ball
        D, ball diameter [m]
    balls
        Z [-]
    angle
        alpha, contact angle [rad]

    Returns
    -------
    rating
        C_0a [N]

    Valid
    -----
    Thrust ball bearings.

    Source
    ------
    [ISO76] eq. 3.

    Examples
    --------
    >>> round(static_thrust_rating(57.82e6, 7.5e-3, 27, angle=np.radians(60)))
    76049
    """
    return factor * balls * ball**2 * np.sin(angle)
