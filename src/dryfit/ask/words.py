"""Why a reading may be more or less than expected: what may be wrong, asked of the model.

Which way a reading goes is not written anywhere: every variant of the unit is put to the model with
all sizes as typed, a little of it where it has an amount.
"""

from dataclasses import dataclass

import numpy as np

from dryfit.ask.looks import Looks, by_little
from dryfit.ask.misreadings import FALSE
from dryfit.ask.slopes import STEP
from dryfit.ask.variants import PRIORS, Variant
from dryfit.model.rebuild import (
    Backlash,
    Check,
    Depth,
    EndFloat,
    FloatNeed,
    Flushness,
    LashNeed,
    Need,
    Shake,
    Thickness,
)
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import Array
from dryfit.solve.predict import NEWTON, SHOWN_IN, Reading

UNSIGNED = (Depth, Flushness, Thickness)
"""Read without their sign: what is shown counts, not what is true."""

TRAVELS = (EndFloat, FloatNeed, Shake, Backlash, LashNeed)
"""What is as large as can be where nothing stops a part."""

FOLLOWS = 0.1
"""What a reading follows with less than this share of what it follows most is not told of."""

LEAST = 2e-6
"""A change no larger than this is none that anybody would read [m]."""


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing that makes a reading differ: in words, and by how much where that is known [m]."""

    words: str
    change: float | None


def reasons(looks: Looks, asked: Check | Need) -> tuple[tuple[Reason, ...], tuple[Reason, ...]]:
    """List what would make a reading more, and what less, the likeliest first."""
    here = [one for one in looks.variants if looks.bears_on(asked, one)]
    changes = {one.name: _change(looks, asked, one) for one in here}
    least = _least(looks, asked, changes, here)
    here = [one for one in here if abs(changes[one.name]) > least[by_little(one)]]
    exact = not looks.typed(asked).gives
    more: list[Reason] = []
    less: list[Reason] = []
    for one in sorted(here, key=lambda one: -PRIORS[one.kind].chance):
        change = changes[one.name]
        whole = not by_little(one) and not one.jumps and np.isfinite(change)
        reason = Reason(one.words, change if whole and exact else None)
        if change > 0 or (change and one.either_way):
            more.append(reason)
        if change < 0 or (change and one.either_way):
            less.append(reason)
    high, low = FALSE[asked.kind]
    more += [Reason(f"false reading: {high}", None)] if high else []
    less += [Reason(f"false reading: {low}", None)] if low else []
    return tuple(more), tuple(less)


def _change(looks: Looks, asked: Check | Need, variant: Variant) -> float:
    """Say by how much more is found with one thing wrong; without end where nothing stops it."""
    try:
        wrong = _told(asked, looks.typed(asked, variant))
    except NoAnswer as why:
        return np.inf if why.open_end and isinstance(asked, TRAVELS) else 0.0
    return float(wrong[0] - _told(asked, looks.typed(asked))[0])


def _told(asked: Check | Need, found: Reading) -> Array:
    return found.shown if isinstance(asked, UNSIGNED) else found.true


def _least(
    looks: Looks, asked: Check | Need, changes: dict[str, float], here: list[Variant]
) -> tuple[float, float]:
    """Say below which change a thing is not told of: one without an amount, and a little of one."""
    rates = [abs(changes[one.name]) for one in here if by_little(one)]
    follows = FOLLOWS * max([x for x in rates if np.isfinite(x)], default=0.0)
    if SHOWN_IN[asked.kind] == NEWTON:
        return FOLLOWS * float(looks.typed(asked).shown[0]), follows
    return LEAST, max(follows, FOLLOWS * FOLLOWS * STEP)
