"""Which way each pack, washer and ring moves what is wanted: reasoned by hand."""

from typing import NamedTuple

import pytest
from tests.invariance.telling import DOCUMENTS, ask, data_of, packs_in

from dryfit.ask.asking import Asking

THICKER = 0.05e-3


class Row(NamedTuple):
    """One setting, one need, how the need follows a thicker setting, and why."""

    document: str
    setting: str
    need: str
    follows: int
    why: str


INSIDE = "it lies between the faces with the shaft, so it takes room from it"
IN_THE_JOINT = "it lies in the joint and lifts the face of the cap away from the shaft"

TABLE = [
    Row("feed-box", "thrust shim", "shaft float", -1, INSIDE),
    Row("feed-box-burr", "thrust shim", "shaft float", -1, INSIDE),
    Row("feed-box-sealant", "thrust shim", "shaft float", -1, INSIDE),
    Row("lay-shaft", "rear washer", "cluster float", -1, INSIDE),
    Row("lay-shaft-tang", "rear washer", "cluster float", -1, INSIDE),
    Row("two-covers", "thrust shim", "shaft float", -1, INSIDE),
    Row("first-end-shim", "thrust shim", "shaft float", -1, INSIDE),
    Row("joint-pack", "joint shim", "screw float", +1, IN_THE_JOINT),
    Row("worm-inch", "cap shim", "worm float", +1, IN_THE_JOINT),
    Row("side-by-side", "thrust shim", "shaft float", -1, INSIDE),
    Row(
        "side-by-side",
        "thrust shim",
        "ring float",
        -1,
        "the ring goes to and fro with the shaft, and that has less room",
    ),
    Row(
        "side-by-side",
        "ring",
        "shaft float",
        0,
        "the ring lies in a groove of the shaft and touches nothing else",
    ),
    Row("side-by-side", "ring", "ring float", -1, "it fills more of its groove"),
]


def test_table_leaves_no_setting_out() -> None:
    """Every setting of every demo and machine has its row for every need."""
    there = {
        (name, setting, need)
        for name in DOCUMENTS
        for setting in data_of(name)["settings"]
        for need in data_of(name)["needs"]
    }
    assert {row[:3] for row in TABLE} == there


def _moves(asking: Asking, row: Row) -> float:
    """By how much a need changes for one thicker by 0.05 mm [m]."""
    need, packs = asking.rebuild.needs[row.need], packs_in(row.document, asking)
    thicker = {**packs, row.setting: packs[row.setting] + THICKER}
    return asking.typed(need, thicker) - asking.typed(need, packs)


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row.document}: {row.setting}")
def test_thicker_by_five_hundredths(row: Row) -> None:
    """A builder who adds 0.05 mm gets what a fitter would say, not its opposite."""
    asking = ask(data_of(row.document), 1)
    assert _moves(asking, row) == pytest.approx(row.follows * THICKER, abs=1e-12), row.why


def _gap(check: str) -> float:
    """What a check of the joint-pack machine reads, all sizes as typed [mm]."""
    asking = ask(data_of("joint-pack"), 1)
    return asking.typed(asking.rebuild.checks[check], {}) * 1e3


HELD_OFF = 56.41 + 2.015 - (60.18 - 2.05)
"""Screw and washer are 0.295 longer than the room from the bottom to the face of the cap."""


def test_cap_without_its_pack_stands_off() -> None:
    """With the pack left out, feelers under the cap read 0.295."""
    assert _gap("cap gap") == pytest.approx(HELD_OFF, abs=1e-9)


def test_seat_of_the_pack_in_the_joint_is_that_gap() -> None:
    """Feelers where the pack would lie go into the very same gap."""
    assert _gap("seat of shim") == pytest.approx(HELD_OFF, abs=1e-9)
