"""The chance to close up right with what usually goes wrong, and the checks that catch it.

Each thing that may be wrong has its prior and the share in which the eye finds it. Of those left,
the checks catch a build in which some reading lies outside of all but 1 in 100 of what it should
be: that is mended before the unit is closed. A check that an order reads before something comes
about does not show it, nor does one that cannot be read on the way (`Later`). What slips through
has the chance that the finished unit then has. Two things wrong at once are left out: with a few in
a hundred each they are rare.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from dryfit.ask.expect import as_read
from dryfit.ask.looks import LOOKS, Looks
from dryfit.ask.targets import Target
from dryfit.ask.variants import DOUBLE, HALF, PRIORS, Prior, Variant, scaled
from dryfit.model.rebuild import Check
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import Array, Flags, Luck

OUTSIDE = (0.005, 0.995)
"""A reading beyond these is looked into."""

MOST_TOLD = 3
"""So many of what costs most are told."""

Later = Mapping[str, frozenset[str]]
"""By name of what may be wrong the names of the checks that are read when it has come about."""


Bands = Mapping[Check, tuple[float, float]]
"""By check what all but 1 in 100 readings lie within."""


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
    looks: Looks,
    targets: tuple[Target, ...],
    by_sizes: float,
    priors: Mapping[str, Prior] = PRIORS,
    *,
    later: Later | None = None,
    never: frozenset[str] = frozenset(),
) -> Usual:
    """Say the chance with what usually goes wrong.

    Parameters
    ----------
    looks
        The unit, to be looked at in a few draws too [looks]
    targets
        What is wanted [targets]
    by_sizes
        First-time chance by the sizes alone [-]
    priors
        How often each kind goes wrong [-]
    later
        Which checks are read when each has come about; without, all of them [names]
    never
        What cannot be wrong, by name [names]

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
    bands = {check: _band(looks, check) for check in looks.asking.rebuild.checks.values()}
    base = float(np.mean(_right(looks, targets)))
    every = [one for one in (*looks.variants, *looks.as_made) if one.name not in never]
    looked = [(one, _looked(looks, one, targets, _of(bands, one, later))) for one in every]

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


def _of(bands: Bands, variant: Variant, later: Later | None) -> Bands:
    """Leave out the checks that are read before something comes about, or not at all."""
    if later is None or variant.name not in later:
        return bands
    return {check: band for check, band in bands.items() if check.name in later[variant.name]}


def shown_by(looks: Looks, variant: Variant, check: Check) -> float:
    """Say in which share of units with one thing wrong a check reads outside of its band.

    Parameters
    ----------
    looks
        The unit, to be looked at in a few draws too [looks]
    variant
        What is wrong [variant]
    check
        What is read [check]

    Returns
    -------
    share
        One where nothing stops a part any more: it cannot be read at all [-]

    Valid
    -----
    Checks that can be read with nothing wrong.

    Source
    ------
    Ours.

    Examples
    --------
    See tests/plan/test_risks.py.

    >>> OUTSIDE[1]
    0.995
    """
    low, high = _band(looks, check)
    try:
        shown = _shown(looks, check, variant)
    except NoAnswer:
        return 1.0
    return float(np.mean((shown < low) | (shown > high)))


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
    looks: Looks,
    variant: Variant,
    targets: tuple[Target, ...],
    bands: Bands,
) -> _Looked:
    """Look at units with one thing wrong."""
    try:
        right = _right(looks, targets, variant)
    except NoAnswer:  # nothing stops a part: nobody closes that
        return _Looked(1.0, 0.0, 0.0)
    caught: Flags = np.zeros(LOOKS, dtype=np.bool_)
    for check, (low, high) in bands.items():
        try:
            shown = _shown(looks, check, variant)
        except NoAnswer:
            return _Looked(1.0, float(np.mean(right)), 0.0)
        caught |= (shown < low) | (shown > high)
        if np.all(caught):
            break
    slipped = right[~caught]
    left = float(np.mean(slipped)) if len(slipped) else 0.0
    return _Looked(float(np.mean(caught)), float(np.mean(right)), left)


def _right(looks: Looks, targets: tuple[Target, ...], variant: Variant | None = None) -> Flags:
    """Tell for each draw whether every need is met."""
    right: Flags = np.ones(LOOKS, dtype=np.bool_)
    for target in targets:
        right &= target.holds(looks.drawn(target.need, variant).true)
    return right


def _band(looks: Looks, check: Check) -> tuple[float, float]:
    low, high = (float(q) for q in np.quantile(_shown(looks, check), OUTSIDE))
    return low, high


def _shown(looks: Looks, check: Check, variant: Variant | None = None) -> Array:
    shown = looks.drawn(check, variant).shown
    return as_read(looks.asking.rebuild, Luck(LOOKS), check, shown)
