"""Section lines: their angles by neighbour, and the lines cut to an outline."""

from collections.abc import Iterable, Mapping, Sequence
from math import ceil, cos, floor, radians, sin, sqrt

from dryfit.draw.paper import Point

ANGLES = (45.0, 135.0, 60.0, 120.0, 30.0, 150.0)
"""Angles of section lines, those at 45 degrees first: ISO 128-50 (from memory)."""

CLOSE, WIDE = 1.4, 3.2
"""Least and greatest distance of section lines on paper [mm]; wider for larger areas."""

SHORTEST = 0.3
"""Section lines that are shorter are left out [mm]."""


def hatched(
    loops: Sequence[Sequence[Point]], angle: float, apart: float
) -> list[tuple[Point, ...]]:
    """Cut section lines to closed loops, even and odd: a loop within a loop is a hole.

    Parameters
    ----------
    loops
        Outlines on paper [mm]
    angle
        Of the lines, from the horizontal, to the left [degree]
    apart
        Their distance [mm]
    """
    a = radians(angle)
    along, across = (cos(a), sin(a)), (-sin(a), cos(a))
    turned = [[(_dot(p, along), _dot(p, across)) for p in loop] for loop in loops]
    depths = [v for loop in turned for _, v in loop]
    first, last = ceil(min(depths) / apart), floor(max(depths) / apart)
    lines = []
    for n in range(first, last + 1):
        depth = n * apart + 1e-7
        cuts = sorted(u for loop in turned for u in _cuts(loop, depth))
        for u0, u1 in zip(cuts[::2], cuts[1::2], strict=False):
            if u1 - u0 > SHORTEST:
                lines.append(tuple(_back(u, depth, along, across) for u in (u0, u1)))
    return lines


def _dot(p: Point, q: Point) -> float:
    return p[0] * q[0] + p[1] * q[1]


def _back(u: float, v: float, along: Point, across: Point) -> Point:
    return u * along[0] + v * across[0], u * along[1] + v * across[1]


def _cuts(loop: Sequence[Point], depth: float) -> Iterable[float]:
    """Say where a line at a depth crosses a loop."""
    for (u0, v0), (u1, v1) in zip(loop, [*loop[1:], loop[0]], strict=True):
        if (v0 < depth) != (v1 < depth):
            yield u0 + (u1 - u0) * (depth - v0) / (v1 - v0)


def spacing(areas: Iterable[float]) -> float:
    """Say how far apart section lines are on areas of such a size [mm] from [mm^2]."""
    return min(WIDE, max(CLOSE, 0.08 * sqrt(max(areas, default=0.0)) + 0.9))


def angles(sizes: Mapping[str, float], touching: Iterable[tuple[str, str]]) -> dict[str, float]:
    """Give each part an angle that no neighbour has, the largest part first.

    Where a part has more neighbours than there are angles, one in between is taken; where those
    are gone too, the one that fewest neighbours have.
    """
    beside: dict[str, set[str]] = {name: set() for name in sizes}
    for one, other in touching:
        if one in beside and other in beside and one != other:
            beside[one].add(other)
            beside[other].add(one)
    found: dict[str, float] = {}
    for name in sorted(sizes, key=lambda n: (-sizes[n], n)):
        taken = [found[other] for other in beside[name] if other in found]
        found[name] = min((*ANGLES, *_between()), key=taken.count)
    return found


def _between() -> list[float]:
    """List further angles, for a part with many neighbours."""
    return [float(angle) for angle in range(20, 161, 7) if float(angle) not in ANGLES]
