"""`order`: in which order a unit goes together, what each step hides, where builds stop."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryfit.app.usecases.opening import FindingAnswer, Opened, located, open_text
from dryfit.app.usecases.order_job import LineOf, Unit, job_of, reading_of, unit_of
from dryfit.app.usecases.order_presses import PressAnswer, presses, timed
from dryfit.app.usecases.order_schedule import PATIENCE, left_out
from dryfit.ask.asking import Asking
from dryfit.model.rebuild import Rebuild
from dryfit.plan.actions import Act, Job, Pin, Step, Wishes
from dryfit.plan.cautions import cautions
from dryfit.plan.placing import turns
from dryfit.plan.tangles import tangles
from dryfit.plan.trial import trial
from dryfit.plan.undoing import BEST, Comparison, Schedule, Stop, compare
from dryfit.quantities import Finding
from dryfit.solve.rings import INNER

PINNED = " before "
"""What stands between two steps in a wish."""


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
        Checks and services for which it is the last chance before.
    mind
        What to mind, among them what is spoiled by taking off.
    stops
        Of a check: chance that a build stops here [-].
    off
        Of a check: steps that come off then, on average.
    words
        Of a check: the same in words.
    presses
        Tight rings that go home in it.
    """

    name: str
    act: str
    hides: tuple[str, ...]
    mind: tuple[str, ...]
    stops: float | None = None
    off: float | None = None
    words: str = ""
    presses: tuple[PressAnswer, ...] = ()


@dataclass(frozen=True)
class OffAnswer:
    """One step of taking a line apart.

    Attributes
    ----------
    line, parts, way
        What comes off, and by which way.
    past
        What would stop it by a size that nobody has typed.
    """

    line: str
    parts: tuple[str, ...]
    way: str
    past: tuple[str, ...]


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
    trial: TrialAnswer | None = None


def order(request: OrderRequest) -> OrderAnswer:
    """Find the order of a rebuild."""
    return order_of(open_text(request.data), request.pins)


def strip_of(opened: Opened) -> OrderAnswer:
    """Say how each line comes apart, and no more; not even that where the text stops it."""
    title = opened.rebuild.title
    if opened.stopped:
        return OrderAnswer(title, False, ())
    lines = unit_of(opened.rebuild).lines
    return OrderAnswer(title, False, located(opened, _locked(lines)), strip=_strip(lines))


def order_of(
    opened: Opened, typed: Sequence[str] = (), *, asking: Asking | None = None
) -> OrderAnswer:
    """Find the order of a rebuild that was opened, sooner by an asking that was asked before."""
    rebuild = opened.rebuild
    if opened.stopped:
        return OrderAnswer(rebuild.title, False, opened.findings)
    unit = unit_of(rebuild)
    lines = unit.lines
    wishes, slips = _wishes(typed)
    job = job_of(unit, wishes, asking)
    wrong = [*slips, *tangles(job)]
    told = [*_locked(lines), *_unread(rebuild, job), *wrong]
    findings = (*opened.findings, *located(opened, told))
    if wrong:
        return OrderAnswer(rebuild.title, False, findings, strip=_strip(lines))
    job = timed(job, unit)
    found = compare(job, widths=PATIENCE)
    best = next(one for one in found.schedules if one.name == BEST)
    return OrderAnswer(
        rebuild.title,
        True,
        findings,
        _steps(job, unit, best),
        found.best.words,
        best.steps.stops[-1].words,
        _schedules(found),
        _strip(lines),
        bool(job.risks),
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


def _wishes(typed: Sequence[str]) -> tuple[Wishes, list[Finding]]:
    """Read pins; say which cannot be."""
    pins, slips = [], []
    for text in typed:
        first, word, then = (part.strip() for part in text.partition(PINNED))
        if word and first and then:
            pins.append(Pin(first, then))
        else:
            way_out = 'write a step, the word before, and a step: "cover before nut"'
            slips.append(Finding("plan.pin", (), f"'{text}' is no wish", way_out))
    return Wishes(pins=tuple(pins)), slips


def _locked(lines: Sequence[LineOf]) -> list[Finding]:
    """Tell bodies that come off no way."""
    way_out = "it goes in by an opening that the line does not show, or a diameter is a slip"
    found = []
    for line in lines:
        for name, need in line.built.strip.locked.items():
            message = f"'{name}' does not come off along '{line.name}' ({need})"
            found.append(Finding("plan.no way", ("lines", line.name), message, way_out, "note"))
    return found


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


def _strip(lines: Sequence[LineOf]) -> tuple[OffAnswer, ...]:
    return tuple(
        OffAnswer(line.name, taken.bodies, taken.way, taken.past)
        for line in lines
        for taken in line.built.strip.taken
    )


def _schedules(found: Comparison) -> tuple[ScheduleAnswer, ...]:
    return tuple(
        ScheduleAnswer(one.name, one.steps.together, one.minutes.together)
        for one in found.schedules
    )


def _steps(job: Job, unit: Unit, best: Schedule) -> tuple[StepAnswer, ...]:
    """Say everything of each step, in the best order."""
    stops = {stop.check: stop for stop in best.steps.stops}
    lines, tight = unit.lines, presses(unit, best.order)
    answers, done = [], list[str]()
    for turn in turns(job, best.order):
        name = turn.step.name
        mind = (*([turn.no_return] if turn.no_return else []), *_mind(lines, name, done))
        own = tight.get(name, ())
        bare = StepAnswer(name, _act(lines, turn.step, own), turn.hides, mind, presses=own)
        answers.append(_with_stop(bare, stops.get(name)))
        done.append(name)
    return tuple(answers)


def _act(lines: Sequence[LineOf], step: Step, tight: tuple[PressAnswer, ...]) -> str:
    """Say what is done in a step; of a group, into which case it goes."""
    sides = {one.ring for one in tight if not one.sprung}
    if step.act is Act.PUT and sides:
        return Act.PRESS.value if INNER in sides else "press in"
    for line in lines:
        if step.act is Act.ENTER and step.name in line.built.inside and line.cases:
            return f"into {' and '.join(line.cases)}"
    return step.act.value


def _with_stop(answer: StepAnswer, stop: Stop | None) -> StepAnswer:
    if stop is None:
        return answer
    return replace(answer, stops=stop.chance, off=stop.off, words=stop.words)


def _mind(lines: Sequence[LineOf], name: str, done: Sequence[str]) -> tuple[str, ...]:
    """Say what to mind when a body goes on by the way that it came off."""
    for line in lines:
        for taken in line.built.strip.taken:
            if taken.bodies == (name,) and taken.way in line.nest.ways:
                there = line.nest.mask(n for n in {*done, name} if n in line.nest.at)
                fixed = line.nest.full & ~line.nest.mask(
                    body for one in line.built.strip.taken for body in one.bodies
                )
                return cautions(line.nest, name, taken.way, there=there | fixed)
    return ()
