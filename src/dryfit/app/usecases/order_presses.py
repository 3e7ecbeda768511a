"""In which step of an order a tight ring goes home."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from dryfit.app.usecases.order_job import LineOf, Unit
from dryfit.model.filled import filled
from dryfit.model.parts import Bearing
from dryfit.plan.actions import Job, Step
from dryfit.plan.masks import masks_of
from dryfit.plan.tight import with_rings
from dryfit.solve.pressing import Pressing
from dryfit.solve.rings import INNER, OUTER

ZERO_C = 273.15
"""0 C [K], exactly: the definition of the degree Celsius."""

PIECE = {INNER: "cone", OUTER: "cup"}
"""How a ring is called that comes apart from its bearing."""


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


def presses(unit: Unit, order: Sequence[str]) -> Mapping[str, tuple[PressAnswer, ...]]:
    """Say for each step of an order which tight rings go home in it."""
    lines = {line.name: line for line in unit.lines}
    found: dict[str, tuple[PressAnswer, ...]] = {}
    for one in unit.tight:
        step = _step(lines[one.line], one, order)
        if step is not None:
            found[step] = (*found.get(step, ()), _answer(unit, one))
    return found


def timed(job: Job, unit: Unit) -> Job:
    """Count pressing, warming and drawing off in the steps in which tight rings go home."""
    masks = masks_of(job)
    tight = presses(unit, [masks.names[step] for step in masks.some_order()])

    def forces(step: Step) -> list[float]:
        return [one.force_n for one in tight.get(step.name, ()) if not one.sprung]

    return replace(job, drawn=tuple(with_rings(step, forces(step)) for step in job.drawn))


def _answer(unit: Unit, one: Pressing) -> PressAnswer:
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
    )


def _step(line: LineOf, one: Pressing, order: Sequence[str]) -> str | None:
    """Name the step that brings a ring and what it grips together: the later of theirs.

    What is dressed on the bench moves as one, so only within it do its own steps count.
    """
    piece = f"{one.bearing}, {PIECE[one.ring]}"
    body = piece if piece in line.nest.at else one.bearing
    units = {name: unit for unit, names in line.built.inside.items() for name in names}
    together = units.get(body) == units.get(one.host)
    names = [name if together else units.get(name, name) for name in (body, one.host)]
    return max((name for name in names if name in order), key=order.index, default=None)
