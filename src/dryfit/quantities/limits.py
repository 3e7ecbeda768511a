"""Limits of a length: `0.05 to 0.15`, `2 to 6 thou`, `0.10 +/- 0.05`, `at least 0.02`."""

import re
from dataclasses import dataclass
from fractions import Fraction

from dryfit.quantities.lengths import DEFAULT, FACTOR, INCH_UNITS, SMALL_UNITS, System
from dryfit.quantities.rounding import plain
from dryfit.quantities.scan import Cursor, check_characters, find_by, with_points
from dryfit.quantities.size import FAMILY, check_end, settle, settle_unit, take_terms
from dryfit.quantities.term import Term
from dryfit.quantities.unreadable import Unreadable

_TO = re.compile(r"(?<=\s)to(?=\s)", re.IGNORECASE)
_AT = re.compile(r"\s*at\s+(least|most)(?=\s|$)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class SizeRange:
    """Limits of a length; None where there is no limit [mm]."""

    text: str
    low: Fraction | None
    high: Fraction | None


def read_range(text: str, system: System, *, box: bool = False) -> SizeRange:
    """Read limits of a length.

    Parameters
    ----------
    text
        `0.05 to 0.15`, `2 to 6 thou`, `0.10 +/- 0.05`, `at least 0.02`, `at most 6 thou`.
    system
        What a bare number means.
    box
        The text comes from a page or the command line: a decimal comma is read.

    Returns
    -------
    limits
        Low and high limit [mm]

    Raises
    ------
    Unreadable
        The text has no reading, or more than one; limits are never `not known`.

    Valid
    -----
    At most 60 characters, no power of ten. A unit behind the second number covers both.

    Source
    ------
    1 in = 25.4 mm exactly: NIST SP 811, Appendix B, from memory.

    Examples
    --------
    >>> limits = read_range("2 to 6 thou", "mm")
    >>> float(limits.low), float(limits.high)
    (0.0508, 0.1524)
    """
    check_characters(FAMILY, text)
    by = find_by(text)
    if by is not None:
        message = "an instrument behind limits, which nobody measured"
        way_out = f"write {text[: by.start()].strip() or '0.05 to 0.15'}"
        raise Unreadable("size.by", by.start(), message, way_out)
    pointed = with_points(FAMILY, text, box=box)
    one_side = _AT.match(pointed)
    if one_side is not None:
        return _one_limit(pointed, one_side, system)
    between = _TO.search(pointed)
    if between is not None:
        return _two_limits(pointed, between, system)
    return _around(pointed, system)


def _one_limit(text: str, words: re.Match[str], system: System) -> SizeRange:
    """Read `at least 0.02` and `at most 6 thou`."""
    cursor = Cursor(FAMILY, text, start=words.end())
    limit = _limit(cursor)
    value = limit.value * FACTOR[settle_unit(cursor, limit, limit.unit or DEFAULT[system], system)]
    is_low = words[1].lower() == "least"
    return SizeRange(text.strip(), value if is_low else None, None if is_low else value)


def _limit(cursor: Cursor) -> Term:
    """Take a limit, which has no tolerance of its own, and see that nothing is left."""
    terms = take_terms(cursor)
    if terms.plus is not None:
        message = "a limit with a tolerance of its own"
        way_out = f"write the limit alone: {terms.main.number} {terms.main.unit or ''}".rstrip()
        raise cursor.refuse("range", terms.main.end, message, way_out)
    check_end(cursor)
    return terms.main


def _two_limits(text: str, between: re.Match[str], system: System) -> SizeRange:
    """Read `2 to 6 thou`."""
    first, second = (
        Cursor(FAMILY, text, stop=between.start()),
        Cursor(FAMILY, text, start=between.end()),
    )
    low, high = _limit(first), _limit(second)
    inches = {low.unit, high.unit} & INCH_UNITS
    measure: System = "inch" if inches else system
    for cursor, term in ((first, low), (second, high)):
        if term.unit is not None:
            settle_unit(cursor, term, term.unit, measure)
    _check_cover(second, low, high, system)
    shared = high.unit or DEFAULT[system]
    top = high.value * FACTOR[settle_unit(second, high, shared, measure)]
    bottom = low.value * FACTOR[settle_unit(first, low, low.unit or shared, measure)]
    if bottom > top:
        message = f"the first limit of {text.strip()!r} is the larger"
        typed = text[high.column : high.end], text[low.column : low.end]
        way_out = f"write the smaller one first: {typed[0]} to {typed[1]}"
        raise first.refuse("range", low.column, message, way_out)
    return SizeRange(text.strip(), bottom, top)


def _check_cover(cursor: Cursor, low: Term, high: Term, system: System) -> None:
    """Refuse a unit on one limit only, where it makes two readings.

    `2 to 6 thou` is clear in either system, for 2 mm and 2 in are more than 6 thou.
    """
    own = DEFAULT[system]
    if high.unit is None and low.unit not in (None, own):
        message = f"does {low.unit} stand for the second limit too?"
        ways = [cursor.respelled(high.end, high.end, f" {unit}") for unit in (low.unit, own)]
        raise cursor.refuse("unit", high.end, message, f"write {ways[0]}, or {ways[1]}")
    if low.unit is not None or high.unit not in SMALL_UNITS or low.value <= 0:
        return
    small = FACTOR["tenth"] if high.unit == "tenths" else FACTOR[high.unit]
    if low.value * FACTOR[own] <= high.value * small:
        message = f"does {high.unit} stand for the first limit too?"
        ways = [cursor.respelled(low.end, low.end, f" {unit}") for unit in (high.unit, own)]
        raise cursor.refuse("unit", low.end, message, f"write {ways[0]}, or {ways[1]}")


def _around(text: str, system: System) -> SizeRange:
    """Read `0.10 +/- 0.05`."""
    cursor = Cursor(FAMILY, text)
    if cursor.peek().sort == "end" or " ".join(text.lower().split()) in ("not known", "?"):
        told = f"{text.strip()!r} was" if text.strip() else "nothing was"
        message = f"limits are needed, and {told} typed"
        way_out = "write limits, as 0.05 to 0.15, or leave the whole entry out"
        raise cursor.refuse("range", cursor.peek().column, message, way_out)
    terms = take_terms(cursor)
    check_end(cursor)
    if terms.plus is None:
        raise _one_number(cursor, terms.main)
    size = settle(cursor, terms, system)
    return SizeRange(text.strip(), size.value - (size.minus or 0), size.value + (size.plus or 0))


def _one_number(cursor: Cursor, main: Term) -> Unreadable:
    """Explain that one number makes no range."""
    typed = cursor.text[main.column : main.end]
    half = plain(abs(main.value) / 2)
    message = f"one number, {typed}, where limits are needed"
    way_out = f"write at least {typed}, at most {typed}, or {typed} +/- {half}"
    return cursor.refuse("range", main.column, message, way_out)
