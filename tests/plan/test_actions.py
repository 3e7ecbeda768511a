"""Jobs that cannot be: each is told with the steps concerned and the way out."""

import pytest

from dryfit.plan.actions import Act, Ban, Job, Pin, Risk, Step, Way, Wishes
from dryfit.plan.masks import masks_of
from dryfit.plan.tangles import tangles


def step(name: str, *after: str, shut_by: tuple[str, ...] = (), act: Act = Act.PUT) -> Step:
    """Give a step, with one way where something shuts it."""
    ways = (Way("from the end", frozenset(shut_by)),) if shut_by else ()
    return Step(name=name, act=act, after=frozenset(after), ways=ways)


STACK = (step("ring"), step("spacer", "ring"), step("nut", "spacer"), step("cover", "nut"))


def told(job: Job) -> list[str]:
    """Give code and message of what is wrong."""
    return [f"{found.code}: {found.message}" for found in tangles(job)]


def test_a_stack_with_its_checks_is_in_order() -> None:
    """A plan that can be built is not complained of."""
    check = step("float", "nut", shut_by=("cover",), act=Act.READ)
    risk = Risk("spacer too long", 0.1, "spacer", {"float": 1.0})
    assert told(Job((*STACK, check), (risk,))) == []


def test_ring_of_pins_is_named() -> None:
    """Pins that bite their own tail are named in order, and the pins among them once more."""
    pins = (Pin("cover", "oil", ("order", 0)), Pin("oil", "ring", ("order", 1)))
    (found,) = tangles(Job((*STACK, step("oil")), wishes=Wishes(pins=pins)))
    assert found.message == (
        "'ring' before 'spacer', 'spacer' before 'nut', 'nut' before 'cover', "
        "'cover' before 'oil', 'oil' before 'ring': no order has all of these; "
        "pinned: 'cover' before 'oil', 'oil' before 'ring'"
    )
    assert found.place == ("order", 0)
    assert found.way_out == "take out one of them"


def test_ring_is_the_ring_alone() -> None:
    """Steps that only follow a ring are not blamed."""
    pins = (Pin("spacer", "ring"),)
    (only,) = told(Job(STACK, wishes=Wishes(pins=pins)))
    assert "nut" not in only
    assert "cover" not in only


def test_check_that_needs_what_hides_it() -> None:
    """A reading asked for with the cover on, behind the cover, is refused with the reason."""
    check = step("feeler at spacer", "cover", shut_by=("cover",), act=Act.READ)
    (found,) = tangles(Job((*STACK, check)))
    assert found.message == "'feeler at spacer' wants what hides it (from the end: 'cover')"
    assert found.way_out.startswith("read it earlier")


def test_check_with_two_ways_both_shut() -> None:
    """With two ways to a check each is told with what shuts it."""
    ways = (Way("by the window", frozenset({"nut"})), Way("from the end", frozenset({"cover"})))
    check = Step(name="gap", act=Act.READ, after=frozenset({"cover"}), ways=ways)
    assert told(Job((*STACK, check))) == [
        "plan.hidden: 'gap' wants what hides it (by the window: 'nut'; from the end: 'cover')"
    ]


def test_all_slips_are_told_at_once() -> None:
    """A wrong name in a pin, in a ban and in a step of one's own, and a chance of 3: four lines."""
    wishes = Wishes(
        (step("paint", "covr"),), (Pin("nutt", "cover"),), (Ban("nut", "from the left"),)
    )
    risk = Risk("dirt", 3.0, "ring")
    assert told(Job(STACK, (risk,), wishes)) == [
        "plan.unknown step: 'paint' names a step 'covr', which is not there",
        "plan.unknown step: a pin names a step 'nutt', which is not there",
        "plan.unknown way: 'nut' has no way 'from the left'",
        "plan.chance: 'dirt': 3 by 'chance' is no chance",
    ]


def test_own_step_of_a_name_that_is_taken() -> None:
    """A step of one's own does not silently replace one of the unit."""
    (found,) = tangles(Job(STACK, wishes=Wishes((step("nut"),))))
    assert found.message == "there is a step 'nut' already"


def test_last_way_banned() -> None:
    """Forbidding the only way to a step is told, with the ways it had."""
    ways = (Way("from nose"), Way("from drive"))
    shaft = Step(name="shaft", ways=ways)
    bans = (Ban("shaft", "from nose"), Ban("shaft", "from drive"))
    assert told(Job((shaft,), wishes=Wishes(bans=bans))) == [
        "plan.no way: 'shaft' has no way left: from nose, from drive - none may be used"
    ]
    assert told(Job((shaft,), wishes=Wishes(bans=bans[:1]))) == []


def test_locked_set_is_named_with_what_each_would_need() -> None:
    """Three parts that shut each other in are named, each with what stops it; the fourth is not."""

    def between(name: str, left: str, right: str) -> Step:
        ways = (Way("left", frozenset({left})), Way("right", frozenset({right})))
        return Step(name=name, ways=ways)

    three = (between("a", "b", "c"), between("b", "a", "c"), between("c", "a", "b"))
    (found,) = tangles(Job((*three, step("d"))))
    assert found.code == "plan.locked"
    assert found.message.startswith("no order has all of 'a', 'b', 'c': ")
    assert "'b' is stopped by 'a' (left) and 'c' (right)" in found.message


def test_check_that_may_come_too_early() -> None:
    """A check that is to show a slip has to come after it, else the plan could fool itself."""
    early = step("feel", "ring", act=Act.READ)
    risk = Risk("nut slack", 0.1, "nut", {"feel": 1.0})
    assert told(Job((*STACK, early), (risk,))) == [
        "plan.too early: 'feel' is to show 'nut slack', but may come before 'nut'"
    ]


@pytest.mark.parametrize("done", [(), ("ring",), ("ring", "spacer", "nut")])
def test_whatever_was_done_in_order_can_be_finished(done: tuple[str, ...]) -> None:
    """After any steps done in order the rest can be done."""
    masks = masks_of(Job(STACK))
    assert masks.can_finish(masks.mask(done))


def test_a_step_can_shut_the_last_way_to_another() -> None:
    """With the ring on from both sides the part between them can no longer get in."""
    ways = (Way("left", frozenset({"left cap"})), Way("right", frozenset({"right cap"})))
    job = Job((step("left cap"), step("right cap"), Step(name="roller", ways=ways)))
    masks = masks_of(job)
    assert tangles(job) == ()
    assert masks.can_finish(masks.mask(["left cap"]))
    assert not masks.can_finish(masks.mask(["left cap", "right cap"]))


def test_an_order_can_be_gone_however_the_steps_are_listed() -> None:
    """Steps listed from the wrong end are put into an order that can be gone."""
    masks = masks_of(Job(STACK[::-1]))
    assert masks.told(masks.mask(["ring"])) == ("ring",)
    assert [masks.names[n] for n in masks.some_order()] == ["ring", "spacer", "nut", "cover"]


def test_what_shuts_every_way_to_a_step_comes_after_it() -> None:
    """A check read from either end waits for neither ring, but a cover over both ends comes after
    it, and so does all that comes after the cover: the two rings do not."""
    ends = Way("left", frozenset({"left ring", "cover"})), Way("right", frozenset({"cover"}))
    steps = (
        Step(name="read", act=Act.READ, ways=ends),
        Step(name="left ring"),
        Step(name="cover"),
        Step(name="screws", after=frozenset({"cover"})),
    )
    masks = masks_of(Job(steps))
    after = {name for name in masks.names if masks.ahead[masks.at[name]] >> masks.at["read"] & 1}
    assert after == {"cover", "screws"}
