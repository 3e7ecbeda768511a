"""The boxes of a part: every size, word and setting that the text has or may have of it.

Reading order: a row, lengths between spots, what the record of its kind holds, its setting. All is
taken from the text as it stands, so that what cannot be read has its box too.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any, Literal
from zlib import crc32

from dryfit.document.nodes import Mapping, Node, Scalar, Sequence, fold, reach
from dryfit.document.read import Document
from dryfit.document.records import keys_of
from dryfit.model.parts import PART_KINDS
from dryfit.model.rebuild import Setting
from dryfit.quantities import NotKnown, Quantity, Size, Unreadable, echo, read_quantity, read_size
from dryfit.quantities.finding import Place
from dryfit.quantities.scan import find_by
from dryfit.quantities.show import show_quantity
from dryfit.quantities.units import BY_NAME

Sort = Literal["size", "fixed", "number", "words", "choice"]
"""A size that may be unknown; one that is there or not; another figure; words; one of a few."""

SORTS: dict[str, Sort] = {
    "size": "size",
    "diameters": "size",
    "known size": "fixed",
    "tolerance": "number",
    "stock": "number",
    "size list": "number",
    "count": "number",
    "part": "choice",
    "end": "choice",
    **dict.fromkeys(BY_NAME, "number"),
}
"""By what a key is declared to hold; all else is words."""


@dataclass(frozen=True, slots=True)
class Row:
    """One box.

    Attributes
    ----------
    id, place
        Of the box on its page, and of its value in the text, as a list in JSON.
    sort, choices
        What goes into it.
    label, letter
        What it is, and its letter on the drawing.
    typed, by
        What stands in it, and the instrument behind.
    seen
        The value as it stands in the text; None where there is none.
    echo
        The same in the other system.
    unknown
        Whether it is written there that nobody knows it.
    key
        Under which answers tell of it.
    """

    id: str
    place: str
    sort: Sort
    label: str
    letter: str = ""
    typed: str = ""
    by: str = ""
    seen: str | None = None
    echo: str = ""
    unknown: bool = False
    choices: tuple[str, ...] = ()
    key: str = ""

    @property
    def where(self) -> Place:
        """Its place in the text."""
        return tuple(json.loads(self.place))

    @property
    def is_size(self) -> bool:
        """Whether it is among the sizes that are counted."""
        return self.sort == "size" and self.seen is not None


def place_id(place: Place) -> str:
    """Name the box of a place, the same on every page.

    >>> place_id(("sizes", "shaft")) == place_id(("sizes", "shaft")) != place_id(("sizes", "nut"))
    True
    """
    return f"box-{crc32(_json(place).encode()):08x}"


def _json(place: Place) -> str:
    return json.dumps(list(place), ensure_ascii=False)


@dataclass(frozen=True)
class Text:
    """A text that is read, and the letters of its sizes on the drawing."""

    document: Document
    letters: dict[str, str]
    made: dict[str, tuple[Row, ...]] = field(init=False, default_factory=dict, compare=False)

    def rows(self, part: str) -> tuple[Row, ...]:
        """List the boxes of a part, made once."""
        if part not in self.made:
            self.made[part] = tuple(_rows(self, part))
        return self.made[part]

    def at(self, *place: str) -> Node | None:
        """Give what stands at a place."""
        root = self.document.tree.root
        steps = reach(root, place) if root else []
        return steps[-1].node if len(steps) == len(place) + 1 else None

    def names(self, *place: str) -> list[str]:
        """List the names below a place."""
        node = self.at(*place)
        return [fold(e.key.text) for e in node.entries] if isinstance(node, Mapping) else []

    def kind(self, part: str) -> str:
        """Say what a part is."""
        node = self.at("parts", part, "kind")
        return node.text if isinstance(node, Scalar) else ""


def written_rows(text: Text, part: str) -> list[Row]:
    """List the boxes of what the text has of a part."""
    return [row for row in text.rows(part) if row.seen is not None]


def known_sizes(document: Document) -> tuple[int, int]:
    """Count the sizes of all parts that are known, and all there are."""
    text = Text(document, {})
    sizes = [row for part in text.names("parts") for row in written_rows(text, part) if row.is_size]
    return sum(not row.unknown for row in sizes), len(sizes)


def sizes_words(document: Document) -> str:
    """Say how many of the sizes are known."""
    known, every = known_sizes(document)
    return f"{known} of {every} size{'' if every == 1 else 's'}"


def further_rows(text: Text, part: str) -> list[Row]:
    """List the boxes of what the text may have of a part and has not."""
    return [row for row in text.rows(part) if row.seen is None]


def _rows(text: Text, part: str) -> Iterator[Row]:
    yield from _lengths(text, part)
    record = PART_KINDS.get(text.kind(part))
    if record is not None:
        yield from _record(text, record, ("parts", part))
    yield _row(text, ("parts", part, "kind"), "kind", "choice", tuple(PART_KINDS))
    if part in text.names("settings"):
        yield from _record(text, Setting, ("settings", part))


def _lengths(text: Text, part: str) -> Iterator[Row]:
    for key in text.names("sizes"):
        first, to, last = key.partition(" to ")
        if fold(first.partition(".")[0]) == part:
            spots = [spot.partition(".")[2].strip() for spot in (first, last)]
            label = " to ".join(spots) if to else "length, first end to last end"
            yield _row(text, ("sizes", key), label, "size", key=key)


def _record(text: Text, record: type[Any], place: tuple[str, ...]) -> Iterator[Row]:
    """List the boxes of the keys of a record, as its fields declare them."""
    for key, declared in keys_of(record).items():
        reads = declared.metadata["reads"]
        here = (*place, key)
        node, sort = text.at(*here), SORTS.get(reads, "words")
        if isinstance(node, Mapping) and reads == "diameters":
            for land in text.names(*here):
                yield _row(text, (*here, land), f"{key}, {land}", sort)
        elif isinstance(node, Sequence) or (node is None and reads in LISTS):
            yield from _items(text, here, node)
        elif not isinstance(node, Mapping):
            yield _row(text, here, key, sort, _choices(text, reads), _key(place, key))


LISTS = ("stock", "size list")
"""What is written as a list."""


def _items(text: Text, place: tuple[str, ...], node: Node | None) -> Iterator[Row]:
    """Give each item of a list its box, and one to add another."""
    items = node.items if isinstance(node, Sequence) else ()
    for n in range(len(items) + 1):
        yield _row(text, (*place, n), f"{place[-1]}: {'one more' if n == len(items) else n + 1}")


def _choices(text: Text, reads: str) -> tuple[str, ...]:
    if reads == "part":
        return tuple(text.names("parts"))
    if reads == "end":
        lines = text.document.rebuild.lines.values()
        return tuple(dict.fromkeys(end for line in lines for end in (line.first, line.last)))
    return ()


def _key(place: tuple[str, ...], key: str) -> str:
    """Say under which name answers tell of a size of a record."""
    return f"{place[1]}.width" if key == "width" else place[1] if key in ("nipped", "free") else ""


def _row(
    text: Text,
    place: Place,
    label: str,
    sort: Sort = "number",
    choices: tuple[str, ...] = (),
    key: str = "",
) -> Row:
    """Make one box of what stands at a place."""
    root = text.document.tree.root
    steps = reach(root, place) if root else []
    node = steps[-1].node if len(steps) == len(place) + 1 else None
    bare = Row(place_id(place), _json(place), sort, label, text.letters.get(key, ""), key=key)
    if node is None:
        return replace(bare, choices=choices)
    seen = node.text if isinstance(node, Scalar) else text.document.tree.text[node.start : node.end]
    if sort not in ("size", "fixed"):
        told = _other(text, place, seen) if sort == "number" else ""
        return replace(bare, typed=seen, seen=seen, echo=told, choices=_with_own(choices, seen))
    return _size(text, bare, seen)


def _with_own(choices: tuple[str, ...], seen: str) -> tuple[str, ...]:
    """List what stands there too, whatever it is."""
    return tuple(dict.fromkeys((seen, *choices))) if choices else ()


def _size(text: Text, row: Row, seen: str) -> Row:
    """Part a size from its instrument, and echo it."""
    found = _read(text, seen)
    if isinstance(found, NotKnown):
        return replace(row, typed="?", seen=seen, unknown=True)
    if found is None:
        return replace(row, typed=seen, seen=seen)
    by = find_by(seen) if found.instrument else None
    typed = seen[: by.start()].strip() if by else seen
    told = echo(found).partition(" = ")[2]
    return replace(row, typed=typed, by=found.instrument or "", seen=seen, echo=told)


def _read(text: Text, seen: str) -> Size | NotKnown | None:
    try:
        return read_size(seen, text.document.rebuild.system)
    except Unreadable:
        return None


def _other(text: Text, place: Place, seen: str) -> str:
    """Say a figure that is no size in the other system, where it has one."""
    record = PART_KINDS.get(text.kind(str(place[1]))) if place[0] == "parts" else None
    declared = keys_of(record).get(str(place[2])) if record and len(place) == 3 else None
    kind = declared.metadata["reads"] if declared else ""
    if kind not in BY_NAME:
        return ""
    try:
        found: Quantity = read_quantity(seen, kind)
    except Unreadable:
        return ""
    shown = show_quantity(found, kind, found.unit, half_width=0)
    return shown.partition(" (")[2].removesuffix(")")
