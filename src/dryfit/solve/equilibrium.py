"""Where the bodies of a line come to rest when everything gives a little.

Each body has one place along the line. Between two bodies lies an element: how far they are
pressed into each other, and a law from `dryfit.mechanics` that says what force that takes. Every
law is the slope of a convex energy, so there is one answer, and Newton's steps, shortened where
they go too far, come down to it from anywhere. All draws are solved together.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from dryfit.mechanics.formula import Array, Formula
from dryfit.solve.factor import Pair, Pattern, pattern, solved

GROUND = -1
"""The case: it stands still."""

CHUNK = 4096
"""Draws solved together; their arrays stay near the processor."""

HOLD = 1e2
"""Stiffness that holds every body where the last round left it [N/m]."""

LONGEST = 1e-3
"""No step is longer, so that a body that runs free does not jump [m]."""

FAR = 20e-3
"""A body that has gone as far is stopped by nothing [m]."""

STILL = 5.0
"""A round that moves nothing further than this times what `SHARP` leaves open ends the search."""

STEPS = 200
ROUNDS = 60
SHORTER = 60
SHARP, SHARE, DUST = 1e-7, 1e-10, 1e-15
"""A body rests when the forces on it add up to less than this [N], plus this share of the greatest,
plus what the last binary digit of its place is worth on the stiffest element."""


@dataclass(frozen=True, slots=True)
class Law:
    """Force against how far two bodies are pressed together.

    Attributes
    ----------
    formula
        Of `mechanics`; its first argument is the overlap, it gives force and stiffness.
    arguments
        All others, floats or one a draw.
    """

    formula: Formula[..., Any]
    arguments: Mapping[str, Any]

    def of(self, overlap: Array, chosen: Any) -> tuple[Array, Array]:
        """Give force and stiffness of the chosen draws, conditions taken as checked."""
        given = {
            name: value[chosen] if isinstance(value, np.ndarray) else value
            for name, value in self.arguments.items()
        }
        pushed = self.formula.function(overlap, **given)
        return pushed.force, pushed.stiffness


@dataclass(frozen=True, slots=True)
class Element:
    """What lies between two bodies: pressed by `offset + x(before) - x(after)`.

    Attributes
    ----------
    name
        What it is, for whoever asks for its force.
    before, after
        Bodies by number, or `GROUND`.
    offset
        How far it is pressed when all bodies are at nought [m], shape (n,).
    law
        What force that takes.
    """

    name: str
    before: int
    after: int
    offset: Array
    law: Law


@dataclass(frozen=True, slots=True)
class Rest:
    """Where all bodies are and what each element carries.

    Attributes
    ----------
    places
        By body [m], shape (bodies, n).
    forces
        By element, positive where it pushes its bodies apart [N], shape (elements, n).
    """

    places: Array
    forces: Array


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


def settle(
    count: int, elements: Sequence[Element], loads: Array, start: Array | None = None
) -> Rest:
    """Find where the bodies come to rest under loads.

    Parameters
    ----------
    count
        Bodies [-]
    elements
        Between them and the case [elements]
    loads
        Along the line on each body [N], shape (count, n)
    start
        Where they were; a body that nothing touches or pushes stays there [m], shape (count, n)

    Returns
    -------
    rest
        Places [m], shape (count, n), and forces [N], shape (elements, n)

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
    A body of no weight between two faces, pushed by 40 N:

    >>> from dryfit.mechanics.roller_rows import face_row
    >>> face = Law(face_row, {"area": 400e-6})
    >>> stops = [Element("left", GROUND, 0, np.zeros(1), face),
    ...          Element("right", 0, GROUND, np.array([-50e-6]), face)]
    >>> rest = settle(1, stops, np.array([[40.0]]))
    >>> float(rest.places[0, 0]) * 1e6, rest.forces[:, 0].round(6).tolist()
    (50.316, [0.0, 40.0])
    """
    draws = loads.shape[1]
    plan = pattern(count, [_pair(e) for e in elements if GROUND not in (e.before, e.after)])
    began = np.zeros((count, draws)) if start is None else start
    line = _Line(count, [_from(element, began) for element in elements], plan, loads)
    moved = np.zeros((count, draws))
    forces = np.zeros((len(elements), draws))
    with np.errstate(all="ignore"):
        for first in range(0, draws, CHUNK):
            part = np.arange(first, min(first + CHUNK, draws))
            moved[:, part] = line.at_rest(moved[:, part], part)
            for row, force in enumerate(line.pressed(moved[:, part], part)[0]):
                forces[row, part] = force
    return Rest(began + moved, forces)


def _from(element: Element, began: Array) -> Element:
    """Count from where the bodies begin, so that no digits are lost to where they are."""
    offset = element.offset + np.zeros(began.shape[1])
    if element.before != GROUND:
        offset = offset + began[element.before]
    if element.after != GROUND:
        offset = offset - began[element.after]
    return replace(element, offset=offset)


def _pair(element: Element) -> Pair:
    return min(element.before, element.after), max(element.before, element.after)


@dataclass(frozen=True, slots=True)
class _Line:
    """The equations of one line."""

    count: int
    elements: Sequence[Element]
    plan: Pattern
    loads: Array

    def at_rest(self, places: Array, draws: Array) -> Array:
        """Hold all bodies softly where they are, let go, and again until nothing moves."""
        began = places
        for _ in range(ROUNDS):
            held = places
            places = self._round(held, draws)
            self._must_not_run(places - began)
            if np.max(np.abs(places - held), initial=0.0) * HOLD < STILL * SHARP:
                return places
        self._must_not_run((places - held) * FAR / np.max(np.abs(places - held)))
        raise Unsettled(places, float(np.max(np.abs(places - held))) * HOLD)

    def _must_not_run(self, moved: Array) -> None:
        far = np.any(np.abs(moved) >= FAR, axis=1)
        if np.any(far):
            raise RunsAway(tuple(int(body) for body in np.flatnonzero(far)))

    def _round(self, held: Array, draws: Array) -> Array:
        """Come to rest with all bodies held softly."""
        places = held.copy()
        left = np.arange(len(draws))
        for _ in range(STEPS):
            here, there = places[:, left], draws[left]
            forces, stiffness = self.pressed(here, there)
            out = self._out_of_balance(here - held[:, left], forces, there)
            most = np.max(np.abs(np.array(forces)), axis=0, initial=0.0)
            dust = np.max(np.array(stiffness), axis=0, initial=0.0) * np.max(
                np.abs(here), axis=0, initial=0.0
            )
            enough = SHARP + SHARE * most + DUST * dust
            moving = np.max(np.abs(out), axis=0, initial=0.0) > enough
            if not np.any(moving):
                return places
            if not np.all(moving):
                left, here, there = left[moving], here[:, moving], there[moving]
                out, stiffness = out[:, moving], [k[moving] for k in stiffness]
            step = self._newton(out, stiffness)
            places[:, left] = self._along(here, held[:, left], step, out, there)
        raise Unsettled(places, float(np.max(np.abs(out))))

    def pressed(self, places: Array, draws: Array) -> tuple[list[Array], list[Array]]:
        """Give force and stiffness of every element."""
        forces, stiffness = [], []
        for element in self.elements:
            overlap = element.offset[draws]
            if element.before != GROUND:
                overlap = overlap + places[element.before]
            if element.after != GROUND:
                overlap = overlap - places[element.after]
            force, stiff = element.law.of(overlap, draws)
            forces.append(force)
            stiffness.append(stiff)
        return forces, stiffness

    def _out_of_balance(self, moved: Array, forces: list[Array], draws: Array) -> Array:
        """Give the slope of the energy by each place."""
        out = HOLD * moved - self.loads[:, draws]
        for element, force in zip(self.elements, forces, strict=True):
            if element.before != GROUND:
                out[element.before] += force
            if element.after != GROUND:
                out[element.after] -= force
        return out

    def _newton(self, out: Array, stiffness: list[Array]) -> Array:
        """Step to where the forces would balance if nothing changed its stiffness.

        A body that hardly anything holds would go far; it alone is kept short, if the energy then
        still falls.
        """
        diagonal = np.full(out.shape, HOLD)
        beside: dict[Pair, Array] = {}
        for element, stiff in zip(self.elements, stiffness, strict=True):
            for body in {element.before, element.after} - {GROUND}:
                diagonal[body] += stiff
            if GROUND not in (element.before, element.after):
                key = _pair(element)
                beside[key] = beside[key] - stiff if key in beside else -stiff
        step = -solved(self.plan, diagonal, beside, out)
        shorter: Array = np.minimum(1.0, LONGEST / np.max(np.abs(step), axis=0))
        each: Array = np.clip(step, -LONGEST, LONGEST)
        return np.where(np.sum(out * each, axis=0) < 0, each, step * shorter)

    def _along(self, here: Array, held: Array, step: Array, out: Array, draws: Array) -> Array:
        """Go along a step until the slope of the energy has lost half of itself at least.

        A step that went too far goes back by Newton's rule along itself: where a contact has just
        closed that ends on the contact, at once.
        """
        slope = np.sum(out * step, axis=0)
        low, high = np.zeros(len(draws)), np.full(len(draws), np.inf)
        way = np.ones(len(draws))
        left = np.arange(len(draws))
        for _ in range(SHORTER):
            along = step[:, left]
            trial = here[:, left] + way[left] * along
            forces, stiffness = self.pressed(trial, draws[left])
            now = self._out_of_balance(trial - held[:, left], forces, draws[left])
            reached = np.sum(now * along, axis=0)
            over = reached > -0.5 * slope[left]
            short = (reached < 0.5 * slope[left]) & (way[left] < 1.0)
            if not np.any(over | short):
                break
            high[left[over]] = way[left[over]]
            low[left[short]] = way[left[short]]
            back = way[left] - reached / self._curvature(along, stiffness)
            kept = over | short
            left, back, over = left[kept], back[kept], over[kept]
            fits = over & (back > low[left]) & (back < high[left])
            way[left] = np.where(fits, back, _between(low[left], high[left]))
        return here + way * step

    def _curvature(self, along: Array, stiffness: list[Array]) -> Array:
        """Give the second derivative of the energy along a step."""
        curve: Array = HOLD * np.sum(along * along, axis=0)
        for element, stiff in zip(self.elements, stiffness, strict=True):
            apart = np.zeros(along.shape[1])
            if element.before != GROUND:
                apart = apart + along[element.before]
            if element.after != GROUND:
                apart = apart - along[element.after]
            curve = curve + stiff * apart * apart
        return curve


def _between(low: Array, high: Array) -> Array:
    """Halve a way, or take the middle of its ends as a ratio where they lie far apart."""
    ratio: Array = np.sqrt(np.maximum(low, high * 1e-6) * high)
    return np.where(high > 100 * low, ratio, (low + high) / 2)
