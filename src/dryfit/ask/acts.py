"""Acts that raise the chance to close up right first time, and what each costs in minutes.

Minutes are a table of ours, estimates: with the unit in pieces, on a bench, by one who has done it
before.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.harm import MOST_HARM
from dryfit.ask.route import GAP, TAKE_OUT, WALK, Route
from dryfit.ask.settings import chance
from dryfit.ask.targets import Target
from dryfit.ask.variants import PRIORS, Variant
from dryfit.ask.worth import Worth

GAUGE, SPANNER = "gauge", "spanner"
"""Tools to be made first: what stands in for a part that has to be out, what gets to a nut."""

EARLY, TRIAL = "read it early", "trial build"
"""What spares undoing: a check where the order has it, a build with no grease, seals or locking."""

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
    GAUGE: 45,
    SPANNER: 60,
}
"""To measure one size again by an instrument, to go a route, to make a tool: estimate."""

SETTLE = "turn to settle"
TURNING = 2.0
"""To turn a shaft ten times each way before one reading: estimate."""

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
        Instrument to measure by, route to go, `SETTLE`, or tool to be made.
    what
        Size to be measured, setting, or what a tool gets to.
    now
        Instrument it was read by; the route on which the shaft is turned; empty for a route.
    minutes
        What it costs: estimate.
    chance
        First-time chance with it [-].
    without
        First-time chance without it [-].
    """

    name: str
    what: str
    now: str
    minutes: float
    chance: float
    without: float

    @property
    def gain(self) -> float:
        """What it adds to the chance [-]."""
        return self.chance - self.without


def acts(
    asking: Asking,
    targets: tuple[Target, ...],
    by_sum: Packs,
    gone: Mapping[str, Sequence[Route]],
    better: Sequence[Worth],
    unsettled: Mapping[str, tuple[str, Variant]],
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
    unsettled
        Settings to be made by a float: the route, and what is wrong if the rows have not settled

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
        Act(one.better, one.key, one.now, MINUTES.get(one.better, USUAL), one.chance, base)
        for one in better
    ]
    for part, routes in gone.items():
        for route in routes:
            if route.made is None or route.name not in MINUTES or route.harm >= MOST_HARM:
                continue
            packs = {**by_sum, part: route.made}
            likely = chance(asking, targets, packs)
            found.append(Act(route.name, part, "", MINUTES[route.name], likely, base))
            name, variant = unsettled.get(part, ("", None))
            if variant and name == route.name:
                turned = _settle(
                    asking, targets, packs, part=part, route=route, settled=likely, variant=variant
                )
                found.append(turned)
    return base, most_a_minute(act for act in found if act.gain >= WORTH_IT)


def most_a_minute(found: Iterable[Act]) -> tuple[Act, ...]:
    """Put the act first that gains most for its time.

    Parameters
    ----------
    found
        Acts [acts]

    Returns
    -------
    acts
        In order [acts]

    Valid
    -----
    Acts that take some time.

    Source
    ------
    None needed.

    Examples
    --------
    >>> quick, slow = Act("a", "", "", 2, 0.8, 0.7), Act("b", "", "", 60, 0.9, 0.7)
    >>> [act.name for act in most_a_minute([slow, quick])]
    ['a', 'b']
    """
    return tuple(sorted(found, key=lambda act: -act.gain / act.minutes))


def _settle(
    asking: Asking,
    targets: tuple[Target, ...],
    packs: Packs,
    *,
    part: str,
    route: Route,
    settled: float,
    variant: Variant,
) -> Act:
    """Say what it is worth to turn the shaft before each reading of a route."""
    short = chance(variant.asking(asking), targets, packs)
    prior = PRIORS[variant.kind]
    left = prior.chance * (1 - prior.seen)
    minutes = TURNING * max(len(route.trials), 1)
    without = (1 - left) * settled + left * short
    return Act(SETTLE, part, route.name, minutes, settled, without)
