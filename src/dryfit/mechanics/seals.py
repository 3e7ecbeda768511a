"""Drag of a lip or felt on its shaft; squeeze, stretch and fill of an O-ring in its gland."""

from math import pi
from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Array, Number, Result, formula
from dryfit.mechanics.tables import read_table

TABLE = read_table("seals.toml")

DRAG = {name: value for name, value in TABLE["drag"].items() if name != "source"}
"""Push [N/m] and friction, least and greatest, by sort of seal; estimates."""

INCH = 25.4e-3
SECTIONS: Array = np.array(TABLE["gland"]["section"]) * INCH
BETWEEN: Array = (SECTIONS[:-1] + SECTIONS[1:]) / 2
DEPTHS: dict[str, Array] = {
    use: np.array(TABLE["gland"][use]) * INCH / SECTIONS[:, None] for use in ("static", "dynamic")
}
WIDTHS: Array = np.array(TABLE["gland"]["width"]) * INCH / SECTIONS[:, None]


class Gland(NamedTuple):
    """Limits of a groove: see `gland`."""

    depth_low: Result
    depth_high: Result
    width_low: Result
    width_high: Result


class Squeeze(NamedTuple):
    """How far an O-ring is pressed flat: see `oring_squeeze`."""

    amount: Result
    share: Result


@formula("0 < shaft", "0 <= lip_load", "0 <= friction")
def seal_drag(shaft: Number, lip_load: Number = 100.0, friction: Number = 0.4) -> Result:
    r"""Torque that a lip seal or felt ring takes to turn.

    .. math:: T = \mu\, q\, \pi d\, \frac d2

    Parameters
    ----------
    shaft
        d, diameter under the seal [m]
    lip_load
        q, push on the shaft per length round it; of felt, pressure times width [N/m]
    friction
        mu, of the seal on the shaft, turned by hand [-]

    Returns
    -------
    torque
        T, of one lip [N m]

    Valid
    -----
    Turned slowly, oiled, once it has broken away. `DRAG` has both values as estimates with their
    spread, a factor of two either way; a dry or new lip may double it.

    Source
    ------
    Friction; values are estimates.

    Examples
    --------
    A new seal on 45 mm:

    >>> seal_drag(0.045)
    0.127
    """
    return friction * lip_load * pi * shaft * shaft / 2


@formula("0 < section", "0 < depth")
def oring_squeeze(section: Number, depth: Number) -> Squeeze:
    r"""How far an O-ring is squeezed in its gland.

    .. math:: \Delta = w - t,\quad \varepsilon = \frac{w - t}{w}

    Parameters
    ----------
    section
        w, diameter of the cord [m]
    depth
        t, of the gland, gap included [m]

    Returns
    -------
    amount
        Delta; minus where it does not touch [m]
    share
        epsilon [-]

    Valid
    -----
    Ring not stretched; stretched by s the cord is thinner by about s/2.

    Source
    ------
    [GLAND-STATIC] and [GLAND-DYNAMIC], whose ranges it gives from the limits of cord and depth.

    Examples
    --------
    >>> oring_squeeze(3.53e-3, 2.85e-3).share
    0.193
    """
    amount = section - depth
    return Squeeze(amount, amount / section)


@formula("0 < inside", "0 < groove")
def oring_stretch(inside: Number, groove: Number) -> Result:
    r"""How far an O-ring is stretched on its groove.

    .. math:: s = \frac{d_g - d}{d}

    Parameters
    ----------
    inside
        d, of the ring as bought [m]
    groove
        d_g, diameter of the groove's floor [m]

    Returns
    -------
    stretch
        s; 0.01 to 0.03 is good, 0.05 the most; minus where it hangs loose [-]

    Valid
    -----
    Rings in a groove on a shaft or spigot.

    Source
    ------
    Definition.

    Examples
    --------
    >>> oring_stretch(24.99e-3, 25.6e-3)
    0.0244
    """
    return (groove - inside) / inside


@formula("0 < section", "0 < depth", "0 < width")
def oring_fill(section: Number, depth: Number, width: Number) -> Result:
    r"""Share of its gland that an O-ring fills.

    .. math:: f = \frac{\pi w^2}{4\, t\, b}

    Parameters
    ----------
    section
        w, diameter of the cord [m]
    depth
        t, of the gland [m]
    width
        b, of the gland [m]

    Returns
    -------
    fill
        f; at most about 0.85, else it bursts out when it swells [-]

    Valid
    -----
    Square gland, ring not swollen.

    Source
    ------
    Geometry; the limit is common practice.

    Examples
    --------
    >>> oring_fill(3.53e-3, 2.85e-3, 4.80e-3)
    0.715
    """
    return pi * section**2 / (4 * depth * width)


@formula("0.0016 <= section <= 0.0072")
def gland(section: Number, use: str = "static") -> Gland:
    r"""Depth and width of the groove that an O-ring wants.

    Taken from the nearest section of the table in proportion: :math:`t = w\, t_i/w_i`.

    Parameters
    ----------
    section
        w, diameter of the cord [m]
    use
        static, or dynamic where the ring slides [text]

    Returns
    -------
    depth_low, depth_high
        t, of the gland, gap included [m]
    width_low, width_high
        b, without backing ring [m]

    Valid
    -----
    Radial glands, cords of 1.6 to 7.2 mm, no backing ring.

    Source
    ------
    [GLAND-STATIC], [GLAND-DYNAMIC]; widths of the second from memory.

    Examples
    --------
    >>> groove = gland(3.53e-3)
    >>> groove.depth_low * 1e3, groove.depth_high * 1e3
    (2.82, 2.87)
    """
    if use not in DEPTHS:
        raise ValueError(f"use of an O-ring '{use}': there are {', '.join(DEPTHS)}")
    row = np.searchsorted(BETWEEN, section)
    depth, width = DEPTHS[use][row], WIDTHS[row]
    return Gland(
        depth[..., 0] * section,
        depth[..., 1] * section,
        width[..., 0] * section,
        width[..., 1] * section,
    )
