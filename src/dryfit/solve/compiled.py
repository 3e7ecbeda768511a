"""The search of `newton`, compiled by numba: one draw after the other instead of all together.

Step for step the same, so the answers are. The laws are those of `mechanics`, compiled from their
own source. What does not come to rest here is handed to `newton`, which says why.
"""

import os
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from inspect import getsource
from itertools import chain
from math import ceil
from typing import Any

import numpy as np
from numba import njit
from numba.extending import overload, register_jitable

from dryfit.mechanics import ball_rows, pushed, roller_rows, springs
from dryfit.mechanics.formula import Array
from dryfit.solve import equations, newton
from dryfit.solve.equations import GROUND, HOLD, Equations
from dryfit.solve.newton import (
    DUST,
    FAR,
    FIRST,
    GROWS,
    LONGEST,
    ROUNDS,
    SHARE,
    SHARP,
    SHORTER,
    STEPS,
    STILL,
)

LEAST = 256
"""Draws that are worth a thread of their own."""

MODULES = (ball_rows, pushed, roller_rows, springs, equations, newton)
STAMP = sha256("".join(getsource(module) for module in MODULES).encode()).hexdigest()
"""Changes when any source does that is compiled in; what was kept from before is then not used."""

for _helper in (ball_rows._centres, ball_rows._pushed):
    register_jitable(_helper)


@overload(np.heaviside)
def _heaviside(x: Any, middle: Any) -> Callable[[Any, Any], Any]:
    def step(x: Any, middle: Any) -> Any:
        return middle if x == 0 else (1.0 if x > 0 else (0.0 if x < 0 else np.nan))

    return step


LAWS = (
    pushed.faces,
    pushed.steady,
    pushed.grip,
    springs.spring_force,
    ball_rows.ball_row,
    ball_rows.deep_groove_row,
    roller_rows.taper_row,
)
"""What `_pushed` knows, by number."""

_plainly = njit(error_model="numpy", forceinline=True)
_faces, _steady, _grip, _spring, _ball, _groove, _taper = (_plainly(law.function) for law in LAWS)

MOST = max(len(law.names) - 1 for law in LAWS)


@_plainly
def _pushed(
    law: int, x: float, a: Array, e: int
) -> Any:  # one branch a law, in the order of `LAWS`
    if law == 0:
        return _faces(x, a[e, 0])
    if law == 1:
        return _steady(x, a[e, 0])
    if law == 2:
        return _grip(x, a[e, 0], a[e, 1])
    if law == 3:
        return _spring(x, a[e, 0], a[e, 1], a[e, 2], a[e, 3])
    if law == 4:
        return _ball(x, a[e, 0], a[e, 1], a[e, 2], a[e, 3], a[e, 4], a[e, 5])
    if law == 5:
        return _groove(x, a[e, 0], a[e, 1], a[e, 2], a[e, 3], a[e, 4], a[e, 5])
    return _taper(x, a[e, 0], a[e, 1], a[e, 2], a[e, 3], a[e, 4], a[e, 5])


@_plainly
def _most(values: Array) -> float:
    """Give the greatest, whatever its sign; NaN as soon as there is one."""
    most = 0.0
    for value in values:
        if abs(value) > most or value != value:
            most = abs(value)
    return most


@_plainly
def _at(line: Any, x: Array, f: Array, k: Array) -> None:
    """Fill in force and stiffness of every element."""
    laws, ends, given, offset, _ = line
    for e in range(len(laws)):
        before, after = ends[e]
        overlap = offset[e]
        if before != GROUND:
            overlap += x[before]
        if after != GROUND:
            overlap -= x[after]
        found = _pushed(laws[e], overlap, given, e)
        f[e] = found.force
        k[e] = found.stiffness


@_plainly
def _slope(ends: Array, loads: Array, held: Array, x: Array, f: Array, out: Array) -> None:
    """Fill in what is out of balance on each body."""
    for b in range(len(x)):
        out[b] = HOLD * (x[b] - held[b]) - loads[b]
    for e in range(len(f)):
        before, after = ends[e]
        if before != GROUND:
            out[before] += f[e]
        if after != GROUND:
            out[after] -= f[e]


@_plainly
def _step(plan: Any, ends: Array, out: Array, k: Array, matrix: Array, step: Array) -> None:
    """Fill in how far to where the forces would balance; as `factor.solved`."""
    order, position, first, below = plan
    bodies = len(out)
    for i in range(bodies):
        matrix[i, i] = HOLD
        step[order[i]] = out[order[i]]
        for at in range(first[i], first[i + 1]):
            matrix[i, below[at]] = 0.0
    for e in range(len(k)):
        before, after = ends[e]
        i = position[before] if before != GROUND else GROUND
        j = position[after] if after != GROUND else GROUND
        if i != GROUND:
            matrix[i, i] += k[e]
        if j != GROUND and j != i:
            matrix[j, j] += k[e]
        if i != GROUND and j != GROUND and i != j:
            matrix[min(i, j), max(i, j)] -= k[e]
    for i in range(bodies):
        for at in range(first[i], first[i + 1]):
            j = below[at]
            share = matrix[i, j] / matrix[i, i]
            step[order[j]] -= share * step[order[i]]
            for other in range(first[i], at + 1):
                matrix[below[other], j] -= share * matrix[i, below[other]]
    for i in range(bodies - 1, -1, -1):
        found = step[order[i]] / matrix[i, i]
        for at in range(first[i], first[i + 1]):
            found -= matrix[i, below[at]] / matrix[i, i] * step[order[below[at]]]
        step[order[i]] = found
    for b in range(bodies):
        step[b] = -step[b]


@_plainly
def _keep_short(step: Array, out: Array, reach: float) -> None:
    """Keep a step within reach, as `newton` does."""
    longest = _most(step)
    if not longest > reach:
        return
    falls = 0.0
    for b in range(len(step)):
        falls += out[b] * min(max(step[b], -reach), reach)
    for b in range(len(step)):
        step[b] = min(max(step[b], -reach), reach) if falls < 0 else step[b] * (reach / longest)


@_plainly
def _between(low: float, high: float) -> float:
    if high > 100 * low:
        return np.sqrt(max(low, high * 1e-6) * high)  # type: ignore[no-any-return]
    return (low + high) / 2


@_plainly
def _together(ends: Array, e: int, moved: Array) -> float:
    """Say how far the bodies of an element come together if all move so far."""
    before, after = ends[e]
    found = 0.0
    if before != GROUND:
        found += moved[before]
    if after != GROUND:
        found -= moved[after]
    return found


@_plainly
def _along(line: Any, held: Array, here: Array, step: Array, out: Array, point: Any) -> None:
    """Go along a step until the slope of the energy has lost half of itself at least."""
    _, ends, _, _, loads = line
    x, f, k = point
    slope = np.dot(out, step)
    share, low, high, over = 1.0, 0.0, np.inf, True
    for turn in range(SHORTER + 1):
        for b in range(len(x)):
            x[b] = here[b] + share * step[b]
        _at(line, x, f, k)
        _slope(ends, loads, held, x, f, out)
        reached = np.dot(out, step)
        over, short = reached > -0.5 * slope, reached < 0.5 * slope
        if not over and (turn == 0 or not short):
            return
        low, high = (low, share) if over else (share, high)
        curve = HOLD * np.dot(step, step)
        for e in range(len(k)):
            curve += k[e] * _together(ends, e, step) ** 2
        back = share - reached / curve
        share = back if over and low < back < high else _between(low, high)


@_plainly
def _round(line: Any, plan: Any, held: Array, point: Any, work: Any) -> bool:
    """Come to rest with all bodies held softly; tell whether it did."""
    _, ends, _, _, loads = line
    x, f, k = point
    out, step, here, matrix = work
    reach = FIRST
    for _ in range(STEPS):
        _slope(ends, loads, held, x, f, out)
        enough = SHARP + SHARE * _most(f) + DUST * _most(x) * _most(k)
        if not _most(out) > enough:
            return True
        _step(plan, ends, out, k, matrix, step)
        _keep_short(step, out, reach)
        here[:] = x
        _along(line, held, here, step, out, point)
        went = 0.0
        for b in range(len(x)):
            went = max(went, abs(x[b] - here[b]))
        wider = min(reach * GROWS, LONGEST)
        reach = wider if went > 0.9 * reach else max(went, FIRST)
        if _most(x) >= FAR:
            break
    return False


def _compiled(stamp: str) -> Any:
    @njit(cache=True, nogil=True, error_model="numpy")
    def some(laws: Array, ends: Array, given: Array, offset: Array, loads: Array, plan: Any) -> Any:
        """Bring each draw to rest; give places, forces and which came to rest."""
        assert stamp  # so that it counts when what was compiled before is looked up
        draws, elements = offset.shape
        bodies = loads.shape[1]
        places, forces = np.zeros((draws, bodies)), np.zeros((draws, elements))
        rests = np.zeros(draws, np.bool_)
        k, held, matrix = np.zeros(elements), np.zeros(bodies), np.zeros((bodies, bodies))
        work = (np.zeros(bodies), np.zeros(bodies), np.zeros(bodies), matrix)
        for n in range(draws):
            line = (laws, ends, given[n], offset[n], loads[n])
            x, f = places[n], forces[n]
            _at(line, x, f, k)
            held[:] = 0.0
            for _ in range(ROUNDS):
                if not _round(line, plan, held, (x, f, k), work) or _most(x) >= FAR:
                    break
                moved = 0.0
                for b in range(bodies):
                    moved = max(moved, abs(x[b] - held[b]))
                if not moved * HOLD >= STILL * SHARP:
                    rests[n] = True
                    break
                held[:] = x
        return places, forces, rests

    return some


some_at_rest = _compiled(STAMP)


def at_rest(line: Equations) -> tuple[Array, Array]:
    """As `newton.at_rest`, compiled.

    Parameters
    ----------
    line
        The equations, counted from where the bodies begin [equations]

    Returns
    -------
    moved
        From there [m], shape (bodies, n)
    forces
        Of each element [N], shape (elements, n)

    Raises
    ------
    RunsAway
        A pushed body finds no stop.
    Unsettled
        No rest was found.

    Valid
    -----
    As `newton.at_rest`; lines with a law that is not in `LAWS` are handed to it.

    Source
    ------
    As `newton.at_rest`.

    Examples
    --------
    >>> at_rest(equations.equations(1, [], np.zeros((1, 2))))[0].tolist()
    [[0.0, 0.0]]
    """
    if any(group.formula not in LAWS for group in line.laws) or not line.offset.size:
        return newton.at_rest(line)
    draws = line.loads.shape[1]
    threads = max(1, min(os.cpu_count() or 1, draws // LEAST))
    share = ceil(draws / threads)
    parts = [line.of(slice(first, first + share)) for first in range(0, draws, share)]
    if len(parts) == 1:
        return _part_at_rest(parts[0])
    with ThreadPoolExecutor(len(parts)) as pool:
        found = list(pool.map(_part_at_rest, parts))
    moved, forces = (np.concatenate(arrays, axis=1) for arrays in zip(*found, strict=True))
    return moved, forces


def _part_at_rest(line: Equations) -> tuple[Array, Array]:
    places, forces, rests = some_at_rest(
        _numbers(line),
        np.array(line.ends, dtype=np.int64),
        _given(line),
        np.ascontiguousarray(line.offset.T),
        np.ascontiguousarray(line.loads.T),
        _plan(line),
    )
    if not np.all(rests):
        newton.must_not_run(line, line.at(places.T))
        places[~rests], forces[~rests] = (part.T for part in newton.at_rest(line.of(~rests)))
    return places.T, forces.T


def _numbers(line: Equations) -> Array:
    """Number the law of each element."""
    sizes = [group.end - group.first for group in line.laws]
    return np.repeat([LAWS.index(group.formula) for group in line.laws], sizes)


def _given(line: Equations) -> Array:
    """Lay all arguments out by draw, element and their place in the law."""
    given = np.zeros((line.loads.shape[1], len(line.ends), MOST))
    for group in line.laws:
        arguments = group.formula.arguments(None, **group.arguments)
        for at, name in enumerate(group.formula.names[1:]):
            given[:, group.first : group.end, at] = np.transpose(arguments[name])
    return given


def _plan(line: Equations) -> Any:
    """Tell which body goes when, and, by when they go, which ones each touches then."""
    order = np.array(line.plan.order, dtype=np.int64)
    position = np.argsort(order)
    below = [sorted(position[[*left]].tolist()) for left in line.plan.below]
    first = np.cumsum([0, *map(len, below)])
    return order, position, first, np.array([*chain(*below)], dtype=np.int64)
