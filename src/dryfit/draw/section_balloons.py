"""Balloons: numbers in a row above and in columns at the sides, with leaders that do not cross."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import cos, hypot, pi, sin

from dryfit.draw.lettering import width
from dryfit.draw.paper import (
    Anchor,
    Area,
    Group,
    Ink,
    Item,
    Layer,
    Lettering,
    Pen,
    Point,
    Ring,
    Stroke,
)

RADIUS, APART = 4.0, 9.6
"""Radius of a balloon, and from centre to centre of two neighbours [mm]."""

HEIGHT = 3.2
"""Height of its figures [mm]."""

DOT = 0.55
"""Radius of the dot at the end of a leader [mm]."""

STEEP = 0.6
"""Least rise of a leader to its run that keeps it a radius away from the next balloon's middle."""

TURNS = 400
"""How often two leaders that cross may change places."""


@dataclass(frozen=True, slots=True)
class Balloon:
    """A label, the part it stands for, where it points to, and where it stands."""

    label: str
    part: str
    target: Point
    at: Point


@dataclass(frozen=True, slots=True)
class Room:
    """Where balloons may stand about a view: left, right, and the heights of row and columns.

    Where they are too many, they stand in one row between the edges of the sheet.
    """

    left: float
    right: float
    row: float
    lowest: float
    edges: tuple[float, float]

    @property
    def aside(self) -> int:
        """How many have room in a column."""
        return max(0, int((self.row - APART - self.lowest) // APART) + 1)

    @property
    def above(self) -> int:
        """How many have room in the row."""
        return max(1, int((self.right - self.left) // APART) + 1)

    def wanted(self, many: int) -> float:
        """Say how wide a sheet so many want that have no room about the view; 0 where they have."""
        return many * APART if many > self.above + 2 * self.aside else 0.0


def placed(targets: Sequence[tuple[str, str, Point]], room: Room) -> list[Balloon]:
    """Give each target a balloon: above, or at a side that is nearer and has room."""
    if room.wanted(len(targets)):
        return _fanned(targets, room)
    left, row, right = _parted(targets, room)
    slots = [(x, room.row) for x in spread([t[2][0] for t in row], room.left, room.right)]
    top = room.row - APART
    for side, x in ((left, room.left - APART), (right, room.right + APART)):
        slots += [(x, y) for y in spread([t[2][1] for t in side], room.lowest, top)]
    groups = [*row, *left, *right]
    ats = uncrossed(slots, [t[2] for t in groups])
    return [Balloon(n, part, end, at) for (n, part, end), at in zip(groups, ats, strict=True)]


def _fanned(targets: Sequence[tuple[str, str, Point]], room: Room) -> list[Balloon]:
    """Put all in one row, so high that no leader runs through the balloon beside its own."""
    ordered = sorted(targets, key=lambda t: t[2])
    ends = [t[2] for t in ordered]
    low, high = room.edges
    xs = spread([x for x, _ in ends], low + RADIUS, high - RADIUS)
    row = max([room.row, *(y + STEEP * abs(at - x) for at, (x, y) in zip(xs, ends, strict=True))])
    ats = uncrossed([(x, row) for x in xs], ends)
    return [Balloon(n, part, end, at) for (n, part, end), at in zip(ordered, ats, strict=True)]


Targets = list[tuple[str, str, Point]]
"""Labels with their parts and where they point to."""


def _parted(
    targets: Sequence[tuple[str, str, Point]], room: Room
) -> tuple[Targets, Targets, Targets]:
    """Share targets among the left column, the row above and the right column."""
    left: Targets = []
    row: Targets = []
    right: Targets = []
    ordered = sorted(targets, key=lambda t: min(t[2][0] - room.left, room.right - t[2][0]))
    spare = len(targets) - room.above
    for target in ordered:
        x, y = target[2]
        near_left = x - room.left <= room.right - x
        aside = min(x - room.left, room.right - x) + APART
        side = left if near_left else right
        if len(side) < room.aside and (aside < room.row - y or len(left) + len(right) < spare):
            side.append(target)
        else:
            row.append(target)
    by_height = sorted(left, key=lambda t: t[2][1]), sorted(right, key=lambda t: t[2][1])
    return by_height[0], sorted(row, key=lambda t: t[2]), by_height[1]


def spread(wanted: Sequence[float], low: float, high: float) -> list[float]:
    """Place points as near as can be to where they are wanted, in order, a balloon apart.

    Those that would be too near are moved as a block about their middle.
    """
    blocks: list[list[float]] = []
    for at in wanted:
        blocks.append([at])
        while len(blocks) > 1 and _start(blocks[-1], low, high) < _end(blocks[-2], low, high):
            blocks[-2:] = [[*blocks[-2], *blocks[-1]]]
    return [_start(b, low, high) + n * APART for b in blocks for n in range(len(b))]


def _start(block: Sequence[float], low: float, high: float) -> float:
    """Say where a block begins: about the middle of what it wants, within its bounds."""
    middle = sum(block) / len(block) - (len(block) - 1) * APART / 2
    return max(low, min(middle, high - (len(block) - 1) * APART))


def _end(block: Sequence[float], low: float, high: float) -> float:
    return _start(block, low, high) + len(block) * APART - 1e-9


def uncrossed(slots: Sequence[Point], ends: Sequence[Point]) -> list[Point]:
    """Let balloons whose leaders cross change places; each change makes the leaders shorter."""
    at = list(slots)
    for _ in range(TURNS):
        pair = next((p for p in combinations(range(len(at)), 2) if _crosses(at, ends, *p)), None)
        if pair is None:
            break
        i, j = pair
        at[i], at[j] = at[j], at[i]
    return at


def _crosses(at: Sequence[Point], ends: Sequence[Point], i: int, j: int) -> bool:
    return crossing(at[i], ends[i], at[j], ends[j])


def crossing(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Tell whether two straight lines cross."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def drawn(balloons: Sequence[Balloon], marks: Collection[str] = ()) -> list[Group]:
    """Draw balloons, each a group that bears the name of its part; marks in blue without a ring."""
    return [
        Group(Layer.MARKS, _mark(balloon))
        if balloon.part in marks
        else Group(Layer.BALLOONS, _items(balloon), balloon.part, (_round(balloon.at),))
        for balloon in balloons
    ]


def _mark(balloon: Balloon) -> tuple[Item, ...]:
    """Draw a label with a leader, as something marked out."""
    foot = _foot(balloon)
    x, y = balloon.at
    text = Lettering(
        (x, y - 0.5 * HEIGHT), balloon.label, HEIGHT, Anchor.MIDDLE, bold=True, ink=Ink.MARKED
    )
    return (Stroke((foot, balloon.target), Pen.EDGE, ink=Ink.MARKED), text)


def _foot(balloon: Balloon) -> Point:
    """Say where a leader leaves its balloon."""
    (x, y), (u, v) = balloon.at, balloon.target
    long = hypot(u - x, v - y) or 1.0
    return x + (u - x) * RADIUS / long, y + (v - y) * RADIUS / long


def _items(balloon: Balloon) -> tuple[Item, ...]:
    (x, y), (u, v) = balloon.at, balloon.target
    foot, text = _foot(balloon), balloon.label
    height = min(HEIGHT, HEIGHT * 1.7 * RADIUS / max(width(text, HEIGHT), 1.7 * RADIUS))
    number = Lettering((x, y - 0.5 * height), text, height, Anchor.MIDDLE)
    dot = Area(tuple((u + DOT * a, v + DOT * b) for a, b in _EIGHT))
    return (Stroke((foot, balloon.target), Pen.EDGE), dot, Ring((x, y), RADIUS, Pen.EDGE), number)


def _round(at: Point) -> tuple[Point, ...]:
    """Go round a balloon."""
    angles = (2 * pi * n / CORNERS for n in range(CORNERS))
    return tuple((at[0] + RADIUS * cos(a), at[1] + RADIUS * sin(a)) for a in angles)


CORNERS = 24
"""Of what a balloon takes up: within a hundredth of its radius of its ring."""


_EIGHT = (
    (1.0, 0.0),
    (0.7, 0.7),
    (0.0, 1.0),
    (-0.7, 0.7),
    (-1.0, 0.0),
    (-0.7, -0.7),
    (0.0, -1.0),
    (0.7, -0.7),
)
"""Corners of a dot."""
