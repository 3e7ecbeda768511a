"""Checks early, services late, and what is said before a step hides something."""

import pytest
from benchmarks._jobs import check, put
from hypothesis import given, settings
from tests.plan.jobs import jobs, right_angle_head

from dryfit.plan.actions import Act, Job, Risk, Step, Way
from dryfit.plan.cost import costs_of
from dryfit.plan.masks import bits, masks_of
from dryfit.plan.order import best_order
from dryfit.plan.placing import as_drawn, can_go, checks_early, checks_late, tidied, turns
from dryfit.plan.tangles import tangles

CARTRIDGE = (
    put("inner ring"),
    put("spacer", "inner ring"),
    put("nut", "spacer"),
    Step(
        name="grease",
        act=Act.GREASE,
        after=frozenset({"inner ring"}),
        ways=(Way("from the end", frozenset({"cover"})),),
    ),
    put("cover", "nut"),
    check("feeler at spacer", "spacer", shut_by="cover"),
    check("float", "nut"),
)


def test_grease_goes_in_last_before_its_cover() -> None:
    """Grease is packed after the checks it would spoil, and before the cover that hides it."""
    order = tidied(Job(CARTRIDGE), best_order(Job(CARTRIDGE)).steps)
    assert order == (
        "inner ring", "spacer", "feeler at spacer", "nut", "float", "grease", "cover",
    )  # fmt: skip


def test_last_chance_is_told_before_the_step() -> None:
    """Before the cover goes on one is told what it hides: the gap at the spacer, and the grease."""
    job = Job(CARTRIDGE)
    told = {t.step.name: t.words for t in turns(job, tidied(job, best_order(job).steps))}
    assert told["cover"] == "last chance to 'grease' and 'feeler at spacer'"
    assert [name for name, words in told.items() if words] == ["cover"]


def test_what_is_spoiled_by_taking_off_is_a_point_of_no_return() -> None:
    """A plug that is driven in is told as one before it is."""
    plug = Step(name="end plug", once=True)
    (turn,) = turns(Job((plug,)), ("end plug",))
    assert turn.words == "to take it off again spoils it"


def test_last_chance_waits_for_the_last_way() -> None:
    """With a window left open nothing is said at the cover, only at the plug of the window."""
    ways = (Way("end", frozenset({"cover"})), Way("window", frozenset({"plug"})))
    gap = Step(name="gap", act=Act.READ, ways=ways)
    job = Job((put("cover"), put("plug"), gap))
    told = {t.step.name: t.words for t in turns(job, ("gap", "cover", "plug"))}
    assert told == {"gap": "", "cover": "", "plug": "last chance to 'gap'"}


def test_service_is_not_put_off_past_its_check() -> None:
    """A nut is locked before what shows whether it turned along in locking."""
    lock = Step(name="lock", act=Act.LOCK, after=frozenset({"nut"}))
    steps = (put("nut"), lock, check("float", "lock"), put("cover", "float"))
    risk = Risk("dragged along", 0.08, "lock", {"float": 1.0})
    job = Job(steps, (risk,))
    assert tidied(job, best_order(job).steps) == ("nut", "lock", "float", "cover")


@settings(max_examples=100)
@given(jobs().filter(lambda job: not tangles(job)))
def test_tidying_keeps_the_cost_and_can_be_gone(job: Job) -> None:
    """An order brought near to the drawing's costs no more than before and leaves nothing out."""
    costs = costs_of(job)
    best = best_order(job)
    steps = [costs.masks.at[name] for name in tidied(job, best.steps)]
    assert can_go(costs.masks, steps)
    assert costs.of(steps) == pytest.approx(best.cost, abs=1e-9)


@settings(max_examples=100)
@given(jobs().filter(lambda job: not tangles(job)))
def test_early_and_late_are_the_two_ends(job: Job) -> None:
    """No check can be read before its early place, nor after its late one, in the same order."""
    masks = masks_of(job)
    steps = as_drawn(job)
    early, late = checks_early(masks, steps), checks_late(masks, steps)
    assert can_go(masks, early)
    assert can_go(masks, late)
    for check_ in bits(masks.reads):
        places = []
        for at in range(len(steps) + 1):
            done = sum(1 << step for step in steps[:at])
            ready = not masks.needs[check_] & ~masks.reads & ~done
            if ready and any(not way & done for way in masks.ways[check_]):
                places.append(at)
        found = [sum(s in steps for s in order[: order.index(check_)]) for order in (early, late)]
        assert found == [places[0], places[-1]]


def test_drawn_order_is_kept_where_it_can_be() -> None:
    """What the drawing lists from one end to the other is followed, checks put between."""
    job = right_angle_head()
    assert as_drawn(job) == list(range(20))


def test_service_is_not_put_off_into_work_at_risk() -> None:
    """Grease goes in before a step that may go wrong if it would be wiped out for that."""
    grease = Step(name="grease", act=Act.GREASE, ways=(Way("end", frozenset({"plate"})),))
    steps = (put("ring"), grease, put("shim"), put("plate", "shim"), check("float", "plate"))
    risk = Risk("wrong shim", 0.3, "shim", {"float": 1.0})
    order = tidied(Job(steps, (risk,)), best_order(Job(steps, (risk,))).steps)
    assert order.index("grease") < order.index("shim")
    calm = tidied(Job(steps), best_order(Job(steps)).steps)
    assert calm.index("shim") < calm.index("grease") < calm.index("plate")


@settings(max_examples=100)
@given(jobs().filter(lambda job: not tangles(job)))
def test_some_order_can_always_be_gone(job: Job) -> None:
    """The order that a search starts from is one that can be gone."""
    masks = masks_of(job)
    assert can_go(masks, masks.some_order())
