"""How two lines of one casing lie to each other, one record for each way."""

from dataclasses import dataclass

from dryfit.model.reads import reads
from dryfit.model.spots import Spot
from dryfit.quantities import Size


@dataclass(frozen=True)
class Axes:
    """Two lines in one casing.

    Their centres are as far apart as told, else as a mesh between them says, else they meet.
    """

    name: str
    kind: str
    line: str = reads("line", required=True)
    other: str = reads("line", required=True)
    centre_distance: Size | None = reads("known size")


@dataclass(frozen=True)
class ParallelAxes(Axes):
    """Two lines side by side, written the same way round, with a spot of each that lie level."""

    level: Spot | None = reads("spot", required=True)
    other_level: Spot | None = reads("spot", required=True)


@dataclass(frozen=True)
class SquareAxes(Axes):
    """Two lines at right angles, with the spot of each where it is nearest to the other."""

    crossing: Spot | None = reads("spot", required=True)
    other_crossing: Spot | None = reads("spot", required=True)


AXES_KINDS: dict[str, type[Axes]] = {"parallel": ParallelAxes, "square": SquareAxes}
