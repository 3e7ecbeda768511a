"""Acts that raise the chance to close up right first time, and what each costs in minutes.

Minutes are a table of ours, estimates: with the unit in pieces, on a bench, by one who has done it
before.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.harm import MOST_HARM
from dryfit.ask.route import GAP, TAKE_OUT, WALK, Route
from dryfit.ask.settings import chance
from dryfit.ask.targets import Target
from dryfit.ask.worth import Worth

MINUTES: dict[str, float] = {
    "rule": 1,
    "caliper": 2,
    "depth caliper": 2,
    "height gauge": 6,
    "micrometer": 3,
    "depth micrometer": 4,
    "telescopic gauge": 5,
    "bore gauge": 8,
    "comparator": 10,
    GAP: 20,
    TAKE_OUT: 30,
    WALK: 60,
}
"""To measure one size again by an instrument, or to go a route: estimate."""

USUAL = 5.0
"""By an instrument of the user's own: estimate."""

WORTH_IT = 0.01
"""An act that gains less in chance is not told."""


@dataclass(frozen=True, slots=True)
class Act:
    """One act before the unit is closed.

    Attributes
    ----------
    name
        Instrument to measure by, or route to go.
    what
        Size to be measured, or setting.
    now
        Instrument it was read by; empty for a route.
    minutes
        What it costs: estimate.
    chance
        First-time chance with it [-].
    """

    name: str
    what: str
    now: str
    minutes: float
    chance: float


def acts(
    asking: Asking,
    targets: tuple[Target, ...],
    by_sum: Packs,
    gone: Mapping[str, Sequence[Route]],
    better: Sequence[Worth],
) -> tuple[float, tuple[Act, ...]]:
    """Say the chance by the sum of sizes alone, and what raises it, most a minute first.

    Parameters
    ----------
    asking
        The unit [asking]
    targets
        What is wanted [targets]
    by_sum
        Packs by the sum of sizes [m]
    gone
        Routes to each setting, gone by the same asking [routes]
    better
        Sizes worth measuring better [sizes]

    Returns
    -------
    chance, acts
        By the sum alone [-]; the acts [acts]

    Valid
    -----
    Units whose sizes are known.

    Source
    ------
    Ours; minutes are estimates.

    Examples
    --------
    See tests/ask/test_acts.py.

    >>> MINUTES["caliper"] < MINUTES["comparator"]
    True
    """
    base = chance(asking, targets, by_sum)
    found = [
        Act(one.better, one.key, one.now, MINUTES.get(one.better, USUAL), one.chance)
        for one in better
    ]
    for part, routes in gone.items():
        for route in routes:
            if route.made is None or route.name not in MINUTES or route.harm >= MOST_HARM:
                continue
            likely = chance(asking, targets, {**by_sum, part: route.made})
            found.append(Act(route.name, part, "", MINUTES[route.name], likely))
    worth_it = [act for act in found if act.chance - base >= WORTH_IT]
    return base, tuple(sorted(worth_it, key=lambda act: (base - act.chance) / act.minutes))
