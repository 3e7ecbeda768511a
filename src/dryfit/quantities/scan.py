"""Typed text cut into tokens, with a cursor that walks over them.

Shared by sizes and other quantities. Nothing here knows a unit. Every pattern moves forward at
each step, so the time grows in a straight line with the length of the text.
"""

import re
from typing import NamedTuple

from dryfit.quantities.unreadable import Unreadable

MOST = 60
"""Characters a value may have."""

_TOKEN = re.compile(
    r"""
     (?P<space>\s+)
    |(?P<number>[0-9][0-9.]*|\.[0-9][0-9.]*)
    |(?P<tolerance>±|\+/?[-−–])
    |(?P<sign>[+\-−–])
    |(?P<stroke>[/⁄∕])
    |(?P<vulgar>[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒])
    |(?P<word>[A-Za-zµμ]+)
    |(?P<quote>''|["”″'’′°])
    |(?P<other>.)
    """,
    re.VERBOSE | re.DOTALL,
)
_FIGURE = re.compile(r"[0-9.]*,(?=[0-9])[0-9.,]*")
_BY = re.compile(r"(?:^|(?<=\s))by(?=\s|$)", re.IGNORECASE)


class Token(NamedTuple):
    """One piece of the text: its sort, its letters and where it begins."""

    sort: str
    text: str
    column: int

    @property
    def end(self) -> int:
        """Where the next piece may begin."""
        return self.column + len(self.text)


class Cursor:
    """Walks over the tokens of one typed value.

    Attributes
    ----------
    family
        First word of the codes of its troubles: `size` or `quantity`.
    text
        The whole text as handed over; columns count in it.
    """

    __slots__ = ("_at", "_last", "_tokens", "family", "text")

    def __init__(self, family: str, text: str, *, start: int = 0, stop: int | None = None) -> None:
        self.family = family
        self.text = text
        end = len(text.rstrip()) if stop is None else stop
        self._tokens = [
            Token(match.lastgroup or "", match[0], match.start())
            for match in _TOKEN.finditer(text, start, end)
            if match.lastgroup != "space"
        ]
        self._last = Token("end", "", end)
        self._at = 0

    def peek(self, ahead: int = 0) -> Token:
        """Show a coming token without taking it."""
        at = self._at + ahead
        return self._tokens[at] if at < len(self._tokens) else self._last

    def take(self) -> Token:
        """Take the next token."""
        token = self.peek()
        self._at += 1
        return token

    def sees(self, *sorts: str) -> bool:
        """Tell whether the coming tokens are of these sorts, in this order."""
        return all(self.peek(ahead).sort == sort for ahead, sort in enumerate(sorts))

    def is_spaced(self, ahead: int = 0) -> bool:
        """Tell whether white space stands before a coming token."""
        column = self.peek(ahead).column
        return column > 0 and self.text[column - 1].isspace()

    def refuse(self, code: str, column: int, message: str, way_out: str) -> Unreadable:
        """Make the trouble to be raised."""
        return Unreadable(f"{self.family}.{code}", column, message, way_out)

    def respelled(self, start: int, end: int, spelling: str) -> str:
        """Give the whole text with one stretch spelled another way."""
        return (self.text[:start] + spelling + self.text[end:]).strip()


def check_characters(family: str, text: str) -> None:
    """Refuse a text that is too long, or that holds a character nobody can see."""
    if len(text) > MOST and len(text.strip()) > MOST:
        message = f"{len(text.strip())} characters are too many for one value (at most {MOST})"
        raise Unreadable(f"{family}.long", MOST, message, "write the value alone, notes elsewhere")
    if text.isprintable():
        return
    for column, character in enumerate(text):
        if not character.isprintable() and not character.isspace():
            message = f"an unseen character (U+{ord(character):04X}) stands in {text!r}"
            raise Unreadable(f"{family}.character", column, message, "delete it and type it anew")


def with_points(family: str, text: str, *, box: bool) -> str:
    """Settle commas between digits: a decimal comma in a page box, else refused.

    The answer is as long as the text, so columns stay.
    """
    if "," not in text:
        return text
    figures = list(_FIGURE.finditer(text))
    for match in figures:
        _check_comma(family, text, match)
    if figures and not box:
        column = text.index(",", figures[0].start())
        fixed = _FIGURE.sub(lambda match: match[0].replace(",", "."), text).strip()
        message = f"a comma between digits in {text.strip()!r}: decimals have a point here"
        raise Unreadable(f"{family}.comma", column, message, f"write {fixed}")
    return _FIGURE.sub(lambda match: match[0].replace(",", "."), text)


def _check_comma(family: str, text: str, match: re.Match[str]) -> None:
    """Refuse a figure with more than one comma, or with a comma and a point."""
    figure = match[0]
    if figure.count(",") == 1 and "." not in figure:
        return
    column = text.index(",", match.start())
    head, _, tail = figure.rpartition(max(",.", key=figure.rfind))
    first, _, rest = figure.replace(".", ",").partition(",")
    thousands = f"{head.replace(',', '').replace('.', '')}.{tail}"
    decimals = f"{first or 0}.{rest.replace(',', '')}"
    if "." not in figure:
        thousands = figure.replace(",", "")
    message = f"{figure!r} may be {thousands} (thousands parted) or {decimals} (decimals)"
    way_out = f"write {thousands} or {decimals}; one value only, no list"
    raise Unreadable(f"{family}.comma", column, message, way_out)


def find_by(text: str) -> re.Match[str] | None:
    """Find the word before an instrument, as in `12.34 by micrometer`."""
    return _BY.search(text)
