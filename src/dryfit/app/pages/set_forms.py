"""Boxes of the page Set: what is fitted, the drawer, what is wanted; each changes the text once.

They are made from the text alone, so that they are there at once.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial

from dryfit.app.pages.asked import Asked, Slip
from dryfit.app.pages.set_view import Wanted
from dryfit.document.nodes import Mapping, Node, Scalar, Sequence, reach
from dryfit.document.tree import Tree
from dryfit.model.parts import Nut
from dryfit.model.rebuild import Setting
from dryfit.model.rules import check
from dryfit.quantities import Finding, NotKnown, Place, Size, System, Unreadable, echo, read_size

STOCK = {"made from": "pieces", "one of": "washers"}
"""Keys of a setting that hold a list, and what is in it."""

WORDS = {"cut to size": "cut to size, tolerance", "set by": "float read by"}
"""Keys of a setting that hold one value, and what it is."""


@dataclass(frozen=True, slots=True)
class Box:
    """A value of the text.

    Attributes
    ----------
    id, label
        Of the box.
    place
        Where it goes, in JSON.
    act
        `set`, or `add` where nothing stands there yet.
    seen
        What stood there; None for nothing.
    value
        What is in the box.
    echo
        The same in the other system.
    findings
        What is wrong with it.
    """

    id: str
    label: str
    place: str
    act: str
    seen: str | None
    value: str
    echo: str = ""
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class SettingForm:
    """A setting: what is in now, and what it may be made of."""

    part: str
    id: str
    is_nut: bool
    fitted: Box
    key: str
    of: str
    stock: tuple[Box, ...]
    more: Box | None
    one: Box | None


@dataclass(frozen=True, slots=True)
class NeedForm:
    """A need: what is wanted now, and the box to want something else."""

    wanted: Wanted
    box: Box


@dataclass(frozen=True, slots=True)
class TryBox:
    """A box for a thickness to be tried: of which setting, and what is in it."""

    part: str
    name: str
    value: str
    fitted: str


def settings(asked: Asked) -> tuple[SettingForm, ...]:
    """Make the forms of all settings."""
    document = asked.document
    found = (*document.findings, *(check(document.rebuild) if document.tree.root else ()))
    box = partial(_box, document.tree, found, document.rebuild.system, asked.slip)
    return tuple(
        _form(f"setting-{n}", setting, document.tree, box, is_nut=isinstance(part, Nut))
        for n, setting in enumerate(document.rebuild.settings.values(), 1)
        for part in (document.rebuild.parts.get(setting.part),)
    )


def _form(
    id_: str, setting: Setting, tree: Tree, box: "partial[Box]", *, is_nut: bool
) -> SettingForm:
    part = setting.part
    at: Place = ("parts", part, "set to") if is_nut else ("settings", part, "fitted")
    fitted = box(at, f"{id_}-fitted", "float it is set to now" if is_nut else "in now, thickness")
    held = next((key for key in STOCK if node_at(tree, ("settings", part, key)) is not None), "")
    listed = node_at(tree, ("settings", part, held)) if held else None
    count = len(listed.items) if isinstance(listed, Sequence) else 0
    of = STOCK.get(held, "")
    stock = tuple(
        box(("settings", part, held, n), f"{id_}-stock-{n}", f"{of[:-1]} {n + 1}")
        for n in range(count)
    )
    more = box(("settings", part, held, count), f"{id_}-stock-{count}", f"one more of the {of}")
    single = next((key for key in WORDS if node_at(tree, ("settings", part, key)) is not None), "")
    one = box(("settings", part, single), f"{id_}-one", WORDS[single]) if single else None
    return SettingForm(part, id_, is_nut, fitted, held, of, stock, more if count else None, one)


def _box(
    tree: Tree,
    found: tuple[Finding, ...],
    system: System,
    slip: Slip | None,
    place: Place,
    id_: str,
    label: str,
) -> Box:
    """Make a box of a place; what was typed a moment ago and not kept stands in it again."""
    node = node_at(tree, place)
    seen = node.text if isinstance(node, Scalar) else None
    here = tuple(one for one in found if one.place == place)
    made = Box(
        id_,
        label,
        json.dumps(list(place)),
        "add" if node is None else "set",
        seen,
        seen or "",
        other_system(seen or "", system),
        here,
    )
    if slip is None or slip.place != place or "typed" not in slip.typed:
        return made
    return replace(made, value=slip.typed["typed"], findings=(*slip.findings, *here))


def other_system(text: str, system: System) -> str:
    """Say a size in the other system; nothing where it is none."""
    try:
        size = read_size(text, system, box=True)
    except Unreadable:
        return ""
    return "" if isinstance(size, NotKnown) else _behind(size)


def _behind(size: Size) -> str:
    return echo(size).rpartition(" = ")[2]


def needs(asked: Asked, wanted: tuple[Wanted, ...]) -> tuple[NeedForm, ...]:
    """Make the forms of what is wanted, as written or as offered."""
    return tuple(_need(asked, one, n) for n, one in enumerate(_all(asked, wanted), 1))


def _all(asked: Asked, wanted: tuple[Wanted, ...]) -> Iterator[Wanted]:
    """Give what is wanted, and what is written and cannot be told."""
    yield from wanted
    told = {one.name for one in wanted}
    for need in asked.document.rebuild.needs.values():
        if need.name not in told:
            of = getattr(need, "of", "") or getattr(need, "mesh", "")
            yield Wanted(need.name, f"{need.kind} of {of}", "", "", "", ())


def _need(asked: Asked, one: Wanted, n: int) -> NeedForm:
    document = asked.document
    found = (*document.findings, *(check(document.rebuild) if document.tree.root else ()))
    place: Place = ("needs", one.name, "want")
    box = _box(
        document.tree, found, document.rebuild.system, asked.slip, place, f"need-{n}", one.about
    )
    return NeedForm(one, replace(box, echo=""))


def node_at(tree: Tree, place: Place) -> Node | None:
    """Find what stands at a place of a text."""
    steps = reach(tree.root, place) if isinstance(tree.root, Mapping) else []
    return steps[-1].node if len(steps) == len(place) + 1 else None
