"""Slips with bearings, nuts and gears are told with place, limit and way out, all at once."""

from pathlib import Path

import pytest

from dryfit.app.usecases.opening import open_text

HERE = Path(__file__).resolve().parent.parent / "giving"
UNIT = (HERE / "change-box.yaml").read_text("utf-8")

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
    ("balls: 14", "balls: 40", "bearing.balls"),
    ("angle: 25 deg", "angle: 95 deg", "bearing.angle"),
    ("angle: 25 deg", "angle: 25", "quantity.unit"),
    ("stops shaft going: tail", "stops shaft going: tale", "bearing.end"),
    (", stops shaft going: tail", "", "key.missing"),
    ("bore: 40, outside: 50", "bore: 60, outside: 50", "size.order"),
    ("width: 18, angle", "width: 180, angle", "size.order"),
    ("width: 18, angle", "inner width: 81, outer width: 18, angle", "size.order"),
    ("width: 18, angle", "inner width: 18, outer width: 81, angle", "size.order"),
    ("width: 18, angle", "width: 18, set width: 180, angle", "size.order"),
    ("width: 18, angle", "width: 18, set width: 1.8, angle", "bearing.set width"),
    ("wheel: wheel, pinion teeth", "wheel: nut, pinion teeth", "mesh.member"),
    ("wheel: wheel, pinion teeth", "wheel: case, pinion teeth", "mesh.member"),
    ("end float, of: shaft", "end float, of: case", "float.stands"),
    ("cord pull, of: shaft", "cord pull, of: inner spacer", "check.of"),
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
    ("lash: 0.1}", "lash: 0.1 by mikrometer}", "instrument.unknown"),
    ("at radius: 40", "at radius: 40 by mikrometer", "instrument.unknown"),
    ("torque: 50 N.m", "torque: 50 N.m, face: -5", "nut.face"),
    ("torque: 50 N.m", "torque: 50 N.m, face: 40", "nut.face"),
    ("end float, of: shaft", "end float, of: front", "bearing.two rings"),
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
    (
        "bore: 40, outside: 80, width: 18, clearance",
        "bore: 2, outside: 8, width: 3, clearance",
        "bearing.bore",
    ),
    (
        "bore: 40, outside: 80, width: 18, clearance",
        "bore: 210, outside: 300, width: 40, clearance",
        "bearing.bore",
    ),
    (
        "bore: 40, outside: 80, width: 18, clearance",
        "bore: 260, outside: 300, width: 40, play: 0.1, clearance",
        "bearing.bore",
    ),
    (
        "bore: 40, outside: 80, width: 18, clearance",
        "bore: 3, outside: 6, width: 3, clearance",
        "bearing.outside",
    ),
    (
        "bore: 40, outside: 80, width: 18, clearance",
        "bore: 40, outside: 80 in, width: 18, clearance",
        "bearing.outside",
    ),
    (
        "bore: 40, outside: 80, width: 18, clearance",
        "bore: 40, outside: 43, width: 18, clearance",
        "size.order",
    ),
    ("balls: 14", "balls: 14, ball: 25", "bearing.ball"),
    ("balls: 14", "balls: 60, ball: 12", "bearing.ball"),
    (" width: 18, clearance", " clearance", "bearing.width"),
    (" width: 18, clearance", " inner width: 18, clearance", "bearing.width"),
    (", angle: 25 deg", "", "bearing.no angle"),
    ("width: 18, angle", "inner width: 18, outer width: -1, angle", "size.not positive"),
    ("torque: 60 N.m", "torque: -60 N.m", "force.negative"),
    ("push: 80 N", "push: -80 N", "force.negative"),
    (
        "wheel: {kind: shaft",
        "wheel: {kind: shaft, weight: 90 N, weighs towards: floor",
        "end.unknown",
    ),
    ("helix angle: 15 deg", "helix angle: 90 deg", "mesh.helix"),
    ("helix angle: 15 deg", "helix angle: -15 deg", "mesh.helix"),
    ("lash: 0.1}", "lash: -0.1}", "size.not positive"),
    ("centre distance: 62.12", "centre distance: -62.12", "size.not positive"),
    ("module: 2, centre distance: 62.12, ", "module: 2, ", "key.missing"),
    (
        "[case.register, front, outer spacer, rear, lock ring]",
        "[front, outer spacer, rear]",
        "stack.no ring",
    ),
    (
        "in the case: [case.low, wheel, case.high]",
        "in the case: [case.low, seat, case.high]",
        "mesh.no line",
    ),
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
    codes_of_all = {"bearing.fit", "bearing.clearance", "mesh.one part", "state.word"}
    text, slips = UNIT, {code: (old, new) for old, new, code in SLIPS}
    for code in codes_of_all:
        text = text.replace(*slips[code], 1)
    assert codes_of_all <= {*codes(text)}


BEVELS = (HERE / "bevel-drive.yaml").read_text("utf-8")

BEVEL_SLIPS = [
    ("face width: 22", "face width: 40", "mesh.face width"),
    ("module: 3", "module: 1", "mesh.face width"),
    ("face width: 22", "face width: 22, shaft angle: 0 deg", "mesh.angle"),
    ("face width: 22", "face width: 22, spiral angle: 90 deg", "mesh.angle"),
    ("pinion away: nose", "pinion away: nosse", "mesh.away"),
    ("pinion apex: pinion shaft.apex, ", "", "key.missing"),
    ("wheel crossing: case.wheel crossing, ", "", "key.missing"),
    ("pinion apex: pinion shaft.apex", "pinion apex: wheel shaft.apex", "mesh.apex"),
    ("pinion crossing: case.pinion crossing", "pinion crossing: case.crossing", "spot.unsized"),
    ("pinion crossing: case.pinion crossing", "pinion crossing: cse.crossing", "part.unknown"),
    ("pinion crossing: case.pinion crossing", "pinion crossing: wheel shaft.apex", "mesh.crossing"),
    ("pinion crossing: case.pinion crossing", "pinion crossing: crossing", "spot"),
    ("  wheel shaft.apex to wheel shaft.shoulder: 30.00\n", "", "spot.unsized"),
    ("mesh: bevels}", "mesh: bevel}", "mesh.unknown"),
    ("thread: M30x1.5", "thread: M30x1.5, set to: 0.01", "nut.set to"),
    (
        "ring: {kind: threaded ring, set to: 0.02 by dial indicator}",
        "ring: {kind: threaded ring}",
        "nut.not set",
    ),
    ("set to: 0.02 by dial indicator", "set to: 0.02, torque: 20 N.m", "nut.torque"),
]


@pytest.mark.parametrize(
    ("old", "new", "code"), BEVEL_SLIPS, ids=[f"{n[:30]}" for _, n, _ in BEVEL_SLIPS]
)
def test_slip_with_bevels_is_told(old: str, new: str, code: str) -> None:
    """A bevel without apex or crossing, or one that opens towards no end, is told at its line."""
    assert old in BEVELS
    found = [f for f in open_text(BEVELS.replace(old, new, 1)).findings if f.code == code]
    assert found, codes(BEVELS.replace(old, new, 1))
    assert found[0].message
    assert found[0].way_out
    assert found[0].line > 1


def test_a_gear_that_runs_with_two_has_one_module() -> None:
    """The same 40 teeth of module 2 in one mesh and of 2.5 in the next: one is misread."""
    second = (
        "  next: {kind: helical, pinion: shaft, wheel: wheel, pinion teeth: 25, wheel teeth: 40, "
        "module: 2.5, centre distance: 84, helix angle: 15 deg}\n"
    )
    opened = open_text(UNIT.replace("sizes:\n  inner", second + "sizes:\n  inner"))
    (told,) = (f for f in opened.findings if f.code == "mesh.modules")
    assert told.level == "note"
    assert "module 2.5 here and of 2 in 'pair'" in told.message
    other = open_text(
        UNIT.replace("sizes:\n  inner", second.replace("2.5", "2") + "sizes:\n  inner")
    )
    assert "mesh.modules" not in [f.code for f in other.findings]


@pytest.mark.parametrize(
    ("check", "key"),
    [
        ("{kind: end float, of: shaft}", "shaft"),
        ("{kind: shake, of: front}", "front"),
        ("{kind: cord pull, of: shaft, at radius: 20}", "shaft"),
        ("{kind: backlash, mesh: pair, on: pinion}", "wheel"),
        ("{kind: depth, from: case.low, to: wheel.last end, held: low}", "wheel"),
    ],
)
def test_a_state_that_leaves_out_what_is_read_is_told(check: str, key: str) -> None:
    """No reading is taken of a part that lies on the bench."""
    odd = check.replace("}", ", state: nipped}")
    text = UNIT.replace("nipped: {cover", f"nipped: {{left out: [{key}], cover")
    text = text.replace("checks:\n", f"checks:\n  odd: {odd}\n")
    (told,) = (f for f in open_text(text).findings if f.code == "state.leaves out")
    assert f"'{key}' is left out in state 'nipped'" in told.message
    assert "'odd' cannot be read" in told.message
    assert told.level == "note"
    assert told.line == text.splitlines().index(f"  odd: {odd}") + 1


def test_two_nuts_on_one_thread_are_told() -> None:
    """Face to face neither is set by itself: the one that locks is written with the other."""
    two = UNIT.replace("rear, nut]", "rear, nut, last nut]").replace(
        "  seal: {kind", "  last nut: {kind: nut, thread: M40x1.5}\n  seal: {kind"
    )
    (told,) = (f for f in open_text(two).findings if f.code == "nut.two")
    assert "locked by: lock nut" in told.way_out
    one = UNIT.replace("torque: 50 N.m}", "torque: 50 N.m, locked by: lock nut}")
    assert not open_text(one).stopped


def test_a_bearing_of_no_stack_is_told() -> None:
    """A bearing that lies in no stack carries nothing."""
    text = UNIT.replace("  seal: {kind", "  spare: {kind: deep groove ball}\n  seal: {kind")
    told = {f.code: f.message for f in open_text(text).findings}
    assert "'spare' lies in no stack" in told["part.idle"]


def test_an_unknown_thread_quotes_those_there_are() -> None:
    """The way out shows how threads of each system are written."""
    told = {f.code: f for f in open_text(UNIT.replace("M40x1.5", "40x1.5")).findings}
    assert "1/2 BSF" in told["nut.thread"].message
    assert "M40x1.5" in told["nut.thread"].way_out


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


def test_a_second_nut_on_the_same_face_is_told_from_two_stacks() -> None:
    """Nut and last nut both push on the rear bearing, in two stacks."""
    two = UNIT.replace(
        "      in the case: [case.register",
        "      again: [rear, last nut]\n      in the case: [case.register",
    ).replace(
        "  seal: {kind", "  last nut: {kind: nut, thread: M40x1.5, torque: 50 N.m}\n  seal: {kind"
    )
    (told,) = (f for f in open_text(two).findings if f.code == "nut.two")
    assert "'nut' and 'last nut' lie face to face" in told.message


def test_nuts_on_two_faces_are_two_nuts() -> None:
    """One behind the rear bearing, one before the front one: each is alone on its face."""
    two = UNIT.replace("on the shaft: [shaft.shoulder, front,", "on the shaft: [first nut, front,")
    two = two.replace("  seal: {kind", "  first nut: {kind: nut, thread: M40x1.5}\n  seal: {kind")
    assert "nut.two" not in codes(two)


@pytest.mark.parametrize(("balls", "told"), [(33, False), (34, True)])
def test_as_many_thin_balls_as_go_round_are_let_pass(balls: int, told: bool) -> None:
    """Balls of 40/7 = 5.714 on a circle 60 * 22/7 = 188.57 long: 33 go in, 34 do not."""
    text = UNIT.replace("balls: 14", f"balls: {balls}")
    assert ("bearing.balls" in codes(text)) is told


@pytest.mark.parametrize(("set_width", "told"), [("13.6", False), ("13.4", True)])
def test_a_set_width_is_no_less_than_three_quarters_of_a_ring(set_width: str, told: bool) -> None:
    """Cones may stand a little out of wide cups: 0.75 of 18 is 13.5."""
    text = UNIT.replace("width: 18, angle", f"width: 18, set width: {set_width}, angle")
    assert ("bearing.set width" in codes(text)) is told
