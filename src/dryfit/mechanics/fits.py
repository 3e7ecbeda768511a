"""Interference fits: pressure, stress, and what they do to a bearing's raceways.

Everything here comes from one formula, the growth of a thick ring under pressure (Lame), of which
the solid shaft, the hollow shaft, the thin ring and the unbounded housing are limits. A fit with
clearance presses nothing: pressure and growth are then nought, not negative.
"""

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.materials import STEEL_MODULUS, STEEL_POISSON

FLATTENED = 0.8
"""Share of both surfaces' mean peak-to-valley heights that a joint loses as it is made (DIN 7190,
from memory)."""


@formula("at > 0", "0 <= inside <= at", "at <= outside", "inside < outside")
def hoop_stress(
    at: Number,
    inside: Number,
    outside: Number,
    *,
    inner_pressure: Number = 0.0,
    outer_pressure: Number = 0.0,
) -> Result:
    r"""Hoop stress in a thick ring under pressure inside and outside.

    .. math:: \sigma = \frac{p_i k - p_o + (p_i - p_o) (d_i / d)^2}{1 - k}, \quad
       k = (d_i / d_o)^2

    Parameters
    ----------
    at
        d, diameter at which it is asked for [m]
    inside
        d_i, inside diameter, 0 if solid [m]
    outside
        d_o, outside diameter [m]
    inner_pressure
        p_i, on the inside [Pa]
    outer_pressure
        p_o, on the outside [Pa]

    Returns
    -------
    stress
        sigma; plus: tension [Pa]

    Valid
    -----
    Elastic, free to move along the axis, far from a short ring's ends.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 3-49.

    Examples
    --------
    At the bore of a 100 mm hub on a 50 mm shaft:

    >>> hoop_stress(0.050, 0.050, 0.100, inner_pressure=77.25e6) / 1e6
    128.75
    """
    k = (inside / outside) ** 2
    spread = (inner_pressure - outer_pressure) * (inside / at) ** 2
    return (inner_pressure * k - outer_pressure + spread) / (1 - k)


@formula(
    "at > 0",
    "0 <= inside <= at",
    "at <= outside",
    "inside < outside",
    "modulus > 0",
    "0 <= poisson <= 0.5",
)
def diameter_growth(
    at: Number,
    inside: Number,
    outside: Number,
    *,
    inner_pressure: Number = 0.0,
    outer_pressure: Number = 0.0,
    modulus: Number = STEEL_MODULUS,
    poisson: Number = STEEL_POISSON,
) -> Result:
    r"""Growth of a diameter of a thick ring under pressure inside and outside.

    .. math:: \Delta d = \frac{d}{E (1 - k)} \left[(1 - \nu)(p_i k - p_o)
       + (1 + \nu)(p_i - p_o)\left(\frac{d_i}{d}\right)^2\right], \quad k = (d_i / d_o)^2

    Parameters
    ----------
    at
        d, the diameter that grows [m]
    inside
        d_i, inside diameter, 0 if solid [m]
    outside
        d_o, outside diameter; infinite for a housing without bounds [m]
    inner_pressure
        p_i, on the inside [Pa]
    outer_pressure
        p_o, on the outside [Pa]
    modulus
        E, Young's modulus [Pa]
    poisson
        nu, Poisson's ratio [-]

    Returns
    -------
    growth
        Delta d; minus: it shrinks [m]

    Valid
    -----
    Elastic, plane stress (free to move along the axis), far from a short ring's ends.

    Source
    ------
    [SHIGLEY] 9th ed., 3-14 and 3-16, Lame's solution.

    Examples
    --------
    Outside of a 60 mm ring with 15 MPa in its 50 mm bore:

    >>> diameter_growth(0.060, 0.050, 0.060, inner_pressure=15e6) * 1e6
    19.859
    """
    k = (inside / outside) ** 2
    even = (1 - poisson) * (inner_pressure * k - outer_pressure)
    spread = (1 + poisson) * (inner_pressure - outer_pressure) * (inside / at) ** 2
    return at * (even + spread) / modulus / (1 - k)


@formula(
    "0 <= shaft_bore < diameter < hub_diameter",
    "shaft_modulus > 0",
    "hub_modulus > 0",
    "0 <= shaft_poisson <= 0.5",
    "0 <= hub_poisson <= 0.5",
)
def press_pressure(
    interference: Number,
    diameter: Number,
    hub_diameter: Number,
    *,
    shaft_bore: Number = 0.0,
    shaft_modulus: Number = STEEL_MODULUS,
    hub_modulus: Number = STEEL_MODULUS,
    shaft_poisson: Number = STEEL_POISSON,
    hub_poisson: Number = STEEL_POISSON,
) -> Result:
    r"""Pressure in the joint of a ring on a shaft, or of a ring in a housing.

    The bore gives way and the shaft gives way; together they make up the interference:

    .. math:: p = \frac{\delta}{d\left[\frac{1}{E_h}\left(\frac{D^2 + d^2}{D^2 - d^2} + \nu_h\right)
       + \frac{1}{E_s}\left(\frac{d^2 + d_i^2}{d^2 - d_i^2} - \nu_s\right)\right]}

    Parameters
    ----------
    interference
        delta, shaft diameter less bore before pressing; clearance gives no pressure [m]
    diameter
        d, nominal diameter of the joint [m]
    hub_diameter
        D, outside diameter of what is outside; infinite for a housing without bounds [m]
    shaft_bore
        d_i, bore of what is inside, 0 if solid [m]
    shaft_modulus
        E_s, of what is inside [Pa]
    hub_modulus
        E_h, of what is outside [Pa]
    shaft_poisson
        nu_s [-]
    hub_poisson
        nu_h [-]

    Returns
    -------
    pressure
        p, uniform over the joint [Pa]

    Valid
    -----
    Both parts elastic, as long as each other; the rise of pressure at the ends of a hub on a longer
    shaft is left out.

    Source
    ------
    [SHIGLEY] 9th ed., eq. 3-56, p. 116.

    Examples
    --------
    A 50 mm shaft in a 100 mm hub, both steel, 0.05 mm of interference:

    >>> press_pressure(50e-6, 0.050, 0.100) / 1e6
    77.25
    """
    hub = diameter_growth(
        diameter,
        diameter,
        hub_diameter,
        inner_pressure=1.0,
        modulus=hub_modulus,
        poisson=hub_poisson,
    )
    shaft = diameter_growth(
        diameter,
        shaft_bore,
        diameter,
        outer_pressure=1.0,
        modulus=shaft_modulus,
        poisson=shaft_poisson,
    )
    return np.maximum(interference, 0.0) / (hub - shaft)


@formula(
    "0 <= shaft_bore < bore < track",
    "ring_modulus > 0",
    "shaft_modulus > 0",
    "0 <= ring_poisson <= 0.5",
    "0 <= shaft_poisson <= 0.5",
)
def inner_track_growth(
    interference: Number,
    bore: Number,
    track: Number,
    *,
    shaft_bore: Number = 0.0,
    ring_modulus: Number = STEEL_MODULUS,
    shaft_modulus: Number = STEEL_MODULUS,
    ring_poisson: Number = STEEL_POISSON,
    shaft_poisson: Number = STEEL_POISSON,
) -> Result:
    r"""Growth of an inner ring's raceway, or of any pressed ring's outside, by its fit.

    Of one material it is

    .. math:: g = \delta\,\frac{F}{d}\,\frac{d^2 - d_0^2}{F^2 - d_0^2}

    and on a solid shaft delta d / F.

    Parameters
    ----------
    interference
        delta, as it acts: see `interference_left`; clearance gives no growth [m]
    bore
        d, of the ring [m]
    track
        F, diameter of its raceway [m]
    shaft_bore
        d_0, bore of the shaft, 0 if solid [m]
    ring_modulus
        Young's modulus of the ring [Pa]
    shaft_modulus
        Of the shaft [Pa]
    ring_poisson
        Poisson's ratio of the ring [-]
    shaft_poisson
        Of the shaft [-]

    Returns
    -------
    growth
        g, of the raceway's diameter [m]

    Valid
    -----
    The ring as a plain tube between bore and raceway; its shoulders stiffen it by a few parts in a
    hundred.

    Source
    ------
    Lame's solution (`diameter_growth`) under the pressure of the joint.

    Examples
    --------
    Half-hollow shafts take some of it away:

    >>> inner_track_growth(12e-6, 0.050, 0.060) * 1e6
    10.0
    >>> inner_track_growth(12e-6, 0.050, 0.060, shaft_bore=0.025) * 1e6
    9.08
    """
    pressure = press_pressure(
        interference,
        bore,
        track,
        shaft_bore=shaft_bore,
        shaft_modulus=shaft_modulus,
        hub_modulus=ring_modulus,
        shaft_poisson=shaft_poisson,
        hub_poisson=ring_poisson,
    )
    return diameter_growth(
        track, bore, track, inner_pressure=pressure, modulus=ring_modulus, poisson=ring_poisson
    )


@formula(
    "0 < track < outside < housing_outside",
    "ring_modulus > 0",
    "housing_modulus > 0",
    "0 <= ring_poisson <= 0.5",
    "0 <= housing_poisson <= 0.5",
)
def outer_track_growth(
    interference: Number,
    outside: Number,
    track: Number,
    *,
    housing_outside: Number,
    ring_modulus: Number = STEEL_MODULUS,
    housing_modulus: Number = STEEL_MODULUS,
    ring_poisson: Number = STEEL_POISSON,
    housing_poisson: Number = STEEL_POISSON,
) -> Result:
    r"""Growth of an outer ring's raceway by its fit in a housing: negative, it shrinks.

    Of one material it is

    .. math:: g = -\delta\,\frac{E}{D}\,\frac{H^2 - D^2}{H^2 - E^2}

    and in a housing without bounds -delta E / D.

    Parameters
    ----------
    interference
        delta, as it acts: see `interference_left`; clearance gives no growth [m]
    outside
        D, outside diameter of the ring [m]
    track
        E, diameter of its raceway [m]
    housing_outside
        H, outside diameter of the housing round the ring; infinite where it has no bounds [m]
    ring_modulus
        Young's modulus of the ring [Pa]
    housing_modulus
        Of the housing [Pa]
    ring_poisson
        Poisson's ratio of the ring [-]
    housing_poisson
        Of the housing [-]

    Returns
    -------
    growth
        g, of the raceway's diameter [m]

    Valid
    -----
    Ring and housing as plain tubes; a housing with ribs and feet lies between two of them.

    Source
    ------
    Lame's solution (`diameter_growth`) under the pressure of the joint.

    Examples
    --------
    In steel 100 mm across, and in aluminium:

    >>> outer_track_growth(10e-6, 0.080, 0.070, housing_outside=0.100) * 1e6
    -6.176
    >>> outer_track_growth(
    ...     10e-6, 0.080, 0.070, housing_outside=0.100, housing_modulus=71e9, housing_poisson=0.33
    ... ) * 1e6
    -3.488
    """
    pressure = press_pressure(
        interference,
        outside,
        housing_outside,
        shaft_bore=track,
        shaft_modulus=ring_modulus,
        hub_modulus=housing_modulus,
        shaft_poisson=ring_poisson,
        hub_poisson=housing_poisson,
    )
    return diameter_growth(
        track, track, outside, outer_pressure=pressure, modulus=ring_modulus, poisson=ring_poisson
    )


@formula()
def clearance_left(
    clearance: Number, inner_growth: Number = 0.0, outer_growth: Number = 0.0
) -> Result:
    r"""Radial clearance of a bearing when its raceways have grown, by fit or warmth.

    .. math:: G' = G - g_i + g_o

    Parameters
    ----------
    clearance
        G, before, measured across the diameter [m]
    inner_growth
        g_i, of the inner raceway's diameter [m]
    outer_growth
        g_o, of the outer raceway's diameter; minus in a tight housing [m]

    Returns
    -------
    clearance
        G'; minus: the row is radially tight [m]

    Valid
    -----
    Round rings.

    Source
    ------
    Definition of the clearance.

    Examples
    --------
    >>> clearance_left(15e-6, 10e-6, -2e-6) * 1e6
    3.0
    """
    return clearance - inner_growth + outer_growth


@formula("shaft_height >= 0", "hub_height >= 0", "share >= 0")
def interference_left(
    interference: Number, shaft_height: Number, hub_height: Number, *, share: Number = FLATTENED
) -> Result:
    r"""Interference that acts once the surfaces have been pressed smooth.

    .. math:: \delta' = \delta - 0.8 (R_{zs} + R_{zh})

    Parameters
    ----------
    interference
        delta, shaft less bore as measured, which is over the peaks [m]
    shaft_height
        R_zs, mean peak-to-valley height of the shaft [m]
    hub_height
        R_zh, of the bore [m]
    share
        What is lost of both heights [-]

    Returns
    -------
    interference
        delta', at least nought; a fit with clearance stays as it is [m]

    Valid
    -----
    Pressed on; a ring fitted hot keeps more. Ground seats lose 1 to 2.5 um, turned ones 5 to 7
    (common practice).

    Source
    ------
    [DIN7190] part 1, from memory.

    Examples
    --------
    A ground ring on a ground shaft:

    >>> interference_left(12e-6, 1.6e-6, 1.0e-6) * 1e6
    9.92
    """
    left = np.maximum(interference - share * (shaft_height + hub_height), 0.0)
    return np.minimum(interference, left)
