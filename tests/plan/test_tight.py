"""Minutes of tight rings: pressed, warmed, drawn off."""

from dryfit.app.usecases import demos
from dryfit.app.usecases.ordering.job import job_of
from dryfit.app.usecases.ordering.presses import presses, timed
from dryfit.app.usecases.ordering.unit import unit_of
from dryfit.document.read import read_document
from dryfit.plan.actions import Job, Step, Wishes
from dryfit.plan.tight import BENCH_PRESS, PRESSED, WARMED, Ring, with_rings


def test_ring_takes_longer_off_than_on() -> None:
    """A ring is drawn off by a puller, which takes longer than to press it on."""
    on, off = PRESSED
    assert off > on


def test_ring_too_hard_for_a_bench_press_is_warmed() -> None:
    """Beyond a ton it is warmed, which takes longer; both are the table's minutes."""
    step = Step(name="bearing")
    light, heavy = (
        with_rings(step, [Ring(BENCH_PRESS)]),
        with_rings(step, [Ring(BENCH_PRESS * 1.01)]),
    )
    assert (light.minutes, light.undo) == PRESSED
    assert (heavy.minutes, heavy.undo) == WARMED


def test_step_without_a_tight_ring_takes_as_long_as_before() -> None:
    """Nothing tight: a screwed step of 4 minutes is left as it was, and one that takes longer."""
    assert with_rings(Step(name="nut", minutes=4, undo=4), []).minutes == 4
    assert with_rings(Step(name="shaft", minutes=30, undo=40), [Ring(2e3)]).undo == 40


def timed_job(name: str) -> Job:
    """Give a demo as a job with the minutes of its rings."""
    unit = unit_of(read_document(demos.text(name)).rebuild)
    return timed(job_of(unit, Wishes()), unit)


def test_bearings_of_the_bevel_box_are_timed_in_their_own_steps() -> None:
    """Four bearings with a tight inner ring each: 8 minutes on, 15 off; the spacer takes 2."""
    named = timed_job("bevel-box").named
    rings = ("inner bearing", "outer bearing", "front bearing", "rear bearing")
    assert {(named[ring].minutes, named[ring].undo) for ring in rings} == {PRESSED}
    assert (named["spacer"].minutes, named["spacer"].undo) == (2.0, 2.0)


def test_ring_that_is_to_slide_is_not_timed_as_pressed() -> None:
    """The quill's tail bearing is eased, not pressed: it goes on in the time of any part."""
    named = timed_job("quill").named
    assert (named["tail bearing"].minutes, named["tail bearing"].undo) == (2.0, 2.0)


def test_ring_of_a_roller_bearing_that_comes_apart_is_pressed_in_its_own_step() -> None:
    """A cylindrical roller's inner ring goes on by itself: it is told there, as a cone's is."""
    text = demos.text("bench-drill").decode()
    ball = "deep groove ball, bore: 20, outside: 47, width: 14.00 by micrometer, clearance: C3"
    roller = "cylindrical roller, seat: 20.010 by micrometer, bore: 20, outside: 47, width: 14"
    assert text.count(ball) == 1
    text = text.replace(ball, roller)
    unit = unit_of(read_document(text.encode()).rebuild)
    order = [step.name for line in unit.lines for step in line.built.steps]
    assert "lower, inner" in order
    ((step, (press,)),) = presses(unit, order).items()
    assert (step, press.ring, press.alone) == ("lower, inner", "inner ring", True)
