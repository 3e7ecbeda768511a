"""Parts of a half-section on paper: cut above the axis, seen from outside below.

Reading order: `cut_part`, a part by what its cells are of; `from_outside`; `case_about`, the case
of one line or two.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from dryfit.draw.paper import Area, Item, Pen, Point, Ring, Stroke
from dryfit.draw.section_hatch import hatched, spacing
from dryfit.draw.section_outline import (
    Box,
    Edge,
    Hollow,
    Loop,
    Metal,
    Seen,
    loop_of,
    outside,
    pieces,
    union,
)
from dryfit.draw.section_view import Frame
from dryfit.shape.cells import Cell, Guess, Solid, What

THIN, BLACK = 0.9, 1.3
"""What is thinner than the first is drawn so thick on paper; metal thinner than the second is
blacked in [mm]: ISO 128-50 has thin cut areas filled (from memory)."""

PARTED = 0.12
"""Half of the hair of paper between blacked areas that touch [mm]."""


def pen(*, guess: bool) -> Pen:
    """Give the pen for an outline."""
    return Pen.ASSUMED if guess else Pen.OUTLINE


def outlined(loop: Sequence[Edge], frame: Frame) -> list[Item]:
    """Draw a loop, what is known and what is not each in its pen, as few strokes as it needs."""
    if len({edge.guess for edge in loop}) == 1:
        points = tuple(frame(edge.start) for edge in loop)
        return [Stroke(points, pen(guess=loop[0].guess), closed=True)]
    turn = next(n for n in range(len(loop)) if loop[n].guess != loop[n - 1].guess)
    runs: list[list[Edge]] = []
    for edge in (*loop[turn:], *loop[:turn]):
        if runs and runs[-1][-1].guess == edge.guess:
            runs[-1].append(edge)
        else:
            runs.append([edge])
    return [
        Stroke((*(frame(edge.start) for edge in run), frame(run[-1].end)), pen(guess=run[0].guess))
        for run in runs
    ]


def area_of(loop: Sequence[Point]) -> float:
    """Area within a loop [mm^2]."""
    turned = [*loop[1:], loop[0]]
    return abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(loop, turned, strict=True))) / 2


def cut_part(solid: Solid, frame: Frame, angle: float | None, *, closer: float = 1.0) -> list[Item]:
    """Draw one side of a part as it is cut; with no angle it is left whole, as shafts are.

    Its section lines may lie so many times closer than usual.
    """
    items: list[Item] = []
    for run in pieces(solid):
        draw = _AS.get(run[0].what)
        if draw:
            items += draw(run, frame)
        elif angle is None and not any(max(cell.inner) > 0 for cell in run):
            items += _whole(run, frame)
        else:
            items += _metal(run, frame, 45.0 if angle is None else angle, closer)
    return items


def _metal(run: Sequence[Cell], frame: Frame, angle: float, closer: float) -> list[Item]:
    """Draw cut metal: its outline and section lines, or black where it is thin."""
    loop = loop_of(run)
    points = [frame(edge.start) for edge in loop]
    high = max(max(c.outer) - min(c.inner) for c in run) * frame.scale
    long = (run[-1].last - run[0].first) * frame.scale
    if min(high, long) < BLACK:
        return [_black(run, frame)]
    lines = hatched([points], angle, spacing([area_of(points)]) / closer)
    return [*(Stroke(line, Pen.HATCH) for line in lines), *outlined(loop, frame)]


def _black(run: Sequence[Cell], frame: Frame) -> Area:
    """Fill what is too thin to be hatched, and not too thin to be seen."""
    first, last = run[0].first, run[-1].last
    low, high = min(min(c.inner) for c in run), max(max(c.outer) for c in run)
    (x0, y0), (x1, y1) = frame((first, low)), frame((last, high))
    x0, x1 = _thick(x0, x1)
    y0, y1 = _thick(y0, y1)
    return Area(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def _thick(a: float, b: float) -> tuple[float, float]:
    """Widen what is too thin about its middle, and part it a hair from what it touches."""
    low, high = min(a, b), max(a, b)
    if high - low < THIN:
        middle = (low + high) / 2
        return middle - THIN / 2, middle + THIN / 2
    return low + PARTED, high - PARTED


def _whole(run: Sequence[Cell], frame: Frame) -> list[Item]:
    """Draw one side of a shaft, which is not cut: its outline, its edges, its threads."""
    loop = [e for e in loop_of(run) if e.start[1] > 0 or e.end[1] > 0]
    items = outlined_open(loop, frame)
    for a, b in pairwise(run):
        low = min(a.outer[1], b.outer[0])
        if (
            abs(a.outer[1] - b.outer[0]) > 1e-6
            or a.outer[0] != a.outer[1]
            or b.outer[0] != b.outer[1]
        ):
            items.append(Stroke((frame((a.last, 0.0)), frame((a.last, low))), Pen.EDGE))
    threads = [c for c in run if c.what is What.THREAD]
    for cell in threads:
        root = 0.92 * cell.outer[0]
        ends = frame((cell.first, root)), frame((cell.last, root))
        items.append(Stroke(ends, Pen.EDGE))
    return items


def outlined_open(loop: Sequence[Edge], frame: Frame) -> list[Item]:
    """Draw edges that follow each other, in runs of one pen."""
    items: list[Item] = []
    run: list[Edge] = []
    for edge in (*loop, None):
        if run and (edge is None or edge.guess != run[0].guess or edge.start != run[-1].end):
            points = (*(frame(e.start) for e in run), frame(run[-1].end))
            items.append(Stroke(points, pen(guess=run[0].guess)))
            run = []
        if edge is not None:
            run.append(edge)
    return items


def _ball(run: Sequence[Cell], frame: Frame) -> list[Item]:
    items: list[Item] = []
    for cell in run:
        middle = ((cell.first + cell.last) / 2, (cell.inner[0] + cell.outer[0]) / 2)
        items.append(Ring(frame(middle), (cell.outer[0] - cell.inner[0]) / 2 * frame.scale))
    return items


def _plain(run: Sequence[Cell], frame: Frame) -> list[Item]:
    return outlined(loop_of(run), frame)


def _pack(run: Sequence[Cell], frame: Frame) -> list[Item]:
    return [_black(run, frame)]


def _lip(run: Sequence[Cell], frame: Frame) -> list[Item]:
    """Black in a lip seal: its shell, and the lip on the shaft."""
    a, b, low, high = run[0].first, run[-1].last, run[0].inner[0], run[0].outer[0]
    long, tall = b - a, high - low
    shape = (
        (0, 1),
        (1, 1),
        (1, 0.25),
        (0.8, 0.2),
        (0.35, 0),
        (0.15, 0.15),
        (0.25, 0.35),
        (0.75, 0.45),
        (0.75, 0.75),
        (0, 0.75),
    )
    return [Area(tuple(frame((a + u * long, low + v * tall)) for u, v in shape))]


def _spring(run: Sequence[Cell], frame: Frame) -> list[Item]:
    """Black in a spring washer: a slanting leaf from face to face."""
    a, b, low, high = run[0].first, run[-1].last, run[0].inner[0], run[0].outer[0]
    leaf = min(max(0.25 * (b - a), 0.6 / frame.scale), 0.6 * (b - a))
    corners = ((a, low), (a + leaf, low), (b, high), (b - leaf, high))
    return [Area(tuple(frame(corner) for corner in corners))]


_AS: dict[What, Callable[[Sequence[Cell], Frame], list[Item]]] = {
    What.BALL: _ball,
    What.ROLLER: _plain,
    What.TOOTH: _plain,
    What.KEY: _plain,
    What.LIP: _lip,
    What.SHIM: _pack,
    What.GASKET: _pack,
    What.SPRING: _spring,
}
"""How what is no metal is drawn where it is cut."""


def behind(solid: Solid, others: Sequence[Solid], frame: Frame) -> list[Item]:
    """Draw the edges of a hollow part that are seen behind the cut, where nothing hides them."""
    items: list[Item] = []
    rest = [c for other in others if other.part != solid.part for c in other.laid]
    for run in pieces(solid):
        if run[0].what.is_full and min(min(c.inner) for c in run) > 0:
            for x, radius in _rims(run):
                own = [c for c in solid.laid if c not in run]
                top = _hidden([*rest, *own], x, radius)
                if radius - top > 0.4 / frame.scale:
                    items.append(Stroke((frame((x, top)), frame((x, radius))), Pen.EDGE))
    return items


def _rims(run: Sequence[Cell]) -> list[tuple[float, float]]:
    """List where the inside of a run has a rim: its ends and its steps [mm]."""
    steps = [(run[0].first, run[0].inner[0]), (run[-1].last, run[-1].inner[1])]
    for a, b in pairwise(run):
        if abs(a.inner[1] - b.inner[0]) > 1e-6:
            steps.append((a.last, min(a.inner[1], b.inner[0])))
    return steps


def _hidden(cells: Sequence[Cell], x: float, radius: float) -> float:
    """Say up to which radius others lie before a rim [mm]."""
    met = [c for c in cells if c.first - 0.02 <= x <= c.last + 0.02]
    tops = [max(c.radii(min(max(x, c.first), c.last))) for c in met]
    return max((top for top in tops if top <= radius + 1e-6), default=0.0)


def from_outside(solids: Sequence[Solid], frame: Frame) -> dict[str, list[Item]]:
    """Draw one side of a line as it is seen from outside, by part."""
    found: dict[str, list[Item]] = {}
    seen = outside(solids)
    what = {solid.part: solid.cells[0].what for solid in solids}
    for one in seen:
        items = found.setdefault(one.part, [])
        if what[one.part] in (What.SHIM, What.GASKET):
            items.append(_leaf(one.first, one.last, max(one.radii), frame))
        else:
            ends = frame((one.first, one.radii[0])), frame((one.last, one.radii[1]))
            items.append(Stroke(ends, pen(guess=bool(one.guess & Guess.OUTER))))
    for before, behind_ in _meetings(seen):
        taller, items = _edge(before, behind_, frame)
        if what[taller.part] not in (What.SHIM, What.GASKET):
            found[taller.part] += items
    return found


def _meetings(seen: Sequence[Seen]) -> Iterator[tuple[Seen | None, Seen | None]]:
    """List what meets at each end of a stretch: two stretches, or one and nothing."""
    for a, b in pairwise((None, *seen, None)):
        if a is None or b is None or b.first - a.last < 1e-6:
            yield a, b
        else:
            yield a, None
            yield None, b


def _edge(before: Seen | None, behind_: Seen | None, frame: Frame) -> tuple[Seen, list[Item]]:
    """Draw the edge where stretches meet: it is of the one that stands out further."""
    ends = before.radii[1] if before else 0.0, behind_.radii[0] if behind_ else 0.0
    if before and (behind_ is None or ends[0] > ends[1]):
        return before, _step(*ends, before.last, frame, bool(before.guess & Guess.LAST))
    taller = behind_ or before
    assert taller is not None  # of two neighbours one is there
    return taller, _step(*ends, taller.first, frame, bool(taller.guess & Guess.FIRST))


def _leaf(first: float, last: float, radius: float, frame: Frame) -> Item:
    (x0, y0), (x1, y1) = frame((first, 0.0)), frame((last, radius))
    x0, x1 = _thick(x0, x1)
    return Area(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def _step(a: float, b: float, x: float, frame: Frame, guess: bool) -> list[Item]:
    """Draw the edge at a step between two radii: thick where it is the outline, thin within."""
    low, high = min(a, b), max(a, b)
    if high - low < 1e-6:
        return []
    items: list[Item] = [Stroke((frame((x, low)), frame((x, high))), pen(guess=guess))]
    if low > 0:
        items.append(Stroke((frame((x, 0.0)), frame((x, low))), Pen.EDGE))
    return items


def boxes(solid: Solid, frame: Frame, sides: Sequence[float]) -> tuple[list[Metal], list[Hollow]]:
    """Give the metal of a case and its hollow as boxes, on the sides of its axis that are drawn."""
    metal: list[Metal] = []
    hollow: list[Hollow] = []
    upright = frame.along[0] == 0.0
    for cell in solid.laid:
        outer, ends = bool(cell.guess & Guess.OUTER), bool(cell.guess & Guess.ENDS)
        for side in sides:
            box = _box(frame, cell, side, cell.inner[0], cell.outer[0])
            metal.append(Metal(box, outer, ends, upright))
            if cell.inner[0] > 0:
                room = _box(frame, cell, side, 0.0, cell.inner[0])
                hollow.append((room, bool(cell.guess & Guess.INNER)))
    return metal, hollow


def _box(frame: Frame, cell: Cell, side: float, low: float, high: float) -> Box:
    (x0, y0), (x1, y1) = frame((cell.first, side * low)), frame((cell.last, side * high))
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def cases_crossing(metal: Sequence[Metal], hollow: Sequence[Hollow], angle: float) -> list[Item]:
    """Draw a case about two lines that cross: the walls of both, less the hollows of both."""
    loops: list[Loop] = union(metal, hollow)
    if not loops:
        return []
    points = [[edge.start for edge in loop] for loop in loops]
    largest = max(area_of(loop) for loop in points)
    lines = hatched(points, angle, spacing([largest]))
    flat = Frame((0.0, 0.0), 0.0, (1.0, 0.0), (0.0, 1.0), 1.0)
    return [
        *(Stroke(line, Pen.HATCH) for line in lines),
        *(item for loop in loops for item in outlined(loop, flat)),
    ]


def targets(solids: Sequence[Solid]) -> dict[str, tuple[float, float]]:
    """Say where the leader of each part points to: into the largest of its cells [mm]."""
    found = {}
    for solid in solids:
        cell = max(solid.laid, key=lambda c: c.length * (sum(c.outer) - sum(c.inner)))
        middle = (cell.first + cell.last) / 2
        low, high = cell.radii(middle)
        found[solid.part] = (middle, low + 0.5 * (high - low) if low else 0.55 * high)
    return found
