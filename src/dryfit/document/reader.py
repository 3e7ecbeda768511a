"""What every reader of the text has in hand, and how it tells what is wrong.

A reader takes a node and its place, gives the value or None, and notes what it could not read:
nothing is raised, so that all problems are told at once.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

from dryfit.document.nodes import Mapping, Node, Scalar, Sequence, fold
from dryfit.model.rebuild import System
from dryfit.quantities import Finding, Level, Place, Unreadable

T = TypeVar("T")


@dataclass
class Reader:
    """The notes taken while one text is read.

    Attributes
    ----------
    system
        What a bare number means.
    findings
        What was wrong so far, in the order met.
    unread
        Places that are named in the text but could not be read.
    """

    system: System = "mm"
    findings: list[Finding] = field(default_factory=list)
    unread: set[Place] = field(default_factory=set)

    def tell(
        self,
        code: str,
        place: Place,
        message: str,
        way_out: str = "",
        *,
        column: int | None = None,
        level: Level = "stop",
    ) -> None:
        """Note one finding; a place that stops counts as unread."""
        self.findings.append(Finding(code, place, message, way_out, level, column))
        if level == "stop" and place:
            self.unread.add(place)

    def typed(self, place: Place, read: Callable[[], T], *, known: bool = False) -> T | None:
        """Read a quantity; what has no reading becomes a finding. `known`: it may not be open."""
        try:
            return read()
        except Unreadable as unread:
            doubt = unread.where_known() if known else unread
            self.tell(doubt.code, place, doubt.message, doubt.way_out, column=doubt.column)
            return None

    def text(self, node: Node, place: Place) -> str | None:
        """Take a single value."""
        if isinstance(node, Scalar):
            return fold(node.text)
        shape = "a group of keys" if isinstance(node, Mapping) else "a list"
        self.tell("shape.value", place, f"a single value belongs here, not {shape}", "type one")
        return None

    def entries(self, node: Node, place: Place) -> list[tuple[str, Node]]:
        """Take a group of named values; an empty value is an empty group."""
        if isinstance(node, Mapping):
            return [(fold(entry.key.text), entry.value) for entry in node.entries]
        if not (isinstance(node, Scalar) and not node.text):
            example = f"{place[-1]}: {{key: value}}" if place else "key: value"
            self.tell("shape.group", place, "keys with values belong here", f"write {example}")
        return []

    def items(self, node: Node, place: Place) -> list[Node]:
        """Take a list; a single value is a list of one."""
        if isinstance(node, Sequence):
            return list(node.items)
        if isinstance(node, Scalar):
            return [node] if node.text else []
        self.tell("shape.list", place, "a list belongs here", "write it in square brackets")
        return []
