"""Linear equations of many draws at once: one pattern, one array for each entry.

Which entries of a symmetric matrix fill up while it is taken apart depends on the pattern alone.
So the order and all steps are laid down once, and each step is done for all draws together: no
small matrix is ever handed to a library that would start threads for it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from dryfit.mechanics.formula import Array

Pair = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Pattern:
    """How a symmetric matrix of a pattern is taken apart.

    Attributes
    ----------
    order
        Rows in the order in which they go.
    below
        For each row of the order, the rows that it still touches then.
    """

    order: tuple[int, ...]
    below: tuple[tuple[int, ...], ...]


def pattern(count: int, pairs: Iterable[Pair]) -> Pattern:
    """Lay down in which order rows go, always the one next that touches the fewest others.

    Parameters
    ----------
    count
        Rows of the matrix [-]
    pairs
        Where it has entries beside its diagonal [rows]

    Returns
    -------
    pattern
        Order and fill [rows]

    Valid
    -----
    Any pattern.

    Source
    ------
    Minimum degree: George and Liu, Computer Solution of Large Sparse Positive Definite Systems,
    1981, ch. 5 (from memory).

    Examples
    --------
    The ends of a chain go first:

    >>> pattern(3, [(0, 1), (1, 2)]).order
    (0, 1, 2)
    """
    touches: dict[int, set[int]] = {row: set() for row in range(count)}
    for i, j in pairs:
        if i != j:
            touches[i].add(j)
            touches[j].add(i)
    order: list[int] = []
    below: list[tuple[int, ...]] = []
    while touches:
        row = min(touches, key=lambda r: (len(touches[r]), r))
        left = touches.pop(row)
        for i, j in combinations(sorted(left), 2):
            touches[i].add(j)
            touches[j].add(i)
        for i in left:
            touches[i].discard(row)
        order.append(row)
        below.append(tuple(sorted(left)))
    return Pattern(tuple(order), tuple(below))


def solved(plan: Pattern, diagonal: Array, beside: Mapping[Pair, Array], right: Array) -> Array:
    r"""Solve A x = b for each draw, A = L D L^T.

    Parameters
    ----------
    plan
        Of the pattern of A [rows]
    diagonal
        Of A [-], shape (count, n)
    beside
        Other entries of A by row and column, each pair once, the smaller row first [-], shape (n,)
    right
        b [-], shape (count, n)

    Returns
    -------
    solution
        x [-], shape (count, n)

    Valid
    -----
    Positive definite matrices.

    Source
    ------
    Golub and Van Loan, Matrix Computations, 4th ed., 4.1.2 (from memory).

    Examples
    --------
    >>> plan = pattern(2, [(0, 1)])
    >>> a, b = np.array([[2.0], [2.0]]), np.array([[3.0], [3.0]])
    >>> solved(plan, a, {(0, 1): np.array([1.0])}, b).tolist()
    [[1.0], [1.0]]
    """
    pivots = [row.copy() for row in diagonal]
    entries = dict(beside)
    x = [row.copy() for row in right]
    shares: list[list[Array]] = []
    for row, left in zip(plan.order, plan.below, strict=True):
        held = [entries[_pair(row, other)] for other in left]
        share = [entry / pivots[row] for entry in held]
        for n, i in enumerate(left):
            pivots[i] -= share[n] * held[n]
            x[i] -= share[n] * x[row]
            for m in range(n):
                key = _pair(i, left[m])
                taken = share[n] * held[m]
                entries[key] = entries[key] - taken if key in entries else -taken
        shares.append(share)
    for row, left, share in zip(
        reversed(plan.order), reversed(plan.below), reversed(shares), strict=True
    ):
        x[row] /= pivots[row]
        for other, part in zip(left, share, strict=True):
            x[row] -= part * x[other]
    return np.array(x)


def _pair(i: int, j: int) -> Pair:
    return (i, j) if i < j else (j, i)
