"""Units of length as they are written in a workshop.

Factors are exact. Source: the international inch of 25.4 mm, foot of 12 in (NIST SP 811,
Appendix B, from memory). A tenth is a tenth of a thou, 0.0001 in; where millimetres are the
measure the word alone is not enough.
"""

from difflib import get_close_matches
from fractions import Fraction
from typing import Literal

from dryfit.quantities.rounding import plain
from dryfit.quantities.scan import Cursor

System = Literal["mm", "inch"]
"""How a document is measured: what a bare number means."""

INCH = Fraction(254, 10)

FACTOR = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "um": Fraction(1, 1000),
    "in": INCH,
    "ft": 12 * INCH,
    "thou": INCH / 1000,
    "tenth": INCH / 10000,
}
"""Millimetres in each unit."""

INCH_UNITS = frozenset({"in", "ft", "thou", "tenth"})
SMALL_UNITS = frozenset({"um", "thou", "tenth", "tenths"})
"""Units in which nobody gives a whole size together with its tolerance."""

DEFAULT: dict[System, str] = {"mm": "mm", "inch": "in"}

BARE_TENTHS = "tenths"
"""Not a unit yet: a tenth of a thou if inches are the measure, else in doubt."""

_SPELLINGS = {
    "mm": "mm millimetre millimetres millimeter millimeters",
    "cm": "cm centimetre centimetres centimeter centimeters",
    "m": "m metre metres meter meters",
    "um": "um µm micron microns micrometre micrometres",
    "in": "in inch inches \" ” ″ ''",
    "ft": "ft foot feet ' ′ ’",
    "thou": "thou thous",
    BARE_TENTHS: "tenth tenths",
}
NAMES = {spelling: unit for unit, all_ in _SPELLINGS.items() for spelling in all_.split()}
NAMES |= dict.fromkeys(("tenth of a thou", "tenths of a thou"), "tenth")

_IN_DOUBT: dict[str, tuple[str, str, tuple[tuple[str, str], ...]]] = {
    "mil": ("mil", "a mil may be a thou or a millimetre", (("1", "thou"), ("1", "mm"))),
    "micrometer": (
        "unit",
        "a micrometer is an instrument, and to some a unit",
        (("1", "um"), ("1", "by micrometer")),
    ),
    "thousandth": (
        "unit",
        "a thousandth may be of an inch or of a millimetre",
        (("1", "thou"), ("1", "um")),
    ),
    "hundredth": ("unit", "a hundredth of what?", (("0.01", "mm"), ("0.01", "in"))),
}
"""Words with two meanings: code, why, and the clear spellings (how many of which unit)."""


def read_length_unit(cursor: Cursor, in_tolerance: bool = False) -> str | None:
    """Take the unit that comes next; None if there is none."""
    column = cursor.peek().column
    end = column
    while cursor.sees("word") or cursor.sees("quote") or cursor.sees("other"):
        end = cursor.take().end
    if end == column:
        return None
    typed = cursor.text[column:end]
    unit = NAMES.get(typed) or _folded(typed)
    if unit is None:
        raise _refused(cursor, column, end, typed)
    return unit


def _folded(typed: str) -> str | None:
    """Look a unit up without regard to capitals and spaces; a lone M is no metre."""
    if typed == "M":
        return None
    return NAMES.get(" ".join(typed.replace("μ", "µ").lower().split()))


def _refused(cursor: Cursor, column: int, end: int, typed: str) -> Exception:
    """Say why these letters are no unit of length."""
    if "?" in typed:
        message = f"a question mark in {cursor.text.strip()!r}"
        way_out = "write the doubt as a tolerance (12.3 +/- 0.1), or: not known"
        return cursor.refuse("question mark", column + typed.index("?"), message, way_out)
    if "," in typed or ";" in typed:
        place = column + min(typed.find(mark) for mark in ",;" if mark in typed)
        message = f"a list in {cursor.text.strip()!r}: one value is read here"
        return cursor.refuse("list", place, message, "write one value only")
    number = cursor.text[:column].strip()
    if typed.lower() == "to":
        message = f"{cursor.text.strip()!r} is half a range, or a range where one size is read"
        way_out = "write one size as 12.5 +/- 0.5, two limits as 12 to 13"
        return cursor.refuse("range", column, message, way_out)
    doubt = _IN_DOUBT.get(typed.lower().rstrip("s"))
    if doubt is not None:
        return cursor.refuse(doubt[0], column, f"{typed!r}: {doubt[1]}", _ways(number, doubt[2]))
    if typed == "M":
        message = "a capital M stands for a thread or for a million, not for metres"
        return cursor.refuse("unit", column, message, f"write {number} mm, or {number} m")
    words = typed.replace('"', ' " ').replace("'", " ' ").split()
    if len(words) > 1 and all(_folded(word) for word in words):
        way_out = "write " + " or ".join(dict.fromkeys(f"{number} {word}" for word in words))
        place = column + typed.rindex(words[-1])
        return cursor.refuse("double unit", place, f"two units in {typed!r}", way_out)
    return _unknown(cursor, column, end, typed)


def _ways(number: str, ways: tuple[tuple[str, str], ...]) -> str:
    """Spell out what a word in doubt may have meant."""
    try:
        value = Fraction(number)
    except ValueError:
        return "write one of: " + ", ".join(unit for _, unit in ways)
    return "write " + " or ".join(f"{plain(value * Fraction(n))} {unit}" for n, unit in ways)


def _unknown(cursor: Cursor, column: int, end: int, typed: str) -> Exception:
    """Name the unit that was probably meant."""
    plain_names = [name for name in NAMES if name.isalpha()]
    near = get_close_matches(typed.lower(), plain_names, n=1)
    if near:
        way_out = f"did you mean {cursor.respelled(column, end, near[0])}?"
    else:
        way_out = "lengths are in mm, cm, m, um, in, ft, thou or tenths of a thou"
    return cursor.refuse("unit", column, f"{typed!r} is no unit of length", way_out)
