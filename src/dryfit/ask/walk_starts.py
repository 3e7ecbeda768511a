"""The walk that was read as a start: the height of its line, as read and draw by draw.

Each draw reads every pack again with its errors; what the line makes of them is gone by.
"""

from dataclasses import replace

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.starts import Start
from dryfit.ask.targets import Target, named
from dryfit.ask.written_walks import TakenWalk, by_pack, gauges, open_pack
from dryfit.model.rebuild import EndFloat, Walked
from dryfit.quantities import Mark
from dryfit.solve.luck import Array, full
from dryfit.solve.sizes import gauge, making_error, true_size


def walked_by(asking: Asking, target: Target, part: str) -> Walked | None:
    """Find the walk that reads the float a target is about, with packs of a setting."""
    checks = asking.rebuild.checks
    for written in asking.rebuild.walks.values():
        check = checks[written.check]
        mine = isinstance(check, EndFloat) and check.of == named(target.need)
        if mine and written.with_ == part and written.steps:
            return written
    return None


def walk_start(asking: Asking, target: Target, part: str, packs: Packs) -> Start | None:
    """Start from the line of a walk that was read, as high as it lies at its slackest pack.

    Parameters
    ----------
    asking
        The unit, sizes that are not known stood in for [asking]
    target
        What is wanted [target]
    part
        The setting [text]
    packs
        Thickness of the others [m]

    Returns
    -------
    start
        None where there is no walk, or none that can be gone by [start]

    Valid
    -----
    Floats that follow the pack evenly.

    Source
    ------
    As `ask.walk`: the line is the weighted mean of its readings.

    Examples
    --------
    See tests/ask/test_written_walks.py.
    """
    written = walked_by(asking, target, part)
    check = asking.rebuild.checks[written.check] if written else None
    if written is None or not isinstance(check, EndFloat):
        return None
    taken = by_pack(asking, written, check, target=target, packs=packs)
    found = open_pack(asking, check, part, packs)
    if taken is None or found is None or not taken.clear:
        return None
    here, begin = {**packs, part: found[0]}, taken.readings[0]
    to_begin = taken.slope * (begin.mark - found[0])
    errors = _errors(asking, taken)

    def typed(other: Asking) -> float:
        standing = replace(asking, assumed=other.assumed)
        return float(standing.as_typed(check, here).shown[0]) + to_begin

    return Start(
        check,
        typed,
        asking.true(check, here).shown + to_begin + errors,
        1.0,
        begin.mark,
        taken=taken.walk.looked.line.read_at(begin.mark) if taken.walk else begin.read,
        trials=tuple(reading.mark for reading in taken.readings),
        walked=True,
    )


def _errors(asking: Asking, taken: TakenWalk) -> Array:
    """Draw by how much the line may lie too high for the pack that is made next [m], shape (n,).

    What is fitted next is measured anew: of the error of its making, which the model puts into
    every pack, only what all packs have in common was in those that were read.
    """
    draws, rebuild = asking.drawn.draws, asking.rebuild
    setting = rebuild.settings.get(taken.part)
    made = making_error(draws, taken.part, setting, gauge(rebuild, "micrometer"))
    left_out = taken.walk.looked.left_out if taken.walk else ()
    total, weights = full(draws, 0.0), 0.0
    for n, (step, reading) in enumerate(zip(taken.steps, taken.readings, strict=True)):
        if n in left_out or isinstance(step.at, Mark):
            continue
        dial, over = gauges(asking, taken.check, step)
        key = ("walks", taken.check.name, step.key)
        read = true_size(draws, (*key, "read"), step.read, dial) - reading.read
        pack = true_size(draws, (*key, "pack"), step.at, over) - reading.mark
        weight = 1 / (reading.read_error**2 + (taken.slope * reading.mark_error) ** 2)
        total = total + weight * (taken.slope * pack - read)
        weights += weight
    line: Array = total / weights - taken.slope * made
    return line
