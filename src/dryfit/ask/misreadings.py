"""What may be wrong with a reading while the unit is right.

`MISREADINGS` has one entry for each kind of check. All amounts are estimates.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import numpy as np

from dryfit.ask.asking import Amount, Asking
from dryfit.ask.changes import in_states, warmed
from dryfit.ask.mistakes import MM
from dryfit.ask.variant import Misread, Variant
from dryfit.model.parts import Bearing, Seal
from dryfit.model.rebuild import State
from dryfit.solve.bodies import BODIES, Stands
from dryfit.solve.luck import Array
from dryfit.solve.predict import NEWTON, SHOWN_IN, line_of

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

FALSE_BY = (0.01 * MM, 0.05 * MM)
FALSE_SHARE = (0.1, 0.5)
"""Of a force."""
UNSETTLED = (0.005 * MM, 0.04 * MM)
STIFFER = (0.2, 1.0)
"""What rows that have not settled pull more [-]."""
FURTHER_OUT, NEARER = (0.05, 0.40), (0.05, 0.30)
"""Share of its radius by which a dial stands off."""
STANDING = (Stands.STILL, Stands.SCREWED)
WARMER = (10, 5)
"""What is left of the heat of fitting, and two standard deviations of it [K]."""


def _longer(shown: Array, amount: Array) -> Array:
    return shown + amount


def _shorter(shown: Array, amount: Array) -> Array:
    less: Array = np.maximum(shown - amount, 0.0)
    return less


def _more(shown: Array, share: Array) -> Array:
    return shown * (1 + share)


def _less(shown: Array, share: Array) -> Array:
    return shown * (1 - share)


def misread(
    kind: str,
    check: Any,
    told: str,
    words: str,
    how: Misread,
    between: tuple[float, float],
) -> Variant:
    """Name a fault of one reading by its kind, its check and what is told."""
    return Variant(
        f"{kind}: {check.name}{told and f', {told}'}",
        kind,
        (),
        words,
        between=between,
        reading=True,
        check=check.name,
        misread=how,
    )


def _false(_: Asking, check: Any) -> Iterator[Variant]:
    force = SHOWN_IN[check.kind] == NEWTON
    high, low = FALSE[check.kind]
    between = FALSE_SHARE if force else FALSE_BY
    more, less = (_more, _less) if force else (_longer, _shorter)
    if high:
        yield misread("false reading", check, "too much", f"false reading: {high}", more, between)
    if low:
        yield misread("false reading", check, "too little", f"false reading: {low}", less, between)


def has_rows(asking: Asking, check: Any) -> bool:
    """Tell whether a row lies in the line that a check reads."""
    parts = {s.part for stack in line_of(asking.rebuild, check).stacks for s in stack.spots}
    return any(isinstance(asking.rebuild.parts.get(name), Bearing) for name in parts)


def _unsettled(asking: Asking, check: Any) -> Iterator[Variant]:
    """Let rows not have found their place: rollers off their rib stand the rings apart."""
    if has_rows(asking, check):
        words = "rows not settled: turn the shaft ten times each way under a light push"
        how, between = (_more, STIFFER) if SHOWN_IN[check.kind] == NEWTON else (_shorter, UNSETTLED)
        yield misread("not settled", check, "", words, how, between)


def _radius(_: Asking, check: Any) -> Iterator[Variant]:
    if check.at_radius is not None:
        words = "dial {} than the radius told"
        for told, how, between in (
            ("further out", _more, FURTHER_OUT),
            ("further in", _less, NEARER),
        ):
            yield misread("wrong radius", check, told, words.format(told), how, between)


def _sealed(asking: Asking, check: Any) -> Iterator[Variant]:
    """Let seals be in that the state of a cord pull leaves out."""
    parts = asking.rebuild.parts
    state = asking.rebuild.states.get(check.state)
    out = {n for n in state.left_out if _seals(parts[n], check.of)} if state else set()
    if not out:
        return

    def without(was: State) -> State:
        return replace(was, left_out=tuple(n for n in was.left_out if n not in out))

    def change(asked: Asking, _: Amount) -> Asking:
        return in_states(asked, (check.state,), without)

    words = f"{' and '.join(sorted(out))} in when the cord was pulled: their drag counts as preload"
    named = f"seal drag: {check.name}"
    yield Variant(named, "seal drag", (), words, change, reading=True, check=check.name)


def _seals(part: Any, shaft: str) -> bool:
    return isinstance(part, Seal) and part.on == shaft


Maker = Callable[[Asking, Any], Iterator[Variant]]

MISREADINGS: dict[str, tuple[Maker, ...]] = {
    "end float": (_unsettled, _false),
    "gap": (_false,),
    "depth": (_false,),
    "thickness": (_false,),
    "backlash": (_radius, _false),
    "shake": (_false,),
    "cord pull": (_unsettled, _sealed, _false),
    "flushness": (_false,),
    "lift": (_false,),
}


def warm_when_read(asking: Asking) -> Iterator[Variant]:
    """Let shafts, or the case and what is screwed to it, still be warm from fitting."""
    parts = asking.rebuild.parts
    turning = tuple(n for n, part in parts.items() if BODIES[part.kind].floats)
    still = tuple(n for n, p in parts.items() if BODIES[p.kind].stands in STANDING)
    for names, told in ((turning, "shafts"), (still, "case")):
        if names:
            words = f"{told} still warm when read: read again next morning"
            name = f"warm when read: {told}"
            change = warmed(names, *WARMER)
            yield Variant(name, "warm when read", (), words, change, reading=True)
