"""What must hold of own steps and wishes before the shapes say which steps there are."""

from collections.abc import Iterator

from dryfit.model.filled import BOTH_SIDES
from dryfit.model.known import parts_known
from dryfit.model.own_steps import LOCK, Before, Greasing, Locking, OwnStep
from dryfit.model.parts import Bearing, Cover, Housing, Nut
from dryfit.model.rebuild import FIRST_END, LAST_END, Rebuild
from dryfit.model.spots import Spot
from dryfit.quantities import Finding, Place
from dryfit.quantities.finding import near

JOINS = (" before ", " after ", " to ")
"""Words that part the steps of a wish."""


def own_step_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Ask every rule about own steps and wishes."""
    for name, step in rebuild.steps.items():
        place: Place = ("steps", name)
        yield from _name(name, place)
        yield from _itself(step, place)
        if step.at is not None:
            yield from _at(rebuild, step.at, (*place, "at"))
            yield from _fits(rebuild, step, step.at, (*place, "at"))
    for wish in rebuild.wishes:
        if isinstance(wish, Before) and wish.first == wish.then:
            yield _before_itself(wish.first, wish.place)


def _name(name: str, place: Place) -> Iterator[Finding]:
    """A step can be named in a wish."""
    held = [word.strip() for word in JOINS if word in f" {name} "]
    held += ["never"] if name.startswith("never ") else []
    if held:
        message = f"the name '{name}' holds '{held[0]}', which parts the words of a wish"
        yield Finding("step.name", place, message, f"name it without '{held[0]}'")


def _itself(step: OwnStep, place: Place) -> Iterator[Finding]:
    for key in ("after", "before"):
        if step.name in getattr(step, key):
            yield _before_itself(step.name, (*place, key))


def _before_itself(name: str, place: Place) -> Finding:
    message = f"'{name}' cannot come before or after itself"
    return Finding("step.itself", place, message, "name another step, or take it out")


def _at(rebuild: Rebuild, at: Spot, place: Place) -> Iterator[Finding]:
    """There is such a part, and such a spot on it."""
    yield from parts_known(rebuild, [at.part], place)
    part = rebuild.parts.get(at.part)
    spots = _spots(rebuild, at.part)
    if part is not None and at.name and at.name not in spots:
        message = f"'{at.part}' has no spot '{at.name}'"
        yield Finding("step.spot", place, message, near(at.name, spots))
    if isinstance(part, Housing) and not at.name:
        message = f"'{at.part}' is what all else goes into: where on it is not said"
        named = f"{at.part}.{spots[0]}"
        yield Finding("step.where", place, message, f"name a spot on it, such as {named}")


def _spots(rebuild: Rebuild, part: str) -> list[str]:
    """List the spots of a part that stacks and sizes name."""
    stacks = [s for line in rebuild.lines.values() for k in line.stacks for s in k.spots]
    sized = [s for between in rebuild.sizes.values() for s in (between.start, between.end)]
    named = dict.fromkeys(s.name for s in (*stacks, *sized) if s.part == part)
    return list(named | dict.fromkeys((FIRST_END, LAST_END)))


def _fits(rebuild: Rebuild, step: OwnStep, at: Spot, place: Place) -> Iterator[Finding]:
    """What is locked can be locked, once; what is greased lets grease in."""
    part = rebuild.parts.get(at.part)
    if isinstance(step, Locking) and part is not None:
        if not isinstance(part, Nut | Cover):
            message = f"'{at.part}' is a {part.kind}: neither a nut nor screwed on"
            way_out = "name a nut or a cover, or write kind: own"
            yield Finding("step.lock", place, message, way_out)
        elif isinstance(part, Nut) and part.locked_by:
            message = f"step '{LOCK}{at.part}' does that: it is locked by its {part.locked_by}"
            yield Finding("step.lock", place, message, "take this step out, or its locked by")
    if isinstance(step, Greasing) and isinstance(part, Bearing) and part.sealed == BOTH_SIDES:
        message = f"'{at.part}' is sealed on both sides: no grease gets into it"
        yield Finding("step.sealed", place, message, "take this step out, or its sealed", "note")
