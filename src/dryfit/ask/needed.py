"""How the finished unit stands to what is wanted of it: each need's true value and its chance."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.slopes import Slope, lacking
from dryfit.ask.targets import Target, named, travel
from dryfit.model.rebuild import LashNeed, PreloadNeed
from dryfit.quantities import PreloadRange
from dryfit.solve.luck import Array
from dryfit.solve.preloads import NIPPED
from dryfit.solve.recommended import preload_word

BAND = (0.05, 0.95)


@dataclass(frozen=True, slots=True)
class Force:
    """A force and the band that holds nine of ten [N]."""

    typed: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Needed:
    """One need of the finished unit.

    Attributes
    ----------
    target
        What is wanted.
    typed, low, high
        Its true value as typed, and the band that holds nine of ten, in its own unit; None where a
        size is not known.
    chance
        That it is met, by the sizes [-].
    words
        Preload in words, least and heaviest of the band; empty where rows are not rated.
    force
        With which rows are pressed together, where any are and it is a preload or a hard nip.
    strain
        The same over what a row bears without harm [-]; more than one is refused.
    lacking
        Sizes not known.
    """

    target: Target
    typed: float | None = None
    low: float | None = None
    high: float | None = None
    chance: float | None = None
    words: tuple[str, str] | None = None
    force: Force | None = None
    strain: float = 0.0
    lacking: tuple[Slope, ...] = ()


def needed(asking: Asking, targets: tuple[Target, ...], packs: Packs) -> tuple[Needed, ...]:
    """Say how each need stands with these packs.

    Parameters
    ----------
    asking
        The unit [asking]
    targets
        What is wanted [targets]
    packs
        Thickness of each setting [m]

    Returns
    -------
    needed
        One for each target [needs]

    Valid
    -----
    Any unit.

    Source
    ------
    `solve.predict`; words of `solve.recommended`.

    Examples
    --------
    See tests/ask/test_needed.py.

    >>> from dryfit.model.rebuild import Rebuild
    >>> needed(Asking(Rebuild("mm")), (), {})
    ()
    """
    return tuple(_one(asking, target, packs) for target in targets)


def _one(asking: Asking, target: Target, packs: Packs) -> Needed:
    missing = lacking(asking, target.need, packs)
    if missing:
        return Needed(target, lacking=missing)
    true = asking.true(target.need, packs).true
    typed = asking.typed(target.need, packs)
    found = Needed(target, typed, *_band(true), float(np.mean(target.holds(true))))
    return found if isinstance(target.need, LashNeed) else _pressed(asking, found, packs)


def _pressed(asking: Asking, found: Needed, packs: Packs) -> Needed:
    """Add words and force where rows are pressed together."""
    need: Any = found.target.need
    of, state = named(need), need.state
    shares = PreloadNeed(
        need.name, "preload", state, of=of, want=PreloadRange("", ("none", "none"))
    )
    told = asking.as_typed(shares, packs)
    if not told.gives or (
        not isinstance(need, PreloadNeed) and _nip(found, asking, packs) < NIPPED
    ):
        return found
    share = asking.true(shares, packs)
    force = Force(float(told.shown[0]), *_band(share.shown))
    strain = asking.typed(PreloadNeed(need.name, "preload", state, of=of), packs)
    rated = not np.isnan(share.true).any()
    low, high = _band(share.true)
    words = (preload_word(low), preload_word(high)) if rated else None
    return Needed(
        found.target, found.typed, found.low, found.high, found.chance, words, force, strain
    )


def _nip(found: Needed, asking: Asking, packs: Packs) -> float:
    """Say how far the rows are nipped [m]."""
    return -asking.typed(travel(found.target.need), packs)


def _band(values: Array) -> tuple[float, float]:
    low, high = (float(q) for q in np.quantile(values, BAND))
    return low, high
