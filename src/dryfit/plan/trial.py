"""Whether to build once dry first: without grease, sealant and locking, all checks read, stripped.

Straight on, a service is wasted when what is found after it has the unit apart again. Dry, nothing
is wasted and what is mended for good stays mended, but the unit comes apart once in any case, and
what may go wrong in putting together may go wrong again.

Reading order: the dry job, the build after it, what both come to.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from dryfit.plan.actions import Act, Job, Risk, Step, Way, Wishes
from dryfit.plan.cost import BY_MINUTES, BY_STEPS, Weigh
from dryfit.plan.order import WIDTHS, best_order
from dryfit.plan.placing import Names
from dryfit.plan.undoing import undoing


@dataclass(frozen=True, slots=True)
class Cost:
    """What both ways are expected to come to, in one measure: minutes [min] or steps.

    Attributes
    ----------
    straight
        Undoing when it is built straight on, services at their places.
    dry
        Undoing in the trial build.
    anew
        To strip it as far as the first service wants, and to put that together again.
    after
        Undoing in the build that follows.
    """

    straight: float
    dry: float
    anew: float
    after: float

    @property
    def trial(self) -> float:
        """All that the trial build comes to."""
        return self.dry + self.anew + self.after

    @property
    def spared(self) -> float:
        """What the trial build spares; less than nothing where it costs more."""
        return self.straight - self.trial


@dataclass(frozen=True, slots=True)
class Trial:
    """A trial build beside building straight on.

    Attributes
    ----------
    left_out
        Acts that are left out of it: greasing, sealing, locking.
    anew
        Steps that are done twice; none where the services come last anyway.
    minutes, steps
        What both come to.
    """

    left_out: tuple[Act, ...]
    anew: Names
    minutes: Cost
    steps: Cost

    @property
    def worth_it(self) -> bool:
        """Whether it takes fewer minutes to be expected."""
        return self.minutes.spared > 0


def trial(job: Job, order: Sequence[str], widths: tuple[int, ...] = WIDTHS) -> Trial | None:
    """Set a trial build beside building straight on; nothing where there is no service.

    Parameters
    ----------
    job
        A job without tangles.
    order
        All its steps as they are to be done.
    widths
        How many sets of steps of a size may be kept, try by try.

    Examples
    --------
    A shim that one build in two has wrong, felt only when the greased cover is on:

    >>> grease = Step(name="grease", act=Act.GREASE, minutes=5, undo=25, after=frozenset({"shim"}))
    >>> cover = Step(name="cover", minutes=4, undo=4, after=frozenset({"grease"}))
    >>> feel = Step(name="feel", act=Act.READ, minutes=2, undo=0, after=frozenset({"cover"}))
    >>> wrong = Risk("wrong", 0.5, "shim", {"feel": 1.0}, again=False)
    >>> job = Job((Step(name="shim"), grease, cover, feel), (wrong,))
    >>> found = trial(job, ("shim", "grease", "cover", "feel"))

    Straight on half the builds lose grease and cover, 0.5 x (30 + 8). Dry half of them lose the
    cover, 0.5 x 8; it comes off once in any case, 8, and the feel is taken twice, 2:

    >>> found.minutes.straight, found.minutes.trial
    (19.0, 14.0)
    """
    services = [n for n, name in enumerate(order) if job.named[name].serves]
    if not services:
        return None
    dry = dry_job(job)
    tried = best_order(dry, BY_STEPS, widths).steps
    later = [job.named[name] for name in order[services[0] + 1 :]]
    anew = [step for step in later if not step.reads and not step.serves]
    final = _after(job, {step.name for step in anew})

    def cost(weigh: Weigh) -> Cost:
        again = _again(anew, [step for step in later if step.reads], weigh)
        return Cost(
            undoing(job, order, weigh).together,
            undoing(dry, tried, weigh).shown,
            again,
            undoing(final, order, weigh).together,
        )

    told = dict.fromkeys(job.named[order[n]].act for n in services)
    names = tuple(step.name for step in anew)
    minutes, steps = (replace(weigh, services=True) for weigh in (BY_MINUTES, BY_STEPS))
    return Trial(tuple(told), names, cost(minutes), cost(steps))


def dry_job(job: Job) -> Job:
    """Leave out greasing, sealing and locking; what waited for one waits for what that did.

    Examples
    --------
    >>> lock = Step(name="lock", act=Act.LOCK, after=frozenset({"nut"}))
    >>> cover = Step(name="cover", after=frozenset({"lock"}))
    >>> dry = dry_job(Job((Step(name="nut"), lock, cover)))
    >>> [(step.name, sorted(step.after)) for step in dry.steps]
    [('nut', []), ('cover', ['nut'])]
    """
    services = {step.name for step in job.steps if step.serves}

    def past(names: Iterable[str]) -> frozenset[str]:
        found = frozenset(names)
        while found & services:
            through = (job.before(job.named[name]) for name in found & services)
            found = (found - services).union(*through)
        return found

    steps = tuple(
        replace(
            step,
            after=past(job.before(step)),
            ways=tuple(Way(way.name, way.shut_by - services) for way in step.ways),
        )
        for step in job.steps
        if step.name not in services
    )
    risks = tuple(risk for risk in job.risks if risk.born not in services)
    return Job(steps, risks, Wishes(bans=job.wishes.bans))


def _after(job: Job, anew: set[str]) -> Job:
    """Give the build after the trial: what was shown is mended, and what is redone may go wrong."""
    services = {step.name for step in job.steps if step.serves}
    fresh = anew | services

    def left(risk: Risk) -> Risk:
        if risk.born in services or (risk.again and risk.born in fresh):
            return risk
        missed = 1.0
        for share in risk.seen.values():
            missed *= 1 - share
        return replace(risk, chance=risk.chance * missed, seen={})

    return replace(job, risks=tuple(left(risk) for risk in job.risks))


def _again(anew: Iterable[Step], reads: Iterable[Step], weigh: Weigh) -> float:
    """Say what it takes to strip steps and do them again, checks among them read once more."""
    if not weigh.minutes:
        return float(len(list(anew)))
    return sum(s.minutes + s.undo for s in anew) + sum(s.minutes for s in reads)
