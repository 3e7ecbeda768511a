"""What cannot be read is told with why and a way out; all else of the unit is answered."""

from pathlib import Path

import pytest

from dryfit.app.usecases.choose import ChooseAnswer, ChooseRequest, choose
from dryfit.app.usecases.opening import FindingAnswer, open_text

RIGID = """\
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  input:
    from left to right:
      in the case: [case.left, shim, shaft, lid.boss]
      joint: [case.face, lid.flange]
  middle:
    from left to right:
      plain: [case.mid left, cluster, case.mid right]
parts:
  case: {kind: housing}
  lid: {kind: cover}
  shim: {kind: shim pack}
  shaft: {kind: shaft}
  cluster: {kind: cluster}
meshes:
  pair: {kind: spur, pinion: shaft, wheel: cluster, pinion teeth: 18, wheel teeth: 54, module: 2,
         centre distance: 72.05, lash: 0.08}
sizes:
  case.left to case.face: 120.00
  lid.flange to lid.boss: -5.00
  shaft: 114.50
  case.mid left to case.mid right: 96.00
  cluster: 95.90
settings:
  shim: {made from: [0.05, 0.10], fitted: 0.40}
states:
  open: {left out: [lid]}
checks:
  float: {kind: end float, of: shaft}
  mid float: {kind: end float, of: cluster}
  lash: {kind: backlash, mesh: pair}
"""
"""Shaft: 120.00 - 5.00 - 0.40 - 114.50 = 0.10; cluster: 96.00 - 95.90 = 0.10."""


def _answer(*changes: tuple[str, str], text: str = RIGID) -> ChooseAnswer:
    for typed, instead in changes:
        assert typed in text, typed
        text = text.replace(typed, instead)
    answer = choose(ChooseRequest(text.encode(), draws=200))
    assert answer.answered, [f.message for f in answer.findings]
    return answer


def _found(answer: ChooseAnswer, code: str) -> FindingAnswer:
    (found,) = (f for f in answer.findings if f.code == code)
    return found


def _told(answer: ChooseAnswer) -> dict[str, str]:
    return {check.name: check.cannot for check in answer.checks}


def test_all_is_read_where_nothing_is_wrong() -> None:
    """No check says that it cannot be read."""
    assert set(_told(_answer()).values()) == {""}


def test_an_open_end_spares_the_other_checks() -> None:
    """The cluster runs out to the left: its float says so, the shaft's is 0.10.

    The lash of straight teeth does not hang on where the gear lies along its line.
    """
    mid = "  mid float: {kind: end float, of: cluster}\n"
    again = (mid, mid + mid.replace("mid", "again"))
    answer = _answer(("[case.mid left, cluster,", "[cluster,"), again)
    runs = "nothing stops cluster one way"
    assert _told(answer) == {"float": "", "mid float": runs, "again float": runs, "lash": ""}
    by_name = {check.name: check for check in answer.checks}
    assert by_name["float"].expected_mm == pytest.approx(0.10, abs=1e-6)
    assert by_name["mid float"].expected_mm is None
    assert "stack that stops it" in by_name["mid float"].way_out
    found = _found(answer, "line.open end")
    assert found.level == "note"
    assert "'mid float', 'again float' cannot be read" in found.message


def test_a_need_that_cannot_be_told_spares_the_checks() -> None:
    """A need of the cluster that runs out is told at its line; the shaft's float is answered."""
    needs = "needs:\n  play: {kind: float, of: cluster, want: 0.05 to 0.15}\nchecks:\n"
    answer = _answer(("[case.mid left, cluster,", "[cluster,"), ("checks:\n", needs))
    assert "'play'" in _found(answer, "line.open end").message
    assert answer.wanted == ()
    assert _told(answer)["float"] == ""


def test_a_pack_of_100_mm_is_told_by_how_much_too_long() -> None:
    """100.00 for 0.40: the parts are 99.60 - 0.10 = 99.50 too long, and the lash has no answer."""
    answer = _answer(("fitted: 0.40", "fitted: 100"))
    assert _told(answer)["lash"].startswith("the parts of 'input' are 99.50 mm too long")
    assert _told(answer)["mid float"] == ""
    assert "other unit" in _found(answer, "line.far out").way_out
    by_name = {check.name: check for check in answer.checks}
    assert by_name["float"].too_long_by_mm == pytest.approx(99.50, abs=1e-6)


def test_a_depth_over_two_lines_is_told() -> None:
    """Only along one line is there a way from spot to spot."""
    depth = "checks:\n  odd: {kind: depth, from: case.left, to: cluster.first end, held: left}\n"
    told = _told(_answer(("checks:\n", depth)))
    assert told["odd"] == "no stack or size of 'middle' reaches 'case.left'"
    assert told["float"] == ""


def test_a_thickness_of_what_no_stack_goes_through_is_told() -> None:
    """The case has faces, and no two ends."""
    told = _told(_answer(("checks:\n", "checks:\n  odd: {kind: thickness, of: case}\n")))
    assert "no stack goes through 'case' from end to end" in told["odd"]


def test_a_gap_at_a_cover_that_is_off_is_told() -> None:
    """With the lid left out there is nothing to put a feeler under."""
    odd = "checks:\n  odd: {kind: gap, at: lid, state: open}\n"
    told = _told(_answer(("checks:\n", odd)))
    assert "both sides of where 'lid' sits" in told["odd"]


GIVES = """\
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  spindle:
    from nose to tail:
      on the shaft: [spindle.shoulder, front, inner spacer, second, nut]
      in the quill: [quill.register, front, outer spacer, second, lock ring]
parts:
  quill: {kind: housing}
  spindle: {kind: shaft}
  front: {kind: angular contact ball, bore: 35, outside: 72, width: 17.000 +/- 0.001,
          angle: 25 deg, stops shaft going: tail, ground for: 150 N}
  second: {kind: angular contact ball, bore: 35, outside: 72, width: 17.000 +/- 0.001,
           angle: 25 deg, stops shaft going: nose, ground for: 150 N}
  inner spacer: {kind: spacer, bore: 35, outside: 46}
  outer spacer: {kind: spacer, bore: 60, outside: 72}
  nut: {kind: nut, thread: M35x1.5, torque: 30 N.m}
  lock ring: {kind: threaded ring, thread: M75x1.5, torque: 60 N.m}
sizes:
  inner spacer: 20.000 +/- 0.001
  outer spacer: 20.000 +/- 0.001
checks:
  float: {kind: end float, of: spindle, push: 100 N}
  thick: {kind: thickness, of: inner spacer}
"""


def test_a_bearing_the_wrong_way_round_is_hinted_at() -> None:
    """Both rows stop the shaft going to the nose: to the tail nothing does."""
    answer = _answer(("going: tail", "going: nose"), text=GIVES)
    found = _found(answer, "line.open end")
    assert "nothing stops spindle one way: 'float' cannot be read" in found.message
    assert "'front' and 'second' all stop the shaft going nose: turn one round" in found.way_out
    assert _told(answer)["thick"] == ""


def test_an_end_that_is_open_for_other_reasons_gets_no_such_hint() -> None:
    """One row either way, but no stack at the case: nothing is the wrong way round."""
    loose = ("      in the quill: [quill.register, front, outer spacer, second, lock ring]\n", "")
    case = (
        "[spindle.shoulder, front, inner",
        "[quill.register, front]\n      shaft: [spindle.shoulder, front, inner",
    )
    answer = _answer(loose, case, text=GIVES)
    assert "turn one round" not in _found(answer, "line.open end").way_out


def test_a_push_beyond_all_measure_is_not_called_an_open_end() -> None:
    """1 000 kN by hand: the spindle is stopped both ways, and the force is what is wrong."""
    answer = _answer(("push: 100 N", "push: 1000 kN"), text=GIVES)
    cannot = _told(answer)["float"]
    assert "nothing stops" not in cannot
    assert "hard" in cannot


def test_a_state_without_the_case_is_refused() -> None:
    """All is placed from the case."""
    text = RIGID.replace("left out: [lid]", "left out: [lid, case]")
    answer = choose(ChooseRequest(text.encode(), draws=200))
    assert not answer.answered
    assert "'case' stands still" in _found(answer, "state.no case").message


def test_a_part_that_its_state_leaves_out_spares_the_other_checks() -> None:
    """Without the cluster its float is not read; the shaft's, with all built, is."""
    state = ("open: {left out: [lid]}", "open: {left out: [cluster]}")
    odd = (
        "mid float: {kind: end float, of: cluster}",
        "mid float: {kind: end float, of: cluster, state: open}",
    )
    answer = _answer(state, odd)
    told = _told(answer)
    assert told["mid float"] == "'cluster' is left out in state 'open'"
    assert (told["float"], told["lash"]) == ("", "")
    assert "another state than open" in _found(answer, "state.leaves out").way_out


def test_what_friction_alone_holds_is_no_stop() -> None:
    """Both rows face the nose; only a tight third bearing holds the spindle, in some draws."""
    path = Path(__file__).resolve().parent.parent / "giving" / "quill.yaml"
    turned = path.read_text("utf-8").replace("stops shaft going: tail", "stops shaft going: nose")
    found = [f for f in open_text(turned).findings if f.code == "line.open end"]
    assert any("'front' and 'second' all stop the shaft going nose" in f.way_out for f in found)
