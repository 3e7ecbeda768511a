"""Where the name of a part, a spot or a check is used in a text, so that a rename reaches all.

A name is mentioned in stacks, in the keys of sizes and settings, in states, needs and checks, and
among what was found; never in titles, notes or in what a size was measured with.
"""

from collections.abc import Iterator

from dryfit.document.edit import Edit, Mention, Spliced, splice
from dryfit.document.nodes import Mapping, Node, Scalar, Sequence, fold
from dryfit.document.tree import Tree
from dryfit.quantities import Place

PART_VALUES = {"of", "at", "from", "to"}


def change(text: str, edit: Edit) -> Spliced:
    """Splice an edit into a text; a rename reaches every mention of the name."""
    new_name = fold(edit.typed or "")
    return splice(text, edit, lambda tree, place: mentions(tree, place, new_name))


def mentions(tree: Tree, place: Place, new_name: str) -> Iterator[Mention]:
    """Find every mention of the thing at `place` besides its own key."""
    if tree.root is None or len(place) < 2:
        return
    section, name = str(place[0]), fold(str(place[1]))
    for scalar in _candidates(tree.root, section):
        yield from _in(scalar, name, new_name, whole=section != "parts")


def _candidates(root: Mapping, section: str) -> Iterator[Scalar]:
    """List the scalars that may name something of a section."""
    for entry in root.entries:
        top = fold(entry.key.text)
        if section == "parts":
            yield from _of_parts(top, entry.value)
        elif section == "checks" and top in ("readings", "as found"):
            yield from _keys(entry.value, 1 if top == "readings" else 2)
        elif section == "states" and top in ("needs", "checks"):
            yield from _values(entry.value, {"state"})


def _of_parts(top: str, node: Node) -> Iterator[Scalar]:
    """List what may name a part."""
    if top in ("sizes", "settings"):
        yield from _keys(node, 1)
    elif top == "lines":
        yield from _items(node)
    elif top == "states":
        yield from _items(node)
        yield from _keys(node, 3)
    elif top in ("needs", "checks"):
        yield from _values(node, PART_VALUES)
    elif top == "as found" and isinstance(node, Mapping):
        for entry in node.entries:
            if fold(entry.key.text) == "sizes":
                yield from _keys(entry.value, 1)


def _keys(node: Node, depth: int) -> Iterator[Scalar]:
    """List the keys that lie `depth` steps down."""
    if isinstance(node, Mapping):
        for entry in node.entries:
            if depth == 1:
                yield entry.key
            else:
                yield from _keys(entry.value, depth - 1)


def _items(node: Node) -> Iterator[Scalar]:
    """List the items of all lists below."""
    if isinstance(node, Mapping):
        for entry in node.entries:
            yield from _items(entry.value)
    elif isinstance(node, Sequence):
        yield from (item for item in node.items if isinstance(item, Scalar))


def _values(node: Node, names: set[str]) -> Iterator[Scalar]:
    """List the values of keys with certain names, in every group below."""
    if isinstance(node, Mapping):
        for entry in node.entries:
            if fold(entry.key.text) in names and isinstance(entry.value, Scalar):
                yield entry.value
            else:
                yield from _values(entry.value, names)


def _in(scalar: Scalar, name: str, new_name: str, *, whole: bool) -> Iterator[Mention]:
    """Find the name in one scalar: all of it, before a dot, or on either side of ` to `."""
    at = scalar.start + len(scalar.style)
    if whole:
        if fold(scalar.text) == name:
            yield Mention(at, at + len(scalar.text), new_name)
        return
    for piece in scalar.text.split(" to "):
        part = piece.split(".")[0]
        if fold(part) == name:
            lead = len(part) - len(part.lstrip())
            yield Mention(at + lead, at + len(part.rstrip()), new_name)
        at += len(piece) + len(" to ")
