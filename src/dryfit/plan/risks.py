"""What may go wrong in which step, and which check shows it: from what may be wrong in the unit."""

from collections.abc import Mapping

from dryfit.ask.looks import Looks
from dryfit.ask.usual import shown_by
from dryfit.ask.variants import PRIORS, Prior, Variant
from dryfit.model.rebuild import Check
from dryfit.plan.actions import Act, Job, Risk
from dryfit.plan.masks import Masks, masks_of

SEEN = 0.02
"""What a check shows less often than this it is not taken to show: its band leaves out 1 in 100."""

BORN_IN = {"dragged in locking": Act.LOCK}
"""What goes wrong in another step than that which puts the part on."""


def risks_of(
    looks: Looks,
    checks: Mapping[str, Check],
    job: Job,
    *,
    steps: Mapping[str, tuple[str, ...]],
    priors: Mapping[str, Prior] = PRIORS,
) -> tuple[Risk, ...]:
    """Say what may go wrong in the steps of a job, with the checks among them that show it.

    Parameters
    ----------
    looks
        The unit, to be looked at with each thing wrong.
    checks
        Those of its checks that can be read, by the step in which they are.
    job
        Its steps.
    steps
        For each part the steps that are about it.
    priors
        How often each kind goes wrong.
    """
    masks = masks_of(job)
    asked = {masks.at[name]: check for name, check in checks.items() if name in masks.at}
    found = []
    for variant in looks.variants:
        prior, born = priors[variant.kind], _born(variant, job, masks, steps)
        if born:
            later = {n: c for n, c in asked.items() if masks.ahead[n] >> masks.at[born] & 1}
            shares = {masks.names[n]: shown_by(looks, variant, c) for n, c in later.items()}
            seen = {name: share for name, share in shares.items() if share >= SEEN}
            found.append(Risk(variant.words, prior.chance * (1 - prior.seen), born, seen))
    return tuple(found)


def _born(
    variant: Variant, job: Job, masks: Masks, steps: Mapping[str, tuple[str, ...]]
) -> str | None:
    """Name the step in which something goes wrong: the last of what it is wrong with."""
    named = job.named
    about = [name for part in variant.parts for name in steps.get(part, ())]
    about = [name for name in about if name in named]
    own = [name for name in about if named[name].act is BORN_IN.get(variant.kind)]
    puts = [name for name in about if not named[name].serves]
    return max(own or puts, key=lambda name: masks.ahead[masks.at[name]].bit_count(), default=None)
