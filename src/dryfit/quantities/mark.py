"""Marks of a nut as typed: `10 deg`, `1/8 turn`, `2 flats of 6`, `1/2 hour` (twelve round it)."""

import re
from dataclasses import dataclass

from dryfit.quantities.quantity import read_quantity
from dryfit.quantities.unreadable import Unreadable

SET_WITHIN = 2.0
"""A mark of a nut is set no better than so many degrees either way: estimate."""

PART_OF_TURN = re.compile(
    r"(.+?)\s+(flats?|slots?|holes?|marks?|divisions?|teeth|tooth|lobes?)\s+(?:of|in)\s+(\d{1,3})"
)
PARTS = re.compile(r".*\d\s*(flat|slot|hole|mark|division|tooth|teeth|lobe)s?")
HOURS = re.compile(r"(.+?)\s*hours?")
ANGLES = re.compile(r"\d\s*(deg|°|turn|rev|rad|hour|flat|slot|hole|mark|division|tooth|teeth|lobe)")


@dataclass(frozen=True, slots=True)
class Mark:
    """Where a nut stands: as typed, how far it is tightened, and one standard deviation [deg]."""

    text: str
    degrees: float
    error: float


def is_mark(text: str) -> bool:
    """Tell whether a text is of the sort that marks a nut, not a thickness.

    >>> is_mark("10 deg"), is_mark("2 flats of 6"), is_mark("0.50 mm")
    (True, True, False)
    """
    return ANGLES.search(text.lower()) is not None


def read_mark(text: str) -> Mark:
    """Read a mark of a nut.

    >>> read_mark("1/8 turn").degrees, read_mark("2 flats of 6").degrees
    (45.0, 120.0)
    >>> read_mark("1 1/2 hours").degrees
    45.0
    """
    typed = " ".join(text.lower().split())
    part, hours = PART_OF_TURN.fullmatch(typed), HOURS.fullmatch(typed)
    factor = 1.0
    if part and int(part[3]):
        value = read_quantity(f"{part[1]} deg", "angle", box=True)
        factor = 360 / int(part[3])
    elif PARTS.fullmatch(typed):
        message = f"{text.strip()!r}: how many of them go round the nut?"
        raise Unreadable("walk.parts", 0, message, f"write {typed} of 6, or how many there are")
    elif hours:
        value, factor = read_quantity(f"{hours[1]} deg", "angle", box=True), 30.0
    else:
        nought = re.fullmatch(r"0+([.,]0+)?", typed)
        value = read_quantity(text, "angle", unit_if_bare="deg" if nought else None, box=True)
    error = SET_WITHIN / 3**0.5
    if value.plus is not None and value.minus is not None:
        error = float(value.plus + value.minus) / 4 * factor
    return Mark(text.strip(), float(value.value) * factor, error)
