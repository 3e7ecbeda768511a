"""Readings from which a pack can be made: the closing gap, and the float before the strip.

A start is what the reading should be, as typed and draw by draw with its error, how the float of
the finished unit follows it, and what is fitted while it is taken.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.packs import packs_about
from dryfit.ask.settings import ideal, nearest_packs
from dryfit.ask.slopes import lacking, pack_slope
from dryfit.ask.targets import Target, named, travel
from dryfit.model.parts import Cover, Gasket
from dryfit.model.rebuild import (
    BUILT,
    Backlash,
    Check,
    EndFloat,
    Gap,
    LashNeed,
    Line,
    Rebuild,
    State,
)
from dryfit.quantities import Size
from dryfit.solve.luck import Array, Draws, full
from dryfit.solve.predict import line_of, predict
from dryfit.solve.sample import Sample
from dryfit.solve.sizes import gauge, making_error, metres, reading_error, true_size

TRIAL, FEELERS = "closing gap", "feelers"
OPEN_BY = 0.15e-3
"""By how much a trial pack should hold the cover off at least [m]: estimate."""


@dataclass(frozen=True)
class Start:
    """A reading to start from.

    Attributes
    ----------
    check
        The reading.
    typed
        What it would be with all sizes as typed [m], asked of a rebuild that may stand in sizes.
    drawn
        What it may be, its own error with it [m], shape (n,).
    follows
        +1 where the float is larger by as much as the reading, -1 where it is smaller; of a lash,
        the arc at the teeth a metre of reading.
    trial
        Thickness of the setting while it is taken [m].
    left_out
        Parts left out meanwhile.
    taken
        The reading itself, where it was taken [m].
    trials
        All packs tried, where the mean of more readings counts [m].
    walked
        Whether it is the line of a walk that was read.
    """

    check: Check
    typed: Callable[[Asking], float]
    drawn: Array
    follows: float
    trial: float
    left_out: tuple[str, ...] = ()
    taken: float | None = None
    trials: tuple[float, ...] = ()
    walked: bool = False


def stand_ins(asking: Asking, target: Target, part: str, packs: Packs) -> dict[str, float]:
    """Give sizes that are not known values with which a pack of a usual thickness would do."""
    missing = lacking(asking, target.need, packs)
    if not missing:
        return {}
    usual = {**packs, part: 4 * OPEN_BY}
    short = target.aim - asking.typed(target.need, usual)
    return {
        **{slope.key: 0.0 for slope in missing},
        missing[0].key: short / missing[0].slope,
    }


def gap_start(asking: Asking, target: Target, part: str, packs: Packs) -> Start | None:
    """Leave a gap open: the rebuild's own check of one, else at the cover, else at the seat."""
    rebuild = asking.rebuild
    line = line_of(rebuild, target.need)
    if isinstance(target.need, LashNeed) or not _lies_in(line, part):
        return None
    own = [c for c in rebuild.checks.values() if isinstance(c, Gap) and c.state != BUILT]
    for check in sorted(own, key=lambda c: (c.name not in rebuild.readings, c.name)):
        if line_of(rebuild, check) == line and check.state in rebuild.states:
            state = rebuild.states[check.state]
            fitted = (state.fitted or {}).get(part)
            return _read_gap(asking, check, part, packs, metres(fitted) if fitted else 0.0, state)
    here = dict.fromkeys(spot.part for stack in line.stacks for spot in stack.spots)
    cover = next((n for n in here if isinstance(rebuild.parts.get(n), Cover)), None)
    if cover is None:
        state = State(TRIAL, left_out=(part,))
        check = Gap(TRIAL, "gap", by="telescopic gauge", state=TRIAL, at=part)
        return _read_gap(_with(asking, state), check, part, packs, 0.0, state)
    gaskets = tuple(n for n in here if isinstance(rebuild.parts.get(n), Gasket))
    return _held_off(_with(asking, State(TRIAL, left_out=gaskets)), target, part, packs, cover)


def _held_off(asking: Asking, target: Target, part: str, packs: Packs, cover: str) -> Start | None:
    """Find the thinnest trial pack that surely holds the cover off."""
    wanted = _holding_off(asking, target, part, packs, cover)
    state = asking.rebuild.states[TRIAL]
    for trial in (0.0, *_thick_enough(asking, part, wanted)):
        start = _read_gap(asking, _feeler(cover), part, packs, trial, state)
        if start and float(np.quantile(start.drawn, 0.01)) >= OPEN_BY:
            return start
    return None


def _holding_off(asking: Asking, target: Target, part: str, packs: Packs, cover: str) -> float:
    """Say about how thick a pack must be that the cover stands off by a good feeler."""
    need = replace(travel(target.need), state=TRIAL)
    if not asking.as_typed(need, packs).gives:
        wish = replace(target, need=need, low=-4 * OPEN_BY, high=0.0)
        return ideal(asking, [wish], part, packs)
    bare = {**packs, part: 0.0}
    gap = _feeler(cover)
    slope = pack_slope(asking, gap, bare, part)
    return (2 * OPEN_BY - asking.typed(gap, bare)) / slope if slope else 0.0


def _lies_in(line: Line, part: str) -> bool:
    return any(spot.part == part for stack in line.stacks for spot in stack.spots)


def _thick_enough(asking: Asking, part: str, wanted: float) -> tuple[float, ...]:
    """List trial packs from about the wanted thickness up, in steps worth trying."""
    setting, system = asking.rebuild.settings[part], asking.rebuild.system
    made = [p.thickness for p in packs_about(setting, wanted, system, within=MOST_MORE)]
    kept: list[float] = []
    for thickness in made:
        apart = thickness - kept[-1] if kept else OPEN_BY
        if thickness >= wanted - OPEN_BY - DUST and apart > OPEN_BY / 4 + DUST:
            kept.append(thickness)
    return tuple(kept)


DUST = 1e-9
"""Lengths that differ by less are the same, in whatever order they were added up [m]."""

MOST_MORE = 2.0e-3
"""A trial pack is at most so much thicker than the one that would just open a gap [m]."""


def _feeler(at: str) -> Gap:
    return Gap(TRIAL, "gap", by=FEELERS, state=TRIAL, at=at)


def _with(asking: Asking, state: State) -> Asking:
    """Add a state to a rebuild."""
    rebuild = asking.rebuild
    return replace(asking, rebuild=replace(rebuild, states={**rebuild.states, state.name: state}))


def _read_gap(
    asking: Asking, check: Gap, part: str, packs: Packs, trial: float, state: State
) -> Start | None:
    """Read a gap by feelers."""
    by = gauge(asking.rebuild, check.by or FEELERS)
    if by is None:
        return None
    fitted = {**packs, part: trial}
    error = reading_error(asking.drawn.draws, ("checks", check.name), by, trial)
    taken = asking.rebuild.readings.get(check.name)

    def typed(other: Asking) -> float:
        return float(replace(asking, assumed=other.assumed).as_typed(check, fitted).shown[0])

    return Start(
        check,
        typed,
        asking.true(check, {**packs, part: _as_tried(asking, part, trial)}).shown + error,
        1.0 if check.at in state.left_out else -1.0,
        trial,
        state.left_out,
        sum(metres(r) for r in taken) / len(taken) if taken else None,
    )


def own_start(
    asking: Asking, target: Target, part: str, packs: Packs, *, trials: int = 1
) -> Start | None:
    """Fit a pack that surely leaves float, and read what is wanted itself: float or lash.

    Parameters
    ----------
    asking
        The unit [asking]
    target
        What is wanted [target]
    part
        The setting [text]
    packs
        Thickness of the others [m]
    trials
        How many packs are tried, each a step slacker than the one before [-]

    Returns
    -------
    start
        None where no pack leaves any [start]

    Valid
    -----
    Checks of float by a dial, of lash by a test indicator.

    Source
    ------
    Common practice, no source.

    Examples
    --------
    See tests/ask/test_settings_and_routes.py.

    >>> LEAST_READ < STEP_APART * 2
    True
    """
    check = _own_check(asking, target)
    by = gauge(asking.rebuild, check.by or "dial indicator")
    if by is None:
        return None

    def shown(tried: float, turn: int) -> Array:
        pack = _as_tried(asking, part, tried, turn)
        return asking.true(check, {**packs, part: pack}).shown

    for trial in _trials(asking, target, part, packs):
        first = shown(trial, 0)
        if float(np.quantile(first, 0.01)) >= 2 * LEAST_READ or isinstance(check, Backlash):
            break
    else:
        return None
    fitted = {**packs, part: trial}
    slope = pack_slope(asking, travel(target.need), fitted, part)
    typed = asking.as_typed(check, fitted)
    scale = float(typed.true[0] / typed.shown[0]) if isinstance(check, Backlash) else 1.0
    apart = [n * STEP_APART * (1 if slope > 0 else -1) for n in range(trials)]
    each = [
        (shown(trial + more, n) if n else first)
        + reading_error(asking.drawn.draws, ("checks", check.name, str(n)), by, 0.0)
        - slope / scale * more
        for n, more in enumerate(apart)
    ]
    taken = asking.rebuild.readings.get(check.name)
    fitted_now = asking.rebuild.settings[part].fitted
    in_hand = taken and fitted_now and abs(metres(fitted_now) - trial) < 1e-9 and trials == 1

    def typed_reading(other: Asking) -> float:
        return float(replace(asking, assumed=other.assumed).as_typed(check, fitted).shown[0])

    return Start(
        check,
        typed_reading,
        np.mean(each, axis=0),
        scale,
        trial,
        taken=sum(metres(r) for r in taken) / len(taken) if taken and in_hand else None,
        trials=tuple(trial + more for more in apart),
    )


def _as_tried(asking: Asking, part: str, trial: float, turn: int = 0) -> Array:
    """Give a trial pack its own error, less that of the pack made after it, which will be added."""
    draws, by = asking.drawn.draws, gauge(asking.rebuild, "micrometer")
    own = making_error(draws, f"{part} tried {turn}", None, by if trial else None)
    return trial + own - making_error(draws, part, asking.rebuild.settings[part], by)


LEAST_READ = 0.05e-3
"""A float to be read is at least so large, so that nothing is nipped [m]: estimate."""

STEP_APART = 0.05e-3
"""Packs of the walk differ by so much [m]: estimate."""


def _own_check(asking: Asking, target: Target) -> EndFloat | Backlash:
    """Find the rebuild's own check of what is wanted, or make one."""
    need = target.need
    for check in asking.rebuild.checks.values():
        if isinstance(need, LashNeed):
            if isinstance(check, Backlash) and check.mesh == need.mesh and check.state == BUILT:
                return check
        elif isinstance(check, EndFloat) and check.of == named(need) and check.state == BUILT:
            return check
    if isinstance(need, LashNeed):
        return Backlash(
            need.name,
            "backlash",
            mesh=need.mesh,
            on=need.on,
            at_radius=need.at_radius,
            torque=need.torque,
            pinion=need.pinion,
            wheel=need.wheel,
        )
    return EndFloat(f"end float of {named(need)}", "end float", of=named(need))


def _trials(asking: Asking, target: Target, part: str, packs: Packs) -> tuple[float, ...]:
    """List packs to try: what is fitted, else ever slacker ones from the drawer."""
    fitted = asking.rebuild.settings[part].fitted
    if fitted is not None:
        return (metres(fitted),)
    if isinstance(target.need, LashNeed):
        wished = ideal(asking, [target], part, packs)
        return tuple(p.thickness for p in nearest_packs(asking, part, wished)[:1])
    open_ = replace(target, need=travel(target.need), low=0.0, high=4 * LEAST_READ)
    wished = ideal(asking, [open_], part, packs)
    slope = pack_slope(asking, open_.need, {**packs, part: wished}, part)
    made = packs_about(
        asking.rebuild.settings[part], wished, asking.rebuild.system, within=MOST_MORE
    )
    slack = sorted((p.thickness for p in made), key=lambda t: t if slope > 0 else -t)
    return tuple(t for t in slack if (t - wished) * slope >= -DUST)


def as_found_start(asking: Asking, target: Target, part: str, packs: Packs) -> Start | str:
    """Start from the float that was read before the strip, or say why that cannot be."""
    rebuild, found = asking.rebuild, asking.rebuild.as_found
    check = _old_float(rebuild, target)
    if found is None or check is None:
        return "no float was read before the strip"
    if part not in found.sizes:
        return f"how thick {part} was before the strip is not written"
    old = found.readings[check.name]
    by = gauge(rebuild, old.instrument or check.by or "dial indicator")
    if by is None:
        return "the instrument of the old reading is not known"
    read, was = metres(old), metres(found.sizes[part])
    error = reading_error(asking.drawn.draws, ("as found", check.name), by, read)

    def typed(other: Asking) -> float:
        return float(_was(other, check, packs, other.nominal)[0])

    return Start(check, typed, _was(asking, check, packs, asking.drawn) + error, 1.0, was, (), read)


def _old_float(rebuild: Rebuild, target: Target) -> EndFloat | None:
    """Find the check of the same float that was read before the strip."""
    found = rebuild.as_found
    for name in found.readings if found else ():
        check = rebuild.checks.get(name)
        if isinstance(check, EndFloat) and check.of == named(target.need):
            return check
    return None


def _was(asking: Asking, check: EndFloat, packs: Packs, sample: Sample) -> Array:
    """Ask the model for the unit as it was: old sizes where they are written, else the same."""
    rebuild, found = asking.rebuild, asking.rebuild.as_found
    old = {
        k: _old_size(rebuild, sample.draws, k, s) for k, s in (found.sizes if found else {}).items()
    }
    before = replace(
        sample,
        sizes={**sample.sizes, **{k: v for k, v in old.items() if k in rebuild.sizes}},
        nipped={**sample.nipped, **{k: v for k, v in old.items() if k in sample.nipped}},
    )
    meant = {p: full(sample.draws, float(t)) for p, t in asking.with_fitted(packs).items()}
    meant |= {k: v for k, v in old.items() if k in rebuild.settings}
    return predict(rebuild, check, before, packs=meant, assumed=asking.assumed).shown


def _old_size(rebuild: Rebuild, draws: Draws, key: str, size: Size) -> Array:
    """Draw an old size, with an error of its own."""
    by = gauge(rebuild, size.instrument)
    return true_size(draws, ("as found", key), size, by) if by else full(draws, metres(size))
