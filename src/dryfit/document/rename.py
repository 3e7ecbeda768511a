"""A new name, put where the old one stands and wherever it is mentioned.

Only names and values are touched, never comments. A text that mentions the name keeps its
quotes; one that is not written just as it reads is left to its owner.
"""

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from dryfit.document.cuts import Cut, cut
from dryfit.document.nodes import Node, Scalar, Sequence
from dryfit.document.refused import Refused
from dryfit.document.spell import plain_enough, spellings


@dataclass(frozen=True, slots=True)
class Mention:
    """Where a name stands inside some text, and what will stand there instead."""

    start: int
    end: int
    new_text: str


@dataclass(frozen=True, slots=True)
class Reworded:
    """A text that gets new words; `flow` if it stands in brackets."""

    scalar: Scalar
    flow: bool
    words: str

    @property
    def cut(self) -> Cut:
        """Put the new words in place of the old ones."""
        spelled = spellings(self.words, flow=self.flow, style=self.scalar.style)[0]
        return Cut(self.scalar.start, self.scalar.end, spelled)


def reword(text: str, root: Node, mentions: Iterable[Mention]) -> list[Reworded]:
    """Put the new words into every text that mentions the name."""
    texts = list(_scalars(root, flow=False))
    starts = [scalar.start for scalar, _ in texts]
    found: dict[int, list[Mention]] = {}
    for each in sorted(set(mentions), key=lambda mention: mention.start):
        found.setdefault(bisect_right(starts, each.start) - 1, []).append(each)
    return [
        Reworded(*texts[number], _words(text, texts[number][0], held))
        for number, held in found.items()
    ]


def check_name(name: str, *, flow: bool) -> None:
    """Refuse a name that could not be told from what stands round it."""
    if name == "":
        raise Refused("edit.name", "no name was typed", "type the new name")
    if "." in name or " to " in f" {name} ":
        message = f"'{name}' holds a dot or the word 'to'"
        raise Refused("edit.name", message, "leave them out: they join and part names")
    if not plain_enough(name, flow=flow):
        message = f"'{name}' holds a sign with a meaning of its own"
        raise Refused("edit.name", message, "use letters, figures, spaces and -")


def _scalars(node: Node, *, flow: bool) -> Iterator[tuple[Scalar, bool]]:
    """Give each text of a tree in order, and whether it stands in brackets."""
    if isinstance(node, Scalar):
        yield node, flow
    elif isinstance(node, Sequence):
        for item in node.items:
            yield from _scalars(item, flow=node.flow)
    else:
        for entry in node.entries:
            yield entry.key, node.flow
            yield from _scalars(entry.value, flow=node.flow)


def _words(text: str, scalar: Scalar, mentions: list[Mention]) -> str:
    """Make all mentions in one text, which must be written just as it reads."""
    quote = 1 if scalar.style in ("'", '"') else 0
    begin, end = scalar.start + quote, scalar.end - quote
    edges = [begin, *(edge for m in mentions for edge in (m.start, m.end)), end]
    if edges != sorted(edges) or text[begin:end] != scalar.text:
        message = f"the name cannot be changed in '{scalar.text}'"
        raise Refused("edit.mention", message, "make this change in the text itself")
    inside = [Cut(m.start - begin, m.end - begin, m.new_text) for m in mentions]
    return cut(scalar.text, inside)
