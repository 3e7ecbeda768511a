"""Why a reading may be more or less than expected: the mishaps of each kind of part.

A mishap adds to or takes from the length that a part fills. Which way the reading then goes is
not written here but asked of the model.
"""

from dataclasses import dataclass

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.slopes import STEP
from dryfit.model.rebuild import Check, Gap, Need, Thickness
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.predict import line_of


@dataclass(frozen=True, slots=True)
class Mishap:
    """What may have happened to a part.

    Attributes
    ----------
    words
        What to look for; {part} is its name.
    adds
        Share of its own thickness it fills more [-]: -1 left out, +1 doubled; +1 not home.
    sized
        Whether that amount is meant exactly; else only its sign.
    itself
        Whether it also shows when the part is measured by itself.
    """

    words: str
    adds: float
    sized: bool = False
    itself: bool = False


LEFT_OUT = Mishap("{part} left out", -1.0, sized=True)
DIRT = Mishap("dirt or a burr on {part}", 1.0)

COCKED = (Mishap("{part} cocked, or not pulled home all round", 1.0),)
NOT_HOME = (Mishap("{part} not home: a tight ring, dirt or a burr on its faces", 1.0),)

MISHAPS: dict[str, tuple[Mishap, ...]] = {
    "housing": (),
    "cover": COCKED,
    "shaft": (Mishap("{part} not home: dirt or a burr on its faces", 1.0),),
    "cluster": (Mishap("dirt or a burr on the faces of {part}", 1.0),),
    "spacer": (DIRT, LEFT_OUT),
    "thrust washer": (
        Mishap("tang of {part} not in its slot, or {part} reversed or burred", 1.0),
        LEFT_OUT,
    ),
    "shim pack": (
        Mishap(
            "a shim edge of {part} turned up, two stuck together, or one too many", 1.0, itself=True
        ),
        Mishap("a shim of {part} missing: measure the whole pack, nipped", -1.0, itself=True),
    ),
    "cartridge": COCKED,
    "pin": NOT_HOME,
    "angular contact ball": NOT_HOME,
    "deep groove ball": NOT_HOME,
    "taper roller": NOT_HOME,
    "thrust ball": NOT_HOME,
    "two-row ball": NOT_HOME,
    "cylindrical roller": NOT_HOME,
    "nut": (),
    "threaded ring": (),
    "spring washer": (LEFT_OUT,),
    "retaining ring": (DIRT,),
    "bush": (),
    "key": (),
    "plain bearing": (),
    "seal": (),
    "gasket": (
        Mishap("{part} left out, or sealant in its place", -1.0, sized=True),
        Mishap("{part} doubled, or of thicker sheet", 1.0, itself=True),
        Mishap("{part} not nipped down yet", 1.0),
    ),
}

FALSE: dict[str, tuple[str, str]] = {
    "end float": (
        "dial stand on another casting, or moved",
        "shaft not pushed and turned hard both ways",
    ),
    "gap": ("cover cocked: read at three places", "feeler forced or bent"),
    "depth": ("gauge foot on paint or a burr", "shaft not held to its end"),
    "backlash": (
        "shaft pushed away from the mesh, or the dial further out than told",
        "shaft pulled into the mesh, or a high spot of the gear: turn and read again",
    ),
    "cord pull": (
        "seals in, or the first tug read and not the steady pull",
        "rows not settled: turn it, and read the balance while it turns",
    ),
    "lift": (
        "dial stand on another casting, or the cap not pulled down",
        "shaft not lifted hard, or oil not pressed out",
    ),
    "flushness": ("paint or a burr on a back face", "straightedge not square to the face"),
    "shake": ("shaft levered, or moved endways", "ring held by grease or a cocked fit"),
    "thickness": ("pack not nipped flat, oil between the shims", "worn or stepped where read"),
    "float": ("", ""),
    "nip": ("", ""),
    "preload": ("", ""),
    "lash": ("", ""),
}
"""A false reading, too large and too small, by kind of check."""


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing that makes a reading differ: in words, and by how much where that is known [m]."""

    words: str
    change: float | None


def reasons(
    asking: Asking, asked: Check | Need, packs: Packs
) -> tuple[tuple[Reason, ...], tuple[Reason, ...]]:
    """List what would make a reading more, and what less."""
    more: list[Reason] = []
    less: list[Reason] = []
    line = line_of(asking.rebuild, asked)
    here = dict.fromkeys(spot.part for stack in line.stacks for spot in stack.spots)
    gives = asking.as_typed(asked, packs).gives
    told = tuple(part for part in here if MISHAPS[asking.rebuild.parts[part].kind])
    every = _follow(asking, asked, packs, told)
    for part in told:
        follows = every[part]
        for mishap in MISHAPS[asking.rebuild.parts[part].kind]:
            way = follows * mishap.adds
            sized = mishap.sized and not gives
            amount = way * _thickness(asking, packs, part) if sized else None
            if way and (mishap.itself or not isinstance(asked, Thickness)):
                reason = Reason(mishap.words.format(part=part), amount)
                (more if way > 0 else less).append(reason)
    high, low = FALSE[asked.kind]
    more += [Reason(f"false reading: {high}", None)] if high else []
    less += [Reason(f"false reading: {low}", None)] if low else []
    return tuple(more), tuple(less)


def _follow(
    asking: Asking, asked: Check | Need, packs: Packs, parts: tuple[str, ...]
) -> dict[str, float]:
    """How a reading follows what each part fills more of its line, side by side in draws."""
    if isinstance(asked, Thickness):
        return {part: 1.0 if asked.of == part else 0.0 for part in parts}
    side = asking.side_by_side(1 + len(parts))
    extra = {part: STEP * (np.arange(1 + len(parts)) == n + 1) for n, part in enumerate(parts)}
    try:
        after = asking.typed_reading(asked, packs, of=side, extra=extra)
    except NoAnswer:
        if len(parts) == 1:
            return dict.fromkeys(parts, 0.0)
        return {part: _follow(asking, asked, packs, (part,))[part] for part in parts}
    # a depth is read without its sign; rows pressed together read what they yield
    unsigned = not after.gives and float(after.true[0]) < 0 < float(after.shown[0])
    turned = -1.0 if unsigned else 1.0
    rates = [turned * round(float(x - after.true[0]) / STEP, 6) for x in after.true[1:]]
    found = dict(zip(parts, rates, strict=True))
    if isinstance(asked, Gap) and asked.at in found:
        found[asked.at] = 0.0  # its own stand-off is what is read
    return found


def _thickness(asking: Asking, packs: Packs, part: str) -> float:
    """Thickness of a loose part [m]."""
    if part in asking.nominal.nipped:
        return float(asking.nominal.nipped[part][0])
    if part in asking.rebuild.settings:
        return float(asking.with_fitted(packs)[part])
    own = asking.nominal.sizes.get(part)
    return 0.0 if own is None else float(own[0])
