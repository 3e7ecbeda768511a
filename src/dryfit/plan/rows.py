"""Sets of steps done, many at once, one a row; and where each row came from."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from dryfit.plan.cost import Reals

Words = NDArray[np.uint64]
Numbers = NDArray[np.int64]

HAIR = 1e-12
"""Costs are the same within this."""


@dataclass(frozen=True, slots=True)
class Rows:
    """Sets of steps done, one a row.

    Attributes
    ----------
    sets
        The steps as bits, shape (rows, words).
    cost
        What it cost to get there.
    station
        Where the unit stands then.
    origin, step
        The row it came from in all rows kept, and the step done there.
    """

    sets: Words
    cost: Reals
    station: Numbers
    origin: Numbers
    step: Numbers

    def __len__(self) -> int:
        return len(self.cost)

    def take(self, which: Any) -> "Rows":
        """Give some of the rows."""
        return Rows(
            self.sets[which],
            self.cost[which],
            self.station[which],
            self.origin[which],
            self.step[which],
        )


def joined(parts: Iterable[Rows]) -> Rows:
    """Put rows below each other."""
    every = list(parts)
    return Rows(
        np.concatenate([rows.sets for rows in every]),
        np.concatenate([rows.cost for rows in every]),
        np.concatenate([rows.station for rows in every]),
        np.concatenate([rows.origin for rows in every]),
        np.concatenate([rows.step for rows in every]),
    )


def cheapest(rows: Rows, keep: int) -> Rows:
    """Keep of each set and station the cheapest rows, each of another cost."""
    columns = [rows.sets[:, word] for word in range(rows.sets.shape[1])]
    order = np.lexsort((rows.cost, rows.station, *columns))
    rows = rows.take(order)
    fresh = np.ones(len(rows), dtype=bool)
    fresh[1:] = np.any(rows.sets[1:] != rows.sets[:-1], axis=1)
    fresh[1:] |= rows.station[1:] != rows.station[:-1]
    other = fresh.copy()
    other[1:] |= rows.cost[1:] - rows.cost[:-1] > HAIR
    counted = np.cumsum(other)
    group = np.cumsum(fresh) - 1
    rank = counted - counted[fresh][group]
    return rows.take(other & (rank < keep))


@dataclass
class Kept:
    """All rows kept, as where each came from."""

    origins: list[Numbers] = field(default_factory=list)
    steps: list[Numbers] = field(default_factory=list)
    count: int = 0

    def add(self, rows: Rows) -> int:
        """Note rows; give the place of the first."""
        first = self.count
        self.origins.append(rows.origin)
        self.steps.append(rows.step)
        self.count += len(rows)
        return first

    def path(self, row: int) -> list[int]:
        """List the steps chosen on the way to a row."""
        origins, steps = np.concatenate(self.origins), np.concatenate(self.steps)
        found: list[int] = []
        while origins[row] >= 0:
            found.append(int(steps[row]))
            row = int(origins[row])
        return found[::-1]
