"""Figures as they are printed: no more digits than they deserve, in both systems.

The half width of the 90 % band decides the digits: it is itself written with one digit, or two if
it begins with 1, and the figure ends at the same place. So the last digit is worth between a
twentieth and a half of the half width: a finer one would be a promise nobody can keep, a coarser
one would throw away what was measured. Never more than 3 decimals in mm and 4 in inches.

Halves are rounded away from zero (see `rounding`); nought never has a minus. Every character
printed here is on the plainest terminals (code page 437).
"""

from decimal import Decimal
from fractions import Fraction

from dryfit.quantities.lengths import FACTOR, INCH, INCH_UNITS, System
from dryfit.quantities.quantity import Quantity
from dryfit.quantities.rounding import exact, fixed, plain, rounded
from dryfit.quantities.size import Size
from dryfit.quantities.units import BY_NAME, Kind

MOST_DECIMALS: dict[System, int] = {"mm": 3, "inch": 4}
FRACTION_DECIMALS: dict[System, int] = {"mm": 3, "inch": 4}
"""Decimals in which a typed fraction, whose digits say nothing, is echoed."""

MOST_ECHOED = 6
MOST_FOR_QUANTITY = 6

_SCALE: dict[System, Fraction] = {"mm": Fraction(1), "inch": INCH}
_WORD: dict[System, str] = {"mm": "mm", "inch": "in"}
_OTHER: dict[System, System] = {"mm": "inch", "inch": "mm"}

PARTNER: dict[Kind, dict[str, str]] = {
    "force": {
        **dict.fromkeys(("N", "kN", "kgf"), "lbf"),
        **dict.fromkeys(("mN", "gf"), "ozf"),
        "lbf": "N",
        "ozf": "N",
    },
    "torque": {"N.m": "lbf.in", "lbf.in": "N.m", "lbf.ft": "N.m", "ozf.in": "N.mm"},
    "angle": {"deg": "turn", "turn": "deg", "arcmin": "deg", "arcsec": "deg", "rad": "deg"},
    "temperature": {"°C": "°F", "°F": "°C", "K": "°C"},
    "temperature difference": {"K": "F°", "C°": "F°", "F°": "K"},
    "speed": {},
    "kinematic viscosity": {},
    "dynamic viscosity": {},
}
"""The unit in brackets behind each unit; none where all the trade uses the same figure."""

LARGE_TORQUE = 20
"""From here on a torque is told in lbf.ft, below it in lbf.in [N.m]."""


def decimals_for(half_width_mm: float, system: System) -> int:
    """Decimals a length deserves.

    Parameters
    ----------
    half_width_mm
        Half width of its 90 % band, 0 for an exact figure [mm]
    system
        The system it is to be printed in.

    Returns
    -------
    decimals
        0 to 3 in mm, 0 to 4 in inches [-]

    Valid
    -----
    half_width_mm >= 0

    Source
    ------
    Ours, for the reason at the head of this module.

    Examples
    --------
    >>> [decimals_for(half_width, "mm") for half_width in (0.4, 0.04, 0.015)]
    [1, 2, 3]
    >>> decimals_for(0.04, "inch")
    4
    """
    half_width = exact(half_width_mm) / _SCALE[system]
    return min(_deserved(half_width, MOST_DECIMALS[system]), MOST_DECIMALS[system])


def _deserved(half_width: Fraction, most: int) -> int:
    """Decimals by which the half width has one digit, or two if it begins with 1."""
    if half_width <= 0:
        return most
    number = Decimal(half_width.numerator) / Decimal(half_width.denominator)
    begins_with_one = number.as_tuple().digits[0] == 1
    return max(0, begins_with_one - number.adjusted())


def show_length(mm: Fraction | float, system: System, *, decimals: int) -> str:
    """Write a length with its unit.

    Parameters
    ----------
    mm
        The length [mm]
    system
        The system to print it in.
    decimals
        Decimals to print [-]

    Returns
    -------
    text
        `0.35 mm` or `0.0138 in`.

    Valid
    -----
    Any finite length; decimals >= 0.

    Source
    ------
    1 in = 25.4 mm exactly: NIST SP 811, Appendix B, from memory.

    Examples
    --------
    >>> show_length(0.35, "inch", decimals=4), show_length(-0.004, "mm", decimals=2)
    ('0.0138 in', '0.00 mm')
    """
    return f"{fixed(exact(mm) / _SCALE[system], decimals)} {_WORD[system]}"


def show_both(mm: Fraction | float, system: System, half_width: float) -> str:
    """Write a length in both systems, the document's own first.

    Parameters
    ----------
    mm
        The length [mm]
    system
        The document's system.
    half_width
        Half width of its 90 % band [mm]

    Returns
    -------
    text
        `0.35 mm (0.0138 in)`

    Valid
    -----
    half_width >= 0

    Source
    ------
    1 in = 25.4 mm exactly: NIST SP 811, Appendix B, from memory.

    Examples
    --------
    >>> show_both(0.35, "mm", 0.04)
    '0.35 mm (0.0138 in)'
    """
    first, second = (
        show_length(mm, each, decimals=decimals_for(half_width, each))
        for each in (system, _OTHER[system])
    )
    return f"{first} ({second})"


def show_band(
    low: Fraction | float, mid: Fraction | float, high: Fraction | float, system: System
) -> str:
    """Write a band by its ends; by its middle if the ends print alike.

    Parameters
    ----------
    low, mid, high
        The band and its middle [mm]
    system
        The document's system.

    Returns
    -------
    text
        `0.06 to 0.14 mm`

    Valid
    -----
    low <= mid <= high

    Source
    ------
    1 in = 25.4 mm exactly: NIST SP 811, Appendix B, from memory.

    Examples
    --------
    >>> show_band(0.06, 0.10, 0.14, "mm"), show_band(0.1001, 0.1002, 0.1003, "mm")
    ('0.06 to 0.14 mm', '0.100 mm')
    """
    decimals = decimals_for(float(exact(high) - exact(low)) / 2, system)
    ends = [fixed(exact(end) / _SCALE[system], decimals) for end in (low, high)]
    if ends[0] == ends[1]:
        return show_length(mid, system, decimals=decimals)
    return f"{ends[0]} to {ends[1]} {_WORD[system]}"


def typed(size_mm: Fraction, system: System, decimals: int) -> str:
    """Write a length as one would type it into a document of that system.

    Parameters
    ----------
    size_mm
        The length [mm]
    system
        The document's system.
    decimals
        Decimals to write [-]

    Returns
    -------
    text
        A bare number; `read_size` gives back exactly the rounded length.

    Valid
    -----
    decimals >= 0, at most 60 characters in all.

    Source
    ------
    1 in = 25.4 mm exactly: NIST SP 811, Appendix B, from memory.

    Examples
    --------
    >>> typed(Fraction(254, 10), "inch", 3)
    '1.000'
    """
    return fixed(size_mm / _SCALE[system], decimals)


def echo(size: Size) -> str:
    """Say a typed size in the other system too, with digits as fine as those typed.

    A fraction, whose digits say nothing, has 3 decimals in mm and 4 in inches.

    Examples
    --------
    >>> from dryfit.quantities.size import read_size
    >>> echo(read_size("0.4856 in", "mm"))
    '0.4856 in = 12.334 mm'
    >>> echo(read_size("12.34 +/- 0.02", "mm"))
    '12.34 +/- 0.02 mm = 0.4858 +/- 0.0008 in'
    """
    other: System = "mm" if size.unit in INCH_UNITS else "inch"
    decimals = _echo_decimals(size, other)
    tolerance = ""
    if size.plus is not None and size.minus is not None:
        sides = [fixed(side / _SCALE[other], decimals) for side in (size.plus, size.minus)]
        tolerance = _tolerance(*sides)
    value = fixed(size.value / _SCALE[other], decimals)
    return f"{_as_typed(size)} = {value}{tolerance} {_WORD[other]}"


def _echo_decimals(size: Size, other: System) -> int:
    """Decimals as fine as the last digit typed, and as the tolerance."""
    if size.step is None:
        decimals = FRACTION_DECIMALS[other]
    else:
        step = size.step / _SCALE[other]
        decimals = next((n for n in range(MOST_ECHOED) if Fraction(1, 10**n) <= step), MOST_ECHOED)
    sides = [side / _SCALE[other] for side in (size.plus, size.minus) if side]
    return min(max([decimals, *(_deserved(side, 0) for side in sides)]), MOST_ECHOED)


def _tolerance(plus: str, minus: str) -> str:
    """Write a tolerance from its two sides."""
    return f" +/- {plus}" if plus == minus else f" +{plus}/-{minus}"


def _as_typed(size: Size) -> str:
    """Write a size in its own unit with the digits typed."""
    factor = FACTOR[size.unit]
    number = size.value / factor
    text = _mixed(number) if size.step is None else fixed(number, _places(size.step / factor))
    if size.plus is not None and size.minus is not None:
        text += _tolerance(plain(size.plus / factor), plain(size.minus / factor))
    word = {"tenth": "tenths of a thou"}.get(size.unit, size.unit)
    return f"{text} {word}"


def _places(step: Fraction) -> int:
    """Decimals of a step that is a power of ten."""
    return max(0, len(str(step.denominator)) - 1)


def _mixed(number: Fraction) -> str:
    """Write `1 5/8`."""
    whole, part = divmod(abs(number), 1)
    sign = "-" if number < 0 else ""
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def show_quantity(
    quantity: Quantity | Fraction | float, kind: Kind, unit: str, *, half_width: float
) -> str:
    """Write a quantity in its unit and in that of the other system.

    Parameters
    ----------
    quantity
        What was typed, or a value in the base unit of its kind: N, N.m, deg, K, rpm, m2/s, Pa.s.
    kind
        What sort of quantity.
    unit
        Name of the unit to be printed first.
    half_width
        Half width of its 90 % band, 0 for an exact figure [base unit]

    Returns
    -------
    text
        `12.5 N (2.8 lbf)`; one unit only where the trade knows no other.

    Valid
    -----
    half_width >= 0

    Source
    ------
    Factors: NIST SP 811, Appendix B, from memory (see `units`).

    Examples
    --------
    >>> show_quantity(12.5, "force", "N", half_width=0.4)
    '12.5 N (2.81 lbf)'
    >>> show_quantity(293.15, "temperature", "°C", half_width=3)
    '20 °C (68 °F)'
    """
    value = quantity.value if isinstance(quantity, Quantity) else exact(quantity)
    first = _in_unit(value, kind, unit, half_width)
    partner = PARTNER[kind].get(unit)
    if kind == "torque" and partner in (None, "lbf.in"):
        partner = "lbf.ft" if abs(value) >= LARGE_TORQUE else "lbf.in"
    return first if partner is None else f"{first} ({_in_unit(value, kind, partner, half_width)})"


def _in_unit(value: Fraction, kind: Kind, name: str, half_width: float) -> str:
    """Write a value in one unit."""
    unit = BY_NAME[kind][name]
    number = (value - unit.offset) / unit.factor
    width = exact(half_width) / unit.factor
    decimals = min(_deserved(width, 0), MOST_FOR_QUANTITY) if width else _needed(number)
    return f"{fixed(number, decimals)} {name}"


def _needed(number: Fraction) -> int:
    """Decimals an exact figure needs, at most 4."""
    return next((n for n in range(4) if rounded(number, n) == number), 4)
