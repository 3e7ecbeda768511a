"""All true sizes of a rebuild, drawn once and asked by every state and every check."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from math import sqrt
from typing import Any, TypeVar

import numpy as np

from dryfit.mechanics.instruments import limit_at
from dryfit.model.parts import Gasket
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import NotKnown, Size
from dryfit.solve.luck import Array, Draws, Joined, Luck
from dryfit.solve.rings import owner
from dryfit.solve.sizes import Gauge, gauge, metres, true_size
from dryfit.solve.spots import Layout

T = TypeVar("T")

LayoutKey = tuple[str, str, tuple[tuple[str, float], ...]]

KEPT, FEWEST = 400_000, 8
"""Draws of lines at rest that are remembered, together, and the fewest lines; each draw holds some
hundred bytes."""

NIP_LEAST, NIP_MOST = 0.80, 0.95
"""Share of its free thickness that a gasket keeps when nipped: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Sample:
    """True sizes, one value a draw.

    Attributes
    ----------
    draws
        Where all errors come from.
    sizes
        By key among the rebuild's sizes [m]; what is not known is absent.
    nipped
        Thickness of each gasket when nipped, by part [m]; absent where not known.
    doubts
        Standard uncertainty by key of a size [m].
    layouts
        Where the spots of parts lie, kept once worked out, by part, line and what was assumed.
    others
        What else was worked out once and hangs on no size between spots, by what it is.
    stills
        Lines at rest, the latest few, by line and by what is fitted and how warm.
    """

    draws: Draws
    sizes: Mapping[str, Array]
    nipped: Mapping[str, Array]
    doubts: Mapping[str, float]
    layouts: dict[LayoutKey, Layout] = field(init=False, default_factory=dict, compare=False)
    others: dict[tuple[str, ...], Any] = field(init=False, default_factory=dict, compare=False)
    stills: dict[tuple[str, ...], Any] = field(init=False, default_factory=dict, compare=False)

    def kept(self, key: tuple[str, ...], make: Callable[[], T]) -> T:
        """Work something out once."""
        if key not in self.others:
            self.others[key] = make()
        found: T = self.others[key]
        return found

    def latest(self, key: tuple[str, ...], make: Callable[[], T]) -> T:
        """Work a line at rest out, unless it is among the latest."""
        if key not in self.stills:
            self.stills[key] = make()
        found: T = self.stills.pop(key)
        self.stills[key] = found
        for old in [*self.stills][: -max(FEWEST, KEPT // self.draws.count)]:
            del self.stills[old]
        return found

    def with_size(self, rebuild: Rebuild, key: str, values: Array) -> "Sample":
        """Give the same sample with one size changed; other parts stay where they were."""
        other = replace(self, sizes={**self.sizes, key: values})
        part = rebuild.sizes[key].start.part
        other.others.update(self.others)
        other.layouts.update({k: v for k, v in self.layouts.items() if k[0] != part})
        return other

    def without(self, *parts: str, draws: Draws | None = None) -> "Sample":
        """Give the same sizes, with nothing kept of some parts, which have become others."""
        other = replace(self, draws=draws or self.draws)
        gone = {*parts}
        other.others.update({k: v for k, v in self.others.items() if not gone & {*k}})
        other.layouts.update({k: v for k, v in self.layouts.items() if owner(k[0]) not in gone})
        return other

    def beside(self, times: int) -> "Sample":
        """Give the same draws so many times, one lot after another."""
        sizes, nipped = (
            {key: np.tile(values, times) for key, values in group.items()}
            for group in (self.sizes, self.nipped)
        )
        draws = Joined((self.draws,) * times)
        return replace(self, draws=draws, sizes=sizes, nipped=nipped)

    def first(self, luck: Luck) -> "Sample":
        """Give the first draws only, as the same luck with fewer of them draws them."""
        sizes, nipped = (
            {key: values[: luck.count] for key, values in group.items()}
            for group in (self.sizes, self.nipped)
        )
        return replace(self, draws=luck, sizes=sizes, nipped=nipped)


def sample(rebuild: Rebuild, draws: Draws) -> Sample:
    """Draw all sizes of a rebuild.

    Parameters
    ----------
    rebuild
        The unit; every instrument it names is known [rebuild]
    draws
        Where the errors come from; `NoLuck` gives the nominal sizes [draws]

    Returns
    -------
    sample
        True sizes [m], shape (n,) each

    Valid
    -----
    Sizes whose instrument is known; others are left out as if not measured.

    Source
    ------
    As `true_size`; gasket by common practice.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> dict(sample(Rebuild("mm"), NoLuck()).sizes)
    {}
    """
    sizes: dict[str, Array] = {}
    doubts: dict[str, float] = {}
    for key, between in rebuild.sizes.items():
        by = isinstance(between.size, Size) and gauge(rebuild, between.size.instrument)
        if isinstance(between.size, Size) and by:
            sizes[key] = true_size(draws, between.place_words, between.size, by)
            doubts[key] = doubt(between.size, by)
    gaskets = {p.name: p for p in rebuild.parts.values() if isinstance(p, Gasket)}
    nipped = {name: _nipped(rebuild, draws, part) for name, part in gaskets.items()}
    return Sample(draws, sizes, {n: t for n, t in nipped.items() if t is not None}, doubts)


def _nipped(rebuild: Rebuild, draws: Draws, part: Gasket) -> Array | None:
    """Draw the thickness of a gasket under its cover."""
    for which, size in (("nipped", part.nipped), ("free", part.free)):
        if size is None or isinstance(size, NotKnown):
            continue
        by = gauge(rebuild, size.instrument)
        if by is None:
            continue
        key = ("parts", part.name, which)
        value = true_size(draws, key, size, by)
        if which == "nipped":
            return value
        half = (NIP_MOST - NIP_LEAST) / 2
        return value * (NIP_LEAST + half + half * draws.flat(*key, "nip"))
    return None


def doubt(size: Size, by: Gauge) -> float:
    """Standard uncertainty of one typed size.

    Parameters
    ----------
    size
        What was typed [size]
    by
        The instrument it was read by [gauge]

    Returns
    -------
    uncertainty
        One standard deviation [m]

    Valid
    -----
    As `true_size`.

    Source
    ------
    [GUM] 4.3.7, 6.3.

    Examples
    --------
    >>> from dryfit.quantities import read_size
    >>> doubt(read_size("12.34 +/- 0.02", "mm"), gauge(Rebuild("mm"), None)) * 1e3
    0.01
    """
    if size.plus is not None and size.minus is not None:
        return float((size.plus + size.minus) / 4000)
    limit = limit_at(by.instrument, metres(size))
    step = float(size.step / 2000) if size.step else 0.0
    coarse = step if step > 0.505 * by.instrument.resolution else 0.0
    return sqrt((limit**2 + coarse**2) / 3)


def split_doubt(size: Size, by: Gauge) -> tuple[float, float]:
    """Split the doubt of one typed size into its own part and what the instrument puts into all.

    Parameters
    ----------
    size
        What was typed [size]
    by
        The instrument it was read by [gauge]

    Returns
    -------
    own, shared
        One standard deviation each; what is typed behind +/- is a size's own [m]

    Valid
    -----
    As `true_size`.

    Source
    ------
    [GUM] 4.3.7.

    Examples
    --------
    >>> from dryfit.quantities import read_size
    >>> own, shared = split_doubt(read_size("0.11", "mm"), gauge(Rebuild("mm"), "dial indicator"))
    >>> round((own**2 + shared**2) ** 0.5 * 1e6, 2), round(shared * 1e6, 2)
    (5.77, 1.73)
    """
    whole = doubt(size, by)
    if size.plus is not None:
        return whole, 0.0
    shared = by.instrument.shared * limit_at(by.instrument, metres(size)) / sqrt(3)
    return sqrt(whole**2 - shared**2), shared
