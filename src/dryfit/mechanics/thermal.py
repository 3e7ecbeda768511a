"""What warmth does: lengths, fits, clearance of a row, float of a pair of rows.

A rise is counted from the temperature at which the sizes were measured. A diameter grows as a
length does. Signs along the axis come from where the row that stops the shaft each way sits, so
back to back and face to face are one formula.
"""

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.quantities.finding import Range

NEAR_ROOM = Range("rise", -50.0, 150.0, "K", "the expansion of metals (UGURAL D.1)")
"""Where one mean coefficient stands for a metal; how far beside room it may go is an estimate."""


@formula(ranges=(NEAR_ROOM,))
def length_change(length: Number, expansion: Number, rise: Number) -> Result:
    r"""Growth of a length or a diameter when the part gets warmer.

    .. math:: \Delta L = \alpha\, L\, \Delta T

    Parameters
    ----------
    length
        L, at room temperature; of a ring any diameter of it [m]
    expansion
        alpha, mean coefficient of linear expansion [1/K]
    rise
        Delta T, temperature above that at which the length was measured [K]

    Returns
    -------
    growth
        Delta L, with the sign of the rise times that of the length [m]

    Valid
    -----
    A part of one material and one temperature, free to grow; the rise within `NEAR_ROOM`.

    Source
    ------
    [UGURAL] App. D.1 for the coefficients; the law itself is their definition.

    Examples
    --------
    A steel shaft of 200 mm, 15 K warmer:

    >>> length_change(0.200, 12e-6, 15.0) * 1e6
    36.0
    """
    return length * expansion * rise


@formula("diameter > 0")
def warm_interference(
    interference: Number,
    diameter: Number,
    *,
    shaft_expansion: Number,
    shaft_rise: Number,
    hub_expansion: Number,
    hub_rise: Number,
) -> Result:
    r"""Interference of a fit when shaft and hub are warm, each of its own metal.

    .. math:: \delta' = \delta + (\alpha_s \Delta T_s - \alpha_h \Delta T_h)\, d

    Parameters
    ----------
    interference
        delta, shaft less bore, both as measured; minus: clearance [m]
    diameter
        d, nominal diameter of the joint [m]
    shaft_expansion
        alpha_s, of what is inside [1/K]
    shaft_rise
        Delta T_s [K]
    hub_expansion
        alpha_h, of what is outside [1/K]
    hub_rise
        Delta T_h [K]

    Returns
    -------
    interference
        delta', minus where it has come loose [m]

    Valid
    -----
    Each part of one temperature throughout.

    Source
    ------
    Definition of the coefficient of expansion on both parts' diameters.

    Examples
    --------
    An outer ring at 5 um of interference in aluminium, both 40 K warmer, is loose:

    >>> warm_interference(
    ...     5e-6, 0.080, shaft_expansion=12.2e-6, shaft_rise=40, hub_expansion=23.5e-6, hub_rise=40
    ... ) * 1e6
    -31.16
    """
    return interference + (shaft_expansion * shaft_rise - hub_expansion * hub_rise) * diameter


@formula("inner_track > 0", "outer_track > 0")
def warm_clearance_change(
    inner_track: Number,
    outer_track: Number,
    expansion: Number,
    *,
    inner_rise: Number,
    outer_rise: Number,
) -> Result:
    r"""Change of a row's radial clearance when its rings are not equally warm.

    .. math:: \Delta G = \alpha (E\, \Delta T_o - F\, \Delta T_i)

    Parameters
    ----------
    inner_track
        F, diameter of the inner ring's raceway; with the rolling elements as warm as the inner
        ring it reaches to the outer raceway, F = E [m]
    outer_track
        E, diameter of the outer ring's raceway [m]
    expansion
        alpha, of both rings [1/K]
    inner_rise
        Delta T_i [K]
    outer_rise
        Delta T_o [K]

    Returns
    -------
    change
        Delta G, measured across the diameter; minus: tighter [m]

    Valid
    -----
    Rings free to grow; what their seats add is a change of fit (`warm_interference`).

    Source
    ------
    Definition of the coefficient of expansion. That the inner ring runs 5 to 10 K warmer, 15 to 20
    in fast machines, is common practice.

    Examples
    --------
    An outer track of 80 mm, inner ring and balls 10 K warmer:

    >>> warm_clearance_change(0.080, 0.080, 12.5e-6, inner_rise=10, outer_rise=0) * 1e6
    -10.0
    """
    return expansion * (outer_track * outer_rise - inner_track * inner_rise)


@formula("0 < angle < pi/2")
def axial_shift(growth: Number, angle: Number) -> Result:
    r"""How far a row is closed along the axis by ring growth.

    .. math:: s = \frac{g}{2} \cot\alpha

    Parameters
    ----------
    growth
        g, of the inner track's diameter less that of the outer track's [m]
    angle
        alpha, contact angle; of a taper row that of the cup's track to the axis [rad]

    Returns
    -------
    shift
        s; plus: the row is closed, float is lost or preload gained [m]

    Valid
    -----
    Growth small against the row; the angle as it stands.

    Source
    ------
    Geometry: a radial shift g / 2 and an axial one s move the contact equally when
    (g / 2) cos(alpha) = s sin(alpha).

    Examples
    --------
    >>> axial_shift(20e-6, np.radians(20.05)) * 1e6
    27.40
    """
    return growth / 2 / np.tan(angle)


@formula()
def pair_float_change(
    inner_span: Number,
    outer_span: Number,
    closing: Number = 0.0,
    *,
    shaft_expansion: Number,
    shaft_rise: Number,
    housing_expansion: Number,
    housing_rise: Number,
) -> Result:
    r"""Change of the end float of two rows whose shaft and housing warm differently.

    .. math:: \Delta e = \alpha_h \Delta T_h L_o - \alpha_s \Delta T_s L_i - s

    A span runs from the row that stops the shaft going to the near end to the row that stops it
    going to the far end. Face to face the latter sits at the far end: plus. Back to back they have
    changed places: minus.

    Parameters
    ----------
    inner_span
        L_i, between the seats of the inner rings on the shaft; minus back to back [m]
    outer_span
        L_o, between the seats of the outer rings in the housing; minus back to back [m]
    closing
        s, `axial_shift` of both rows together [m]
    shaft_expansion
        alpha_s [1/K]
    shaft_rise
        Delta T_s [K]
    housing_expansion
        alpha_h [1/K]
    housing_rise
        Delta T_h [K]

    Returns
    -------
    change
        Delta e; plus: more float, minus: less float or more preload [m]

    Valid
    -----
    Rigid rows; one temperature for all of the shaft and one for all of the housing.

    Source
    ------
    Geometry: the float is the outer span less the inner span and a constant.

    Examples
    --------
    A steel shaft 200 mm between rows in aluminium, both 30 K warmer, face to face and back to back:

    >>> warm = dict(
    ...     shaft_expansion=12e-6, shaft_rise=30, housing_expansion=23e-6, housing_rise=30
    ... )
    >>> pair_float_change(0.2, 0.2, **warm) * 1e6, pair_float_change(-0.2, -0.2, **warm) * 1e6
    (66.0, -66.0)
    """
    shaft = inner_span * shaft_expansion * shaft_rise
    return outer_span * housing_expansion * housing_rise - shaft - closing


@formula(
    "first_diameter > 0",
    "second_diameter > 0",
    "0 < first_angle < pi/2",
    "0 < second_angle < pi/2",
)
def neutral_span(
    first_diameter: Number, first_angle: Number, *, second_diameter: Number, second_angle: Number
) -> Result:
    r"""Span of back to back tapers at which a warm shaft leaves the float alone.

    .. math:: L = \frac{d_1}{2} \cot\alpha_1 + \frac{d_2}{2} \cot\alpha_2

    The apexes of both tracks then coincide: the warm inside grows about that one point and every
    contact slides along itself.

    Parameters
    ----------
    first_diameter
        d_1, of the first row's cup track at the middle of its rollers [m]
    first_angle
        alpha_1, of that track to the axis [rad]
    second_diameter
        d_2, the same of the second row [m]
    second_angle
        alpha_2 [rad]

    Returns
    -------
    span
        L, between the middles of the rows; a longer one gains float as the shaft warms, a shorter
        one loses it [m]

    Valid
    -----
    Shaft, cones and rollers equally warm and of one expansion, housing and cups likewise; rings
    free to grow. Face to face has no neutral span: there length and diameter both take float.

    Source
    ------
    Rule of coinciding apexes [RUSU]; here from `axial_shift` and `pair_float_change`.

    Examples
    --------
    Two rows of 80 mm at 15 degrees:

    >>> angle = np.radians(15)
    >>> neutral_span(0.080, angle, second_diameter=0.080, second_angle=angle) * 1e3
    298.56
    """
    return axial_shift(first_diameter, first_angle) + axial_shift(second_diameter, second_angle)
