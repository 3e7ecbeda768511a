"""What a micrometer reads on gear teeth, and what an unknown gear is by such readings.

Span over several teeth, size over pins or balls, tooth vernier, outside diameter; each for spur
and helical gears with profile shift, and the way back to module and shift.

A helical gear is measured with its tool's module and pressure angle, in the normal plane. One
given in the transverse plane has m_n = m_t cos(beta), tan(alpha_n) = tan(alpha_t) cos(beta) and
x_n = x_t / cos(beta).
"""

from typing import NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.gears import angle_of_involute, involute, transverse_angle

ANGLES = ("0 < pressure_angle < pi/2", "-1.5 < helix_angle < 1.5")


@formula("teeth > 0", *ANGLES)
def teeth_to_span(
    teeth: Number,
    *,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
    profile_shift: Number = 0.0,
) -> Result:
    r"""How many teeth to take between the anvils, so that they touch near mid height.

    .. math:: k = \tfrac12 + \frac{z}{\pi}\left[\left(1 + \frac{\sin^2\beta}{q}\right)
        \sqrt{q\left(\frac{1}{\cos\beta} + 2f\right)^2 - 1} - \operatorname{inv}\alpha_t
        - 2 f\tan\alpha_n\right], \quad f = x/z, \; q = \cos^2\beta + \tan^2\alpha_n

    Parameters
    ----------
    teeth
        z, number of teeth [-]
    pressure_angle
        alpha_n [rad]
    helix_angle
        beta, at the reference circle [rad]
    profile_shift
        x, in modules [-]

    Returns
    -------
    teeth_spanned
        k, before rounding to a whole number [-]

    Valid
    -----
    External gears. One tooth more or less still touches flanks on most gears.

    Source
    ------
    [METRIC] section 10, span.

    Examples
    --------
    >>> teeth_to_span(24.0, pressure_angle=np.radians(20.0), profile_shift=0.4)
    3.7879
    """
    slope = np.tan(pressure_angle)
    bent = np.cos(helix_angle) ** 2 + slope**2
    share = 2 * profile_shift / teeth
    reach = np.sqrt(bent * (1 / np.cos(helix_angle) + share) ** 2 - 1)
    reach = reach * (1 + np.sin(helix_angle) ** 2 / bent)
    inv = involute(transverse_angle(pressure_angle, helix_angle))
    return (reach - inv - share * slope) * teeth / np.pi + 0.5


@formula("module > 0", "teeth > 0", "teeth_spanned > 0", *ANGLES)
def span(
    module: Number,
    teeth: Number,
    teeth_spanned: Number,
    *,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
    profile_shift: Number = 0.0,
) -> Result:
    r"""Span over teeth between flat anvils.

    .. math:: W = m_n\cos\alpha_n\left[\pi(k - \tfrac12) + z\operatorname{inv}\alpha_t\right]
        + 2 x m_n\sin\alpha_n

    Parameters
    ----------
    module
        m_n [m]
    teeth
        z, number of teeth [-]
    teeth_spanned
        k, teeth between the anvils [-]
    pressure_angle
        alpha_n [rad]
    helix_angle
        beta, at the reference circle [rad]
    profile_shift
        x, in modules [-]

    Returns
    -------
    span
        W, of teeth of full thickness [m]

    Valid
    -----
    Anvils that touch involute flanks; a helical gear wide enough for both.

    Source
    ------
    [METRIC] section 10, span.

    Examples
    --------
    >>> span(0.003, 24.0, 4.0, pressure_angle=np.radians(20.0), profile_shift=0.4) * 1e3
    32.8266
    """
    inv = involute(transverse_angle(pressure_angle, helix_angle))
    standard = np.cos(pressure_angle) * (np.pi * (teeth_spanned - 0.5) + teeth * inv)
    return module * (standard + 2 * profile_shift * np.sin(pressure_angle))


@formula("span_read > 0", "module > 0", "teeth > 0", "teeth_spanned > 0", *ANGLES)
def profile_shift_of_span(
    span_read: Number,
    module: Number,
    teeth: Number,
    *,
    teeth_spanned: Number,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
) -> Result:
    r"""Profile shift of a gear from its span.

    .. math:: x = \frac{W - W_0}{2 m_n\sin\alpha_n}

    Parameters
    ----------
    span_read
        W [m]
    module
        m_n [m]
    teeth
        z, number of teeth [-]
    teeth_spanned
        k, teeth between the anvils [-]
    pressure_angle
        alpha_n [rad]
    helix_angle
        beta, at the reference circle [rad]

    Returns
    -------
    profile_shift
        x, in modules; wear and thinning for lash come out as a little less [-]

    Valid
    -----
    As `span`.

    Source
    ------
    Inverse of `span`.

    Examples
    --------
    >>> profile_shift_of_span(
    ...     0.0328266, 0.003, 24.0, teeth_spanned=4.0, pressure_angle=np.radians(20.0)
    ... )
    0.4000
    """
    angles = {"pressure_angle": pressure_angle, "helix_angle": helix_angle}
    standard = span(module, teeth, teeth_spanned, **angles)
    return (span_read - standard) / (2 * module * np.sin(pressure_angle))


class BasePitch(NamedTuple):
    """Base pitch and the module it belongs to."""

    base_pitch: Result
    module: Result


@formula("0 < smaller_span < larger_span", "0 < pressure_angle < pi/2")
def module_of_spans(smaller_span: Number, larger_span: Number, pressure_angle: Number) -> BasePitch:
    r"""Module from two spans that differ by one tooth, whatever the profile shift.

    .. math:: p_b = W_{k+1} - W_k, \quad m_n = \frac{p_b}{\pi\cos\alpha_n}

    Parameters
    ----------
    smaller_span, larger_span
        W_k and W_(k+1) [m], [m]
    pressure_angle
        alpha_n, supposed [rad]

    Returns
    -------
    base_pitch
        p_b, square to the tooth [m]
    module
        m_n, to be compared with the usual ones [m]

    Valid
    -----
    Unworn flanks. Some pairs of module and pressure angle look alike within 2 per cent.

    Source
    ------
    [METRIC] section 10: each tooth more adds one base pitch.

    Examples
    --------
    >>> module_of_spans(0.023970, 0.032827, np.radians(20.0)).module * 1e3
    3.0002
    """
    pitch = larger_span - smaller_span
    return BasePitch(pitch, pitch / np.pi / np.cos(pressure_angle))


class OverPins(NamedTuple):
    """Size over two pins, and the pressure angle at their middle."""

    size: Result
    pin_angle: Result


@formula("module > 0", "teeth > 0", "pin_diameter > 0", *ANGLES)
def over_pins(
    module: Number,
    teeth: Number,
    pin_diameter: Number,
    *,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
    profile_shift: Number = 0.0,
) -> OverPins:
    r"""Size over two pins, or balls in a helical gear, in opposite spaces.

    .. math:: \operatorname{inv}\varphi = \operatorname{inv}\alpha_t
        + \frac{d_p}{z m_n\cos\alpha_n} - \frac{\pi}{2z} + \frac{2x\tan\alpha_n}{z}, \quad
        M = d_p + \frac{d_b}{\cos\varphi}\cos\frac{90^\circ}{z}

    where the last cosine stands for odd numbers of teeth only.

    Parameters
    ----------
    module
        m_n [m]
    teeth
        z, a whole number [-]
    pin_diameter
        d_p [m]
    pressure_angle
        alpha_n [rad]
    helix_angle
        beta, at the reference circle [rad]
    profile_shift
        x, in modules [-]

    Returns
    -------
    size
        M, over both pins [m]
    pin_angle
        phi, pressure angle at the middle of a pin [rad]

    Valid
    -----
    External gears, teeth of full thickness; pins that touch both flanks, stand above the
    tips and clear of the root.

    Source
    ------
    [METRIC] section 10, over pins.

    Examples
    --------
    >>> over_pins(0.001, 20.0, 0.0017, pressure_angle=np.radians(20.0)).size * 1e3
    22.2941
    """
    base, half_space = _base_and_space(module, teeth, pressure_angle, helix_angle)
    shift = 2 * profile_shift * np.tan(pressure_angle) / teeth
    lifted = pin_diameter / (teeth * module * np.cos(pressure_angle))
    angle = angle_of_involute(lifted - half_space + shift)
    return OverPins(base / np.cos(angle) * _across(teeth) + pin_diameter, angle)


@formula("module > 0", "teeth > 0", "0 < pin_diameter < size", *ANGLES)
def profile_shift_of_pins(
    size: Number,
    module: Number,
    teeth: Number,
    *,
    pin_diameter: Number,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
) -> Result:
    r"""Profile shift of a gear from its size over two pins.

    .. math:: \cos\varphi = \frac{d_b}{M - d_p}\cos\frac{90^\circ}{z}, \quad
        x = \frac{z}{2\tan\alpha_n}\left(\operatorname{inv}\varphi - \operatorname{inv}\alpha_t
        - \frac{d_p}{z m_n\cos\alpha_n} + \frac{\pi}{2z}\right)

    Parameters
    ----------
    size
        M, over both pins [m]
    module
        m_n [m]
    teeth
        z, a whole number [-]
    pin_diameter
        d_p [m]
    pressure_angle
        alpha_n [rad]
    helix_angle
        beta, at the reference circle [rad]

    Returns
    -------
    profile_shift
        x, in modules [-]

    Valid
    -----
    As `over_pins`; not a number where the pins would lie below the base circle.

    Source
    ------
    Inverse of `over_pins`.

    Examples
    --------
    >>> profile_shift_of_pins(
    ...     0.0222941, 0.001, 20.0, pin_diameter=0.0017, pressure_angle=np.radians(20.0)
    ... ) * 1e4
    0.04
    """
    base, half_space = _base_and_space(module, teeth, pressure_angle, helix_angle)
    angle = np.arccos(base * _across(teeth) / (size - pin_diameter))
    lifted = pin_diameter / (teeth * module * np.cos(pressure_angle))
    return (involute(angle) - lifted + half_space) * teeth / 2 / np.tan(pressure_angle)


@formula("module > 0", "teeth > 0", *ANGLES)
def ideal_pin(
    module: Number,
    teeth: Number,
    *,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
    profile_shift: Number = 0.0,
) -> Result:
    r"""Pin that touches mid-height of the flanks, to choose the next usual size above.

    .. math:: \cos\alpha' = \frac{z_v\cos\alpha_n}{z_v + 2x}, \quad
        \varphi = \tan\alpha' + \eta, \quad
        d_p = z_v m_n\cos\alpha_n(\operatorname{inv}\varphi + \eta), \quad
        \eta = \frac{\pi}{2z_v} - \operatorname{inv}\alpha_n - \frac{2x\tan\alpha_n}{z_v}, \quad
        z_v = \frac{z}{\cos^3\beta}

    Parameters
    ----------
    module
        m_n [m]
    teeth
        z [-]
    pressure_angle
        alpha_n [rad]
    helix_angle
        beta, at the reference circle [rad]
    profile_shift
        x, in modules [-]

    Returns
    -------
    pin_diameter
        d_p, touching where the shifted tool's pitch line stands [m]

    Valid
    -----
    External gears; a helical one is taken as the spur gear of its normal section.

    Source
    ------
    [METRIC] section 10, over pins.

    Examples
    --------
    >>> ideal_pin(0.001, 20.0, pressure_angle=np.radians(20.0)) * 1e3
    1.72445
    """
    virtual = teeth / np.cos(helix_angle) ** 3
    shift = 2 * profile_shift * np.tan(pressure_angle)
    half_space = (np.pi / 2 - shift) / virtual - involute(pressure_angle)
    base = virtual * np.cos(pressure_angle)
    middle = np.tan(np.arccos(base / (virtual + 2 * profile_shift))) + half_space
    return module * base * (involute(middle) + half_space)


class Chordal(NamedTuple):
    """Setting of a tooth vernier."""

    thickness: Result
    virtual_teeth: Result
    half_angle: Result
    chord: Result
    height: Result


@formula("module > 0", "teeth > 0", "addendum > 0", *ANGLES)
def chordal_thickness(
    module: Number,
    teeth: Number,
    addendum: Number,
    *,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
    profile_shift: Number = 0.0,
) -> Chordal:
    r"""Height and width a tooth vernier is set to.

    .. math:: s_n = \left(\frac{\pi}{2} + 2x\tan\alpha_n\right)m_n, \quad
        z_v = \frac{z}{\cos^3\beta}, \quad \psi = \frac{s_n}{z_v m_n}, \quad
        \bar s = z_v m_n\sin\psi, \quad
        \bar h_a = h_a + \frac{z_v m_n}{2}(1 - \cos\psi)

    Parameters
    ----------
    module
        m_n [m]
    teeth
        z [-]
    addendum
        h_a, from the reference circle to the tip as it is [m]
    pressure_angle
        alpha_n [rad]
    helix_angle
        beta, at the reference circle [rad]
    profile_shift
        x, in modules [-]

    Returns
    -------
    thickness
        s_n, along the arc [m]
    virtual_teeth
        z_v, of the spur gear that the normal section shows [-]
    half_angle
        psi, half of the tooth seen from that gear's middle [rad]
    chord, height
        s and h_a of the vernier [m], [m]

    Valid
    -----
    Teeth of full thickness. Read the tip diameter first: height is taken from there.

    Source
    ------
    [METRIC] tables 10-1, 10-3 and 10-4.

    Examples
    --------
    >>> chordal_thickness(
    ...     0.010, 12.0, 0.013, pressure_angle=np.radians(20.0), profile_shift=0.3
    ... ).chord * 1e3
    17.8256
    """
    thickness = module * (np.pi / 2 + 2 * profile_shift * np.tan(pressure_angle))
    virtual = teeth / np.cos(helix_angle) ** 3
    half = thickness / (virtual * module)
    height = addendum + virtual * module / 2 * (1 - np.cos(half))
    return Chordal(thickness, virtual, half, virtual * module * np.sin(half), height)


@formula("reading > 0", "teeth > 0")
def outside_diameter(reading: Number, teeth: Number) -> Result:
    r"""Tip diameter from a reading from tip to tip.

    .. math:: d_a = \frac{M}{\cos(90^\circ/z)}

    for odd numbers of teeth, where no tip stands opposite another; as read for even ones.

    Parameters
    ----------
    reading
        M, greatest reading from a tip to the nearest opposite [m]
    teeth
        z, a whole number [-]

    Returns
    -------
    outside_diameter
        d_a [m]

    Valid
    -----
    Tips that are narrow against the gear.

    Source
    ------
    Geometry of a regular polygon.

    Examples
    --------
    >>> outside_diameter(0.0300, 15.0) * 1e3
    30.1652
    """
    return reading / _across(teeth)


@formula("outside_diameter > 0", "teeth > 0", "-1.5 < helix_angle < 1.5", "addendum > 0")
def module_of_outside(
    outside_diameter: Number,
    teeth: Number,
    *,
    helix_angle: Number = 0.0,
    addendum: Number = 1.0,
) -> Result:
    r"""First guess of the module from the outside diameter.

    .. math:: m_n \approx \frac{d_a}{z/\cos\beta + 2 h_a^*}

    Parameters
    ----------
    outside_diameter
        d_a [m]
    teeth
        z [-]
    helix_angle
        beta, at the reference circle [rad]
    addendum
        h_a*, in modules; 0.8 for stub teeth [-]

    Returns
    -------
    module
        m_n, to start from only [m]

    Valid
    -----
    Profile shift and turned-down tips are not seen: check by `module_of_spans`.

    Source
    ------
    [METRIC] section 4: the tip stands one module above the reference circle.

    Examples
    --------
    >>> module_of_outside(0.066, 20.0) * 1e3
    3.0
    """
    return outside_diameter / (teeth / np.cos(helix_angle) + 2 * addendum)


def _base_and_space(
    module: Number, teeth: Number, pressure_angle: Number, helix_angle: Number
) -> tuple[Result, Result]:
    """Base diameter, and half of a space there as an angle, without profile shift."""
    transverse = transverse_angle(pressure_angle, helix_angle)
    base = module * teeth / np.cos(helix_angle) * np.cos(transverse)
    return base, np.pi / (2 * teeth) - involute(transverse)


def _across(teeth: Number) -> Result:
    """Share of a diameter from one space or tip to the nearest opposite."""
    return np.cos(np.pi / (2 * teeth) * (teeth % 2))
