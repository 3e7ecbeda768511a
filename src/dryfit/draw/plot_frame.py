"""The frame of a plot: what goes where on its sheet, its axes, the key below."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from dryfit.draw.lettering import lines_of, width
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
from dryfit.draw.plot_ticks import Span, figure, multiples, step_of

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
