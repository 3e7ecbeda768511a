"""Everything that is said of each step of an order."""

from collections.abc import Sequence
from dataclasses import replace

from dryfit.app.usecases.ordering.answers import StepAnswer
from dryfit.app.usecases.ordering.presses import PressAnswer, presses
from dryfit.app.usecases.ordering.tools import shut_nuts, trial_fit, under_rings
from dryfit.app.usecases.ordering.unit import LineOf, Unit
from dryfit.app.usecases.ordering.work import works
from dryfit.model.rebuild import Rebuild
from dryfit.plan.actions import Act, Job, Step
from dryfit.plan.cautions import cautions
from dryfit.plan.placing import Turn, turns
from dryfit.plan.undoing import Schedule, Stop
from dryfit.solve.rings import INNER


def steps_of(job: Job, unit: Unit, best: Schedule) -> tuple[StepAnswer, ...]:
    """Say everything of each step, in the best order."""
    stops = {stop.check: stop for stop in best.steps.stops}
    lines, tight, shut = unit.lines, presses(unit, best.order), shut_nuts(unit, best.order)
    answers, done = [], list[str]()
    told = turns(job, best.order)
    for turn, work in zip(told, works(unit, job, told, tight), strict=True):
        name = turn.step.name
        mind = (*_own_mind(unit.rebuild, turn), *_mind(lines, name, done))
        mind += trial_fit(unit, name, done)
        mind += tuple(t for n in lines for t in under_rings(n, name, done))
        own = tight.get(name, ())
        act = _act(lines, turn.step, own)
        hides = (*(f"tighten {nut}" for nut in shut.get(name, ())), *turn.hides)
        bare = StepAnswer(name, act, hides, mind, presses=own, work=work)
        answers.append(_with_stop(bare, stops.get(name)))
        done.append(name)
    return tuple(answers)


def _act(lines: Sequence[LineOf], step: Step, tight: tuple[PressAnswer, ...]) -> str:
    """Say what is done in a step; of a group, into which case it goes."""
    sides = {one.ring for one in tight if not one.sprung}
    if step.act is Act.PUT and sides:
        return Act.PRESS.value if INNER in sides else "press in"
    for line in lines:
        if step.act is Act.ENTER and step.name in line.built.inside and line.laid.cases:
            return f"into {' and '.join(line.laid.cases)}"
    return step.act.value


def _with_stop(answer: StepAnswer, stop: Stop | None) -> StepAnswer:
    if stop is None:
        return answer
    return replace(answer, stops=stop.chance, off=stop.off, words=stop.words)


def _own_mind(rebuild: Rebuild, turn: Turn) -> tuple[str, ...]:
    """Say what the user bids to mind in a step, and that there is no way back from it."""
    own = rebuild.steps.get(turn.step.name)
    return tuple(told for told in (own.mind if own else None, turn.no_return) if told)


def _mind(lines: Sequence[LineOf], name: str, done: Sequence[str]) -> tuple[str, ...]:
    """Say what to mind when a body, or what yields of a unit, goes on by the way it came off."""
    for line in lines:
        bodies = line.built.inside.get(name, (name,))
        for taken in line.built.strip.taken:
            if taken.bodies == bodies and taken.way in line.nest.ways:
                own = [b for b in bodies if bodies == (name,) or line.nest.yields(b)]
                there = _there(line, bodies, done)
                told = (cautions(line.nest, body, taken.way, there=there) for body in own)
                return tuple(text for texts in told for text in texts)
    return ()


def _there(line: LineOf, bodies: Sequence[str], done: Sequence[str]) -> int:
    """Give the bodies that are in place, besides some that go on."""
    at = line.nest.at
    there = {name for name in at if name in done} | ({*at} - line.moved)
    return line.nest.mask(there - {*bodies})
