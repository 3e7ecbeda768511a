"""What is to be expected to be undone, in steps and minutes, and what it is said like.

Reading order: the stops of an order, what they cost together, four orders of the same job, words.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from dryfit.plan.actions import Job
from dryfit.plan.cost import BY_STEPS, Costs, Reals, Weigh, costs_of
from dryfit.plan.masks import bits, masks_of
from dryfit.plan.order import WIDTHS, Order, best_order
from dryfit.plan.placing import Names, as_drawn, checks_early, checks_late, tidied

TRIED = "the finished unit is tried"
"""Where all shows that no check has shown."""


NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
"""Small numbers as they are said."""

SELDOM = 0.005
"""What happens less often than this is told as hardly ever [-]."""

MOST = 0.55
"""What happens more often than this is told as more than half [-]."""


@dataclass(frozen=True, slots=True)
class Stop:
    """A place at which builds stop, because something is seen to be wrong.

    Attributes
    ----------
    check
        What is read there.
    chance
        That a build stops here, all that was seen before being mended [-].
    unbroken
        That a build gets here without any stop before [-].
    off
        What comes off when it stops here, on average, in the measure asked for.
    """

    check: str
    chance: float
    unbroken: float
    off: float

    @property
    def words(self) -> str:
        """What to say of it, counted in steps."""
        many = self.chance > MOST
        return f"{often(self.chance)} stop{'' if many else 's'} here; {parts(self.off)}"


@dataclass(frozen=True, slots=True)
class Undoing:
    """What an order is expected to cost in undoing.

    Attributes
    ----------
    one_by_one
        Each thing wrong mended in a strip of its own.
    together
        What is seen at one check mended in one strip.
    stops
        The checks in order, and the first run last.
    """

    one_by_one: float
    together: float
    stops: tuple[Stop, ...]

    @property
    def shown(self) -> float:
        """What checks alone have undone, one strip a check, before the finished unit is tried."""
        return sum(stop.chance * stop.off for stop in self.stops[:-1])


def undoing(job: Job, order: Sequence[str], weigh: Weigh = BY_STEPS) -> Undoing:
    """Say what an order is expected to cost in undoing.

    Parameters
    ----------
    job
        A job without tangles.
    order
        All its steps.
    weigh
        How undoing is counted; changes of station are no undoing and are left out.

    Examples
    --------
    A ring, a cover, and a look that one ring in six does not pass:

    >>> from dryfit.plan.actions import Act, Risk, Step
    >>> look = Step(name="look", act=Act.READ, after=frozenset({"ring"}))
    >>> job = Job((Step(name="ring"), Step(name="cover"), look), (Risk("", 1 / 6, "ring",
    ...     {"look": 1.0}),))
    >>> late = undoing(job, ("ring", "cover", "look"))
    >>> late.together
    0.16667
    >>> late.stops[0].words
    'about one build in six stops here; one part comes off'
    """
    costs = costs_of(job, weigh)
    steps = [costs.masks.at[name] for name in order]
    places = np.array([steps.index(born) for born in costs.born], dtype=np.int64)
    piled = np.cumsum(np.pad(costs.weights[:, steps], ((0, 0), (1, 0))), axis=1)
    begun = piled[np.arange(len(places)), places + 1]
    live, unbroken, told = costs.chance.copy(), 1.0, list[Stop]()
    one_by_one = together = 0.0
    for at, check in _looks(costs, steps):
        shown = live * _shares(costs, check) * (places < at)
        work = np.where(places < at, piled[:, at] - begun, 0.0)
        stops, off = 1 - float(np.prod(1 - shown)), _largest(shown, work)
        name = TRIED if check is None else costs.masks.names[check]
        told.append(Stop(name, stops, unbroken, off / stops if stops else 0.0))
        one_by_one += float(shown @ work)
        together += off
        still = 1 - (costs.chance - live)
        unbroken *= float(np.prod((still - shown) / np.where(still > 0, still, 1.0)))
        live = live - shown
    return Undoing(one_by_one, together, tuple(told))


def _looks(costs: Costs, steps: Sequence[int]) -> Iterator[tuple[int, int | None]]:
    """List the places at which something may show, with the check read there; none at the end."""
    for at, step in enumerate(steps):
        if costs.masks.reads >> step & 1:
            yield at, step
    yield len(steps), None


def _shares(costs: Costs, check: int | None) -> Reals:
    """Say in which share a look shows each thing that is wrong; all shows at the end."""
    if check is None:
        return np.ones(len(costs.missed))
    return np.array([1.0 - missed.get(check, 1.0) for missed in costs.missed])


def _largest(chances: Reals, work: Reals) -> float:
    """Give the mean of the largest work among what happens, each with its own chance."""
    none_so_far, total = 1.0, 0.0
    for n in np.argsort(-work, kind="stable"):
        total += none_so_far * float(chances[n] * work[n])
        none_so_far *= 1 - float(chances[n])
    return total


@dataclass(frozen=True, slots=True)
class Schedule:
    """One order of a job, and its undoing.

    Attributes
    ----------
    name
        What rule it follows.
    order
        Its steps; with all checks at the end some could not be read in truth.
    steps, minutes
        What is expected to be undone, in steps and in minutes [min].
    """

    name: str
    order: Names
    steps: Undoing
    minutes: Undoing


@dataclass(frozen=True, slots=True)
class Comparison:
    """The best order beside three others.

    Attributes
    ----------
    best
        With what is known of how good it is.
    schedules
        All checks at the end as if nothing were hidden, each as late as it can be read, the
        drawing's order with each as early, and the best.
    """

    best: Order
    schedules: tuple[Schedule, ...]


AT_THE_END = "all checks at the end"
LATE = "checks as late as they can be read"
DRAWN = "the drawing's order, checks as early as they can be read"
BEST = "the best order"


def compare(job: Job, weigh: Weigh = BY_STEPS, widths: tuple[int, ...] = WIDTHS) -> Comparison:
    """Set the best order beside three others.

    Parameters
    ----------
    job
        A job without tangles.
    weigh
        What the best order is best by.
    widths
        How many sets of steps of a size may be kept, try by try.
    """
    masks = masks_of(job)
    drawn = as_drawn(job)
    best = best_order(job, weigh, widths)
    orders = {
        AT_THE_END: _named(job, [*drawn, *bits(masks.reads)]),
        LATE: _named(job, checks_late(masks, drawn)),
        DRAWN: _named(job, checks_early(masks, drawn)),
        BEST: tidied(job, best.steps, weigh),
    }
    minutes = Weigh(minutes=True, only_what_must=weigh.only_what_must)
    steps = Weigh(only_what_must=weigh.only_what_must)
    return Comparison(
        best,
        tuple(
            Schedule(name, order, undoing(job, order, steps), undoing(job, order, minutes))
            for name, order in orders.items()
        ),
    )


def _named(job: Job, order: Sequence[int]) -> Names:
    return tuple(job.steps[step].name for step in order)


def often(chance: float) -> str:
    """Say how often a build stops.

    Examples
    --------
    >>> often(0.17), often(0.034), often(0.7), often(0.001)
    ('about one build in six', 'about one build in 29', 'more than half of all builds',
    'hardly any build')
    """
    if chance < SELDOM:
        return "hardly any build"
    if chance > MOST:
        return "more than half of all builds"
    return f"about one build in {number(1 / chance)}"


def number(count: float) -> str:
    """Say a number as it is said."""
    whole = round(count)
    return NUMBERS[whole] if whole < len(NUMBERS) else str(whole)


def parts(count: float) -> str:
    """Say how many parts come off.

    Examples
    --------
    >>> parts(5.2), parts(0.8), parts(0.1)
    ('five parts come off', 'one part comes off', 'nothing has to come off')
    """
    whole = round(count)
    if not whole:
        return "nothing has to come off"
    return f"{number(count)} part{'' if whole == 1 else 's'} come{'s' if whole == 1 else ''} off"
