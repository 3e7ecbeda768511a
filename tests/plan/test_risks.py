"""What may go wrong, laid on the steps of a unit: by its model, not typed in."""

import pytest
from benchmarks._jobs import put

from dryfit.app.usecases import demos
from dryfit.app.usecases.order_job import job_of, unit_of
from dryfit.ask.variants import PRIORS
from dryfit.document.read import read_document
from dryfit.plan.actions import Act, Job, Wishes
from dryfit.plan.checks import Asked, read_in, service
from dryfit.plan.tangles import tangles


@pytest.fixture(scope="module")
def headstock() -> Job:
    """Give the headstock as a job."""
    return job_of(unit_of(read_document(demos.text("headstock")).rebuild), Wishes())


def test_every_risk_has_its_step_and_its_check_comes_later(headstock: Job) -> None:
    """Nothing is to be shown by a check that may come before it has happened."""
    assert headstock.risks
    assert tangles(headstock) == ()
    assert {risk.born for risk in headstock.risks} <= set(headstock.named)


def test_chances_are_those_of_the_table_less_what_the_eye_finds(headstock: Job) -> None:
    """A risk is as likely as the table of what usually goes wrong says."""
    known = {round(prior.chance * (1 - prior.seen), 12) for prior in PRIORS.values()}
    assert {round(risk.chance, 12) for risk in headstock.risks} <= known


def test_float_shows_what_changes_it(headstock: Job) -> None:
    """A nut that was dragged round in locking is shown by the float, which is read after it."""
    dragged = [risk for risk in headstock.risks if "nut" in risk.words and risk.seen]
    assert dragged
    assert all("read end float" in risk.seen for risk in dragged)


def test_unit_with_an_unknown_size_has_its_steps_and_no_risks() -> None:
    """With a length not known the order still comes from the shapes; chances are left out."""
    text = demos.text("feed-box").decode().replace("148.70", "not known")
    job = job_of(unit_of(read_document(text.encode()).rebuild), Wishes())
    assert job.risks == ()
    assert {"shaft", "cover", "thrust shim"} <= set(job.named)


STEPS = (put("ring"), put("nut", "ring"), service("lock nut", Act.LOCK, "nut"), put("cover", "nut"))


def test_check_with_a_part_left_out_is_read_before_it() -> None:
    """A gap read without the cover waits for nut and lock, and the cover for it."""
    every = frozenset(step.name for step in STEPS)
    (gap,) = read_in(STEPS, [Asked("gap", every, frozenset({"cover"}))])
    assert gap.after == {"ring", "nut", "lock nut"}
    assert [way.shut_by for way in gap.ways] == [{"cover"}]


def test_check_of_a_nut_not_locked_comes_before_the_lock() -> None:
    """A float read with the nut set and no more is read before it is locked."""
    every = frozenset(step.name for step in STEPS)
    (read,) = read_in(STEPS, [Asked("float, set", every, frozenset({"lock nut"}))])
    assert read.after == {"ring", "nut", "cover"}
    assert [way.shut_by for way in read.ways] == [{"lock nut"}]


def test_part_by_itself_is_measured_before_it_goes_on() -> None:
    """The thickness of a ring is read before the ring is on, and needs nothing in place."""
    (read,) = read_in(STEPS, [Asked("thickness", frozenset({"ring"}), alone=True)])
    assert read.after == frozenset()
    assert [way.shut_by for way in read.ways] == [{"ring"}]


def test_built_means_all_in_place() -> None:
    """A check of the finished unit waits for every step of its line."""
    (read,) = read_in(STEPS, [Asked("float", frozenset(step.name for step in STEPS))])
    assert read.after == {"ring", "nut", "lock nut", "cover"}
    assert read.ways == ()


def test_check_without_a_ring_keeps_what_does_not_wait_for_it() -> None:
    """A depth read without the ring is read with the plug in that has nothing to do with it."""
    steps = (*STEPS, put("plug"))
    every = frozenset(step.name for step in steps)
    (read,) = read_in(steps, [Asked("depth", every, frozenset({"ring"}))])
    assert read.after == {"plug"}


def test_check_for_which_parts_would_come_off_again_is_read_with_less() -> None:
    """Two checks at odds: the second is read with that alone in place which must be there."""
    steps = (put("shaft"), put("spacer", "shaft"), put("gasket"))
    every = frozenset(step.name for step in steps)
    first, second = read_in(
        steps,
        [
            Asked("depth to spacer", every, frozenset({"gasket"})),
            Asked("seat of spacer", every, frozenset({"spacer"})),
        ],
    )
    assert first.after == {"shaft", "spacer"}
    assert second.after == {"shaft"}
