"""Several lines in one case: what of one stops what of another, side by side or at right angles.

Exact for what is round and solid outside; of hollow bodies at right angles more is told to stop
than does, since each is taken as full within its outside there.
"""

from collections.abc import Collection
from typing import Any

import numpy as np

from dryfit.plan.bodies import NIP, SAME
from dryfit.plan.nest import Nest

Stops = dict[tuple[str, str], frozenset[str]]
"""By body and way, the bodies of the other line that stop it."""

Pairs = Collection[tuple[str, str]]


def beside(mover: Nest, other: Nest, apart: float, *, meshing: Pairs = ()) -> Stops:
    """Say what stops the bodies of one line going along it, of another line parallel to it.

    Parameters
    ----------
    mover, other
        The lines, counted from the same face.
    apart
        Distance of their axes [mm].
    meshing
        Pairs of bodies with straight teeth in mesh: they slide along each other.
    """
    a, b = mover.cells, other.cells
    reach = a.outer.max(axis=1)[:, None] + b.outer.max(axis=1)[None, :]
    near = reach > apart + SAME
    inside = b.inner.min(axis=1)[None, :] >= apart + a.outer.max(axis=1)[:, None] - SAME
    inside |= a.inner.min(axis=1)[:, None] >= apart + b.outer.max(axis=1)[None, :] - SAME
    met = near & ~inside
    ahead = met & (b.last[None, :] > a.first[:, None] + NIP)
    back = met & (b.first[None, :] < a.last[:, None] - NIP)
    return _named(mover, other, (ahead, back), meshing)


def across(mover: Nest, other: Nest, crossing: tuple[float, float], *, apart: float = 0.0) -> Stops:
    """Say what stops the bodies of one line going along it, of another at right angles to it.

    Parameters
    ----------
    mover, other
        The lines, each counted from a face of its own.
    crossing
        Where they cross or pass, on the mover's line and on the other's [mm].
    apart
        How far one passes beside the other [mm].
    """
    a, b = mover.cells, other.cells
    on_mover, on_other = crossing
    reach, across_ = a.outer.max(axis=1)[:, None], b.outer.max(axis=1)[None, :]
    low, high = (b.first - on_other)[None, :], (b.last - on_other)[None, :]
    beyond = np.maximum(np.maximum(low, -high), 0.0)
    met = np.minimum(high, reach) - np.maximum(low, -reach) > SAME
    gap = apart - np.sqrt(np.maximum(reach**2 - beyond**2, 0.0))
    met &= across_ - gap > SAME
    hollow = a.inner.min(axis=1)[:, None]
    met &= ~(
        (np.maximum(np.abs(low), np.abs(high)) <= hollow + SAME)
        & (apart + across_ <= hollow + SAME)
    )
    wide = np.sqrt(np.maximum(across_**2 - np.maximum(gap, 0.0) ** 2, 0.0))
    ahead = met & (on_mover + wide > a.first[:, None] + NIP)
    back = met & (on_mover - wide < a.last[:, None] - NIP)
    return _named(mover, other, (ahead, back), ())


def _named(mover: Nest, other: Nest, stops: tuple[Any, Any], meshing: Pairs) -> Stops:
    """Name who stops whom each way; a body does not stop itself, nor does its mate in mesh."""
    mates = {frozenset(pair) for pair in meshing}
    found: Stops = {}
    for way, met in zip(mover.ways, stops, strict=True):
        for number, body in enumerate(mover.bodies):
            hit = other.cells.body[met[mover.cells.body == number].any(axis=0)]
            names = {other.bodies[int(n)].name for n in np.unique(hit)}
            names = {n for n in names - {body.name} if frozenset((n, body.name)) not in mates}
            if names:
                found[body.name, way] = frozenset(names)
    return found
