"""All of a sheet that a part takes up: outlines a finger can meet, and a page can fill.

Cut, a part takes up each run of its metal; from outside, each stretch where it is the widest.
"""

from collections.abc import Sequence

from dryfit.draw.paper import Point
from dryfit.draw.section_outline import loop_of, outside, pieces
from dryfit.draw.section_view import Frame
from dryfit.shape.cells import Solid

Outlines = list[tuple[Point, ...]]

NARROW = 2.4
"""What is narrower is met so far about its middle [mm of paper]: estimate."""


def cut_reach(solid: Solid, frame: Frame) -> Outlines:
    """Go round each run of a part on its cut side."""
    return [
        _met([frame(edge.start) for edge in loop]) for loop in (loop_of(r) for r in pieces(solid))
    ]


def outside_reach(solids: Sequence[Solid], frame: Frame) -> dict[str, Outlines]:
    """Go round each stretch where a part is seen from outside."""
    found: dict[str, Outlines] = {}
    for one in outside(solids):
        corners = (one.first, 0.0), (one.first, one.radii[0]), (one.last, one.radii[1])
        outline = [frame(corner) for corner in (*corners, (one.last, 0.0))]
        found.setdefault(one.part, []).append(_met(outline))
    return found


def _met(outline: list[Point]) -> tuple[Point, ...]:
    """Widen what is too narrow for a finger, a shim, about its middle."""
    wide = [_widened([point[axis] for point in outline]) for axis in (0, 1)]
    return tuple(zip(wide[0], wide[1], strict=True))


def _widened(values: list[float]) -> list[float]:
    low, high = min(values), max(values)
    if high - low >= NARROW:
        return values
    middle, times = (low + high) / 2, NARROW / (high - low) if high > low else 0.0
    return [middle + times * (value - middle) for value in values]
