"""Every key of parts, axes, meshes, checks, needs, steps, states is read as typed, or refused."""

from collections.abc import Iterator
from typing import Any

import pytest

from dryfit.document.read import Document, read_document
from dryfit.document.records import keys_of
from dryfit.model.axes import AXES_KINDS
from dryfit.model.meshes import MESH_KINDS
from dryfit.model.own_steps import STEP_KINDS
from dryfit.model.parts import PART_KINDS
from dryfit.model.rebuild import CHECK_KINDS, NEED_KINDS, State

TYPED: dict[str, tuple[str, str, str]] = {
    "text": ("tab washer", "tab washer", "[tab, washer]"),
    "material": ("bronze", "bronze", "[bronze]"),
    "part": ("case", "case", "[case]"),
    "mesh": ("bevels", "bevels", "{mesh: bevels}"),
    "state": ("hot", "hot", "[hot]"),
    "line": ("spindle", "spindle", "[spindle]"),
    "end": ("nose", "nose", "[nose]"),
    "part list": ("[case, cover]", "('case', 'cover')", "[{a: b}]"),
    "spot": ("case.joint", "case.joint", "case"),
    "part or spot": ("case.joint", "case.joint", "case.a.b"),
    "step list": ("['front, cup', nut]", "('front, cup', 'nut')", "[{a: b}]"),
    "minutes": ("10 min", "10.0", "soon"),
    "size": ("12.340 by micrometer", "12.340 by micrometer", "12,34"),
    "known size": ("0.02 by dial indicator", "0.02 by dial indicator", "not known"),
    "diameters": ("40.010 by micrometer", "40.010 by micrometer", "{nose: 70}"),
    "range": ("0.05 to 0.15", "0.05 to 0.15", "0.05"),
    "preload": ("none to light", "none to light", "some"),
    "thicknesses": ("{case: 0.10}", "0.10", "{case: thin}"),
    "warmths": ("{case: 70 K}", "70 K", "{case: 70}"),
    "count": ("13", "13", "a few"),
    "angle": ("15 deg", "15 deg", "15"),
    "force": ("120 N", "120 N", "120"),
    "torque": ("50 N.m", "50 N.m", "50"),
    "temperature difference": ("5 +/- 3 K", "5 +/- 3 K", "5 m"),
}
"""For each sort of value: what is typed, what is kept of it, and a slip."""

GROUPS: dict[str, dict[str, type]] = {
    "parts": dict(PART_KINDS),
    "meshes": dict(MESH_KINDS),
    "checks": dict(CHECK_KINDS),
    "needs": dict(NEED_KINDS),
    "steps": dict(STEP_KINDS),
    "axes": dict(AXES_KINDS),
    "states": {"": State},
}


def _every_key() -> Iterator[tuple[str, str, str]]:
    """List group, kind and key of all that may be typed."""
    for group, kinds in GROUPS.items():
        for kind, record in kinds.items():
            for key in keys_of(record):
                yield group, kind, key


def _read(group: str, kind: str, key: str, typed: str) -> Document:
    """Read a record of this kind with all that it must have, and one key typed so."""
    keys = keys_of(GROUPS[group][kind])
    held = {k: TYPED[f.metadata["reads"]][0] for k, f in keys.items() if f.metadata["required"]}
    held |= {"kind": kind} if kind else {}
    held[key] = typed
    lines = "".join(f"    {k}: {v}\n" for k, v in held.items())
    return read_document(f"dryfit: 1\nsizes in: mm\n{group}:\n  this one:\n{lines}")


def _kept(value: Any) -> str:
    """Say what was kept of a value."""
    if isinstance(value, dict):
        (value,) = value.values()
    return str(getattr(value, "text", value))


@pytest.mark.parametrize(("group", "kind", "key"), list(_every_key()))
def test_key_is_read_as_typed(group: str, kind: str, key: str) -> None:
    """What is typed behind a key is kept to the last digit."""
    field = keys_of(GROUPS[group][kind])[key]
    typed, kept, _ = TYPED[field.metadata["reads"]]
    document = _read(group, kind, key, typed)
    assert document.findings == ()
    record = getattr(document.rebuild, group)["this one"]
    assert _kept(getattr(record, field.name)) == kept


@pytest.mark.parametrize(("group", "kind", "key"), list(_every_key()))
def test_slip_behind_a_key_is_told_there(group: str, kind: str, key: str) -> None:
    """What cannot be read is told at its own key, with the way out."""
    slip = TYPED[keys_of(GROUPS[group][kind])[key].metadata["reads"]][2]
    document = _read(group, kind, key, slip)
    (told, *_) = document.findings
    assert told.place[:3] == (group, "this one", key)
    assert told.level == "stop"
    assert told.message
    assert told.way_out
