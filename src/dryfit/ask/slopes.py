"""What moves a reading, and how far: the model asked twice."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryfit.ask.asking import Asking, Packs
from dryfit.model.rebuild import Check, Need
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import Array, full
from dryfit.solve.predict import lines_of, predict

STEP = 1e-6
"""How much a size is changed to see what follows [m]."""

FAR = 1.0
"""A length longer than any unit [m]; what does not move for it does not matter."""


@dataclass(frozen=True, slots=True)
class Slope:
    """How a reading follows one size: metres of reading a metre of size.

    Attributes
    ----------
    key
        Key of the size, or name of the pack or gasket.
    part
        The part it belongs to.
    slope
        +1: as much more; -1: as much less.
    """

    key: str
    part: str
    slope: float


def slopes(asking: Asking, asked: Check | Need, packs: Packs) -> tuple[Slope, ...]:
    """List every known size, gasket and pack that moves a reading.

    Each is made a little longer in a draw of its own, all beside each other.
    """
    nominal, rebuild = asking.nominal, asking.rebuild
    stacks = [stack for line in lines_of(rebuild, asked) for stack in line.stacks]
    here = {spot.part for stack in stacks for spot in stack.spots} - {*rebuild.settings}
    parts = {key: rebuild.sizes[key].start.part for key in sorted(nominal.sizes)}
    keys = [(key, part) for key, part in parts.items() if part in here]
    names = [*keys, *((n, n) for n in sorted(nominal.nipped)), *((n, n) for n in rebuild.settings)]
    side = asking.side_by_side(1 + len(names))
    meant = {p: full(side.draws, float(t)) for p, t in asking.with_fitted(packs).items()}
    changed = ({**side.sizes}, {**side.nipped}, meant)
    for n, (key, _) in enumerate(names):
        group = changed[0 if n < len(keys) else 1 if key in side.nipped else 2]
        group[key] = _longer(group[key], n + 1)
    sizes = replace(side, sizes=changed[0], nipped=changed[1])
    true = predict(rebuild, asked, sizes, packs=meant, assumed=asking.assumed).true
    found = [
        Slope(*name, _rate(float(x - true[0]))) for name, x in zip(names, true[1:], strict=True)
    ]
    return tuple(slope for slope in found if slope.slope)


def _longer(values: Array, draw: int) -> Array:
    """Lengthen one draw by a step."""
    longer = values.copy()
    longer[draw] += STEP
    return longer


def pack_slope(asking: Asking, asked: Check | Need, packs: Packs, part: str) -> float:
    """Say how a reading follows the thickness of one setting."""
    return pack_slopes(asking, asked, packs, [part])[1][0]


def pack_slopes(
    asking: Asking, asked: Check | Need, packs: Packs, parts: Sequence[str]
) -> tuple[float, tuple[float, ...]]:
    """Say what is found as typed, and how it follows the thickness of each setting."""
    meant = asking.with_fitted(packs)
    key = ("slopes", asked, *parts, *sorted((p, float(t)) for p, t in meant.items()))
    if key not in asking.kept:
        side = asking.side_by_side(1 + len(parts))
        thick = {p: full(side.draws, float(t)) for p, t in meant.items()}
        for n, part in enumerate(parts):
            thick[part] = _longer(thick[part], n + 1)
        true = predict(asking.rebuild, asked, side, packs=thick, assumed=asking.assumed).true
        rates = tuple(_rate(float(x - true[0])) for x in true[1:])
        asking.kept[key] = (float(true[0]), rates)
    found: tuple[float, tuple[float, ...]] = asking.kept[key]
    return found


def _rate(change: float) -> float:
    return round(change / STEP, 6)


def lacking(asking: Asking, asked: Check | Need, packs: Packs) -> tuple[Slope, ...]:
    """List the sizes that are not known and without which a reading cannot be said."""
    found = asking.as_typed(asked, packs)
    if found.gives:  # rows and nuts: what each size would change waits until all are there
        keys = sorted(found.lacking - {*asking.assumed})
        return tuple(Slope(key, key.split(".")[0].split(" to ")[0], 0.0) for key in keys)
    base = float(found.true[0])
    slopes_of = []
    for key in sorted(found.lacking - {*asking.assumed}):
        rates = []
        for length in (STEP, FAR, -FAR):
            guess = replace(asking, assumed={**asking.assumed, key: length})
            rates.append((guess.typed(asked, packs) - base) / length)
        slope = round(next((r for r in rates if abs(r) > STEP), 0.0), 6)
        if slope:
            slopes_of.append(Slope(key, key.split(".")[0].split(" to ")[0], slope))
    return tuple(slopes_of)


def lacking_or_none(asking: Asking, asked: Check | Need, packs: Packs) -> tuple[Slope, ...]:
    """List the same; nothing for what cannot be read whatever is measured."""
    try:
        return lacking(asking, asked, packs)
    except NoAnswer:
        return ()
