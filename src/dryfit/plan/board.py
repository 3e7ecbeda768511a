"""A job made ready to be searched, many sets of steps at once: `Board`."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from dryfit.plan.cost import Costs, Flags, Reals
from dryfit.plan.rows import Rows, Words

WORD = 64
"""Steps to a word."""


@dataclass(frozen=True)
class Board:
    """A job made ready to be searched.

    Attributes
    ----------
    costs
        What steps add.
    keep
        How many of each set are kept, each of another cost.
    """

    costs: Costs
    keep: int = 1

    @cached_property
    def count(self) -> int:
        """How many steps there are."""
        return len(self.costs.masks.names)

    @cached_property
    def words(self) -> int:
        """How many words a set takes."""
        return max(1, -(-self.count // WORD))

    @cached_property
    def needs(self) -> list[Words]:
        """For each step what comes straight before it."""
        return [self.packed(mask) for mask in self.costs.masks.straight]

    @cached_property
    def ways(self) -> list[list[Words]]:
        """For each step what shuts its ways."""
        return [[self.packed(shut) for shut in ways] for ways in self.costs.masks.ways]

    @cached_property
    def torn(self) -> list[int]:
        """Steps with more than one way: they can be shut in for good."""
        return [step for step, ways in enumerate(self.costs.masks.ways) if len(ways) > 1]

    @cached_property
    def by_rank(self) -> list[int]:
        """All steps, each behind what comes before it."""
        ahead = self.costs.masks.ahead
        return sorted(range(self.count), key=lambda step: ahead[step].bit_count())

    @cached_property
    def checks(self) -> list[int]:
        """Checks that are read as soon as they can be: never worse than later.

        None where to read one may mean to carry the unit elsewhere.
        """
        found = [step for step in self.by_rank if self.costs.masks.reads >> step & 1]
        return [] if any(self.costs.stations[step] for step in found) else found

    @cached_property
    def free(self) -> list[int]:
        """Steps in which nothing can go wrong, to be done as soon as they cost nothing.

        None where more than the best is wanted or stations matter, and none that can shut one of
        several ways.
        """
        masks = self.costs.masks
        if self.keep > 1 or self.costs.change:
            return []
        shuts = 0
        for step in self.torn:
            for shut in masks.ways[step]:
                shuts |= shut
        barred = shuts | self.costs.starts | masks.reads
        return [step for step in self.by_rank if not barred >> step & 1]

    @cached_property
    def chosen(self) -> list[int]:
        """Steps that are tried one by one."""
        return [step for step in range(self.count) if step not in self.checks]

    def packed(self, mask: int) -> Words:
        """Turn a mask into words."""
        return np.frombuffer(mask.to_bytes(self.words * 8, "little"), dtype="<u8")

    def done(self, sets: Words) -> NDArray[np.uint8]:
        """Unpack sets, shape (rows, steps)."""
        plain = np.ascontiguousarray(sets).view(np.uint8)
        return np.unpackbits(plain, axis=1, bitorder="little")[:, : self.count]

    def may(self, step: int, sets: Words) -> Flags:
        """Flag the sets after which a step can be done next."""
        need, bit = self.needs[step], self.packed(1 << step)
        found: Flags = np.all((sets & (need | bit)) == need, axis=1)
        return found & self.open(step, sets)

    def open(self, step: int, sets: Words) -> Flags:
        """Flag the sets that leave a way to a step open."""
        found = np.zeros(len(sets), dtype=bool)
        for shut in self.ways[step]:
            found |= ~np.any(sets & shut, axis=1)
        return found

    def live(self, done: NDArray[np.uint8]) -> Reals:
        """Give the chances of what is wrong and not seen, shape (rows, risks)."""
        born = done[:, list(self.costs.born)]
        found: Reals = self.costs.chance * born * np.exp(done @ self.costs.fading)
        return found

    def still(self, rows: Rows) -> Reals:
        """Say what is at least to come."""
        done = self.done(rows.sets)
        left = 1.0 - done
        unborn, live = (left @ table for table in self.costs.still)
        born = done[:, list(self.costs.born)] > 0
        total: Reals = np.where(born, live, unborn).sum(axis=1)
        return total + self._moves_left(rows, done)

    def _moves_left(self, rows: Rows, done: NDArray[np.uint8]) -> Reals:
        """Count each other station once at which something is left to do."""
        total = np.zeros(len(rows))
        for station in set(self.costs.stations) - {0} if self.costs.change else ():
            here = [step for step, at in enumerate(self.costs.stations) if at == station]
            away = (rows.station != station) & (rows.station != 0)
            total += self.costs.change * (away & ~done[:, here].all(axis=1))
        return total
