"""From which steps there is no easy way back: a check is gone, or something has to be renewed."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import takewhile

from dryfit.app.usecases.ordering.presses import PressAnswer
from dryfit.app.usecases.ordering.unit import Unit
from dryfit.model.parts import Gasket, Nut, Ring, Seal
from dryfit.plan.actions import Act, Job, Step
from dryfit.plan.from_shapes import screws_of
from dryfit.plan.placing import Turn
from dryfit.solve.threads import LOCK_NUT

CHECK, GASKET, SEAL, SEALANT = "check", "gasket", "seal", "sealant"
LOCK, SPOILT, CUT, THROUGH = "lock", "spoilt", "cut", "through"
"""What makes a step a point of no return."""


@dataclass(frozen=True)
class NoReturnAnswer:
    """Why there is no easy way back from a step.

    Attributes
    ----------
    what
        "check": it can be read no more. "gasket", "seal", "sealant", "lock": it is renewed when it
        comes apart again. "spoilt": what is put on is spoiled by taking it off. No
        puller gets behind a tight ring: "cut" of one by itself, "through" of one of two.
    of
        Which check, part or step, which ring of what past what, or what it is locked by.
    """

    what: str
    of: str


def no_return_of(
    unit: Unit, job: Job, turn: Turn, puts: tuple[str, ...], tight: tuple[PressAnswer, ...] = ()
) -> Iterator[NoReturnAnswer]:
    """Say why there is no easy way back from a step, `tight` the rings that go home in it."""
    rebuild, step = unit.rebuild, turn.step
    if turn.no_return:
        yield NoReturnAnswer(SPOILT, step.name)
    for hidden in turn.hides:
        if job.named[hidden].reads:
            yield NoReturnAnswer(CHECK, hidden)
    for body in puts:
        if isinstance(rebuild.parts.get(body), Seal):
            yield NoReturnAnswer(SEAL, body)
    nut = next((rebuild.parts.get(name) for name in step.after), None)
    if step.act is Act.LOCK and isinstance(nut, Nut) and nut.locked_by not in (None, LOCK_NUT):
        yield NoReturnAnswer(LOCK, str(nut.locked_by))
    for one in tight:
        if one.puller_shut and not one.sprung:
            past = " and ".join(f"'{name}'" for name in one.puller_shut)
            yield NoReturnAnswer(CUT if one.is_cut else THROUGH, f"{one.told} past {past}")
    if step.act is Act.SEAL:
        yield NoReturnAnswer(SEALANT, step.name)
    if step.act is Act.CLOSE:
        yield from (NoReturnAnswer(GASKET, name) for name in _gaskets(unit, step))


def _gaskets(unit: Unit, step: Step) -> Iterator[str]:
    """Name the gaskets that are nipped as a cover is screwed down: those in its joints."""
    parts = unit.rebuild.parts
    stacks = (stack.spots for line in unit.rebuild.lines.values() for stack in line.stacks)
    found = dict[str, None]()
    for spots in stacks:
        names = [spot.part for spot in spots]
        for own in (names, names[::-1]):
            at = next((n for n, name in enumerate(own) if screws_of(name) == step.name), len(own))
            joint = takewhile(lambda name: isinstance(parts.get(name), Ring), own[at + 1 :])
            found |= dict.fromkeys(n for n in joint if isinstance(parts.get(n), Gasket))
    yield from found
