"""Chains of lengths under a view: extension lines, arrows, and a letter for each."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from dryfit.draw.lettering import box, width
from dryfit.draw.paper import Anchor, Area, Group, Ink, Item, Layer, Lettering, Pen, Point, Stroke

ROW = 7.0
"""From one chain to the next [mm]."""

HEIGHT = 3.5
"""Height of the letters [mm]."""

ARROW, SLIM = 2.6, 0.45
"""Length of an arrowhead and half its width [mm]."""

TAIL = 5.0
"""How far a dimension line goes on outside two faces that are near [mm]."""

AIR = 0.9
"""Room about a letter [mm]."""


SAME = 0.08
"""Faces nearer than this on paper have one extension line [mm]."""


@dataclass(frozen=True, slots=True)
class Length:
    """A length to be hung under a view: its letter, its two faces [mm of paper], and from where."""

    letter: str
    first: float
    last: float
    tops: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Hung:
    """A length in its chain, with where its letter begins and ends [mm of paper]."""

    length: Length
    row: int
    letter_at: tuple[float, float]
    outside: bool

    @property
    def span(self) -> tuple[float, float]:
        """All that it takes up along its chain [mm]."""
        ends = (self.length.first, self.length.last, *self.letter_at)
        tail = TAIL if self.outside else 0.0
        return min(ends) - tail * self.outside, max(ends)


def hang(lengths: Iterable[Length], left: float, right: float) -> list[Hung]:
    """Hang lengths in as few chains as they need, the short ones nearest to the view."""
    found: list[Hung] = []
    for length in sorted(lengths, key=lambda one: (one.last - one.first, one.first)):
        row = 0
        while True:
            hung = _in_row(length, row, found, left, right)
            if hung:
                found.append(hung)
                break
            row += 1
    return found


def _in_row(
    length: Length, row: int, found: Sequence[Hung], left: float, right: float
) -> Hung | None:
    """Hang a length in a chain if there is room."""
    beside = [other for other in found if other.row == row]
    for hung in _ways(length, row):
        a, b = hung.span
        if a < left or b > right:
            continue
        if all(b + AIR <= o.span[0] or o.span[1] + AIR <= a or _shares(hung, o) for o in beside):
            return hung
    return None


def _shares(one: Hung, other: Hung) -> bool:
    """Tell two lengths that meet in one face of a chain and have their letters inside."""
    if one.outside or other.outside:
        return False
    a, b = one.length, other.length
    return a.last <= b.first + 1e-6 or b.last <= a.first + 1e-6


def _ways(length: Length, row: int) -> Iterable[Hung]:
    """List where the letter may stand: within, behind the last face, before the first."""
    wide = width(length.letter, HEIGHT, bold=True)
    middle = (length.first + length.last) / 2
    if length.last - length.first > wide + 2 * ARROW + 2 * AIR:
        yield Hung(length, row, (middle - wide / 2, middle + wide / 2), outside=False)
    else:
        a = length.last + TAIL + AIR
        yield Hung(length, row, (a, a + wide), outside=True)
        b = length.first - TAIL - AIR
        yield Hung(length, row, (b - wide, b), outside=True)


def drawn(hung: Sequence[Hung], top: float) -> list[Group]:
    """Draw chains below a height [mm]; extension lines leave out the letters they pass."""
    letters = [_lettering(h, top) for h in hung]
    rooms = [box(letter) for letter in letters]
    lines = [
        _thin(piece)
        for x, (start, end) in _faces(hung, top).items()
        for piece in _broken(x, start, end, rooms)
    ]
    groups = [Group(Layer.SIZES, tuple(lines))] if lines else []
    for one, letter in zip(hung, letters, strict=True):
        groups.append(Group(Layer.SIZES, (*_line(one, top - one.row * ROW), letter)))
    return groups


def _faces(hung: Sequence[Hung], top: float) -> dict[float, tuple[float, float]]:
    """Say from where to where the extension line of each face goes; one for faces in one place."""
    found: dict[float, tuple[float, float]] = {}
    for one in hung:
        end = top - one.row * ROW - 1.2
        for x, start in zip((one.length.first, one.length.last), one.length.tops, strict=True):
            same = next((at for at in found if abs(at - x) < SAME), x)
            before = found.get(same, (start, end))
            found[same] = max(before[0], start), min(before[1], end)
    return found


def _lettering(one: Hung, top: float) -> Lettering:
    middle = sum(one.letter_at) / 2
    at = (middle, top - one.row * ROW - HEIGHT / 2)
    return Lettering(at, one.length.letter, HEIGHT, Anchor.MIDDLE, bold=True, ink=Ink.MARKED)


def _broken(
    x: float, start: float, end: float, rooms: Sequence[tuple[float, float, float, float]]
) -> list[tuple[Point, Point]]:
    """Go down from a face, leaving out what letters take up."""
    at, found = start, []
    met = [r for r in rooms if r[0] - AIR < x < r[2] + AIR and r[3] < start]
    for _, low, _, high in sorted(met, key=lambda r: -r[3]):
        if low < end:
            continue
        found.append(((x, at), (x, high)))
        at = low
    return [*found, ((x, at), (x, end))]


def _thin(points: tuple[Point, ...]) -> Stroke:
    return Stroke(points, Pen.EDGE, ink=Ink.MARKED)


def _line(one: Hung, y: float) -> list[Item]:
    """Draw the dimension line of a length with its arrows."""
    a, b, (low, high) = one.length.first, one.length.last, one.letter_at
    if one.outside:
        left = min(a - TAIL, high if high < a else a - TAIL)
        right = max(b + TAIL, low if low > b else b + TAIL)
        left, right = (left, right) if high < a else (a - TAIL, right)
        return [_thin(((left, y), (right, y))), arrow((a, y), 1.0), arrow((b, y), -1.0)]
    lines = [_thin(((a, y), (low - AIR, y))), _thin(((high + AIR, y), (b, y)))]
    return [*lines, arrow((a, y), -1.0), arrow((b, y), 1.0)]


def arrow(tip: Point, way: float) -> Area:
    """Draw an arrowhead that points along +1 or back -1."""
    x, y = tip
    back = x - way * ARROW
    return Area(((x, y), (back, y + SLIM), (back, y - SLIM)), ink=Ink.MARKED)
