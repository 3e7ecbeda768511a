"""Where the bodies of a unit touch, stack by stack, and what holds them there."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from dryfit.model.parts import SpringWasher
from dryfit.model.rebuild import Rebuild
from dryfit.model.spots import Spot
from dryfit.solve.bodies import BODIES, Side, Stands
from dryfit.solve.joints import body_of, cover_on
from dryfit.solve.network import floating
from dryfit.solve.rings import on_rings, owner


@dataclass(frozen=True, slots=True)
class Touch:
    """Two faces that may touch.

    Attributes
    ----------
    line
        The line they lie in.
    before, after
        The faces, of a bearing on one of its rings.
    joint
        What is screwed on at this stack, or None.
    """

    line: str
    before: Spot
    after: Spot
    joint: str | None

    def face(self, body: str) -> Spot:
        """Give the face of one of the two bodies."""
        return self.before if self.before.part == body else self.after

    def other(self, body: str) -> str:
        """Name the other body."""
        return self.after.part if self.before.part == body else self.before.part


def touches(rebuild: Rebuild) -> tuple[Touch, ...]:
    """List all faces that may touch, in the order of the text."""
    return tuple(_all(rebuild))


def _all(rebuild: Rebuild) -> Iterator[Touch]:
    case = next((n for n, p in rebuild.parts.items() if BODIES[p.kind].stands is Stands.STILL), "")
    loose = floating(rebuild)
    for line in rebuild.lines.values():
        for stack in line.stacks:
            spots = on_rings(rebuild, stack.spots)
            joint = cover_on(rebuild, spots, case, loose)
            for a, b in pairwise(spots):
                if a.part != b.part:
                    yield Touch(line.name, a, b, joint)


def is_threaded(rebuild: Rebuild, body: str) -> bool:
    """Tell a nut or threaded ring."""
    return body_of(rebuild, body).stands is Stands.THREADED


def is_host(rebuild: Rebuild, body: str) -> bool:
    """Tell what rings sit against: a shaft, the case, what is screwed to it."""
    kind = body_of(rebuild, body)
    return kind.side is not Side.EITHER and kind.stands is not Stands.THREADED


def is_spring(rebuild: Rebuild, body: str) -> bool:
    """Tell a spring, which has no place of its own."""
    return isinstance(rebuild.parts[owner(body)], SpringWasher)
