"""What a change hangs on, and whether that has changed between two texts.

A value hangs on what stands at its place; an item of a list, whose number says nothing by itself,
on the whole list; a name on being there; an order on the names beside it.
"""

from dataclasses import dataclass

from dryfit.document.edit import Edit
from dryfit.document.nodes import Data, Mapping, Node, Scalar, as_data, fold, reach
from dryfit.document.tree import Tree, read_tree
from dryfit.quantities.finding import Place


@dataclass(frozen=True, slots=True)
class Stake:
    """What a change hangs on in one text: as data to compare, and as it stands there."""

    data: Data | None
    shown: str | None


NOTHING = Stake(None, None)


def stake(text: str, edit: Edit) -> Stake:
    """Find what a change hangs on in a text."""
    tree = read_tree(text)
    place = _place(edit)
    node = _node(tree, place)
    if node is None:
        return NOTHING
    shown = node.text if isinstance(node, Scalar) else tree.text[node.start : node.end]
    if edit.act == "rename":
        return Stake("", shown)
    if edit.act == "move" and isinstance(node, Mapping):
        return Stake([fold(entry.key.text) for entry in node.entries], shown)
    return Stake(as_data(node), shown)


def _place(edit: Edit) -> Place:
    """Give the place a change hangs on: no further than the first number of a list."""
    place = edit.place[:-1] if edit.act == "move" else edit.place
    numbers = (at for at, key in enumerate(place) if isinstance(key, int))
    return place[: next(numbers, len(place))]


def _node(tree: Tree, place: Place) -> Node | None:
    if tree.root is None:
        return None
    steps = reach(tree.root, place)
    return steps[-1].node if len(steps) == len(place) + 1 else None
