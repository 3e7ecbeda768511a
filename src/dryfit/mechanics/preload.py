"""Two sides of rows preloaded against each other: what one shared preload does and how heavy it is.

A side is a number of equal rows that face the same way. Angles are taken as fixed here; their real
growth is in `ball_rows`.
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula


@formula("loaded > 0", "opposed > 0", "power >= 1", "compliance > 0")
def relief_ratio(
    loaded: Number, opposed: Number, power: Number = 1.5, *, compliance: Number = 1.0
) -> Result:
    r"""Load that just frees the opposed rows, over the preload of the set.

    .. math:: \frac{F}{F_0} = n_1\left(n_1^{-1/p} + r\, n_2^{-1/p}\right)^p

    Parameters
    ----------
    loaded
        n_1, rows on the side that the load pushes further in [-]
    opposed
        n_2, rows on the other side [-]
    power
        p, of the approach in the force: 3/2 for balls, 10/9 for rollers [-]
    compliance
        r, approach of an opposed row over that of a loaded one at the same force; of balls at other
        angles (sin(angle loaded) / sin(angle opposed))^(5/3) [-]

    Returns
    -------
    ratio
        F / F_0 [-]

    Valid
    -----
    Rigid rings, contact angles that stay; a pair of 15 degrees really holds to 3.1 to 3.9, one of
    25 degrees to 2.9 to 3.3.

    Source
    ------
    Closed form of two springs with force as a power of the approach.

    Examples
    --------
    >>> relief_ratio(1, 1), relief_ratio(1, 1, 10 / 9)
    (2.8284, 2.1601)
    """
    each = loaded ** (-1 / power) + compliance * opposed ** (-1 / power)
    return loaded * each**power


@formula("one > 0", "other > 0", "power >= 1")
def set_preload_ratio(one: Number, other: Number, power: Number = 1.5) -> Result:
    r"""Preload of a set over that of a pair of the same bearings, ground to the same stand-out.

    .. math:: \frac{F}{F_2} = \left(\frac{2}{n_1^{-1/p} + n_2^{-1/p}}\right)^p

    Parameters
    ----------
    one, other
        n_1, n_2, rows that face either way [-]
    power
        p, of the approach in the force: 3/2 for balls, 10/9 for rollers [-]

    Returns
    -------
    ratio
        F / F_2 [-]

    Valid
    -----
    As `relief_ratio`.

    Source
    ------
    Closed form: the sides share the same total approach.

    Examples
    --------
    Two against one; two against two:

    >>> set_preload_ratio(2, 1), set_preload_ratio(2, 2)
    (1.3592, 2.0)
    """
    return (2 / (one ** (-1 / power) + other ** (-1 / power))) ** power


class PreloadClass(NamedTuple):
    """One word for a preload.

    Attributes
    ----------
    name
        The trade's word.
    up_to
        Largest sum of ball loads over the dynamic rating C that it is used for [-].
    """

    name: str
    up_to: float


PRELOAD_CLASSES = (
    PreloadClass("none", 0.002),
    PreloadClass("light", 0.036),
    PreloadClass("medium", 0.09),
    PreloadClass("heavy", 0.20),
    PreloadClass("harmful", np.inf),
)
"""Estimate, guided by common practice: precision ball pairs are preloaded so that the loads of all
balls of a row add up to about 2, 6 and 12 % of C for light, medium and heavy, whatever the angle;
the limits lie midway, as ratios, and beyond 20 % the balls are loaded as by hard work at rest."""


@formula("force >= 0", "0 < angle <= pi/2", "rating > 0")
def preload_share(force: Number, angle: Number, rating: Number) -> Result:
    r"""Sum of the ball loads of a preloaded row over its dynamic rating.

    .. math:: s = \frac{F}{C \sin\alpha}

    Parameters
    ----------
    force
        F, preload along the axis on the row [N]
    angle
        alpha, contact angle [rad]
    rating
        C, dynamic rating of the row [N]

    Returns
    -------
    share
        s; in words by `PRELOAD_CLASSES` [-]

    Valid
    -----
    Angular contact, deep groove at its free angle, thrust balls.

    Source
    ------
    Statics for the sum; the classes are common practice, no source.

    Examples
    --------
    180 N on a row of 40 mm bore at 25 degrees are light:

    >>> preload_share(180.0, np.radians(25), 20270.0)
    0.0210
    """
    return force / (rating * np.sin(angle))


@formula("share >= 0")
def preload_class(share: Number) -> str:
    """Word for a preload.

    Parameters
    ----------
    share
        From `preload_share` [-]

    Returns
    -------
    name
        none, light, medium, heavy or harmful [text]

    Valid
    -----
    share >= 0.

    Source
    ------
    Common practice, no source: see `PRELOAD_CLASSES`.

    Examples
    --------
    >>> preload_class(0.021), preload_class(0.5)
    ('light', 'harmful')
    """
    return next(one.name for one in PRELOAD_CLASSES if share <= one.up_to)
