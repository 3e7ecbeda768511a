"""Which size to measure better: what share of the doubt goes, and what the chance becomes.

The share is that of the variance of the float which a better reading of one size removes,
from the draws already there:

    R = Var(E[float | size + u e]) / Var(float),    e of unit deviation, u the better reading's

Shares do not add up to one where sizes lean together (one caliper), and are not meant to.
"""

from dataclasses import dataclass, replace

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.settings import chance, choose
from dryfit.ask.slopes import slopes
from dryfit.ask.targets import Target
from dryfit.quantities import Size
from dryfit.solve.luck import Array, Luck
from dryfit.solve.sample import doubt
from dryfit.solve.sizes import Gauge, gauge, true_size

WORTH_SAYING = 0.05
"""Shares of the doubt below this are not worth an act."""

MOST_SAID = 5
"""So many sizes at most are told."""


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


def worth(
    asking: Asking, targets: tuple[Target, ...], packs: Packs, part: str | None = None
) -> tuple[Worth, ...]:
    """List the sizes worth measuring better, most gained first; `part` is chosen anew each time."""
    shares: dict[str, tuple[float, _Better]] = {}
    for target in targets:
        values = asking.true(target.need, packs).true
        for slope in slopes(asking, target.need, packs):
            better = _better(asking, slope.key)
            if better is None or slope.key in shares:
                continue
            share = _share(asking, slope.key, better, values)
            if share >= WORTH_SAYING:
                shares[slope.key] = (share, better)
    most = sorted(shares.items(), key=lambda item: -item[1][0])[:MOST_SAID]
    found = [_worth(asking, targets, packs, key, by, share, part) for key, (share, by) in most]
    return tuple(sorted(found, key=lambda w: (-round(w.chance, 2), -w.share)))


@dataclass(frozen=True, slots=True)
class _Better:
    """A size as the next better instrument would read it."""

    size: Size
    now: str
    by: Gauge


def _better(asking: Asking, key: str) -> _Better | None:
    """Read a size by the next better instrument; None if that gains nothing."""
    rebuild = asking.rebuild
    size = rebuild.sizes[key].size if key in rebuild.sizes else None
    by = gauge(rebuild, size.instrument) if isinstance(size, Size) else None
    if not isinstance(size, Size) or by is None or not by.instrument.better:
        return None
    again = replace(size, instrument=by.instrument.better, plus=None, minus=None, step=None)
    other = gauge(rebuild, again.instrument)
    if other is None or doubt(again, other) > 0.9 * doubt(size, by):
        return None
    return _Better(again, by.name, other)


def _share(asking: Asking, key: str, better: _Better, values: Array) -> float:
    """Share of the doubt that goes."""
    noise = Luck(asking.count).normal("worth", key)
    left = doubt(better.size, better.by)
    return share_removed(values, asking.drawn.sizes[key], left, noise)


def _worth(
    asking: Asking,
    targets: tuple[Target, ...],
    packs: Packs,
    key: str,
    better: _Better,
    share: float,
    part: str | None,
) -> Worth:
    """Ask what the chance becomes with one better reading."""
    again = true_size(asking.drawn.draws, ("sizes", key), better.size, better.by)
    other = replace(asking, sampled=asking.drawn.with_size(asking.rebuild, key, again))
    choice = choose(other, targets, part, packs) if part else None
    likely = choice.chance if choice else chance(other, targets, packs)
    return Worth(key, better.now, better.by.name, share, likely)


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
