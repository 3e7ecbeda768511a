"""Two curved bodies pressed together: how hard, how wide, how deep (Hertz).

The conventions of ISO 76 and ISO 281 for steel are the defaults: E = 207 GPa, Poisson 0.3.
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.elliptic import complete_integrals, ellipticity
from dryfit.mechanics.formula import Number, Result, formula

STEEL = 207e9
"""Young's modulus of bearing steel as the standards for ratings take it (ISO 76:2006) [Pa]."""

POISSON = 0.3
"""Poisson's ratio that goes with it [-]."""


SMALLEST = 1e-300
"""Keeps the pressure of an unloaded contact from being nought over nought."""


class Curvature(NamedTuple):
    """How two bodies curve against each other.

    Attributes
    ----------
    total
        Sum of the four curvatures [1/m].
    difference
        F(rho), their difference between the two planes over their sum [-].
    """

    total: Result
    difference: Result


class Ellipse(NamedTuple):
    """Where two bodies touch under a load.

    Attributes
    ----------
    long, short
        Semi-axes [m].
    peak
        Pressure in the middle [Pa].
    """

    long: Result
    short: Result
    peak: Result


@formula("modulus > 0", "-1 < poisson <= 0.5", "other_modulus > 0", "-1 < other_poisson <= 0.5")
def contact_modulus(
    modulus: Number = STEEL,
    poisson: Number = POISSON,
    other_modulus: Number = STEEL,
    *,
    other_poisson: Number = POISSON,
) -> Result:
    r"""Modulus of a contact from those of both bodies.

    .. math:: 1 / E^* = (1 - \nu_1^2) / E_1 + (1 - \nu_2^2) / E_2

    Parameters
    ----------
    modulus
        E_1 of one body [Pa]
    poisson
        nu_1 of that body [-]
    other_modulus
        E_2 of the other body [Pa]
    other_poisson
        nu_2 of the other body [-]

    Returns
    -------
    contact_modulus
        E* [Pa]

    Valid
    -----
    Elastic, isotropic bodies.

    Source
    ------
    [HARRIS] ch. 6, eq. 6.41; [JOHNSON] eq. 4.17.

    Examples
    --------
    >>> contact_modulus() / 1e9
    113.736
    """
    return 1 / ((1 - poisson**2) / modulus + (1 - other_poisson**2) / other_modulus)


@formula("ball > 0", "0.5 < conformity", "-1 < lean < 1")
def groove_curvature(ball: Number, conformity: Number, lean: Number) -> Curvature:
    r"""Curvature of a ball in its groove.

    .. math:: \sum\rho = \frac{1}{D}\left(4 - \frac{1}{f} + \frac{2\gamma}{1 - \gamma}\right)

    Parameters
    ----------
    ball
        D, ball diameter [m]
    conformity
        f, groove radius over ball diameter [-]
    lean
        gamma, D cos(angle) / pitch diameter for an inner ring, the same with minus for an outer
        ring, nought for a thrust washer [-]

    Returns
    -------
    total
        Sum of curvatures [1/m]
    difference
        F(rho) [-]

    Valid
    -----
    conformity > 0.5, and the plane of the groove the one of less curvature, which holds for every
    ball bearing.

    Source
    ------
    [HARRIS] ch. 2, eq. 2.27 to 2.30.

    Examples
    --------
    >>> total, difference = groove_curvature(22.225e-3, 0.5232, 22.225 * 0.766 / 125.26)
    >>> total / 1e3, difference
    (0.10813, 0.9262)
    """
    across = 1 / conformity
    along = 2 * lean / (1 - lean)
    total = (4 - across + along) / ball
    return Curvature(total, (along + across) / (ball * total))


@formula("total > 0", "0 <= difference < 1", "modulus > 0")
def contact_constant(
    total: Number, difference: Number, modulus: Number = STEEL / (2 * (1 - POISSON**2))
) -> Result:
    r"""Load over the power 3/2 of the approach in a point contact.

    .. math:: Q = K \delta^{3/2}, \quad
       K^{-2/3} = \delta^* \left(\frac{3}{2 E^* \sum\rho}\right)^{2/3} \frac{\sum\rho}{2}, \quad
       \delta^* = \frac{2 \mathsf{K}}{\pi}\left(\frac{\pi}{2 k^2 \mathsf{E}}\right)^{1/3}

    Parameters
    ----------
    total
        Sum of curvatures [1/m]
    difference
        F(rho) [-]
    modulus
        E*, see `contact_modulus` [Pa]

    Returns
    -------
    constant
        K [N/m^1.5]

    Valid
    -----
    Dry, smooth, elastic; an ellipse small against the bodies.

    Source
    ------
    [HARRIS] ch. 6, eq. 6.42 and 6.35 to 6.38, with the exact ellipticity in place of its table.

    Examples
    --------
    Inner groove of a bearing of 90 mm bore:

    >>> contact_constant(108.13, 0.9262) / 10**4.5 / 1e6
    1.2934
    """
    k = ellipticity((1 + difference) / (1 - difference))
    first, second = complete_integrals(1 / k**2)
    approach = 2 * first / np.pi * np.cbrt(np.pi / (2 * k**2 * second))
    each = approach * np.cbrt(3 / (2 * modulus * total)) ** 2 * total / 2
    return each**-1.5


@formula("load >= 0", "total > 0", "0 <= difference < 1", "modulus > 0")
def contact_ellipse(
    load: Number,
    total: Number,
    difference: Number,
    *,
    modulus: Number = STEEL / (2 * (1 - POISSON**2)),
) -> Ellipse:
    r"""Semi-axes and peak pressure of a point contact.

    .. math:: a = \left(\frac{2 k^2 \mathsf{E}}{\pi}\right)^{1/3} t, \quad b = a / k, \quad
       t = \left(\frac{3 Q}{2 E^* \sum\rho}\right)^{1/3}, \quad p = \frac{3 Q}{2 \pi a b}

    Parameters
    ----------
    load
        Q [N]
    total
        Sum of curvatures [1/m]
    difference
        F(rho) [-]
    modulus
        E*, see `contact_modulus` [Pa]

    Returns
    -------
    long, short
        a [m], b [m]
    peak
        p; nothing at no load [Pa]

    Valid
    -----
    As `contact_constant`.

    Source
    ------
    [HARRIS] ch. 6, eq. 6.38 to 6.47.

    Examples
    --------
    >>> ellipse = contact_ellipse(1679.0, 108.13, 0.9262)
    >>> ellipse.long * 1e3, ellipse.short * 1e3, ellipse.peak / 1e6
    (2.0698, 0.25379, 1526.2)
    """
    k = ellipticity((1 + difference) / (1 - difference))
    _, second = complete_integrals(1 / k**2)
    scale = np.cbrt(3 * load / (2 * modulus * total))
    long = np.cbrt(2 * k**2 * second / np.pi) * scale
    short = long / k
    peak = 1.5 * load / (np.pi * np.maximum(long * short, SMALLEST))
    return Ellipse(long, short, peak)


@formula("inner > 0", "outer > 0")
def contacts_in_line(inner: Number, outer: Number) -> Result:
    r"""Constant of two point contacts that carry one load, as a ball between two rings.

    .. math:: K = (K_i^{-2/3} + K_o^{-2/3})^{-3/2}

    Parameters
    ----------
    inner, outer
        K of each [N/m^1.5]

    Returns
    -------
    constant
        K of both [N/m^1.5]

    Valid
    -----
    As `contact_constant`.

    Source
    ------
    [HARRIS] ch. 7, eq. 7.7.

    Examples
    --------
    Two alike are softer by the power 3/2 of two:

    >>> contacts_in_line(2.0**1.5, 2.0**1.5)
    1.0
    """
    return (inner ** (-2 / 3) + outer ** (-2 / 3)) ** -1.5
