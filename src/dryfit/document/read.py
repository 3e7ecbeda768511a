"""The text of a rebuild read into its records, with all that is wrong in it.

`SECTIONS` has one entry for each key at the top. The two keys that say how to read the rest,
`dryfit` and `sizes in`, come first.
"""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Any

from dryfit.document.nodes import Mapping, Node
from dryfit.document.reader import Reader
from dryfit.document.records import read_kind, read_record, tell_unknown
from dryfit.document.stacks import read_between, read_line
from dryfit.document.tree import Located, Tree, read_tree
from dryfit.document.values import known_size, quantity, thicknesses
from dryfit.document.walks import read_walk
from dryfit.document.wishes import read_wishes
from dryfit.model.axes import AXES_KINDS
from dryfit.model.meshes import MESH_KINDS
from dryfit.model.own_steps import STEP_KINDS
from dryfit.model.parts import PART_KINDS, Nut
from dryfit.model.rebuild import (
    CHECK_KINDS,
    NEED_KINDS,
    AsFound,
    Instrument,
    Rebuild,
    Setting,
    State,
    System,
    UsedFor,
)
from dryfit.quantities import Finding, Place, Quantity, Size

FORMAT = "1"
MOST_TOLD = 100
"""Nobody reads more findings at a time than this."""

SYSTEMS: dict[str, System] = {"mm": "mm", "inch": "inch", "in": "inch"}


@dataclass(frozen=True)
class Document:
    """A text with the rebuild it holds.

    Attributes
    ----------
    tree
        The text and where everything stands in it.
    rebuild
        What could be read of it.
    findings
        What could not.
    """

    tree: Tree
    rebuild: Rebuild
    findings: tuple[Finding, ...]

    def located(self, more: Iterable[Finding] = ()) -> tuple[Located, ...]:
        """Give each finding, and those of others, its line and column; the first MOST_TOLD."""
        every = (*self.findings, *more)
        told = self.tree.located(every[:MOST_TOLD])
        if len(every) <= MOST_TOLD:
            return told
        rest = f"{len(every) - MOST_TOLD} more findings are not told"
        return (*told, *self.tree.located([Finding("limit.told", (), rest, "mend these first")]))


def read_document(data: bytes | str) -> Document:
    """Read a rebuild from its text."""
    tree = read_tree(data)
    reader = Reader()
    reader.findings.extend(tree.findings)
    reader.unread.update(f.place for f in tree.findings if f.place)
    if tree.root is None:
        return Document(tree, Rebuild("mm"), tuple(reader.findings))
    typed = dict(reader.entries(tree.root, ()))
    _read_head(reader, tree.root, typed)
    values: dict[str, Any] = {}
    for key, node in typed.items():
        if key in SECTIONS:
            field, read = SECTIONS[key]
            found = read(reader, node, (key,))
            if found is not None:
                values[field] = found
        elif key not in HEAD:
            tell_unknown(reader, key, [*HEAD, *SECTIONS], ())
    taken = values.pop("readings", {})
    for field, sort in (("readings", Size), ("forces", Quantity)):
        found = {n: tuple(x for x in read if isinstance(x, sort)) for n, read in taken.items()}
        values[field] = {name: read for name, read in found.items() if read}
    values["settings"] = _with_nuts(values.get("settings", {}), values.get("parts", {}))
    rebuild = Rebuild(reader.system, unread=frozenset(reader.unread), **values)
    return Document(tree, rebuild, tuple(reader.findings))


def _with_nuts(settings: dict[str, Setting], parts: dict[str, Any]) -> dict[str, Setting]:
    """Take what a nut is set to as what is fitted of its setting."""
    return {
        name: replace(setting, fitted=part.set_to)
        if isinstance(part := parts.get(name), Nut) and setting.fitted is None
        else setting
        for name, setting in settings.items()
    }


HEAD = ("dryfit", "sizes in")


def _read_head(reader: Reader, root: Mapping, typed: dict[str, Node]) -> None:
    """Read the format and the unit of bare numbers, which must come first."""
    order = [" ".join(entry.key.text.split()) for entry in root.entries[:2]]
    for number, (key, example) in enumerate(zip(HEAD, (FORMAT, "mm"), strict=True)):
        if key not in typed:
            where = ("first", "second")[number]
            reader.tell(
                "head.missing", (), f"'{key}' is missing", f"write {key}: {example} {where}"
            )
        elif key not in order:
            reader.tell("head.order", (key,), f"'{key}' stands too far down", "move it to the top")
    version = reader.text(typed["dryfit"], ("dryfit",)) if "dryfit" in typed else FORMAT
    if version is not None and version != FORMAT:
        reader.tell(
            "head.format",
            ("dryfit",),
            f"format {version or 'nothing'} is not known to this dryfit, which reads {FORMAT}",
            f"write dryfit: {FORMAT}, or use a newer dryfit",
        )
    system = reader.text(typed["sizes in"], ("sizes in",)) if "sizes in" in typed else "mm"
    if system in SYSTEMS:
        reader.system = SYSTEMS[system]
    elif system is not None:
        reader.tell("head.system", ("sizes in",), f"'{system}' is neither", "write mm or inch")


def _named(read: Callable[[Reader, str, Node, Place], Any]) -> Callable[..., dict[str, Any]]:
    """Make a reader of one thing a reader of a group of them by name."""

    def read_all(reader: Reader, node: Node, place: Place) -> dict[str, Any]:
        found = {n: read(reader, n, v, (*place, n)) for n, v in reader.entries(node, place)}
        reader.unread.update((*place, name) for name, value in found.items() if value is None)
        return {name: value for name, value in found.items() if value is not None}

    return read_all


FORCE = re.compile(r"[0-9.]\s*(N|kN|daN|kgf|gf|lbf|ozf)\s*$")
"""How a reading of a spring balance ends."""


def _readings(
    reader: Reader, _: str, node: Node, place: Place
) -> tuple[Size | Quantity, ...] | None:
    """Read one reading, or several of one check: lengths, or forces of a balance."""
    found: list[Size | Quantity | None] = []
    items = reader.items(node, place)
    for n, item in enumerate(items):
        where = (*place, n) if len(items) > 1 else place
        text = reader.text(item, where)
        if text is not None and FORCE.search(text):
            found.append(quantity("force", reader, item, where))
        else:
            found.append(known_size(reader, item, where))
    return tuple(one for one in found if one is not None) or None


def _as_found(reader: Reader, node: Node, place: Place) -> AsFound:
    """Read what was read and fitted before the strip."""
    values: dict[str, dict[str, Size]] = {}
    for key, value in reader.entries(node, place):
        if key in ("readings", "sizes"):
            values[key] = thicknesses(reader, value, (*place, key))
        else:
            tell_unknown(reader, key, ["readings", "sizes"], place)
    return AsFound(**values)


SECTIONS: dict[str, tuple[str, Callable[[Reader, Node, Place], Any]]] = {
    "title": ("title", Reader.text),
    "notes": ("notes", Reader.text),
    "measured with": ("measured_with", Reader.text),
    "used for": ("used_for", lambda r, node, place: read_record(r, UsedFor, node, place)),
    "instruments": (
        "instruments",
        _named(lambda r, name, node, place: read_record(r, Instrument, node, place, name=name)),
    ),
    "lines": ("lines", _named(read_line)),
    "axes": ("axes", _named(lambda r, _, node, place: read_kind(r, AXES_KINDS, node, place))),
    "parts": ("parts", _named(lambda r, _, node, place: read_kind(r, PART_KINDS, node, place))),
    "meshes": ("meshes", _named(lambda r, _, node, place: read_kind(r, MESH_KINDS, node, place))),
    "sizes": ("sizes", _named(read_between)),
    "settings": (
        "settings",
        _named(lambda r, name, node, place: read_record(r, Setting, node, place, part=name)),
    ),
    "states": (
        "states",
        _named(lambda r, name, node, place: read_record(r, State, node, place, name=name)),
    ),
    "needs": ("needs", _named(lambda r, _, node, place: read_kind(r, NEED_KINDS, node, place))),
    "checks": ("checks", _named(lambda r, _, node, place: read_kind(r, CHECK_KINDS, node, place))),
    "readings": ("readings", _named(_readings)),
    "walks": ("walks", _named(read_walk)),
    "steps": ("steps", _named(lambda r, _, node, place: read_kind(r, STEP_KINDS, node, place))),
    "wishes": ("wishes", read_wishes),
    "as found": ("as_found", _as_found),
}
