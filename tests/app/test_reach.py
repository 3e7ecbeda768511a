"""Whether instruments get to what they read, from the sizes of a document: each both ways."""

from pathlib import Path

import pytest

from dryfit.app.usecases import demos
from dryfit.app.usecases.order import OrderRequest, order
from dryfit.app.usecases.ordering.answers import OrderAnswer, StepAnswer
from dryfit.app.usecases.ordering.checks import LOOK
from dryfit.app.usecases.ordering.unit import unit_of
from dryfit.document.read import read_document

TESTS = Path(__file__).resolve().parents[1]
FEED_BOX = demos.text("feed-box").decode()
HOLE = ", bore: {boss to outer face: 20}"
HEAD = demos.text("coupling-head").decode()
IDLER = demos.text("idler").decode()


def told(answer: OrderAnswer) -> list[str]:
    """List what is told of instruments."""
    return [found.message for found in answer.findings if found.code == "plan.reach"]


def asked(typed: str, *pairs: tuple[str, str]) -> OrderAnswer:
    """Ask for the order of a text with some of it changed."""
    for old, new in pairs:
        assert typed.count(old) == 1, old
        typed = typed.replace(old, new)
    answer = order(OrderRequest(typed.encode()))
    assert answer.answered
    return answer


def step(answer: OrderAnswer, name: str) -> StepAnswer:
    """Give one step."""
    return next(one for one in answer.steps if one.name == name)


def before(answer: OrderAnswer, first: str, then: str) -> bool:
    """Tell whether one step comes before another."""
    names = [one.name for one in answer.steps]
    return names.index(first) < names.index(then)


def test_a_cover_without_a_hole_shuts_the_dial_out() -> None:
    """A shaft between two closed ends cannot be read by a dial: told before it is built so."""
    assert told(asked(FEED_BOX)) == []
    (message,) = told(asked(FEED_BOX, (HOLE, "")))
    assert message == (
        "no dial gets to an end of 'shaft' when 'end float' is read (from blind end: 'case' "
        "is in the way; from cover: 'cover' is in the way)"
    )


def test_a_hole_too_small_for_the_dial_is_none() -> None:
    """The probe is 4 mm thick (estimate): through 3 mm it does not go, through 12 it does."""
    assert len(told(asked(FEED_BOX, (HOLE, HOLE.replace("20", "3"))))) == 1
    assert told(asked(FEED_BOX, (HOLE, HOLE.replace("20", "12")))) == []


def test_a_case_open_at_its_side_lets_it_in() -> None:
    """Through an opening a dial may get there: nothing is told that is not sure."""
    opened = ("{kind: housing, ", "{kind: housing, opening: 60, ")
    assert told(asked(FEED_BOX, (HOLE, ""), opened)) == []


def test_it_is_told_from_where_the_dial_gets_in() -> None:
    """Where one end alone is open the step says so; the idler has both open once it has a hole."""
    assert step(asked(FEED_BOX), "read end float").work.tools == ("dial indicator, from cover",)
    assert step(asked(IDLER), "read end float").work.tools == ("dial indicator, from blind end",)
    assert step(asked(IDLER, HOLED), "read end float").work.tools == ("dial indicator",)


HOLED = (
    "cover:         {kind: cover,",
    "cover:         {kind: cover, bore: {spigot to outer face: 30},",
)


def with_check(text: str) -> tuple[str, str]:
    """Add a check behind the end float of the feed box."""
    end = "  shim pack: {kind: thickness, of: thrust shim, by: micrometer}"
    return end, f"{end}\n  depth: {{kind: depth, {text}}}"


def test_depth_from_the_joint_is_read_before_the_cover_hides_it() -> None:
    """A depth gauge stands on the joint: the cover's step is the last chance, though the check asks
    for the finished unit; the shaft, held to the blind end, stands there without the cover too."""
    answer = asked(FEED_BOX, with_check("from: case.joint, to: shaft.last end, held: blind end"))
    assert told(answer) == []
    assert before(answer, "shaft", "read depth")
    assert before(answer, "read depth", "gasket")
    assert "read depth" in step(answer, "gasket").hides
    assert step(answer, "read depth").work.tools == ("depth micrometer, from cover",)


def test_depth_that_hangs_on_the_cover_is_read_with_it_on() -> None:
    """Held to the cover the shaft stands elsewhere without it. So the check waits for the cover,
    and as no gauge gets past that to the joint, it says so."""
    answer = asked(FEED_BOX, with_check("from: case.joint, to: shaft.last end, held: cover"))
    assert before(answer, "cover", "read depth")
    (message,) = told(answer)
    assert message.startswith("no depth gauge gets from 'case.joint' to 'shaft.last end' when")
    assert "'cover'" in message
    assert ways_out(answer) == [LOOK]  # nothing holds it there without the cover


def test_depth_that_the_cover_nips_in_some_draws_is_told_with_the_state_to_write() -> None:
    """Where sizes may have the cover nip the shaft the depth is another one without it: it is told
    what to write, and written so it is read before the cover, and nothing is told any more."""
    depth = "  stands back: {kind: depth, from: case.joint, to: shaft.last end, held: blind end"
    answer = asked(IDLER, (END_FLOAT, f"{END_FLOAT}\n{depth}}}"))
    state = "states: {open: {left out: [cover]}}"
    assert ways_out(answer) == [f"write {state}, and state: open at this check"]
    opened = asked(f"{IDLER}\n{state}\n", (END_FLOAT, f"{END_FLOAT}\n{depth}, state: open}}"))
    assert told(opened) == []
    assert before(opened, "read stands back", "cover")


def ways_out(answer: OrderAnswer) -> list[str]:
    """List what is told to do about instruments that get nowhere."""
    return [found.way_out for found in answer.findings if found.code == "plan.reach"]


@pytest.mark.parametrize(("hole", "gets_in"), [("20", True), ("1.5", False)])
def test_depth_through_a_hole_wants_room_for_the_rod(hole: str, gets_in: bool) -> None:
    """From outside of the cover to the shaft, the rod of 2 mm (estimate) goes through the hole."""
    check = with_check("from: cover.outer face, to: shaft.last end, held: blind end")
    answer = asked(FEED_BOX, check, (HOLE, HOLE.replace("20", hole)))
    assert before(answer, "cover", "read depth")
    assert ("no depth gauge" in "".join(told(answer))) == (not gets_in)


def test_cord_is_pulled_with_the_seal_on() -> None:
    """What the cord should read has the drag of the seal in it, though that lies in no stack; it
    may be pulled without the seal in a state that leaves it out."""
    box = (TESTS / "giving" / "change-box.yaml").read_text(encoding="utf-8")
    assert before(asked(box), "seal", "read cord")
    cord = next(row for row in box.splitlines() if row.strip().startswith("cord:"))
    bare = cord.replace("}", ", state: no seal}")
    answer = asked(box, (cord, bare), ("states:", "states:\n  no seal: {left out: [seal]}"))
    assert before(answer, "read cord", "seal")


def sample() -> str:
    """Give the sample of all kinds in docs/format.md."""
    text = (TESTS.parent / "docs" / "format.md").read_text(encoding="utf-8")
    (found,) = (one for one in text.split("```")[1::2] if "Ellerthwaite" in one)
    return found.removeprefix("yaml")


def test_check_of_the_sample_of_all_kinds_is_read_with_what_it_reads_in() -> None:
    """One of each: the back faces of the bevels are felt with both shafts in, and a shaft lifts in
    its plain bearing once that is there, with its packs."""
    answer = asked(sample())
    assert before(answer, "spindle with what is on it", "read back faces")
    assert before(answer, "tail bearing", "read lift")
    assert before(answer, "left pack", "read lift")


PACK = (
    "  cover shim: {made from: [0.05, 0.10, 0.25]}",
    "  cover shim: {made from: [0.05, 0.10, 0.25], fitted: 0.05}",
)
END_FLOAT = "  end float: {kind: end float, of: shaft, by: dial indicator}"
SUNK = "  sunk: {kind: depth, from: case.joint, to: case.register, held: blind end}"


@pytest.mark.parametrize("pack", ["0.05", "0.40"])
def test_depth_gauge_stands_on_the_joint_not_on_a_pack(pack: str) -> None:
    """However thin the pack is, it lifts the gauge: the depth to the register is read before it,
    and before the bearing that covers the register goes in. On the bench it hides nothing."""
    fitted = (PACK[0], PACK[1].replace("d: 0.05", f"d: {pack}"))
    answer = asked(IDLER, fitted, (END_FLOAT, f"{END_FLOAT}\n{SUNK}"))
    told_by = [one.name for one in answer.steps if "read sunk" in one.hides]
    assert before(answer, "read sunk", "cover shim")
    assert before(answer, "read sunk", "shaft with what is on it")
    assert told_by[0] in ("cover shim", "shaft with what is on it")


HOLLOW = (
    "shaft:         {kind: shaft, outside",
    "shaft:         {kind: shaft, bore: 20, outside",
)
CASE = ("bore: {back to register: 42, ", "bore: {back to register: 3, ")


@pytest.mark.parametrize(("hole", "gets_in"), [("21", False), ("26", True)])
def test_dial_touches_the_end_of_a_hollow_shaft(hole: str, gets_in: bool) -> None:
    """Of a shaft of 25 with a bore of 20 there are 2.5 mm to touch, sunk into its bearing: a probe
    of 4 may hang into the bore. By hand: through a hole of 21 it reaches no radius beyond 10.5,
    half a millimetre of the end; it wants 1. Through one of 26 it is there with its rim at 12.5."""
    cover = (HOLED[0], HOLED[1].replace("30", hole))
    sunk = (
        "shaft.cover shoulder to shaft.last end: 17",
        "shaft.cover shoulder to shaft.last end: 14",
    )
    answer = asked(IDLER, HOLLOW, CASE, cover, sunk)
    assert (told(answer) == []) == gets_in


SHAKE = (
    "  end float: {kind: end float, of: shaft, by: dial indicator}",
    "  end float: {kind: end float, of: shaft, by: dial indicator}\n"
    "  shake: {kind: shake, of: cover bearing}",
)


def no_shim(at: str) -> tuple[tuple[str, str], ...]:
    """Let the gap at a part be felt without the shim of the idler's cover."""
    gap = f"{END_FLOAT}\n  gap: {{kind: gap, at: {at}, state: no shim}}"
    states = "states:\n  no shim: {left out: [cover shim]}\nchecks:"
    return (END_FLOAT, gap), ("checks:", states)


@pytest.mark.parametrize("at", ["cover", "cover shim"])
def test_gap_of_a_thin_shim_is_felt_at_the_rim_of_its_joint(at: str) -> None:
    """Where a shim of 0.3 mm is out the joint is open from outside, thinner than a pack of feelers
    though it is drawn: by the name of the cover or of the shim."""
    assert told(asked(IDLER, *no_shim(at))) == []


@pytest.mark.parametrize(("length", "sure"), [("120.00", True), ("not known", False)])
def test_nothing_is_told_for_sure_where_lengths_are_not_known(length: str, sure: bool) -> None:
    """Where parts lie along a line is not known then, so nothing is certain to be in the way."""
    joint = ("case.register to case.joint: 120.00", f"case.register to case.joint: {length}")
    assert bool(told(asked(IDLER, SHAKE, joint))) == sure


FIRST_END = "shaft.blind shoulder to shaft.first end: -14"


@pytest.mark.parametrize(("first_end", "gets_in"), [("-14", False), ("-24", True)])
def test_shake_is_not_read_before_the_shaft_is_in(first_end: str, gets_in: bool) -> None:
    """The play of a row does not hang on the shaft, but there is nothing to rock without it: where
    no dial gets to its side that is told. By hand: from its shoulder at 15 an end of 14 stays 1
    within its bearing, one of 24 stands 9 out of it, in a hole of 42 round 25."""
    answer = asked(IDLER, SHAKE, (FIRST_END, FIRST_END.replace("-14", first_end)))
    assert before(answer, "shaft with what is on it", "read shake")
    assert before(answer, "cover bearing", "read shake")
    assert ("no dial gets to the outside of 'shaft'" in "".join(told(answer))) == (not gets_in)


def rim(bore: int) -> tuple[tuple[str, str], ...]:
    """Sink the cover of the coupling head, 100 across, into a rim of the case."""
    return (
        (
            "register to joint: 62}, outside: {back to joint: 100}",
            (f"register to joint: 62, joint to rim: {bore}}}, outside: {{back to rim: 160}}"),
        ),
        (
            "  case.register to case.back: -14",
            "  case.register to case.back: -14\n  case.joint to case.rim: 14",
        ),
    )


@pytest.mark.parametrize(("bore", "gets_in"), [(104, False), (124, True)])
def test_feeler_gets_into_a_gap_past_a_rim_if_there_is_room_to_bend_it(
    bore: int, gets_in: bool
) -> None:
    """Sunk into the case, the gap under the cover is felt along the line alone, by a leaf bent at
    its end: that wants 10 mm beside it (estimate). By hand: (104 - 100) / 2 = 2, (124 - 100) / 2 =
    12; without a rim it is felt from outside."""
    said = told(asked(HEAD, *rim(bore)))
    assert ("no feeler gets into the gap at 'cover'" in "".join(said)) == (not gets_in)
    assert told(asked(HEAD)) == []


TIGHT = (
    "cover bearing: {kind: deep groove ball,",
    "cover bearing: {kind: deep groove ball, seat: 25.012 by micrometer,",
)
SHOULDER = "blind shoulder to cover shoulder: 32"


@pytest.mark.parametrize(("shoulder", "kept"), [("33", False), ("33.3", True)])
def test_ring_against_a_high_shoulder_is_a_point_of_no_return(shoulder: str, kept: bool) -> None:
    """A puller wants a millimetre of the ring's face. By hand: the inner ring of 25 x 52, drawn as
    34.12 across and taken 3 % larger, as nobody typed it, is 35.14; less twice 1 mm is 33.14."""
    answer = asked(IDLER, TIGHT, (SHOULDER, f"blind shoulder to cover shoulder: {shoulder}"))
    (press,) = step(answer, "cover bearing").presses
    assert press.puller_shut == (("shaft",) if kept else ())
    back = [(why.what, why.of) for why in step(answer, "cover bearing").work.no_return]
    assert back == ([("through", "inner ring of 'cover bearing' past 'shaft'")] if kept else [])


@pytest.mark.parametrize(("shoulder", "kept"), [("33", False), ("33.3", True)])
def test_ring_pressed_on_the_bench_is_asked_for_a_puller_too(shoulder: str, kept: bool) -> None:
    """The bearing at the blind end goes on its shaft before that is in the case: the same shoulder
    keeps the puller from it."""
    seat = (TIGHT[0].replace("cover", "blind"), TIGHT[1].replace("cover", "blind"))
    answer = asked(IDLER, seat, (SHOULDER, f"blind shoulder to cover shoulder: {shoulder}"))
    pressed = step(answer, "blind bearing")
    assert pressed.work.there == ("shaft", "blind bearing")
    assert [one.puller_shut for one in pressed.presses] == [("shaft",) if kept else ()]


@pytest.mark.parametrize("back", ["46", "45.9"])
def test_shaft_that_fits_the_hole_of_its_case_comes_out_of_it(back: str) -> None:
    """A shoulder of 45.9 in a hole of 46, or just as wide: the case, shorter than the spindle, does
    not come along with it. So the bearing under the nut is drawn on the bench."""
    typed = "outer bearing:  {kind: angular contact ball,"
    seat = (typed, typed + " seat: 30.012 by micrometer,")
    answer = asked(HEAD, seat, ("first end to shoulder: 38", f"first end to shoulder: {back}"))
    (press,) = step(answer, "outer bearing").presses
    assert press.puller_shut == ()


def collar(across: float) -> tuple[tuple[str, str], ...]:
    """Give the idler a tight pocket at its blind end, and a collar before the bearing there."""
    last = "  shaft.cover shoulder to shaft.last end: 17"
    lands = f"blind shoulder to collar: 32, collar to end: {across}, end to cover shoulder: 32"
    return (
        (
            "blind bearing: {kind: deep groove ball,",
            "blind bearing: {kind: deep groove ball, pocket: 51.980 by bore gauge,",
        ),
        (SHOULDER, lands),
        (
            last,
            f"{last}\n  shaft.blind shoulder to shaft.collar: 20\n  shaft.collar to shaft.end: 20",
        ),
    )


@pytest.mark.parametrize(("across", "gets_there"), [(46.4, True), (47.0, False)])
def test_outer_ring_is_not_pressed_through_its_balls(across: float, gets_there: bool) -> None:
    """The shaft goes in with its bearing on it, whose outer ring is tight in the case: pressed by
    the shaft the load goes through the balls. A sleeve gets to the ring only past a low collar.

    By hand: the ring is drawn from 42.88 to 52, taken 3 % higher from 41.59; a sleeve half as thick
    as that is high has 46.80 inside.
    """
    answer = asked(IDLER, *collar(across))
    entering = step(answer, "shaft with what is on it")
    (press,) = entering.presses
    assert (press.ring, press.host) == ("outer ring", "case")
    assert press.sleeve_shut == (() if gets_there else ("shaft",))
    assert any("sleeve" in tool for tool in entering.work.tools) == gets_there


def test_a_nut_is_asked_for_its_spanner_once() -> None:
    """Of a unit dressed within another a nut is held by one spanner a way, not by one a bench."""
    unit = unit_of(read_document(sample().encode()).rebuild)
    steps = {step.name: step for line in unit.lines for step in line.built.steps}
    assert steps["drive ring"].ways
    for step in steps.values():
        for way in step.ways:
            assert way.name.count("spanner") + way.name.count("socket") <= 1, (step.name, way.name)
