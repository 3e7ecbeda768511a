"""A rebuild as a job: bodies of all lines put together, services, checks, and what may go wrong."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from dryfit.app.usecases.lying import lying
from dryfit.app.usecases.order_bodies import laid_out
from dryfit.ask.asking import Asking, usual_draws
from dryfit.ask.looks import Looks
from dryfit.ask.slopes import lacking_or_none
from dryfit.model.parts import Cover, Housing, Nut
from dryfit.model.rebuild import FINGERS, SET, Check, Rebuild, Thickness
from dryfit.plan.actions import Act, Job, Risk, Step, Wishes
from dryfit.plan.build_up import BuildUp, build_up
from dryfit.plan.checks import Asked, read_in, service
from dryfit.plan.from_shapes import screws_of
from dryfit.plan.nest import Nest
from dryfit.plan.risks import risks_of
from dryfit.plan.tangles import tangles
from dryfit.quantities import Finding
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
    cases
        Housings of the line, which all else goes into.
    laps
        Parts that are in one place, as findings.
    """

    name: str
    nest: Nest
    built: BuildUp
    parts: Mapping[str, tuple[str, ...]]
    cases: tuple[str, ...] = ()
    laps: tuple[Finding, ...] = ()

    @property
    def moved(self) -> frozenset[str]:
        """Bodies that are put on; all others stay where they are."""
        strip = self.built.strip
        return frozenset(n for taken in strip.taken for n in taken.bodies) | {*strip.locked}


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
    laid = laid_out(rebuild, rest)
    built, parted = build_up(laid.nest, laid.cases), laid.parts
    names = {step.name for step in built.steps}
    parts: dict[str, tuple[str, ...]] = {}
    for body, part in parted.items():
        parts[part] = (*parts.get(part, ()), *([body] if body in names else []))
    for unit, inside in built.inside.items():
        for body in inside:
            parts[parted[body]] += (unit,)
    on_steps = {part: own for part, own in parts.items() if own}
    return LineOf(rest.name, laid.nest, built, on_steps, laid.cases, laid.laps)


def job_of(unit: Unit, wishes: Wishes) -> Job:
    """Make a job of a unit; what may go wrong is left out where sizes are not known."""
    rebuild, lines = unit.rebuild, unit.lines
    steps = list({s.name: _closing(s) for line in lines for s in line.built.steps}.values())
    about = _about(rebuild, lines, {step.name for step in steps})
    steps += _services(about, {step.name for step in steps})
    checks = {reading_of(check.name): check for check in rebuild.checks.values()}
    asked = [_asked(rebuild, name, check, about) for name, check in checks.items()]
    steps += read_in(steps, [one for one in asked if one.of])
    bare = Job(tuple(steps), wishes=wishes)
    return bare if tangles(bare) else Job(bare.drawn, _risks(unit, checks, bare, about), wishes)


def _closing(step: Step) -> Step:
    """Take the screws of a cover as what they are to the order: it is closed, in minutes."""
    screwed = step.act is Act.SCREW and step.name.startswith(screws_of(""))
    done = service(step.name, Act.CLOSE, "")
    return replace(step, act=done.act, minutes=done.minutes, undo=done.undo) if screwed else step


About = Mapping[str, tuple[str, ...]]
"""For each part the steps that are about it."""


def reading_of(check: str) -> str:
    """Name the step in which a check is read."""
    return f"read {check}"


def lock_of(nut: str) -> str:
    """Name the step in which a nut is locked."""
    return f"lock {nut}"


def _about(rebuild: Rebuild, lines: Sequence[LineOf], names: set[str]) -> About:
    found: dict[str, tuple[str, ...]] = {}
    for line in lines:
        for own, steps in line.parts.items():
            found.setdefault(own, tuple(step for step in steps if step in names))
    for name, part in rebuild.parts.items():
        screwed = name in found and isinstance(part, Cover | Housing)
        if screwed and screws_of(name) not in found[name]:
            found[name] += (screws_of(name),)
        if name in found and isinstance(part, Nut) and part.locked_by:
            found[name] += (lock_of(name),)
    return found


def _services(about: About, there: Collection[str]) -> list[Step]:
    """Give the steps that follow from covers and nuts that are put on, beside those there are."""
    found = []
    for name, steps in about.items():
        if screws_of(name) in steps and screws_of(name) not in there:
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
