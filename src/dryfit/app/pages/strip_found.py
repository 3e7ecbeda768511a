"""Boxes of the Strip page for what was read and fitted before; it goes into the text."""

import json
from collections.abc import Iterable
from dataclasses import dataclass

from dryfit.app.pages.asked import Asked
from dryfit.app.pages.typed import echoed
from dryfit.app.words.states import how_held
from dryfit.app.words.strip_down import between, in_joints
from dryfit.ask.instruments import USUAL_INSTRUMENT
from dryfit.document.nodes import Scalar, reach
from dryfit.document.tree import Tree
from dryfit.mechanics.instruments import INSTRUMENTS
from dryfit.model.rebuild import Rebuild
from dryfit.quantities.finding import Finding, Place

AS_FOUND = "as found"
"""Where in the text it stands what was read and fitted before."""


@dataclass(frozen=True, slots=True)
class FoundBox:
    """A box for what was read or fitted before the strip; it goes into the text.

    Attributes
    ----------
    number
        On the page, counted from 0.
    title, told, by
        What it is, how it is held or between what it lies, and the usual instrument.
    place, seen
        Where it goes, as JSON, and what stands there.
    typed, echo
        What is in the box, and the same in both systems.
    findings
        What is wrong with it.
    """

    number: int
    title: str
    told: str
    by: str
    place: str
    seen: str
    typed: str
    echo: str
    findings: tuple[Finding, ...]


def found_boxes(asked: Asked) -> tuple[FoundBox, ...]:
    """Give a box for each check that reads a length, and for each ring in a joint."""
    rebuild = asked.document.rebuild
    rows = [
        ((AS_FOUND, "readings", name), name, how_held(check), check.by or _usual(check.kind))
        for name, check in rebuild.checks.items()
        if by_length(rebuild, check.by or _usual(check.kind))
    ]
    rows += [
        ((AS_FOUND, "sizes", name), name, _lies(rebuild, name), "micrometer")
        for name in in_joints(rebuild)
    ]
    return tuple(_box(asked, n, *row) for n, row in enumerate(rows))


def forces(rebuild: Rebuild) -> list[tuple[str, str]]:
    """List the checks that a balance reads: those are noted, for the text has lengths alone."""
    told = [(name, check, check.by or _usual(check.kind)) for name, check in rebuild.checks.items()]
    return [
        (name, ", ".join(filter(None, (f"by {by}", how_held(check)))))
        for name, check, by in told
        if not by_length(rebuild, by)
    ]


def by_length(rebuild: Rebuild, by: str) -> bool:
    """Tell whether an instrument reads lengths."""
    return by in INSTRUMENTS or by in rebuild.instruments


def _usual(kind: str) -> str:
    return USUAL_INSTRUMENT[kind]


def _lies(rebuild: Rebuild, name: str) -> str:
    found = between(rebuild, name)
    return f"between {found}" if found else "tag it with its side"


def _box(asked: Asked, number: int, place: Place, title: str, told: str, by: str) -> FoundBox:
    document, slip = asked.document, asked.slip
    mine = slip if slip and slip.place == place else None
    seen = value_at(document.tree, place)
    typed, by = _parted(asked, seen, by)
    if mine:
        typed, by = mine.typed.get("typed", ""), mine.typed.get("by", by)
    findings = mine.findings if mine else _about(place, document.findings)
    spelled = json.dumps(place)
    said = echoed(typed, document.rebuild.system)
    return FoundBox(number, title, told, by, spelled, seen, typed, said, findings)


def _parted(asked: Asked, seen: str, usual: str) -> tuple[str, str]:
    """Part a value from its instrument, where that is one to choose from."""
    value, _, by = seen.rpartition(" by ")
    known = {*INSTRUMENTS, *asked.document.rebuild.instruments}
    return (value, by.strip()) if by.strip() in known else (seen, usual)


def _about(place: Place, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(found for found in findings if found.place == place)


def value_at(tree: Tree, place: Place) -> str:
    """Give what stands at a place of the text; nothing where nothing does."""
    steps = reach(tree.root, place) if tree.root else []
    node = steps[-1].node if len(steps) == len(place) + 1 else None
    return node.text if isinstance(node, Scalar) else ""
