"""The text of a rebuild as a tree, with every problem that can be seen before its meaning.

`read_tree` never fails: what cannot be read is among the findings. Other layers give places;
the tree turns them into lines, columns and a line with a caret.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from dryfit.document import locate
from dryfit.document.build import READER, Reader, build
from dryfit.document.characters import check, decode, encode, tab_indents
from dryfit.document.locate import Located, Span
from dryfit.document.nodes import Entry, Mapping, Node, Scalar, Sequence, Spotted, as_data, reach
from dryfit.quantities.finding import Finding, Place

__all__ = [
    "Entry",
    "Located",
    "Mapping",
    "Node",
    "Scalar",
    "Sequence",
    "Span",
    "Spotted",
    "Tree",
    "as_data",
    "read_tree",
]


@dataclass(frozen=True)
class Tree:
    """A text and what stands in it.

    Attributes
    ----------
    text
        Exactly as in the file, byte order mark and line ends too.
    root
        The top level; None where the text could not be read as names with values. What is
        refused in a readable text stands in the tree with its text as typed, except entries
        without a proper name and the second of two that have the same.
    findings
        Everything wrong, in the order of the text.
    """

    text: str
    root: Mapping | None
    findings: tuple[Spotted, ...] = ()

    @cached_property
    def _starts(self) -> list[int]:
        return locate.line_starts(self.text)

    def encode(self) -> bytes:
        """Give the bytes of the text, the same as were read."""
        return encode(self.text)

    def position(self, offset: int) -> tuple[int, int]:
        """Give line and column of an offset, both from 1."""
        return locate.position(self._starts, offset)

    def excerpt(self, offset: int) -> str:
        """Show the line of an offset with a caret underneath."""
        line, column = self.position(offset)
        starts = self._starts
        start, end = starts[line - 1], starts[line] if line < len(starts) else len(self.text)
        return locate.excerpt(self.text[start:end].rstrip("\r\n"), column)

    def locate(
        self, place: Place, *, column: int | None = None, part: Literal["value", "key"] = "value"
    ) -> Span:
        """Give the span of what stands at a place.

        Parameters
        ----------
        place
            Keys from the top; where one is missing, the last node reached is given.
        column
            Where inside the value's own text, from 0; the span then begins there. It can be
            told in plain and quoted texts of one line without signs of their own.
        part
            The value, or the name it stands under.
        """
        if self.root is None:
            return Span(0, 0)
        steps = reach(self.root, place)
        reached = len(steps) == len(place) + 1
        key = steps[-1].key
        node: Node = key if part == "key" and reached and key else steps[-1].node
        return locate.span_of(self.text, node, column if reached else None)

    def located(self, findings: Iterable[Finding]) -> tuple[Located, ...]:
        """Put lines and columns to findings, in the order of the text."""
        spots = [(self._offset(finding), finding) for finding in findings]
        spots.sort(key=lambda spot: spot[0])
        return tuple(
            Located(finding, *self.position(at), self.excerpt(at)) for at, finding in spots
        )

    def _offset(self, finding: Finding) -> int:
        if isinstance(finding, Spotted):
            return finding.offset
        if self.root is None:
            return 0
        steps = reach(self.root, finding.place)
        reached = len(steps) == len(finding.place) + 1
        return locate.pointer(self.text, steps, reached=reached, column=finding.column)


def read_tree(data: bytes | str, *, reader: Reader = READER) -> Tree:
    """Read a text as far as it can be read without knowing what it means.

    Parameters
    ----------
    data
        The bytes of a file, or a text.
    reader
        The YAML reader; they differ in speed only.
    """
    text, no_text = decode(data)
    if no_text:
        return Tree(text, None, (no_text,))
    root, findings = build(text, reader)
    if any(tab_indents(text)):
        root, findings = None, [f for f in findings if not f.code.startswith("syntax.")]
    elif root is not None or not findings:
        findings += _top(root)
    findings += check(text)
    top = root if isinstance(root, Mapping) else None
    return Tree(text, top, tuple(sorted(findings, key=lambda finding: finding.offset)))


def _top(root: Node | None) -> list[Spotted]:
    """Refuse an empty text and one that does not begin with names."""
    if isinstance(root, Mapping):
        return []
    way_out = "a rebuild begins with the line 'dryfit: 1', with a space after the colon"
    if root is None or root.start == root.end:
        return [Spotted("text.empty", (), "there is nothing in the text", way_out)]
    message = "the text is not made of lines 'name: value'"
    return [Spotted("text.top", (), message, way_out, offset=root.start)]
