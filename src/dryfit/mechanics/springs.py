"""Springs that hold a bearing endways: disc, wave and wound, from free over flat to solid."""

from math import pi
from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.pushed import Pushed
from dryfit.quantities.finding import Range

STEEL = 206e9
"""Young's modulus of spring steel [Pa]."""

SHEAR = 79.3e9
"""Shear modulus of spring steel [Pa]."""

SOLID = 1e9
"""Stiffness of a spring pressed solid between two faces, an estimate [N/m]."""


class Helical(NamedTuple):
    """A wound spring: see `helical_spring`."""

    rate: Result
    solid_length: Result


@formula("0 < travel", "0 < rate", "0 <= cone", "0 < solid_stiffness")
def spring_force(
    deflection: Number,
    travel: Number,
    rate: Number,
    *,
    cone: Number = 0.0,
    solid_stiffness: Number = SOLID,
) -> Pushed:
    r"""Force and stiffness of a spring at any deflection: loose, working, flat or solid, beyond.

    With the deflection held between nothing and the travel, and :math:`\sigma = s/s_0`:

    .. math:: F = k s \left[1 + q^2 (1 - \sigma)(1 - \sigma/2)\right] + k_s\,(s - s_0)_+

    Parameters
    ----------
    deflection
        s, from free; below nothing the spring is loose [m]
    travel
        s0, from free to flat or solid [m]
    rate
        k, of a straight spring; of a cone, when it is flat at birth [N/m]
    cone
        q, cone height over thickness; nothing for wound and wave springs [-]
    solid_stiffness
        k_s, once flat or solid, by contact [N/m]

    Returns
    -------
    force
        F, never pulling [N]
    stiffness
        dF/ds there [N/m]

    Valid
    -----
    Force never falls as the deflection grows, so the energy is convex, while q is at most
    :math:`\sqrt 2`; a higher cone snaps through and its energy is not convex. Friction at the
    edges (some 3 % a disc) is left out.

    Source
    ------
    [DIN2092] for the cone, otherwise linear; contact stiffness is an estimate.

    Examples
    --------
    A wave washer of 120 N/mm and 1.15 mm travel, working and squeezed flat:

    >>> spring_force(0.0011, 0.00115, 120e3).force
    132.
    >>> spring_force(0.00116, 0.00115, 120e3).force
    10138.
    """
    pressed = np.minimum(np.maximum(deflection, 0.0), travel)
    part = pressed / travel
    beyond = solid_stiffness * np.maximum(deflection - travel, 0.0)
    force = rate * pressed * (1 + cone**2 * (1 - part) * (1 - part / 2)) + beyond
    working = rate * (1 + cone**2 * (1 - 3 * part + 1.5 * part**2))
    works = np.heaviside(travel - deflection, 1.0)
    touching = working * works + solid_stiffness * (1 - works)
    return Pushed(force, touching * np.heaviside(deflection, 1.0))


@formula(
    "0 < inside < outside",
    "0 < thickness",
    "0 < cone_height",
    "0 < modulus",
    "0 <= poisson <= 0.5",
    "0 < solid_stiffness",
    ranges=(Range("outside", 0.008, 0.250, "m", "[DIN2093]"),),
)
def disc_spring(
    deflection: Number,
    outside: Number,
    inside: Number,
    *,
    thickness: Number,
    cone_height: Number,
    modulus: Number = STEEL,
    poisson: Number = 0.3,
    solid_stiffness: Number = SOLID,
) -> Pushed:
    r"""Force and stiffness of one disc spring (cone washer) at any deflection.

    Almen and Laszlo, with :math:`\delta = D_e/D_i`:

    .. math:: F = k s \left[\left(\frac{h_0}{t} - \frac st\right)
        \left(\frac{h_0}{t} - \frac{s}{2t}\right) + 1\right],\quad
        k = \frac{4E}{1-\nu^2}\,\frac{t^3}{K_1 D_e^2}

    .. math:: K_1 = \frac1\pi\,\frac{\left(\frac{\delta-1}{\delta}\right)^2}
        {\frac{\delta+1}{\delta-1} - \frac{2}{\ln\delta}}

    Parameters
    ----------
    deflection
        s, from free [m]
    outside, inside
        De, Di, diameters [m]
    thickness
        t, of the disc [m]
    cone_height
        h0, free height less thickness [m]
    modulus
        E, Young's modulus [Pa]
    poisson
        nu, Poisson's ratio [-]
    solid_stiffness
        Once flat, by contact [N/m]

    Returns
    -------
    force
        F [N]
    stiffness
        dF/ds [N/m]

    Valid
    -----
    Discs without ground flats, pushed at their edges. Series of n: deflection n times; nested:
    force n times. Convex or not: see `spring_force`. Makers allow 10 to 25 % on the force.

    Source
    ------
    [DIN2092] (now DIN EN 16984) eq. for F and K1, from memory.

    Examples
    --------
    Disc of 50 x 25.4 x 3 with 1.1 mm of cone, pressed to three quarters:

    >>> disc_spring(0.825e-3, 0.050, 0.0254, thickness=0.003, cone_height=0.0011).force
    11976.
    """
    ratio = outside / inside
    bracket = (ratio + 1) / (ratio - 1) - 2 / np.log(ratio)
    shape = ((ratio - 1) / ratio) ** 2 / bracket / pi
    rate = 4 * modulus / (1 - poisson**2) * thickness**3 / (shape * outside**2)
    cone = cone_height / thickness
    state: Pushed = spring_force(
        deflection, cone_height, rate, cone=cone, solid_stiffness=solid_stiffness
    )
    return state


@formula("0 < inside < outside", "0 < thickness", "2 <= waves", "0 < modulus")
def wave_rate(
    outside: Number,
    inside: Number,
    thickness: Number,
    *,
    waves: Number,
    modulus: Number = STEEL,
) -> Result:
    r"""Rate of a closed wave washer of one turn.

    .. math:: k = \frac{E\, b\, t^3 N^4}{2.4\, D_m^3}\,\frac{D_o}{D_i},\quad
        b = \frac{D_o - D_i}{2},\quad D_m = \frac{D_o + D_i}{2}

    Parameters
    ----------
    outside, inside
        Do, Di, diameters [m]
    thickness
        t, of the strip [m]
    waves
        N, crests on one side [-]
    modulus
        E, Young's modulus [Pa]

    Returns
    -------
    rate
        k, up to flat, for `spring_force` [N/m]

    Valid
    -----
    Three waves or more, flat strip. Close to flat the crests roll and it stiffens. Good to 25 %.

    Source
    ------
    Handbook formula, from memory. A straight beam bent to and fro between crests has 1.94 for 2.4;
    the wave washer stress in the handbook [NSWC] leads back to 2.5.

    Examples
    --------
    A washer 39 x 32 of 0.4 mm with four waves, in N/mm:

    >>> wave_rate(0.039, 0.032, 0.0004, waves=4) / 1e3
    134.1
    """
    width, middle = (outside - inside) / 2, (outside + inside) / 2
    return modulus * width * thickness**3 * waves**4 / (2.4 * middle**3) * outside / inside


@formula("0 < wire < mean_diameter", "0 < coils", "0 <= dead_coils", "0 < shear_modulus")
def helical_spring(
    wire: Number,
    mean_diameter: Number,
    coils: Number,
    *,
    dead_coils: Number = 2.0,
    shear_modulus: Number = SHEAR,
) -> Helical:
    r"""Rate and solid length of a wound compression spring.

    .. math:: k = \frac{G d^4}{8 D^3 n},\quad L_s = (n + n_d)\, d

    Parameters
    ----------
    wire
        d, diameter [m]
    mean_diameter
        D, outside diameter less one wire [m]
    coils
        n, that work [-]
    dead_coils
        n_d, that only rest: 2 for ends closed and ground, 3 for ends closed, not ground [-]
    shear_modulus
        G [Pa]

    Returns
    -------
    rate
        k, up to solid [N/m]
    solid_length
        L_s; the travel is the free length less this [m]

    Valid
    -----
    Round wire, coils not yet touching.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 10-9 and table 10-1.

    Examples
    --------
    >>> spring = helical_spring(0.002, 0.016, 8.0)
    >>> spring.rate / 1e3, spring.solid_length * 1e3
    (4.84, 20.0)
    """
    rate = shear_modulus * wire**4 / (8 * mean_diameter**3 * coils)
    return Helical(rate, (coils + dead_coils) * wire)
