"""What a route to a setting is: how a pack is found or a nut set, and how sure that is."""

from dataclasses import dataclass, field

from dryfit.ask.packs import Pack
from dryfit.model.rebuild import Check
from dryfit.solve.luck import Array

SUM, GAP, DIFFERENCE = "sum of sizes", "closing gap", "difference"
TAKE_OUT, WALK = "read it, then correct", "walk to nothing"
NAMES = (SUM, GAP, TAKE_OUT, WALK, DIFFERENCE)

WALKED = 3
"""Packs of a walk."""


@dataclass(frozen=True, slots=True)
class Route:
    """One way to find a pack.

    Attributes
    ----------
    name
        Which route.
    chance
        First-time chance if it is gone [-]; None where it cannot be.
    pack
        What to fit, where no reading is needed or it was taken.
    check
        The reading to take first.
    left_out
        Parts left out while it is taken.
    trial
        Thickness to fit while it is taken [m].
    offset, sign
        The pack to make is what was fitted + `offset` [m] + `sign` x reading.
    reading
        What the reading should be: low, middle, high [m]; None where a size is not known.
    taken
        The reading, where it was taken [m].
    quarrel
        By how much a reading taken lies outside what the sizes make of it [m]; 0 if it does not.
    harm
        Share of builds by this route that bind, hot where that is known [-].
    why_not
        What stands in the way.
    trials
        All packs to be tried, where more than one reading is taken [m].
    made
        The pack as it is meant to be made in each draw [m], shape (n,).
    """

    name: str
    chance: float | None = None
    pack: Pack | None = None
    check: Check | None = None
    left_out: tuple[str, ...] = ()
    trial: float = 0.0
    offset: float = 0.0
    sign: float = 0.0
    reading: tuple[float, float, float] | None = None
    taken: float | None = None
    quarrel: float = 0.0
    harm: float = 0.0
    why_not: str = ""
    trials: tuple[float, ...] = ()
    made: Array | None = field(default=None, compare=False, repr=False)
