"""How hard a preloaded bearing turns: the first tug and the steady pull, without seals.

Seals have their own module, for a seal may drag ten times as much as a bearing.
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.elliptic import complete_integrals
from dryfit.mechanics.formula import Number, Result, formula

SPREAD = 2.0
"""Factor either way within which a real torque lies: common practice, no source."""


class Rolling(NamedTuple):
    """Rolling friction of a kind of bearing.

    Attributes
    ----------
    factor, power
        z and y of `load_torque` [-].
    oil
        f_0 of `oil_torque`, grease [-].
    """

    factor: float
    power: float
    oil: float


ROLLING = {
    "deep groove": Rolling(0.0009, 0.55, 2.0),
    "angular contact": Rolling(0.001, 0.33, 2.0),
    "thrust ball": Rolling(0.0012, 0.33, 2.0),
    "taper": Rolling(0.0004, 0.0, 6.0),
}
"""ISO/TR 14179-1 and the textbook of Harris, from memory."""


@formula("force >= 0", "pitch > 0", "static_load >= 0", "rating > 0", "factor > 0", "power >= 0")
def load_torque(
    force: Number,
    pitch: Number,
    *,
    static_load: Number,
    rating: Number,
    factor: Number,
    power: Number,
) -> Result:
    r"""Steady torque of a bearing that comes from its load.

    .. math:: M_1 = z \left(\frac{P_0}{C_0}\right)^y P_1\, d_m

    Parameters
    ----------
    force
        P_1: deep groove 3.3 F_a, angular contact F_a (pair 1.4 F_a), taper 2 Y F_a, thrust F_a [N]
    pitch
        d_m, diameter of the circle of the balls [m]
    static_load
        P_0, equivalent static load [N]
    rating
        C_0 [N]
    factor
        z, of `ROLLING` [-]
    power
        y, of `ROLLING` [-]

    Returns
    -------
    torque
        M_1 [N m]

    Valid
    -----
    Well run in, turning slowly, no seals; a factor `SPREAD` either way.

    Source
    ------
    [ISO14179] 1, from memory; [HARRIS] ch. 14.

    Examples
    --------
    >>> load_torque(
    ...     500.0, 60e-3, static_load=500.0, rating=17900.0, factor=0.0009, power=0.5
    ... ) * 1e3
    4.512
    """
    return factor * (static_load / rating) ** power * force * pitch


@formula("viscosity >= 0", "speed >= 0", "pitch > 0", "factor > 0")
def oil_torque(viscosity: Number, speed: Number, pitch: Number, *, factor: Number) -> Result:
    r"""Steady torque of a bearing that comes from its oil or the oil of its grease.

    .. math:: M_0 = 10^{-7} f_0 \max\left((\nu n)^{2/3}, 160\right) d_m^3

    Parameters
    ----------
    viscosity
        nu, at the temperature of the bearing [m^2/s]
    speed
        n, of the shaft [rad/s]
    pitch
        d_m, diameter of the circle of the balls [m]
    factor
        f_0, of `ROLLING` [-]

    Returns
    -------
    torque
        M_0 [N m]

    Valid
    -----
    The constants stand in mm^2/s, rpm, mm and N mm. Grease after some hours of running; when fresh
    it may give three times as much.

    Source
    ------
    [HARRIS] ch. 14, after Palmgren; [ISO14179] 1 (from memory).

    Examples
    --------
    >>> oil_torque(100e-6, 2000 * np.pi / 30, 60e-3, factor=2.0) * 1e3
    147.7
    """
    turned = viscosity * 1e6 * speed * 30 / np.pi
    stirred = np.maximum(np.cbrt(turned) ** 2, 160.0)
    return 1e-10 * factor * stirred * (pitch * 1e3) ** 3


@formula("load >= 0", "0 < short <= long", "balls > 0", "0 <= angle <= pi/2", "friction >= 0")
def ball_starting_torque(
    load: Number,
    long: Number,
    short: Number,
    *,
    balls: Number,
    angle: Number,
    friction: Number = 0.15,
) -> Result:
    r"""First tug of a ball bearing under thrust: every ball spins on its track.

    .. math:: M = Z \sin\alpha \cdot \tfrac38 \mu\, Q\, a\, \mathsf{E}

    Parameters
    ----------
    load
        Q, on each ball [N]
    long
        a, long semi-axis of the inner contact [m]
    short
        b, its short semi-axis [m]
    balls
        Z [-]
    angle
        alpha, contact angle [rad]
    friction
        mu, of the dry or barely oiled contact [-]

    Returns
    -------
    torque
        M [N m]

    Valid
    -----
    Before the balls roll; the steady pull is some 2.6 times less (common practice).

    Source
    ------
    [HARRIS] ch. 14, spin of an elliptic contact. The friction is common practice, no source.

    Examples
    --------
    >>> ball_starting_torque(20.0, 0.3e-3, 0.04e-3, balls=18, angle=np.radians(15)) * 1e3
    1.6131
    """
    _, second = complete_integrals((short / long) ** 2)
    return balls * np.sin(angle) * 0.375 * friction * load * long * second


@formula("force >= 0", "rib > 0", "0 <= lean < pi/2", "friction >= 0")
def taper_starting_torque(
    force: Number, rib: Number, lean: Number, friction: Number = 0.20
) -> Result:
    r"""First tug of a taper bearing under thrust: the rollers' ends rub on the rib.

    .. math:: M = e\, \mu\, F_a \cos\beta

    Parameters
    ----------
    force
        F_a, preload along the axis [N]
    rib
        e, height of the rubbing point on the rib above the cone's track [m]
    lean
        beta, half the angle of the roller's own cone [rad]
    friction
        mu, of roller end and rib before they turn [-]

    Returns
    -------
    torque
        M [N m]

    Valid
    -----
    Before it turns well, below some 30 rpm; the pull falls as oil gets under the rollers' ends.

    Source
    ------
    Statics of the rib. The friction is common practice, no source.

    Examples
    --------
    >>> taper_starting_torque(1000.0, 1.5e-3, np.radians(2))
    0.2998
    """
    return rib * friction * force * np.cos(lean)
