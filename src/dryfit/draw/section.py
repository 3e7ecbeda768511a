"""The half-section: above the axis cut, below from outside, to scale, with numbers and letters.

Reading order: `section` makes the sheet from views, each drawn by `section_lines`; `plain` the
views alone; then how views share a sheet, and what stands below. Rules followed: docs/drawing.md.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from dryfit.draw import section_balloons as balloons
from dryfit.draw.lettering import hull, lines_of, width
from dryfit.draw.paper import Drawing, Group, Layer, Lettering
from dryfit.draw.section_lines import (
    AIR,
    NAME,
    Extent,
    Place,
    angles_of,
    drawn,
    extent_of,
    moved,
    width_of,
)
from dryfit.draw.section_sheet import scale_bar, scale_words, tables, written
from dryfit.draw.section_view import Subject

SCALES = (10.0, 5.0, 2.0, 1.0, 0.5, 0.4, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001, 1e-4)
"""Scales of ISO 5455, and 1 : 2.5 between (from memory)."""

WIDEST, TALLEST = 160.0, 150.0
"""Room for a view on a sheet [mm]."""

MARGIN, TITLE = 4.0, 3.5
"""About a sheet, and height of the letters of its title [mm]."""


def section(subject: Subject) -> Drawing:
    """Draw a half-section of the lines of a unit."""
    laid = _laid(subject)
    below, end = _below(subject, laid.scale, laid.room, laid.end - AIR)
    words = lines_of(subject.title, laid.room, TITLE)
    head = MARGIN + 2 * TITLE * max(1, len(words))
    height = -end + MARGIN + head
    shifted = [moved(g, MARGIN, height - head) for g in (*laid.groups, *below)]
    wide = laid.room + 2 * MARGIN
    title = [
        Lettering((MARGIN, height - MARGIN - TITLE - 2 * TITLE * n), line, TITLE)
        for n, line in enumerate(words)
    ]
    every = [*_merged(shifted), Group(Layer.TEXT, tuple(title))]
    return Drawing(subject.title, wide, height, tuple(every), laid.scale)


def plain(subject: Subject, layers: Collection[Layer]) -> Drawing:
    """Draw the views alone: no title, no scale, nothing of other layers, and no room about them."""
    laid = _laid(subject)
    groups = [group for group in laid.groups if group.layer in layers]
    left, low, right, high = hull(item for group in groups for item in group.items)
    shifted = [moved(group, MARGIN - left, MARGIN - low) for group in groups]
    wide, tall = right - left + 2 * MARGIN, high - low + 2 * MARGIN
    return Drawing(subject.title, wide, tall, tuple(_merged(shifted)), laid.scale)


@dataclass(frozen=True, slots=True)
class _Laid:
    """Views laid below each other: their groups, scale, width, and where the last one ends."""

    groups: list[Group]
    scale: float
    room: float
    end: float


def _laid(subject: Subject) -> _Laid:
    extents = [extent_of(view, subject.exaggerated) for view in subject.views]
    scale = _scale(extents)
    side = _side(subject)
    widths = [
        width_of(subject, view, extent, scale, side)
        for view, extent in zip(subject.views, extents, strict=True)
    ]
    room = max([*widths, 150.0])
    hatch = angles_of(subject)
    groups: list[Group] = []
    top = 0.0
    for row in _rows(widths, room):
        own = room / len(row)
        ends = []
        for n, at in enumerate(row):
            place = Place(scale, own, n * own, top, side, hatch)
            made, end = drawn(subject, subject.views[at], extents[at], place)
            groups += made
            ends.append(end)
        top = min(ends)
    return _Laid(groups, scale, room, top)


def _rows(widths: Sequence[float], room: float) -> list[list[int]]:
    """Put views beside each other where they have room, in their order."""
    rows: list[list[int]] = []
    for n, own in enumerate(widths):
        row = rows[-1] if rows else []
        widest = max([own, *(widths[i] for i in row)])
        if row and widest * (len(row) + 1) <= room:
            row.append(n)
        else:
            rows.append([n])
    return rows


def _side(subject: Subject) -> float:
    """Say how much room the names of ends and the columns of balloons want [mm]."""
    names = [name for view in subject.views for name in (view.line.first, view.line.last)]
    widest = max((width(name, NAME) for name in names), default=0.0)
    return min(max(2 * balloons.APART, widest + 6), 45.0)


def _scale(extents: Sequence[Extent]) -> float:
    """Take the largest scale at which each view has room."""
    for scale in SCALES:
        if all(
            (e.last - e.first) * scale <= WIDEST and (e.above + e.below) * scale <= TALLEST
            for e in extents
        ):
            return scale
    return SCALES[-1]


def _below(subject: Subject, scale: float, room: float, top: float) -> tuple[list[Group], float]:
    """Draw the scale bar, the notes and the tables."""
    bar, high, right = scale_bar(scale, 0.0, top)
    notes = [f"scale {scale_words(scale)}", *subject.notes]
    text, tall = written(notes, right, top, room - right)
    end = top - max(high, tall) - AIR
    rows, deep = tables(subject.parts, subject.lengths, end, room)
    return [bar, text, *rows], end - deep


def _merged(groups: Sequence[Group]) -> list[Group]:
    """Put what is drawn of one part in more than one view into one group."""
    found: dict[tuple[Layer, str], Group] = {}
    rest: list[Group] = []
    for group in groups:
        if group.layer is Layer.PARTS and group.part is not None:
            key = (group.layer, group.part)
            before = found.get(key)
            items = (*before.items, *group.items) if before else group.items
            reach = (*before.reach, *group.reach) if before else group.reach
            found[key] = replace(group, items=items, reach=reach)
        else:
            rest.append(group)
    return [*found.values(), *rest]
