"""What the order answers: steps with their work, how each line comes apart, orders compared."""

from dataclasses import dataclass

from dryfit.app.usecases.opening import FindingAnswer
from dryfit.app.usecases.ordering.no_return import NoReturnAnswer
from dryfit.app.usecases.ordering.presses import PressAnswer


@dataclass(frozen=True)
class HiddenAnswer:
    """A face that a step hides, seen along the line.

    Attributes
    ----------
    mark
        Its letter in the picture of the step; empty where it is not marked there.
    face
        As the text has it: `case.joint`.
    line
        On which line.
    at_mm
        Where it lies along that.
    radii_mm
        From which to which radius it reaches.
    """

    mark: str
    face: str
    line: str
    at_mm: float
    radii_mm: tuple[float, float]


@dataclass(frozen=True)
class WorkAnswer:
    """What a step works on; all empty where it is about no part of a line.

    Attributes
    ----------
    line
        The line it is done on.
    puts
        What goes on or in: parts, or rings of a bearing that comes apart.
    about
        What it is done to or read on, where nothing goes on.
    there
        All that hangs together when it is done; what lies ready elsewhere is not among it.
    side
        The end of the line that it comes from, "outside" if across the axis; empty if unknown.
    tools
        By what it is done.
    torque
        As typed; empty where it is not known; None where nothing is tightened to a torque.
    hidden
        Faces it hides, the largest first.
    no_return
        Why there is no easy way back.
    """

    line: str = ""
    puts: tuple[str, ...] = ()
    about: tuple[str, ...] = ()
    there: tuple[str, ...] = ()
    side: str = ""
    tools: tuple[str, ...] = ()
    torque: str | None = None
    hidden: tuple[HiddenAnswer, ...] = ()
    no_return: tuple[NoReturnAnswer, ...] = ()


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
