"""Checks early, services late, and what is said before a step hides something."""

from benchmarks._jobs import check, put
from hypothesis import given, settings
from tests.plan.jobs import jobs

from dryfit.plan.actions import Act, Job, Risk, Step, Way
from dryfit.plan.masks import masks_of
from dryfit.plan.order import best_order
from dryfit.plan.placing import can_go, tidied, turns
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


def test_service_is_put_off_until_it_would_be_hidden() -> None:
    """Grease goes in last before the plate that hides it, work at risk or not: it is lost with the
    plate either way, and early it only gathers dirt (common practice, no source)."""
    grease = Step(name="grease", act=Act.GREASE, ways=(Way("end", frozenset({"plate"})),))
    steps = (put("ring"), grease, put("shim"), put("plate", "shim"), check("float", "plate"))
    risk = Risk("wrong shim", 0.3, "shim", {"float": 1.0})
    for job in (Job(steps, (risk,)), Job(steps)):
        order = tidied(job, best_order(job).steps)
        assert order.index("grease") + 1 == order.index("plate")


@settings(max_examples=100)
@given(jobs().filter(lambda job: not tangles(job)))
def test_some_order_can_always_be_gone(job: Job) -> None:
    """The order that a search starts from is one that can be gone."""
    masks = masks_of(job)
    assert can_go(masks, masks.some_order())
