"""What is inside a bearing, estimated from its bore, outside and width when nobody can look.

The fillings are those of ordinary makes of all countries; they are estimates, and each has a
spread that goes into the draws.
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula


class Filling(NamedTuple):
    """How bearings of a kind are filled.

    Attributes
    ----------
    share
        Diameter of ball or roller over outside less bore [-].
    first, arc
        Count: `first` and as many as lie on `arc`, rounded down [-], [rad].
    spread
        Half width of the diameter's rectangle, relative [-].
    count_spread
        Half width of the count's rectangle, relative [-].
    conformity, conformity_spread
        Groove radius over ball diameter and half the width of its rectangle [-].
    length
        Effective length of a roller over the width of the cone; nought for balls [-].
    """

    share: float
    first: float
    arc: float
    spread: float
    count_spread: float
    conformity: float
    conformity_spread: float
    length: float = 0.0


FILLINGS = {
    "deep groove": Filling(0.295, 1.0, 3.4, 0.05, 0.06, 0.5175, 0.0060),
    "angular contact": Filling(0.295, 0.5, 5.65, 0.08, 0.12, 0.5200, 0.0060),
    "thrust ball": Filling(0.320, 0.5, 5.65, 0.12, 0.12, 0.5350, 0.0100),
    "taper": Filling(0.250, 0.5, 5.65, 0.10, 0.12, 0.0, 0.0, 0.65),
}
"""Estimates of ours, except that balls fill some 195 degrees of a groove without filling slot, or
nine tenths of the whole ring where one shoulder is ground away."""


class Internals(NamedTuple):
    """Balls or rollers of a row.

    Attributes
    ----------
    diameter
        Of a ball, or of a roller at its middle [m].
    pitch
        Diameter of the circle of their centres [m].
    count
        How many [-].
    """

    diameter: Result
    pitch: Result
    count: Result


@formula("0 < bore < outside", "width > 0", "0 < share < 0.5", "first >= 0", "arc > 0", "cap > 0")
def estimated_internals(
    bore: Number,
    outside: Number,
    width: Number,
    *,
    share: Number,
    first: Number,
    arc: Number,
    cap: Number = 0.67,
) -> Internals:
    r"""Diameter, circle and number of the balls or rollers of a bearing nobody has opened.

    .. math:: D = \min(s\,(d_o - d_b), c\,B), \quad d_m = (d_o + d_b) / 2, \quad
       Z = \left\lfloor z_1 + \frac{\phi}{2 \arcsin(D / d_m)} \right\rfloor

    Parameters
    ----------
    bore
        d_b [m]
    outside
        d_o [m]
    width
        B, of one row [m]
    share
        s, of `FILLINGS` [-]
    first
        z_1, of `FILLINGS` [-]
    arc
        phi, of `FILLINGS` [rad]
    cap
        c, largest diameter over the width [-]

    Returns
    -------
    diameter
        D [m]
    pitch
        d_m [m]
    count
        Z [-]

    Valid
    -----
    Metric and inch series of usual proportion; not needle, not full complement.

    Source
    ------
    Estimate, checked on bearings whose balls are published.

    Examples
    --------
    25 x 52 x 15 mm:

    >>> balls = estimated_internals(25e-3, 52e-3, 15e-3, share=0.295, first=1.0, arc=3.4)
    >>> balls.diameter * 1e3, balls.pitch * 1e3, balls.count
    (7.965, 38.5, 9.0)
    """
    diameter = np.minimum(share * (outside - bore), cap * width)
    pitch = (outside + bore) / 2
    count = np.floor(first + arc / (2 * np.arcsin(diameter / pitch)))
    return Internals(diameter, pitch, count)
