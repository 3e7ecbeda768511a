"""Faces in sight: where the flat faces of a line look, and how much of each can be seen.

Reading order: a face, the faces that others bear on, what is seen of one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from dryfit.plan.bodies import Body
from dryfit.plan.nest import Nest
from dryfit.shape.resting import Resting, owner

NEAR = 0.05
"""A named place and the face there are the same within this [mm]: nip, estimate."""

IN_SIGHT = 0.1
"""Share of a face below which it counts as hidden [-]: estimate."""

LEAST = 0.3
"""A step less high than this is no face that anything bears on [mm]: estimate."""


@dataclass(frozen=True, slots=True)
class Face:
    """A flat face that something bears on.

    Attributes
    ----------
    name
        As the text has it: `case.joint`; of a bearing that comes apart with its ring.
    body
        Which body it is of.
    at
        Where it lies along the line [mm].
    radii
        From which to which radius it reaches [mm].
    way
        Which way it looks: one of the ways of the nest.
    """

    name: str
    body: str
    at: float
    radii: tuple[float, float]
    way: str


def faces(nest: Nest, rest: Resting) -> tuple[Face, ...]:
    """List the faces of a line that others bear on, in the order of its stacks."""
    found: dict[tuple[str, str], Face] = {}
    for touch in rest.touches:
        for spot in (touch.before, touch.after):
            part, at = owner(spot.part), rest.at(spot)
            for body in _bodies(nest, part):
                face = face_at(nest, body, f"{body.name}.{spot.name}", at)
                if face is not None:
                    found.setdefault((face.name, face.body), face)
    return tuple(found.values())


def _bodies(nest: Nest, part: str) -> Iterator[Body]:
    """Give the bodies that a part is made of."""
    return (b for b in nest.bodies if b.name == part or b.name.startswith(f"{part}, "))


def face_at(nest: Nest, body: Body, name: str, at: float) -> Face | None:
    """Find the face of a body at a place: where there is metal on one side and none beyond."""
    ends = [(min(c.inner), max(c.outer)) for c in body.cells if abs(c.last - at) < NEAR]
    starts = [(min(c.inner), max(c.outer)) for c in body.cells if abs(c.first - at) < NEAR]
    both = (_bare(ends, starts), nest.ways[0]), (_bare(starts, ends), nest.ways[1])
    radii, way = max(both, key=lambda one: one[0][1] ** 2 - one[0][0] ** 2)
    return Face(name, body.name, at, radii, way) if radii[1] - radii[0] >= LEAST else None


def _bare(
    own: Sequence[tuple[float, float]], against: Sequence[tuple[float, float]]
) -> tuple[float, float]:
    """Give the widest ring that some rings fill and others do not [mm]; nothing is (0, 0)."""
    edges = sorted({r for pair in (*own, *against) for r in pair})
    best, start = (0.0, 0.0), None
    for low, high in pairwise(edges):
        middle = (low + high) / 2
        if _within(own, middle) and not _within(against, middle):
            start = low if start is None else start
            if high - start > best[1] - best[0]:
                best = start, high
        else:
            start = None
    return best


def _within(rings: Sequence[tuple[float, float]], radius: float) -> bool:
    return any(low < radius < high for low, high in rings)


def in_sight(nest: Nest, face: Face, there: int) -> bool:
    """Tell whether a face can be looked at along the line, past the bodies that are there.

    Examples
    --------
    >>> from dryfit.plan.bodies import stretch
    >>> pin = Body("pin", (stretch(0, 5, 0, 8), stretch(5, 30, 0, 5)))
    >>> ring = Body("ring", (stretch(5, 9, 5, 9),))
    >>> nest = Nest((pin, ring))
    >>> shoulder = Face("pin.shoulder", "pin", 5.0, (5.0, 8.0), "to last")
    >>> in_sight(nest, shoulder, nest.mask(["pin"])), in_sight(nest, shoulder, nest.full)
    (True, False)
    """
    return nest.seen(there, face.at, face.radii, toward=face.way) >= IN_SIGHT
