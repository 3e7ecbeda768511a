"""How a nut that adjusts is set: by the float that is read, or by a walk to nothing and past it.

A nut has no thickness to work out; the float it is set to is what counts, and the error with which
that is known. A lock nut done up behind it takes the play of its thread out of it, each time as
much: so it is done up each time the float is read, and the play need not be known.
"""

from dataclasses import dataclass, replace

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.harm import harm
from dryfit.ask.lock_nuts import locked_nut, play_off
from dryfit.ask.route import TAKE_OUT, WALK, Route
from dryfit.ask.settings import Choice, chance
from dryfit.ask.targets import Target, named
from dryfit.model.parts import Nut
from dryfit.model.rebuild import LOCKED, SET, Check, EndFloat, Rebuild, State
from dryfit.quantities.mark import SET_WITHIN
from dryfit.solve.luck import Array, NoLuck, full
from dryfit.solve.sizes import made_by, making_error, metres, reading_error
from dryfit.solve.threads import pitch, thread_play

AS_SET = "as the nut is set"
"""State in which the dial is read while the nut is turned."""

LEAST_SHOWN = 0.002e-3
"""A float less than this is none that can be set by reading it [m]: estimate."""

WALK_FROM = (0.12e-3, 0.08e-3, 0.04e-3)
"""Floats at about which the marks of a walk lie [m]: estimate."""


def is_nut(rebuild: Rebuild, part: str) -> bool:
    """Tell a setting that is a nut."""
    return isinstance(rebuild.parts.get(part), Nut)


def dial_at(asking: Asking, of: str, part: str) -> tuple[Asking, Check]:
    """Give the unit as its float is read while the nut is set: with its lock nut, or not locked."""
    rebuild, setting = asking.rebuild, asking.rebuild.settings[part]
    state = State(AS_SET, nuts=LOCKED if locked_nut(rebuild, part) else SET)
    own = (c for c in rebuild.checks.values() if isinstance(c, EndFloat) and c.of == of)
    check = next(own, None) or EndFloat(f"end float of {of}", "end float", of=of)
    states = {**rebuild.states, AS_SET: state}
    as_set = replace(asking, rebuild=replace(rebuild, states=states), sampled=asking.drawn)
    return as_set, replace(check, state=AS_SET, by=setting.set_by)


def shown_when_set(asking: Asking, target: Target, part: str, packs: Packs) -> float | None:
    """Say what the dial shows when the nut is set [m]; None where it would show nothing."""
    as_set, check = dial_at(asking, named(target.need), part)
    found = as_set.as_typed(check, packs)
    return float(found.shown[0]) if float(found.true[0]) >= LEAST_SHOWN else None


def walked(asking: Asking, part: str, to: float) -> Array:
    """Draw the float at which a nut stands that was walked to nothing and turned on [m].

    Three floats read, each at a mark of its own, give the line; the last step goes by marks alone.
    Less the error of setting by a reading, which is added to all that is set.

    Parameters
    ----------
    asking
        The unit [asking]
    part
        The nut; its pitch is known [text]
    to
        Float wanted, less than nothing for a nip [m]

    Returns
    -------
    float
        As set [m], shape (n,)

    Valid
    -----
    Floats that follow the nut by its pitch.

    Source
    ------
    Mean of three readings; see `ask.walk`.

    Examples
    --------
    See tests/ask/test_nut_settings.py.

    >>> len(WALK_FROM)
    3
    """
    rebuild, draws = asking.rebuild, asking.drawn.draws
    nut = rebuild.parts[part]
    by = made_by(rebuild, part)
    assert isinstance(nut, Nut)
    half = SET_WITHIN / 360 * (pitch(nut) or 0.0)
    total = full(draws, 0.0)
    for n, _ in enumerate(WALK_FROM):
        read = reading_error(draws, ("settings", part, f"walk {n}"), by, 0.0) if by else 0.0
        total = total - read + half * draws.flat("settings", part, f"mark {n}")
    last = half * draws.flat("settings", part, "last mark")
    made = making_error(draws, part, rebuild.settings[part], by)
    found: Array = to + total / len(WALK_FROM) + last - made + play_off(asking, part)
    return found


def nut_route(
    name: str, asking: Asking, mine: tuple[Target, ...], packs: Packs, choice: Choice | None
) -> Route:
    """Go one route for a nut."""
    if name not in (TAKE_OUT, WALK):
        return Route(name, why_not="a nut is set by what is read, not by a thickness")
    if choice is None:
        return Route(name, why_not="sizes are not known yet")
    return (_by_reading if name == TAKE_OUT else _by_walk)(asking, mine, packs, choice)


def _by_reading(asking: Asking, mine: tuple[Target, ...], packs: Packs, choice: Choice) -> Route:
    """Turn it until the dial shows what is wanted."""
    part, thick = choice.part, choice.pack.thickness
    here = {**packs, part: thick}
    if shown_when_set(asking, mine[0], part, here) is None:
        return Route(TAKE_OUT, why_not="once the rows touch, the dial has nothing left to read")
    as_set, check = dial_at(asking, named(mine[0].need), part)
    shown = as_set.true(check, {**packs, part: thick + play_off(asking, part)}).shown
    low, middle, high = (float(q) for q in np.quantile(shown, (0.05, 0.5, 0.95)))
    made = thick + play_off(asking, part)
    here = {**packs, part: made}
    likely, harmful = chance(asking, mine, here), harm(asking, mine, here)
    reading = (low, middle, high)
    return Route(TAKE_OUT, likely, choice.pack, check, reading=reading, harm=harmful, made=made)


def _by_walk(asking: Asking, mine: tuple[Target, ...], packs: Packs, choice: Choice) -> Route:
    """Read it at three marks, find where nothing is, and turn on by marks alone."""
    nut = asking.rebuild.parts[choice.part]
    if not isinstance(nut, Nut) or pitch(nut) is None:
        return Route(WALK, why_not=f"the pitch of {choice.part} is not known: write its thread")
    _, check = dial_at(asking, named(mine[0].need), choice.part)
    made = walked(asking, choice.part, choice.pack.thickness)
    here = {**packs, choice.part: made}
    likely, harmful = chance(asking, mine, here), harm(asking, mine, here)
    return Route(WALK, likely, choice.pack, check, harm=harmful, trials=WALK_FROM, made=made)


@dataclass(frozen=True, slots=True)
class Turned:
    """How a nut is set.

    Attributes
    ----------
    shown
        What the dial shows as it is set [m]; None where it shows nothing.
    degrees
        How far to tighten it from what it is set to now [deg]; None where that is not known.
    past
        How far it is tightened beyond where the dial, with what yields, would read nothing [deg],
        less than nothing short of it; None where the pitch is not known.
    to
        Float at which it then stands, locked; less than nothing is a nip [m].
    locking
        What a lock nut takes out of it [m].
    """

    shown: float | None
    degrees: float | None
    past: float | None
    to: float
    locking: float


def turned(asking: Asking, target: Target, part: str, packs: Packs) -> Turned | None:
    """Say how a nut is set to the float that `packs` has for it; None for what is no nut."""
    nut, setting = asking.rebuild.parts.get(part), asking.rebuild.settings[part]
    if not isinstance(nut, Nut):
        return None
    turn, to = pitch(nut), float(packs[part])
    now = metres(setting.fitted) if setting.fitted else None
    locks = locked_nut(asking.rebuild, part)
    locking = float(thread_play(locks, NoLuck())[0]) if locks else 0.0
    stands = to - locking
    as_set, check = dial_at(asking, named(target.need), part)
    slack = as_set.as_typed(check, {**packs, part: WALK_FROM[1] + locking})
    yields = float(slack.shown[0] - slack.true[0])
    return Turned(
        shown_when_set(asking, target, part, packs),
        None if turn is None or now is None else (now - to) / turn * 360,
        None if turn is None else -(stands + yields) / turn * 360,
        stands,
        locking,
    )
