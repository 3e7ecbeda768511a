"""Thicknesses of several packs at once that meet what is wanted, if every size is as typed."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.slopes import pack_slopes
from dryfit.ask.targets import Target, travel
from dryfit.model.rebuild import PreloadNeed

ROUNDS = 12
NEAR = 0.02e-6
"""Packs that change by less are found [m]."""

LONGEST = 1e-3
"""A pack between parts that give changes by no more in one round [m]."""

USUAL = 0.3e-3
"""Thickness to begin from where nothing is fitted: estimate [m]."""


def ideals(
    asking: Asking, targets: Sequence[Target], parts: Sequence[str], packs: Packs
) -> dict[str, float]:
    """Find the thicknesses that come nearest to all aims, weighed by how wide each want is.

    Where more packs move the wants than there are wants, they change as little as they can: packs
    on both sides of a wheel keep their total.

    Parameters
    ----------
    asking
        The unit [asking]
    targets
        What is wanted [targets]
    parts
        Settings to be found [text]
    packs
        Thickness of the others, and where known of these to begin from [m]

    Returns
    -------
    thickness
        By setting; below nothing where no pack can do it [m]

    Valid
    -----
    Needs that follow the packs without a turn; where it touches or parts it has a kink, which is
    passed.

    Source
    ------
    Gauss and Newton's method with the least step: Nocedal and Wright, Numerical Optimization, 2nd
    ed., 10.3 (from memory).

    Examples
    --------
    See tests/ask/test_together.py.

    >>> NEAR < USUAL < LONGEST
    True
    """
    fitted = asking.rebuild.settings
    found = {p: float(packs.get(p, 0.0)) for p in parts}
    for part in parts:
        if part not in packs and fitted[part].fitted is None:
            found[part] = USUAL
        elif part not in packs:
            found[part] = float(asking.with_fitted(packs)[part])
    gives = any(asking.as_typed(t.need, {**packs, **found}).gives for t in targets)
    longest = LONGEST if gives else np.inf
    for _ in range(ROUNDS):
        here = {**packs, **found}
        now = [_brought_near(asking, target, here) for target in targets]
        weights = np.array([1 / _width(target) for target in now])
        told = [pack_slopes(asking, t.need, here, parts) for t in now]
        off = np.array([t.aim - x for t, (x, _) in zip(now, told, strict=True)]) * weights
        slopes = np.array([rates for _, rates in told])
        step = np.linalg.lstsq(slopes * weights[:, None], off, rcond=1e-6)[0]
        step = np.clip(step, -longest, longest)
        found = {part: found[part] + float(d) for part, d in zip(parts, step, strict=True)}
        if np.max(np.abs(step)) < NEAR:
            break
    return found


TOUCHING = 2e-6
"""Rows nipped by so much carry something, from which their preload can be found [m]."""


def _brought_near(asking: Asking, target: Target, packs: Packs) -> Target:
    """Where rows do not touch there is no preload to go by: bring them together first."""
    if not isinstance(target.need, PreloadNeed) or asking.typed(target.need, packs) > 0:
        return target
    return replace(target, need=travel(target.need), low=-2 * TOUCHING, high=0.0)


def _width(target: Target) -> float:
    """Say how wide a want is, in its own unit."""
    if target.low is not None and target.high is not None:
        return max(target.high - target.low, 1e-9)
    return max(abs(target.aim), 1e-9)
