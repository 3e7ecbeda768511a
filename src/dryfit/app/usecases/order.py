"""`order`: in which order a unit goes together, what each step hides, where builds stop."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryfit.app.usecases.opening import FindingAnswer, Opened, located, open_text
from dryfit.app.usecases.order_axes import left_lies, untold
from dryfit.app.usecases.order_checks import no_instrument, reading_of
from dryfit.app.usecases.order_job import job_of
from dryfit.app.usecases.order_own import wishes_of
from dryfit.app.usecases.order_presses import PressAnswer, presses, timed
from dryfit.app.usecases.order_schedule import PATIENCE, left_out
from dryfit.app.usecases.order_tools import no_spanner, shut_nuts, trial_fit, under_rings
from dryfit.app.usecases.order_unit import LineOf, Unit, unit_of
from dryfit.app.usecases.order_work import WorkAnswer, works
from dryfit.ask.asking import Asking
from dryfit.document.wishes import WAY_OUT, wish_of
from dryfit.model.own_steps import Wish
from dryfit.model.rebuild import Rebuild
from dryfit.plan.actions import Act, Job, Step
from dryfit.plan.cautions import cautions
from dryfit.plan.placing import Turn, turns
from dryfit.plan.tangles import tangles
from dryfit.plan.trial import trial
from dryfit.plan.undoing import BEST, Comparison, Schedule, Stop, compare
from dryfit.quantities import Finding
from dryfit.solve.pressing import unmeasured
from dryfit.solve.rings import INNER


@dataclass(frozen=True)
class OrderRequest:
    """A text, and wishes such as `cover before nut`."""

    data: bytes
    pins: tuple[str, ...] = ()


@dataclass(frozen=True)
class StepAnswer:
    """One step of assembly.

    Attributes
    ----------
    name, act
        The step and what is done in it.
    hides
        Checks, services and nuts to tighten for which it is the last chance before.
    mind
        What to mind.
    stops
        Of a check: chance that a build stops here [-].
    off
        Of a check: steps that come off then, on average.
    words
        Of a check: the same in words.
    presses
        Tight rings that go home in it.
    work
        What it works on, by what, and which faces it hides.
    """

    name: str
    act: str
    hides: tuple[str, ...]
    mind: tuple[str, ...]
    stops: float | None = None
    off: float | None = None
    words: str = ""
    presses: tuple[PressAnswer, ...] = ()
    work: WorkAnswer = WorkAnswer()


@dataclass(frozen=True)
class OffAnswer:
    """One step of taking a line apart.

    Attributes
    ----------
    line, parts, way
        What comes off, and by which way.
    past
        What would stop it by a size that nobody has typed.
    kinds
        Kinds of part that come off, for what to note of them.
    there
        All on that line that is still together, what comes off among it.
    """

    line: str
    parts: tuple[str, ...]
    way: str
    past: tuple[str, ...]
    kinds: tuple[str, ...] = ()
    there: tuple[str, ...] = ()


@dataclass(frozen=True)
class ScheduleAnswer:
    """What an order is expected to cost in undoing, in steps and in minutes."""

    name: str
    steps: float
    minutes: float


@dataclass(frozen=True)
class TrialAnswer:
    """A trial build first, beside building straight on.

    Attributes
    ----------
    left_out
        What is left out of it, in words.
    anew
        Steps that are done twice.
    dry_minutes, anew_minutes, after_minutes
        Undoing in the trial build, strip and building again, undoing after it.
    trial_minutes, straight_minutes
        All of the trial build; undoing when it is built straight on.
    trial_steps, straight_steps
        The same in steps.
    """

    left_out: str
    anew: tuple[str, ...]
    dry_minutes: float
    anew_minutes: float
    after_minutes: float
    trial_minutes: float
    straight_minutes: float
    trial_steps: float
    straight_steps: float


@dataclass(frozen=True)
class OrderAnswer:
    """The order of a rebuild.

    Attributes
    ----------
    title
        Of the rebuild.
    answered
        Whether there is an order.
    findings
        All that is wrong or doubtful.
    steps
        In the best order.
    quality
        How good it is: best, or best found with what cannot be beaten.
    at_last
        What is found when the finished unit is tried, in words.
    schedules
        The best order beside others.
    strip
        How each line comes apart.
    told_risks
        Whether it is known what may go wrong; not where a size is lacking.
    untold_lines
        Pairs of lines of which it is not looked at what parts of one stop of the other's.
    trial
        A trial build first; None where there is nothing to grease, seal or lock.
    """

    title: str
    answered: bool
    findings: tuple[FindingAnswer, ...]
    steps: tuple[StepAnswer, ...] = ()
    quality: str = ""
    at_last: str = ""
    schedules: tuple[ScheduleAnswer, ...] = ()
    strip: tuple[OffAnswer, ...] = ()
    told_risks: bool = False
    untold_lines: tuple[str, ...] = ()
    trial: TrialAnswer | None = None


def order(request: OrderRequest) -> OrderAnswer:
    """Find the order of a rebuild."""
    return order_of(open_text(request.data), request.pins)


def strip_of(opened: Opened) -> OrderAnswer:
    """Say how each line comes apart, and no more; not even that where the text stops it."""
    title = opened.rebuild.title
    if opened.stopped:
        return OrderAnswer(title, False, ())
    unit = unit_of(opened.rebuild)
    return OrderAnswer(title, False, located(opened, _locked(unit.lines)), strip=_strip(unit))


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
        *_locked(lines),
        *left_lies(unit.casing),
        *_unread(rebuild, job),
        *wrong,
    ]
    if wrong:
        findings = (*opened.findings, *located(opened, told))
        return OrderAnswer(rebuild.title, False, findings, strip=_strip(unit))
    job = timed(job, unit)
    found = compare(job, widths=PATIENCE)
    best = next(one for one in found.schedules if one.name == BEST)
    told += [*no_spanner(unit, best.order), *no_instrument(unit, best.order), *_unmeasured(rebuild)]
    findings = (*opened.findings, *located(opened, told))
    return OrderAnswer(
        rebuild.title,
        True,
        findings,
        _steps(job, unit, best),
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


def _locked(lines: Sequence[LineOf]) -> list[Finding]:
    """Tell bodies that come off no way."""
    way_out = (
        "measure the diameters named; or write how it gets in: opening: or split along: on the "
        "case, gears put on: on a shaft whose wheel comes off"
    )
    found = []
    for line in lines:
        for name, need in line.built.strip.locked.items():
            message = f"'{name}' does not come off along '{line.name}' ({need})"
            found.append(Finding("plan.no way", ("lines", line.name), message, way_out, "note"))
    return found


def _unmeasured(rebuild: Rebuild) -> list[Finding]:
    """Tell once of which bearings it is not known how tight they go home."""
    names = unmeasured(rebuild)
    told = ", ".join(f"'{name}'" for name in names)
    message = f"not measured, on its seat or in its pocket, how tight it sits: {told}"
    way_out = "feel whether each ring is tight before it goes home: what does not slide is pressed"
    return [Finding("plan.fits", ("parts",), message, way_out, "note")] if names else []


def _unread(rebuild: Rebuild, job: Job) -> list[Finding]:
    """Tell checks that no order has room for."""
    way_out = "read it when the unit is first tried together, before the build"
    return [
        Finding(
            "plan.unread",
            ("checks", name),
            f"'{name}' cannot be read on the way: parts would have to come off again",
            way_out,
            "note",
        )
        for name in rebuild.checks
        if reading_of(name) not in job.named
    ]


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


def _steps(job: Job, unit: Unit, best: Schedule) -> tuple[StepAnswer, ...]:
    """Say everything of each step, in the best order."""
    stops = {stop.check: stop for stop in best.steps.stops}
    lines, tight, shut = unit.lines, presses(unit, best.order), shut_nuts(unit, best.order)
    answers, done = [], list[str]()
    told = turns(job, best.order)
    for turn, work in zip(told, works(unit, job, told, tight), strict=True):
        name = turn.step.name
        mind = (*_own_mind(unit.rebuild, turn), *_mind(lines, name, done))
        mind += trial_fit(unit, name, done)
        mind += tuple(t for n in lines for t in under_rings(n, name, done))
        own = tight.get(name, ())
        act = _act(lines, turn.step, own)
        hides = (*(f"tighten {nut}" for nut in shut.get(name, ())), *turn.hides)
        bare = StepAnswer(name, act, hides, mind, presses=own, work=work)
        answers.append(_with_stop(bare, stops.get(name)))
        done.append(name)
    return tuple(answers)


def _act(lines: Sequence[LineOf], step: Step, tight: tuple[PressAnswer, ...]) -> str:
    """Say what is done in a step; of a group, into which case it goes."""
    sides = {one.ring for one in tight if not one.sprung}
    if step.act is Act.PUT and sides:
        return Act.PRESS.value if INNER in sides else "press in"
    for line in lines:
        if step.act is Act.ENTER and step.name in line.built.inside and line.laid.cases:
            return f"into {' and '.join(line.laid.cases)}"
    return step.act.value


def _with_stop(answer: StepAnswer, stop: Stop | None) -> StepAnswer:
    if stop is None:
        return answer
    return replace(answer, stops=stop.chance, off=stop.off, words=stop.words)


def _own_mind(rebuild: Rebuild, turn: Turn) -> tuple[str, ...]:
    """Say what the user bids to mind in a step, and that there is no way back from it."""
    own = rebuild.steps.get(turn.step.name)
    return tuple(told for told in (own.mind if own else None, turn.no_return) if told)


def _mind(lines: Sequence[LineOf], name: str, done: Sequence[str]) -> tuple[str, ...]:
    """Say what to mind when a body, or what yields of a unit, goes on by the way it came off."""
    for line in lines:
        bodies = line.built.inside.get(name, (name,))
        for taken in line.built.strip.taken:
            if taken.bodies == bodies and taken.way in line.nest.ways:
                own = [b for b in bodies if bodies == (name,) or line.nest.yields(b)]
                there = _there(line, bodies, done)
                told = (cautions(line.nest, body, taken.way, there=there) for body in own)
                return tuple(text for texts in told for text in texts)
    return ()


def _there(line: LineOf, bodies: Sequence[str], done: Sequence[str]) -> int:
    """Give the bodies that are in place, besides some that go on."""
    at = line.nest.at
    there = {name for name in at if name in done} | ({*at} - line.moved)
    return line.nest.mask(there - {*bodies})
