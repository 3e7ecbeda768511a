"""Checks and services as steps among those that put bodies on.

A check that is read with some part left out is read before that part goes on, with all in place
that does not wait for it; one with a cover nipped or a nut not locked, before that is done.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from dryfit.plan.actions import Act, Job, Step, Way
from dryfit.plan.masks import masks_of

NOT_YET_HIDDEN = "not yet hidden"
"""The way to a check that nothing keeps its instrument from."""

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
    read
        Those of `of` that bring what is read itself: it is never read before them.
    alone
        Whether it is read of one part by itself, before it goes on.
    by
        The ways of its instrument to it, each shut by steps; none: nothing keeps it out.
    spared
        Steps that are not done yet either where it is read by those ways.
    """

    name: str
    of: frozenset[str]
    without: frozenset[str] = frozenset()
    read: frozenset[str] = frozenset()
    alone: bool = False
    by: tuple[Way, ...] = ()
    spared: frozenset[str] = frozenset()


def read_in(steps: Sequence[Step], asked: Iterable[Asked]) -> tuple[Step, ...]:
    """Give the checks as steps; one that no order has room for is left out.

    A check for which parts would have to come off again is read with less in place. One that no
    order lets its instrument get to is read all the same.

    Examples
    --------
    >>> steps = Step(name="ring"), Step(name="cover", after=frozenset({"ring"}))
    >>> (gap,) = read_in(steps, [Asked("gap", frozenset({"ring", "cover"}), frozenset({"cover"}))])
    >>> sorted(gap.after), [sorted(way.shut_by) for way in gap.ways]
    (['ring'], [['cover']])
    """
    found: list[Step] = []
    for one in asked:
        for step in _ways_to_read(steps, one):
            if not masks_of(Job((*steps, *found, step))).locked():
                found.append(step)
                break
    return tuple(found)


def _ways_to_read(steps: Sequence[Step], one: Asked) -> Iterator[Step]:
    """Give a check as it may be read, the best first."""
    for place in (_as_asked, _with_least):
        if one.by:
            yield place(steps, replace(one, without=one.without | one.spared))
        yield place(steps, replace(one, by=()))


def _as_asked(steps: Sequence[Step], one: Asked) -> Step:
    """Read it with all in place but what is left out, and what waits for that."""
    masks = masks_of(Job(tuple(steps)))
    later = masks.mask(one.without)
    for step in one.without:
        later |= masks.behind[masks.at[step]]
    after = frozenset() if one.alone else one.of - set(masks.told(later)) | one.read
    return _read(one, after)


def _with_least(steps: Sequence[Step], one: Asked) -> Step:
    """Read it with that alone in place which must be there before what is left out."""
    masks = masks_of(Job(tuple(steps)))
    ahead = 0
    for step in one.without:
        ahead |= masks.ahead[masks.at[step]]
    return _read(one, one.of & set(masks.told(ahead)) | one.read)


def _read(one: Asked, after: frozenset[str]) -> Step:
    shut_by = one.of if one.alone else one.without
    ways = tuple(Way(way.name, way.shut_by | shut_by) for way in one.by)
    if shut_by and not ways:
        ways = (Way(NOT_YET_HIDDEN, shut_by),)
    return Step(name=one.name, act=Act.READ, minutes=READ_MINUTES, undo=0.0, after=after, ways=ways)


def by_gauge(one: Asked) -> Step:
    """Give a check as it can be read with a gauge that stands in for what has to be out.

    Examples
    --------
    >>> gap = by_gauge(Asked("gap", frozenset({"ring", "cover"}), frozenset({"ring"})))
    >>> sorted(gap.after), gap.ways
    (['cover'], ())
    """
    return replace(_read(one, one.of - one.without), ways=())


def service(name: str, act: Act, after: str) -> Step:
    """Give a service that follows a step: screws done up, a nut locked."""
    return Step(
        name=name, act=act, minutes=DONE_MINUTES, undo=DONE_MINUTES, after=frozenset({after})
    )
