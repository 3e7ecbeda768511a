"""What may go wrong in which step, and which check shows it: from what may be wrong in the unit.

Reading order: what is asked, risks of the job, which checks of an order come after each.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from dryfit.ask.looks import Looks
from dryfit.ask.priors import comes_again
from dryfit.ask.unmet import Unmet
from dryfit.ask.usual import Later, shown_by
from dryfit.ask.variants import PRIORS, Prior, Variant
from dryfit.model.rebuild import Check
from dryfit.plan.actions import Act, Job, Risk
from dryfit.plan.masks import Masks, masks_of

SEEN = 0.02
"""What a check shows less often than this it is not taken to show: its band leaves out 1 in 100."""

BORN_IN = {"dragged in locking": Act.LOCK}
"""What goes wrong in another step than that which puts the part on."""


@dataclass(frozen=True)
class Laid:
    """A job beside the unit that it builds.

    Attributes
    ----------
    job
        Its steps.
    checks
        Those of the unit's checks that can be read, by the step in which they are.
    steps
        For each part the steps that are about it.
    alone
        Steps that read a part by itself, before it goes on: what they show is there by then.
    """

    job: Job
    checks: Mapping[str, Check]
    steps: Mapping[str, tuple[str, ...]]
    alone: frozenset[str] = frozenset()

    @cached_property
    def masks(self) -> Masks:
        """The job as bits."""
        return masks_of(self.job)

    def born(self, variant: Variant) -> str | None:
        """Name the step in which something goes wrong: the last of what it is wrong with."""
        named, masks = self.job.named, self.masks
        about = [name for part in variant.parts for name in self.steps.get(part, ())]
        about = [name for name in about if name in named]
        own = [name for name in about if named[name].act is BORN_IN.get(variant.kind)]
        puts = [name for name in about if not named[name].serves]
        return max(
            own or puts, key=lambda name: masks.ahead[masks.at[name]].bit_count(), default=None
        )

    def waits_for(self, check: str, born: str) -> bool:
        """Tell whether a check must come after a step."""
        masks = self.masks
        return bool(masks.ahead[masks.at[check]] >> masks.at[born] & 1)


def risks_of(looks: Looks, laid: Laid, priors: Mapping[str, Prior] = PRIORS) -> tuple[Risk, ...]:
    """Say what may go wrong in the steps of a job, with the checks among them that show it.

    What a part read by itself shows is put right in the hand: nothing comes off for it.

    Parameters
    ----------
    looks
        The unit, to be looked at with each thing wrong.
    laid
        The job.
    priors
        How often each kind goes wrong.
    """
    found = []
    for variant in (*looks.variants, *looks.as_made):
        prior, born = priors[variant.kind], laid.born(variant)
        if born:
            missed = _missed(looks, laid, variant)
            seen = {
                name: share
                for name, check in laid.checks.items()
                if name in laid.job.named
                and name not in laid.alone
                and laid.waits_for(name, born)
                and (share := shown_by(looks, variant, check)) >= SEEN
            }
            chance = prior.chance * (1 - prior.seen) * missed
            again = comes_again(variant.kind)
            found.append(Risk(variant.words, chance, born, seen, again))
    return tuple(found)


def packs_wrong(by_sizes: Sequence[Unmet], laid: Laid) -> tuple[Risk, ...]:
    """Say how often a pack turns out not to be what was wanted, by the sizes alone.

    Parameters
    ----------
    by_sizes
        Needs that may not be met.
    laid
        The job.
    """
    named, by_name = laid.job.named, {check.name: step for step, check in laid.checks.items()}
    found = []
    for one in by_sizes:
        puts = [n for n in laid.steps.get(one.part, ()) if n in named and not named[n].serves]
        if puts:
            steps = {by_name[check]: share for check, share in one.seen.items() if check in by_name}
            seen = {
                step: share
                for step, share in steps.items()
                if share >= SEEN and step in named and laid.waits_for(step, puts[0])
            }
            words = f"{one.part} not what '{one.need}' asks for, by the sizes"
            found.append(Risk(words, one.chance, puts[0], seen, again=False))
    return tuple(found)


def _missed(looks: Looks, laid: Laid, variant: Variant) -> float:
    """Say in which share nothing that is read of a part by itself shows what is wrong."""
    missed = 1.0
    for name in laid.alone & set(laid.checks):
        share = shown_by(looks, variant, laid.checks[name])
        missed *= 1 - share if share >= SEEN else 1.0
    return missed


def read_after(looks: Looks, laid: Laid, order: Sequence[str]) -> Later:
    """Name the checks that an order reads after each thing wrong has come about.

    Parameters
    ----------
    looks
        The unit, with all that may be wrong.
    laid
        The job.
    order
        All its steps.

    Returns
    -------
    later
        By what may be wrong the checks that may show it; what is in no step is there from the
        beginning, and a part read by itself shows what is in it.
    """
    at = {step: place for place, step in enumerate(order)}
    found = {}
    for variant in (*looks.variants, *looks.as_made):
        born = at.get(laid.born(variant) or "", -1)
        found[variant.name] = frozenset(
            check.name
            for step, check in laid.checks.items()
            if step in at and (step in laid.alone or at[step] > born)
        )
    return found
