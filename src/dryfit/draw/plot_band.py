"""A reading beside its bands, small: what it should read, what is wanted, what was read.

The bar with ends is what it should read nine times in ten, the hatched box what is wanted.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from dryfit.draw.lettering import width
from dryfit.draw.paper import Anchor, Area, Drawing, Group, Ink, Item, Layer, Lettering, Pen, Stroke
from dryfit.draw.plot_lines import hatched
from dryfit.draw.plot_ticks import Span, figure, multiples, spread, step_of

WIDE, TALL = 84.0, 17.0
"""Size of the figure [mm]: 330 points of a phone, so that a millimetre is some 4 points."""

EDGE, AXIS = 3.0, 6.0
"""Margin left and right, and height of the axis [mm]."""

LINE, BOX = AXIS + 2.6, AXIS + 5.2
"""Height of the bar, and of the top of the box [mm]."""

BODY, TICKS = 2.6, 4
"""Height of capitals [mm], and ticks at most."""

FAR = 8.0
"""A reading so many widths of the bands beyond them is not drawn to scale: they would vanish."""

Limits = tuple[float | None, float | None]


@dataclass(frozen=True, slots=True)
class BandPlot:
    """What is shown, all in one unit.

    Attributes
    ----------
    title
        Of the figure, for who does not see it.
    unit
        In which all is told.
    expected, wanted
        Where nine readings in ten lie, and what is wanted; None where there is no limit.
    read
        What was read; None where nothing was yet.
    """

    title: str
    unit: str
    expected: Limits
    wanted: Limits
    read: float | None = None


def band_plot(plot: BandPlot) -> Drawing | None:
    """Draw a reading beside its bands; nothing where there is no band."""
    limits = [value for value in (*plot.expected, *plot.wanted) if value is not None]
    if not limits:
        return None
    span = _span(limits, plot.read)
    items = [*_axis(span, plot.unit), *_wanted(span, plot.wanted), *_expected(span, plot.expected)]
    if plot.read is not None:
        items += _read(span, plot.read)
    return Drawing(plot.title, WIDE, TALL, (Group(Layer.PLOT, tuple(items)),))


def _span(limits: list[float], read: float | None) -> Span:
    """Choose what the axis shows: both bands, the reading if it is not far off, nought if near."""
    low, high = min(limits), max(limits)
    wide = high - low or abs(high) or 1.0
    if read is not None and low - FAR * wide <= read <= high + FAR * wide:
        low, high = min(low, read), max(high, read)
    return spread((low, high), nought=0 <= low <= 2 * (high - low), room=0.12)


def _x(span: Span, value: float) -> float:
    share = (value - span[0]) / (span[1] - span[0])
    return EDGE + min(max(share, 0.0), 1.0) * (WIDE - 2 * EDGE)


def _axis(span: Span, unit: str) -> Iterator[Item]:
    yield Stroke(((EDGE, AXIS), (WIDE - EDGE, AXIS)), Pen.EDGE)
    step = step_of(*span, TICKS)
    counts = multiples(*span, step)
    for n in counts:
        x, text = _x(span, n * step), figure(n, step)
        yield Stroke(((x, AXIS), (x, AXIS - 1.0)), Pen.EDGE)
        told = f"{text} {unit}" if n == counts[-1] else text
        room = width(told, BODY) / 2
        at = min(max(x, room), WIDE - room)
        yield Lettering((at, AXIS - 1.0 - BODY - 0.8), told, BODY, Anchor.MIDDLE)


def _wanted(span: Span, limits: Limits) -> Iterator[Item]:
    """Hatch what is wanted, to the end of the axis where there is no limit."""
    if limits == (None, None):
        return
    ends = (
        _x(span, edge if limit is None else limit) for limit, edge in zip(limits, span, strict=True)
    )
    low, high = ends
    yield from hatched((low, AXIS), (high, BOX), gap=1.3)
    for x, limit in zip((low, high), limits, strict=True):
        if limit is not None:
            yield Stroke(((x, AXIS), (x, BOX + 0.6)), Pen.OUTLINE)


def _expected(span: Span, limits: Limits) -> Iterator[Item]:
    low, high = limits
    if low is None or high is None:
        return
    left, right = _x(span, low), _x(span, high)
    yield Stroke(((left, LINE), (right, LINE)), Pen.OUTLINE)
    for x in (left, right):
        yield Stroke(((x, LINE - 1.3), (x, LINE + 1.3)), Pen.OUTLINE)


def _read(span: Span, read: float) -> Iterator[Item]:
    """Point at what was read; at the edge, with words, where that is off the scale."""
    x, top = _x(span, read), TALL - 0.5
    tip = BOX + 1.0
    yield Stroke(((x, AXIS), (x, tip)), Pen.OUTLINE, ink=Ink.MARKED)
    yield Area(((x, tip), (x - 1.9, top), (x + 1.9, top)), ink=Ink.MARKED)
    if not span[0] <= read <= span[1]:
        right = read > span[1]
        anchor = Anchor.END if right else Anchor.START
        at = (x - 2.6 if right else x + 2.6, top - BODY)
        yield Lettering(at, "off the scale", BODY, anchor, ink=Ink.MARKED)
