"""Which pack to fit: the greatest chance among those that do little harm."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.harm import MOST_HARM, harm
from dryfit.ask.lock_nuts import locked_nut, play_off
from dryfit.ask.packs import Pack, packs_about
from dryfit.ask.slopes import lacking, pack_slope
from dryfit.ask.targets import Target, travel
from dryfit.ask.together import ideals
from dryfit.solve.luck import Flags, Luck

AS_GOOD = 0.005
"""Chances this close are a tie, which the pack with the fewest pieces wins."""

TRIED = 9
"""How many packs about the ideal one are tried."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A pack to fit and how likely it is right.

    Attributes
    ----------
    part
        The setting.
    pack
        What to fit.
    ideal
        Thickness that would meet the aim if all sizes were as typed [m].
    chance
        Share of draws in which every need is truly met [-].
    harm
        Share of draws that come to harm, hot where that is known [-].
    tried
        The other packs near, with their chance.
    """

    part: str
    pack: Pack
    ideal: float
    chance: float
    harm: float
    tried: tuple[tuple[Pack, float], ...]


def chance(asking: Asking, targets: Iterable[Target], packs: Packs) -> float:
    """Share of draws in which the true value of every need is within what is wanted [-]."""
    return float(np.mean(met(asking, targets, packs)))


def met(asking: Asking, targets: Iterable[Target], packs: Packs) -> Flags:
    """Tell for each draw whether every need is met."""
    good = np.ones(asking.count, dtype=bool)
    for target in targets:
        good &= target.holds(asking.true(target.need, packs).true)
    return good


def moved_by(
    asking: Asking, targets: Iterable[Target], part: str, packs: Packs
) -> tuple[Target, ...]:
    """List the needs that a setting moves."""
    return tuple(t for t in targets if pack_slope(asking, travel(t.need), packs, part))


def ideal(asking: Asking, targets: Sequence[Target], part: str, packs: Packs) -> float:
    """Thickness that comes nearest to all aims if every size is as typed [m]."""
    return ideals(asking, targets, [part], packs)[part]


def choose(asking: Asking, targets: tuple[Target, ...], part: str, packs: Packs) -> Choice | None:
    """Choose the pack for one setting by the sum of sizes; None where a size is lacking."""
    mine = moved_by(asking, targets, part, packs)
    if not mine or any(lacking(asking, t.need, packs) for t in mine):
        return None
    key = (part, mine, *sorted((p, t) for p, t in packs.items() if p != part))
    if key not in asking.kept:
        asking.kept[key] = _chosen(asking, mine, part, packs)
    found: Choice | None = asking.kept[key]
    return found


def _chosen(asking: Asking, mine: tuple[Target, ...], part: str, packs: Packs) -> Choice | None:
    wished = ideal(asking, mine, part, packs)
    near = nearest_packs(asking, part, wished)
    if not near:
        return None
    off = play_off(asking, part) if locked_nut(asking.rebuild, part) else 0.0

    def harms(pack: Pack) -> float:
        return harm(asking, mine, {**packs, part: pack.thickness + off})

    for some in (_promising(asking, mine, part, packs, near), near):
        tried = [(p, chance(asking, mine, {**packs, part: p.thickness + off})) for p in some]
        pack, likely, harmful = _mildest(tried, wished, harms)
        if harmful < MOST_HARM or len(some) == len(near):
            break
    return Choice(part, pack, wished, likely, harmful, tuple(tried))


GLANCES = 200
"""Draws that tell which packs are worth a longer look, where parts give."""

PROMISING = 0.15
"""A pack whose chance is less than the best by more in so many draws is not the best: three
standard errors of a difference in which every second draw has a part."""


def _promising(
    asking: Asking, mine: tuple[Target, ...], part: str, packs: Packs, near: tuple[Pack, ...]
) -> tuple[Pack, ...]:
    """Leave out packs that a glance shows to be far from the best; all beside each other."""
    luck = asking.drawn.draws
    if not asking.gives or not isinstance(luck, Luck) or luck.count <= GLANCES * 2:
        return near
    few = asking.drawn.first(replace(luck, count=GLANCES)).beside(len(near))
    thick = np.repeat([pack.thickness for pack in near], GLANCES)
    glance = replace(asking, count=few.draws.count, sampled=few)
    thick = thick + play_off(glance, part)
    likely = met(glance, mine, {**packs, part: thick}).reshape(len(near), GLANCES).mean(axis=1)
    return tuple(p for p, x in zip(near, likely, strict=True) if x >= max(likely) - PROMISING)


def choose_all(
    asking: Asking, targets: tuple[Target, ...], parts: Sequence[str], packs: Packs
) -> dict[str, float]:
    """Choose packs that act together: from the ideal ones, each in turn with the others in place.

    A setting that moves nothing wanted, or whose sizes are not known, is left out.
    """
    mine = [t for t in targets if not lacking(asking, t.need, packs)]
    movers = [part for part in parts if moved_by(asking, mine, part, packs)]
    if not movers:
        return {}
    wished = ideals(asking, mine, movers, packs)
    found = {part: _nearest(asking, part, wished[part]) for part in movers}
    for _ in range(TURNS if len(movers) > 1 else 1):
        for part in movers:
            others = {**packs, **{p: t for p, t in found.items() if p != part}}
            choice = choose(asking, tuple(mine), part, others)
            if choice is not None:
                found[part] = choice.pack.thickness
    return found


TURNS = 2
"""How often packs that act together are gone through."""


def _nearest(asking: Asking, part: str, wished: float) -> float:
    near = nearest_packs(asking, part, wished)
    return min((p.thickness for p in near), key=lambda t: abs(t - wished), default=0.0)


def _mildest(
    tried: list[tuple[Pack, float]], wished: float, binds: Callable[[Pack], float]
) -> tuple[Pack, float, float]:
    """Take the best pack that binds seldom; where none does, the one that binds least."""
    left = list(tried)
    harms: list[tuple[float, tuple[Pack, float]]] = []
    while left:
        best = _best(left, wished)
        harms.append((binds(best[0]), best))
        if harms[-1][0] < MOST_HARM:
            break
        left.remove(best)
    else:
        harms.sort(key=lambda tried_one: tried_one[0])
        return (*harms[0][1], harms[0][0])
    return (*harms[-1][1], harms[-1][0])


def nearest_packs(asking: Asking, part: str, wished: float) -> tuple[Pack, ...]:
    """List the packs nearest to a thickness that can be made, thinnest first."""
    setting = asking.rebuild.settings[part]
    made = packs_about(setting, wished, asking.rebuild.system)
    close = sorted(made, key=lambda p: abs(p.thickness - wished))[:TRIED]
    return tuple(sorted(close, key=lambda p: p.exact))


def _best(tried: list[tuple[Pack, float]], wished: float) -> tuple[Pack, float]:
    """Take the likeliest; on a tie the fewest pieces, then the nearest."""
    top = max(likely for _, likely in tried)
    if top < AS_GOOD:
        return min(tried, key=lambda t: abs(t[0].thickness - wished))
    tied = [t for t in tried if t[1] >= top - AS_GOOD]
    return min(tied, key=lambda t: (len(t[0].pieces), abs(t[0].thickness - wished)))
