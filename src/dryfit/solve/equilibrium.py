"""Where the bodies of a line come to rest when everything gives a little.

`newton` looks for it; where numba is installed, `compiled` does the same, faster.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from types import ModuleType

import numpy as np

from dryfit.mechanics.formula import Array
from dryfit.solve import newton
from dryfit.solve.equations import GROUND, Element, Equations, equations, sort

COMPILED = True
"""Whether many draws are handed to `compiled`, where there is numba."""

MANY = 100
"""Fewer draws are not worth waking the compiler for."""


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
    >>> from dryfit.solve.equations import Law
    >>> face = Law(face_row, {"area": 400e-6})
    >>> stops = [Element("left", GROUND, 0, np.zeros(1), face),
    ...          Element("right", 0, GROUND, np.array([-50e-6]), face)]
    >>> rest = settle(1, stops, np.array([[40.0]]))
    >>> float(rest.places[0, 0]) * 1e6, rest.forces[:, 0].round(6).tolist()
    (50.316, [0.0, 40.0])
    """
    draws = loads.shape[1]
    began = np.zeros((count, draws)) if start is None else start
    order = sorted(range(len(elements)), key=lambda n: sort(elements[n].law))
    line = equations(count, [_from(elements[n], began) for n in order], loads)
    moved, found = _at_rest(line)
    forces = np.empty_like(found)
    forces[order] = found
    return Rest(began + moved, forces)


def _at_rest(line: Equations) -> tuple[Array, Array]:
    many = COMPILED and line.loads.shape[1] >= MANY
    engine = (many and compiler()) or newton
    moved, forces = engine.at_rest(line)
    return moved, forces


@cache
def compiler() -> ModuleType | None:
    """Give the compiled search; numba wakes, which takes a while, when it is first asked for.

    Returns
    -------
    module
        `solve.compiled`, or None where there is no numba that works [module]

    Valid
    -----
    Always.

    Source
    ------
    None needed.

    Examples
    --------
    >>> compiler() is compiler()
    True
    """
    try:
        from dryfit.solve import compiled
    except (ImportError, RuntimeError):  # none, one that is broken, or nowhere to keep what it made
        return None
    return compiled


def _from(element: Element, began: Array) -> Element:
    """Count from where the bodies begin, so that no digits are lost to where they are."""
    offset = element.offset + np.zeros(began.shape[1])
    if element.before != GROUND:
        offset = offset + began[element.before]
    if element.after != GROUND:
        offset = offset - began[element.after]
    return replace(element, offset=offset)
