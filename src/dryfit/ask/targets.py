"""How much float is wanted, where the rebuild does not say: offered by what the unit is used for.

None of these figures comes from a standard. They are what the trade passes on, and each says
what happens beyond either side.
"""

from dataclasses import dataclass
from fractions import Fraction

from dryfit.model.rebuild import Need, Rebuild
from dryfit.solve.bodies import BODIES

COMMON = "common practice, no source"
YOURS = "as you wrote"


@dataclass(frozen=True, slots=True)
class Row:
    """A range of float [m] by use, and what lies beyond it."""

    low: float
    high: float
    less: str
    more: str


BINDS = "it binds as soon as the shaft is warmer than the case"
KNOCKS = "it knocks when the drive is reversed, and gears wander in mesh"

OFFERED: dict[str, Row] = {
    "lay-shaft on thrust washers": Row(0.10e-3, 0.30e-3, BINDS, KNOCKS),
    "shaft between plain thrust faces": Row(0.10e-3, 0.30e-3, BINDS, KNOCKS),
    "plain headstock spindle": Row(
        0.01e-3, 0.05e-3, "the thrust collar runs hot", "the face of the work is not flat"
    ),
    "worm, slow": Row(0.10e-3, 0.15e-3, BINDS, "float is felt as lost motion at the wheel"),
    "worm, indexing": Row(0.005e-3, 0.020e-3, BINDS, "float is felt as lost motion at the wheel"),
}


@dataclass(frozen=True, slots=True)
class Target:
    """What is wanted of one need.

    Attributes
    ----------
    need
        The need.
    low, high
        Limits of its true value [m]; None for an open side.
    source
        Where they come from.
    less, more
        What happens beyond each.
    """

    need: Need
    low: float | None
    high: float | None
    source: str
    less: str = BINDS
    more: str = KNOCKS

    @property
    def aim(self) -> float:
        """The value to aim at [m]: the middle, or a little inside an open range."""
        if self.low is not None and self.high is not None:
            return (self.low + self.high) / 2
        return self.low + OPEN_SIDE if self.low is not None else (self.high or 0.0) - OPEN_SIDE


OPEN_SIDE = 0.05e-3
"""How far inside a range with one limit to aim [m]: estimate."""


def targets(rebuild: Rebuild) -> tuple[Target, ...]:
    """List what is wanted: the rebuild's own needs, else a float for each part that may float."""
    needs = tuple(rebuild.needs.values()) or _offered_needs(rebuild)
    found = (_target(rebuild, need) for need in needs)
    return tuple(target for target in found if target is not None)


def offered(rebuild: Rebuild) -> Row | None:
    """Find the row for what the unit is used for."""
    use = rebuild.used_for
    return OFFERED.get(use.kind) if use and use.kind else None


def _offered_needs(rebuild: Rebuild) -> tuple[Need, ...]:
    """Ask a float of every shaft and cluster that lies in a line."""
    lying = {s.part for line in rebuild.lines.values() for k in line.stacks for s in k.spots}
    return tuple(
        Need(f"{name} float", "float", of=name)
        for name, part in rebuild.parts.items()
        if name in lying and BODIES[part.kind].floats
    )


def _target(rebuild: Rebuild, need: Need) -> Target | None:
    """Take the limits a need states, else those offered; never any without a use."""
    row = offered(rebuild)
    less, more = (row.less, row.more) if row else (BINDS, KNOCKS)
    if need.want is not None:
        low, high = (
            None if x is None else float(x / 1000) for x in (need.want.low, need.want.high)
        )
        return Target(need, low, high, YOURS, less, more)
    return Target(need, row.low, row.high, COMMON, less, more) if row else None


def _metres(limit: Fraction | None) -> float | None:
    return None if limit is None else float(limit / 1000)
