"""What holds a bearing or pack endways and gives: covers, retaining rings, gaskets.

A cover is a plate spring between its bolts and its spigot. Springs have their own module.
"""

from math import pi
from typing import NamedTuple, TypeVar

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.tables import read_table

STEEL = 206e9
"""Young's modulus of steel [Pa]."""

GASKET: dict[str, tuple[float, float]] = {
    name: (value[0], value[1])
    for name, value in read_table("holders.toml")["gasket"].items()
    if name != "source"
}
"""Least and greatest share of its thickness that a sheet loses under 7 MPa."""

Row = TypeVar("Row")

Edge = tuple[Number, Number, Number]
"""p, q, s of the condition p A + q B = s at an edge of a plate."""


class PlateSpring(NamedTuple):
    """A cover as a spring: see `cover_spring`."""

    stiffness: Result
    give: Result


class Play(NamedTuple):
    """Least and greatest play."""

    low: Result
    high: Result


@formula("0 < spigot < bolt_circle", "0 < thickness", "0 < modulus", "0 <= poisson <= 0.5")
def cover_spring(
    bolt_circle: Number,
    spigot: Number,
    thickness: Number,
    *,
    outer: str = "supported",
    inner: str = "solid",
    modulus: Number = STEEL,
    poisson: Number = 0.3,
) -> PlateSpring:
    r"""Stiffness of a cover between its bolts and the spigot that pushes.

    Thin flat plate under a ring load. With :math:`x = r/a`, :math:`\beta = b/a` and plate
    stiffness :math:`D = E t^3/12(1-\nu^2)` the slope is

    .. math:: \frac{dw}{dr} = \frac{F a}{4\pi D}\left(x\ln x + A x + \frac{B}{x}\right)

    A and B follow from the edges, and the travel from the integral between them:

    .. math:: \frac{w}{F} = \frac{a^2}{4\pi D}\left[\tfrac12\beta^2\ln\beta
        + \tfrac14(1-\beta^2) - \tfrac12 A(1-\beta^2) + B\ln\beta\right]

    Parameters
    ----------
    bolt_circle
        2 a, diameter on which the screws sit [m]
    spigot
        2 b, mean diameter of the spigot's face [m]
    thickness
        t, of the plate between them [m]
    outer
        At the bolts: supported (free to tilt: the flange rocks) or clamped (held flat) [text]
    inner
        At the spigot: solid (plate goes on across the middle), free (big hole) or guided (a stiff
        boss that cannot tilt) [text]
    modulus
        E, Young's modulus; about 100e9 for grey iron [Pa]
    poisson
        nu, Poisson's ratio [-]

    Returns
    -------
    stiffness
        Push at the spigot over its travel [N/m]
    give
        w/F, the other way up [m/N]

    Valid
    -----
    Flat, even plate, thinner than a quarter of the distance from bolts to spigot. The truth lies
    between supported and clamped; a real cover is told within a factor of two.

    Source
    ------
    Plate equation solved; agrees with [PLATES] cases 1, 4, 8 and 9.

    Examples
    --------
    A 6 mm steel cover, bolts on 90 mm, spigot 60 mm, in N/um:

    >>> cover_spring(0.090, 0.060, 0.006).stiffness / 1e6
    181.8
    """
    radius, ratio = bolt_circle / 2, spigot / bolt_circle
    plate = modulus * thickness**3 / (12 * (1 - poisson**2))
    p1, q1, s1 = _choose(_outer_edges(poisson), outer, "outer edge")
    p2, q2, s2 = _choose(_inner_edges(ratio, poisson), inner, "inner edge")
    det = p1 * q2 - p2 * q1
    A, B = (s1 * q2 - s2 * q1) / det, (p1 * s2 - p2 * s1) / det
    log, rim = np.log(ratio), 1 - ratio**2
    travel = ratio**2 / 2 * log + rim / 4 - A * rim / 2 + B * log
    give = radius**2 * travel / (4 * pi * plate)
    return PlateSpring(1 / give, give)


def _outer_edges(poisson: Number) -> dict[str, Edge]:
    return {"supported": (1 + poisson, poisson - 1, -1.0), "clamped": (1.0, 1.0, 0.0)}


def _inner_edges(ratio: Number, poisson: Number) -> dict[str, Edge]:
    log, square = np.log(ratio), ratio**2
    return {
        "solid": (0.0, 1.0, square / 2),
        "free": (1 + poisson, (poisson - 1) / square, -1 - (1 + poisson) * log),
        "guided": (1.0, 1 / square, -log),
    }


def _choose(rows: dict[str, Row], word: str, what: str) -> Row:
    if word not in rows:
        raise ValueError(f"{what} '{word}': there are {', '.join(rows)}")
    return rows[word]


@formula("0 < ring_low <= ring_high", "0 < groove_low <= groove_high")
def ring_play(
    groove_low: Number, groove_high: Number, *, ring_low: Number, ring_high: Number
) -> Play:
    r"""Endways play of a retaining ring in its groove.

    .. math:: s_{low} = m_{low} - t_{high},\quad s_{high} = m_{high} - t_{low}

    Parameters
    ----------
    groove_low, groove_high
        m, width of the groove [m]
    ring_low, ring_high
        t, thickness of the ring [m]

    Returns
    -------
    low, high
        s; minus means that the ring does not go in [m]

    Valid
    -----
    Flat ring, groove walls square.

    Source
    ------
    Subtraction; usual sizes in [DIN471].

    Examples
    --------
    A ring of 1.2 mm (-0.06) in a groove of 1.3 mm (+0.14), in mm:

    >>> play = ring_play(1.30e-3, 1.44e-3, ring_low=1.14e-3, ring_high=1.20e-3)
    >>> play.low * 1e3, play.high * 1e3
    (0.10, 0.30)
    """
    return Play(groove_low - ring_high, groove_high - ring_low)


@formula("0 < groove_diameter", "0 < width", "0 < thickness", "0 < lever", "0 < modulus")
def ring_stiffness(
    groove_diameter: Number,
    width: Number,
    thickness: Number,
    *,
    lever: Number,
    modulus: Number = STEEL,
) -> Result:
    r"""Stiffness of a retaining ring that tilts in its groove under a push.

    A ring of rectangular section turned inside out by the couple of push and groove edge:

    .. math:: k = \frac{\pi E t^3}{6 h^2}\ln\left(1 + \frac{2b}{d_2}\right)

    Parameters
    ----------
    groove_diameter
        d2, of the groove's floor on a shaft; in a bore, of the ring's inside [m]
    width
        b, mean radial width of the ring [m]
    thickness
        t, of the ring [m]
    lever
        h, from the edge of the groove out to where the part pushes: its chamfer or radius [m]
    modulus
        E, Young's modulus [Pa]

    Returns
    -------
    stiffness
        k, push over travel of the part [N/m]

    Valid
    -----
    Counted as a closed ring; with its gap and uneven width it is told within a factor of two. A
    sharp corner pressed on the groove edge hardly tilts it: then the groove's own give decides.

    Source
    ------
    [TIMOSHENKO] Strength of Materials II, ring turned by an even couple; same as the dishing
    constant of [DIN471], from memory.

    Examples
    --------
    Ring of a 40 mm shaft under a bearing with 1 mm chamfer, in N/um:

    >>> ring_stiffness(0.0375, 0.0044, 0.00175, lever=0.001) / 1e6
    121.9
    """
    log = np.log(1 + 2 * width / groove_diameter)
    return pi * modulus * thickness**3 * log / (6 * lever**2)


@formula("0 < free", "0 <= compressibility < 1", "0 <= pressure", "0 < at", "0 < power <= 1")
def gasket_nipped(
    free: Number,
    compressibility: Number,
    *,
    pressure: Number = 7e6,
    at: Number = 7e6,
    power: Number = 0.5,
) -> Result:
    r"""Thickness of a gasket when nipped.

    .. math:: g = g_0 (1 - c)^{(p/p_0)^n}

    Parameters
    ----------
    free
        g0, thickness as bought [m]
    compressibility
        c, share lost at the pressure `at`; `GASKET` has least and greatest by sort of sheet [-]
    pressure
        p, on the gasket: force of the screws over its area [Pa]
    at
        p0, at which the compressibility was measured [Pa]
    power
        n, how the loss grows with pressure [-]

    Returns
    -------
    nipped
        g [m]

    Valid
    -----
    An estimate for a gasket that was not measured nipped; sheets differ by a factor of two. It
    shrinks further with time and oil.

    Source
    ------
    Common practice, no source; [F36] defines the compressibility.

    Examples
    --------
    Paper of 0.25 mm, under 7 MPa and under 1 MPa, in mm:

    >>> gasket_nipped(0.25e-3, 0.2) * 1e3, gasket_nipped(0.25e-3, 0.2, pressure=1e6) * 1e3
    (0.200, 0.230)
    """
    return free * (1 - compressibility) ** ((pressure / at) ** power)
