"""How far parts grow when they are warm."""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np

Number = TypeVar("Number", float, "np.ndarray[tuple[int], np.dtype[np.float64]]")


@dataclass(frozen=True, slots=True)
class Material:
    """Linear expansion of a material: a value, the half width of what is printed for it, where.

    Attributes
    ----------
    expansion
        Mean coefficient near room temperature [1/K].
    spread
        Half width of the range of printed values [1/K].
    source
        Key into docs/sources.md.
    """

    expansion: float
    spread: float
    source: str


MATERIALS: dict[str, Material] = {
    "steel": Material(11.85e-6, 0.35e-6, "UGURAL D.1: 11.7; other texts 12"),
    "cast iron": Material(11.0e-6, 1.1e-6, "UGURAL D.1: grey iron 12.1; range 9.9 to 12.1"),
    "aluminium": Material(23.5e-6, 0.5e-6, "UGURAL D.1: 23 and 24"),
    "bronze": Material(18.5e-6, 1.5e-6, "UGURAL D.1: 17; bronzes 18 to 20"),
    "brass": Material(20.0e-6, 1.0e-6, "property lists: 19.1 to 21.2"),
}
"""Expansion of what old machines are made of; no grade is asked for, so each has a range."""


def length_change(length: Number, expansion: Number, rise: Number) -> Number:
    r"""Growth of a length when it gets warmer.

    .. math:: \Delta L = \alpha\, L\, \Delta T

    Parameters
    ----------
    length
        L, at room temperature [m], shape () or (n,)
    expansion
        alpha, mean coefficient of linear expansion [1/K], shape () or (n,)
    rise
        Delta T, temperature above that at which the length was measured [K], shape () or (n,)

    Returns
    -------
    growth
        Delta L, with the sign of the rise times that of the length [m], shape () or (n,)

    Valid
    -----
    A part of one material and one temperature, free to grow, within about 150 K of room.

    Source
    ------
    [UGURAL] App. D.1 for the coefficients; the law itself is their definition.

    Examples
    --------
    A steel shaft of 200 mm, 15 K warmer:

    >>> length_change(0.200, 12e-6, 15.0) * 1e6
    36.0
    """
    return length * expansion * rise
