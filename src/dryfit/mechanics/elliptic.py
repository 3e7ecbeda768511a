"""Complete elliptic integrals and the shape of the ellipse in which two curved bodies touch."""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula

MEANS = 12
"""Steps of the arithmetic-geometric mean: enough for any complement that a float can hold."""

SHARE, STEPS = 0.64, 4
"""About ln(ellipticity) / ln(ratio), and Newton's steps from there."""

LEAST, MOST = 1.5, 2.0
"""d ln(ratio) / d ln(ellipticity) of a circle, and of an ellipse without end."""

TINY = 1e-12
"""Keeps the quotient of a circle from being nought over nought: it comes out as 1."""


class Integrals(NamedTuple):
    """Complete elliptic integrals.

    Attributes
    ----------
    first
        K, of the first kind [-].
    second
        E, of the second kind [-].
    """

    first: Result
    second: Result


def _means(complement: Number) -> tuple[Result, Result]:
    """Give K and 1 - E / K by the arithmetic-geometric mean."""
    a, b = np.ones_like(complement), np.sqrt(complement)
    share = (1 - complement) / 2
    for step in range(MEANS):
        c = (a - b) / 2
        a, b = (a + b) / 2, np.sqrt(a * b)
        share = share + 2.0**step * c * c
    return np.pi / (2 * a), share


@formula("0 < complement <= 1")
def complete_integrals(complement: Number) -> Integrals:
    r"""Complete elliptic integrals of the first and second kind, by the mean of Gauss.

    .. math:: K = \int_0^{\pi/2} \frac{d\phi}{\sqrt{1 - m \sin^2\phi}}, \quad
       E = \int_0^{\pi/2} \sqrt{1 - m \sin^2\phi}\, d\phi, \quad m = 1 - m_1

    Parameters
    ----------
    complement
        m_1, one less the parameter; for an ellipse the square of its axis ratio [-]

    Returns
    -------
    first
        K [-]
    second
        E [-]

    Valid
    -----
    0 < complement <= 1; to 14 digits.

    Source
    ------
    [ABRAMOWITZ] 17.3.1, 17.3.3, 17.6.

    Examples
    --------
    >>> first, second = complete_integrals(0.5)
    >>> first, second
    (1.854074677, 1.350643881)
    """
    first, share = _means(complement)
    return Integrals(first, first * (1 - share))


@formula("ratio >= 1")
def ellipticity(ratio: Number) -> Result:
    r"""Long over short semi-axis of the ellipse in which two curved bodies touch.

    Solved from

    .. math:: \frac{R_y}{R_x} = \frac{k^2 E - K}{K - E}, \quad m_1 = 1 / k^2

    Parameters
    ----------
    ratio
        R_y / R_x, larger over smaller effective radius in the two principal planes [-]

    Returns
    -------
    ellipticity
        k, at least 1 [-]

    Valid
    -----
    Principal planes of both bodies in line, as those of a ball in its groove are.

    Source
    ------
    [HARRIS] ch. 6, eq. 6.34 with F(rho) = (ratio - 1) / (ratio + 1).

    Examples
    --------
    >>> ellipticity(1.0)
    1.0
    >>> ellipticity(32.35)
    9.2913
    """
    wanted = np.log(ratio)
    log = SHARE * wanted
    for _ in range(STEPS):
        complement = np.exp(-2 * log)
        _, share = _means(complement)
        m, share = np.maximum(-np.expm1(-2 * log), 2 * TINY), np.maximum(share, TINY)
        found = (m - share) / (share * complement)
        grows = (complement * share + (1 - share) * (m - share)) / m
        slope = (2 * complement - grows) / (m - share) - grows / share + 2
        log = log + (wanted - np.log(found)) / np.clip(slope, LEAST, MOST)
    return np.exp(log)
