"""Which sizes matter: what each makes of the doubt in what is wanted, with the packs in hand."""

from dataclasses import dataclass

from dryfit.app.usecases.opening import Opened
from dryfit.ask.asking import Asking, usual_draws
from dryfit.ask.matters import matters as ask
from dryfit.ask.targets import targets


@dataclass(frozen=True)
class MatterAnswer:
    """What one size makes of the doubt in one want."""

    key: str
    share: float
    kind: str
    of: str


@dataclass(frozen=True)
class MattersAnswer:
    """What matters; a size that is not listed does not, if `every` want was told of."""

    every: bool
    sizes: tuple[MatterAnswer, ...] = ()


Packs = tuple[tuple[str, float], ...]
"""Thickness of each setting [mm]."""


def matters(opened: Opened, packs: Packs, draws: int) -> MattersAnswer:
    """Say what each size makes of the doubt, with so many draws at most."""
    rebuild = opened.rebuild
    wanted = targets(rebuild) if not opened.stopped else ()
    if not wanted or {*rebuild.settings} - {part for part, _ in packs}:
        return MattersAnswer(every=False)
    asking = Asking(rebuild, min(draws, usual_draws(rebuild)))
    found = ask(asking, wanted, {part: thick / 1e3 for part, thick in packs})
    told = tuple(MatterAnswer(one.key, one.share, one.kind, one.of) for one in found.sizes)
    return MattersAnswer(found.every, told)
