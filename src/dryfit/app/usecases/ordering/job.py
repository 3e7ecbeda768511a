"""A rebuild as a job: bodies of all lines put together, services, checks, and what may go wrong."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dryfit.app.usecases.ordering.checks import About, asked, lock_of, reading_of
from dryfit.app.usecases.ordering.unit import LineOf, Unit
from dryfit.ask.asking import Asking, usual_draws
from dryfit.ask.in_hand import InHand, ready
from dryfit.ask.looks import Looks
from dryfit.ask.slopes import lacking_or_none
from dryfit.ask.targets import Target
from dryfit.ask.unmet import Unmet, unmet
from dryfit.model.parts import Cover, Housing, Nut
from dryfit.model.rebuild import Check, Rebuild, Thickness
from dryfit.plan.actions import NO_WISHES, Act, Job, Step, Wishes
from dryfit.plan.checks import read_in, service
from dryfit.plan.from_shapes import screws_of
from dryfit.plan.risks import Laid, packs_wrong, risks_of
from dryfit.plan.services import latest, serves
from dryfit.plan.tangles import tangles
from dryfit.solve.benchtop import NoAnswer


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
    about: About

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
    every = [asked(unit, name, check, about) for name, check in checks.items()]
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


def drawn_of(unit: Unit) -> tuple[tuple[Step, ...], About]:
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


def _reads(looks: Looks, check: Check) -> bool:
    """Tell whether a check can be read with nothing wrong."""
    try:
        looks.drawn(check)
    except NoAnswer:
        return False
    return True
