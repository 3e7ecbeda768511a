"""Newton's search for rest, all draws of a line together.

Every law is the slope of a convex energy, so there is one answer, and Newton's steps, shortened
where they go too far, come down to it from anywhere.
"""

from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from dryfit.mechanics.formula import Array
from dryfit.solve.equations import HOLD, Equations, Point

Mask = NDArray[np.bool_]

CHUNK = 4096
"""Draws solved together; their arrays stay near the processor."""

LONGEST = 1e-3
"""No step is longer, so that a body that runs free does not jump [m]."""

FIRST, GROWS = 1e-6, 10.0
"""Reach of the first step [m], and how much further the next may go after one that went so far."""

FAR = 20e-3
"""A body that has gone as far is stopped by nothing [m]."""

STILL = 5.0
"""A round that moves nothing further than this times what `SHARP` leaves open ends the search."""

WORTHWHILE = 0.75
"""Draws that rest are put aside when no more than this share of them still moves."""

STEPS = 200
ROUNDS = 60
SHORTER = 60
SHARP, SHARE, DUST = 1e-7, 1e-10, 1e-15
"""A body rests when the forces on it add up to less than this [N], plus this share of the greatest,
plus what the last binary digit of its place is worth on the stiffest element."""


class Unsettled(Exception):
    """The search for rest ended without one.

    Attributes
    ----------
    places
        The last point [m], shape (bodies, n).
    left
        Largest force left over on a body [N].
    """

    def __init__(self, places: Array, left: float) -> None:
        super().__init__(f"forces are {left:.3g} N out of balance after {STEPS} steps")
        self.places = places
        self.left = left


class RunsAway(Exception):
    """Nothing stops some bodies.

    Attributes
    ----------
    bodies
        Their numbers.
    """

    def __init__(self, bodies: tuple[int, ...]) -> None:
        super().__init__(f"nothing stops bodies {bodies}")
        self.bodies = bodies


def at_rest(line: Equations) -> tuple[Array, Array]:
    """Hold all bodies softly where they are, let go, and again until nothing moves.

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
    Laws whose force never falls as the overlap grows.

    Source
    ------
    Newton's method on a convex function with a proximal term: Boyd and Vandenberghe, Convex
    Optimization, 2004, 9.5 (from memory).

    Examples
    --------
    >>> from dryfit.solve.equations import equations
    >>> at_rest(equations(1, [], np.zeros((1, 2))))[0].tolist()
    [[0.0, 0.0]]
    """
    moved, forces = np.zeros_like(line.loads), np.zeros_like(line.offset)
    draws = moved.shape[1]
    with np.errstate(all="ignore"):
        for first in range(0, draws, CHUNK):
            part = slice(first, min(first + CHUNK, draws))
            moved[:, part], forces[:, part] = _part_at_rest(line.of(part))
    return moved, forces


def _part_at_rest(line: Equations) -> tuple[Array, Array]:
    held: Array = np.zeros_like(line.loads)
    places, forces = held.copy(), np.zeros_like(line.offset)
    left, point = np.arange(held.shape[1]), line.at(held)
    for _ in range(ROUNDS):
        point = _round(line, point)
        must_not_run(line, point)
        places[:, left], forces[:, left] = point.places, point.forces
        step = np.max(np.abs(point.places - held), axis=0, initial=0.0)
        moves = step * HOLD >= STILL * SHARP
        if not np.any(moves):
            return places, forces
        before, held = held[:, moves], point.places[:, moves]
        left, line, point = left[moves], line.of(moves), point.of(moves)
    went = np.abs(held - before)  # round after round the same way, and no end
    raise _named(went >= np.max(went))


def must_not_run(line: Equations, point: Point) -> None:
    """End the search where a body has gone too far; name those that are pushed on all the same.

    Parameters
    ----------
    line
        The equations [equations]
    point
        Where its bodies are [m]

    Raises
    ------
    RunsAway
        A pushed body finds no stop.

    Valid
    -----
    Any point.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.solve.equations import equations
    >>> line = equations(1, [], np.ones((1, 1)))
    >>> must_not_run(line, line.at(np.zeros((1, 1))))
    """
    far = np.abs(point.places) >= FAR
    if np.any(far):
        pushed = -line.slope(point, point.places) * np.sign(point.places) > SHARP
        raise _named(far & pushed if np.any(far & pushed) else far)


def _named(runs: Mask) -> RunsAway:
    return RunsAway(tuple(int(body) for body in np.flatnonzero(np.any(runs, axis=1))))


def _round(line: Equations, begin: Point) -> Point:
    """Come to rest with all bodies held softly; draws that rest are put aside by and by."""
    held, found = begin.places, begin.copy()
    point, left, reach = begin, np.arange(held.shape[1]), np.full(held.shape[1], FIRST)
    for _ in range(STEPS):
        out = line.slope(point, held)
        moving = np.max(np.abs(out), axis=0, initial=0.0) > _enough(point)
        count = np.count_nonzero(moving)
        if count < WORTHWHILE * len(left):
            found.put(left, point)
            if not count:
                return found
            left, line, point = left[moving], line.of(moving), point.of(moving)
            held, out, reach = held[:, moving], out[:, moving], reach[moving]
            moving = moving[moving]
        step = _kept_short(line.step(out, point.stiffness), out, reach) * moving
        further = _along(line, point.places, held, step, out)
        went = np.max(np.abs(further.places - point.places), axis=0, initial=0.0)
        wider = np.minimum(reach * GROWS, LONGEST)
        reach = np.where(went > 0.9 * reach, wider, np.maximum(went, FIRST))
        point = further
        must_not_run(line, point)
    raise Unsettled(found.places, float(np.max(np.abs(out))))


def _enough(point: Point) -> Array:
    """Say which force is none: a share of the greatest, and what the last binary digit is worth."""
    most = np.max(np.abs(point.forces), axis=0, initial=0.0)
    far = np.max(np.abs(point.places), axis=0, initial=0.0)
    enough: Array = SHARP + SHARE * most
    enough += DUST * far * np.max(point.stiffness, axis=0, initial=0.0)
    return enough


def _kept_short(step: Array, out: Array, reach: Array) -> Array:
    """Keep a step within reach.

    A body that hardly anything holds would go far; it alone is kept short, if the energy then
    still falls.
    """
    longest = np.max(np.abs(step), axis=0, initial=0.0)
    if not np.any(longest > reach):
        return step
    each: Array = np.clip(step, -reach, reach)
    shorter: Array = step * np.minimum(1.0, reach / longest)
    return np.where(np.sum(out * each, axis=0) < 0, each, shorter)


def _along(line: Equations, here: Array, held: Array, step: Array, out: Array) -> Point:
    """Go along a step until the slope of the energy has lost half of itself at least.

    A step that went too far goes back by Newton's rule along itself: where a contact has just
    closed that ends on the contact, at once.
    """
    found = line.at(here + step)
    slope = np.sum(out * step, axis=0)
    reached = np.sum(line.slope(found, held) * step, axis=0)
    over = reached > -0.5 * slope
    left = np.flatnonzero(over)
    if not len(left):
        return found
    line, way = line.of(left), _Way.whole(here, held, step, slope, reached).of(left)
    point = found.of(left)
    for _ in range(SHORTER):
        way = way.next(line, point)
        point = line.at(way.here + way.share * way.step)
        way = way.judged(line, point)
        wrong = way.over | way.short
        done = ~wrong
        if np.any(done):
            found.put(left[done], point.of(done))
            left, line, point, way = left[wrong], line.of(wrong), point.of(wrong), way.of(wrong)
            if not len(left):
                return found
    found.put(left, point)
    return found


@dataclass(frozen=True, slots=True)
class _Way:
    """How far a step is gone, while the right share of it is looked for.

    Attributes
    ----------
    here, held, step
        Where it begins, where all is held, the whole step [m], shape (bodies, n).
    slope, reached
        Of the energy along the step, at its beginning and now [N m], shape (n,).
    share, low, high
        How much of the step is gone, and between which shares the right one lies [-], shape (n,).
    over, short
        Whether it went too far, or not far enough, shape (n,).
    """

    here: Array
    held: Array
    step: Array
    slope: Array
    reached: Array
    share: Array
    low: Array
    high: Array
    over: Mask
    short: Mask

    @classmethod
    def whole(cls, here: Array, held: Array, step: Array, slope: Array, reached: Array) -> "_Way":
        """Begin with the whole step, which went too far."""
        one = np.ones_like(slope)
        far = one > 0
        return cls(here, held, step, slope, reached, one, 0 * one, np.inf * one, far, ~far)

    def of(self, chosen: Any) -> "_Way":
        """Keep the chosen draws."""
        return _Way(*(getattr(self, field.name)[..., chosen] for field in fields(self)))

    def next(self, line: Equations, point: Point) -> "_Way":
        """Take another share: by Newton's rule, or between those that are too far and too near."""
        high = np.where(self.over, self.share, self.high)
        low = np.where(self.over, self.low, self.share)
        curve = HOLD * np.sum(self.step**2, axis=0)
        curve += np.sum(point.stiffness * line.together(self.step) ** 2, axis=0)
        back = self.share - self.reached / curve
        fits = self.over & (back > low) & (back < high)
        share = np.where(fits, back, _between(low, high))
        return replace(self, share=share, low=low, high=high)

    def judged(self, line: Equations, point: Point) -> "_Way":
        """Tell where it went too far or not far enough."""
        reached = np.sum(line.slope(point, self.held) * self.step, axis=0)
        over, short = reached > -0.5 * self.slope, reached < 0.5 * self.slope
        return replace(self, reached=reached, over=over, short=short)


def _between(low: Array, high: Array) -> Array:
    """Halve a way, or take the middle of its ends as a ratio where they lie far apart."""
    ratio: Array = np.sqrt(np.maximum(low, high * 1e-6) * high)
    return np.where(high > 100 * low, ratio, (low + high) / 2)
