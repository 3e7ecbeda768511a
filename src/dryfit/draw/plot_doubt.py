"""What makes up the uncertainty of a check: a bar for each size, the longest first."""

from collections.abc import Sequence
from dataclasses import dataclass

from dryfit.draw.lettering import lines_of
from dryfit.draw.paper import (
    Drawing,
    Group,
    Item,
    Layer,
    Lettering,
    Pen,
    Stroke,
)
from dryfit.draw.plot_frame import BODY, EDGE, HEAD, ROW, WIDE
from dryfit.draw.plot_signs import box


@dataclass(frozen=True, slots=True)
class Share:
    """One thing that makes a reading doubtful, and its share of the whole [-]."""

    name: str
    share: float


@dataclass(frozen=True, slots=True)
class DoubtPlot:
    """What makes up the uncertainty of a check.

    Attributes
    ----------
    title
        Of the plot.
    says
        What the check should read, with its band.
    shares
        The longest first.
    notes
        What is to be known of them.
    """

    title: str
    says: str
    shares: tuple[Share, ...]
    notes: str


BAR = 2.6
"""Height of a bar [mm]."""

FIGURES = 12.0
"""Room for the figure behind a bar [mm]."""


def doubt_plot(plot: DoubtPlot) -> Drawing:
    """Draw what makes up the uncertainty of a check."""
    inner = WIDE - 2 * EDGE
    titles = lines_of(plot.title, inner, HEAD, bold=True)
    says, notes = lines_of(plot.says, inner, BODY), lines_of(plot.notes, inner, BODY)
    names = [lines_of(share.name, inner, BODY) for share in plot.shares]
    height = 2 * EDGE + HEAD + ROW * (len(titles) - 1)
    height += ROW * (len(says) + len(notes)) + 5.0 + sum(_room(lines) for lines in names)
    texts: list[Item] = []
    top = _write(texts, titles, height - EDGE - HEAD, size=HEAD)
    top = _write(texts, says, top - 0.5)
    bars: list[Item] = []
    top -= 1.0
    for share, lines in zip(plot.shares, names, strict=True):
        top = _write(texts, lines, top, indent=1.2)
        bars += _bar(share.share, top + ROW - 1.6 - BAR, plot.shares[0].share)
        top -= _room(lines) - ROW * len(lines)
    _write(texts, notes, top - 1.0)
    ends = [top + ROW, height - EDGE - HEAD - ROW * (len(titles) + len(says)) + 1.5]
    axis = Stroke(((EDGE, ends[0]), (EDGE, ends[1])), Pen.EDGE)
    groups = (Group(Layer.PLOT, (axis, *bars)), Group(Layer.TEXT, tuple(texts)))
    return Drawing(plot.title, WIDE, height, groups)


def _room(lines: Sequence[str]) -> float:
    """Room for a name and its bar [mm]."""
    return ROW * len(lines) + BAR + 2.4


def _write(
    texts: list[Item], lines: Sequence[str], top: float, *, size: float = BODY, indent: float = 0.0
) -> float:
    """Write lines down from a height; give that of the next [mm]."""
    for n, line in enumerate(lines):
        texts.append(Lettering((EDGE + indent, top - n * ROW), line, size, bold=size == HEAD))
    return top - ROW * len(lines)


def _bar(share: float, low: float, most: float) -> tuple[Item, ...]:
    """Draw one bar, the greatest share as long as there is room, and its figure."""
    long = share / most * (WIDE - 2 * EDGE - FIGURES)
    words = f"{share * 100:.0f}" if share >= 0.005 else "under 1"
    end = EDGE + long + 1.5
    figure = Lettering((end, low), words, BODY, bold=True)
    return box((EDGE, low), (EDGE + long, low + BAR)), figure
