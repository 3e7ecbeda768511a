"""Which size to measure better: what share of the doubt goes, and what the chance becomes.

The share is that of the variance of the float which a better reading of one size removes,
from the draws already there:

    R = Var(E[float | size + u e]) / Var(float),    e of unit deviation, u the better reading's

Shares do not add up to one where sizes lean together (one caliper), and are not meant to.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.settings import chance
from dryfit.ask.slopes import slopes
from dryfit.ask.targets import Target
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Size
from dryfit.solve.luck import Array, Luck
from dryfit.solve.sample import doubt
from dryfit.solve.sizes import gauge

WORTH_SAYING = 0.05
"""Shares of the doubt below this are not worth an act."""


@dataclass(frozen=True, slots=True)
class Worth:
    """What it is worth to measure one size again.

    Attributes
    ----------
    key
        The size.
    now, better
        The instrument it was read by and the next better one.
    share
        Share of the doubt in the float that goes [-].
    chance
        First-time chance afterwards, if it reads the same [-].
    """

    key: str
    now: str
    better: str
    share: float
    chance: float


def worth(asking: Asking, targets: tuple[Target, ...], packs: Packs) -> tuple[Worth, ...]:
    """List the sizes worth measuring better, most gained first."""
    found: dict[str, Worth] = {}
    for target in targets:
        values = asking.true(target.need, packs).true
        for slope in slopes(asking, target.need, packs):
            size = _size(asking.rebuild, slope.key)
            if size is None or slope.key in found:
                continue
            better = _better(asking, size)
            if better is not None:
                found[slope.key] = _worth(asking, targets, packs, slope.key, size, better, values)
    said = [w for w in found.values() if w.share >= WORTH_SAYING]
    return tuple(sorted(said, key=lambda w: (-round(w.chance, 2), -w.share)))


def _size(rebuild: Rebuild, key: str) -> Size | None:
    size = rebuild.sizes[key].size if key in rebuild.sizes else None
    return size if isinstance(size, Size) else None


def _better(asking: Asking, size: Size) -> Size | None:
    """Give the size as the next better instrument would read it; None if that gains nothing."""
    by = gauge(asking.rebuild, size.instrument)
    if by is None or not by.instrument.better:
        return None
    again = replace(size, instrument=by.instrument.better, plus=None, minus=None, step=None)
    other = gauge(asking.rebuild, again.instrument)
    gains = other is not None and doubt(again, other) < 0.9 * doubt(size, by)
    return again if gains else None


def _worth(
    asking: Asking,
    targets: Iterable[Target],
    packs: Packs,
    key: str,
    size: Size,
    better: Size,
    values: Array,
) -> Worth:
    """Ask what one better reading brings."""
    by, other = gauge(asking.rebuild, size.instrument), gauge(asking.rebuild, better.instrument)
    left = doubt(better, other) if other else 0.0
    sizes = {**asking.rebuild.sizes, key: replace(asking.rebuild.sizes[key], size=better)}
    again = replace(asking, rebuild=replace(asking.rebuild, sizes=sizes))
    draws = Luck(asking.count)
    share = share_removed(values, asking.drawn.sizes[key], left, draws.normal("worth", key))
    return Worth(
        key,
        by.name if by else "",
        better.instrument or "",
        share,
        chance(again, targets, packs),
    )


def share_removed(values: Array, size: Array, left: float, noise: Array) -> float:
    """Share of the variance of `values` that goes when `size` is read with deviation `left`.

    Variance of the means of `values` in bins of equal count of the noisy size, the noise of the
    means themselves taken off: about the cube root of the count of bins.
    """
    whole = float(values.var())
    if whole == 0.0:
        return 0.0
    bins = max(8, round(len(values) ** (1 / 3)))
    order = np.argsort(size + left * noise, kind="stable")
    groups = np.array_split(values[order], bins)
    means = np.array([g.mean() for g in groups])
    noise_of_means = float(np.mean([g.var(ddof=1) / len(g) for g in groups])) * (1 - 1 / bins)
    return float(max(0.0, float(means.var()) - noise_of_means) / whole)
