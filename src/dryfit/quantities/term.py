"""A value with its tolerance: `12.34 +/- 0.02`, `12.34 +0.02/-0.01`, `2 ft 3 in`, `2° 30'`.

The same grammar for sizes and other quantities; only the reading of units differs and is handed
in.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from dryfit.quantities.number import read_number, starts_number
from dryfit.quantities.rounding import plain
from dryfit.quantities.scan import Cursor, Token
from dryfit.quantities.unreadable import Unreadable

FINER = {"ft": ("in", 12), "deg": ("arcmin", 60), "arcmin": ("arcsec", 60)}
"""Units that may be followed by a second figure in a finer one, and how many make one."""


@dataclass(frozen=True, slots=True)
class Term:
    """One number with its sign and the unit written behind it, if any."""

    value: Fraction
    step: Fraction | None
    unit: str | None
    column: int
    end: int
    unit_column: int

    @property
    def number(self) -> str:
        """The number in plain digits."""
        return plain(self.value)


UnitReader = Callable[[Cursor, bool], str | None]
"""Takes a unit off the cursor, if one comes; told whether it stands behind a tolerance."""


@dataclass(frozen=True, slots=True)
class Terms:
    """A value and what may be added to and taken from it."""

    main: Term
    plus: Term | None
    minus: Term | None


def read_term(cursor: Cursor, read_unit: UnitReader) -> Term | None:
    """Take a signed number with its unit; None if no number comes."""
    sign = cursor.take() if cursor.sees("sign") and starts_number(cursor, 1) else None
    term = _unsigned(cursor, read_unit, in_tolerance=False)
    if term is None:
        return None
    term = _with_finer(cursor, read_unit, term)
    if sign is None:
        return term
    value = term.value if sign.text == "+" else -term.value
    return Term(value, term.step, term.unit, sign.column, term.end, term.unit_column)


def _unsigned(cursor: Cursor, read_unit: UnitReader, *, in_tolerance: bool) -> Term | None:
    """Take a number and the unit behind it."""
    number = read_number(cursor)
    if number is None:
        return None
    column = cursor.peek().column
    unit = read_unit(cursor, in_tolerance)
    end = number.end if unit is None else _end_of_unit(cursor)
    return Term(number.value, number.step, unit, number.column, end, column)


def _end_of_unit(cursor: Cursor) -> int:
    """Where the unit just taken ends: before the white space ahead of the next token."""
    return len(cursor.text[: cursor.peek().column].rstrip())


def _with_finer(cursor: Cursor, read_unit: UnitReader, term: Term) -> Term:
    """Add the inches behind feet, the minutes and seconds of arc behind degrees."""
    while term.unit in FINER and term.step is not None and starts_number(cursor):
        unit, parts = FINER[term.unit]
        finer = _unsigned(cursor, read_unit, in_tolerance=False)
        if finer is None:
            return term
        told = cursor.text[term.column : finer.end]
        if finer.unit != unit:
            message = f"{told!r}: behind {term.unit} a second figure needs the unit {unit}"
            way_out = f"write {term.number} {term.unit} {finer.number} {unit}, or one figure only"
            raise cursor.refuse("unit", finer.column, message, way_out)
        if finer.value >= parts or term.value.denominator != 1:
            message = f"{told!r}: whole {term.unit} first, then less than {parts} {unit}"
            way_out = f"write {plain(term.value * parts + finer.value)} {unit} if that is meant"
            raise cursor.refuse("unit", finer.column, message, way_out)
        value = term.value * parts + finer.value
        term = Term(value, finer.step, unit, term.column, finer.end, finer.unit_column)
    return term


def read_tolerance(cursor: Cursor, read_unit: UnitReader, main: Term) -> Terms:
    """Take `+/- 0.02` or `+0.02/-0.01` behind a value, if it comes."""
    if cursor.sees("tolerance"):
        return _symmetric(cursor, read_unit, main)
    if cursor.sees("sign") and starts_number(cursor, 1):
        return _two_sided(cursor, read_unit, main)
    return Terms(main, None, None)


def _symmetric(cursor: Cursor, read_unit: UnitReader, main: Term) -> Terms:
    """Take `+/- 0.02`."""
    mark = cursor.take()
    if cursor.sees("sign"):
        message = f"a sign behind {mark.text}: a tolerance is never negative"
        way_out = "write it without the sign, as 12.34 +/- 0.02"
        raise cursor.refuse("tolerance", cursor.peek().column, message, way_out)
    side = _unsigned(cursor, read_unit, in_tolerance=True)
    if side is None:
        message = f"no number stands behind {mark.text}"
        raise cursor.refuse("tolerance", mark.column, message, "write it as 12.34 +/- 0.02")
    return Terms(main, side, side)


def _two_sided(cursor: Cursor, read_unit: UnitReader, main: Term) -> Terms:
    """Take `+0.02/-0.01`, in either order."""
    first_sign, first = _side(cursor, read_unit)
    if cursor.sees("stroke", "sign"):
        cursor.take()
    if not (cursor.sees("sign") and starts_number(cursor, 1)):
        raise _one_sided(cursor, main, first_sign, first)
    second_sign, second = _side(cursor, read_unit)
    if (first_sign.text == "+") == (second_sign.text == "+"):
        raise _same_side(cursor, main, (first_sign, first), (second_sign, second))
    return Terms(main, first, second) if first_sign.text == "+" else Terms(main, second, first)


def _side(cursor: Cursor, read_unit: UnitReader) -> tuple[Token, Term]:
    """Take a sign and the number behind it."""
    sign = cursor.take()
    side = _unsigned(cursor, read_unit, in_tolerance=True)
    if side is None:
        message = f"no number stands behind {sign.text}"
        raise cursor.refuse("tolerance", sign.column, message, "write it as 12.34 +0.02/-0.01")
    return sign, side


def _one_sided(cursor: Cursor, main: Term, sign: Token, side: Term) -> Unreadable:
    """Explain `12.34 +0.02`, and `12-13`, which may be a range."""
    unit = f" {main.unit or side.unit}" if main.unit or side.unit else ""
    if sign.text == "+":
        tolerance = f"{main.number}{unit} +{side.number}/-0"
        message = "a plus behind a value without its minus: a tolerance has two sides"
        return cursor.refuse("tolerance", sign.column, message, f"write {tolerance}")
    tolerance = f"{main.number}{unit} +0/-{side.number}"
    if side.value <= main.value:
        message = "a minus between two numbers: a tolerance with one side, or a sum"
        way_out = f"write {tolerance}, or {plain(main.value - side.value)}{unit}"
        return cursor.refuse("tolerance", sign.column, message, way_out)
    return cursor.refuse("range", sign.column, *_range_in_words(main, side, unit))


def _range_in_words(main: Term, side: Term, unit: str) -> tuple[str, str]:
    """Explain two numbers with a dash between them."""
    middle, half = (main.value + side.value) / 2, (side.value - main.value) / 2
    one = f"{plain(middle)} +/- {plain(half)}{unit}"
    message = f"{main.number} and {side.number} with a dash between: a range?"
    return message, f"write {one} for one size, {main.number} to {side.number}{unit} for a range"


def _same_side(
    cursor: Cursor, main: Term, first: tuple[Token, Term], second: tuple[Token, Term]
) -> Unreadable:
    """Explain `12 +0.02/+0.01`: both limits lie on one side of the value."""
    signed = [term.value * (1 if sign.text == "+" else -1) for sign, term in (first, second)]
    middle = main.value + (signed[0] + signed[1]) / 2
    half = abs(signed[0] - signed[1]) / 2
    unit = f" {main.unit}" if main.unit else ""
    message = "both parts of the tolerance have the same sign"
    way_out = f"write the middle of the two limits: {plain(middle)} +/- {plain(half)}{unit}"
    return cursor.refuse("tolerance", second[0].column, message, way_out)
