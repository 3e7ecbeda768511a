"""What moves a reading, and how far: the model asked twice."""

from dataclasses import dataclass, replace

from dryfit.ask.asking import Asking, Packs
from dryfit.model.rebuild import Check, Need
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.predict import lines_of

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
    """List every known size, gasket and pack that moves a reading."""
    nominal, rebuild = asking.nominal, asking.rebuild
    base = asking.typed(asked, packs)
    stacks = [stack for line in lines_of(rebuild, asked) for stack in line.stacks]
    here = {spot.part for stack in stacks for spot in stack.spots} - {*rebuild.settings}
    keys = {key: rebuild.sizes[key].start.part for key in sorted(nominal.sizes)}
    moved = {
        (key, part): nominal.with_size(rebuild, key, nominal.sizes[key] + STEP)
        for key, part in keys.items()
        if part in here
    }
    for name, thickness in sorted(nominal.nipped.items()):
        moved[name, name] = replace(nominal, nipped={**nominal.nipped, name: thickness + STEP})
    found = [
        Slope(*names, _rate(float(asking.typed_reading(asked, packs, of=sizes).true[0]) - base))
        for names, sizes in moved.items()
    ]
    found += [Slope(n, n, pack_slope(asking, asked, packs, n)) for n in rebuild.settings]
    return tuple(slope for slope in found if slope.slope)


def pack_slope(asking: Asking, asked: Check | Need, packs: Packs, part: str) -> float:
    """Say how a reading follows the thickness of one setting."""
    now = float(asking.with_fitted(packs)[part])
    return _rate(asking.typed(asked, {**packs, part: now + STEP}) - asking.typed(asked, packs))


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
