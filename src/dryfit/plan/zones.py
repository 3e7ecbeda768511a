"""What lies in a ring of room, in the way to it, or before a flat face."""

from enum import Enum, auto

import numpy as np

from dryfit.plan.bodies import ALL_ROUND, NIP, SAME
from dryfit.plan.sweep import Cells

Pair = tuple[float, float]


class Sense(Enum):
    """From where a ring of room is got at."""

    TO_LAST = auto()
    TO_FIRST = auto()
    OUTWARDS = auto()
    HERE = auto()


def zone(cells: Cells, span: Pair, radii: Pair, sense: Sense, *, angles: int = ALL_ROUND) -> int:
    """Give the bodies in the way of a ring that is brought in, or those that lie in it.

    Parameters
    ----------
    cells
        All stretches.
    span, radii
        Where the ring is to be in the end [mm].
    sense
        The way from there to where it comes from; none of it but the ring itself for `HERE`.
    angles
        Classes of angles in which it is.
    """
    low, high = cells.inner.min(axis=1), cells.outer.max(axis=1)
    across = np.minimum(high, radii[1]) - np.maximum(low, radii[0]) > SAME
    along = np.minimum(cells.last, span[1]) - np.maximum(cells.first, span[0]) > NIP
    beyond = (cells.last > span[0] + NIP) | (cells.first > span[0] - SAME)  # thin shims, too
    before = (cells.first < span[1] - NIP) | (cells.last < span[1] + SAME)
    hit = {
        Sense.TO_LAST: across & beyond,
        Sense.TO_FIRST: across & before,
        Sense.OUTWARDS: along & (high > radii[0] + SAME),
        Sense.HERE: across & along,
    }[sense]
    hit = hit & ((cells.angles & np.uint64(angles)) != 0)
    return sum(1 << int(n) for n in np.unique(cells.body[hit]))


def covered(cells: Cells, there: int, at: float, radii: Pair, sense: Sense) -> float:
    """Say which share of a flat face bodies that are there cover, seen from an end."""
    ahead = cells.last > at + NIP if sense is Sense.TO_LAST else cells.first < at - NIP
    present = np.array([bool(there >> int(n) & 1) for n in cells.body], dtype=bool)
    found, end = 0.0, radii[0]
    which = np.nonzero(ahead & present)[0]
    rings = sorted((float(min(cells.inner[n])), float(max(cells.outer[n]))) for n in which)
    for low, high in rings:
        low, high = max(low, end), min(high, radii[1])
        if high > low:
            found += high**2 - low**2
            end = high
    return found / (radii[1] ** 2 - radii[0] ** 2)
