"""The chance to close up right with what usually goes wrong, and the checks that catch it.

Each thing that may be wrong has its prior and the share in which the eye finds it. Of those left,
the checks catch a build in which some reading lies outside of all but 1 in 100 of what it should
be: that is mended before the unit is closed. What slips through has the chance that the finished
unit then has. Two things wrong at once are left out: with a few in a hundred each they are rare.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.expect import as_read
from dryfit.ask.settings import met
from dryfit.ask.targets import Target
from dryfit.ask.variants import DOUBLE, HALF, PRIORS, Prior, Variant, scaled, variants
from dryfit.model.rebuild import Check
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import Array, Flags

LOOKS = 200
"""Draws with which each thing wrong is looked at."""

OUTSIDE = (0.005, 0.995)
"""A reading beyond these is looked into."""

MOST_TOLD = 3
"""So many of what costs most are told."""


@dataclass(frozen=True, slots=True)
class Slip:
    """One thing that may be wrong, and what it does to the chance.

    Attributes
    ----------
    words
        What to look for.
    chance
        That it happens and no eye finds it [-].
    caught
        Share in which a check catches it [-].
    right
        Chance that the unit is right with it [-].
    costs
        What it takes from the chance [-].
    """

    words: str
    chance: float
    caught: float
    right: float
    costs: float


@dataclass(frozen=True, slots=True)
class Usual:
    """The second figure.

    Attributes
    ----------
    chance, half, double
        With the table of priors, and with half and double of each [-].
    unchecked
        If no check were read before it is closed [-].
    slips
        What costs most, the dearest first.
    """

    chance: float
    half: float
    double: float
    unchecked: float
    slips: tuple[Slip, ...]


def with_the_usual(
    asking: Asking,
    targets: tuple[Target, ...],
    packs: Packs,
    by_sizes: float,
    priors: Mapping[str, Prior] = PRIORS,
) -> Usual:
    """Say the chance with what usually goes wrong.

    Parameters
    ----------
    asking
        The unit [asking]
    targets
        What is wanted [targets]
    packs
        Thickness of each setting, one value or one a draw, of which the first `LOOKS` count [m]
    by_sizes
        First-time chance by the sizes alone [-]
    priors
        How often each kind goes wrong [-]

    Returns
    -------
    usual
        The chance, with half and double the priors too [chances]

    Valid
    -----
    Units whose needs can be told.

    Source
    ------
    Estimates: see `priors`. First order in the priors.

    Examples
    --------
    See tests/ask/test_usual.py.

    >>> OUTSIDE[0] + OUTSIDE[1]
    1.0
    """
    few = Asking(asking.rebuild, LOOKS)
    packs = {p: t[:LOOKS] if isinstance(t, np.ndarray) else t for p, t in packs.items()}
    bands = {name: _band(few, check, packs) for name, check in asking.rebuild.checks.items()}
    base = float(np.mean(met(few, targets, packs)))
    looked = [
        (variant, _looked(few, variant, targets, packs, bands))
        for variant in variants(few)
        if not variant.reading
    ]

    def chance(table: Mapping[str, Prior]) -> float:
        lost = sum(_slips(v, table) * _lost(base, seen) for v, seen in looked)
        return max(by_sizes - lost, 0.0)

    blind = sum(_slips(v, priors) * max(base - seen.right, 0.0) for v, seen in looked)
    slips = [_slip(v, _slips(v, priors), seen, _lost(base, seen)) for v, seen in looked]
    dearest = sorted(slips, key=lambda slip: -slip.costs)[:MOST_TOLD]
    return Usual(
        chance(priors),
        chance(scaled(priors, HALF)),
        chance(scaled(priors, DOUBLE)),
        max(by_sizes - blind, 0.0),
        tuple(slip for slip in dearest if slip.costs > 0),
    )


@dataclass(frozen=True, slots=True)
class _Looked:
    """Of units with one thing wrong: shares caught by a check, right, and right of those left."""

    caught: float
    right: float
    slipped: float


def _lost(base: float, seen: _Looked) -> float:
    """Say what a thing wrong takes from the chance where the checks are read."""
    return (1 - seen.caught) * max(base - seen.slipped, 0.0)


def _slip(variant: Variant, likely: float, seen: _Looked, lost: float) -> Slip:
    return Slip(variant.words, likely, seen.caught, seen.slipped, likely * lost)


def _slips(variant: Variant, priors: Mapping[str, Prior]) -> float:
    """Say how likely it happens and no eye finds it."""
    prior = priors[variant.kind]
    return prior.chance * (1 - prior.seen)


def _looked(
    few: Asking,
    variant: Variant,
    targets: tuple[Target, ...],
    packs: Packs,
    bands: Mapping[str, tuple[float, float]],
) -> _Looked:
    """Look at units with one thing wrong."""
    wrong = variant.asking(few)
    try:
        right = met(wrong, targets, packs)
    except NoAnswer:  # nothing stops a part: nobody closes that
        return _Looked(1.0, 0.0, 0.0)
    caught: Flags = np.zeros(few.count, dtype=np.bool_)
    for name, check in few.rebuild.checks.items():
        try:
            shown = _shown(wrong, check, packs)
        except NoAnswer:
            return _Looked(1.0, float(np.mean(right)), 0.0)
        low, high = bands[name]
        caught |= (shown < low) | (shown > high)
        if np.all(caught):
            break
    slipped = right[~caught]
    left = float(np.mean(slipped)) if len(slipped) else 0.0
    return _Looked(float(np.mean(caught)), float(np.mean(right)), left)


def _band(few: Asking, check: Check, packs: Packs) -> tuple[float, float]:
    low, high = (float(q) for q in np.quantile(_shown(few, check, packs), OUTSIDE))
    return low, high


def _shown(asking: Asking, check: Check, packs: Packs) -> Array:
    return as_read(asking, check, asking.true(check, packs).shown)
