"""`order`: in which order a unit goes together, what each step hides, where builds stop."""

from collections.abc import Sequence
from dataclasses import dataclass

from dryfit.app.usecases.opening import Opened, located, open_text
from dryfit.app.usecases.ordering.answers import (
    OffAnswer,
    OrderAnswer,
    ScheduleAnswer,
    TrialAnswer,
)
from dryfit.app.usecases.ordering.axes import left_lies, untold
from dryfit.app.usecases.ordering.checks import no_instrument
from dryfit.app.usecases.ordering.findings import locked, unmeasured_fits, unread
from dryfit.app.usecases.ordering.job import job_of
from dryfit.app.usecases.ordering.own import wishes_of
from dryfit.app.usecases.ordering.presses import timed
from dryfit.app.usecases.ordering.schedule import PATIENCE, left_out
from dryfit.app.usecases.ordering.steps import steps_of
from dryfit.app.usecases.ordering.tools import no_spanner
from dryfit.app.usecases.ordering.unit import Unit, unit_of
from dryfit.ask.asking import Asking
from dryfit.document.wishes import WAY_OUT, wish_of
from dryfit.model.own_steps import Wish
from dryfit.plan.actions import Job
from dryfit.plan.tangles import tangles
from dryfit.plan.trial import trial
from dryfit.plan.undoing import BEST, Comparison, Schedule, compare
from dryfit.quantities import Finding


@dataclass(frozen=True)
class OrderRequest:
    """A text, and wishes such as `cover before nut`."""

    data: bytes
    pins: tuple[str, ...] = ()


def order(request: OrderRequest) -> OrderAnswer:
    """Find the order of a rebuild."""
    return order_of(open_text(request.data), request.pins)


def strip_of(opened: Opened) -> OrderAnswer:
    """Say how each line comes apart, and no more; not even that where the text stops it."""
    title = opened.rebuild.title
    if opened.stopped:
        return OrderAnswer(title, False, ())
    unit = unit_of(opened.rebuild)
    return OrderAnswer(title, False, located(opened, locked(unit.lines)), strip=_strip(unit))


def order_of(
    opened: Opened, typed: Sequence[str] = (), *, asking: Asking | None = None
) -> OrderAnswer:
    """Find the order of a rebuild that was opened, sooner by an asking that was asked before."""
    rebuild = opened.rebuild
    if opened.stopped:
        return OrderAnswer(rebuild.title, False, opened.findings)
    unit = unit_of(rebuild)
    lines = unit.lines
    wished, slips = _typed(typed)
    wishes, lost = wishes_of(unit, wished)
    job = job_of(unit, wishes, asking)
    wrong = [*slips, *lost, *tangles(job)]
    told = [
        *(lap for line in lines for lap in line.laid.laps),
        *locked(lines),
        *left_lies(unit.casing),
        *unread(rebuild, job),
        *wrong,
    ]
    if wrong:
        findings = (*opened.findings, *located(opened, told))
        return OrderAnswer(rebuild.title, False, findings, strip=_strip(unit))
    job = timed(job, unit)
    found = compare(job, widths=PATIENCE)
    best = next(one for one in found.schedules if one.name == BEST)
    told += [
        *no_spanner(unit, best.order),
        *no_instrument(unit, best.order),
        *unmeasured_fits(rebuild),
    ]
    findings = (*opened.findings, *located(opened, told))
    return OrderAnswer(
        rebuild.title,
        True,
        findings,
        steps_of(job, unit, best),
        found.best.words,
        best.steps.stops[-1].words,
        _schedules(found),
        _strip(unit),
        bool(job.risks),
        untold(unit.casing),
        _trial(job, best),
    )


def _trial(job: Job, best: Schedule) -> TrialAnswer | None:
    """Set a trial build beside the best order."""
    tried = trial(job, best.order, PATIENCE) if job.risks else None
    if tried is None:
        return None
    minutes, steps = tried.minutes, tried.steps
    return TrialAnswer(
        left_out(tried),
        tried.anew,
        minutes.dry,
        minutes.anew,
        minutes.after,
        minutes.trial,
        minutes.straight,
        steps.trial,
        steps.straight,
    )


def _typed(typed: Sequence[str]) -> tuple[list[Wish], list[Finding]]:
    """Read wishes that are typed beside the document; say which are none."""
    read = [(text, wish_of(text)) for text in typed]
    slips = [
        Finding("plan.pin", (), f"'{text}' is no wish", WAY_OUT) for text, wish in read if not wish
    ]
    return [wish for _, wish in read if wish], slips


def _strip(unit: Unit) -> tuple[OffAnswer, ...]:
    """Say how each line comes apart, and what is still together at each turn."""
    found = []
    for line in unit.lines:
        there = list(line.nest.at)
        kinds = {step: unit.rebuild.parts[p].kind for p, own in line.parts.items() for step in own}
        for taken in line.built.strip.taken:
            own = tuple(kinds[body] for body in taken.bodies if body in kinds)
            off = OffAnswer(line.name, taken.bodies, taken.way, taken.past, own, tuple(there))
            found.append(off)
            there = [body for body in there if body not in taken.bodies]
    return tuple(found)


def _schedules(found: Comparison) -> tuple[ScheduleAnswer, ...]:
    return tuple(
        ScheduleAnswer(one.name, one.steps.together, one.minutes.together)
        for one in found.schedules
    )
