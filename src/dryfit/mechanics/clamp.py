"""What is clamped by a nut: how much spacers, sleeves and rings give, and what a turn does."""

from math import pi

from dryfit.mechanics.formula import Number, Result, formula

STEEL = 206e9
"""Young's modulus [Pa]."""


@formula("0 <= inside < outside")
def ring_area(outside: Number, inside: Number = 0.0) -> Result:
    r"""Area of a ring, sleeve or shaft across its axis.

    .. math:: A = \frac{\pi}{4}(D^2 - d^2)

    Parameters
    ----------
    outside
        D, diameter [m]
    inside
        d, diameter; nothing for a solid shaft [m]

    Returns
    -------
    area
        A [m^2]

    Valid
    -----
    Round and concentric.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> ring_area(0.050, 0.046) * 1e6
    301.6
    """
    return pi / 4 * (outside**2 - inside**2)


@formula("0 < length", "0 < area", "0 < modulus")
def end_stiffness(length: Number, area: Number, modulus: Number = STEEL) -> Result:
    r"""Stiffness of a straight part against pull or push along its axis.

    .. math:: k = \frac{E A}{L}

    Parameters
    ----------
    length
        L [m]
    area
        A, across the axis [m^2]
    modulus
        E, Young's modulus [Pa]

    Returns
    -------
    stiffness
        k [N/m]

    Valid
    -----
    Force spread over the whole face; the give of rough or bent faces comes on top.

    Source
    ------
    Hooke's law.

    Examples
    --------
    A spacer of 60 mm and 300 mm2, in N/um:

    >>> end_stiffness(0.060, 300e-6) / 1e6
    1030.
    """
    return modulus * area / length


@formula("0 < length", "0 < area", "0 < modulus")
def shortening(force: Number, length: Number, area: Number, *, modulus: Number = STEEL) -> Result:
    r"""How much a clamped part shortens, or a bolt stretches.

    .. math:: \delta = \frac{F L}{E A}

    Parameters
    ----------
    force
        F, along the axis [N]
    length
        L [m]
    area
        A, across the axis [m^2]
    modulus
        E, Young's modulus [Pa]

    Returns
    -------
    shortening
        delta, with the sign of the force [m]

    Valid
    -----
    As `end_stiffness`.

    Source
    ------
    Hooke's law.

    Examples
    --------
    A nut pulled up to 5 kN on a spacer of 60 mm and 300 mm2:

    >>> shortening(5e3, 0.060, 300e-6) * 1e6
    4.85
    """
    return force / end_stiffness(length, area, modulus)


@formula("0 < first", "0 < second")
def in_series(first: Number, second: Number) -> Result:
    r"""Stiffness of two parts that pass the same force on.

    .. math:: k = \frac{k_1 k_2}{k_1 + k_2}

    Parameters
    ----------
    first, second
        k1, k2, their stiffness [N/m]

    Returns
    -------
    stiffness
        k, of both together [N/m]

    Valid
    -----
    Linear parts.

    Source
    ------
    Hooke's law.

    Examples
    --------
    >>> in_series(3.0, 6.0)
    2.0
    """
    return first * second / (first + second)


@formula("0 < pitch")
def nut_advance(angle: Number, pitch: Number) -> Result:
    r"""How far a nut moves along its thread when turned.

    .. math:: x = \frac{P \theta}{2\pi}

    Parameters
    ----------
    angle
        theta [rad]
    pitch
        P, from thread to thread [m]

    Returns
    -------
    advance
        x, along the axis [m]

    Valid
    -----
    Single-start thread, its play already taken up.

    Source
    ------
    Geometry.

    Examples
    --------
    A sixteenth of a turn of 1.5 mm pitch, in micrometres:

    >>> nut_advance(2 * pi / 16, 0.0015) * 1e6
    93.75
    """
    return pitch * angle / (2 * pi)


@formula("0 < pitch")
def nut_angle(advance: Number, pitch: Number) -> Result:
    r"""How far to turn a nut to move it along its thread.

    .. math:: \theta = \frac{2\pi x}{P}

    Parameters
    ----------
    advance
        x, along the axis [m]
    pitch
        P, from thread to thread [m]

    Returns
    -------
    angle
        theta [rad]

    Valid
    -----
    Single-start thread, its play already taken up; nothing gives.

    Source
    ------
    Geometry.

    Examples
    --------
    To take 0.052 mm out with a pitch of 1.5 mm, in degrees:

    >>> nut_angle(0.052e-3, 0.0015) * 180 / pi
    12.5
    """
    return 2 * pi * advance / pitch


@formula("0 < pitch", "0 < stack_stiffness", "0 < shaft_stiffness")
def force_from_turn(
    angle: Number, pitch: Number, stack_stiffness: Number, *, shaft_stiffness: Number
) -> Result:
    r"""Force when a nut is turned on from just touching: the stack shortens, the shaft stretches.

    .. math:: F = \frac{P \theta}{2\pi}\,\frac{k_1 k_2}{k_1 + k_2}

    Parameters
    ----------
    angle
        theta, from where everything just touches [rad]
    pitch
        P, from thread to thread [m]
    stack_stiffness
        k1, of all that is clamped [N/m]
    shaft_stiffness
        k2, of the shaft or bolt inside it [N/m]

    Returns
    -------
    force
        F, in stack and shaft [N]

    Valid
    -----
    Faces true and clean. Bedding of faces and threads eats the first degrees, so this is the most
    that can be.

    Source
    ------
    [GERE] problem 2.5-17.

    Examples
    --------
    A quarter turn of 1.5 mm on a stack of 1000 N/um on a stout shaft, in kN:

    >>> force_from_turn(pi / 2, 0.0015, 1e9, shaft_stiffness=3e9) / 1e3
    281.2
    """
    return nut_advance(angle, pitch) * in_series(stack_stiffness, shaft_stiffness)


@formula("0 <= inside < outside")
def face_pressure(force: Number, outside: Number, inside: Number) -> Result:
    r"""Mean pressure of a nut, washer or spacer on the face it bears on.

    .. math:: p = \frac{F}{A}

    Parameters
    ----------
    force
        F, along the axis [N]
    outside, inside
        Diameters of the face that really bears, chamfers taken off [m]

    Returns
    -------
    pressure
        p [Pa]

    Valid
    -----
    Face bears all round.

    Source
    ------
    Definition of pressure.

    Examples
    --------
    A nut of 30 kN on a face of 40 by 31 mm, in MPa:

    >>> face_pressure(30e3, 0.040, 0.031) / 1e6
    59.8
    """
    return force / ring_area(outside, inside)
