"""What an instrument shows of true units, and how often a band of drawn ones holds it.

Each unit has draws of its own for its band, so that nothing is shared between units. With 199 of
them the 10th and the 190th value hold a further draw of the same sort in exactly 180 of 200 cases,
whatever its distribution.
"""

import numpy as np

from dryfit.ask.variants import Asking, Packs
from dryfit.model.rebuild import Check, Rebuild
from dryfit.solve.luck import Array, Luck
from dryfit.solve.sample import sample
from dryfit.solve.sizes import gauge, reading_error

DRAWN, LOW, HIGH = 199, 10, 190
"""Draws of a band, and which of them in order are its ends, counted from 1."""

AT_ONCE = 20_000
"""Draws worked out together, for the sake of memory."""

SEEDS_APART = 1_000_003
"""Seeds of bands are so far from those of true units."""


def true_units(rebuild: Rebuild, luck: Luck) -> Asking:
    """Draw true units around a document, to be asked what they are.

    Parameters
    ----------
    rebuild
        The document [rebuild]
    luck
        How many units, and their seed [draws]

    Returns
    -------
    units
        One a draw [asking]

    Valid
    -----
    Documents that can be answered.

    Source
    ------
    As `solve.sample`.

    Examples
    --------
    >>> true_units(Rebuild("mm"), Luck(3, 1)).drawn.draws
    Luck(count=3, seed=1)
    """
    return Asking(rebuild, luck.count, sampled=sample(rebuild, luck))


def readings(units: Asking, check: Check, packs: Packs, *, by: str) -> Array:
    """Read a check on true units.

    Parameters
    ----------
    units
        True units [asking]
    check
        What is read [check]
    packs
        Thickness of each setting, as meant; one value, or one a unit [m]
    by
        Instrument that reads, where the check names none [text]

    Returns
    -------
    readings
        With the instrument's error, before rounding; never less than nothing [m] or [N], shape (n,)

    Valid
    -----
    Checks that can be answered.

    Source
    ------
    As `solve.predict` and `solve.sizes`.

    Examples
    --------
    See tests/bench/test_readings.py.

    >>> DRAWN + 1
    200
    """
    shown = units.true(check, packs).shown
    known = gauge(units.rebuild, check.by or by)
    if known is None:
        return shown
    about = float(np.median(shown))
    error = reading_error(units.drawn.draws, ("checks", check.name), known, about)
    found: Array = np.maximum(shown + error, 0.0)
    return found


def bands(
    rebuild: Rebuild,
    check: Check,
    packs: Packs,
    *,
    by: str,
    units: int,
    seed: int,
) -> tuple[Array, Array]:
    """Draw for each unit a band of its own, in which nine readings of ten should lie.

    Parameters
    ----------
    rebuild
        The document [rebuild]
    check
        What is read [check]
    packs
        Thickness of each setting, as meant [m]
    by
        Instrument that reads, where the check names none [text]
    units, seed
        How many, and which draws [-]

    Returns
    -------
    low, high
        The ends of each band [m] or [N], shape (units,)

    Valid
    -----
    Checks that can be answered.

    Source
    ------
    Order statistics: David and Nagaraja, Order Statistics, 3rd ed., 2003, 7.2 (from memory).

    Examples
    --------
    See tests/bench/test_readings.py.

    >>> (HIGH - LOW) / (DRAWN + 1)
    0.9
    """
    each = max(AT_ONCE // DRAWN, 1)
    low, high = [], []
    for first in range(0, units, each):
        count = min(each, units - first)
        luck = Luck(count * DRAWN, SEEDS_APART * (seed + 1) + first)
        shown = readings(true_units(rebuild, luck), check, packs, by=by)
        drawn = np.sort(shown.reshape(count, DRAWN), axis=1)
        low.append(drawn[:, LOW - 1])
        high.append(drawn[:, HIGH - 1])
    return np.concatenate(low), np.concatenate(high)


def held(shown: Array, band: tuple[Array, Array], *, step: float = 0.0) -> float:
    """Say which share of readings their bands hold.

    Parameters
    ----------
    shown
        One reading a unit [m] or [N], shape (units,)
    band
        Ends of each unit's band [m] or [N], shape (units,)
    step
        To which the reading is rounded; the band then is a step wider [m] or [N]

    Returns
    -------
    share
        Between nothing and one [-]

    Valid
    -----
    Any readings.

    Source
    ------
    None needed.

    Examples
    --------
    >>> held(np.array([1.0, 2.0]), (np.zeros(2), np.full(2, 1.5)))
    0.5
    """
    seen = np.round(shown / step) * step if step else shown
    low, high = band[0] - step / 2, band[1] + step / 2
    return float(np.mean((seen >= low) & (seen <= high)))
