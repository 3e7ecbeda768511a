"""Sizes as typed at the bench: read exactly, never guessed at.

`read_size` reads one size with its tolerance and instrument. A text with no reading or with two is
`Unreadable`, which names the character in doubt and spells out what to type instead. The steps are
also used by `limits`, which reads ranges.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from dryfit.quantities.lengths import (
    BARE_TENTHS,
    DEFAULT,
    FACTOR,
    INCH_UNITS,
    SMALL_UNITS,
    System,
    read_length_unit,
)
from dryfit.quantities.number import starts_number
from dryfit.quantities.rounding import plain
from dryfit.quantities.scan import Cursor, check_characters, find_by, with_points
from dryfit.quantities.term import Term, Terms, read_term, read_tolerance
from dryfit.quantities.unreadable import OR_NOT_KNOWN, Unreadable

FAMILY = "size"


@dataclass(frozen=True, slots=True)
class Size:
    """A length as it was typed.

    Attributes
    ----------
    text
        As typed, without white space around it.
    value
        The size, exact [mm]
    unit
        Unit of the typed value; behind feet and inches `in`.
    step
        One in the last digit typed, None where a fraction was typed [mm]
    plus, minus
        The tolerance, both 0 or more, or both None [mm]
    instrument
        What it was measured with, as typed.
    """

    text: str
    value: Fraction
    unit: str
    step: Fraction | None
    plus: Fraction | None = None
    minus: Fraction | None = None
    instrument: str | None = None

    @property
    def mm(self) -> float:
        """The size as a binary number [mm]."""
        return float(self.value)


@dataclass(frozen=True, slots=True)
class NotKnown:
    """A size that nobody has measured yet."""

    text: str


def read_size(text: str, system: System, *, box: bool = False) -> Size | NotKnown:
    """Read one size.

    Parameters
    ----------
    text
        What was typed.
    system
        What a bare number means.
    box
        The text comes from a page or the command line: `?` is an unknown, a decimal comma is read.

    Returns
    -------
    size
        The size [mm], or `NotKnown` for an empty text and for `not known`.

    Raises
    ------
    Unreadable
        The text has no reading, or more than one.

    Valid
    -----
    At most 60 characters, no power of ten.

    Source
    ------
    1 in = 25.4 mm exactly: NIST SP 811, Appendix B, from memory.

    Examples
    --------
    >>> read_size("12.340 by micrometer", "mm").instrument
    'micrometer'
    >>> read_size("1 5/8 in", "mm").mm
    41.275
    """
    typed = text.strip()
    if _is_not_known(typed, box=box):
        return NotKnown(typed)
    check_characters(FAMILY, text)
    stop, instrument = _instrument(text) if "y" in text or "Y" in text else (None, None)
    cursor = Cursor(FAMILY, with_points(FAMILY, text, box=box), stop=stop)
    terms = take_terms(cursor)
    check_end(cursor)
    return Size(typed, *settle(cursor, terms, system), instrument=instrument)


def _is_not_known(typed: str, *, box: bool) -> bool:
    """Tell whether the text says that the size is not known."""
    if not typed or typed == "?":
        return box or not typed
    return typed[0] in "nN" and " ".join(typed.lower().split()) == "not known"


def _instrument(text: str) -> tuple[int | None, str | None]:
    """Split off the instrument: where the size ends, and the words behind `by`."""
    found = find_by(text)
    if found is None:
        return None, None
    words = " ".join(text[found.end() :].split())
    if not words:
        way_out = "write the instrument behind it, as 12.34 by micrometer, or leave by out"
        raise Unreadable("size.by", found.start(), "nothing stands behind by", way_out)
    if not words[0].isalpha() and _is_size(words):
        message = f"by stands before {words}: two sizes, or a size and an instrument?"
        way_out = f"write one size only, as {text[: found.start()].strip()}"
        raise Unreadable("size.two numbers", found.start(), message, way_out)
    mark = next((mark for mark in ("+/-", "±") if mark in words), None)
    if mark is not None:
        size, (name, _, tolerance) = text[: found.start()].strip(), words.partition(mark)
        message = "the tolerance stands behind the instrument"
        way_out = f"write {size} +/- {tolerance.strip()} by {name.strip()}"
        raise Unreadable("size.by", text.index(mark, found.end()), message, way_out)
    return found.start(), words


def _is_size(words: str) -> bool:
    """Tell whether the words behind `by` are a size themselves, as in `40 by 80`."""
    try:
        return isinstance(read_size(words, "inch", box=True), Size)
    except Unreadable:
        return False


def take_terms(cursor: Cursor) -> Terms:
    """Take the value and its tolerance."""
    main = read_term(cursor, read_length_unit)
    if main is None:
        raise _no_number(cursor)
    return read_tolerance(cursor, read_length_unit, main)


def _no_number(cursor: Cursor) -> Unreadable:
    """Say why the text does not begin with a number."""
    token = cursor.peek()
    told = cursor.text.strip()
    if token.text == "?":
        message = "a bare question mark"
        return cursor.refuse("question mark", token.column, message, "write: not known")
    if token.sort == "tolerance":
        message = f"no size stands before {token.text}"
        return cursor.refuse("tolerance", token.column, message, "write it as 12.34 +/- 0.02")
    ahead = next((ahead for ahead in range(5) if starts_number(cursor, ahead)), None)
    if ahead is None:
        message = f"no number begins {told!r}"
        way_out = f"write a size such as 12.34, 0.4856 in or 12 thou{OR_NOT_KNOWN}"
        return cursor.refuse("not a number", token.column, message, way_out)
    rest = cursor.text[cursor.peek(ahead).column :].strip()
    message = f"{told!r} begins with {cursor.text[token.column : cursor.peek(ahead).column]!r}"
    if token.text == "~" or token.text.lower() in ("about", "approx", "around", "ca", "circa"):
        way_out = f"write how far off it may be: {rest} +/- and your doubt"
        return cursor.refuse("about", token.column, message, way_out)
    way_out = f"write the size alone, as {cursor.peek(ahead).text}{OR_NOT_KNOWN}"
    return cursor.refuse("not a number", token.column, message, way_out)


def check_end(cursor: Cursor) -> None:
    """Refuse whatever stands behind a size that was read whole."""
    token = cursor.peek()
    if token.sort == "end":
        return
    told = cursor.text.strip()
    if starts_number(cursor):
        message = f"a second number in {told!r}, with nothing that joins the two"
        way_out = "write one size only; a fraction as 1 5/8, a range as 12.5 +/- 0.5"
        raise cursor.refuse("two numbers", token.column, message, way_out)
    message = f"{token.text!r} has no meaning there in {told!r}"
    code = "fraction" if token.sort == "stroke" else "not a number"
    way_out = "write a size such as 12.34, 12.34 +/- 0.02, 5/8 in or 12 thou"
    raise cursor.refuse(code, token.column, message, way_out)


class Settled(NamedTuple):
    """What a size comes to, once every number has its unit [mm]."""

    value: Fraction
    unit: str
    step: Fraction | None
    plus: Fraction | None = None
    minus: Fraction | None = None


def settle(cursor: Cursor, terms: Terms, system: System) -> Settled:
    """Give every number its unit, and turn all into millimetres."""
    main, plus, minus = terms.main, terms.plus, terms.minus
    shared = None
    if plus is not None and minus is not None:
        shared = minus.unit or plus.unit
    if plus is not None and main.unit is None and shared in SMALL_UNITS:
        settle_unit(cursor, plus, shared, system)
        raise _covers_what(cursor, terms, shared, system)
    unit = settle_unit(cursor, main, main.unit or shared or DEFAULT[system], system)
    factor = FACTOR[unit]
    step = None if main.step is None else main.step * factor
    if plus is None or minus is None:
        return Settled(main.value * factor, unit, step)
    measure: System = "inch" if unit in INCH_UNITS else "mm"
    sides = [
        side.value * FACTOR[settle_unit(cursor, side, side.unit or shared or unit, measure)]
        for side in (plus, minus)
    ]
    return Settled(main.value * factor, unit, step, *sides)


def settle_unit(cursor: Cursor, term: Term, unit: str, measure: System) -> str:
    """Settle the unit of one number, where `measure` is what stands around it."""
    if unit == BARE_TENTHS:
        if measure == "inch":
            return "tenth"
        inches, mm = plain(term.value / 10000), plain(term.value / 10)
        message = "tenths beside millimetres may be of a thou or of a millimetre"
        way_out = f"write {inches} in (tenths of a thou) or {mm} mm (tenths of a millimetre)"
        raise cursor.refuse("tenths in mm", term.unit_column, message, way_out)
    if term.step is None and term.unit is None and unit not in INCH_UNITS:
        typed = cursor.text[term.column : term.end]
        decimals = plain(term.value)
        message = f"{typed} is a fraction with no unit, where millimetres are the measure"
        way_out = f"write {typed} in, or {decimals} {unit} if millimetres are meant"
        raise cursor.refuse("fraction in mm", term.column, message, way_out)
    return unit


def _covers_what(cursor: Cursor, terms: Terms, small: str, system: System) -> Unreadable:
    """Explain `12.34 +/- 12 um`: the unit may be meant for both numbers or for the last."""
    main = terms.main
    message = f"does {small} stand for both numbers, or for the tolerance only?"
    ways = [cursor.respelled(main.end, main.end, f" {unit}") for unit in (DEFAULT[system], small)]
    return cursor.refuse("unit", main.end, message, f"write {ways[0]}, or {ways[1]}")
