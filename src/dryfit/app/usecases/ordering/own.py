"""Own steps and wishes of a document as the plan takes them: where each is got at, by its shapes.

Reading order: all of them, wishes, own steps by kind, nooks from shapes.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace

from dryfit.app.usecases.ordering.job import drawn_of
from dryfit.app.usecases.ordering.unit import LineOf, Unit
from dryfit.model.own_steps import Before, NotBy, OwnStep, Wish
from dryfit.model.parts import Cover, Shaft, Turned
from dryfit.model.spots import Spot
from dryfit.plan.actions import ANY_WAY, Act, Ban, Pin, Step, Wishes
from dryfit.plan.bodies import SAME
from dryfit.plan.checks import DONE_MINUTES
from dryfit.plan.from_shapes import screws_of
from dryfit.plan.services import NOZZLE, Nook, Stages, covered, latest, serves
from dryfit.quantities import Finding
from dryfit.shape.cells import Cell, Solid
from dryfit.shape.resting import owner

ACTS = {
    "own": Act.SERVE,
    "grease": Act.GREASE,
    "seal": Act.SEAL,
    "lock": Act.LOCK,
}
"""What is done in an own step, by kind."""


def wishes_of(unit: Unit, typed: Sequence[Wish] = ()) -> tuple[Wishes, tuple[Finding, ...]]:
    """Give own steps and wishes, those of the document and others; and what none of them can be."""
    rebuild = unit.rebuild
    drawn, _ = drawn_of(unit)
    wished = [*rebuild.wishes, *typed]
    pins = (*(_pin(one) for one in wished if isinstance(one, Before)), *_own_pins(unit))
    wishes, lost = Wishes(pins=pins), list[Finding]()
    for own in rebuild.steps.values():
        step = _step(unit, own, drawn, wishes)
        if step is None:
            lost.append(_lost(own))
        else:
            placed = replace(step, place=("steps", own.name))
            wishes = replace(wishes, steps=(*wishes.steps, placed))
    named = {step.name: step for step in (*drawn, *wishes.steps)}
    bans = [ban for one in wished if isinstance(one, NotBy) for ban in _bans(one, named)]
    return replace(wishes, bans=tuple(bans)), tuple(lost)


def _pin(wish: Before) -> Pin:
    return Pin(wish.first, wish.then, wish.place)


def _own_pins(unit: Unit) -> Iterator[Pin]:
    """Give what own steps come after and before."""
    for own in unit.rebuild.steps.values():
        for name in own.after:
            yield Pin(name, own.name, ("steps", own.name, "after"))
        for name in own.before:
            yield Pin(own.name, name, ("steps", own.name, "before"))


def _bans(wish: NotBy, steps: Mapping[str, Step]) -> list[Ban]:
    """Ban every way to an end, with whichever spanner."""
    way = f"to {wish.end}"
    ways = steps[wish.step].ways if wish.step in steps else ()
    names = [one.name for one in ways if one.name == way or one.name.startswith(f"{way}, ")]
    return [Ban(wish.step, name, wish.place) for name in names or [way]]


def _step(unit: Unit, own: OwnStep, drawn: Sequence[Step], wishes: Wishes) -> Step | None:
    """Give an own step, as late as it can be got at; nothing if nothing gets there."""
    if own.at is None:
        takes = own.minutes or DONE_MINUTES
        return Step(name=own.name, act=Act.OTHER, minutes=takes, undo=takes)
    stages = STAGES[own.kind](unit, own.at)
    return latest(serves(own.name, ACTS[own.kind], own.minutes), stages, drawn, wishes)


def _lost(own: OwnStep) -> Finding:
    at = _told(own.at) if own.at else ""
    message = f"'{own.name}': by the shapes nothing gets to '{at}', and no step covers it"
    way_out = "look at its place, or write kind: own, with after and before"
    return Finding("plan.no reach", ("steps", own.name, "at"), message, way_out)


def _told(at: Spot) -> str:
    return str(at) if at.name else at.part


def _got_at(unit: Unit, at: Spot) -> Stages:
    """Say when a nozzle or brush gets to a part or spot: in place, dressed, in the hand."""
    for line in unit.lines:
        solid = next((solid for solid in line.laid.solids if solid.part == at.part), None)
        nook = _nook(unit, line, solid, at) if solid else None
        if solid and nook:
            yield from line.site.got_at(_bodies(line, at.part), nook)


def _bodies(line: LineOf, part: str) -> list[str]:
    return [body for body, of in line.laid.parts.items() if of == part]


def _covered(unit: Unit, at: Spot) -> Stages:
    """Say until when a face is open: until its part goes on, or what lies against the spot."""

    def put_on(part: str) -> frozenset[str]:
        """Name the step that brings a part, or the first piece of it."""
        brought = (line.parts.get(owner(part), ()) for line in unit.lines)
        return frozenset(name for own in brought for name in own[:1])

    touches = [touch for line in unit.lines for touch in line.rest.touches]
    met = [touch for touch in touches if at in (touch.before, touch.after)]
    faces = {touch.before if touch.after == at else touch.after for touch in met}
    groups = [put_on(at.part), *(put_on(face.part) for face in faces)]
    return covered([group for group in groups if group])


def _locked(unit: Unit, at: Spot) -> Stages:
    """Say when a nut is locked, or the screws of a cover."""
    screwed = isinstance(unit.rebuild.parts[at.part], Cover)
    for line in unit.lines:
        if at.part in line.parts and screwed:
            yield frozenset({screws_of(at.part)}), (ANY_WAY,)
        elif at.part in line.parts:
            yield from line.site.locking(at.part)


STAGES: dict[str, Callable[[Unit, Spot], Stages]] = {
    "own": _got_at,
    "grease": _got_at,
    "seal": _covered,
    "lock": _locked,
}
"""When each kind of own step can be done, the latest stage first."""


def _nook(unit: Unit, line: LineOf, solid: Solid, at: Spot) -> Nook | None:
    """Say what is to be got at: the gap between two rings, a spot, or the rim of a part."""
    bodies = _bodies(line, at.part)
    if at.name:
        place = line.rest.places.get(at.part, {}).get(at.name)
        return None if place is None else _at_spot(unit, solid, place)
    gap = _between_rings(solid)
    if gap:
        return Nook(solid.span, gap, bodies)
    return Nook(solid.span, (solid.reach - NOZZLE, solid.reach), bodies, outwards=True)


def _between_rings(solid: Solid) -> tuple[float, float] | None:
    """Give the gap in which a row rolls [mm]."""
    inner, outer = (_piece(solid, name) for name in ("inner", "outer"))
    if not (inner and outer):
        return None
    low, high = max(max(c.outer) for c in inner), min(min(c.inner) for c in outer)
    return (low, high) if low < high else None


def _piece(solid: Solid, name: str) -> list[Cell]:
    return [cell for cell in solid.cells if cell.piece == name]


def _at_spot(unit: Unit, solid: Solid, place: float) -> Nook | None:
    """Give the surface at a spot: outside of what turns, inside of what others go into [mm]."""
    near = [c for c in solid.laid if c.first - SAME <= place <= c.last + SAME]
    part = unit.rebuild.parts[solid.part]
    if not near:
        return None
    if isinstance(part, Turned) and not isinstance(part, Shaft):
        radius = max(max(c.inner) for c in near)
        return Nook((place, place), (max(0.0, radius - NOZZLE), radius))
    radius = min(min(c.outer) for c in near)
    span = (place - NOZZLE / 2, place + NOZZLE / 2)
    return Nook(span, (radius, radius + NOZZLE), outwards=True)
