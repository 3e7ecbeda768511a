"""Walks written in the document: their readings on the line that the model knows, and its goal.

The model says how the float follows the pack, by how much the dial shows more than there truly is
(what yields under the push), and at which pack the want is met. The readings say how high the line
lies; `ask.walk` puts the two together, and `ask.walk_starts` plays the same draw by draw.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.settings import ideal
from dryfit.ask.slopes import pack_slope
from dryfit.ask.starts import LEAST_READ, stand_ins
from dryfit.ask.targets import Target, named
from dryfit.ask.walk import TOO_FAR, Goal, Reading, Walk, walk
from dryfit.model.parts import Nut
from dryfit.model.rebuild import EndFloat, FloatNeed, LashNeed, NipNeed, Step, Walked
from dryfit.quantities import Mark, Size
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.sample import split_doubt
from dryfit.solve.sizes import Gauge, gauge, metres
from dryfit.solve.threads import pitch

OPEN = 4 * LEAST_READ
"""Float at which the model is asked for slope and yielding [m]: estimate."""

ROUNDS = 8
"""Steps to the pack that leaves it; where nothing is pressed the second is exact."""

NONE = Fraction(0)
SLACK = Size("0.2 mm", Fraction(2, 10), "mm", None, NONE, NONE)
SLACKER = Size("0.3 mm", Fraction(3, 10), "mm", None, NONE, NONE)
"""Floats that a nut is set to while the model is asked."""

BAND = (0.05, 0.5, 0.95)


@dataclass(frozen=True)
class TakenWalk:
    """A walk as it was read, slackest reading first.

    Attributes
    ----------
    check, part
        What was read, and the setting or nut that was changed.
    by_nut
        Whether marks of a nut were read.
    slope
        What a metre of pack or a degree of nut does to the float [m].
    steps, readings
        As typed, and with their errors.
    shared
        One standard deviation of the error that all readings have in common [m].
    target
        What is wanted of that float; None where nothing is.
    walk
        Where it ends; None where there are fewer than two readings.
    """

    check: EndFloat
    part: str
    by_nut: bool
    slope: float
    steps: tuple[Step, ...]
    readings: tuple[Reading, ...]
    shared: float
    target: Target | None
    walk: Walk | None

    @property
    def clear(self) -> bool:
        """Whether it can be gone by: what is off its line is named, and a nut need not go far."""
        if self.walk is None:
            return True
        near = not self.by_nut or self.walk.reach <= TOO_FAR
        return near and all(doubt.first is not None for doubt in self.walk.doubts)


def taken_walks(asking: Asking, wanted: Sequence[Target], packs: Packs) -> tuple[TakenWalk, ...]:
    """Take up every walk of the document that has a reading."""
    found = []
    for written in asking.rebuild.walks.values():
        others = {part: thick for part, thick in packs.items() if part != written.with_}
        taken = _taken(asking, written, wanted, others) if written.steps else None
        found += [taken] if taken else []
    return tuple(found)


def _taken(
    asking: Asking, written: Walked, wanted: Sequence[Target], packs: Packs
) -> TakenWalk | None:
    """Take up one walk; None where the model has no answer to it."""
    check = asking.rebuild.checks[written.check]
    part = asking.rebuild.parts[written.with_]
    if not isinstance(check, EndFloat):
        return None
    mine = [t for t in wanted if not isinstance(t.need, LashNeed) and named(t.need) == check.of]
    if isinstance(part, Nut):  # by its marks alone a float is found, as cold as it was read
        mine = [t for t in mine if isinstance(t.need, FloatNeed) and t.need.state == check.state]
    target = mine[0] if mine else None
    try:
        if isinstance(part, Nut):
            return _by_nut(asking, written, check, part, target=target, packs=packs)
        missing = stand_ins(asking, target, part.name, packs) if target else {}
        standing = replace(asking, assumed=missing) if missing else asking
        return by_pack(standing, written, check, target=target, packs=packs)
    except NoAnswer:
        return None


def by_pack(
    asking: Asking, written: Walked, check: EndFloat, *, target: Target | None, packs: Packs
) -> TakenWalk | None:
    """Lay the line through floats read with packs."""
    part = written.with_
    found = open_pack(asking, check, part, packs)
    if found is None:
        return None
    at, slope = found
    steps = sorted(written.steps, key=lambda step: -slope * _mark(step))
    readings, shared = _readings(asking, check, steps)
    here = {**packs, part: at}
    goal, yields = None, _yields(asking, check, here)
    if target is not None:
        wished = ideal(asking, [target], part, {**packs, part: readings[0].mark})
        shown = float(asking.as_typed(check, here).shown[0])
        goal = Goal("nip", yields[1] - (shown + slope * (wished - at)))
    ended = _walk(readings, slope, goal=goal, yields=yields, shared=shared)
    return TakenWalk(check, part, False, slope, tuple(steps), readings, shared, target, ended)


def _by_nut(
    asking: Asking,
    written: Walked,
    check: EndFloat,
    nut: Nut,
    *,
    target: Target | None,
    packs: Packs,
) -> TakenWalk | None:
    """Lay the line through floats read at marks of a nut."""
    turn = pitch(nut)
    if turn is None:
        return None
    slope = -turn / 360
    readings, shared = _readings(asking, check, written.steps)
    yields = _yields(asking, check, {**packs, nut.name: metres(SLACKER)})
    goal = None
    if target is not None:
        goal = Goal("nip", target.aim if isinstance(target.need, NipNeed) else -target.aim)
    ended = _walk(readings, slope, goal=goal, yields=yields, shared=shared)
    return TakenWalk(check, nut.name, True, slope, written.steps, readings, shared, target, ended)


def _walk(
    readings: tuple[Reading, ...],
    slope: float,
    *,
    goal: Goal | None,
    yields: tuple[float, float, float],
    shared: float,
) -> Walk | None:
    if len(readings) < 2:
        return None
    return walk(readings, slope, goal=goal, yields=yields, shared=shared)


def open_pack(
    asking: Asking, check: EndFloat, part: str, packs: Packs
) -> tuple[float, float] | None:
    """Find a pack that leaves float in all draws, and how the float follows it there."""
    at, slope = 0.0, 0.0
    for _ in range(ROUNDS):
        here = {**packs, part: at}
        slope = pack_slope(asking, check, here, part)
        short = OPEN - asking.typed(check, here)
        if not slope:
            return None
        if abs(short) < LEAST_READ / 2:
            break
        at += short / slope
    low = float(np.quantile(asking.true(check, {**packs, part: at}).true, 0.001))
    return at + max(LEAST_READ - low, 0.0) / slope, slope


def _yields(asking: Asking, check: EndFloat, packs: Packs) -> tuple[float, float, float]:
    """Say by how much the dial shows more than there is: least, as typed, most [m]."""
    found, typed = asking.true(check, packs), asking.as_typed(check, packs)
    low, _, high = (float(q) for q in np.quantile(found.shown - found.true, BAND))
    return low, float(typed.shown[0] - typed.true[0]), high


def _mark(step: Step) -> float:
    """Give a pack [m] or a mark [deg]."""
    return step.at.degrees if isinstance(step.at, Mark) else metres(step.at)


def gauges(asking: Asking, check: EndFloat, step: Step) -> tuple[Gauge, Gauge]:
    """Find what a float was read with, and what its pack was measured with."""
    typed = getattr(step.at, "instrument", None)
    dial = gauge(asking.rebuild, step.read.instrument or check.by or "dial indicator")
    over = gauge(asking.rebuild, typed or "micrometer")
    assert dial
    assert over
    return dial, over


def _readings(
    asking: Asking, check: EndFloat, steps: Sequence[Step]
) -> tuple[tuple[Reading, ...], float]:
    """Give each reading its errors, and what they have in common [m]."""
    found, common = [], 0.0
    for step in steps:
        dial, over = gauges(asking, check, step)
        at = step.at
        error = at.error if isinstance(at, Mark) else split_doubt(at, over)[0]
        own, shared = split_doubt(step.read, dial)
        found.append(Reading(_mark(step), metres(step.read), error, own))
        common = max(common, shared)
    return tuple(found), common
