"""Where a text is cut, and what goes in, for one change of one entry.

Nothing here decides whether the change is right: `edit` reads the result back. A *unit* is one
entry with all that goes with it: in a block its lines up to the end-of-line comment, in brackets
the entry alone.
"""

import re
from collections.abc import Sequence as Row
from dataclasses import dataclass

from dryfit.document.characters import MARK
from dryfit.document.locate import BREAK, Span, line_end
from dryfit.document.nodes import Entry, Mapping, Node, Scalar, Sequence, Step

INDENT = 2
"""Spaces for each level of what is added."""

Group = Mapping | Sequence

_COLON = re.compile(r"\s*:")
_SKIPPED = re.compile(r"(?:\s|#[^\r\n]*)*")
_SPACES = re.compile(" *")


@dataclass(frozen=True, slots=True)
class Cut:
    """Put `new` in place of the text from `start` to `end`."""

    start: int
    end: int
    new: str = ""


def cut(text: str, cuts: Row[Cut]) -> str:
    """Make cuts that do not overlap."""
    for each in sorted(cuts, key=lambda each: (each.start, each.end), reverse=True):
        text = text[: each.start] + each.new + text[each.end :]
    return text


def children(group: Group) -> tuple[Entry | Node, ...]:
    """Give the entries or items of a group."""
    return group.entries if isinstance(group, Mapping) else group.items


def span(child: Entry | Node) -> Span:
    """Give the span of an entry or an item."""
    if isinstance(child, Entry):
        return Span(child.key.start, child.value.end)
    return Span(child.start, child.end)


def units(text: str, group: Group) -> list[Span]:
    """Give the unit of each entry of a group."""
    spans = [span(child) for child in children(group)]
    if group.flow:
        return spans
    if isinstance(group, Sequence):
        ends = [group.start, *(each.end for each in spans)]
        spans = [Span(_skip(text, end), each.end) for end, each in zip(ends, spans, strict=False)]
    return [Span(each.start, line_end(text, each.end)) for each in spans]


def set_value(text: str, value: Scalar, new: str, *, flow: bool) -> list[Cut]:
    """Write a value in place of another."""
    if value.start == value.end:
        return [Cut(value.start, value.end, f" {new}" if new else "")]
    start = value.start
    while not new and not flow and text[start - 1] == " ":
        start -= 1
    return [Cut(start, value.end, new)]


def move(text: str, group: Group, index: int, to: int) -> list[Cut]:
    """Put a unit elsewhere among its siblings; what stands between units stays there."""
    spans = units(text, group)
    order = list(range(len(spans)))
    order.insert(to, order.pop(index))
    moved = [text[spans[each].start : spans[each].end] for each in order]
    return [
        Cut(old.start, old.end, new + _gap(text, new, old.end) if group.flow else new)
        for old, new in zip(spans, moved, strict=True)
    ]


def remove(text: str, steps: list[Step], index: int) -> list[Cut]:
    """Take out the child `index` of the group at the end of `steps`."""
    group = steps[-1].node
    if isinstance(group, Scalar):
        return []
    if group.flow:
        return _remove_in_brackets(text, group, index)
    if len(children(group)) == 1:
        return _remove_only_line(text, steps, group)
    unit = units(text, group)[index]
    start, after = _line_start(text, unit.start), _next_line(text, unit.end)
    if text[start : unit.start].strip(" "):
        return [Cut(unit.start, _skip_spaces(text, after))]
    return [Cut(start, after)]


def in_brackets(steps: list[Step]) -> bool:
    """Tell whether what is added at the end of `steps` is written in brackets."""
    host = steps[-1].node
    if not isinstance(host, Scalar):
        return host.flow
    holder = steps[-2].node
    return isinstance(holder, Scalar) or holder.flow or steps[-1].key is None


def add(text: str, steps: list[Step], rest: list[str | int], value: str) -> list[Cut]:
    """Put a value in at `rest`, the names and numbers missing below the end of `steps`.

    Names in `rest` are spelled already; a number says where in a list.
    """
    host = steps[-1].node
    if isinstance(host, Scalar):
        return _fill(text, steps, rest, value)
    if host.flow:
        return [_add_in_brackets(text, host, rest, value)]
    column, spans = _column(text, host.start), units(text, host)
    index = rest[0] if isinstance(rest[0], int) else len(spans)
    at = spans[index - 1].end if index else host.start
    lines = _lines(rest, value, column, _break(text, at))
    lead = _break(text, at) + " " * column
    return [Cut(at, at, lead + lines if index else lines + lead)]


def _remove_only_line(text: str, steps: list[Step], group: Group) -> list[Cut]:
    empty = "{}" if isinstance(group, Mapping) else "[]"
    (unit,) = units(text, group)
    start = _line_start(text, unit.start)
    if len(steps) == 1 or text[start : unit.start].strip(" "):
        return [Cut(unit.start, unit.end, empty)]
    behind = _sign_end(text, steps)
    return [Cut(behind, behind, f" {empty}"), Cut(start, _next_line(text, unit.end))]


def _sign_end(text: str, steps: list[Step]) -> int:
    """Give the offset behind the colon or the dash that leads to the last step."""
    key, holder = steps[-1].key, steps[-2].node
    if key:
        colon = _COLON.match(text, key.end)
        return colon.end() if colon else key.end
    if isinstance(holder, Sequence):
        number = next(i for i, item in enumerate(holder.items) if item is steps[-1].node)
        return units(text, holder)[number].start + 1
    return steps[-1].node.start


def _remove_in_brackets(text: str, group: Group, index: int) -> list[Cut]:
    spans = units(text, group)
    unit = spans[index]
    comma = _comma_end(text, unit.end)
    if len(spans) == 1:
        return [Cut(unit.start, comma)]
    start = _line_start(text, unit.start)
    own_line = not text[start : unit.start].strip(" ")
    rest = text[comma : line_end(text, comma)].strip(" ")
    if own_line and (not rest or rest.startswith("#")):
        return [Cut(start, _next_line(text, comma))]
    if index + 1 < len(spans):
        return [Cut(unit.start, _skip_spaces(text, comma))]
    before = spans[index - 1].end
    if "#" in text[before : unit.start]:
        return [Cut(unit.start, unit.end)]
    return [Cut(before, unit.end, _gap(text, text[before - 1], unit.end))]


def _add_in_brackets(text: str, group: Group, rest: list[str | int], value: str) -> Cut:
    spans, new = units(text, group), _bracketed(rest, value)
    index = rest[0] if isinstance(rest[0], int) else len(spans)
    if not spans:
        return Cut(group.start + 1, group.start + 1, new)
    if index < len(spans):
        return Cut(spans[index].start, spans[index].start, f"{new}, ")
    end = spans[-1].end
    return Cut(end, end, f"{_gap(text, text[end - 1])}, {new}")


def _fill(text: str, steps: list[Step], rest: list[str | int], value: str) -> list[Cut]:
    """Put a mapping or a list where there is an empty value."""
    host, key = steps[-1].node, steps[-1].key
    if key is None or in_brackets(steps):
        return [Cut(host.start, host.end, " " + _bracketed([0, *rest], value))]
    at, column = line_end(text, host.end), _column(text, key.start) + INDENT
    end = _break(text, at)
    lines = end + " " * column + _lines(rest, value, column, end)
    return [Cut(host.start, host.end), Cut(at, at, lines)]


def _lines(rest: list[str | int], value: str, column: int, end: str) -> str:
    """Write names and numbers one below the other, the value last."""
    head = "-" if isinstance(rest[0], int) else f"{rest[0]}:"
    if len(rest) == 1:
        return f"{head} {value}".rstrip(" ")
    below = column + INDENT
    lead = " " if head == "-" else end + " " * below
    return head + lead + _lines(rest[1:], value, below, end)


def _bracketed(rest: list[str | int], value: str) -> str:
    """Write names and numbers one within the other, the value inmost."""
    if len(rest) > 1:
        inner = _bracketed(rest[1:], value)
        value = f"[{inner}]" if isinstance(rest[1], int) else f"{{{inner}}}"
    return value if isinstance(rest[0], int) else f"{rest[0]}: {value}"


def _gap(text: str, before: str, after: int | None = None) -> str:
    """Keep a colon from touching a comma or bracket, where it would be part of a word."""
    return " " if before.endswith(":") and (after is None or text[after] != " ") else ""


def _break(text: str, offset: int) -> str:
    """Give the line break used at an offset, else the first in the text."""
    found = BREAK.search(text, offset) or BREAK.search(text)
    return found.group() if found else "\n"


def _line_start(text: str, offset: int) -> int:
    start = max(text.rfind("\n", 0, offset), text.rfind("\r", 0, offset)) + 1
    return start + (start == 0 and text.startswith(MARK))


def _next_line(text: str, offset: int) -> int:
    found = BREAK.search(text, offset)
    return found.end() if found else len(text)


def _column(text: str, offset: int) -> int:
    return offset - _line_start(text, offset)


def _skip(text: str, offset: int) -> int:
    """Pass over white space and comments."""
    found = _SKIPPED.match(text, offset)
    return found.end() if found else offset


def _skip_spaces(text: str, offset: int) -> int:
    found = _SPACES.match(text, offset)
    return found.end() if found else offset


def _comma_end(text: str, offset: int) -> int:
    """Give the offset behind the comma after an entry in brackets, or the entry's own end."""
    after = _skip(text, offset)
    return after + 1 if text[after : after + 1] == "," else offset
