"""True units of which some have something wrong, and gauges that are worse than they are told.

Of a share of the units one thing is wrong that no eye found before the checks are read; which, the
table of priors says. Units alike in what is wrong make up a lot, each lot with a seed of its own.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np

from dryfit.ask.variants import PRIORS, Asking, Prior, Variant, scaled, variants
from dryfit.bench.readings import true_units
from dryfit.model.rebuild import Rebuild
from dryfit.solve.luck import Array, Luck

LOTS_APART = 10_007
"""Seeds of lots are so far from each other."""


@dataclass(frozen=True)
class WorseGauges(Luck):
    """Draws in which the error that all readings of an instrument share is larger than told.

    Attributes
    ----------
    times
        How many times as large [-].
    """

    times: float = 1.0

    def flat(self, *key: str) -> Array:
        """Draw as `Luck` does, but for what readings share."""
        drawn = super().flat(*key)
        return self.times * drawn if key[0] == "instruments" else drawn


@dataclass(frozen=True)
class Lot:
    """True units alike in what is wrong with them.

    Attributes
    ----------
    wrong
        The one thing wrong; None where all is right.
    meant
        The units with that put right, as they were meant to be.
    units
        The units as they stand.
    """

    wrong: Variant | None
    meant: Asking
    units: Asking


def priors_with(
    rebuild: Rebuild, share: float, as_made: tuple[Variant, ...] = ()
) -> dict[str, Prior]:
    """Scale the table of priors so that a share of units has something wrong that no eye found.

    Parameters
    ----------
    rebuild
        The unit, in which some things can go wrong [rebuild]
    share
        Of the units [-]
    as_made
        What may be wrong with how its settings are made besides [variants]

    Returns
    -------
    priors
        By kind of mistake, all as many times as likely [-]

    Valid
    -----
    Shares with which no kind comes to be certain.

    Source
    ------
    Estimates, see `ask.priors`. First order: no two things at once.

    Examples
    --------
    See tests/bench/test_wrong_units.py.

    >>> priors_with(Rebuild("mm"), 0.0)["burr"].chance
    0.0
    """
    total = sum(_slips(PRIORS, each) for each in _wrongs(rebuild, as_made))
    return scaled(PRIORS, share / total if share else 0.0)


def lots(
    rebuild: Rebuild,
    luck: Luck,
    priors: Mapping[str, Prior],
    as_made: tuple[Variant, ...] = (),
) -> Iterator[Lot]:
    """Draw true units, and for each which thing is wrong with it, if any.

    Parameters
    ----------
    rebuild
        The document around which they are drawn [rebuild]
    luck
        How many units, and their seed [draws]
    priors
        How often each kind goes wrong [-]
    as_made
        What may be wrong with how settings are made besides [variants]

    Returns
    -------
    lots
        One for each thing that is wrong with some unit, and first that of nothing [lots]

    Valid
    -----
    Priors that add up to one at most over all that can go wrong, less what the eye finds.

    Source
    ------
    Estimates, see `ask.priors`.

    Examples
    --------
    See tests/bench/test_wrong_units.py.

    >>> [lot.units.count for lot in lots(Rebuild("mm"), Luck(5, 1), PRIORS)]
    [5]
    """
    wrongs = _wrongs(rebuild, as_made)
    likely = [_slips(priors, wrong) for wrong in wrongs]
    drawn = np.random.default_rng(luck.seed)
    counts = drawn.multinomial(luck.count, [1.0 - sum(likely), *likely])
    for number, (wrong, count) in enumerate(zip((None, *wrongs), counts, strict=True)):
        if count:
            own = replace(luck, count=int(count), seed=luck.seed + LOTS_APART * number)
            meant = true_units(rebuild, own)
            yield Lot(wrong, meant, wrong.asking(meant) if wrong else meant)


def _wrongs(rebuild: Rebuild, as_made: tuple[Variant, ...]) -> tuple[Variant, ...]:
    """List what may be wrong with the unit itself, not with how it is read."""
    of_parts = (each for each in variants(Asking(rebuild, 1)) if not each.reading)
    return (*of_parts, *as_made)


def _slips(priors: Mapping[str, Prior], wrong: Variant) -> float:
    """Say how likely it happens and no eye finds it."""
    prior = priors[wrong.kind]
    return prior.chance * (1 - prior.seen)
