"""What is spared by a check read early and by a tool, by hand on small jobs."""

import pytest
from benchmarks._jobs import check, put
from hypothesis import given, settings
from tests.plan.jobs import jobs

from dryfit.plan.actions import Job, Risk, Step, Way
from dryfit.plan.gains import early, put_off, reached, spared_by
from dryfit.plan.order import best_order
from dryfit.plan.tangles import tangles

RING = put("ring", minutes=8, undo=15)
FEEL = check("feel", "ring")
PLATE, COVER = put("plate", "ring", minutes=3, undo=3), put("cover", "plate", minutes=2, undo=2)
NOT_HOME = Risk("not home", 0.25, "ring", {"feel": 1.0})


def test_check_read_early_spares_what_would_come_off() -> None:
    """A ring one in four not home: read last, plate and cover come off, 0.25 x (6 + 4) = 2.5."""
    (one,) = early(Job((RING, FEEL, PLATE, COVER), (NOT_HOME,)), ("ring", "feel", "plate", "cover"))
    assert (one.check, one.before) == ("feel", "plate")
    assert one.minutes == pytest.approx(2.5)
    assert one.steps == pytest.approx(0.5)


def test_check_that_is_hidden_is_put_off_no_further_than_it_can_be_read() -> None:
    """Hidden by the cover: at the latest it is read before that, and 0.25 x 6 = 1.5 is spared."""
    hidden = check("feel", "ring", shut_by="cover")
    job = Job((RING, hidden, PLATE, COVER), (NOT_HOME,))
    order = ("ring", "feel", "plate", "cover")
    assert put_off(job, order, "feel") == ("ring", "plate", "feel", "cover")
    assert early(job, order)[0].minutes == pytest.approx(1.5)


def test_check_that_shows_nothing_spares_nothing() -> None:
    """A look that no slip shows in may be read when one likes."""
    job = Job((RING, FEEL, PLATE), (Risk("not home", 0.25, "ring"),))
    assert early(job, ("ring", "feel", "plate"))[0].minutes == 0.0


def test_check_at_the_end_is_told_as_nothing_early() -> None:
    """What is read last anyway is not earlier than it could be."""
    assert early(Job((RING, PLATE, FEEL), (NOT_HOME,)), ("ring", "plate", "feel")) == ()


@settings(max_examples=60)
@given(jobs().filter(lambda job: not tangles(job)))
def test_no_check_costs_by_being_early(job: Job) -> None:
    """To read a check where the best order has it never costs undoing."""
    for one in early(job, best_order(job).steps):
        assert one.minutes >= -1e-9
        assert one.steps >= -1e-9


def test_gauge_that_gets_to_a_check_spares_undoing() -> None:
    """Without any look the ring is found when the unit is tried: 0.25 x 10; with one nothing is."""
    job = Job((RING, PLATE, COVER), (Risk("not home", 0.25, "ring"),))
    with_gauge = Job((RING, PLATE, COVER, FEEL), (NOT_HOME,))
    assert spared_by(job, ("ring", "plate", "cover"), with_gauge) == pytest.approx(2.5)


def test_spanner_that_gets_to_a_nut_later_spares_undoing() -> None:
    """A nut on the gear, done up before a plate hides it, and the gear looked at with that plate.

    One gear in two is wrong: with a socket nut and plate come off, 0.5 x (8 + 2) = 5; with a
    spanner that gets past the plate the nut waits, 0.5 x 2 = 1.
    """
    gear, look = put("gear"), check("look", "plate")
    nut = Step(
        name="nut",
        minutes=4,
        undo=4,
        after=frozenset({"gear"}),
        ways=(Way("socket", frozenset({"plate"})),),
    )
    wrong = Risk("wrong gear", 0.5, "gear", {"look": 1.0})
    job = Job((gear, nut, put("plate", "gear"), look), (wrong,))
    order = best_order(job).steps
    assert order == ("gear", "nut", "plate", "look")
    assert spared_by(job, order, reached(job, "nut", ())) == pytest.approx(4.0)
