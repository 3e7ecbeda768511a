"""Services that nothing waits for are left out of the search: no order is worse for it."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plan.jobs import all_orders, jobs

from dryfit.plan.actions import Act, Job, Step, Way
from dryfit.plan.cost import costs_of
from dryfit.plan.loose import loose
from dryfit.plan.order import best_order
from dryfit.plan.placing import can_go
from dryfit.plan.tangles import tangles


@st.composite
def served(draw: st.DrawFn) -> Job:
    """Draw a job with one or two services after some steps, each shut by others."""
    job = draw(jobs(most=5))
    names = [step.name for step in job.steps]
    some = st.frozensets(st.sampled_from(names), max_size=2)
    own = []
    for number in range(draw(st.integers(1, 2))):
        ways = tuple(Way(f"way {n}", draw(some)) for n in range(draw(st.integers(1, 2))))
        own.append(Step(name=f"s{number}", act=Act.GREASE, after=draw(some), ways=ways))
    return replace(job, drawn=(*job.drawn, *own))


@settings(max_examples=150)
@given(served().filter(lambda job: not tangles(job)))
def test_nothing_is_cheaper_though_services_are_left_out(job: Job) -> None:
    """Of all orders that can be gone, none is cheaper, and the one that is told can be gone."""
    costs = costs_of(job)
    assert loose(job)
    order = best_order(job)
    steps = [costs.masks.at[name] for name in order.steps]
    assert can_go(costs.masks, steps)
    assert order.proven
    assert order.cost == pytest.approx(min(cost for cost, _ in all_orders(costs)), abs=1e-9)
    assert costs.of(steps) == pytest.approx(order.cost)
