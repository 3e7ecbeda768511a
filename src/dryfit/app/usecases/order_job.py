"""A rebuild as a job: bodies of all lines put together, services, checks, and what may go wrong."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from dryfit.app.usecases.lying import lying
from dryfit.ask.asking import Asking, usual_draws
from dryfit.ask.looks import Looks
from dryfit.ask.slopes import lacking_or_none
from dryfit.model.parts import Cover, Housing, Nut
from dryfit.model.rebuild import FINGERS, SET, Check, Rebuild, Thickness
from dryfit.plan.actions import Act, Job, Risk, Step, Wishes
from dryfit.plan.build_up import BuildUp, build_up
from dryfit.plan.checks import Asked, read_in, service
from dryfit.plan.from_shapes import bodies_of, parts_of, seats_of
from dryfit.plan.nest import Nest
from dryfit.plan.risks import risks_of
from dryfit.plan.tangles import tangles
from dryfit.shape.kinds import solids_of
from dryfit.shape.resting import Resting
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import NoLuck
from dryfit.solve.predict import lines_of
from dryfit.solve.states import conditions


@dataclass(frozen=True)
class LineOf:
    """A line of a rebuild as bodies and steps.

    Attributes
    ----------
    name
        The line.
    nest, built
        Its bodies, and how they go together.
    parts
        For each part the steps that put it on.
    rest
        Where the spots of its parts lie.
    cases
        Housings of the line, which all else goes into.
    """

    name: str
    nest: Nest
    built: BuildUp
    parts: Mapping[str, tuple[str, ...]]
    rest: Resting
    cases: tuple[str, ...] = ()


@dataclass(frozen=True)
class Unit:
    """A rebuild with its lines built up.

    Attributes
    ----------
    rebuild
        As it was typed.
    lines
        Its lines.
    packs, unknown_packs
        Thickness of each setting as drawn [mm], and those that nothing tells.
    """

    rebuild: Rebuild
    lines: tuple[LineOf, ...]
    packs: Mapping[str, float]
    unknown_packs: frozenset[str]


def unit_of(rebuild: Rebuild) -> Unit:
    """Build up every line from its shapes."""
    lies = lying(rebuild)
    lines = tuple(_line(lies.rebuild, rest) for rest in lies.lines)
    return Unit(rebuild, lines, lies.packs, lies.unknown_packs)


def _line(rebuild: Rebuild, rest: Resting) -> LineOf:
    solids = solids_of(rebuild, rest)
    bodies = bodies_of(solids)
    nest = Nest(bodies, rest.first, rest.last, sits=seats_of(solids, bodies))
    cases = [solid.part for solid in solids if isinstance(rebuild.parts[solid.part], Housing)]
    built = build_up(nest, cases)
    names = {step.name for step in built.steps}
    parts: dict[str, tuple[str, ...]] = {}
    for body, part in parts_of(solids).items():
        parts[part] = (*parts.get(part, ()), *([body] if body in names else []))
    for unit, inside in built.inside.items():
        for body in inside:
            parts[parts_of(solids)[body]] += (unit,)
    on_steps = {part: own for part, own in parts.items() if own}
    return LineOf(rest.name, nest, built, on_steps, rest, tuple(cases))


def job_of(unit: Unit, wishes: Wishes) -> Job:
    """Make a job of a unit; what may go wrong is left out where sizes are not known."""
    rebuild, lines = unit.rebuild, unit.lines
    steps = list({step.name: step for line in lines for step in line.built.steps}.values())
    about = _about(rebuild, lines, {step.name for step in steps})
    steps += _services(about)
    checks = {reading_of(check.name): check for check in rebuild.checks.values()}
    asked = [_asked(rebuild, name, check, about) for name, check in checks.items()]
    steps += read_in(steps, [one for one in asked if one.of])
    bare = Job(tuple(steps), wishes=wishes)
    return bare if tangles(bare) else Job(bare.drawn, _risks(unit, checks, bare, about), wishes)


About = Mapping[str, tuple[str, ...]]
"""For each part the steps that are about it."""


def reading_of(check: str) -> str:
    """Name the step in which a check is read."""
    return f"read {check}"


def screws_of(cover: str) -> str:
    """Name the step in which a cover is screwed down."""
    return f"screws of {cover}"


def lock_of(nut: str) -> str:
    """Name the step in which a nut is locked."""
    return f"lock {nut}"


def _about(rebuild: Rebuild, lines: Sequence[LineOf], names: set[str]) -> About:
    found: dict[str, tuple[str, ...]] = {}
    for line in lines:
        for own, steps in line.parts.items():
            found.setdefault(own, tuple(step for step in steps if step in names))
    for name, part in rebuild.parts.items():
        if name in found and isinstance(part, Cover):
            found[name] += (screws_of(name),)
        if name in found and isinstance(part, Nut) and part.locked_by:
            found[name] += (lock_of(name),)
    return found


def _services(about: About) -> list[Step]:
    """Give the steps that follow from covers and nuts that are put on."""
    found = []
    for name, steps in about.items():
        if screws_of(name) in steps:
            found.append(service(screws_of(name), Act.CLOSE, steps[0]))
        if lock_of(name) in steps:
            found.append(service(lock_of(name), Act.LOCK, steps[0]))
    return found


def _asked(rebuild: Rebuild, name: str, check: Check, about: About) -> Asked:
    """Say what is in place when a check is read, and what is not."""
    if isinstance(check, Thickness):
        return Asked(name, frozenset(about.get(check.of, ())), alone=True)
    spots = [s for line in lines_of(rebuild, check) for stack in line.stacks for s in stack.spots]
    of = {step for spot in spots for step in about.get(spot.part, ())}
    now = conditions(rebuild, check.state, NoLuck())
    without = {step for part in now.left_out for step in about.get(part, ())}
    if now.screws == FINGERS:
        without |= {step for part in about for step in (screws_of(part),) if step in of}
    if now.nuts == SET:
        without |= {step for part in about for step in (lock_of(part),) if step in of}
    return Asked(name, frozenset(of), frozenset(without))


def _risks(unit: Unit, checks: Mapping[str, Check], job: Job, about: About) -> tuple[Risk, ...]:
    """Ask what may go wrong with packs as they are in, or as the sizes ask for."""
    rebuild = unit.rebuild
    asking = Asking(rebuild, usual_draws(rebuild))
    packs = {part: thick / 1e3 for part, thick in unit.packs.items()}
    if unit.unknown_packs or any(lacking_or_none(asking, c, packs) for c in checks.values()):
        return ()
    looks = Looks(asking, packs, packs)
    known = {name: check for name, check in checks.items() if _reads(looks, check)}
    return risks_of(looks, known, job, steps=about)


def _reads(looks: Looks, check: Check) -> bool:
    """Tell whether a check can be read with nothing wrong."""
    try:
        looks.drawn(check)
    except NoAnswer:
        return False
    return True
