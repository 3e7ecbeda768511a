"""What is told of undoing: a trial build, checks read early, tools; the same by order and worth."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from dryfit.app.cli.main import cli
from dryfit.app.usecases.answers import ActAnswer, SparedAnswer
from dryfit.app.usecases.choose import ChooseAnswer, ChooseRequest, choose
from dryfit.app.usecases.demos import names, text
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.order import OrderRequest, order
from dryfit.app.usecases.ordering.answers import TrialAnswer
from dryfit.app.usecases.ordering.checks import reading_of
from dryfit.app.usecases.ordering.job import bare_of, by_sizes
from dryfit.app.usecases.ordering.own import wishes_of
from dryfit.app.usecases.ordering.schedule import Scheduled, gauges, planned, spanners
from dryfit.app.usecases.ordering.unit import LineOf, unit_of
from dryfit.app.words.chances import acts, sparing
from dryfit.app.words.order import trial_words
from dryfit.ask.acts import EARLY, GAUGE, SPANNER, TRIAL
from dryfit.ask.asking import Asking
from dryfit.ask.in_hand import InHand, ready
from dryfit.plan.actions import Job, Wishes

LOCKED = (b"torque: 35 N.m}", b"torque: 35 N.m, locked by: tab washer}")


def locked_box() -> bytes:
    """Give the bevel box with its pinion's nut locked by a tab washer."""
    assert LOCKED[0] in text("bevel-box")
    return text("bevel-box").replace(*LOCKED)


def test_trial_build_of_a_locked_nut_is_told_with_both_sides() -> None:
    """A lock of two minutes under one ring: to take that off for it costs more than it spares.

    By hand: the ring is 4 minutes off and 4 on; of the checks after the lock two are read again, 5
    each: 18. Straight on only undoing is to be expected, the lock with it, which the orders leave
    out: 4 minutes, or one step, as often as something is found after it.
    """
    answer = order(OrderRequest(locked_box()))
    assert answer.trial is not None
    assert (answer.trial.left_out, answer.trial.anew) == ("locking", ("ring",))
    assert answer.trial.anew_minutes == pytest.approx(18.0)
    best = answer.schedules[-1]
    often = answer.trial.straight_steps - best.steps
    assert 0 < often < 1
    assert answer.trial.straight_minutes - best.minutes == pytest.approx(4 * often)
    parts = answer.trial.dry_minutes + answer.trial.anew_minutes + answer.trial.after_minutes
    assert answer.trial.trial_minutes == pytest.approx(parts)
    assert answer.trial.trial_minutes > answer.trial.straight_minutes


def test_trial_build_in_words(tmp_path: Path) -> None:
    """Which is less, and by how much, stands below the orders."""
    file = tmp_path / "box.yaml"
    file.write_bytes(locked_box())
    told = " ".join(CliRunner().invoke(cli, ["order", str(file)]).output.split())
    assert "A trial build first, without locking, is not worth it: some" in told
    assert "18 to take off and put on one step again" in told


@pytest.mark.parametrize("name", names())
def test_unit_with_nothing_to_serve_has_no_trial_build(name: str) -> None:
    """Where nothing is greased, sealed or locked, nothing is said of leaving it out."""
    unit = unit_of(open_text(text(name)).rebuild)
    wishes, _ = wishes_of(unit)
    if not any(step.serves for step in bare_of(unit, wishes).job.steps):
        assert order(OrderRequest(text(name))).trial is None


@pytest.fixture(scope="module")
def box() -> ChooseAnswer:
    """Give the sheet of the bevel box."""
    return choose(ChooseRequest(text("bevel-box")))


def test_check_to_be_read_early_stands_so_in_the_order(box: ChooseAnswer) -> None:
    """What `worth` asks to be read before a step, `order` reads before it."""
    early = [one for one in box.spared if one.name == EARLY]
    assert early
    steps = [step.name for step in order(OrderRequest(text("bevel-box"))).steps]
    for one in early:
        assert steps.index(reading_of(one.what)) < steps.index(one.before)
        assert one.minutes == 0.0
        assert one.spared_minutes >= 1.0


def test_worth_says_what_spares_undoing(tmp_path: Path) -> None:
    """`dryfit worth` tells it in words, and as data."""
    file = tmp_path / "box.yaml"
    file.write_bytes(text("bevel-box"))
    said = " ".join(CliRunner().invoke(cli, ["worth", str(file)]).output.split())
    assert "What spares undoing" in said
    assert "read 'cord' before 'cartridge shim': some" in said
    told = json.loads(CliRunner().invoke(cli, ["worth", str(file), "--json"]).output)
    assert {one["name"] for one in told["spared"]} <= {EARLY, TRIAL, SPANNER}


def hand_of(name: str) -> InHand:
    """Give what is in hand of a demo, by few draws."""
    return ready(Asking(open_text(text(name)).rebuild, 400))


def scheduled(hand: InHand, job: Job | None = None) -> Scheduled:
    """Give a demo's steps, or a job in their place."""
    unit = unit_of(hand.asking.rebuild)
    bare = bare_of(unit, Wishes())
    bare = bare if job is None else replace(bare, job=job)
    return Scheduled(unit, bare, bare.job, tuple(step.name for step in bare.job.steps))


def test_check_that_no_order_has_room_for_is_worth_a_gauge() -> None:
    """A float that cannot be read on the way: with a gauge it is read after all has come about."""
    hand = hand_of("feed-box")
    whole = scheduled(hand).bare.job
    left = replace(whole, drawn=tuple(s for s in whole.drawn if s.name != "read end float"))
    missed = by_sizes(hand.looks, hand.wanted)
    (tool,) = gauges(scheduled(hand, left), hand.looks, missed)
    assert (tool.name, tool.what) == (GAUGE, "end float")
    shown = [checks for name, checks in tool.later.items() if "gasket" in name]
    assert shown
    assert all("end float" in checks for checks in shown)
    assert list(gauges(scheduled(hand), hand.looks, missed)) == []


def test_nut_that_a_socket_reaches_asks_for_no_spanner() -> None:
    """The headstock's nut stands free at the end of its spindle."""
    hand = hand_of("headstock")
    assert list(spanners(scheduled(hand), hand.looks, {})) == []


def test_nut_that_no_usual_spanner_gets_to_asks_for_one() -> None:
    """A nut that is done up however it stands, for want of a way for socket or hook spanner.

    The threaded ring beside it is turned by its face, and asks for none.
    """
    hand = hand_of("bevel-box")
    found = scheduled(hand)
    lines = tuple(_unreached(line, "nut") for line in found.unit.lines)
    shut = replace(found, unit=replace(found.unit, lines=lines))
    (tool,) = spanners(shut, hand.looks, {})
    assert (tool.name, tool.what) == (SPANNER, "nut")
    slack = [one for one in hand.looks.variants if one.name in tool.never]
    assert [one.parts for one in slack] == [("nut",)]
    assert list(spanners(found, hand.looks, {})) == []


def _unreached(line: LineOf, nut: str) -> LineOf:
    """Take the spanner from the ways to a nut."""
    if nut not in line.built.nuts:
        return line
    bare = line.built.nuts[nut]
    steps = tuple(replace(s, ways=bare) if s.name == nut else s for s in line.built.steps)
    return replace(line, built=replace(line.built, steps=steps))


def test_every_slip_has_its_checks_in_the_plan() -> None:
    """What the sheet takes from the order says of each thing wrong which checks come after it."""
    hand = hand_of("feed-box")
    found = planned(hand.looks, hand.wanted)
    assert found is not None
    every = (*hand.looks.variants, *hand.looks.as_made)
    assert set(found.later) == {one.name for one in every}
    assert any("end float" in checks for checks in found.later.values())


def test_float_read_before_a_nut_is_locked_does_not_show_that_it_was_dragged() -> None:
    """With a float read with the nut set only, a nut dragged on in locking is seen by none.

    Read with all in place, the same float comes after the lock, and shows it.
    """
    words = (b"set to: 0.060 by dial indicator}", b"set to: 0.010, locked by: lock nut}")
    locked = text("headstock").replace(*words)
    by_state = {}
    for state in ("", "\nstates:\n  only set: {nuts: set}\n"):
        said = locked.replace(
            b"end float, of: spindle,", b"end float, of: spindle, state: only set,"
        )
        rebuild = open_text((said if state else locked) + state.encode()).rebuild
        hand = ready(Asking(rebuild, 400))
        found = planned(hand.looks, hand.wanted)
        assert found is not None
        (dragged,) = (one.name for one in hand.looks.variants if "dragged" in one.words)
        by_state[bool(state)] = "end float" in found.later[dragged]
    assert by_state == {False: True, True: False}


def test_paper_lists_what_takes_time_and_leaves_the_rest_to_the_order(box: ChooseAnswer) -> None:
    """A trial build that spares 15 minutes for 10 stands among the acts, a check read early not."""
    tried = SparedAnswer(TRIAL, "grease", "", 10.0, 15.0)
    (row,) = sparing(replace(box, spared=(*box.spared, tried)))
    assert row.what == "build it once without grease, read all checks, and strip it again"
    assert (row.then, row.minutes) == ("15 minutes less of undoing", "10 minutes")


@pytest.mark.parametrize(
    ("name", "what"),
    [
        (GAUGE, "make a gauge first by which 'gap' can be read with all in"),
        (SPANNER, "make a spanner first that gets to 'gap'"),
    ],
)
def test_tool_in_words(box: ChooseAnswer, name: str, what: str) -> None:
    """A tool is told with both chances, by the second figure, and its minutes."""
    act = ActAnswer(name, "gap", "", 45.0, 0.85, 0.80)
    (told,) = acts(replace(box, acts=(act,)))
    assert told.what == what
    assert told.then == "85 in 100, and 80 in 100 without, with what usually goes wrong"
    assert told.minutes == "45 minutes"


def test_trial_build_that_is_even_is_told_so() -> None:
    """Half a minute is no difference by such estimates; what is worth it is told so."""
    even = TrialAnswer("locking", (), 2.0, 0.0, 2.6, 4.6, 5.0, 1.0, 1.0)
    assert "comes to about the same" in trial_words(even)
    assert "is worth it: some 5 minutes" in trial_words(replace(even, straight_minutes=9.0))
