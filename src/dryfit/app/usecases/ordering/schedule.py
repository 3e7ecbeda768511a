"""The order of work as the sheet takes it: what checks can show, what spares undoing, tools."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from dryfit.app.usecases.ordering.checks import asked
from dryfit.app.usecases.ordering.job import Bare, bare_of, by_sizes, with_risks
from dryfit.app.usecases.ordering.own import wishes_of
from dryfit.app.usecases.ordering.presses import timed
from dryfit.app.usecases.ordering.unit import Unit, unit_of
from dryfit.ask.acts import EARLY, GAUGE, MINUTES, SPANNER, TRIAL
from dryfit.ask.looks import Looks
from dryfit.ask.planned import Planned, Spared, Tool
from dryfit.ask.targets import Target
from dryfit.ask.unmet import Unmet
from dryfit.ask.usual import Later
from dryfit.model.parts import Nut
from dryfit.plan.actions import Act, Job
from dryfit.plan.checks import by_gauge
from dryfit.plan.gains import early, reached, spared_by
from dryfit.plan.order import best_order
from dryfit.plan.placing import Names, tidied
from dryfit.plan.risks import read_after
from dryfit.plan.tangles import tangles
from dryfit.plan.trial import Trial, trial

PATIENCE = (300, 1_000)
"""How many sets of steps of a size are kept: a unit of sixty steps takes some seconds."""

WORTH_SPARING = 1.0
"""What spares less undoing than this is not told [min]: the estimates are no better."""

CURED_BY = {"nut not up": SPANNER}
"""What no longer goes wrong once a tool was made."""


@dataclass(frozen=True)
class Scheduled:
    """A unit with the order that was planned for it.

    Attributes
    ----------
    unit, bare
        The unit and its steps.
    job
        The steps with what may go wrong in them.
    order
        The best order.
    """

    unit: Unit
    bare: Bare
    job: Job
    order: Names


def planned(looks: Looks, wanted: tuple[Target, ...]) -> Planned | None:
    """Plan the order of a unit for the sheet; nothing where no order can be."""
    unit = unit_of(looks.asking.rebuild)
    wishes, lost = wishes_of(unit, ())
    bare = bare_of(unit, wishes)
    if lost or tangles(bare.job):
        return None
    missed = by_sizes(looks, wanted)
    job = timed(with_risks(bare, looks, missed), unit)
    found = Scheduled(unit, bare, job, best(job))
    spared = (*_early(found), *_trial(found), *hindered(found))
    later = read_after(looks, bare.laid(looks), found.order)
    tools = (*gauges(found, looks, missed), *spanners(found, looks, later))
    return Planned(later, spared, tools)


def best(job: Job) -> Names:
    """Find the best order of a job, tidied."""
    return tidied(job, best_order(job, widths=PATIENCE).steps)


def _early(found: Scheduled) -> Iterator[Spared]:
    """Say what checks spare by being read before what would have to come off."""
    checks = found.bare.checks
    for one in early(found.job, found.order):
        if one.minutes >= WORTH_SPARING:
            yield Spared(EARLY, checks[one.check].name, one.before, 0.0, one.minutes)


def _trial(found: Scheduled) -> Iterator[Spared]:
    """Say what a trial build spares, where it spares more than it takes."""
    tried = trial(found.job, found.order, PATIENCE)
    if tried is not None and tried.minutes.spared >= WORTH_SPARING:
        cost = tried.minutes
        yield Spared(TRIAL, left_out(tried), "", cost.anew, cost.anew + cost.spared)


def left_out(tried: Trial) -> str:
    """Say what is left out of a trial build."""
    return " and ".join(LEFT_OUT[act] for act in tried.left_out)


LEFT_OUT = {Act.GREASE: "grease", Act.SEAL: "seals", Act.LOCK: "locking"}
"""What is left out with an act."""


def gauges(found: Scheduled, looks: Looks, missed: Sequence[Unmet]) -> Iterator[Tool]:
    """Give each check that no order has room for, as it could be read with a gauge made for it."""
    for name, check in found.bare.checks.items():
        one = asked(found.unit, name, check, found.bare.about)
        if name in found.job.named or not one.of:
            continue
        freer = replace(found.job, drawn=(*found.job.drawn, by_gauge(one)), risks=())
        if not tangles(freer):
            bare = replace(found.bare, job=freer)
            order = best(with_risks(bare, looks, missed))
            yield Tool(GAUGE, check.name, read_after(looks, bare.laid(looks), order))


def spanners(found: Scheduled, looks: Looks, later: Later) -> Iterator[Tool]:
    """Give each nut that no usual spanner gets to, as sure as one made for it would make it."""
    rebuild = found.unit.rebuild
    for line in found.unit.lines:
        dressed = {name for names in line.built.inside.values() for name in names}
        for nut in line.built.unreached:
            part = rebuild.parts.get(nut)
            own = (v for v in looks.variants if v.parts == (nut,))
            never = {v.name for v in own if CURED_BY.get(v.kind) == SPANNER}
            if type(part) is Nut and nut not in dressed and never:  # rings are turned by their face
                yield Tool(SPANNER, nut, later, frozenset(never))


def hindered(found: Scheduled) -> Iterator[Spared]:
    """Say what is spared where another spanner would get to a nut later than the usual ones."""
    for line in found.unit.lines:
        for nut, ways in line.built.nuts.items():
            freer = reached(found.job, nut, ways)
            if found.job.named[nut].ways != ways:
                minutes = spared_by(found.job, found.order, freer, PATIENCE)
                if minutes >= MINUTES[SPANNER] + WORTH_SPARING:
                    yield Spared(SPANNER, nut, "", MINUTES[SPANNER], minutes)
