"""Where the name of a part, line, mesh, check, state or own step is used in a text.

A rename reaches all of it: stacks, the keys of sizes and settings, states, what was found, and
every key of a part, mesh, need or check that holds such a name, as its record says. Titles, notes
and what a size was measured with are never touched.
"""

from collections.abc import Iterable, Iterator

from dryfit.document.edit import Edit, Mention, Spliced, splice
from dryfit.document.nodes import Mapping, Node, Scalar, Sequence, fold
from dryfit.document.records import keys_of
from dryfit.document.tree import Tree
from dryfit.document.walks import WITH
from dryfit.document.wishes import steps_in
from dryfit.model.axes import AXES_KINDS
from dryfit.model.meshes import MESH_KINDS
from dryfit.model.own_steps import STEP_KINDS, named_in
from dryfit.model.parts import PART_KINDS
from dryfit.model.rebuild import CHECK_KINDS, NEED_KINDS
from dryfit.quantities import Place

RECORDS: dict[str, Iterable[type]] = {
    "parts": PART_KINDS.values(),
    "meshes": MESH_KINDS.values(),
    "needs": NEED_KINDS.values(),
    "checks": CHECK_KINDS.values(),
    "steps": STEP_KINDS.values(),
    "axes": AXES_KINDS.values(),
}
"""Groups of records whose keys may name something."""

NAMED_AS = {
    "parts": {"part", "spot", "part or spot"},
    "meshes": {"mesh"},
    "states": {"state"},
    "lines": {"line"},
}
"""What a key that names something of a section is declared to hold."""


IN_STEPS = ("parts", "checks", "steps")
"""Sections whose names stand in the names of steps."""


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
    if section in IN_STEPS:
        for at, step in _steps(tree.root):
            found = named_in(step, name, section)
            if found:
                yield Mention(at + found[0], at + found[1], new_name)


def _candidates(root: Mapping, section: str) -> Iterator[Scalar]:
    """List the scalars that may name something of a section."""
    for entry in root.entries:
        top = fold(entry.key.text)
        if section == "parts":
            yield from _of_parts(top, entry.value)
        elif section == "checks" and top in ("readings", "walks", "as found"):
            yield from _keys(entry.value, 2 if top == "as found" else 1)
        yield from _values(entry.value, _naming(top, section))


def _naming(top: str, section: str) -> set[str]:
    """List the keys of a group of records that name something of a section."""
    sorts = NAMED_AS.get(section, set())
    records = RECORDS.get(top, ())
    return {
        key
        for record in records
        for key, field in keys_of(record).items()
        if field.metadata["reads"] in sorts
    }


def _of_parts(top: str, node: Node) -> Iterator[Scalar]:
    """List what may name a part, beside the keys of records."""
    if top in ("sizes", "settings"):
        yield from _keys(node, 1)
    elif top == "walks":
        yield from _values(node, {WITH})
    elif top == "lines":
        yield from _items(node)
    elif top == "states":
        yield from _items(node)
        yield from _keys(node, 3)
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


def _steps(root: Mapping) -> Iterator[tuple[int, str]]:
    """List the steps that wishes and own steps name, each with where its name begins."""
    for entry in root.entries:
        top = fold(entry.key.text)
        if top == "wishes":
            for scalar in _listed(entry.value):
                start = scalar.start + len(scalar.style)
                yield from ((start + at, step) for at, step in steps_in(scalar.text))
        elif top == "steps" and isinstance(entry.value, Mapping):
            for record in entry.value.entries:
                own = record.value.entries if isinstance(record.value, Mapping) else ()
                for key in (key for key in own if fold(key.key.text) in ("after", "before")):
                    yield from ((s.start + len(s.style), s.text) for s in _listed(key.value))


def _listed(node: Node) -> list[Scalar]:
    """List the items of a list, or the one value that stands for one."""
    items = node.items if isinstance(node, Sequence) else (node,)
    return [item for item in items if isinstance(item, Scalar)]


def _values(node: Node, names: set[str]) -> Iterator[Scalar]:
    """List the values of keys with certain names, in each record of a group."""
    if not isinstance(node, Mapping):
        return
    for record in node.entries:
        for entry in record.value.entries if isinstance(record.value, Mapping) else ():
            if fold(entry.key.text) in names and isinstance(entry.value, Scalar):
                yield entry.value


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
