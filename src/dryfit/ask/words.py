"""Why a reading may be more or less than expected: what may be wrong, asked of the model.

Which way a reading goes is not written anywhere: every variant of the unit is put to the model with
all sizes as typed, a little of it where it has an amount. Those that add to lengths alone are asked
side by side.
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.changes import thickness
from dryfit.ask.misreadings import FALSE
from dryfit.ask.slopes import STEP
from dryfit.ask.variants import PRIORS, Variant, variants
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
from dryfit.solve.luck import Array, full
from dryfit.solve.predict import NEWTON, SHOWN_IN, Reading, lines_of, predict

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


def reasons(
    asking: Asking, asked: Check | Need, packs: Packs
) -> tuple[tuple[Reason, ...], tuple[Reason, ...]]:
    """List what would make a reading more, and what less, the likeliest first."""
    here = [one for one in _variants(asking) if _bears_on(asking, asked, one)]
    changes = _side_by_side(asking, asked, packs, [one for one in here if _adds(asking, one)])
    alone = [one for one in here if one.name not in changes]
    changes |= {one.name: _change(asking, asked, packs, one) for one in alone}
    least = _least(asking, asked, packs, changes, here)
    here = [one for one in here if abs(changes[one.name]) > least[_by_little(one)]]
    exact = not asking.as_typed(asked, packs).gives
    more: list[Reason] = []
    less: list[Reason] = []
    for one in sorted(here, key=lambda one: -PRIORS[one.kind].chance):
        change = changes[one.name]
        whole = not _by_little(one) and not one.jumps and np.isfinite(change)
        reason = Reason(one.words, change if whole and exact else None)
        if change > 0 or (change and one.either_way):
            more.append(reason)
        if change < 0 or (change and one.either_way):
            less.append(reason)
    high, low = FALSE[asked.kind]
    more += [Reason(f"false reading: {high}", None)] if high else []
    less += [Reason(f"false reading: {low}", None)] if low else []
    return tuple(more), tuple(less)


def _variants(asking: Asking) -> tuple[Variant, ...]:
    """List what may be wrong with the unit itself, once."""
    if ("variants",) not in asking.kept:
        asking.kept["variants",] = tuple(one for one in variants(asking) if not one.reading)
    found: tuple[Variant, ...] = asking.kept["variants",]
    return found


def _bears_on(asking: Asking, asked: Any, variant: Variant) -> bool:
    """Tell whether a part lies in a line of what is asked, or is what is asked for."""
    lines = lines_of(asking.rebuild, asked)
    parts = {s.part for line in lines for stack in line.stacks for s in stack.spots}
    return bool(parts & {*variant.parts})


def _by_little(variant: Variant) -> bool:
    """Tell what is asked a little of; the rest is asked whole."""
    return bool(variant.between or variant.steps) and not variant.jumps


def _wrong(asking: Asking, variant: Variant) -> Asking:
    """Put a variant to the unit, a little of it where it has an amount, once."""
    key = ("wrong", variant.name)
    if key not in asking.kept:
        asking.kept[key] = variant.asking(asking, STEP if _by_little(variant) else None)
    found: Asking = asking.kept[key]
    return found


def _adds(asking: Asking, variant: Variant) -> bool:
    """Tell what adds to lengths alone, and leaves the unit itself as it is."""
    other = _wrong(asking, variant)
    return other.rebuild is asking.rebuild and not variant.jumps


def _side_by_side(
    asking: Asking, asked: Check | Need, packs: Packs, adding: list[Variant]
) -> dict[str, float]:
    """Ask for many variants at once, each in a draw of its own; nothing where one has no answer."""
    side = asking.side_by_side(1 + len(adding))
    meant = {p: full(side.draws, float(t)) for p, t in asking.with_fitted(packs).items()}
    extra: dict[str, Array] = {}
    sizes, thick = {**side.sizes}, {**meant}
    for n, variant in enumerate(adding):
        mine = np.arange(1 + len(adding)) == n + 1
        wrong: Any = _wrong(asking, variant).wrong
        for name, more in wrong.extra.items():
            extra[name] = extra.get(name, 0.0) + np.where(mine, more(side.draws), 0.0)
        for key, more in wrong.sizes.items():
            sizes[key] = sizes[key] + np.where(mine, more(side.draws), 0.0)
        for part, made in (wrong.thick(side, meant) if wrong.thick else {}).items():
            was = thickness(side, thick, part)
            thick[part] = made if was is None else np.choose(mine, [was, made])
    try:
        found = predict(
            asking.rebuild,
            asked,
            replace(side, sizes=sizes),
            packs=thick,
            assumed=asking.assumed,
            extra=extra,
        )
    except NoAnswer:
        return {}
    values = _told(asked, found)
    return {v.name: float(x - values[0]) for v, x in zip(adding, values[1:], strict=True)}


def _change(asking: Asking, asked: Check | Need, packs: Packs, variant: Variant) -> float:
    """Say by how much more is found with one thing wrong; without end where nothing stops it."""
    try:
        wrong = _told(asked, _wrong(asking, variant).as_typed(asked, packs))
    except NoAnswer as why:
        return np.inf if why.open_end and isinstance(asked, TRAVELS) else 0.0
    return float(wrong[0] - _told(asked, asking.as_typed(asked, packs))[0])


def _told(asked: Check | Need, found: Reading) -> Array:
    return found.shown if isinstance(asked, UNSIGNED) else found.true


def _least(
    asking: Asking,
    asked: Check | Need,
    packs: Packs,
    changes: dict[str, float],
    here: list[Variant],
) -> tuple[float, float]:
    """Say below which change a thing is not told of: one without an amount, and a little of one."""
    rates = [abs(changes[one.name]) for one in here if _by_little(one)]
    follows = FOLLOWS * max([x for x in rates if np.isfinite(x)], default=0.0)
    if SHOWN_IN[asked.kind] == NEWTON:
        return FOLLOWS * float(asking.as_typed(asked, packs).shown[0]), follows
    return LEAST, max(follows, FOLLOWS * FOLLOWS * STEP)
