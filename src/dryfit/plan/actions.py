"""What a plan is made of: steps with what must come before them, risks, and the user's wishes.

Reading order: acts, ways, steps, risks, wishes, the job they make together. A check is a step too,
one that reads instead of adding something. Of a step only two things matter to its order: what it
comes after, and the ways to it, each shut by the steps that hide or block it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from dryfit.quantities.finding import Place


class Act(Enum):
    """What is done in a step."""

    TAKE = "take"
    PUT = "put on"
    ENTER = "put in"
    PRESS = "press on"
    HEAT = "fit hot"
    SCREW = "screw up"
    CLOSE = "close"
    GREASE = "grease"
    SEAL = "seal"
    LOCK = "lock"
    SERVE = "see to"
    READ = "read"
    OTHER = "do"


READS = frozenset({Act.READ})
"""Acts that only look: nothing has to be taken back."""

SERVICES = frozenset({Act.GREASE, Act.SEAL, Act.LOCK, Act.SERVE})
"""Acts that are wasted if the unit has to come apart again: as late as can be."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way to do a step: from an end, with a spanner, by a feeler.

    Attributes
    ----------
    name
        As it is told: "from cover".
    shut_by
        Steps after which it is no longer open.
    """

    name: str
    shut_by: frozenset[str] = frozenset()


ANY_WAY = Way("any")
"""The way to what can be done however the unit lies."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One act of assembly, or one check.

    Attributes
    ----------
    name
        Its name; no two are the same.
    act
        What is done.
    minutes, undo
        What it takes to do, and to take back [min].
    station
        Where it is done, such as the press; empty where the unit happens to stand.
    after
        Steps that come before it, in whatever order.
    ways
        The ways to it; one that is open is enough. None at all: always open.
    once
        Whether to take it off again spoils it, such as a plug that is driven in.
    place
        Where it was typed, if it was.
    """

    name: str
    act: Act = Act.PUT
    minutes: float = 1.0
    undo: float = 1.0
    station: str = ""
    after: frozenset[str] = frozenset()
    ways: tuple[Way, ...] = ()
    once: bool = False
    place: Place = ()

    @property
    def reads(self) -> bool:
        """Whether it is a check."""
        return self.act in READS

    @property
    def serves(self) -> bool:
        """Whether it greases, seals, locks or is another service."""
        return self.act in SERVICES


@dataclass(frozen=True, slots=True)
class Risk:
    """Something that may go wrong in a step, and what shows it.

    Attributes
    ----------
    words
        What is wrong.
    chance
        That it happens [-].
    born
        The step in which it happens.
    seen
        By check, the share in which the check shows it [-]. What no check shows is found when the
        finished unit is tried.
    again
        Whether it may happen each time the step is done; else it is right for good once mended.
    """

    words: str
    chance: float
    born: str
    seen: Mapping[str, float] = field(default_factory=dict)
    again: bool = True


@dataclass(frozen=True, slots=True)
class Pin:
    """A wish: one step before another."""

    first: str
    then: str
    place: Place = ()


@dataclass(frozen=True, slots=True)
class Ban:
    """A wish: a way that is not to be used."""

    step: str
    way: str
    place: Place = ()


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the user adds to what the shapes say: own steps, pins, ways not to be used."""

    steps: tuple[Step, ...] = ()
    pins: tuple[Pin, ...] = ()
    bans: tuple[Ban, ...] = ()


NO_WISHES = Wishes()
"""Nothing is wished."""


@dataclass(frozen=True, slots=True)
class Job:
    """All steps of a unit in the order of the drawing, what may go wrong in them, and wishes.

    Examples
    --------
    >>> nut = Step(name="nut", after=frozenset({"ring"}))
    >>> job = Job((Step(name="ring"), nut), wishes=Wishes(pins=(Pin("paint", "nut"),)))
    >>> sorted(job.before(nut))
    ['paint', 'ring']
    """

    drawn: tuple[Step, ...]
    risks: tuple[Risk, ...] = ()
    wishes: Wishes = NO_WISHES

    @property
    def steps(self) -> tuple[Step, ...]:
        """All steps, the user's own last."""
        return self.drawn + self.wishes.steps

    @property
    def named(self) -> dict[str, Step]:
        """The steps by name."""
        return {step.name: step for step in self.steps}

    @property
    def checks(self) -> tuple[Step, ...]:
        """The steps that read."""
        return tuple(step for step in self.steps if step.reads)

    def before(self, step: Step) -> frozenset[str]:
        """Name the steps that come straight before one, pins included."""
        return step.after | {pin.first for pin in self.wishes.pins if pin.then == step.name}

    def ways(self, step: Step) -> tuple[Way, ...]:
        """Give the ways to a step that may be used; one that is always open where none is told."""
        banned = {ban.way for ban in self.wishes.bans if ban.step == step.name}
        return tuple(way for way in step.ways or (ANY_WAY,) if way.name not in banned)
