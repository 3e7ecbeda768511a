"""A row of taper rollers, and two plain faces: force and stiffness under an approach.

Line contact goes with the power 10/9 of the approach and, nearly, with the length of the roller.
With the length to the power 8/9 the constant of the material is a pressure, whatever the units.
"""

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.pushed import Pushed

LINE = 35.948e9
"""Steel roller between two steel tracks: 35 948 N/mm^2 (ISO/TS 16281:2008) [Pa]."""


@formula("load >= 0", "length > 0", "constant > 0")
def line_approach(load: Number, length: Number, constant: Number = LINE) -> Result:
    r"""Approach of both tracks over a roller that carries a load.

    .. math:: \delta = \left(\frac{Q}{c\, L^{8/9}}\right)^{9/10}

    Parameters
    ----------
    load
        Q, on the roller [N]
    length
        L, effective length of the roller [m]
    constant
        c, of both contacts [Pa]

    Returns
    -------
    approach
        delta [m]

    Valid
    -----
    Crowned steel rollers; the older constant of Palmgren gives 3 % less.

    Source
    ------
    [ISO16281]; [PALMGREN]: 2 x 3.84e-5 Q^0.9 / L^0.8 mm.

    Examples
    --------
    >>> line_approach(1000.0, 10e-3) * 1e6
    6.308
    """
    return (load / (constant * length ** (8 / 9))) ** 0.9


@formula("0 < angle <= pi/2", "rollers > 0", "length > 0", "constant > 0")
def taper_row(
    approach: Number,
    angle: Number,
    *,
    rollers: Number,
    length: Number,
    constant: Number = LINE,
    inner_growth: Number = 0.0,
    outer_growth: Number = 0.0,
) -> Pushed:
    r"""Force and stiffness of a taper roller row; nothing as soon as the rollers are free.

    .. math:: F = Z \sin\alpha\; c L^{8/9}\, \delta_+^{10/9}, \quad
       \delta = x \sin\alpha + \tfrac12 (g_i - g_o) \cos\alpha

    Parameters
    ----------
    approach
        x, of cone and cup, from where the rollers just touch; minus: play [m]
    angle
        alpha, half the angle of the cup [rad]
    rollers
        Z [-]
    length
        L, effective length of a roller [m]
    constant
        c, of both contacts [Pa]
    inner_growth
        g_i, growth of the cone's track on the diameter [m]
    outer_growth
        g_o, growth of the cup's track on the diameter [m]

    Returns
    -------
    force
        F, pushing cone and cup apart again [N]
    stiffness
        dF/dx [N/m]

    Valid
    -----
    Thrust without radial load or tilt; the small angle of the roller itself and the rib's force are
    left out.

    Source
    ------
    [ISO16281] for the contact; statics.

    Examples
    --------
    Twice the load, 7 % stiffer:

    >>> row = {"angle": np.radians(14.04), "rollers": 17, "length": 12e-3}
    >>> taper_row(11.72e-6, **row).force / 1e3
    2.0008
    >>> taper_row(11.72e-6 * 2**0.9, **row).stiffness / taper_row(11.72e-6, **row).stiffness
    1.0718
    """
    growth = (inner_growth - outer_growth) / 2
    pressed = np.maximum(approach * np.sin(angle) + growth * np.cos(angle), 0.0)
    row = rollers * np.sin(angle) * constant * length ** (8 / 9)
    root = pressed ** (1 / 9)
    return Pushed(row * root * pressed, row * root * np.sin(angle) * 10 / 9)


@formula("area > 0", "depth > 0", "pressure > 0")
def face_row(
    approach: Number, area: Number, *, depth: Number = 1e-6, pressure: Number = 1e6
) -> Pushed:
    r"""Force and stiffness of two plain faces, as of a thrust washer or a shoulder.

    Their high spots yield first:

    .. math:: F = A\, p_0 \left(\frac{x_+}{c}\right)^2

    Parameters
    ----------
    approach
        x, of the faces from where they just touch; minus: play [m]
    area
        A, on which they meet [m^2]
    depth
        c, how far they yield at the pressure p_0 [m]
    pressure
        p_0, at which `depth` holds [Pa]

    Returns
    -------
    force
        F, pushing the faces apart again [N]
    stiffness
        dF/dx [N/m]

    Valid
    -----
    Flat, parallel, clean faces to some 10 MPa. The default 1 um at 1 MPa is for ground faces, from
    memory, and may be twice or half of it.

    Source
    ------
    [RIVIN] joints of machine tools: approach as the square root of the pressure (from memory).

    Examples
    --------
    >>> face_row(1e-6, 500e-6).force
    500.0
    """
    pressed = np.maximum(approach, 0.0) / depth
    return Pushed(area * pressure * pressed**2, 2 * area * pressure * pressed / depth)
