"""`order`: in which order a unit goes together, what each step hides, where builds stop."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryfit.app.usecases.opening import FindingAnswer, Opened, located, open_text
from dryfit.app.usecases.order_job import LineOf, Unit, job_of, reading_of, unit_of
from dryfit.app.usecases.order_presses import PressAnswer, presses
from dryfit.app.usecases.order_work import WorkAnswer, works
from dryfit.model.rebuild import Rebuild
from dryfit.plan.actions import Act, Job, Pin, Step, Wishes
from dryfit.plan.cautions import cautions
from dryfit.plan.placing import turns
from dryfit.plan.tangles import tangles
from dryfit.plan.undoing import BEST, Comparison, Schedule, Stop, compare
from dryfit.quantities import Finding
from dryfit.solve.rings import INNER

PATIENCE = (300, 1_000)
"""How many sets of steps of a size are kept: a unit of sixty steps takes some seconds."""

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


def order_of(opened: Opened, typed: Sequence[str] = ()) -> OrderAnswer:
    """Find the order of a rebuild that was opened."""
    rebuild = opened.rebuild
    if opened.stopped:
        return OrderAnswer(rebuild.title, False, opened.findings)
    unit = unit_of(rebuild)
    lines = unit.lines
    wishes, slips = _wishes(typed)
    job = job_of(unit, wishes)
    wrong = [*slips, *tangles(job)]
    told = [*_locked(lines), *_unread(rebuild, job), *wrong]
    findings = (*opened.findings, *located(opened, told))
    if wrong:
        return OrderAnswer(rebuild.title, False, findings, strip=_strip(unit))
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
        _strip(unit),
        bool(job.risks),
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
    lines, tight = unit.lines, presses(unit, best.order)
    answers, done = [], list[str]()
    told = turns(job, best.order)
    for turn, work in zip(told, works(unit, job, told, tight), strict=True):
        name = turn.step.name
        mind = _mind(lines, name, done)
        own = tight.get(name, ())
        act = _act(lines, turn.step, own)
        bare = StepAnswer(name, act, turn.hides, mind, presses=own, work=work)
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
