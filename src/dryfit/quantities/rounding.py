"""Exact rounding to decimals.

A half goes away from zero, as it is taught at school and done on a drawing. A binary number is
taken for the shortest decimal that stands for it: 2.675 is rounded as 2.675 (to 2.68), not as
2.67499999999999982.
"""

from decimal import Decimal
from fractions import Fraction


def exact(value: Fraction | float) -> Fraction:
    """Give the exact value of what was typed or worked out.

    >>> exact(0.1)
    Fraction(1, 10)
    """
    if isinstance(value, Fraction | int):
        return Fraction(value)
    return Fraction(Decimal(repr(float(value))))


def rounded(value: Fraction | float, decimals: int) -> Fraction:
    """Round to so many decimals, a half away from zero.

    >>> rounded(2.675, 2), rounded(-0.5, 0)
    (Fraction(67, 25), Fraction(-1, 1))
    """
    scale = 10**decimals
    scaled = abs(exact(value)) * scale
    steps = (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
    return Fraction(steps if value >= 0 else -steps, scale)


def fixed(value: Fraction | float, decimals: int) -> str:
    """Write a number with so many decimals; nought has no minus.

    >>> fixed(-0.004, 2), fixed(Fraction(1, 3), 3), fixed(12.5, 0)
    ('0.00', '0.333', '13')
    """
    steps = rounded(value, decimals) * 10**decimals
    digits = str(abs(steps.numerator)).rjust(decimals + 1, "0")
    sign = "-" if steps < 0 else ""
    point = len(digits) - decimals
    return f"{sign}{digits[:point]}.{digits[point:]}" if decimals else f"{sign}{digits}"


def plain(value: Fraction, *, decimals: int = 6) -> str:
    """Write a number with no more decimals than it needs.

    >>> plain(Fraction(5, 8)), plain(Fraction(12)), plain(Fraction(1, 3))
    ('0.625', '12', '0.333333')
    """
    text = fixed(value, decimals)
    return text.rstrip("0").rstrip(".") if "." in text else text


def two_figures(value: Fraction | float) -> str:
    """Write a number with two figures that count, never with a power of ten.

    >>> two_figures(183.4), two_figures(0.0731), two_figures(28345), two_figures(0)
    ('180', '0.073', '28000', '0')
    """
    digits, power = f"{float(value):.1e}".split("e")
    return plain(exact(float(digits)) * Fraction(10) ** int(power), decimals=12)


def within(value: Fraction | float, low: float, high: float) -> str:
    """Write a number as fine as a band it lies in deserves: two figures of the band's width.

    >>> within(0.00014, 0.0, 0.36), within(0.124, 0.0, 0.93), within(1234.4, 1200.0, 1260.0)
    ('0', '0.12', '1234')
    """
    wide = high - low
    if wide <= 0:
        return two_figures(value)
    step = Fraction(10) ** (int(f"{wide:.1e}".split("e")[1]) - 1)
    return plain(rounded(exact(value) / step, 0) * step, decimals=12)
