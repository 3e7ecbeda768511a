"""Signs that plots and their keys share: pointers, bars, discs, lines, what is wanted."""

from collections.abc import Callable
from math import cos, pi, sin

from dryfit.draw.paper import Area, Ink, Item, Pen, Point, Stroke
from dryfit.draw.plot_frame import Frame, Key
from dryfit.draw.plot_lines import clipped, hatched
from dryfit.draw.plot_ticks import Span

LONG = 9.0
"""Length of a sign in the key [mm]."""

DOT = 1.1
"""Radius of a reading [mm]."""


def disc(centre: Point, radius: float = DOT, *, ink: Ink = Ink.IRON, blank: bool = False) -> Area:
    """Give a filled circle: to the eye, 24 corners are one."""
    x, y = centre
    turn = [2 * pi * n / 24 for n in range(24)]
    corners = tuple((x + radius * cos(a), y + radius * sin(a)) for a in turn)
    return Area(corners, blank=blank, ink=ink)


def open_disc(centre: Point, radius: float = DOT) -> tuple[Item, ...]:
    """Give a circle that covers what lies below: a reading that was left out."""
    edge = disc(centre, radius).points
    return disc(centre, radius, blank=True), Stroke(edge, Pen.EDGE, closed=True)


def box(low: Point, high: Point, *, ink: Ink = Ink.IRON) -> Area:
    """Give a filled box."""
    return Area((low, (high[0], low[1]), high, (low[0], high[1])), ink=ink)


def barred(low: Point, high: Point, *, ink: Ink = Ink.MARKED) -> tuple[Item, ...]:
    """Give an upright line with a bar at both ends: nine in ten lie between."""
    ends = ((end[0] - 1.4, end[0] + 1.4, end[1]) for end in (low, high))
    return (
        Stroke((low, high), Pen.OUTLINE, ink=ink),
        *(Stroke(((a, y), (b, y)), Pen.OUTLINE, ink=ink) for a, b, y in ends),
    )


def pointer(tip: Point, *, ink: Ink = Ink.MARKED) -> Area:
    """Give a pointer that stands below its point."""
    x, y = tip
    return Area(((x, y), (x + 1.5, y - 3.0), (x - 1.5, y - 3.0)), ink=ink)


def wanted(frame: Frame, limits: tuple[float | None, float | None]) -> tuple[Item, ...]:
    """Hatch what is wanted of the height, from edge to edge, open where there is no limit."""
    low, high = (
        edge if limit is None else min(max(limit, frame.ys[0]), frame.ys[1])
        for limit, edge in zip(limits, frame.ys, strict=True)
    )
    if limits == (None, None) or high <= low:
        return ()
    corners = (frame.left, frame.y(low)), (frame.right, frame.y(high))
    edges = (limit for limit in limits if limit is not None and low <= limit <= high)
    rules = (Stroke(((frame.left, frame.y(e)), (frame.right, frame.y(e))), Pen.EDGE) for e in edges)
    return (*hatched(*corners), *rules)


def through(
    frame: Frame, points: list[Point], pen: Pen, *, ink: Ink = Ink.IRON
) -> tuple[Stroke, ...]:
    """Draw a line through values, as far as it lies in the frame."""
    return tuple(Stroke(run, pen, ink=ink) for run in clipped(frame, points))


def key_line(pen: Pen, words: str, *, ink: Ink = Ink.IRON) -> Key:
    """Explain a line."""
    return Key(lambda at: (Stroke((at, (at[0] + LONG, at[1])), pen, ink=ink),), words)


def key_hatched(words: str) -> Key:
    """Explain what is hatched."""

    def sign(at: Point) -> tuple[Item, ...]:
        low, high = (at[0], at[1] - 1.6), (at[0] + LONG, at[1] + 1.6)
        rules = (Stroke(((low[0], y), (high[0], y)), Pen.EDGE) for y in (low[1], high[1]))
        return (*hatched(low, high), *rules)

    return Key(sign, words)


def key_of(draw: Callable[[Point], tuple[Item, ...]], words: str) -> Key:
    """Explain a sign that is drawn about a point in the middle."""
    return Key(lambda at: draw((at[0] + LONG / 2, at[1])), words)


def told(value: float, places: int) -> str:
    """Write a figure with so many decimals.

    >>> told(-0.0071, 3), told(-0.0001, 3), told(12.0, 0)
    ('−0.007', '0.000', '12')
    """
    text = f"{abs(value):.{places}f}"
    return f"−{text}" if value < 0 and float(text) else text


def between(span: Span, unit: str, places: int) -> str:
    """Write a range with its unit.

    >>> between((0.0, 0.05), "mm", 2)
    '0.00 to 0.05 mm'
    """
    low, high = (told(value, places) for value in span)
    return f"{low} to {high} {unit}"


def limits_told(limits: tuple[float | None, float | None], unit: str, places: int) -> str:
    """Write what is wanted.

    >>> limits_told((None, 0.05), "mm", 2), limits_told((50, None), "N", 0)
    ('at most 0.05 mm', 'at least 50 N')
    """
    low, high = limits
    if low is None or high is None:
        word, value = ("at most", high) if low is None else ("at least", low)
        return f"{word} {told(value or 0.0, places)} {unit}"
    return between((low, high), unit, places)
