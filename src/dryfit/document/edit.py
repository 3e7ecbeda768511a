"""One change of one entry, spliced into the text; all else stays as typed.

The changed text is read back. It must say what the old text said with the one change made, or
nothing is written and a finding says why.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from dryfit.document import cuts, data
from dryfit.document.build import build, longest
from dryfit.document.characters import UNSEEN
from dryfit.document.cuts import Cut
from dryfit.document.nodes import (
    Data,
    Mapping,
    Node,
    Scalar,
    Sequence,
    Step,
    as_data,
    fold,
    reach,
)
from dryfit.document.refused import Refused
from dryfit.document.rename import Mention, Reworded, check_name, reword
from dryfit.document.spell import spellings
from dryfit.document.syntax import MOST_DEPTH
from dryfit.document.tree import Tree, read_tree
from dryfit.quantities.finding import Finding, Place, stops

__all__ = ["Act", "Edit", "Mention", "Mentions", "Spliced", "no_mentions", "splice"]


Act = Literal["set", "add", "remove", "move", "rename"]


@dataclass(frozen=True, slots=True)
class Edit:
    """One change.

    Attributes
    ----------
    act
        What is done: `set` a single value, `add` an entry or an item, `remove`, `move` or
        `rename` one.
    place
        What it touches. For `add` it ends in the new name, or in the number the item will have
        in its list; parents that are missing are made.
    seen
        The value's text as the user saw it, None if that does not matter: the change is refused
        if it reads otherwise now. A mapping or list is compared as it stands in the text. Not
        for `add`.
    typed
        The new value (`set`, `add`) or the new name (`rename`). White space around it is taken
        off. For `add` it may be a whole `{name: value}` or `[list]`.
    to
        The new number among its siblings, from 0 (`move`).
    """

    act: Act
    place: Place
    seen: str | None = None
    typed: str | None = None
    to: int | None = None


@dataclass(frozen=True, slots=True)
class Spliced:
    """The text after an edit; where there are findings it was refused and the text is as before."""

    text: str
    findings: tuple[Finding, ...] = ()


Mentions = Callable[[Tree, Place], Iterable[Mention]]
"""Tells where the name at a place is mentioned elsewhere in the text."""


def no_mentions(_tree: Tree, _place: Place) -> tuple[Mention, ...]:
    """Say that a name is mentioned nowhere else."""
    return ()


def splice(text: str, edit: Edit, mentions: Mentions = no_mentions) -> Spliced:
    """Make one change in a text.

    Parameters
    ----------
    text
        The newest text: edits of other places made meanwhile stay.
    edit
        The change.
    mentions
        For `rename`: where else the name stands.
    """
    tree = read_tree(text)
    if tree.root is None or stops(tree.findings):
        return Spliced(text, (_mend_first(edit.place), *tree.findings))
    try:
        work = _Work(tree, tree.root, _cleaned(edit), mentions)
        return _read_back(work, _ACTS[edit.act](work))
    except Refused as refused:
        finding = Finding(refused.code, edit.place, refused.message, refused.way_out)
        return Spliced(text, (finding,))


@dataclass(frozen=True, slots=True)
class _Work:
    tree: Tree
    root: Mapping
    edit: Edit
    mentions: Mentions

    @property
    def typed(self) -> str:
        if self.edit.typed is None:
            raise Refused("edit.value", "nothing was typed", "type the new text")
        return self.edit.typed

    def steps(self) -> list[Step]:
        """Walk to the place, which must be there and read as the user saw it."""
        place, seen = self.edit.place, self.edit.seen
        steps = reach(self.root, place)
        if not place or len(steps) != len(place) + 1:
            message = f"'{_named(place)}' is not in the text"
            raise Refused("edit.place", message, "look again: it may have been removed")
        now = self.text_of(steps[-1].node)
        as_wanted = self.edit.act == "set" and now == self.edit.typed
        if seen is not None and fold(now) != fold(seen) and not as_wanted:
            message = f"'{_named(place)}' read '{seen}', but now reads '{now}'"
            raise Refused("edit.changed", message, "look again, then change it")
        return steps

    def text_of(self, node: Node) -> str:
        """Give what a user sees of a value."""
        return node.text if isinstance(node, Scalar) else self.tree.text[node.start : node.end]


_Change = tuple[list[Cut], Data]
"""Cuts, and what the text must say once they are made."""


def _set(work: _Work) -> Iterator[_Change]:
    steps, typed = work.steps(), work.typed
    value, holder = steps[-1].node, steps[-2].node
    if not isinstance(value, Scalar):
        way_out = "add or remove what stands below it"
        raise Refused("edit.place", "this is not a single value", way_out)
    expected = as_data(work.root)
    data.put(expected, work.edit.place, typed)
    if typed == value.text:
        yield [], expected
    flow = not isinstance(holder, Scalar) and holder.flow
    for new in spellings(typed, flow=flow, style=value.style):
        yield cuts.set_value(work.tree.text, value, new, flow=flow), expected


def _add(work: _Work) -> Iterator[_Change]:
    typed, (steps, rest) = work.typed, _room(work)
    flow, group = cuts.in_brackets(steps), _group(typed)
    names = [key if isinstance(key, int) else spellings(key, flow=flow)[0] for key in rest]
    ways = spellings(typed, flow=flow) if group is None else [typed]
    value = typed if group is None else group
    expected = data.added(as_data(work.root), work.edit.place, value)
    for new in ways:
        yield cuts.add(work.tree.text, steps, names, new), expected


def _remove(work: _Work) -> Iterator[_Change]:
    steps, expected = work.steps(), as_data(work.root)
    index = data.remove(expected, work.edit.place)
    yield cuts.remove(work.tree.text, steps[:-1], index), expected


def _move(work: _Work) -> Iterator[_Change]:
    steps, expected, to = work.steps(), as_data(work.root), work.edit.to
    group = steps[-2].node
    if isinstance(group, Scalar) or to is None or not 0 <= to < len(cuts.children(group)):
        raise Refused("edit.place", f"there is no {to} to move to", "look again")
    index = data.move(expected, work.edit.place, to)
    yield cuts.move(work.tree.text, group, index, to), expected


def _rename(work: _Work) -> Iterator[_Change]:
    steps, name = work.steps(), work.typed
    key, holder = steps[-1].key, steps[-2].node
    if key is None or not isinstance(holder, Mapping):
        raise Refused("edit.place", "an item of a list has no name", "set its value instead")
    there = holder.entry(name)
    if there is not None and there.key is not key:
        raise _exists(name)
    elsewhere = reword(work.tree.text, work.root, work.mentions(work.tree, work.edit.place))
    touched = [each for each in elsewhere if each.scalar is not key]
    touched.append(Reworded(key, holder.flow, name))
    check_name(name, flow=any(each.flow for each in touched))
    instead = {each.scalar.start: each.words for each in touched}
    yield [each.cut for each in touched], as_data(work.root, instead)


_ACTS = {"set": _set, "add": _add, "remove": _remove, "move": _move, "rename": _rename}


def _read_back(work: _Work, ways: Iterator[_Change]) -> Spliced:
    """Take the first way of writing the change that reads back as it should."""
    trouble = ""
    for changes, expected in ways:
        text = cuts.cut(work.tree.text, changes)
        after = read_tree(text)
        if after.root and not stops(after.findings) and data.same(as_data(after.root), expected):
            return Spliced(text)
        trouble = next((f": {f.message}" for f in after.findings if f.level == "stop"), "")
    way_out = "make this change in the text itself"
    raise Refused("edit.read back", f"the change would not read back{trouble}", way_out)


def _cleaned(edit: Edit) -> Edit:
    """Fold the names and take white space off what is typed; refuse what no value may hold."""
    place = tuple(fold(key) if isinstance(key, str) else key for key in edit.place)
    if edit.typed is None:
        return replace(edit, place=place)
    typed = edit.typed.replace("\t", " ").strip()
    if "\n" in typed or "\r" in typed:
        raise Refused("edit.value", "a line break was typed", "type it as one line")
    if UNSEEN.search(typed) or any(UNSEEN.search(key) for key in place if isinstance(key, str)):
        message = "a character that cannot be seen was typed"
        raise Refused("edit.value", message, "delete it and type what you meant")
    if len(typed) > longest(place) and edit.act == "set":
        message = f"{len(typed)} characters; at most {longest(place)} go here"
        raise Refused("edit.value", message, "shorten it, or move it to notes")
    return replace(edit, place=place, typed=fold(typed) if edit.act == "rename" else typed)


def _mend_first(place: Place) -> Finding:
    message = "something else in the text has to be put right first"
    return Finding("edit.text", place, message, "put it right in the text, then make this change")


def _named(place: Place) -> str:
    return " > ".join(str(key) if isinstance(key, str) else f"item {key + 1}" for key in place)


def _exists(name: str) -> Refused:
    return Refused("edit.exists", f"'{name}' is there already", "choose another name")


def _room(work: _Work) -> tuple[list[Step], Place]:
    """Find what there is above the new entry, and the names and numbers still missing."""
    place = work.edit.place
    if not 0 < len(place) <= MOST_DEPTH:
        raise Refused("edit.place", "nothing can be added there", "name what to add")
    steps = reach(work.root, place)
    if len(steps) == len(place) + 1:
        if isinstance(place[-1], str):
            raise _exists(place[-1])
        steps = steps[:-1]
    rest, host = place[len(steps) - 1 :], steps[-1].node
    if isinstance(host, Scalar) and host.text:
        message = f"'{host.text}' is a single value"
        raise Refused("edit.place", message, "nothing can stand below it: empty it first")
    if not _fits(host, rest[0]) or not all(_fits(_NOTHING, key) for key in rest[1:]):
        message = f"'{_named(place)}' does not fit what is there"
        raise Refused("edit.place", message, "look again: a list has numbers, the rest names")
    return steps, rest


_NOTHING = Scalar("", 0, 0)


def _fits(host: Node, key: str | int) -> bool:
    """Tell whether a new name or number can stand right below a node."""
    if isinstance(key, str):
        return key != "" and not isinstance(host, Sequence)
    if isinstance(host, Mapping):
        return False
    return 0 <= key <= (len(host.items) if isinstance(host, Sequence) else 0)


def _group(typed: str) -> Data | None:
    """Read `{...}` or `[...]` that is complete by itself; None for any other text."""
    if not typed.startswith(("{", "[")):
        return None
    node, findings = build(typed)
    if node is None or isinstance(node, Scalar) or findings or node.end != len(typed):
        return None
    return as_data(node)
