"""Orders searched by sets of steps done, all sets of a size at once: `search`.

What an order adds depends on the set of steps done alone, so of all orders that lead to a set only
the cheapest is kept: exact, and as many sets as there are, not orders. Where there are too many,
those that look best are kept, and what was dropped says how far off the best may be at most.

Reading order: what is done at once, one size to the next, the search.
"""

from collections import defaultdict
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from dryfit.plan.board import Board
from dryfit.plan.cost import Flags
from dryfit.plan.rows import HAIR, Kept, Rows, Words, cheapest, joined


def closed(board: Board, sets: Words) -> Words:
    """Do at once what is never better later: checks, and steps that cost and start nothing."""
    sets = sets.copy()
    busy = np.arange(len(sets))
    while len(busy):
        before = sets[busy]
        now = _free_done(board, _all_done(board, board.checks, before))
        sets[busy] = now
        busy = busy[np.any(now != before, axis=1)]
    return sets


def _all_done(board: Board, steps: list[int], sets: Words, only: Any = None) -> Words:
    """Do each of some steps wherever it can be done, and allowed."""
    sets = sets.copy()
    for step in steps:
        may = board.may(step, sets)
        if only is not None:
            may &= only[:, step]
        sets[may] |= board.packed(1 << step)
    return sets


def _free_done(board: Board, sets: Words) -> Words:
    if not board.free:
        return sets
    added = board.live(board.done(sets)) @ board.costs.weights
    return _all_done(board, board.free, sets, only=added <= HAIR)


def grown(board: Board, rows: Rows, first: int) -> Rows:
    """Do every step that can be done next; `first`: the place of these rows in all kept."""
    added = board.live(board.done(rows.sets)) @ board.costs.weights
    parts = []
    for step in board.chosen:
        (which,) = np.nonzero(board.may(step, rows.sets))
        here = board.costs.stations[step]
        stood = rows.station[which]
        moved = (stood != here) & (stood != 0) if here else np.zeros(len(which), dtype=bool)
        parts.append(
            Rows(
                rows.sets[which] | board.packed(1 << step),
                rows.cost[which] + added[which, step] + board.costs.change * moved,
                np.full(len(which), here) if here else stood,
                which + first,
                np.full(len(which), step),
            )
        )
    every = joined(parts)
    shut = closed(board, every.sets)
    found = Rows(shut, every.cost, every.station, every.origin, every.step)
    return found.take(~_stuck(board, found.sets))


def _stuck(board: Board, sets: Words) -> Flags:
    """Flag sets after which some step can never be done."""
    found = np.zeros(len(sets), dtype=bool)
    for step in board.torn:
        done = np.any(sets & board.packed(1 << step), axis=1)
        found |= ~done & ~board.open(step, sets)
    return found


@dataclass(frozen=True, slots=True)
class Found:
    """What a search found.

    Attributes
    ----------
    costs, orders
        The cheapest orders, and what they cost.
    bound
        No order costs less.
    sets
        How many sets of steps were kept.
    """

    costs: tuple[float, ...]
    orders: tuple[tuple[int, ...], ...]
    bound: float
    sets: int


def search(board: Board, width: int, known: float = np.inf) -> Found:
    """Search the cheapest orders.

    Parameters
    ----------
    board
        The job.
    width
        How many sets of a size are kept.
    known
        What an order costs that is known already: nothing dearer is looked at.
    """
    kept, bound = Kept(), np.inf
    waiting: dict[int, list[Rows]] = defaultdict(list)
    _sort_in(board, waiting, _start(board))
    for size in range(board.count):
        if size in waiting:
            rows = cheapest(joined(waiting.pop(size)), board.keep)
            rows, dropped = _narrowed(board, rows, width, known)
            bound = min(bound, dropped)
            if len(rows):
                _sort_in(board, waiting, grown(board, rows, kept.add(rows)))
    if board.count not in waiting:
        return Found((), (), min(bound, known), kept.count)
    ends = joined(waiting.pop(board.count))
    ends = cheapest(replace(ends, station=ends.station * 0), board.keep)
    first = kept.add(ends)
    paths = [spelled(board, kept.path(first + n)) for n in range(len(ends))]
    costs = tuple(float(cost) for cost in ends.cost)
    return Found(costs, tuple(paths), min(bound, costs[0]), kept.count)


def _start(board: Board) -> Rows:
    """Begin with nothing done but what is done at once."""
    nothing = np.zeros((1, board.words), dtype="<u8")
    none = np.full(1, -1)
    return Rows(closed(board, nothing), np.zeros(1), np.zeros(1, dtype=np.int64), none, none)


def _sort_in(board: Board, waiting: dict[int, list[Rows]], rows: Rows) -> None:
    """Lay rows by the size of their sets."""
    sizes = board.done(rows.sets).sum(axis=1, dtype=np.int64)
    for size in np.unique(sizes):
        waiting[int(size)].append(rows.take(sizes == size))


def _narrowed(board: Board, rows: Rows, width: int, known: float) -> tuple[Rows, float]:
    """Drop what cannot win, then what looks worst; give the least that the latter may come to."""
    likely = rows.cost + board.still(rows)
    inside = likely <= known + HAIR
    rows, likely = rows.take(inside), likely[inside]
    if len(rows) <= width:
        return rows, np.inf
    order = np.argsort(likely, kind="stable")
    return rows.take(np.sort(order[:width])), float(likely[order[width]])


def spelled(board: Board, path: list[int]) -> tuple[int, ...]:
    """Put in what is done at once between the steps that were chosen."""
    order = _at_once(board, [])
    for step in path:
        order = _at_once(board, [*order, step])
    return tuple(order)


def _at_once(board: Board, order: list[int]) -> list[int]:
    """Go on with what is never better later, as far as it goes."""
    costs, masks = board.costs, board.costs.masks
    done = sum(1 << step for step in order)
    added = costs.live(done) @ costs.weights
    free = [step for step in board.free if added[step] <= HAIR]
    for step in [*board.checks, *free]:
        if not done >> step & 1 and masks.may(step, done):
            return _at_once(board, [*order, step])
    return order
