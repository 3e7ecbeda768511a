"""The equations of one line: bodies, what lies between them, and its forces; all draws at once.

Each element is pressed by how far two bodies have come together; a law of `mechanics` says what
force that takes. Elements whose laws are of one formula are asked together, and what is asked of
some draws only is laid out anew for those.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any

import numpy as np

from dryfit.mechanics.formula import Array, Formula
from dryfit.solve.factor import Pair, Pattern, pattern, solved

GROUND = -1
"""The case: it stands still."""

HOLD = 1e2
"""Stiffness that holds every body where the last round left it [N/m]."""


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


def sort(law: Law) -> tuple[str, ...]:
    """Tell which laws can be asked together: those of one formula with the same arguments.

    Parameters
    ----------
    law
        What force an overlap takes [law]

    Returns
    -------
    sort
        The same for laws that can be asked together [text]

    Valid
    -----
    Any law.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.mechanics.pushed import faces
    >>> sort(Law(faces, {"stiffness": 1e8}))
    ('faces', 'stiffness')
    """
    return (law.formula.__name__, *sorted(law.arguments))


@dataclass(frozen=True, slots=True)
class Alike:
    """Laws of one formula, those of the elements from `first` to before `end`.

    Each argument has shape (elements, n), or (elements, 1) where it is the same in all draws.
    """

    first: int
    end: int
    formula: Formula[..., Any]
    arguments: Mapping[str, Array]

    def of(self, chosen: Any) -> "Alike":
        """Keep the chosen draws."""
        kept = {
            name: value[:, chosen] if value.shape[1] > 1 else value
            for name, value in self.arguments.items()
        }
        return replace(self, arguments=kept)


@dataclass(frozen=True, slots=True)
class Point:
    """Where the bodies are, with force and stiffness of every element there.

    Attributes
    ----------
    places
        Shape (bodies, n) [m].
    forces, stiffness
        Shape (elements, n) [N], [N/m].
    """

    places: Array
    forces: Array
    stiffness: Array

    def of(self, chosen: Any) -> "Point":
        """Keep the chosen draws."""
        return Point(self.places[:, chosen], self.forces[:, chosen], self.stiffness[:, chosen])

    def copy(self) -> "Point":
        """Give the same, to be changed."""
        return Point(self.places.copy(), self.forces.copy(), self.stiffness.copy())

    def put(self, chosen: Any, others: "Point") -> None:
        """Take the chosen draws from elsewhere."""
        self.places[:, chosen] = others.places
        self.forces[:, chosen] = others.forces
        self.stiffness[:, chosen] = others.stiffness


@dataclass(frozen=True, slots=True)
class Equations:
    """The equations of one line, for some draws.

    Attributes
    ----------
    plan
        How their matrix is taken apart.
    ends
        Bodies of each element.
    laws
        Of all elements, in their order.
    offset
        Of each element [m], shape (elements, n).
    loads
        On each body [N], shape (bodies, n).
    """

    plan: Pattern
    ends: tuple[Pair, ...]
    laws: tuple[Alike, ...]
    offset: Array
    loads: Array

    def of(self, chosen: Any) -> "Equations":
        """Keep the chosen draws."""
        laws = tuple(group.of(chosen) for group in self.laws)
        return replace(self, laws=laws, offset=self.offset[:, chosen], loads=self.loads[:, chosen])

    def at(self, places: Array) -> Point:
        """Give force and stiffness of every element where the bodies are."""
        overlap = self.offset + self.together(places)
        forces, stiffness = np.empty_like(overlap), np.empty_like(overlap)
        for group in self.laws:
            rows = slice(group.first, group.end)
            pushed = group.formula.function(overlap[rows], **group.arguments)
            forces[rows], stiffness[rows] = pushed.force, pushed.stiffness
        return Point(places, forces, stiffness)

    def together(self, moved: Array) -> Array:
        """Say how far the bodies of each element come together if all move so far."""
        found = np.zeros_like(self.offset)
        for row, (before, after) in zip(found, self.ends, strict=True):
            if before != GROUND:
                row += moved[before]
            if after != GROUND:
                row -= moved[after]
        return found

    def slope(self, point: Point, held: Array) -> Array:
        """Give the slope of the energy by each place: the force that is out of balance there."""
        out: Array = HOLD * (point.places - held) - self.loads
        for force, (before, after) in zip(point.forces, self.ends, strict=True):
            if before != GROUND:
                out[before] += force
            if after != GROUND:
                out[after] -= force
        return out

    def step(self, out: Array, stiffness: Array) -> Array:
        """Say how far to where the forces would balance if nothing changed its stiffness."""
        diagonal = np.full(out.shape, HOLD)
        beside: dict[Pair, Array] = {}
        for stiff, (before, after) in zip(stiffness, self.ends, strict=True):
            for body in {before, after} - {GROUND}:
                diagonal[body] += stiff
            if GROUND not in (before, after):
                key = _pair(before, after)
                beside[key] = beside[key] - stiff if key in beside else -stiff
        return -solved(self.plan, diagonal, beside, out)


def equations(count: int, elements: Sequence[Element], loads: Array) -> Equations:
    """Lay the elements of a line out as arrays.

    Parameters
    ----------
    count
        Bodies [-]
    elements
        Between them and the case, those of one `sort` one after the other [elements]
    loads
        Along the line on each body [N], shape (count, n)

    Returns
    -------
    equations
        Of all draws [equations]

    Valid
    -----
    Offsets of shape (n,).

    Source
    ------
    None needed.

    Examples
    --------
    >>> equations(1, [], np.zeros((1, 3))).offset.shape
    (0, 3)
    """
    ends = tuple((e.before, e.after) for e in elements)
    plan = pattern(count, [_pair(*pair) for pair in ends if GROUND not in pair])
    laws: list[Alike] = []
    for _, group in groupby((element.law for element in elements), key=sort):
        laws.append(_alike(laws[-1].end if laws else 0, [*group]))
    offset = np.array([e.offset for e in elements]).reshape(len(elements), loads.shape[1])
    return Equations(plan, ends, tuple(laws), offset, loads)


def _alike(first: int, laws: Sequence[Law]) -> Alike:
    arguments = {
        name: np.array(np.broadcast_arrays(*(np.atleast_1d(law.arguments[name]) for law in laws)))
        for name in laws[0].arguments
    }
    return Alike(first, first + len(laws), laws[0].formula, arguments)


def _pair(before: int, after: int) -> Pair:
    return min(before, after), max(before, after)
