"""What stops a YAML reader, said for the person who typed it.

The readers name the sort of trouble in words of their own; `explain` takes only the sort and the
spot from them and looks at the text for the rest.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass

from dryfit.document.locate import BREAK
from dryfit.document.nodes import Spotted
from dryfit.quantities.finding import Place

MOST_DEPTH = 20
TOO_DEEP = f"more than {MOST_DEPTH} levels, one in the other"

SHOWN = 40
"""Most characters of the user's text that a message repeats."""

QUOTES = "put the whole value in single quotes"
_CLOSING = {"{": "}", "[": "]"}
_LONGEST_NAME = 1000
_JOINED = re.compile(r"[^\s:][^:\r\n]*:[^ \r\n]")
_MARKED_VALUE = re.compile(r"(?:^|[:\-,\[{]\s+)([*&!])\S*\s*$")


@dataclass(frozen=True, slots=True)
class Halt:
    """Where reading stopped: the trouble at `at`, in something begun at `begun`."""

    text: str
    problem: str
    context: str
    at: int
    begun: int

    @property
    def before(self) -> str:
        """What stands on the line before the spot."""
        starts = [m.end() for m in BREAK.finditer(self.text, max(0, self.at - 2000), self.at)]
        return self.text[starts[-1] if starts else max(0, self.at - 2000) : self.at]

    @property
    def char(self) -> str:
        """The character at the spot, empty at the end of the text."""
        return self.text[self.at : self.at + 1]


@dataclass(frozen=True, slots=True)
class Said:
    """A problem in the user's terms, at an offset."""

    code: str
    at: int
    message: str
    way_out: str


def explain(halt: Halt, place: Place) -> Spotted:
    """Say what stopped the reading, where, and what to type instead."""
    for pattern, say in _SAYINGS:
        if re.search(pattern, f"{halt.problem} {halt.context}"):
            said = say(halt)
            return Spotted(said.code, place, said.message, said.way_out, offset=said.at)
    way_out = "look at this line and the one above: indents, colons, quotes and brackets"
    return Spotted(
        "syntax.other", place, "the text cannot be read from here on", way_out, offset=halt.at
    )


def quote(text: str, start: int) -> str:
    """Repeat the rest of a line, shortened."""
    return short(BREAK.split(text[start : start + SHOWN + 1], maxsplit=1)[0].strip())


def short(text: str) -> str:
    """Cut what is too long to be repeated."""
    return text if len(text) <= SHOWN else text[:SHOWN] + "..."


def _begins(halt: Halt, at: int) -> Said:
    message = f"a value may not begin with {halt.text[at : at + 1]}"
    way_out = f"put it in single quotes: '{quote(halt.text, at)}'"
    return Said("syntax.begins", at, message, way_out)


def _cannot_start(halt: Halt) -> Said:
    return _begins(halt, halt.at)


def _mark(halt: Halt) -> Said:
    return _begins(halt, halt.begun)


def _second_colon(halt: Halt) -> Said:
    before = halt.before.strip()
    if len(before) > _LONGEST_NAME:
        return Said("syntax.name", halt.at, "a name is too long", "shorten what is left of the :")
    if re.search(r":( |$)", before) or before == "":
        message = f"a second colon in one line: '{quote(halt.text, halt.at - len(halt.before))}'"
        way_out = "give each name its own line, or put the value in single quotes"
        return Said("syntax.colon", halt.at, message, way_out)
    return _indent(halt)


def _no_space(halt: Halt) -> Said:
    message = f"no space after the colon before {halt.text[halt.at + 1 : halt.at + 2]}"
    return Said("syntax.space", halt.at, message, "put a space after the colon")


def _indent(halt: Halt) -> Said:
    start = halt.at - len(halt.before.lstrip())
    message = f"'{quote(halt.text, start)}' does not line up with the lines above"
    way_out = "names that belong together start in the same column; use spaces"
    return Said("syntax.indent", start, message, way_out)


def _no_colon(halt: Halt) -> Said:
    line = quote(halt.text, halt.begun)
    if _JOINED.match(line):
        message = f"no space after the colon: '{line}'"
        return Said("syntax.space", halt.begun, message, "put a space after the colon")
    message = f"'{line}' has no colon after its name"
    way_out = "write 'name: value'; a value that goes on from the line above needs quotes round it"
    return Said("syntax.no colon", halt.begun, message, way_out)


def _wrong_entry(halt: Halt) -> Said:
    marked = _MARKED_VALUE.search(halt.before)
    if marked:
        return _begins(halt, halt.at - len(halt.before) + marked.start(1))
    if halt.char and halt.char in "]}":
        return _stray(halt)
    if halt.before.strip():
        message = f"'{quote(halt.text, halt.at)}' follows a value that has already ended"
        way_out = "put quotes round the whole value or round none of it"
        return Said("syntax.after", halt.at, message, way_out)
    return _line_start(halt)


def _line_start(halt: Halt) -> Said:
    if halt.char == ":":
        return Said("syntax.name", halt.at, "no name before the colon", "write 'name: value'")
    if halt.char == "-" and "mapping" in halt.context:
        message = "a list item stands where a name should be"
        return Said("syntax.list", halt.at, message, "write 'name: value', or indent the list")
    if "collection" in halt.context:
        message = f"'{quote(halt.text, halt.at)}' stands in a list without a dash"
        return Said("syntax.list", halt.at, message, "begin each item with '- '")
    return _indent(halt)


def _stray(halt: Halt) -> Said:
    message = f"a closing {halt.char} without its opening bracket"
    return Said("syntax.bracket", halt.at, message, "delete it or put the opening bracket in")


def _bracket(halt: Halt) -> Said:
    opening = halt.text[halt.begun : halt.begun + 1]
    closing = _CLOSING.get(opening, "}")
    if halt.char and halt.char in "]}":
        message = f"{opening} is closed by {halt.char}"
        return Said("syntax.bracket", halt.at, message, f"close it by {closing}")
    if not halt.char:
        message = f"the bracket {opening} opened here is never closed"
        return Said("syntax.bracket", halt.begun, message, f"put {closing} where it ends")
    breaks = len(BREAK.findall(halt.text, halt.begun, halt.at))
    if breaks == 0:
        start = max(halt.text.rfind(sign, 0, halt.at) for sign in ",{[") + 1
        message = f"a comma or {closing} is missing in '{quote(halt.text, start)}'"
        way_out = "put a comma between the entries, and quotes round a value that holds a colon"
        return Said("syntax.comma", halt.at, message, way_out)
    further = "next line" if breaks == 1 else f"line {breaks} below"
    message = f"the bracket {opening} opened here is not closed, or a comma is missing"
    way_out = f"put {closing} or a comma before '{quote(halt.text, halt.at - len(halt.before))}'"
    return Said("syntax.bracket", halt.begun, message, f"{way_out} ({further})")


def _percent(halt: Halt) -> Said:
    return Said("text.directive", halt.begun, "a line begins with %", "delete it")


def _no_value(halt: Halt) -> Said:
    if halt.char == ",":
        message = "a comma with nothing before it"
        return Said("syntax.comma", halt.at, message, "delete the comma, or type what is missing")
    return _stray(halt) if halt.char and halt.char in "]}" else _bracket(halt)


def _open_quote(halt: Halt) -> Said:
    mark = halt.text[halt.begun : halt.begun + 1]
    message = f"the quote {mark} opened here is never closed"
    return Said("syntax.quote", halt.begun, message, f"put {mark} where the value ends")


def _backslash(halt: Halt) -> Said:
    at = max(halt.text.rfind("\\", 0, halt.at + 1), halt.begun)
    message = "a backslash in double quotes has a meaning of its own"
    return Said("syntax.backslash", at, message, "use single quotes, or type it twice: \\\\")


def _dash(halt: Halt) -> Said:
    message = "a dash with a space after it begins a list, which cannot stand here"
    way_out = "for a minus leave the space out: -3.42; for a list write [a, b]; else use quotes"
    return Said("syntax.dash", halt.at, message, way_out)


def _after_end(halt: Halt) -> Said:
    message = f"'{quote(halt.text, halt.at)}' stands after the end of the rebuild"
    way_out = "one file holds one rebuild: delete it, or the line of dots or dashes before it"
    return Said("text.documents", halt.at, message, way_out)


def _too_deep(halt: Halt) -> Said:
    return Said("limit.depth", halt.at, TOO_DEEP, "check the brackets and the indents")


_SAYINGS: tuple[tuple[str, Callable[[Halt], Said]], ...] = (
    ("nesting depth", _too_deep),
    ("directive", _percent),
    ("cannot start any token", _cannot_start),
    ("mapping values are not allowed", _second_colon),
    ("unexpected ':'", _no_space),
    ("sequence entries are not allowed", _dash),
    ("could not find expected ':'", _no_colon),
    ("unexpected end of stream|document (indicator|separator)", _open_quote),
    ("scanning an? (alias|anchor|block scalar|tag)|parsing a tag", _mark),
    ("unknown escape|hexa?decimal|Unicode character escape", _backslash),
    ("expected ',' or", _bracket),
    ("node content", _no_value),
    ("document start", _after_end),
    ("expected (key|'-' indicator|<block end>)|undefined tag", _wrong_entry),
)
