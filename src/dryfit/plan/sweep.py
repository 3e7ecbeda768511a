"""Who stops whom along the axis: every stretch of one body swept past every stretch of another.

Only relative motion counts: what stops `a` going one way stops `b` going the other, unless one is
sprung while it moves. Exact for stepped and sloped stretches, a slope on a slope too.

Reading order: stretches as arrays, depth of two that meet, levels of all bodies.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from dryfit.plan.bodies import NIP, SAME, Body, Level, Stretch

Reals = NDArray[np.float64]
Levels = NDArray[np.int8]

PRESSED = 0.0015
"""Nip of a press or shrink fit, of the radius, at most [-]: common practice."""


@dataclass(frozen=True)
class Cells:
    """Stretches of many bodies as arrays, sorted by body.

    Attributes
    ----------
    body
        Whose each is.
    first, last
        Where it begins and ends [mm].
    inner, outer
        Its radii at both ends [mm], shape (stretches, 2).
    angles, thread, gives
        As of a stretch; threads counted, nought for none.
    """

    body: NDArray[np.int64]
    first: Reals
    last: Reals
    inner: Reals
    outer: Reals
    angles: NDArray[np.uint64]
    thread: NDArray[np.int64]
    gives: Reals

    def turned(self) -> "Cells":
        """Give the same seen from the other end."""
        return Cells(
            self.body,
            -self.last,
            -self.first,
            self.inner[:, ::-1],
            self.outer[:, ::-1],
            self.angles,
            self.thread,
            self.gives,
        )


def cells_of(
    groups: Sequence[Sequence[Stretch]], threads: dict[str, int], *, typed: bool = False
) -> Cells:
    """Lay the stretches of each body out as arrays; `typed`: with sides that are typed alone."""
    owned = [(n, cell) for n, cells in enumerate(groups) for cell in cells]
    cells = [cell for _, cell in owned]
    radii = np.array([c.drawn_back(wholly=typed) for c in cells]).reshape(len(cells), 2, 2)
    return Cells(
        np.array([n for n, _ in owned], dtype=np.int64),
        np.array([c.first for c in cells]),
        np.array([c.last for c in cells]),
        radii[:, 0],
        radii[:, 1],
        np.array([c.angles for c in cells], dtype=np.uint64),
        np.array([threads[c.thread] for c in cells], dtype=np.int64),
        np.array([c.gives for c in cells]),
    )


def threads_of(bodies: Sequence[Body]) -> dict[str, int]:
    """Count the threads, nought for none."""
    names = {c.thread for b in bodies for c in (*b.cells, *b.leaving)} - {""}
    return {"": 0} | {name: n for n, name in enumerate(sorted(names), start=1)}


def levels(movers: Cells, stayers: Cells, count: int) -> Levels:
    """Say what it takes to get each body towards the last end past each other, shape (n, n)."""
    ahead = stayers.last[None, :] > movers.first[:, None] + NIP
    ahead &= movers.body[:, None] != stayers.body[None, :]
    ahead &= (movers.angles[:, None] & stayers.angles[None, :]) != 0
    high = np.minimum(movers.outer.max(axis=1)[:, None], stayers.outer.max(axis=1)[None, :])
    low = np.maximum(movers.inner.min(axis=1)[:, None], stayers.inner.min(axis=1)[None, :])
    same = (movers.thread[:, None] == stayers.thread[None, :]) & (movers.thread[:, None] > 0)
    one, other = np.nonzero(ahead & ((high - low > SAME) | same))
    depth = (high - low)[one, other]
    sloped = (_slopes(movers)[one] | _slopes(stayers)[other]) & (depth > SAME)
    depth[sloped] = _depth(movers, stayers, one[sloped], other[sloped])
    found = np.zeros((count, count), dtype=np.int8)
    met = _level(depth, movers, stayers, one, other)
    np.maximum.at(found, (movers.body[one], stayers.body[other]), met)
    return found


def _slopes(cells: Cells) -> NDArray[np.bool_]:
    inner = cells.inner[:, 0] != cells.inner[:, 1]
    found: NDArray[np.bool_] = inner | (cells.outer[:, 0] != cells.outer[:, 1])
    return found


def _level(
    depth: Reals, movers: Cells, stayers: Cells, one: NDArray[np.int64], other: NDArray[np.int64]
) -> Levels:
    """Say what it takes to get past, by how deep two stretches are in each other's way."""
    nip, gives = _yields(movers, stayers, one, other)
    found = np.full(len(depth), Level.HARD, dtype=np.int8)
    found[depth <= nip] = Level.PRESS
    found[(depth <= gives) & (gives > 0)] = Level.SLIDE
    found[depth <= SAME] = Level.FREE
    thread = movers.thread[one]
    found[(thread > 0) & (thread == stayers.thread[other])] = Level.SCREW
    return found


def _yields(
    movers: Cells, stayers: Cells, one: NDArray[np.int64], other: NDArray[np.int64]
) -> tuple[Reals, Reals]:
    """Say how deep two stretches may be in each other to be pressed past, or to slide [mm]."""
    radius = np.minimum(movers.outer[one].max(axis=1), stayers.outer[other].max(axis=1))
    gives = np.maximum(movers.gives[one], stayers.gives[other])
    return np.maximum(PRESSED * radius, SAME), gives


def _depth(
    movers: Cells, stayers: Cells, one: NDArray[np.int64], other: NDArray[np.int64]
) -> Reals:
    """Say how deep two stretches get into each other at worst, on the way towards the last end.

    Where the mover's place `x` and the stayer's `y` meet on the way, `y >= x`. The depth there is
    the lesser of two sums linear in both, so over that region it is greatest at a corner, or
    between two where the sums are equal.
    """
    corners = _corners(movers, stayers, one, other)
    values = []
    for x, y in corners:
        in_x = (x - movers.first[one]) / _long(movers)[one]
        in_y = (y - stayers.first[other]) / _long(stayers)[other]
        under = _at(movers.outer[one], in_x) - _at(stayers.inner[other], in_y)
        over = _at(stayers.outer[other], in_y) - _at(movers.inner[one], in_x)
        off = np.where(y >= x - SAME, 0.0, -np.inf)
        values.append((under + off, over + off))
    found: Reals = np.max([np.minimum(under, over) for under, over in values], axis=0)
    nip, gives = _yields(movers, stayers, one, other)
    (open_,) = np.nonzero(found <= np.maximum(nip, gives))
    rest = [(under[open_], over[open_]) for under, over in values]
    for (under_a, over_a), (under_b, over_b) in combinations(rest, 2):
        with np.errstate(invalid="ignore", divide="ignore"):
            gap_a, gap_b = under_a - over_a, under_b - over_b
            share = gap_a / (gap_a - gap_b)
            level = under_a + share * (under_b - under_a)
        between = np.isfinite(level) & (share > 0) & (share < 1)
        found[open_] = np.where(between, np.maximum(found[open_], level), found[open_])
    return found


def _long(cells: Cells) -> Reals:
    return np.maximum(cells.last - cells.first, SAME)


def _at(radii: Reals, share: Reals) -> Reals:
    found: Reals = radii[:, 0] + (radii[:, 1] - radii[:, 0]) * share
    return found


def _corners(
    movers: Cells, stayers: Cells, one: NDArray[np.int64], other: NDArray[np.int64]
) -> list[tuple[Reals, Reals]]:
    """List the corners of where two stretches can meet; those left of `y = x` do not count."""
    a, b = movers.first[one], movers.last[one]
    c, d = stayers.first[other], stayers.last[other]
    low, high = np.maximum(a, c), np.minimum(b, d)
    meets = low <= high
    low, high = np.where(meets, low, b), np.where(meets, high, b)
    on_line = [(low, np.where(meets, low, d)), (high, np.where(meets, high, d))]
    return [(a, c), (a, d), (b, c), (b, d), *on_line]


def both_ways(bodies: Sequence[Body], *, typed: bool = False) -> tuple[Levels, Levels]:
    """Say what it takes to get each body past each other, towards the last end and the first.

    Parameters
    ----------
    bodies
        Where they lie.
    typed
        Whether only sides count that somebody typed.
    """
    threads = threads_of(bodies)
    lie = cells_of([body.cells for body in bodies], threads, typed=typed)
    if not any(body.leaving for body in bodies):
        ahead = levels(lie, lie, len(bodies))
        return ahead, ahead.T
    move = cells_of([body.moving for body in bodies], threads, typed=typed)
    ahead = levels(move, lie, len(bodies))
    return ahead, levels(move.turned(), lie.turned(), len(bodies))
