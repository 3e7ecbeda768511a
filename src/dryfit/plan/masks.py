"""A job as bits: which steps want which, which shut which, and how far a set of steps can go.

A set of steps done is a whole number with one bit a step. Taking steps off again from the end
only opens ways, so it never runs into a corner of its own making: if it stops, what is left is
locked.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property, reduce
from operator import and_

from dryfit.plan.actions import Job


def bits(mask: int) -> Iterator[int]:
    """Count off the places of a mask that are set.

    Examples
    --------
    >>> list(bits(0b1010))
    [1, 3]
    """
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def _far(straight: tuple[int, ...]) -> tuple[int, ...]:
    """Follow what comes straight before each step all the way back."""
    found = list(straight)
    for middle in range(len(found)):
        for step, before in enumerate(found):
            if before >> middle & 1:
                found[step] |= found[middle]
    return tuple(found)


@dataclass(frozen=True)
class Masks:
    """A job as bits.

    Attributes
    ----------
    names
        Steps, by place of their bit.
    needs
        For each step those that come straight before it.
    ways
        For each step, by way, those that shut it; no way at all: never open.
    reads
        The steps that only read.
    """

    names: tuple[str, ...]
    needs: tuple[int, ...]
    ways: tuple[tuple[int, ...], ...]
    reads: int

    @property
    def full(self) -> int:
        """All steps."""
        return (1 << len(self.names)) - 1

    @cached_property
    def at(self) -> dict[str, int]:
        """Places by name."""
        return {name: n for n, name in enumerate(self.names)}

    def mask(self, names: Iterable[str]) -> int:
        """Give the mask of steps by name."""
        return sum(1 << self.at[name] for name in set(names))

    def told(self, mask: int) -> tuple[str, ...]:
        """Name the steps of a mask."""
        return tuple(self.names[n] for n in bits(mask))

    @cached_property
    def straight(self) -> tuple[int, ...]:
        """For each step those that must come before it: what shuts all ways to one comes after."""
        found = list(self.needs)
        for step, ways in enumerate(self.ways):
            for shut in bits(reduce(and_, ways, self.full if ways else 0) & ~(1 << step)):
                found[shut] |= 1 << step
        return tuple(found)

    @cached_property
    def ahead(self) -> tuple[int, ...]:
        """For each step all that must come before it, however far back."""
        return _far(self.straight)

    @cached_property
    def wanted(self) -> tuple[int, ...]:
        """For each step all that it wants in place, however far back."""
        return _far(self.needs)

    @cached_property
    def behind(self) -> tuple[int, ...]:
        """For each step all that must come after it: what sits on it, or hides it."""
        found = [0] * len(self.names)
        for step, before in enumerate(self.ahead):
            for first in bits(before):
                found[first] |= 1 << step
        return tuple(found)

    def may(self, step: int, done: int) -> bool:
        """Tell whether a step can be done now without shutting the one way to another."""
        return not self.straight[step] & ~done and any(not shut & done for shut in self.ways[step])

    def open_to(self, done: int) -> list[int]:
        """List the steps that can be done now."""
        return [step for step in bits(self.full & ~done) if self.may(step, done)]

    def locked(self, kept: int = 0) -> int:
        """Take steps off from the end as long as any comes off; give what is left.

        Parameters
        ----------
        kept
            Steps that stay.
        """
        left = self.full
        while True:
            off = next((s for s in bits(left & ~kept) if self.comes_off(s, left)), None)
            if off is None:
                return left & ~kept
            left ^= 1 << off

    def comes_off(self, step: int, left: int) -> bool:
        """Tell whether a step can be the last of those left."""
        wanted = any(self.needs[other] >> step & 1 for other in bits(left))
        return not wanted and any(not shut & left for shut in self.ways[step])

    def some_order(self) -> list[int]:
        """Give an order that can be gone, the drawing's as far as may be."""
        left, off = self.full, list[int]()
        while left:
            step = max(s for s in bits(left) if self.comes_off(s, left))
            off.append(step)
            left ^= 1 << step
        return off[::-1]

    def can_finish(self, done: int) -> bool:
        """Tell whether all other steps can still be done after these."""
        return not self.locked(done)


def masks_of(job: Job) -> Masks:
    """Turn a job into bits; names that are no steps are left out.

    Examples
    --------
    >>> from dryfit.plan.actions import Step
    >>> ring, nut = Step(name="ring"), Step(name="nut", after=frozenset({"ring"}))
    >>> masks_of(Job((ring, nut))).open_to(0)
    [0]
    """
    names = tuple(step.name for step in job.steps)
    place = {name: n for n, name in enumerate(names)}

    def mask(wanted: Iterable[str]) -> int:
        return sum(1 << place[name] for name in set(wanted) if name in place)

    return Masks(
        names,
        tuple(mask(job.before(step)) for step in job.steps),
        tuple(tuple(mask(way.shut_by) for way in job.ways(step)) for step in job.steps),
        mask(step.name for step in job.checks),
    )
