"""What a step adds to the work that may have to be undone: `Costs`, by any set of steps done.

A thing wrong in one step is *live* from that step until a check shows it. Every step done while it
is live may have to be taken off again: expected undoing is the sum over steps of their weight times
the chances of all that is live. It depends on the set of steps done alone, not on their order, and
adds up exactly even where risks go together. Taken for granted: what is found is mended in one go,
and the mending is right.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from dryfit.plan.actions import Job, Step
from dryfit.plan.masks import Masks, bits, masks_of

Reals = NDArray[np.float64]
Flags = NDArray[np.bool_]


GONE = -1e4
"""Logarithm of what is as good as nothing: its exponential is nought."""


@dataclass(frozen=True, slots=True)
class Weigh:
    """How undoing is counted.

    Attributes
    ----------
    minutes
        Count minutes to take off and put on again, not steps.
    only_what_must
        Count what sits on the step that is wrong or shuts the way to it, not all done since.
    change
        What a change of station costs, in the same measure.
    services
        Count services, too, when they are wasted: to set orders beside each other that have them
        and have them not, not to find one.
    """

    minutes: bool = False
    only_what_must: bool = False
    change: float = 0.0
    services: bool = False


BY_STEPS, BY_MINUTES = Weigh(), Weigh(minutes=True)


@dataclass(frozen=True)
class Costs:
    """What may have to be undone, as numbers.

    Attributes
    ----------
    masks
        The job as bits.
    chance
        Of each risk [-], shape (risks,).
    born
        For each risk its step.
    missed
        For each risk, by check that may show it, the share in which it does not [-].
    weights
        What undoing a step costs for a risk, shape (risks, steps).
    stations
        Where each step is done, nought where it does not matter.
    change
        What a change of station costs.
    """

    masks: Masks
    chance: Reals
    born: tuple[int, ...]
    missed: tuple[dict[int, float], ...]
    weights: Reals
    stations: tuple[int, ...]
    change: float

    def live(self, done: int) -> Reals:
        """Give the chance that each thing is wrong and not seen yet [-], shape (risks,)."""
        found = self.chance * [bool(done >> step & 1) for step in self.born]
        for risk, checks in enumerate(self.missed):
            for check, share in checks.items():
                if done >> check & 1:
                    found[risk] *= share
        return found

    def added(self, step: int, done: int, station: int = 0) -> float:
        """Say what a step adds when it is done next."""
        moved = self.change if self.moves(step, station) else 0.0
        return float(self.live(done) @ self.weights[:, step]) + moved

    def moves(self, step: int, station: int) -> bool:
        """Tell whether a step is done elsewhere than where the unit stands."""
        return bool(station and self.stations[step] and station != self.stations[step])

    def of(self, order: Iterable[int]) -> float:
        """Say what an order costs."""
        done, station, total = 0, 0, 0.0
        for step in order:
            total += self.added(step, done, station)
            station = self.stations[step] or station
            done |= 1 << step
        return total

    @cached_property
    def starts(self) -> int:
        """The steps in which something may go wrong."""
        return sum(1 << step for step in set(self.born))

    @cached_property
    def still(self) -> tuple[Reals, Reals]:
        """What each step left must cost, for a risk not born yet and for a live one.

        Each of shape (steps, risks). Of the checks that show a risk those that must come after the
        step cannot have been read by then; all others may have, and each leaves what it misses.
        """
        unborn, live = [], []
        for risk, born in enumerate(self.born):
            share = np.full(len(self.masks.names), self.chance[risk])
            for check, missed in self.missed[risk].items():
                share *= np.where(self._flags(self.masks.ahead[check]) > 0, 1.0, missed)
            live.append(share * self.weights[risk])
            unborn.append(live[-1] * self._flags(self.masks.behind[born]))
        empty = np.zeros((len(self.masks.names), 0))
        return (np.array(unborn).T, np.array(live).T) if live else (empty, empty)

    @cached_property
    def fading(self) -> Reals:
        """Logarithm of what each step leaves unseen of each risk, shape (steps, risks)."""
        found = np.zeros((len(self.masks.names), len(self.born)))
        for risk, checks in enumerate(self.missed):
            for check, share in checks.items():
                found[check, risk] = np.log(share) if share > 0 else GONE
        return found

    def _flags(self, mask: int) -> Reals:
        return np.array([float(mask >> n & 1) for n in range(len(self.masks.names))])


def costs_of(job: Job, weigh: Weigh = BY_STEPS) -> Costs:
    """Turn risks into numbers.

    Examples
    --------
    >>> from dryfit.plan.actions import Risk
    >>> steps = Step(name="ring"), Step(name="nut"), Step(name="cover")
    >>> costs = costs_of(Job(steps, (Risk("not home", 0.25, "ring"),)))
    >>> costs.of([0, 1, 2]), costs.of([1, 2, 0])
    (0.5, 0.0)
    """
    masks = masks_of(job)
    risks = [(masks.at[risk.born], risk) for risk in job.risks]
    known: dict[str, int] = {"": 0}
    stations = tuple(known.setdefault(step.station, len(known)) for step in job.steps)
    own = np.array([_weight(step, weigh) for step in job.steps])
    weights = [own * _sits_on(masks, born, weigh) for born, _ in risks]
    return Costs(
        masks,
        np.array([risk.chance for _, risk in risks]),
        tuple(born for born, _ in risks),
        tuple({masks.at[c]: 1 - share for c, share in risk.seen.items()} for _, risk in risks),
        np.array(weights).reshape(len(risks), len(own)),
        stations if weigh.change else tuple(0 for _ in stations),
        weigh.change,
    )


def _weight(step: Step, weigh: Weigh) -> float:
    """Weigh a step: what only reads has nothing to undo.

    A service is lost with what hides it, however early it was done. Weighed by when it was done it
    would be drawn to the front, where nothing has gone wrong yet.
    """
    if step.reads or (step.serves and not weigh.services):
        return 0.0
    return step.minutes + step.undo if weigh.minutes else 1.0


def _sits_on(masks: Masks, born: int, weigh: Weigh) -> Any:
    """Flag the steps that come off when a step is to be put right."""
    if not weigh.only_what_must:
        return 1.0
    found = np.zeros(len(masks.names))
    found[list(bits(masks.behind[born]))] = 1.0
    return found
