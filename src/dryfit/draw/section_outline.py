"""Outlines of cut parts and of what is seen from outside, from cells along an axis [mm of iron].

Reading order: an edge and a loop, `loops_of` a piece, `union` of pieces on crossing axes,
`outside` view as the widest of all.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from dryfit.shape.cells import Cell, Guess, Solid

HAIR = 1e-6
"""Places are the same within this [mm]."""

Spot2 = tuple[float, float]
"""Place along the axis and radius, or x and y [mm]."""


@dataclass(frozen=True, slots=True)
class Edge:
    """A straight edge, and whether its place is an estimate."""

    start: Spot2
    end: Spot2
    guess: bool = False


Loop = tuple[Edge, ...]
"""A closed outline, edge by edge."""


def pieces(solid: Solid) -> Iterator[list[Cell]]:
    """Part the cells of a solid into runs of metal that hang together."""
    for name in dict.fromkeys(cell.piece for cell in solid.cells):
        run: list[Cell] = []
        own = [cell for cell in solid.laid if cell.piece == name]
        for cell in sorted(own, key=lambda c: c.first):
            if run and not _joined(run[-1], cell):
                yield run
                run = []
            run.append(cell)
        if run:
            yield run


def _joined(a: Cell, b: Cell) -> bool:
    """Tell whether two cells touch in a face."""
    meets = abs(a.last - b.first) < HAIR and a.what.is_full == b.what.is_full
    return meets and min(a.outer[1], b.outer[0]) - max(a.inner[1], b.inner[0]) > HAIR


def loop_of(run: Sequence[Cell]) -> Loop:
    """Go round a run of cells: along its outside, back along its inside."""
    top, low = _side(run, outer=True), _side(run, outer=False)
    first, last = run[0], run[-1]
    shut = Edge(top[-1].end, low[-1].end, bool(last.guess & Guess.LAST))
    back = [Edge(e.end, e.start, e.guess) for e in reversed(low)]
    begin = Edge(low[0].start, top[0].start, bool(first.guess & Guess.FIRST))
    return tuple(e for e in (*top, shut, *back, begin) if e.start != e.end)


def _side(run: Sequence[Cell], *, outer: bool) -> list[Edge]:
    """Go along one side of a run, with the steps between its cells."""
    flag = Guess.OUTER if outer else Guess.INNER
    edges: list[Edge] = []
    for cell in run:
        radii = cell.outer if outer else cell.inner
        start, end = (cell.first, radii[0]), (cell.last, radii[1])
        if edges and abs(edges[-1].end[1] - start[1]) > HAIR:
            step = bool(cell.guess & Guess.FIRST)
            edges.append(Edge(edges[-1].end, start, step))
        elif edges:
            start = edges[-1].end
        guess = bool(cell.guess & flag)
        if edges and edges[-1].guess == guess and _level(edges[-1], end):
            edges[-1] = Edge(edges[-1].start, end, guess)
        else:
            edges.append(Edge(start, end, guess))
    return edges


def _level(edge: Edge, end: Spot2) -> bool:
    return abs(edge.start[1] - edge.end[1]) < HAIR and abs(edge.end[1] - end[1]) < HAIR


@dataclass(frozen=True, slots=True)
class Seen:
    """A stretch of the outline as seen from outside: whose it is, and its radii [mm]."""

    part: str
    first: float
    last: float
    radii: tuple[float, float]
    guess: Guess


def outside(solids: Iterable[Solid]) -> list[Seen]:
    """Say along the axis what reaches furthest out: it hides all else."""
    cells = [(solid.part, cell) for solid in solids for cell in solid.laid]
    cuts = _distinct(sorted({x for _, c in cells for x in (c.first, c.last)}))
    found: list[Seen] = []
    for a, b in pairwise(cuts):
        middle = (a + b) / 2
        here = [(p, c) for p, c in cells if c.first <= middle <= c.last]
        if here:
            part, cell = max(here, key=lambda pc: pc[1].radii(middle)[1])
            radii = cell.radii(a)[1], cell.radii(b)[1]
            found.append(Seen(part, a, b, radii, _kept(cell, a, b)))
    return found


def _kept(cell: Cell, a: float, b: float) -> Guess:
    """Keep of a cell's doubts those of the ends that a stretch of it has."""
    guess = cell.guess
    guess &= ~(Guess.FIRST if a > cell.first + HAIR else Guess.NONE)
    guess &= ~(Guess.LAST if b < cell.last - HAIR else Guess.NONE)
    return guess


def _distinct(cuts: Sequence[float]) -> list[float]:
    return [at for n, at in enumerate(cuts) if n == 0 or at - cuts[n - 1] > HAIR]


Box = tuple[float, float, float, float]
"""Left, lower, right, upper [mm]."""


@dataclass(frozen=True, slots=True)
class Metal:
    """A box of metal: whether its outside, and whether its ends, are estimates."""

    box: Box
    outer: bool = False
    ends: bool = False
    upright: bool = False

    def doubtful(self, *, upright: bool) -> bool:
        """Tell whether an edge that is upright or level is an estimate."""
        return self.outer if upright == self.upright else self.ends


Hollow = tuple[Box, bool]
"""A box of nothing within a case, and whether its size is an estimate."""


def union(metal: Sequence[Metal], hollow: Sequence[Hollow]) -> list[Loop]:
    """Go round boxes of metal, less boxes that are hollow."""
    boxes = [one.box for one in metal] + [box for box, _ in hollow]
    xs = _distinct(sorted({x for b in boxes for x in (b[0], b[2])}))
    ys = _distinct(sorted({y for b in boxes for y in (b[1], b[3])}))
    middles = {
        (i, j): ((x0 + x1) / 2, (y0 + y1) / 2)
        for i, (x0, x1) in enumerate(pairwise(xs))
        for j, (y0, y1) in enumerate(pairwise(ys))
    }
    empty = {
        at: all(guess for box, guess in hollow if _inside(box, *middle))
        for at, middle in middles.items()
        if any(_inside(box, *middle) for box, _ in hollow)
    }
    full = {
        at: [one for one in metal if _inside(one.box, *middle)]
        for at, middle in middles.items()
        if at not in empty and any(_inside(one.box, *middle) for one in metal)
    }
    return _traced(_border(full, empty, xs, ys))


def _inside(box: Box, x: float, y: float) -> bool:
    return box[0] < x < box[2] and box[1] < y < box[3]


Grid = tuple[int, int]
"""Column and row of a field between all edges of boxes."""


def _border(
    full: Mapping[Grid, Sequence[Metal]],
    empty: Mapping[Grid, bool],
    xs: Sequence[float],
    ys: Sequence[float],
) -> dict[Spot2, list[Edge]]:
    """List the edges between metal and none, metal on the left, by where they start."""
    found: dict[Spot2, list[Edge]] = {}
    for (i, j), owners in full.items():
        x0, x1, y0, y1 = xs[i], xs[i + 1], ys[j], ys[j + 1]
        for (di, dj), start, end in (
            ((0, -1), (x0, y0), (x1, y0)),
            ((1, 0), (x1, y0), (x1, y1)),
            ((0, 1), (x1, y1), (x0, y1)),
            ((-1, 0), (x0, y1), (x0, y0)),
        ):
            beside = (i + di, j + dj)
            if beside not in full:
                outer = all(one.doubtful(upright=bool(di)) for one in owners)
                edge = Edge(start, end, empty.get(beside, outer))
                found.setdefault(start, []).append(edge)
    return found


def _traced(border: dict[Spot2, list[Edge]]) -> list[Loop]:
    """Put edges together to closed loops."""
    loops = []
    while border:
        start = next(iter(border))
        at, loop = start, []
        while at in border:
            edge = border[at].pop()
            if not border[at]:
                del border[at]
            loop.append(edge)
            at = edge.end
        loops.append(_straightened(loop))
    return loops


def _straightened(loop: list[Edge]) -> Loop:
    """Take edges that go on in one line as one."""
    found: list[Edge] = []
    for edge in loop:
        last = found[-1] if found else None
        if last and last.guess == edge.guess and _in_line(last, edge):
            found[-1] = Edge(last.start, edge.end, edge.guess)
        else:
            found.append(edge)
    return tuple(found)


def _in_line(a: Edge, b: Edge) -> bool:
    level = a.start[1] == a.end[1] == b.end[1]
    upright = a.start[0] == a.end[0] == b.end[0]
    return level or upright
