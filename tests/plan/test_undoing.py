"""What has to be undone: against builds played out one by one, and published sums."""

from collections.abc import Sequence

import numpy as np
import pytest
from benchmarks._jobs import check, put
from hypothesis import given, settings
from tests.plan.jobs import jobs, right_angle_head

from dryfit.plan.actions import Job, Risk, Step
from dryfit.plan.cost import BY_MINUTES, BY_STEPS, Weigh, costs_of
from dryfit.plan.order import best_order
from dryfit.plan.tangles import tangles
from dryfit.plan.undoing import (
    AT_THE_END,
    BEST,
    DRAWN,
    LATE,
    TRIED,
    Stop,
    compare,
    undoing,
)

BUILDS = 200_000


def played(
    job: Job, order: Sequence[str], weight: dict[str, float]
) -> dict[str, tuple[float, float]]:
    """Build the unit many times over, slips by the dice, and note what was undone.

    Gives mean and its error of the work in a strip for each slip, in one strip a check, and of
    builds that stop at each check.
    """
    luck = np.random.default_rng(1)
    wrong = {risk.words: luck.random(BUILDS) < risk.chance for risk in job.risks}
    alone, joint = np.zeros(BUILDS), np.zeros(BUILDS)
    notes: dict[str, tuple[float, float]] = {}

    def note(name: str, values: "np.ndarray[tuple[int], np.dtype[np.float64]]") -> None:
        notes[name] = float(values.mean()), float(values.std()) / BUILDS**0.5

    for at, name in enumerate([*order, TRIED]):
        undone = np.zeros(BUILDS)
        stopped = np.zeros(BUILDS, dtype=bool)
        for risk in job.risks:
            share = 1.0 if name == TRIED else risk.seen.get(name, 0.0)
            if risk.born in order[:at] and share:
                seen = wrong[risk.words] & (luck.random(BUILDS) < share)
                work = sum(weight[step] for step in order[order.index(risk.born) + 1 : at])
                alone += seen * work
                undone = np.maximum(undone, seen * work)
                stopped |= seen
                wrong[risk.words] &= ~seen
        joint += undone
        note(name, stopped.astype(float))
    note("alone", alone)
    note("joint", joint)
    return notes


def weights(job: Job, *, minutes: bool) -> dict[str, float]:
    """Say what each step counts."""
    return {s.name: 0.0 if s.reads else s.minutes + s.undo if minutes else 1.0 for s in job.steps}


@pytest.mark.parametrize("minutes", [False, True])
@pytest.mark.parametrize("share", [1.0, 0.8])
def test_builds_played_out_undo_as_much_as_told(share: float, minutes: bool) -> None:
    """200 000 builds of the head undo what was told, late or best, sharp-eyed checks or not.

    Tolerance: four standard errors of the mean of what was played.
    """
    head = right_angle_head()
    risks = tuple(Risk(r.words, r.chance, r.born, dict.fromkeys(r.seen, share)) for r in head.risks)
    job = Job(head.steps, risks)
    for schedule in compare(job).schedules[1:]:
        told = schedule.minutes if minutes else schedule.steps
        notes = played(job, schedule.order, weights(job, minutes=minutes))
        pairs = [(told.one_by_one, "alone"), (told.together, "joint")]
        pairs += [(stop.chance, stop.check) for stop in told.stops]
        for value, name in pairs:
            mean, error = notes[name]
            assert value == pytest.approx(mean, abs=4 * error + 1e-9), (schedule.name, name)


@settings(max_examples=60)
@given(jobs().filter(lambda job: not tangles(job)))
def test_what_is_told_is_what_was_searched_for(job: Job) -> None:
    """The undoing told of an order is the cost by which it was chosen, and together is no more."""
    for weigh in (BY_STEPS, BY_MINUTES, Weigh(only_what_must=True)):
        order = best_order(job, weigh)
        told = undoing(job, order.steps, weigh)
        assert told.one_by_one == pytest.approx(order.cost, abs=1e-9)
        assert told.together <= told.one_by_one + 1e-9
        assert told.together == pytest.approx(sum(s.chance * s.off for s in told.stops))


@settings(max_examples=60)
@given(jobs().filter(lambda job: not tangles(job)))
def test_the_best_is_best_and_early_is_not_worse_than_late(job: Job) -> None:
    """Of the orders that can be gone the best costs least; in one order early checks cost less."""
    costs = {s.name: s.steps.one_by_one for s in compare(job).schedules}
    assert costs[BEST] <= min(costs[DRAWN], costs[LATE]) + 1e-9
    assert costs[DRAWN] <= min(costs[LATE], costs[AT_THE_END]) + 1e-9


def test_early_checks_bring_most_of_the_gain() -> None:
    """In the head early checks save most, and the order of steps adds less."""
    costs = {s.name: s.steps.one_by_one for s in compare(right_angle_head()).schedules}
    assert costs[BEST] < costs[DRAWN] < costs[LATE] < costs[AT_THE_END]
    assert costs[LATE] - costs[DRAWN] > 5 * (costs[DRAWN] - costs[BEST])


def chain(count: int, chance: float) -> Job:
    """Give steps in a row, each with a check of its own right after."""
    steps: list[Step] = []
    risks = []
    for n in range(count):
        steps.append(put(f"step {n}", *([f"check {n - 1}"] if n else [])))
        steps.append(check(f"check {n}", f"step {n}"))
        risks.append(Risk(f"slip {n}", chance, f"step {n}", {f"check {n}": 1.0}))
    return Job(tuple(steps), tuple(risks))


def in_a_row(job: Job) -> list[float]:
    """Give the chance to get to each check without a stop, and past the last."""
    order = [step.name for step in job.steps]
    return [stop.unbroken for stop in undoing(job, order).stops]


@pytest.mark.parametrize(
    ("count", "chance", "placed", "digits"),
    [(1000, 0.01, 2_316_257.0, 0.5), (10, 0.01, 1_173.6 / 111, 0.0005), (10, 0.5, 2046.0, 1e-6)],
)
def test_simons_watchmakers(count: int, chance: float, placed: float, digits: float) -> None:
    """Whoever starts anew after each slip puts on as many parts as ((1-p)^-n - 1)/p in the mean.

    H. A. Simon, The architecture of complexity (1962): a watch of 1000 parts in one go against 111
    units of ten; the ratio 2 316 257 / 1 173.6 = 1973.7, about 1974, is the corrected one of
    Turney (1989) and Saltzer (1996). Ten heads in a row: 2^11 - 2 = 2046. From memory. Parts put
    on until one build gets through: the sum of chances to get to each, over that to get through.
    """
    reached = in_a_row(chain(count, chance))
    assert sum(reached[:-1]) / reached[-1] == pytest.approx(placed, abs=digits)


def test_inspection_at_the_end_and_at_each_step() -> None:
    """100 parts, 20 steps at 1.00, 3 % spoiled in each: 2200.00 with a last look at 2.00,
    1672.75 with one at 0.10 after each step, where no work goes on on a spoiled part.

    Groover, Automation, Production Systems, and Computer-Integrated Manufacturing, chapter on
    inspection (statement read, edition not noted; sums by hand: Q (n c + c_f) and
    Q (c + c_s) (1 - 0.97^20) / 0.03).
    """
    reached = in_a_row(chain(20, 0.03))
    assert pytest.approx(2200.00) == 100 * (20 * 1.00 + 2.00)
    assert 100 * 1.10 * sum(reached[:-1]) == pytest.approx(1672.75, abs=0.005)


def test_two_slips_at_one_check() -> None:
    """Two slips in two come off in one strip: by hand 0.5 x 2 + 0.5 x 0.5 x 1 = 1.25 steps.

    One by one they would cost 0.5 x 2 + 0.5 x 1 = 1.5.
    """
    steps = (put("a"), put("b", "a"), put("c", "b"), check("look", "c"))
    risks = (Risk("in a", 0.5, "a", {"look": 1.0}), Risk("in b", 0.5, "b", {"look": 1.0}))
    told = undoing(Job(steps, risks), ("a", "b", "c", "look"))
    assert told.one_by_one == pytest.approx(1.5)
    assert told.together == pytest.approx(1.25)
    assert told.stops[0].chance == pytest.approx(0.75)
    assert told.stops[0].words == "more than half of all builds stop here; two parts come off"


def test_changes_of_station_are_no_undoing() -> None:
    """What is carried to the press and back is counted in the order, not in the undoing."""
    steps = (put("a"), put("b", "a"), check("look", "b"))
    job = Job(steps, (Risk("in a", 0.5, "a", {"look": 1.0}),))
    order = best_order(job, Weigh(change=3.0))
    assert undoing(job, order.steps, Weigh(change=3.0)).one_by_one == pytest.approx(0.5)
    assert costs_of(job, Weigh(change=3.0)).of([0, 1, 2]) == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("chance", "off", "words"),
    [
        (0.75, 5.1, "more than half of all builds stop here; five parts come off"),
        (0.166, 5.1, "about one build in six stops here; five parts come off"),
        (0.48, 1.0, "about one build in two stops here; one part comes off"),
        (0.03, 0.2, "about one build in 33 stops here; nothing has to come off"),
        (0.001, 3.0, "hardly any build stops here; three parts come off"),
    ],
)
def test_a_stop_in_words(chance: float, off: float, words: str) -> None:
    """How often it stops and what comes off is said as one would say it at the bench."""
    assert Stop("float", chance, 1.0, off).words == words
