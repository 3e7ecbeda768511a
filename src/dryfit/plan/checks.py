"""Checks and services as steps among those that put bodies on.

A check that is read with some part left out is read before that part goes on, with all in place
that does not wait for it; one with a cover nipped or a nut not locked, before that is done.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from dryfit.plan.actions import Act, Job, Step, Way
from dryfit.plan.masks import masks_of

READ_MINUTES, DONE_MINUTES = 5.0, 2.0
"""To read a check, to do or undo a service: estimates."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A check, as far as its place in the order goes.

    Attributes
    ----------
    name
        The check.
    of
        Steps that belong to what it is read on.
    without
        Steps that are not done yet when it is read.
    alone
        Whether it is read of one part by itself, before it goes on.
    """

    name: str
    of: frozenset[str]
    without: frozenset[str] = frozenset()
    alone: bool = False


def read_in(steps: Sequence[Step], asked: Iterable[Asked]) -> tuple[Step, ...]:
    """Give the checks as steps.

    Examples
    --------
    >>> steps = Step(name="ring"), Step(name="cover", after=frozenset({"ring"}))
    >>> (gap,) = read_in(steps, [Asked("gap", frozenset({"ring", "cover"}), frozenset({"cover"}))])
    >>> sorted(gap.after), [sorted(way.shut_by) for way in gap.ways]
    (['ring'], [['cover']])
    """
    masks = masks_of(Job(tuple(steps)))
    found = []
    for one in asked:
        later = masks.mask(one.without)
        for step in one.without:
            later |= masks.behind[masks.at[step]]
        after = frozenset() if one.alone else one.of - set(masks.told(later))
        shut_by = one.of if one.alone else one.without
        ways = (Way("not yet hidden", shut_by),) if shut_by else ()
        found.append(
            Step(
                name=one.name,
                act=Act.READ,
                minutes=READ_MINUTES,
                undo=0.0,
                after=after,
                ways=ways,
            )
        )
    return tuple(found)


def service(name: str, act: Act, after: str) -> Step:
    """Give a service that follows a step: screws done up, a nut locked."""
    return Step(
        name=name, act=act, minutes=DONE_MINUTES, undo=DONE_MINUTES, after=frozenset({after})
    )
