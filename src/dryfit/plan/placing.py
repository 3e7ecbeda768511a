"""Where checks and services go in an order, and what each step hides for good.

Reading order: checks as early or as late as can be, the drawing's order, an order tidied; then what
is said at each step: last chances, points of no return.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from dryfit.plan.actions import Job, Step
from dryfit.plan.cost import BY_STEPS, Costs, Weigh, costs_of
from dryfit.plan.masks import Masks, bits, masks_of
from dryfit.plan.rows import HAIR

Names = tuple[str, ...]


def can_go(masks: Masks, order: Iterable[int]) -> bool:
    """Tell whether each step can be done when its turn comes."""
    done = 0
    for step in order:
        if not masks.may(step, done):
            return False
        done |= 1 << step
    return done == masks.full


def checks_early(masks: Masks, steps: Iterable[int]) -> list[int]:
    """Put every check where it first can be read."""
    done, order = 0, list[int]()
    for step in (None, *steps):
        if step is not None:
            order.append(step)
            done |= 1 << step
        due = _due(masks, done)
        while due:
            order += due
            done |= sum(1 << check for check in due)
            due = _due(masks, done)
    return order


def _due(masks: Masks, done: int) -> list[int]:
    """List checks that can be read now, none of which waits for another."""
    return [check for check in bits(masks.reads & ~done) if masks.may(check, done)]


def checks_late(masks: Masks, steps: Sequence[int]) -> list[int]:
    """Put every check off until a step would hide it, or the end."""
    left, order, waiting = masks.full, list[int](), list(steps)
    while left:
        late = [check for check in bits(left & masks.reads) if masks.comes_off(check, left)]
        step = late[-1] if late else waiting.pop()
        left ^= 1 << step
        order.append(step)
    return order[::-1]


def as_drawn(job: Job) -> list[int]:
    """Give the steps that are no checks in the drawing's order, or near to it if that cannot be."""
    masks = masks_of(job)
    steps = list(bits(masks.full & ~masks.reads))
    if can_go(masks, checks_early(masks, steps)):
        return steps
    return [step for step in masks.some_order() if not masks.reads >> step & 1]


def tidied(job: Job, order: Sequence[str], weigh: Weigh = BY_STEPS) -> Names:
    """Bring an order near to the drawing's, checks early and services late, at no more cost.

    Examples
    --------
    >>> from dryfit.plan.actions import Act
    >>> ring, grease = Step(name="ring"), Step(name="grease", act=Act.GREASE)
    >>> cover = Step(name="cover", after=frozenset({"grease"}))
    >>> tidied(Job((ring, grease, cover)), ("grease", "ring", "cover"))
    ('ring', 'grease', 'cover')
    """
    costs = costs_of(job, weigh)
    steps = [costs.masks.at[name] for name in order]
    ranks = [_rank(job, step) for step in range(len(steps))]
    steps = _sorted_near(costs, steps, ranks)
    for service in [step for step in reversed(steps) if job.steps[step].serves]:
        steps = _put_off(costs, steps, service)
    return tuple(costs.masks.names[step] for step in steps)


def _rank(job: Job, step: int) -> tuple[int, int]:
    """Say where a step would like to be: checks first, services last."""
    own = job.steps[step]
    return (0 if own.reads else 2 if own.serves else 1), step


def _sorted_near(costs: Costs, steps: list[int], ranks: list[tuple[int, int]]) -> list[int]:
    """Swap neighbours as long as that brings one nearer to where it would like to be."""
    steps, swapped = steps.copy(), True
    while swapped:
        swapped, done = False, 0
        for at in range(len(steps) - 1):
            a, b = steps[at : at + 2]
            if ranks[b] < ranks[a] and _may_swap(costs, steps, at, done):
                steps[at : at + 2] = b, a
                swapped = True
            done |= 1 << steps[at]
    return steps


def _may_swap(costs: Costs, steps: list[int], at: int, done: int) -> bool:
    """Tell whether a step may change places with the next, at no more cost."""
    masks, (a, b) = costs.masks, steps[at : at + 2]
    if not (masks.may(b, done) and masks.may(a, done | 1 << b)):
        return False
    swapped = [*steps[:at], b, a, *steps[at + 2 :]]
    return costs.of(swapped) <= costs.of(steps) + HAIR


def _put_off(costs: Costs, steps: list[int], service: int) -> list[int]:
    """Do a service as late as it costs no more."""
    before = costs.of(steps)
    rest = [step for step in steps if step != service]
    for at in range(len(rest), steps.index(service), -1):
        later = [*rest[:at], service, *rest[at:]]
        if can_go(costs.masks, later) and costs.of(later) <= before + HAIR:
            return later
    return steps


@dataclass(frozen=True, slots=True)
class Turn:
    """A step when its turn has come.

    Attributes
    ----------
    step
        What is done.
    hides
        Checks and services to which it shuts the last way: last chance before it.
    no_return
        Why there is no easy way back from it; empty where there is one.
    """

    step: Step
    hides: Names
    no_return: str

    @property
    def words(self) -> str:
        """What to say before it."""
        chance = f"last chance to {_both(self.hides)}" if self.hides else ""
        return "; ".join(part for part in (chance, self.no_return) if part)


def _both(names: Names) -> str:
    told = [f"'{name}'" for name in names]
    return " and ".join([", ".join(told[:-1]), told[-1]] if len(told) > 1 else told)


def turns(job: Job, order: Sequence[str]) -> tuple[Turn, ...]:
    """Say of each step of an order what it hides and whether there is a way back.

    Examples
    --------
    >>> from dryfit.plan.actions import Act, Way
    >>> gap = Step(name="feel the gap", act=Act.READ, ways=(Way("end", frozenset({"cover"})),))
    >>> cover = Step(name="cover")
    >>> [turn.words for turn in turns(Job((gap, cover)), ("feel the gap", "cover"))]
    ['', "last chance to 'feel the gap'"]
    """
    masks, found, done = masks_of(job), list[Turn](), 0
    looked = [n for n, step in enumerate(job.steps) if step.reads or step.serves]
    for name in order:
        number = masks.at[name]
        after = done | 1 << number
        hides = [n for n in looked if n != number and _shuts(masks, n, done, after)]
        step = job.steps[number]
        found.append(Turn(step, masks.told(sum(1 << n for n in hides)), _no_return(step)))
        done = after
    return tuple(found)


def _shuts(masks: Masks, step: int, done: int, after: int) -> bool:
    """Tell whether the last way to a step is open before and shut after."""
    ways = masks.ways[step]
    return any(not way & done for way in ways) and all(way & after for way in ways)


def _no_return(step: Step) -> str:
    return "to take it off again spoils it" if step.once else ""
