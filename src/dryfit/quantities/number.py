"""Numbers as typed: decimals with their digits, and bench fractions.

`12.34`, `.0015`, `5/8`, `1 5/8`, `1-5/8`, `1½`. A number that ends in a point is refused: the
digits the point promises may have been lost, and they would say how finely it was read.
"""

from dataclasses import dataclass
from fractions import Fraction

from dryfit.quantities.rounding import plain
from dryfit.quantities.scan import Cursor, Token

VULGAR = {
    "½": Fraction(1, 2),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "¼": Fraction(1, 4),
    "¾": Fraction(3, 4),
    "⅕": Fraction(1, 5),
    "⅖": Fraction(2, 5),
    "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5),
    "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6),
    "⅐": Fraction(1, 7),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
    "⅑": Fraction(1, 9),
    "⅒": Fraction(1, 10),
}
MOST_POWER = 9
"""Powers of ten that are written out in a way out."""


@dataclass(frozen=True, slots=True)
class Number:
    """A number without sign or unit; `step` is one in its last digit, None for a fraction."""

    value: Fraction
    step: Fraction | None
    column: int
    end: int


def starts_number(cursor: Cursor, ahead: int = 0) -> bool:
    """Tell whether a coming token begins a number."""
    return cursor.peek(ahead).sort in ("number", "vulgar")


def read_number(cursor: Cursor) -> Number | None:
    """Take a number; None if none comes next."""
    if not starts_number(cursor):
        return None
    if starts_fraction(cursor):
        column = cursor.peek().column
        value, end = _fraction(cursor)
        return Number(value, None, column, end)
    return _decimal_or_mixed(cursor)


def starts_fraction(cursor: Cursor, ahead: int = 0) -> bool:
    """Tell whether a coming token begins a fraction without a whole number before it."""
    sorts = [cursor.peek(ahead + more).sort for more in range(3)]
    return sorts[0] == "vulgar" or sorts == ["number", "stroke", "number"]


def _decimal_or_mixed(cursor: Cursor) -> Number:
    """Take a decimal, or a whole number with a fraction behind it."""
    token = cursor.take()
    value, step = _decimal(cursor, token)
    if cursor.peek().sort in ("end", "tolerance", "quote") or "." in token.text:
        return Number(value, step, token.column, token.end)
    dash = cursor.sees("sign") and cursor.peek().text != "+" and _is_tight(cursor)
    if not starts_fraction(cursor, int(dash)):
        return Number(value, step, token.column, token.end)
    if dash:
        cursor.take()
    column = cursor.peek().column
    part, end = _fraction(cursor)
    if part >= 1:
        whole = cursor.respelled(token.column, end, plain(value + part))
        told = cursor.text[token.column : end]
        message = f"{told!r}: the fraction behind a whole number must be less than one"
        raise cursor.refuse("fraction", column, message, f"write {whole} if that is meant")
    return Number(value + part, None, token.column, end)


def _is_tight(cursor: Cursor) -> bool:
    """Tell whether the coming token touches what stands on both its sides."""
    return not cursor.is_spaced() and not cursor.is_spaced(1)


def _fraction(cursor: Cursor) -> tuple[Fraction, int]:
    """Take `5/8` or a single character such as ½."""
    above = cursor.take()
    if above.sort == "vulgar":
        return VULGAR[above.text], above.end
    cursor.take()
    below = cursor.take()
    told = cursor.text[above.column : below.end]
    if "." in above.text + below.text:
        message = f"{told!r}: a fraction is made of two whole numbers"
        raise cursor.refuse("fraction", above.column, message, "write it as a decimal")
    if cursor.sees("stroke"):
        message = f"{told!r} goes on with another stroke, like a date"
        way_out = "write one value: a fraction has one stroke, as 5/8"
        raise cursor.refuse("fraction", cursor.peek().column, message, way_out)
    if int(below.text) == 0:
        message = f"{told!r}: nothing can be divided by 0"
        raise cursor.refuse(
            "fraction", below.column, message, "write another number below, or a decimal"
        )
    return Fraction(int(above.text), int(below.text)), below.end


def _decimal(cursor: Cursor, token: Token) -> tuple[Fraction, Fraction]:
    """Value and last digit of a decimal."""
    whole, point, decimals = token.text.partition(".")
    if "." in decimals:
        column = token.column + len(whole) + 1 + decimals.index(".")
        first = f"{whole or 0}.{decimals.replace('.', '')}".rstrip(".")
        first = cursor.respelled(token.column, token.end, first)
        message = f"{token.text!r} has more than one point"
        raise cursor.refuse("point", column, message, f"write {first}, if that is meant")
    if point and not decimals:
        message = f"{token.text!r} ends in a point: were digits lost behind it?"
        ways = [cursor.respelled(token.column, token.end, one) for one in (whole, whole + ".0")]
        way_out = f"write {ways[0]}, or {ways[1]} if the 0 was read"
        raise cursor.refuse("point", token.end - 1, message, way_out)
    _check_exponent(cursor, token)
    scale = 10 ** len(decimals)
    return Fraction(int(whole + decimals), scale), Fraction(1, scale)


def _check_exponent(cursor: Cursor, token: Token) -> None:
    """Refuse `1e3`: nobody writes so on a drawing, and `e` may be a slip."""
    letter = cursor.peek()
    if letter.sort != "word" or letter.text not in "eE" or cursor.is_spaced():
        return
    sign = cursor.peek(1).text if cursor.peek(1).sort == "sign" else ""
    power = cursor.peek(1 + bool(sign))
    if power.sort != "number":
        return
    message = f"{cursor.text[token.column : power.end]!r} has a power of ten in it"
    digits = _without_power(token, sign, power)
    if digits is None:
        raise cursor.refuse("exponent", letter.column, message, "write all digits of the number")
    fixed = cursor.respelled(token.column, power.end, digits)
    raise cursor.refuse("exponent", letter.column, message, f"write {fixed}")


def _without_power(token: Token, sign: str, power: Token) -> str | None:
    """Spell `1e3` as 1000, where that is short enough."""
    if not power.text.isdigit() or int(power.text) > MOST_POWER:
        return None
    ten = Fraction(10) ** (int(power.text) * (1 if sign in ("", "+") else -1))
    return plain(Fraction(token.text) * ten, decimals=2 * MOST_POWER)
