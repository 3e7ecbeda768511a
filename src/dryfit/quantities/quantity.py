"""Quantities other than lengths: forces, torques, angles, temperatures, speeds, viscosities.

The same grammar as for sizes. A unit is asked for, since no document says what a bare force is.
"""

import re
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction

from dryfit.quantities.finding import a
from dryfit.quantities.number import starts_number
from dryfit.quantities.rounding import plain
from dryfit.quantities.scan import Cursor, check_characters, with_points
from dryfit.quantities.term import Term, Terms, read_term, read_tolerance
from dryfit.quantities.units import BY_NAME, COMMON, IN_DOUBT, KINDS, TO_SI, UNITS, Kind, Unit
from dryfit.quantities.unreadable import Unreadable

FAMILY = "quantity"

_JOIN = re.compile(r"\s*[.·⋅*×\-]\s*|(?<=[A-Za-z°])\s+(?=[A-Za-z])")
_SAME = str.maketrans({"²": "2", "^": None, "μ": "µ", "⁄": "/", "∕": "/", "⁻": "-", "¹": "1"})


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity as it was typed.

    Attributes
    ----------
    text
        As typed, without white space around it.
    kind
        What sort of quantity.
    value
        Exact, in the base unit of its kind: N, N.m, K, m2/s, Pa.s; deg for an angle, rpm for a
        speed, since a radian is no fraction of a turn.
    unit
        The unit typed, by its own name.
    step
        One in the last digit typed, None where a fraction was typed [base unit]
    plus, minus
        The tolerance, both 0 or more, or both None [base unit]
    """

    text: str
    kind: Kind
    value: Fraction
    unit: str
    step: Fraction | None
    plus: Fraction | None = None
    minus: Fraction | None = None

    @property
    def si(self) -> float:
        """The value in SI units: rad for an angle, rad/s for a speed."""
        return float(self.value * TO_SI[self.kind])


def read_quantity(
    text: str, kind: Kind, *, unit_if_bare: str | None = None, box: bool = False
) -> Quantity:
    """Read one quantity with its tolerance.

    Parameters
    ----------
    text
        What was typed: `12.5 N`, `8 lbf.in`, `1/16 turn`, `2° 30'`, `5 +/- 3 K`.
    kind
        What sort of quantity it must be.
    unit_if_bare
        Name of the unit of a bare number; None to refuse a bare number.
    box
        The text comes from a page or the command line: a decimal comma is read.

    Returns
    -------
    quantity
        The quantity, exact, in the base unit of its kind.

    Raises
    ------
    Unreadable
        The text has no reading, or more than one.

    Valid
    -----
    At most 60 characters, no power of ten; no temperature below 0 K.

    Source
    ------
    Factors: NIST SP 811, Appendix B, from memory (see `units`).

    Examples
    --------
    >>> read_quantity("9 F°", "temperature difference").value
    Fraction(5, 1)
    >>> read_quantity("1/16 turn", "angle").si
    0.392699
    """
    check_characters(FAMILY, text)
    cursor = Cursor(FAMILY, with_points(FAMILY, text, box=box))
    reader = _UnitReader(kind)
    main = read_term(cursor, reader)
    if main is None:
        raise _no_number(cursor, kind)
    terms = read_tolerance(cursor, reader, main)
    _check_end(cursor)
    return _settle(cursor, terms, kind, unit_if_bare)


@dataclass(frozen=True, slots=True)
class _UnitReader:
    """Takes units of one kind off a cursor."""

    kind: Kind

    def __call__(self, cursor: Cursor, in_tolerance: bool) -> str | None:
        """Take the unit that comes next; None if there is none."""
        column, end = cursor.peek().column, 0
        while _goes_on(cursor, is_first=not end):
            end = cursor.take().end
        if not end:
            return None
        typed = cursor.text[column:end]
        kind = "temperature difference" if in_tolerance and "temp" in self.kind else self.kind
        unit = find_unit(typed, kind)
        if unit is None:
            raise _unknown(cursor, column, typed, kind)
        if _may_be_inches(cursor, column, unit):
            raise _inches_or_arc(cursor, column, typed, unit)
        return unit.name


def _may_be_inches(cursor: Cursor, column: int, unit: Unit) -> bool:
    """Tell whether the mark of a unit of arc may be meant for inches or feet.

    It is clear behind degrees or minutes, as in `2° 30' 15"`, and on a whole `30'`.
    """
    if unit.name not in ("arcmin", "arcsec") or cursor.text[column].isalpha():
        return False
    if re.search(r"[°'′’]|deg|arcmin", cursor.text[:column]):
        return False
    return unit.name == "arcsec" or _ends_in_fraction(cursor.text[:column])


def _ends_in_fraction(text: str) -> bool:
    """Tell whether `1/16` or ½ ends the text."""
    return re.search(r"[/⁄∕¼-¾⅐-⅞][0-9]*$", text.rstrip()) is not None


def _goes_on(cursor: Cursor, *, is_first: bool) -> bool:
    """Tell whether the coming token belongs to the unit.

    `1/min` begins with a number, `mm2/s` has one inside; `30'` behind `2°` is a new figure.
    """
    token = cursor.peek()
    if token.sort in ("end", "tolerance"):
        return False
    if is_first and cursor.sees("number", "stroke", "word"):
        return token.text == "1"
    if cursor.sees("stroke", "sign"):
        return False
    if token.sort == "sign":
        return not is_first and not cursor.is_spaced() and cursor.peek(1).sort != "end"
    if starts_number(cursor):
        before = cursor.text[token.column - 1]
        return not is_first and not before.isspace() and before not in "°'\"′″’”"
    return True


def find_unit(typed: str, kind: Kind) -> Unit | None:
    """Look a unit up by any of its spellings.

    Capitals do not matter, except that a leading M may be meant for a million.

    >>> find_unit("ft-lb", "torque").name, find_unit("N·m", "torque").name
    ('lbf.ft', 'N.m')
    """
    table = UNITS[kind]
    if typed in table:
        return table[typed]
    spelling = _JOIN.sub(".", typed.translate(_SAME).strip())
    spelling = re.sub(r"\s+", "", spelling)
    if spelling in table or spelling.startswith("M"):
        return table.get(spelling)
    return _FOLDED[kind].get(spelling.lower())


_FOLDED = {kind: {name.lower(): unit for name, unit in UNITS[kind].items()} for kind in KINDS}


def _unknown(cursor: Cursor, column: int, typed: str, kind: Kind) -> Unreadable:
    """Say why these letters are no unit of this kind, and which may be meant."""
    number = cursor.text[:column].strip()
    if typed[0].isdigit():
        message = f"a second number in {cursor.text.strip()!r}, with nothing that joins the two"
        return cursor.refuse("two numbers", column, message, "write one value only")
    if "by" in typed.lower().split():
        message = "an instrument is named for sizes only"
        return cursor.refuse("by", column, message, "write the value and its unit alone")
    doubt = IN_DOUBT[kind].get(typed)
    if doubt is not None:
        message = f"{typed!r} says too little for {a(kind)}"
        return cursor.refuse(
            "unit", column, message, "write " + " or ".join(f"{number} {one}" for one in doubt)
        )
    other = next((name for name in KINDS if find_unit(typed, name)), None)
    names = {name.lower(): name for name in BY_NAME[kind]}
    near = [] if other else get_close_matches(typed.lower(), names, n=1)
    said = f"a unit of {other}, not of {kind}" if other else f"no unit of {kind}"
    offered = ", ".join(COMMON[kind])
    way_out = f"did you mean {number} {names[near[0]]}?" if near else f"write one of: {offered}"
    return cursor.refuse("unit", column, f"{typed!r} is {said}", way_out)


def _inches_or_arc(cursor: Cursor, column: int, typed: str, unit: Unit) -> Unreadable:
    """Explain `1/16"` for an angle: inches round the nut, a turn, or seconds of arc."""
    number = cursor.text[:column].strip()
    message = f"{number}{typed} for an angle: a length round the rim, a turn, or {unit.name}?"
    turn = f"{number} turn, or " if _ends_in_fraction(number) else ""
    way_out = f"write {turn}{number} {unit.name}; a length round the rim is no angle"
    return cursor.refuse("unit", column, message, way_out)


def _no_number(cursor: Cursor, kind: Kind) -> Unreadable:
    """Say that the text does not begin with a number."""
    token = cursor.peek()
    told = cursor.text.strip()
    example = f"write a number with one of: {', '.join(COMMON[kind])}"
    if token.sort == "end":
        return cursor.refuse("empty", token.column, f"no {kind} is given", example)
    if token.text == "?":
        way_out = f"leave the entry out if the {kind} is not known"
        return cursor.refuse("question mark", token.column, "a bare question mark", way_out)
    message = f"no number begins {told!r}, which should be {a(kind)}"
    return cursor.refuse("not a number", token.column, message, example)


def _check_end(cursor: Cursor) -> None:
    """Refuse whatever stands behind a value that was read whole."""
    token = cursor.peek()
    if token.sort == "end":
        return
    code = "two numbers" if starts_number(cursor) else "not a number"
    message = f"{token.text!r} has no meaning there in {cursor.text.strip()!r}"
    raise cursor.refuse(code, token.column, message, "write one value only, as 12.5 +/- 0.5")


def _settle(cursor: Cursor, terms: Terms, kind: Kind, unit_if_bare: str | None) -> Quantity:
    """Give every number its unit, and turn all into the base unit."""
    main, plus, minus = terms.main, terms.plus, terms.minus
    sides = () if plus is None or minus is None else (plus, minus)
    shared = next((side.unit for side in reversed(sides) if side.unit), None)
    name = main.unit or _as_main(shared, kind) or unit_if_bare
    if name is None:
        raise _no_unit(cursor, main, kind)
    unit = BY_NAME[kind][name]
    value = main.value * unit.factor + unit.offset
    if kind == "temperature" and value < 0:
        told = cursor.text[main.column : main.end]
        message = f"{told} is below absolute zero (-273.15 °C, -459.67 °F)"
        raise cursor.refuse("cold", main.column, message, "write a temperature above it")
    step = None if main.step is None else main.step * unit.factor
    widths = [side.value * _scale(side.unit or shared or name, kind) for side in sides]
    return Quantity(cursor.text.strip(), kind, value, name, step, *widths)


def _as_main(shared: str | None, kind: Kind) -> str | None:
    """Turn the unit of a tolerance into that of the value before it: C° into °C, but not K."""
    if kind != "temperature":
        return shared
    return {"C°": "°C", "F°": "°F"}.get(shared or "")


def _scale(name: str, kind: Kind) -> Fraction:
    """Size of a unit, where only differences count."""
    known = BY_NAME[kind].get(name) or BY_NAME["temperature difference"][name]
    return known.factor


def _no_unit(cursor: Cursor, main: Term, kind: Kind) -> Unreadable:
    """Say that a unit is missing."""
    two = COMMON[kind][:2]
    ways = " or ".join(cursor.respelled(main.end, main.end, f" {name}") for name in two)
    message = f"{plain(main.value)} has no unit, and {a(kind)} has several"
    return cursor.refuse("unit", main.end, message, f"write {ways}")
