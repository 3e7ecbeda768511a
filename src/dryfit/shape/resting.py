"""What a shape is told of a line: where the spots of its bodies lie, and what sits on what."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from dryfit.model.rebuild import FIRST_END, LAST_END
from dryfit.model.spots import Spot

INNER_RING, OUTER_RING = "/inner ring", "/outer ring"
"""What follows the name of a bearing in the name of the body that is its ring."""


def owner(body: str) -> str:
    """Name the part that a body belongs to."""
    return body.partition("/")[0]


@dataclass(frozen=True, slots=True)
class Touch:
    """Two faces that may touch: `before` looks along the line, `after` back at it."""

    before: Spot
    after: Spot


@dataclass(frozen=True)
class Resting:
    """A line of the finished unit, all parts where they come to rest.

    Attributes
    ----------
    name, first, last
        The line and its ends.
    places
        Where each spot of each body lies along the line [mm].
    stacks
        Spots of its stacks, in order, with bodies for parts.
    hosts
        What each ring, nut or cover sits on, in or is screwed to.
    joints
        For each thing that is screwed on, the spot of its host and its own that meet there.
    threads
        Diameter of each thread that is known [mm].
    guessed
        Keys of lengths that are estimates: of a size, or `part.field`.
    """

    name: str
    first: str
    last: str
    places: Mapping[str, Mapping[str, float]]
    stacks: tuple[tuple[Spot, ...], ...]
    hosts: Mapping[str, str] = field(default_factory=dict)
    joints: Mapping[str, tuple[Spot, Spot]] = field(default_factory=dict)
    threads: Mapping[str, float] = field(default_factory=dict)
    guessed: frozenset[str] = frozenset()

    @property
    def touches(self) -> Iterator[Touch]:
        """All faces that may touch."""
        for stack in self.stacks:
            for a, b in pairwise(stack):
                if a.part != b.part:
                    yield Touch(a, b)

    def at(self, spot: Spot) -> float:
        """Say where a spot lies [mm]."""
        return self.places[spot.part][spot.name]

    def ends(self, body: str) -> tuple[float, float] | None:
        """Say where a body begins and ends, if both are known [mm]."""
        spots = self.places.get(body, {})
        if FIRST_END not in spots or LAST_END not in spots:
            return None
        return spots[FIRST_END], spots[LAST_END]

    def gap(self, touch: Touch) -> float:
        """Say how far two faces are apart [mm]."""
        return self.at(touch.after) - self.at(touch.before)
