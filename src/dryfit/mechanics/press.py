"""Putting rings on and taking them off: force, torque, heat, and drawing off as they cool."""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula

HOTTEST_RING = 393.15
"""No bearing is made hotter than 120 C, above which its steel may lose hardness and size
([NEALE] A22.9) [K]."""

HOTTEST_FILLED_RING = 353.15
"""With seals, grease or a plastic cage 80 C (common practice, no source) [K]."""

HOTTEST_PLAIN_RING = 473.15
"""How warm a spacer, collar or other plain ring of steel is made at most, before it lets its temper
down [K]: common practice, no source."""


class Friction(NamedTuple):
    """Friction in a joint.

    Attributes
    ----------
    usual
        Coefficient to reckon with [-].
    low
        Oiled or lucky [-].
    high
        Dry, or long together [-].
    source
        Where from.
    """

    usual: float
    low: float
    high: float
    source: str


_PRACTICE = "common practice, no source"

FRICTION: dict[str, Friction] = {
    "press on": Friction(0.12, 0.08, 0.16, _PRACTICE),
    "pull off": Friction(0.18, 0.12, 0.25, _PRACTICE),
    "press on a taper": Friction(0.17, 0.12, 0.22, _PRACTICE),
    "pull off a taper": Friction(0.14, 0.10, 0.20, _PRACTICE),
    "drive a sleeve in": Friction(0.30, 0.20, 0.35, _PRACTICE),
    "drive a sleeve out": Friction(0.33, 0.20, 0.40, _PRACTICE),
    "slide": Friction(0.12, 0.06, 0.20, _PRACTICE),
}
"""By what is done; ground steel, lightly oiled."""


@formula("pressure >= 0", "diameter > 0", "length >= 0", "friction >= 0")
def slip_force(pressure: Number, diameter: Number, length: Number, *, friction: Number) -> Result:
    r"""Force along the axis that moves a joint: pressing on, pulling off, seating a ring.

    .. math:: F = \mu\, p\, \pi\, d\, L

    Parameters
    ----------
    pressure
        p, of the joint (`press_pressure`) [Pa]
    diameter
        d, of the joint [m]
    length
        L, over which the parts touch; while pressing on, that much of it [m]
    friction
        mu, as in `FRICTION` [-]

    Returns
    -------
    force
        F [N]

    Valid
    -----
    Parallel joint. Friction is known to a third at best; a force half as high again as expected
    means that the joint seizes or is askew.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 7-48.

    Examples
    --------
    A ring of 40 mm bore, 18 mm wide, at 9.36 MPa:

    >>> slip_force(9.36e6, 0.040, 0.018, friction=0.12)
    2540.6
    """
    return friction * pressure * np.pi * diameter * length


@formula("pressure >= 0", "diameter > 0", "length >= 0", "friction >= 0")
def slip_torque(pressure: Number, diameter: Number, length: Number, *, friction: Number) -> Result:
    r"""Torque at which a joint slips round.

    .. math:: T = F d / 2

    Parameters
    ----------
    pressure
        p, of the joint (`press_pressure`) [Pa]
    diameter
        d, of the joint [m]
    length
        L, over which the parts touch [m]
    friction
        mu, as in `FRICTION` [-]

    Returns
    -------
    torque
        T [N m]

    Valid
    -----
    As `slip_force`; no force along the axis at the same time.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 7-49.

    Examples
    --------
    >>> slip_torque(9.36e6, 0.040, 0.018, friction=0.12)
    50.81
    """
    return slip_force(pressure, diameter, length, friction=friction) * diameter / 2


@formula("diameter > 0", "expansion > 0")
def rise_to_slip_on(
    interference: Number, diameter: Number, expansion: Number, *, clearance: Number = 0.0
) -> Result:
    r"""How much warmer than its shaft a ring must be to slip on.

    .. math:: \Delta T = \frac{\delta + s}{\alpha d}

    Parameters
    ----------
    interference
        delta, cold [m]
    diameter
        d, of the joint [m]
    expansion
        alpha, of the ring; with the shaft cooled instead, of the shaft [1/K]
    clearance
        s, wanted while it is slipped on [m]

    Returns
    -------
    rise
        Delta T; minus: it goes on cold [K]

    Valid
    -----
    The ring heated through. Room and rise together at most `HOTTEST_RING`; what that does not do is
    done by pressing or by cooling the shaft.

    Source
    ------
    Definition of the coefficient of expansion.

    Examples
    --------
    A ring of 60 mm at 36 um, 30 um to be free by:

    >>> rise_to_slip_on(36e-6, 0.060, 12e-6, clearance=30e-6)
    91.67
    """
    return (interference + clearance) / expansion / diameter


class DrawOff(NamedTuple):
    """How far a ring fitted hot may end up from its shoulder.

    Attributes
    ----------
    even
        If it was warm evenly, at most [m].
    most
        Whatever grips first, at most [m].
    """

    even: Result
    most: Result


@formula("width >= 0", "interference >= 0", "diameter > 0", "expansion >= 0", "rise >= 0")
def draw_off(
    width: Number, interference: Number, diameter: Number, *, expansion: Number, rise: Number
) -> DrawOff:
    r"""How far a ring fitted hot draws off its shoulder when it grips before it is cold.

    An even ring grips when what is left of the rise just holds its bore open; the end away from the
    shoulder may hold while the rest still shortens:

    .. math:: b = B \delta / d, \quad b_{max} = \alpha\, \Delta T\, B

    Parameters
    ----------
    width
        B, of the ring [m]
    interference
        delta, cold [m]
    diameter
        d, of the joint [m]
    expansion
        alpha, of the ring [1/K]
    rise
        Delta T, ring above shaft when it was put on [K]

    Returns
    -------
    even
        b [m]
    most
        b_max [m]

    Valid
    -----
    A ring left to itself; one that is pressed or nutted home until it is cold stays home.

    Source
    ------
    Ours: expansion along the axis from the moment of gripping. That a ring must be seen to be home
    after it is cold: [NEALE] A22.9.

    Examples
    --------
    A ring 20 mm wide on 50 mm, 12 um tight, put on 90 K warmer:

    >>> off = draw_off(0.020, 12e-6, 0.050, expansion=12e-6, rise=90)
    >>> off.even * 1e6, off.most * 1e6
    (4.8, 21.6)
    """
    return DrawOff(width * interference / diameter, expansion * rise * width)
