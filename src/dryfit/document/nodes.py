"""What a text is made of: single values, mappings of names to values, and lists.

Nothing is converted: each value keeps the text typed and the span where it stands.
"""

from dataclasses import dataclass
from typing import Literal

from dryfit.quantities.finding import Finding, Place

Style = Literal["", "'", '"', "|", ">"]
"""How a value is written: plain, in quotes, or as a block of lines."""

Data = str | list["Data"] | dict[str, "Data"]
"""Plain data: texts, lists and dicts, without spans."""


@dataclass(frozen=True, slots=True)
class Scalar:
    """A single value, or a name.

    Attributes
    ----------
    text
        What it says, quotes taken off and continued lines joined; "" for an empty value.
    start, end
        Span in the text, quotes included; equal for an empty value.
    style
        Quotes or block sign; "" for a plain or an empty value.
    """

    text: str
    start: int
    end: int
    style: Style = ""


@dataclass(frozen=True, slots=True)
class Entry:
    """One `name: value` of a mapping."""

    key: Scalar
    value: "Node"


@dataclass(frozen=True, slots=True)
class Mapping:
    """Names with their values, in the order typed; `flow` when written in braces."""

    entries: tuple[Entry, ...]
    start: int
    end: int
    flow: bool

    def entry(self, name: str) -> Entry | None:
        """Find the entry called `name`, white space folded; None if there is none."""
        folded = fold(name)
        return next((e for e in self.entries if fold(e.key.text) == folded), None)


@dataclass(frozen=True, slots=True)
class Sequence:
    """A list; `flow` when written in square brackets."""

    items: tuple["Node", ...]
    start: int
    end: int
    flow: bool


Node = Scalar | Mapping | Sequence


@dataclass(frozen=True, slots=True)
class Spotted(Finding):
    """A finding that knows the offset in the text where it was made."""

    offset: int = 0


@dataclass(frozen=True, slots=True)
class Step:
    """One node on the way down to a place, and the key it is the value of."""

    key: Scalar | None
    node: Node


def fold(name: str) -> str:
    """Join the words of a name by single spaces, as names are compared."""
    return " ".join(name.split())


def child(node: Node, key: str | int) -> Step | None:
    """Take one step down; None where there is nothing of that name or number."""
    if isinstance(node, Mapping) and isinstance(key, str):
        entry = node.entry(key)
        return Step(entry.key, entry.value) if entry else None
    if isinstance(node, Sequence) and isinstance(key, int) and 0 <= key < len(node.items):
        return Step(None, node.items[key])
    return None


def reach(root: Node, place: Place) -> list[Step]:
    """Walk from the root towards `place`, as far as there is something.

    The first step is the root itself: one step more than `place` has keys means it was reached.
    """
    steps = [Step(None, root)]
    for key in place:
        below = child(steps[-1].node, key)
        if below is None:
            break
        steps.append(below)
    return steps


def as_data(node: Node, instead: dict[int, str] | None = None) -> Data:
    """Take the spans off a node; `instead` gives other words for texts that start at an offset."""
    if isinstance(node, Scalar):
        return _words(node, instead)
    if isinstance(node, Sequence):
        return [as_data(item, instead) for item in node.items]
    return {_words(e.key, instead): as_data(e.value, instead) for e in node.entries}


def _words(scalar: Scalar, instead: dict[int, str] | None) -> str:
    return instead.get(scalar.start, scalar.text) if instead and scalar.text else scalar.text
