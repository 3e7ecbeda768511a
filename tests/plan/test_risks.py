"""What may go wrong, laid on the steps of a unit: by its model, not typed in."""

from dataclasses import replace

import pytest
from benchmarks._jobs import put

from dryfit.app.usecases import demos
from dryfit.app.usecases.ordering.job import job_of
from dryfit.app.usecases.ordering.unit import unit_of
from dryfit.ask.variants import PRIORS
from dryfit.document.read import read_document
from dryfit.plan.actions import Act, Job, Way, Wishes
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
    mistakes = [risk for risk in headstock.risks if not risk.words.endswith(BY_SIZES)]
    assert {round(risk.chance, 12) for risk in mistakes} <= known


def test_pack_that_the_sizes_leave_open_is_a_risk_of_its_own() -> None:
    """A box whose pack is not what is wanted stops at the float, as often as the first figure says.

    Fitted 0.20 too thick, its float is never within limits: the first figure is nothing, so one
    build in one has the pack wrong, and the dial shows it each time.
    """
    document = read_document(demos.text("feed-box-sealant"))
    job = job_of(unit_of(document.rebuild), Wishes())
    (pack,) = [risk for risk in job.risks if risk.words.endswith(BY_SIZES)]
    assert (pack.chance, pack.born, pack.again) == (1.0, "thrust shim", False)
    assert pack.seen["read end float"] > 0.9


BY_SIZES = "by the sizes"


def test_what_is_read_of_a_part_by_itself_is_put_right_in_the_hand() -> None:
    """A shim pack measured before it goes in: two shims too many cost no undoing.

    The micrometer shows a tenth too much each time, so nothing of it is left to be found later.
    """
    job = job_of(unit_of(read_document(demos.text("feed-box")).rebuild), Wishes())
    (doubled,) = [risk for risk in job.risks if "too many" in risk.words]
    assert doubled.chance < 0.002
    without = demos.text("feed-box").replace(
        b"  shim pack: {kind: thickness, of: thrust shim, by: micrometer}\n", b""
    )
    bare = job_of(unit_of(read_document(without).rebuild), Wishes())
    (doubled,) = [risk for risk in bare.risks if "too many" in risk.words]
    assert doubled.chance == pytest.approx(0.02 * 0.9)  # the table: now and then, one in ten seen


def test_what_was_wrong_in_a_part_does_not_come_again(headstock: Job) -> None:
    """A ring pressed home may stand off each time; a swapped part, once put right, stays so."""
    job = job_of(unit_of(read_document(demos.text("bevel-box")).rebuild), Wishes())
    again = {risk.words: risk.again for risk in (*headstock.risks, *job.risks)}
    assert all(again[words] for words in again if "not home" in words)
    assert not any(again[words] for words in again if "too many" in words)


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


def test_check_is_not_read_before_what_it_reads() -> None:
    """A spacer that waits for the gasket: its depth without the gasket has no room, and is not read
    where there is no spacer."""
    steps = (put("shaft"), put("gasket"), put("spacer", "shaft", "gasket"))
    every, spacer = frozenset(step.name for step in steps), frozenset({"spacer"})
    depth = Asked("depth to spacer", every, frozenset({"gasket"}), spacer)
    assert read_in(steps, [depth]) == ()
    (read,) = read_in(steps, [Asked("depth to spacer", every, frozenset(), spacer)])
    assert read.after == every


def test_check_is_read_with_all_in_place_where_its_instrument_asks_too_much() -> None:
    """A straightedge that gets in before the cup alone, but what it lies on waits for the cup: read
    at the end, by whatever gets there then."""
    steps = (put("cup"), put("shaft", "cup"))
    every, cup = frozenset(step.name for step in steps), frozenset({"cup"})
    way = Way("to tail, straightedge", cup)
    faces = Asked("faces", every, read=frozenset({"shaft"}), by=(way,), spared=cup)
    (read,) = read_in(steps, [faces])
    assert (read.after, read.ways) == (every, ())
    (sooner,) = read_in(steps, [replace(faces, read=frozenset())])
    assert (sooner.after, [way.shut_by for way in sooner.ways]) == (frozenset(), [cup])
