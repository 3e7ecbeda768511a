"""Limits of a preload: `light`, `none to light`, `150 to 400 N`, `at least 100 N`."""

import re
from dataclasses import dataclass

from dryfit.quantities.quantity import read_quantity
from dryfit.quantities.unreadable import Unreadable

CLASSES = ("none", "light", "medium", "heavy")
"""Words for how hard rows are preloaded, from the lightest."""

EXAMPLE = "write light, none to light, or 150 to 400 N"

_ONE_SIDE = re.compile(r"\s*at\s+(least|most)\s+", re.IGNORECASE)
_TO = re.compile(r"\s+to\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class PreloadRange:
    """What preload is wanted, in words or in newtons.

    Attributes
    ----------
    text
        As typed.
    classes
        First and last of `CLASSES` that will do, or None.
    low, high
        Limits of the force [N]; None where there is none.
    """

    text: str
    classes: tuple[str, str] | None = None
    low: float | None = None
    high: float | None = None


def read_preload(text: str) -> PreloadRange:
    """Read limits of a preload.

    Parameters
    ----------
    text
        One or two of `CLASSES`, or forces

    Returns
    -------
    limits
        In words or in newtons

    Raises
    ------
    Unreadable
        The text is neither.

    Valid
    -----
    Forces as `read_quantity` reads them; a unit behind the second covers both.

    Source
    ------
    None needed.

    Examples
    --------
    >>> read_preload("none to light").classes, read_preload("150 to 400 N").high
    (('none', 'light'), 400.0)
    """
    words = [word.lower() for word in _TO.split(text.strip())]
    if len(words) <= 2 and set(words) <= {*CLASSES}:
        return _classes(text, words)
    if "harmful" in words:
        raise Unreadable("preload", 0, f"'{text}': nobody wants that", EXAMPLE)
    one_side = _ONE_SIDE.match(text)
    if one_side:
        limit = _force(text[one_side.end() :], one_side.end())
        is_low = one_side[1].lower() == "least"
        return PreloadRange(text.strip(), None, *((limit, None) if is_low else (None, limit)))
    found = _TO.search(text)
    if found is None:
        raise Unreadable("preload", 0, f"'{text}' gives no limits of a preload", EXAMPLE)
    first, second = text[: found.start()], text[found.end() :]
    unit = re.sub(r"^[\s\d.]+", "", second)
    low = _force(first if re.search(r"[a-zA-Z]", first) else f"{first} {unit}", 0)
    high = _force(second, found.end())
    if low > high:
        way_out = f"write the smaller one first: {second.strip()} to {first.strip()}"
        raise Unreadable("preload", 0, f"the first limit of '{text}' is the larger", way_out)
    return PreloadRange(text.strip(), None, low, high)


def _classes(text: str, words: list[str]) -> PreloadRange:
    first, last = words[0], words[-1]
    if CLASSES.index(first) > CLASSES.index(last):
        message, way_out = f"'{text}' begins with the heavier", f"write {last} to {first}"
        raise Unreadable("preload", 0, message, way_out)
    return PreloadRange(text.strip(), (first, last))


def _force(text: str, column: int) -> float:
    try:
        force = read_quantity(text.strip(), "force").si
    except Unreadable as wrong:
        raise Unreadable(wrong.code, wrong.column + column, wrong.message, EXAMPLE) from wrong
    if force < 0:
        message = f"a preload of {text.strip()}: it cannot be less than nought"
        raise Unreadable("preload", column, message, EXAMPLE)
    return force
