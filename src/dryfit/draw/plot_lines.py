"""Lines in a plot: cut to its frame, and section lines in a box."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, floor

from dryfit.draw.paper import Pen, Point, Stroke
from dryfit.draw.plot_frame import Frame


def hatched(low: Point, high: Point, gap: float = 1.6) -> Iterator[Stroke]:
    """Section lines at 45 degrees in a box on the sheet [mm]."""
    (x0, y0), (x1, y1) = low, high
    tall = y1 - y0
    for n in range(floor((x0 - y1) / gap), ceil((x1 - y0) / gap) + 1):
        start = n * gap
        left, right = max(x0, start + y0), min(x1, start + y1)
        if right - left > 0.05 and tall > 0:
            yield Stroke(((left, left - start), (right, right - start)), Pen.HATCH)


def clipped(frame: Frame, points: Sequence[Point]) -> Iterator[tuple[Point, ...]]:
    """Cut a line to its frame and give what is left of it on the sheet, run by run [mm]."""
    run: list[Point] = []
    for one, two in pairwise(points):
        piece = _cut(frame, one, two)
        if piece is None:
            continue
        start, end = (frame.at(p) for p in piece)
        if run and run[-1] == start:
            run.append(end)
        else:
            if run:
                yield tuple(run)
            run = [start, end]
    if run:
        yield tuple(run)


def _cut(frame: Frame, one: Point, two: Point) -> tuple[Point, Point] | None:
    """Cut a piece of line to the frame, in values (Liang and Barsky's way)."""
    first, last = 0.0, 1.0
    for axis, (least, most) in enumerate((frame.xs, frame.ys)):
        start, run = one[axis], two[axis] - one[axis]
        if run == 0:
            if not least <= start <= most:
                return None
            continue
        ends = sorted(((least - start) / run, (most - start) / run))
        first, last = max(first, ends[0]), min(last, ends[1])
    if first >= last:
        return None
    return _along(one, two, first), _along(one, two, last)


def _along(one: Point, two: Point, share: float) -> Point:
    if share in (0.0, 1.0):
        return two if share else one
    return one[0] + share * (two[0] - one[0]), one[1] + share * (two[1] - one[1])
