"""How much of the doubt in what is wanted each size makes, as it was read: what is good enough."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.slopes import lacking, slopes
from dryfit.ask.targets import Target, named
from dryfit.ask.worth import share_removed
from dryfit.solve.benchtop import NoAnswer


@dataclass(frozen=True, slots=True)
class Matter:
    """What one size makes of the doubt in one want, the one it makes most of.

    Attributes
    ----------
    key
        Key of the size, or name of the gasket.
    share
        Share of the variance of what is wanted that would go if it were known [-].
    kind, of
        What is wanted: a float of a shaft, lash of a mesh.
    """

    key: str
    share: float
    kind: str
    of: str


@dataclass(frozen=True, slots=True)
class Matters:
    """What matters; what is not listed does not, if `every` want was told of."""

    every: bool
    sizes: tuple[Matter, ...]


def matters(asking: Asking, wanted: Iterable[Target], packs: Packs) -> Matters:
    """Say how much of the doubt in what is wanted each size makes.

    Parameters
    ----------
    asking
        The unit [asking]
    wanted
        What is wanted of it [targets]
    packs
        Thickness of each setting [m]

    Returns
    -------
    matters
        Each size that moves a want, the greatest share first; wants that cannot be told, or lack
        a size, are left out [-]

    Valid
    -----
    Any unit.

    Source
    ------
    Shares of variance as in `ask.worth`, with nothing left of the doubt.

    Examples
    --------
    See tests/ask/test_matters.py.

    >>> Matter("shaft", 0.5, "float", "shaft").share
    0.5
    """
    found: dict[str, Matter] = {}
    every = True
    for target in wanted:
        told = _of_one(asking, target, packs)
        every &= told is not None
        for one in told or ():
            if one.key not in found or found[one.key].share < one.share:
                found[one.key] = one
    return Matters(every, tuple(sorted(found.values(), key=lambda one: -one.share)))


def _of_one(asking: Asking, target: Target, packs: Packs) -> list[Matter] | None:
    """Say it for one want; None where it cannot be told."""
    need = target.need
    try:
        if lacking(asking, need, packs):
            return None
        values = asking.true(need, packs).true
        moving = [one.key for one in slopes(asking, need, packs)]
    except NoAnswer:
        return None
    known = {**asking.drawn.sizes, **asking.drawn.nipped}
    none = np.zeros(asking.count)
    return [
        Matter(key, share_removed(values, known[key], 0.0, none), need.kind, named(need))
        for key in moving
        if key in known
    ]
