"""The frame of a plot: what goes where on its sheet, axes with ticks, hatching, the key."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import ceil, floor, log10

from dryfit.draw.lettering import width
from dryfit.draw.paper import (
    Anchor,
    Drawing,
    Group,
    Item,
    Layer,
    Lettering,
    Pen,
    Point,
    Stroke,
)

WIDE, DEEP = 120.0, 56.0
"""Width of the sheet of a plot, and height of its frame [mm]: read at 360 points wide, and two
of them stand on a sheet of Letter."""

EDGE = 3.0
"""Margin of the sheet [mm]."""

HEAD, BODY = 3.0, 2.5
"""Heights of capitals: of the title, of all else [mm]."""

ROW = 5.2
"""From one line of lettering to the next [mm]."""

TICK = 1.5
"""Length of a tick [mm]."""

BELOW = TICK + BODY + 1.0
"""From an axis down to the base line of its figures [mm]."""

SIGN = 11.0
"""Room for the sign before a line of the key [mm]."""

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Scale:
    """An axis: what it shows, in which unit, and its other unit as (name, how many a unit)."""

    label: str
    unit: str
    span: Span
    other: tuple[str, float] | None = None

    @property
    def name(self) -> str:
        """Label with its unit."""
        return f"{self.label}, {self.unit}" if self.unit else self.label


@dataclass(frozen=True, slots=True)
class Frame:
    """Where values lie on the sheet: box [mm], and the values at its edges."""

    left: float
    low: float
    right: float
    high: float
    xs: Span
    ys: Span

    def x(self, value: float) -> float:
        """Say where a value lies across [mm]."""
        return self.left + (value - self.xs[0]) / (self.xs[1] - self.xs[0]) * (
            self.right - self.left
        )

    def y(self, value: float) -> float:
        """Say where a value lies upwards [mm]."""
        return self.low + (value - self.ys[0]) / (self.ys[1] - self.ys[0]) * (self.high - self.low)

    def at(self, point: Point) -> Point:
        """Say where a point lies [mm]."""
        return self.x(point[0]), self.y(point[1])

    def holds(self, point: Point) -> bool:
        """Tell whether a point lies inside."""
        return self.xs[0] <= point[0] <= self.xs[1] and self.ys[0] <= point[1] <= self.ys[1]


@dataclass(frozen=True, slots=True)
class Key:
    """One line of the key: a sign drawn from a point to the right, and what it means."""

    sign: Callable[[Point], tuple[Item, ...]]
    words: str


def step_of(low: float, high: float, most: int) -> float:
    """Step of ticks from the row 1, 2, 5 that gives so many ticks at most.

    >>> step_of(0.0, 0.13, 6), step_of(0.28, 0.52, 6), step_of(0, 90, 10)
    (0.05, 0.05, 10.0)
    """
    for power in range(floor(log10((high - low) / most)), 12):
        for step in (1, 2, 5):
            size = float(f"{step}e{power}")
            if len(multiples(low, high, size)) <= most:
                return size
    return high - low


def multiples(low: float, high: float, step: float) -> tuple[int, ...]:
    """Count the ticks between two values, in steps from nought.

    >>> multiples(0.28, 0.52, 0.1)
    (3, 4, 5)
    """
    dust = 1e-9
    return tuple(range(ceil(low / step - dust), floor(high / step + dust) + 1))


def figure(count: int, step: float) -> str:
    """Write the figure at a tick, with as many decimals as its step has.

    >>> figure(3, 0.05), figure(0, 0.05), figure(-2, 0.005), figure(4, 20.0)
    ('0.15', '0', '−0.010', '80')
    """
    places = max(0, -floor(log10(step) + 1e-9))
    text = f"{abs(count) * step:.{places}f}" if count else "0"
    return f"−{text}" if count < 0 else text


def lines_of(text: str, wide: float, height: float, *, bold: bool = False) -> list[str]:
    """Break a text into lines no wider than so much [mm], within a word only if it must be.

    >>> lines_of("end float of the shaft", 30.0, 2.5)
    ['end float of the', 'shaft']
    """
    lines = [""]
    for word in text.split(" "):
        for piece in _pieces(word, wide, height, bold=bold):
            longer = f"{lines[-1]} {piece}" if lines[-1] else piece
            if width(longer, height, bold=bold) <= wide:
                lines[-1] = longer
            else:
                lines.append(piece)
    return lines if lines[0] else lines[1:]


def _pieces(word: str, wide: float, height: float, *, bold: bool) -> Iterator[str]:
    while width(word, height, bold=bold) > wide and len(word) > 1:
        widths = accumulate(width(letter, height, bold=bold) for letter in word)
        fits = max(1, sum(so_far <= wide for so_far in widths))
        yield word[:fits]
        word = word[fits:]
    yield word


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet with its frame set out: what is drawn in it comes between `below` and `above`."""

    title: str
    height: float
    frame: Frame
    below: tuple[Item, ...]

    def drawing(self, items: Sequence[Item]) -> Drawing:
        """Give the drawing with these items inside of its frame."""
        return Drawing(
            self.title,
            WIDE,
            self.height,
            (Group(Layer.PLOT, tuple(items)), Group(Layer.TEXT, self.below)),
        )


def sheet(title: str, x: Scale, y: Scale, *, key: Sequence[Key] = (), under: float = 0.0) -> Sheet:
    """Set out a sheet: title, name of the height, frame, ticks, `under` [mm], name across, key."""
    keys = [(one, lines_of(one.words, WIDE - 2 * EDGE - SIGN, BODY)) for one in key]
    titles = lines_of(title, WIDE - 2 * EDGE, HEAD, bold=True)
    left = _left(y)
    names = lines_of(x.name, WIDE - EDGE - left, BODY)
    foot = EDGE + ROW * sum(len(lines) for _, lines in keys) + (2.0 if keys else 0.0)
    low = foot + ROW * (len(names) + 1) + under + 1.5
    heads = lines_of(y.name, WIDE - 2 * EDGE - 12.0, BODY)
    high = low + DEEP
    height = high + ROW * (len(titles) + len(heads)) + EDGE + 2.5
    frame = Frame(left, low, WIDE - (EDGE if y.other is None else 13.0), high, x.span, y.span)
    items = [
        *_rows(titles, EDGE, height - EDGE - HEAD, HEAD, bold=True),
        *_rows(heads, EDGE, high + 3.0 + ROW * (len(heads) - 1), BODY),
        *_rows(names, frame.left, foot + ROW * len(names) - BODY - 0.5, BODY),
        *_across(frame),
        *_upwards(frame),
        *(_other(frame, *y.other) if y.other else ()),
        *_keys(keys, foot - 2.0),
    ]
    return Sheet(title, height, frame, tuple(items))


def _rows(
    lines: Sequence[str], x: float, y: float, height: float, *, bold: bool = False
) -> Iterator[Lettering]:
    for n, line in enumerate(lines):
        yield Lettering((x, y - n * ROW), line, height, bold=bold)


def _left(y: Scale) -> float:
    """Leave room for the widest figure on the left."""
    step = step_of(*y.span, UPWARDS)
    wide = max(width(figure(n, step), BODY) for n in multiples(*y.span, step))
    return EDGE + wide + TICK + 1.0


ACROSS, UPWARDS = 7, 8
"""Ticks at most."""


def _across(frame: Frame) -> Iterator[Item]:
    step = step_of(*frame.xs, ACROSS)
    yield Stroke(((frame.left, frame.low), (frame.right, frame.low)), Pen.EDGE)
    for n in multiples(*frame.xs, step):
        x = frame.x(n * step)
        yield Stroke(((x, frame.low), (x, frame.low - TICK)), Pen.EDGE)
        yield Lettering(
            (_within(x, figure(n, step)), frame.low - BELOW),
            figure(n, step),
            BODY,
            Anchor.MIDDLE,
        )


def _within(x: float, text: str) -> float:
    """Keep a figure at the end of an axis on the sheet."""
    half = width(text, BODY) / 2
    return min(max(x, half + 0.5), WIDE - half - 0.5)


def _upwards(frame: Frame) -> Iterator[Item]:
    step = step_of(*frame.ys, UPWARDS)
    yield Stroke(((frame.left, frame.low), (frame.left, frame.high)), Pen.EDGE)
    for n in multiples(*frame.ys, step):
        y = frame.y(n * step)
        yield Stroke(((frame.left, y), (frame.left - TICK, y)), Pen.EDGE)
        place = (frame.left - TICK - 0.7, y - BODY / 2)
        yield Lettering(place, figure(n, step), BODY, Anchor.END)


def _other(frame: Frame, unit: str, rate: float) -> Iterator[Item]:
    """Draw the other unit on the right."""
    low, high = (value * rate for value in frame.ys)
    step = step_of(low, high, UPWARDS)
    yield Stroke(((frame.right, frame.low), (frame.right, frame.high)), Pen.EDGE)
    for n in multiples(low, high, step):
        y = frame.y(n * step / rate)
        yield Stroke(((frame.right, y), (frame.right + TICK, y)), Pen.EDGE)
        yield Lettering((frame.right + TICK + 0.7, y - BODY / 2), figure(n, step), BODY)
    yield Lettering((WIDE - EDGE, frame.high + 3.0), unit, BODY, Anchor.END)


def _keys(keys: Sequence[tuple[Key, list[str]]], top: float) -> Iterator[Item]:
    """Write the key below all else."""
    row = top - BODY - 0.5
    for one, lines in keys:
        yield from one.sign((EDGE, row + BODY / 2))
        yield from _rows(lines, EDGE + SIGN, row, BODY)
        row -= ROW * len(lines)


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


def spread(values: Sequence[float], *, nought: bool = False, room: float = 0.06) -> Span:
    """Give the span of an axis that holds all values, with some room; from nought on if told."""
    low, high = min(values), max(values)
    if nought:
        low, high = min(low, 0.0), max(high, 0.0)
    air = room * (high - low or abs(high) or 1.0)
    return (low if nought and low == 0.0 else low - air), high + air
