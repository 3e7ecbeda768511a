"""What an order of work makes of the second figure, and what tools are worth by it."""

import pytest
from tests.ask.test_usual import NEVER, looked
from tests.bench.test_readings import opened, packs

from dryfit.ask.acts import GAUGE, MINUTES, SPANNER
from dryfit.ask.asking import Asking
from dryfit.ask.closing import close_up
from dryfit.ask.looks import Looks
from dryfit.ask.planned import Planned, Spared, Tool, tool_acts
from dryfit.ask.targets import Target, targets
from dryfit.ask.usual import Later, Usual, with_the_usual
from dryfit.ask.variants import Prior

CERTAIN = {**NEVER, "sealant": Prior(1.0, 0.0, "")}


def looks_of(name: str) -> tuple[Looks, tuple[Target, ...]]:
    """Look at a demo with the packs of its sheet."""
    asking = Asking(opened(name), 400)
    return looked(asking, packs(name)), targets(asking.rebuild)


def later(looks: Looks, *checks: str) -> Later:
    """Let these checks be read when all has come about, and no other."""
    return {one.name: frozenset(checks) for one in looks.variants}


def second(name: str, *checks: str) -> Usual:
    """Ask for the second figure with sealant in each build, of 90 in 100 by the sizes."""
    looks, wanted = looks_of(name)
    return with_the_usual(looks, wanted, 0.9, CERTAIN, later=later(looks, *checks))


def test_check_read_after_the_slip_catches_it() -> None:
    """Sealant for the gasket: 0.21 of room is gone, and the dial shows it in every unit."""
    assert second("feed-box", "end float").chance == pytest.approx(0.9, abs=0.01)


def test_check_read_before_the_slip_does_not() -> None:
    """Only the shim is measured after, which sealant does not change: all is lost, as unread."""
    found = second("feed-box", "shim pack")
    assert found.chance == pytest.approx(found.unchecked, abs=0.02)  # 1 in 100 lies outside anyway
    assert found.chance < 0.05
    assert second("feed-box").chance == found.unchecked


def test_slip_that_the_order_does_not_know_is_read_by_all() -> None:
    """What has no step is there from the beginning, so each check may show it."""
    looks, wanted = looks_of("feed-box")
    found = with_the_usual(looks, wanted, 0.9, CERTAIN, later={})
    assert found.chance == with_the_usual(looks, wanted, 0.9, CERTAIN).chance


def test_gauge_is_worth_what_its_check_catches() -> None:
    """With no check read the second figure is that unread; with the float it is that of the float.

    The act's gain is the difference of the two, by the table as it is: more, never less.
    """
    looks, wanted = looks_of("feed-box")
    blind = with_the_usual(looks, wanted, 0.9, later=later(looks))
    seen = with_the_usual(looks, wanted, 0.9, later=later(looks, "end float"))
    gauge = Tool(GAUGE, "end float", later(looks, "end float"))
    (act,) = tool_acts(looks, wanted, 0.9, blind, Planned(later(looks), tools=(gauge,)))
    assert (act.chance, act.without) == (seen.chance, blind.unchecked)
    assert act.gain > 0.03
    assert (act.name, act.what, act.minutes) == (GAUGE, "end float", MINUTES[GAUGE])


def test_spanner_is_worth_what_a_slack_nut_costs() -> None:
    """With a spanner the nut is up: what it cost by the table is gained, and nothing else."""
    looks, wanted = looks_of("quill")
    order = later(looks)
    bare = with_the_usual(looks, wanted, 0.9, later=order)
    (slack,) = (v for v in looks.variants if v.kind == "nut not up" and v.parts == ("nut",))
    tool = Tool(SPANNER, "nut", order, frozenset({slack.name}))
    then = with_the_usual(looks, wanted, 0.9, later=order, never=tool.never)
    cost = next(slip.costs for slip in bare.slips if slip.words == slack.words)
    assert then.chance - bare.chance == pytest.approx(cost)
    acts = tool_acts(looks, wanted, 0.9, bare, Planned(order, tools=(tool,)))
    assert [act.gain for act in acts] == [pytest.approx(cost)] * (cost >= 0.01)


def test_tool_that_gains_nothing_is_not_told() -> None:
    """A gauge for a check that shows nothing that goes wrong is no act."""
    looks, wanted = looks_of("feed-box")
    usual = with_the_usual(looks, wanted, 0.9, later=later(looks, "end float"))
    gauge = Tool(GAUGE, "shim pack", later(looks, "end float"))
    assert tool_acts(looks, wanted, 0.9, usual, Planned(later(looks), tools=(gauge,))) == ()


def test_what_was_planned_reaches_the_closing() -> None:
    """The sheet takes its second figure, its acts and what spares work from the order handed in."""
    asking = Asking(opened("feed-box"), 2_000)
    spared = (Spared("read it early", "end float", "cover", 0.0, 3.0),)

    def blind(looks: Looks, _: tuple[Target, ...]) -> Planned:
        tool = Tool(GAUGE, "end float", later(looks, "end float"))
        return Planned(later(looks), spared, (tool,))

    closing, plain = close_up(asking, blind), close_up(asking)
    assert closing.usual is not None
    assert plain.usual is not None
    assert closing.usual.chance == closing.usual.unchecked < plain.usual.chance
    assert closing.spared == spared
    assert GAUGE in [act.name for act in closing.acts]
    gains = [act.gain / act.minutes for act in closing.acts]
    assert gains == sorted(gains, reverse=True)


def test_no_order_leaves_the_second_figure_as_it_was() -> None:
    """Where no order can be, every check is taken to be read when all is in."""
    asking = Asking(opened("feed-box"), 2_000)
    assert close_up(asking, lambda *_: None).usual == close_up(asking).usual
