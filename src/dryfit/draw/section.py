"""The half-section: above the axis cut, below from outside, to scale, with numbers and letters.

Reading order: `section` makes the sheet; `_view` one line of it; then what is marked on a view.
Rules followed: ISO 128 (pens, views, cuts, section lines), ISO 5455 (scales), ISO 8826-1 (where
a bearing is not drawn in full), see docs/drawing.md.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from dryfit.draw import section_balloons as balloons
from dryfit.draw import section_lengths as lengths
from dryfit.draw.lettering import width
from dryfit.draw.paper import (
    Anchor,
    Area,
    Drawing,
    Group,
    Ink,
    Item,
    Layer,
    Lettering,
    Pen,
    Point,
    Stroke,
)
from dryfit.draw.section_hatch import angles
from dryfit.draw.section_parts import (
    behind,
    boxes,
    cases_crossing,
    cut_part,
    from_outside,
    targets,
)
from dryfit.draw.section_sheet import fitting, scale_bar, scale_words, tables, written
from dryfit.draw.section_view import Crossing, Frame, Shown, Stretch, Subject, View, stretch
from dryfit.shape.cells import Cell, Solid

SCALES = (10.0, 5.0, 2.0, 1.0, 0.5, 0.4, 0.2, 0.1, 0.05, 0.02, 0.01)
"""Scales of ISO 5455, and 1 : 2.5 between (from memory)."""

WIDEST, TALLEST = 160.0, 150.0
"""Room for a view on a sheet [mm]."""

MARGIN, AIR = 4.0, 6.0
"""About a sheet, and between what stands on it [mm]."""

TITLE, NAME = 3.5, 3.0
"""Heights of the letters of the title, and of the names of ends [mm]."""

BEYOND = 4.0
"""How far an axis is drawn beyond its line [mm]."""


@dataclass(frozen=True, slots=True)
class Extent:
    """How far a view reaches from where its line begins and from its axis [mm of iron]."""

    first: float
    last: float
    above: float
    below: float


def section(subject: Subject) -> Drawing:
    """Draw a half-section of the lines of a unit."""
    extents = [_extent(view, subject.exaggerated) for view in subject.views]
    scale = _scale(extents)
    side = _side(subject)
    widest = max((e.last - e.first for e in extents), default=0.0) * scale
    room = max(widest + 2 * side, 150.0)
    groups: list[Group] = []
    top = 0.0
    for row in _rows(extents, scale, room, side):
        own = room / len(row)
        ends = []
        for n, at in enumerate(row):
            place = _Place(scale, own, n * own, top, side)
            made, end = _view(subject, subject.views[at], extents[at], place)
            groups += made
            ends.append(end)
        top = min(ends)
    below, end = _below(subject, scale, room, top - AIR)
    height = -end + MARGIN * 2 + TITLE * 2
    shifted = [_moved(g, MARGIN, height - MARGIN - 2 * TITLE) for g in (*groups, *below)]
    wide = room + 2 * MARGIN
    title = Lettering(
        (MARGIN, height - MARGIN - TITLE), subject.title, fitting(subject.title, TITLE, room)
    )
    every = [*_merged(shifted), Group(Layer.TEXT, (title,))]
    return Drawing(subject.title, wide, height, tuple(every), scale)


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a view goes: scale, its width and left edge, where the one above ends, its sides."""

    scale: float
    room: float
    left: float
    top: float
    side: float


def _rows(extents: Sequence[Extent], scale: float, room: float, side: float) -> list[list[int]]:
    """Put views beside each other where they have room, in their order."""
    rows: list[list[int]] = []
    for n, extent in enumerate(extents):
        own = (extent.last - extent.first) * scale + 2 * side
        row = rows[-1] if rows else []
        widest = max([own, *((extents[i].last - extents[i].first) * scale + 2 * side for i in row)])
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


def _extent(view: View, times: float) -> Extent:
    bend = stretch(view.gaps, times)
    cells = [c for s in view.line.solids for c in s.laid]
    xs = [x for c in cells for x in (c.first, c.last)]
    xs += [x for span in view.spans for x in (span.first, span.last)]
    first, last = min(map(bend, xs), default=0.0), max(map(bend, xs), default=1.0)
    reach = max((max(c.outer) for c in cells), default=1.0)
    above = reach
    if view.crossing:
        other, at = view.crossing, bend(view.crossing.at)
        far = [c for s in other.line.solids for c in s.laid]
        above = max(above, *(other.way * (x - other.own) for c in far for x in (c.first, c.last)))
        wide = max((max(c.outer) for c in far), default=0.0)
        first, last = min(first, at - wide), max(last, at + wide)
    return Extent(first, last, above, reach)


def _view(subject: Subject, view: View, extent: Extent, place: _Place) -> tuple[list[Group], float]:
    """Draw one view below what stands above it, and say where it ends."""
    scale = place.scale
    left = place.left + (place.room - (extent.last - extent.first) * scale) / 2
    row = place.top - AIR - balloons.RADIUS
    axis = row - balloons.RADIUS - 1.5 * AIR - extent.above * scale
    bend = stretch(view.gaps, subject.exaggerated)
    start = min(c.first for s in view.line.solids for c in s.laid)
    origin = (left + (bend(start) - extent.first) * scale, axis)
    up = Frame(origin, start, (1.0, 0.0), (0.0, 1.0), scale, bend)
    down = replace(up, across=(0.0, -1.0))
    hatch = _angles(view)
    parts = _main_parts(subject, view, up, hatch)
    aims = {name: up(at) for name, at in targets(view.line.solids, {}).items()}
    low = from_outside(view.line.solids, down, subject.settings)
    for name, items in low.items():
        parts.setdefault(name, []).extend(items)
    if view.crossing:
        _cross(subject, view, up, hatch, parts, aims)
    groups = [Group(Layer.PARTS, tuple(items), name) for name, items in parts.items() if items]
    groups.append(Group(Layer.AXES, tuple(_axes(view, up, extent))))
    bottom = axis - extent.below * scale
    marks, aims = _gap_marks(view, up, aims)
    groups += marks
    groups += _balloons(subject, view, aims, _round(up, extent, row, axis, left))
    groups += _ends(view.line, axis, left, (extent.last - extent.first) * scale, place)
    hung = _hung(view, up, place)
    groups += lengths.drawn(hung, bottom - AIR)
    rows = max((h.row for h in hung), default=-1) + 1
    return groups, bottom - AIR - rows * lengths.ROW


def _round(up: Frame, extent: Extent, row: float, axis: float, left: float) -> balloons.Room:
    right = left + (extent.last - extent.first) * up.scale
    return balloons.Room(left, right, row, axis + 2.5 * balloons.RADIUS)


def _angles(view: View) -> dict[str, float]:
    """Give each part of a view its angle, by who touches whom."""
    solids = [*view.line.solids]
    pairs = touching(solids)
    if view.crossing:
        others = view.crossing.line.solids
        pairs |= touching(others)
        solids += [s for s in others if s.part not in {one.part for one in solids}]
    return angles({solid.part: solid.volume for solid in solids}, pairs)


def touching(solids: Sequence[Solid], near: float = 0.3) -> set[tuple[str, str]]:
    """List pairs of parts with faces or sides nearer than so much [mm]."""
    found = set()
    for one, other in combinations(solids, 2):
        if any(_near(a, b, near) for a in one.laid for b in other.laid):
            found.add((one.part, other.part))
    return found


def _near(a: Cell, b: Cell, near: float) -> bool:
    """Tell whether two cells come so near to each other."""
    along = min(a.last, b.last) - max(a.first, b.first)
    across = min(max(a.outer), max(b.outer)) - max(min(a.inner), min(b.inner))
    return along > -near and across > -near


Parts = dict[str, list[Item]]
"""Items by part."""


def _main_parts(subject: Subject, view: View, up: Frame, hatch: Mapping[str, float]) -> Parts:
    """Draw the cut side of the line that lies along."""
    parts: Parts = {}
    for solid in view.line.solids:
        items = parts.setdefault(solid.part, [])
        if solid.part in subject.cases:
            items += _case(view, solid, up, hatch[solid.part])
        else:
            whole = solid.part in subject.shafts
            angle = None if whole else hatch[solid.part]
            items += cut_part(solid, up, angle, marked=solid.part in subject.settings)
        items += behind(solid, view.line.solids, up)
    return parts


def _case(view: View, solid: Solid, up: Frame, angle: float) -> list[Item]:
    """Draw the case, with that about a line that crosses."""
    metal, hollow = boxes(solid, lambda x, r: up((x, r)), (1.0,))
    other = view.crossing and next(
        (s for s in view.crossing.line.solids if s.part == solid.part), None
    )
    if view.crossing and other:
        frame = _across(view.crossing, up)
        more, room = boxes(other, lambda x, r: frame((x, r)), (1.0, -1.0))
        metal, hollow = [*metal, *more], [*hollow, *room]
        floor = up((view.crossing.at, 0.0))[1]
        metal = [((a, max(b, floor), c, d), g) for (a, b, c, d), g in metal if d > floor]
    return cases_crossing(metal, hollow, angle)


def _across(crossing: Crossing, up: Frame) -> Frame:
    """Lay the line that crosses, upwards from where it does."""
    return Frame(
        up((crossing.at, 0.0)), crossing.own, (0.0, crossing.way), (1.0, 0.0), up.scale, Stretch()
    )


def _cross(
    subject: Subject,
    view: View,
    up: Frame,
    hatch: Mapping[str, float],
    parts: Parts,
    aims: dict[str, Point],
) -> None:
    """Add the line that crosses: cut on both sides of its axis."""
    if view.crossing is None:
        return
    right = _across(view.crossing, up)
    left = replace(right, across=(-1.0, 0.0))
    for solid in view.crossing.line.solids:
        if solid.part in subject.cases:
            continue
        items = parts.setdefault(solid.part, [])
        angle = None if solid.part in subject.shafts else hatch[solid.part]
        for frame in (right, left):
            items += cut_part(solid, frame, angle, marked=solid.part in subject.settings)
            items += behind(solid, view.crossing.line.solids, frame)
    side = left if up((view.crossing.at, 0.0))[0] < _middle(view, up) else right
    own = targets(view.crossing.line.solids, {})
    for name, at in own.items():
        if name not in subject.cases:
            aims[name] = side(at)


def _middle(view: View, up: Frame) -> float:
    xs = [up((x, 0.0))[0] for s in view.line.solids for x in s.span]
    return (min(xs) + max(xs)) / 2


def _axes(view: View, up: Frame, extent: Extent) -> Iterable[Item]:
    """Draw axes, lines of contact and pitch lines."""
    scale = up.scale
    spans = [x for s in view.line.solids for x in s.span]
    first, last = up((min(spans), 0.0)), up((max(spans), 0.0))
    yield Stroke(((first[0] - BEYOND, first[1]), (last[0] + BEYOND, last[1])), Pen.CENTRE)
    yield from (Stroke((up(a), up(b)), Pen.CENTRE) for a, b in view.line.thin)
    if view.crossing:
        x, y = up((view.crossing.at, 0.0))
        top = y + extent.above * scale + BEYOND
        yield Stroke(((x, y - extent.below * scale - BEYOND), (x, top)), Pen.CENTRE)
        right = _across(view.crossing, up)
        for frame in (right, replace(right, across=(-1.0, 0.0))):
            for a, b in view.crossing.line.thin:
                yield Stroke((frame(a), frame(b)), Pen.CENTRE)


def _gap_marks(
    view: View, up: Frame, aims: Mapping[str, Point]
) -> tuple[list[Group], dict[str, Point]]:
    """Draw arrows that close on each gap; its label is placed as a balloon is."""
    groups, found = [], dict(aims)
    for gap in view.gaps:
        a, b = up((gap.first, gap.radius)), up((gap.last, gap.radius))
        tail = 4.0
        items: tuple[Item, ...] = (
            Stroke(((a[0] - tail, a[1]), a), Pen.EDGE, ink=Ink.MARKED),
            Stroke((b, (b[0] + tail, b[1])), Pen.EDGE, ink=Ink.MARKED),
            lengths.arrow(a, 1.0),
            lengths.arrow(b, -1.0),
        )
        groups.append(Group(Layer.MARKS, items))
        found[gap.label] = ((a[0] + b[0]) / 2, a[1])
    return groups, found


def _balloons(
    subject: Subject, view: View, aims: Mapping[str, Point], room: balloons.Room
) -> list[Group]:
    """Number all parts of a view, and letter its gaps."""
    labels = {gap.label for gap in view.gaps}
    listed = [
        (name if name in labels else str(subject.numbers[name]), name, at)
        for name, at in aims.items()
        if name in labels or name in subject.numbers
    ]
    made = balloons.placed(listed, room)
    return balloons.drawn(made, labels)


def _ends(line: Shown, axis: float, left: float, wide: float, place: _Place) -> list[Group]:
    """Write the names of the ends below the axis, outside the view."""
    items = []
    for name, x, anchor in (
        (line.first, left - 2, Anchor.END),
        (line.last, left + wide + 2, Anchor.START),
    ):
        height = fitting(name, NAME, place.side - 3)
        items.append(Lettering((x, axis - 2.2 * NAME), name, height, anchor))
    return [Group(Layer.TEXT, tuple(items))]


def _hung(view: View, up: Frame, place: _Place) -> list[lengths.Hung]:
    """Hang the lengths of a view."""
    start = up.origin[1] - 1.0
    asked = []
    for span in view.spans:
        a, b = (up((x, 0.0))[0] for x in (span.first, span.last))
        asked.append(lengths.Length(span.letter, min(a, b), max(a, b), (start, start)))
    return lengths.hang(asked, place.left - 2.0, place.left + place.room + 2.0)


def _below(subject: Subject, scale: float, room: float, top: float) -> tuple[list[Group], float]:
    """Draw the scale bar, the notes and the tables."""
    bar, high, right = scale_bar(scale, 0.0, top)
    notes = [f"scale {scale_words(scale)}", *subject.notes]
    text, tall = written(notes, right, top, room - right)
    end = top - max(high, tall) - AIR
    rows, deep = tables(subject.parts, subject.lengths, end, room)
    return [bar, text, *rows], end - deep


def _moved(group: Group, x: float, y: float) -> Group:
    """Shift a group on the sheet."""
    return replace(group, items=tuple(_shift(item, x, y) for item in group.items))


def _shift(item: Item, x: float, y: float) -> Item:
    if isinstance(item, Lettering):
        return replace(item, at=(item.at[0] + x, item.at[1] + y))
    if isinstance(item, Stroke | Area):
        return replace(item, points=tuple((a + x, b + y) for a, b in item.points))
    return replace(item, centre=(item.centre[0] + x, item.centre[1] + y))


def _merged(groups: Sequence[Group]) -> list[Group]:
    """Put what is drawn of one part in more than one view into one group."""
    found: dict[tuple[Layer, str], Group] = {}
    rest: list[Group] = []
    for group in groups:
        if group.layer is Layer.PARTS and group.part is not None:
            key = (group.layer, group.part)
            before = found.get(key)
            items = (*before.items, *group.items) if before else group.items
            found[key] = replace(group, items=items)
        else:
            rest.append(group)
    return [*found.values(), *rest]
