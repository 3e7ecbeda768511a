"""The order in which least has to be undone: `best_order`, the next best, and how many there are.

Exact over sets of steps done where these are few enough; else the best found, with a bound below
which no order can come.
"""

from collections import defaultdict
from dataclasses import dataclass, replace

from dryfit.plan.actions import Job
from dryfit.plan.board import Board
from dryfit.plan.cost import BY_STEPS, Costs, Weigh, costs_of
from dryfit.plan.loose import loose, put_back, without
from dryfit.plan.masks import masks_of
from dryfit.plan.search import search

WIDTHS = (300, 3_000, 30_000)
"""How many sets of a size are kept: as few as prove it."""

SAME = 1e-9
"""Two costs are told as the same within this."""


@dataclass(frozen=True, slots=True)
class Order:
    """An order of all steps.

    Attributes
    ----------
    steps
        Their names, the first first.
    cost
        What may be expected to be undone, as it was weighed.
    bound
        No order costs less.
    looked_at
        How many sets of steps were looked at.
    """

    steps: tuple[str, ...]
    cost: float
    bound: float
    looked_at: int

    @property
    def proven(self) -> bool:
        """Whether no order is better."""
        return self.cost <= self.bound + SAME

    @property
    def words(self) -> str:
        """What to call it."""
        if self.proven:
            return "best"
        return f"best found: {self.cost:.3g}, and none below {self.bound:.3g}"


def best_order(job: Job, weigh: Weigh = BY_STEPS, widths: tuple[int, ...] = WIDTHS) -> Order:
    """Find the order in which least is expected to be undone.

    Parameters
    ----------
    job
        A job without tangles.
    weigh
        How undoing is counted.
    widths
        How many sets of a size may be kept, try by try: the cap on memory and time.

    Examples
    --------
    A ring is felt before its cover goes on, drawn as they may be:

    >>> from dryfit.plan.actions import Act, Risk, Step
    >>> on_it = frozenset({"ring"})
    >>> ring, cover = Step(name="ring"), Step(name="cover", after=on_it)
    >>> feel = Step(name="feel", act=Act.READ, after=on_it)
    >>> best_order(Job((ring, cover, feel), (Risk("", 0.2, "ring", {"feel": 1.0}),))).steps
    ('ring', 'feel', 'cover')
    """
    services = loose(job)
    if services:
        best = _best(without(job, services), weigh, widths)
        steps = put_back(job, best.steps, services)
        if steps is not None:
            return replace(best, steps=steps)
    return _best(job, weigh, widths)


def _best(job: Job, weigh: Weigh, widths: tuple[int, ...]) -> Order:
    """Search try by try, ever wider, until it is proven."""
    costs = costs_of(job, weigh)
    steps = costs.masks.some_order()
    best = Order(_named(costs, steps), costs.of(steps), 0.0, 0)
    board = Board(costs)
    for width in widths:
        found = search(board, width, best.cost)
        bound = max(best.bound, min(found.bound, best.cost))
        told = (best.steps, best.cost)
        if found.costs and found.costs[0] <= best.cost + SAME:
            told = _named(costs, found.orders[0]), found.costs[0]
        best = Order(*told, min(bound, told[1]), best.looked_at + found.sets)
        if best.proven:
            break
    return best


def next_best(
    job: Job, count: int, weigh: Weigh = BY_STEPS, *, width: int = WIDTHS[-1]
) -> tuple[Order, ...]:
    """Find the best order and those that come next, each of another cost, checks read at once.

    Orders of the same cost differ only in what does not matter; one of them stands for all.

    Examples
    --------
    >>> from dryfit.plan.actions import Risk, Step
    >>> job = Job((Step(name="a"), Step(name="b"), Step(name="c")), (Risk("", 0.5, "a"),))
    >>> [order.cost for order in next_best(job, 5)]
    [0.0, 0.5, 1.0]
    """
    costs = costs_of(job, weigh)
    found = search(Board(costs, count), width)
    return tuple(
        Order(_named(costs, steps), cost, min(found.bound, cost), found.sets)
        for steps, cost in zip(found.orders, found.costs, strict=True)
    )


def how_many(job: Job) -> int:
    """Count the orders in which all steps can be done.

    Examples
    --------
    >>> from dryfit.plan.actions import Step
    >>> how_many(Job((Step(name="a"), Step(name="b"), Step(name="c"))))
    6
    """
    masks = masks_of(job)
    found = {0: 1}
    for _ in masks.names:
        after: dict[int, int] = defaultdict(int)
        for done, count in found.items():
            for step in masks.open_to(done):
                after[done | 1 << step] += count
        found = after
    return found.get(masks.full, 0)


def _named(costs: Costs, steps: tuple[int, ...] | list[int]) -> tuple[str, ...]:
    return tuple(costs.masks.names[step] for step in steps)
