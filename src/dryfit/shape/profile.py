"""A side of a turned part, put together from what claims a radius where.

A claim that stands earlier in the list wins; what nobody claims is filled by what lies beside it.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from dryfit.shape.cells import What

HAIR = 1e-6
"""Places are the same within this [mm]."""

PRESSED = 0.3
"""Faces that are pressed together may lie over each other by less than this [mm]."""


@dataclass(frozen=True, slots=True)
class Step:
    """A radius from one place to another [mm], known or estimated."""

    first: float
    last: float
    radius: float
    known: bool = True
    what: What = What.METAL


def profile(
    claims: Sequence[Step], first: float, last: float, fill: Callable[[Step], Step]
) -> list[Step]:
    """Cut a side into steps: as the first claim on each says, or as `fill` makes of a bare one."""
    inside = {at for c in claims for at in (c.first, c.last) if first < at < last}
    cuts = _distinct(sorted({first, last, *inside}))
    steps = []
    for a, b in pairwise(cuts):
        middle = (a + b) / 2
        claim = next((c for c in claims if c.first < middle < c.last), None)
        own = replace(claim, first=a, last=b) if claim else fill(Step(a, b, 0.0, known=False))
        steps.append(own)
    return joined(steps)


def _distinct(cuts: Sequence[float]) -> list[float]:
    return [at for n, at in enumerate(cuts) if n == 0 or at - cuts[n - 1] > HAIR]


def joined(steps: Iterable[Step]) -> list[Step]:
    """Take neighbours that are alike as one."""
    found: list[Step] = []
    for step in steps:
        last = found[-1] if found else None
        if last and _alike(last, step) and abs(last.last - step.first) < HAIR:
            found[-1] = replace(last, last=step.last)
        else:
            found.append(step)
    return found


def _alike(a: Step, b: Step) -> bool:
    return abs(a.radius - b.radius) < HAIR and (a.known, a.what) == (b.known, b.what)


def beside(claims: Sequence[Step], bare: Step) -> tuple[Step | None, Step | None]:
    """Find the claims that end nearest before a bare stretch, and begin nearest behind it."""
    before = [c for c in claims if c.last <= bare.first + HAIR]
    behind = [c for c in claims if c.first >= bare.last - HAIR]
    return (
        max(before, key=lambda c: c.last, default=None),
        min(behind, key=lambda c: c.first, default=None),
    )


def at(steps: Sequence[Step], place: float) -> float | None:
    """Give the radius at a place [mm]; None outside."""
    return next((s.radius for s in steps if s.first - HAIR <= place <= s.last + HAIR), None)


def until(start: float, way: float, bounds: Iterable[float], most: float) -> float:
    """Go from a place one way to the nearest bound, but no further than so much [mm]."""
    ahead = [way * (b - start) for b in bounds if way * (b - start) > PRESSED]
    return start + way * min([most, *ahead])
