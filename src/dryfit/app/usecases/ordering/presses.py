"""In which step of an order a tight ring goes home."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from dryfit.app.usecases.ordering.pulling import Kept, body_of, kept_out
from dryfit.app.usecases.ordering.unit import LineOf, Unit
from dryfit.mechanics.press import HOTTEST_PLAIN_RING, HOTTEST_RING
from dryfit.model.filled import filled
from dryfit.model.parts import Bearing
from dryfit.plan.actions import Job, Step
from dryfit.plan.masks import masks_of
from dryfit.plan.tight import Ring, with_rings
from dryfit.solve.pressing import Pressing

ZERO_C = 273.15
"""0 C [K], exactly: the definition of the degree Celsius."""

ROLLS = {"taper roller": "rollers", "cylindrical roller": "rollers"}
"""What rolls in a bearing where it is not balls, by kind."""


@dataclass(frozen=True)
class PressAnswer:
    """A tight ring that goes home in a step.

    Attributes
    ----------
    bearing, ring, host
        Which ring of what, and what it grips; it is this ring that takes the load.
    rolls
        What must not: balls or rollers; empty of a plain ring.
    force_n
        To press it home [N].
    most_n
        Beyond this it is askew or seizes [N].
    warm_c
        How warm it must be to slip on, or, of an outer ring, what it goes in [C].
    sprung
        Whether a spring pushes on it, so that it ought to slide instead.
    filled
        Whether the bearing is sealed, greased for life or has a plastic cage; None if not told.
    sleeve_shut
        Parts that keep a sleeve from its face as it goes home; none: it is pressed.
    puller_shut
        Parts that keep a puller from getting behind it once it is home; none: it is drawn off.
    alone
        Whether it comes off by itself, as a cone or a spacer; else two rings hang together.
    """

    bearing: str
    ring: str
    host: str
    rolls: str
    force_n: float
    most_n: float
    warm_c: float
    sprung: bool = False
    filled: bool | None = None
    sleeve_shut: tuple[str, ...] = ()
    puller_shut: tuple[str, ...] = ()
    alone: bool = False

    @property
    def may_be_warm(self) -> bool:
        """Whether it may be made as warm as it has to be, sealed and greased ones apart.

        >>> collar = PressAnswer("collar", "inner ring", "shaft", "", 900, 2000, 150)
        >>> collar.may_be_warm, replace(collar, rolls="balls").may_be_warm
        (True, False)
        """
        return self.warm_c <= (HOTTEST_RING if self.rolls else HOTTEST_PLAIN_RING) - ZERO_C

    @property
    def is_cut(self) -> bool:
        """Whether it only comes off cut: no puller gets behind it, nor has it a second ring."""
        return self.alone and bool(self.puller_shut)

    @property
    def told(self) -> str:
        """How it is called: which ring of what; a plain ring by its name."""
        return f"{self.ring} of '{self.bearing}'" if self.rolls else f"ring '{self.bearing}'"


def presses(unit: Unit, order: Sequence[str]) -> Mapping[str, tuple[PressAnswer, ...]]:
    """Say for each step of an order which tight rings go home in it."""
    lines = {line.name: line for line in unit.lines}
    found: dict[str, tuple[PressAnswer, ...]] = {}
    for one in unit.tight:
        line = lines[one.line]
        step = _step(line, one, order)
        if step is not None:
            answer = _answer(unit, one, kept_out(unit, one, order, step))
            found[step] = (*found.get(step, ()), answer)
    return found


def timed(job: Job, unit: Unit) -> Job:
    """Count pressing, warming and drawing off in the steps in which tight rings go home."""
    masks = masks_of(job)
    tight = presses(unit, [masks.names[step] for step in masks.some_order()])

    def rings(step: Step) -> list[Ring]:
        return [
            Ring(one.force_n, sleeved=not one.sleeve_shut, drawn=not one.is_cut)
            for one in tight.get(step.name, ())
            if not one.sprung
        ]

    return replace(job, drawn=tuple(with_rings(step, rings(step)) for step in job.drawn))


def _answer(unit: Unit, one: Pressing, kept: Kept) -> PressAnswer:
    part = unit.rebuild.parts[one.bearing]
    rolls = ROLLS.get(part.kind, "balls") if isinstance(part, Bearing) else ""
    warm = one.warm - ZERO_C
    return PressAnswer(
        one.bearing,
        one.ring,
        one.host,
        rolls,
        one.force,
        one.most,
        warm,
        one.sprung,
        filled(part) if isinstance(part, Bearing) else None,
        kept.sleeve,
        kept.puller,
        kept.alone,
    )


def _step(line: LineOf, one: Pressing, order: Sequence[str]) -> str | None:
    """Name the step that brings a ring and what it grips together: the later of theirs.

    What is dressed on the bench moves as one, so only within it do its own steps count.
    """
    body, units = body_of(line, one), line.units
    together = units.get(body) == units.get(one.host)
    names = [name if together else units.get(name, name) for name in (body, one.host)]
    return max((name for name in names if name in order), key=order.index, default=None)
