"""Slips with bearings, nuts and gears are told with place, limit and way out, all at once."""

from pathlib import Path

import pytest

from dryfit.app.usecases.opening import open_text

UNIT = (Path(__file__).resolve().parent.parent / "giving" / "change-box.yaml").read_text("utf-8")

SLIPS = [
    ("seat: 40.005", "seat: 45.005", "bearing.fit"),
    ("pocket: 80.01", "pocket: 82.01", "bearing.fit"),
    (
        "bore: 40, outside: 80, width: 18, angle",
        "bore: 90, outside: 80, width: 18, angle",
        "size.order",
    ),
    ("width: 18, clearance", "width: 0, clearance", "size.not positive"),
    ("width: 18, clearance", "width: -18, clearance", "size.not positive"),
    ("clearance: CN", "clearance: C9", "bearing.clearance"),
    ("balls: 14", "balls: 2", "bearing.balls"),
    ("balls: 14", "balls: many", "count"),
    ("angle: 25 deg", "angle: 95 deg", "bearing.angle"),
    ("angle: 25 deg", "angle: 25", "quantity.unit"),
    ("stops shaft going: tail", "stops shaft going: tale", "bearing.end"),
    (", stops shaft going: tail", "", "key.missing"),
    ("bore: 40, outside: 50", "bore: 60, outside: 50", "size.order"),
    ("thread: M40x1.5", "thread: Q40", "nut.thread"),
    ("torque: 50 N.m", "torque: 50 N.m, set to: 0.01", "nut.set to"),
    ("on: shaft, shaft: 45", "on: shift, shaft: 45", "part.unknown"),
    ("pinion: shaft, wheel: wheel", "pinion: shaft, wheel: shaft", "mesh.one part"),
    ("pinion: shaft, wheel: wheel", "pinion: shaft, wheel: weel", "part.unknown"),
    ("pinion teeth: 20", "pinion teeth: 3", "mesh.teeth"),
    ("module: 2,", "module: 0,", "size.not positive"),
    ("pressure angle: 20 deg", "pressure angle: 60 deg", "mesh.angle"),
    ("hand: right", "hand: wrong", "word"),
    ("centre distance: 62.12", "centre distance: 55", "mesh.centres"),
    ("centre distance: 62.12", "centre distance: 72", "mesh.centres"),
    ("cover screws: fingers", "cover screws: loose", "state.word"),
    ("nuts: set", "nuts: off", "state.word"),
    ("mesh: pair", "mesh: pear", "mesh.unknown"),
    ("on: wheel, at", "on: hub, at", "word"),
    ("pinion: away", "pinion: up", "word"),
    ("at radius: 40", "at radius: 0", "check.radius"),
    ("at radius: 20", "at radius: 0", "check.radius"),
    ("shake, of: front", "shake, of: shaft", "check.of"),
    ("push: 80 N", "push: 80", "quantity.unit"),
    ("[case.register, front,", "[case.register, shaft.face, front,", "stack.both rings"),
    ("wheel teeth: 40,", "wheel teeth: 40, engaged in: low,", "mesh.out"),
]


def codes(text: str) -> list[str]:
    """List the codes of all findings."""
    return [found.code for found in open_text(text).findings]


def test_the_unit_itself_is_sound() -> None:
    """Everything that may be typed of bearings and gears is read without a stop."""
    opened = open_text(UNIT)
    assert not opened.stopped
    assert [f.code for f in opened.findings if f.level == "stop"] == []


@pytest.mark.parametrize(("old", "new", "code"), SLIPS, ids=[f"{n[:30]}" for _, n, _ in SLIPS])
def test_slip_is_told(old: str, new: str, code: str) -> None:
    """Each slip is told by a sentence with a way out, at its line."""
    assert old in UNIT
    found = [f for f in open_text(UNIT.replace(old, new, 1)).findings if f.code == code]
    assert found, codes(UNIT.replace(old, new, 1))
    assert found[0].message
    assert found[0].way_out
    assert found[0].line > 1


def test_all_slips_are_told_at_once() -> None:
    """Four slips in four places give four findings in one go."""
    text = UNIT
    for old, new, _ in (SLIPS[0], SLIPS[5], SLIPS[16], SLIPS[24]):
        text = text.replace(old, new, 1)
    assert {"bearing.fit", "bearing.clearance", "mesh.one part", "state.word"} <= {*codes(text)}


def test_a_nut_that_adjusts_takes_no_torque() -> None:
    """With nothing solid under it a nut adjusts: no torque, but what it is set to."""
    loose = UNIT.replace(
        "[shaft.shoulder, front, inner spacer, rear, nut]", "[shaft.shoulder, front]"
    )
    loose = loose.replace(
        "      in the case: [case.register",
        "      tail: [rear, nut]\n      in the case: [case.register",
    )
    assert "nut.torque" in codes(loose)
    bare = loose.replace(", torque: 50 N.m}", "}")
    assert "nut.not set" in codes(bare)
