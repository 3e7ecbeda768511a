"""Services that nothing waits for: left out of the search, and put back as late as they can be.

What weighs nothing and is waited for by nobody costs nothing wherever it lies, so an order found
without it is as good with it; a bound found without it holds with it.
"""

from collections.abc import Sequence
from dataclasses import replace

from dryfit.plan.actions import Job, Wishes
from dryfit.plan.masks import masks_of

Names = tuple[str, ...]


def loose(job: Job) -> Names:
    """Name the services that no other step, pin or risk waits for.

    Examples
    --------
    >>> from dryfit.plan.actions import Act, Pin, Step
    >>> steps = Step(name="grease", act=Act.GREASE), Step(name="cover")
    >>> loose(Job(steps)), loose(Job(steps, wishes=Wishes(pins=(Pin("grease", "cover"),))))
    (('grease',), ())
    """
    waited = {pin.first for pin in job.wishes.pins}
    waited |= {name for risk in job.risks for name in (risk.born, *risk.seen)}
    for step in job.steps:
        waited |= step.after.union(*(way.shut_by for way in step.ways))
    return tuple(
        step.name
        for step in job.steps
        if step.serves and not step.station and step.name not in waited
    )


def without(job: Job, names: Sequence[str]) -> Job:
    """Leave some steps out of a job, with what is wished of them."""
    wishes = job.wishes
    return replace(
        job,
        drawn=tuple(step for step in job.drawn if step.name not in names),
        wishes=Wishes(
            tuple(step for step in wishes.steps if step.name not in names),
            tuple(pin for pin in wishes.pins if pin.then not in names),
            tuple(ban for ban in wishes.bans if ban.step not in names),
        ),
    )


def put_back(job: Job, order: Sequence[str], names: Sequence[str]) -> Names | None:
    """Put loose services into an order of all others, as late as each can be; None if one cannot.

    Examples
    --------
    >>> from dryfit.plan.actions import Act, Step, Way
    >>> grease = Step(name="grease", act=Act.GREASE, ways=(Way("end", frozenset({"cover"})),))
    >>> job = Job((Step(name="ring"), grease, Step(name="cover")))
    >>> put_back(job, ("ring", "cover"), ["grease"])
    ('ring', 'grease', 'cover')
    """
    masks, found = masks_of(job), list(order)
    for name in names:
        step = masks.at[name]
        for at in range(len(found), -1, -1):
            done = masks.mask(found[:at])
            if not masks.needs[step] & ~done and any(not w & done for w in masks.ways[step]):
                found.insert(at, name)
                break
        else:
            return None
    return tuple(found)
