"""A rebuild as a job: bodies of all lines put together, services, checks, and what may go wrong."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from dryfit.app.usecases.lying import lying
from dryfit.app.usecases.order_axes import lies_of
from dryfit.app.usecases.order_bodies import LaidOut, laid_out
from dryfit.ask.asking import Asking, usual_draws
from dryfit.ask.in_hand import InHand, ready
from dryfit.ask.looks import Looks
from dryfit.ask.slopes import lacking_or_none
from dryfit.ask.targets import Target
from dryfit.ask.unmet import Unmet, unmet
from dryfit.model.own_steps import LOCK, READ
from dryfit.model.parts import Cover, Housing, Nut
from dryfit.model.rebuild import FINGERS, SET, Check, Rebuild, Thickness
from dryfit.plan.actions import NO_WISHES, Act, Job, Step, Wishes
from dryfit.plan.build_up import BuildUp
from dryfit.plan.casing import Casing, casing
from dryfit.plan.checks import Asked, read_in, service
from dryfit.plan.from_shapes import screws_of
from dryfit.plan.nest import Nest
from dryfit.plan.risks import Laid, packs_wrong, risks_of
from dryfit.plan.services import Site, latest, serves
from dryfit.plan.tangles import tangles
from dryfit.shape.resting import Resting
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import NoLuck
from dryfit.solve.predict import lines_of
from dryfit.solve.pressing import Pressing, pressings
from dryfit.solve.states import conditions


@dataclass(frozen=True)
class LineOf:
    """A line of a rebuild as bodies and steps.

    Attributes
    ----------
    name
        The line.
    laid
        Its shapes and bodies.
    built
        How they go together.
    parts
        For each part the steps that put it on.
    rest
        Where the spots of its parts lie.
    """

    name: str
    laid: LaidOut
    built: BuildUp
    parts: Mapping[str, tuple[str, ...]]
    rest: Resting

    @property
    def nest(self) -> Nest:
        """Its bodies."""
        return self.laid.nest

    @property
    def moved(self) -> frozenset[str]:
        """Bodies that are put on; all others stay where they are."""
        strip = self.built.strip
        return frozenset(n for taken in strip.taken for n in taken.bodies) | {*strip.locked}

    @property
    def site(self) -> Site:
        """The line as a service finds it."""
        return Site(self.nest, self.built.inside, self.laid.cases)


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
    casing
        Which lines are looked at together.
    """

    rebuild: Rebuild
    lines: tuple[LineOf, ...]
    packs: Mapping[str, float]
    unknown_packs: frozenset[str]
    casing: Casing

    @cached_property
    def tight(self) -> tuple[Pressing, ...]:
        """Rings that go home tight."""
        return pressings(self.rebuild)


def unit_of(rebuild: Rebuild) -> Unit:
    """Build up every line from its shapes, with what parts of one stop of another's."""
    lies = lying(rebuild)
    laid = {rest.name: laid_out(lies.rebuild, rest) for rest in lies.lines}
    nests = {name: one.nest for name, one in laid.items()}
    cases = {name: one.cases for name, one in laid.items()}
    whole = casing(nests, cases, lies_of(rebuild, lies.lines))
    lines = tuple(_line(rest, laid[rest.name], whole.built[rest.name]) for rest in lies.lines)
    return Unit(rebuild, lines, lies.packs, lies.unknown_packs, whole)


def _line(rest: Resting, laid: LaidOut, built: BuildUp) -> LineOf:
    parted = laid.parts
    names = {step.name for step in built.steps}
    parts: dict[str, tuple[str, ...]] = {}
    for body, part in parted.items():
        parts[part] = (*parts.get(part, ()), *([body] if body in names else []))
    for unit, inside in built.inside.items():
        for body in inside:
            parts[parted[body]] += (unit,)
    on_steps = {part: own for part, own in parts.items() if own}
    return LineOf(rest.name, laid, built, on_steps, rest)


@dataclass(frozen=True)
class Bare:
    """A job with nothing going wrong yet.

    Attributes
    ----------
    job
        Its steps.
    checks
        Checks of the rebuild by the step in which they are read.
    about
        For each part the steps that are about it.
    """

    job: Job
    checks: Mapping[str, Check]
    about: "About"

    def laid(self, looks: Looks) -> Laid:
        """Lay it beside the unit, with the checks that can be read with nothing wrong."""
        known = {name: check for name, check in self.checks.items() if _reads(looks, check)}
        alone = frozenset(n for n, check in known.items() if isinstance(check, Thickness))
        return Laid(self.job, known, self.about, alone)


def bare_of(unit: Unit, wishes: Wishes) -> Bare:
    """Give the steps of a unit: bodies, services, checks."""
    rebuild = unit.rebuild
    drawn, about = drawn_of(unit)
    steps = [*drawn]
    checks = {reading_of(check.name): check for check in rebuild.checks.values()}
    every = [asked(rebuild, name, check, about) for name, check in checks.items()]
    steps += read_in(steps, [one for one in every if one.of])
    return Bare(Job(tuple(steps), wishes=wishes), checks, about)


def job_of(unit: Unit, wishes: Wishes, asking: Asking | None = None) -> Job:
    """Make a job of a unit; what may go wrong is left out where sizes are not known."""
    bare = bare_of(unit, wishes)
    if tangles(bare.job):
        return bare.job
    hand = ready(asking or Asking(unit.rebuild, usual_draws(unit.rebuild)))
    if not set(unit.rebuild.settings) <= set(hand.packs) or _lacks(hand, bare):
        return bare.job
    looks = hand.looks if hand.told else Looks(hand.asking, hand.packs, hand.packs)
    return with_risks(bare, looks, by_sizes(looks, hand.wanted))


def _lacks(hand: InHand, bare: Bare) -> bool:
    """Tell whether a size is not known that some check or need follows."""
    checks = bare.checks.values()
    return any(lacking_or_none(hand.asking, check, hand.packs) for check in checks)


def by_sizes(looks: Looks, wanted: tuple[Target, ...]) -> tuple[Unmet, ...]:
    """Say how often a pack is not what was wanted, made as it is meant to be, by a first look."""
    quick, meant = looks.asking.first_look, looks.meant or looks.packs
    few = {p: t[: quick.count] if isinstance(t, np.ndarray) else t for p, t in meant.items()}
    return unmet(quick, wanted, looks.packs, lambda asked: quick.true(asked, few))


def with_risks(bare: Bare, looks: Looks, unmet_by: Sequence[Unmet]) -> Job:
    """Put in what may go wrong: by mistake, and by what the sizes leave open of each pack."""
    laid = bare.laid(looks)
    return replace(bare.job, risks=(*risks_of(looks, laid), *packs_wrong(unmet_by, laid)))


def drawn_of(unit: Unit) -> tuple[tuple[Step, ...], "About"]:
    """Give the steps that the shapes, covers and nuts ask for, and of which part each is."""
    rebuild, lines = unit.rebuild, unit.lines
    steps = list({s.name: _closing(s) for line in lines for s in line.built.steps}.values())
    about = _about(rebuild, lines, {step.name for step in steps})
    steps += _screwed(about, {step.name for step in steps})
    return (*steps, *_locks(about, lines, steps)), about


def _closing(step: Step) -> Step:
    """Take the screws of a cover as what they are to the order: it is closed, in minutes."""
    screwed = step.act is Act.SCREW and step.name.startswith(screws_of(""))
    done = service(step.name, Act.CLOSE, "")
    return replace(step, act=done.act, minutes=done.minutes, undo=done.undo) if screwed else step


About = Mapping[str, tuple[str, ...]]
"""For each part the steps that are about it."""


def reading_of(check: str) -> str:
    """Name the step in which a check is read."""
    return READ + check


def lock_of(nut: str) -> str:
    """Name the step in which a nut is locked."""
    return LOCK + nut


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


def _screwed(about: About, there: Collection[str]) -> list[Step]:
    """Give the screws of covers that are put on, beside those there are as bodies."""
    return [
        service(screws_of(name), Act.CLOSE, own[0])
        for name, own in about.items()
        if screws_of(name) in own and screws_of(name) not in there
    ]


def _locks(about: About, lines: Sequence[LineOf], steps: Sequence[Step]) -> list[Step]:
    """Give the locking of nuts that are put on, as late as a spanner gets to them."""
    found = list[Step]()
    for name, own in about.items():
        if lock_of(name) in own:
            site = next(line.site for line in lines if name in line.nest.at)
            make = serves(lock_of(name), Act.LOCK)
            locked = latest(make, site.locking(name), [*steps, *found], NO_WISHES)
            found += [locked] if locked else []
    return found


def asked(rebuild: Rebuild, name: str, check: Check, about: About) -> Asked:
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


def _reads(looks: Looks, check: Check) -> bool:
    """Tell whether a check can be read with nothing wrong."""
    try:
        looks.drawn(check)
    except NoAnswer:
        return False
    return True
