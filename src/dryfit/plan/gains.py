"""What spares undoing: a check taken early, a tool made first.

Reading order: one check put off, what each check spares by being early, what a freer job spares.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryfit.plan.actions import Job, Way
from dryfit.plan.cost import BY_MINUTES, BY_STEPS, Weigh
from dryfit.plan.masks import masks_of
from dryfit.plan.order import WIDTHS, best_order
from dryfit.plan.placing import Names, can_go, tidied
from dryfit.plan.undoing import undoing


@dataclass(frozen=True, slots=True)
class Early:
    """A check that an order reads earlier than it could.

    Attributes
    ----------
    check
        The check.
    before
        The next step that is no check: it is read before that.
    minutes, steps
        What is expected to be undone less than if it were read as late as can be [min].
    """

    check: str
    before: str
    minutes: float
    steps: float


def put_off(job: Job, order: Sequence[str], check: str) -> Names:
    """Read one check as late as it can be, all else as it was.

    Examples
    --------
    >>> from dryfit.plan.actions import Act, Step
    >>> feel = Step(name="feel", act=Act.READ, ways=(Way("end", frozenset({"cover"})),))
    >>> job = Job((Step(name="ring"), feel, Step(name="cover")))
    >>> put_off(job, ("feel", "ring", "cover"), "feel")
    ('ring', 'feel', 'cover')
    """
    masks = masks_of(job)
    rest = [name for name in order if name != check]
    for at in range(len(rest), order.index(check), -1):
        later = [*rest[:at], check, *rest[at:]]
        if can_go(masks, [masks.at[name] for name in later]):
            return tuple(later)
    return tuple(order)


def early(job: Job, order: Sequence[str]) -> tuple[Early, ...]:
    """Say what each check spares by being read where the order has it, the most first.

    Parameters
    ----------
    job
        A job without tangles.
    order
        All its steps.

    Examples
    --------
    A cover of 4 minutes on and off again, for nothing in one build of two:

    >>> from dryfit.plan.actions import Act, Risk, Step
    >>> feel = Step(name="feel", act=Act.READ, after=frozenset({"ring"}))
    >>> cover = Step(name="cover", minutes=2, undo=2)
    >>> job = Job((Step(name="ring"), feel, cover), (Risk("", 0.5, "ring", {"feel": 1.0}),))
    >>> early(job, ("ring", "feel", "cover"))
    (Early(check='feel', before='cover', minutes=2.0, steps=0.5),)
    """
    found = []
    for check in job.checks:
        late = put_off(job, order, check.name)
        rest = [n for n in order[order.index(check.name) :] if not job.named[n].reads]
        if rest and late != tuple(order):
            minutes, steps = (
                _spared(job, late, job, order, weigh=weigh) for weigh in (BY_MINUTES, BY_STEPS)
            )
            found.append(Early(check.name, rest[0], minutes, steps))
    return tuple(sorted(found, key=lambda one: -one.minutes))


def _spared(
    job: Job, order: Sequence[str], other: Job, then: Sequence[str], *, weigh: Weigh
) -> float:
    """Say how much less is expected to be undone in another job and order."""
    return undoing(job, order, weigh).together - undoing(other, then, weigh).together


def spared_by(
    job: Job, order: Sequence[str], freer: Job, widths: tuple[int, ...] = WIDTHS
) -> float:
    """Say how many minutes of undoing a job spares in which more can be done.

    Parameters
    ----------
    job, order
        The job as it is, and its best order.
    freer
        The same with a check more, or a step that less stands in the way of.
    widths
        How many sets of steps of a size may be kept, try by try.

    Returns
    -------
    spared
        Between the best orders of both [min].
    """
    then = tidied(freer, best_order(freer, BY_STEPS, widths).steps)
    return _spared(job, order, freer, then, weigh=BY_MINUTES)


def reached(job: Job, step: str, ways: tuple[Way, ...]) -> Job:
    """Let a step be done by other ways, as with a tool that gets there.

    Examples
    --------
    >>> from dryfit.plan.actions import Step
    >>> nut = Step(name="nut", ways=(Way("socket", frozenset({"cover"})),))
    >>> reached(Job((nut,)), "nut", ()).steps[0].ways
    ()
    """
    drawn = tuple(replace(s, ways=ways) if s.name == step else s for s in job.drawn)
    return replace(job, drawn=drawn)
