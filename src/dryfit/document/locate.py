"""Lines, columns and carets: from an offset or a place to what the user sees.

Lines and columns count from 1; a tab counts as one column.
"""

import re
from bisect import bisect_right
from dataclasses import dataclass
from typing import NamedTuple

from dryfit.document.characters import MARK, UNSEEN
from dryfit.document.nodes import Node, Scalar, Step
from dryfit.quantities.finding import Finding

WIDTH = 76
"""Most characters of a line that an excerpt shows."""

BREAK = re.compile(r"\r\n|\r|\n")
_CUT = "..."


class Span(NamedTuple):
    """From the first character of something to just behind its last."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Located:
    """A finding with the line and column it is about, and the line itself with a caret."""

    finding: Finding
    line: int
    column: int
    excerpt: str


def line_starts(text: str) -> list[int]:
    """Give the offset at which each line starts; the byte order mark is not part of line 1."""
    return [1 if text.startswith(MARK) else 0, *(m.end() for m in BREAK.finditer(text))]


def position(starts: list[int], offset: int) -> tuple[int, int]:
    """Give line and column of an offset."""
    line = max(bisect_right(starts, offset), 1)
    return line, max(offset - starts[line - 1], 0) + 1


def line_end(text: str, offset: int) -> int:
    """Give the offset at which the line of `offset` ends, its line break left out."""
    found = BREAK.search(text, offset)
    return found.start() if found else len(text)


def excerpt(line: str, column: int) -> str:
    """Show a line with a caret under a column (from 1); a long line is cut around it."""
    left = max(0, min(column - 1 - WIDTH // 2, len(line) - WIDTH))
    piece = UNSEEN.sub("?", line[left : left + WIDTH]).replace("\t", " ")
    if left:
        piece = _CUT + piece[len(_CUT) :]
    if left + WIDTH < len(line):
        piece = piece[: -len(_CUT)] + _CUT
    return f"{piece}\n{' ' * (column - 1 - left)}^"


def span_of(text: str, node: Node, column: int | None) -> Span:
    """Give the span of a node, or from a column of its value's own text (from 0) onwards."""
    if column is None or not isinstance(node, Scalar):
        return Span(node.start, node.end)
    quote = 1 if node.style in ("'", '"') else 0
    end = node.end - quote
    if node.style in ("|", ">") or text[node.start + quote : end] != node.text:
        return Span(node.start, node.end)
    return Span(min(node.start + quote + max(column, 0), end), end)


def pointer(text: str, steps: list[Step], *, reached: bool, column: int | None) -> int:
    """Choose where the caret goes: at a value, else at the name under which it would stand."""
    last = steps[-1]
    filled = isinstance(last.node, Scalar) and last.node.text != ""
    if reached and filled:
        return span_of(text, last.node, column).start
    return last.key.start if last.key else last.node.start
