"""One view of a half-section: a line, perhaps with one that crosses it, and all marked on it.

Reading order: where a view goes, `drawn`, its parts by neighbour, the line that crosses, then
axes, gaps, balloons, names of ends and lengths.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from dryfit.draw import section_balloons as balloons
from dryfit.draw import section_lengths as lengths
from dryfit.draw.lettering import lines_of
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
    Stroke,
)
from dryfit.draw.section_hatch import angles
from dryfit.draw.section_outline import Hollow, Metal, union
from dryfit.draw.section_parts import (
    behind,
    boxes,
    cases_crossing,
    cut_part,
    from_outside,
    targets,
)
from dryfit.draw.section_reach import Outlines, cut_reach, outside_reach
from dryfit.draw.section_sheet import fitting
from dryfit.draw.section_view import (
    Crossing,
    Frame,
    Opening,
    Shown,
    Stretch,
    Subject,
    View,
    stretch,
)
from dryfit.shape.cells import Cell, Solid

AIR, NAME = 6.0, 3.0
"""Room between what stands on a sheet, and height of the names of ends [mm]."""

CLOSER = 2.0
"""How many times closer than usual the section lines of a lit part lie."""

Parts = dict[str, list[Item]]
"""Items by part."""

CAPTION = 6.0
"""Room for the name of a line above its view [mm]."""

BEYOND = 4.0
"""How far an axis is drawn beyond its line [mm]."""


@dataclass(frozen=True, slots=True)
class Extent:
    """How far a view reaches from where its line begins and from its axis [mm of iron]."""

    first: float
    last: float
    above: float
    below: float


@dataclass(frozen=True, slots=True)
class Place:
    """Where a view goes: scale, width, left edge, top, room at its sides; angles of hatching."""

    scale: float
    room: float
    left: float
    top: float
    side: float
    hatch: Mapping[str, float]


def extent_of(view: View, times: float) -> Extent:
    """Say how far a view reaches, gaps drawn so many times too wide."""
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


def drawn(subject: Subject, view: View, extent: Extent, place: Place) -> tuple[list[Group], float]:
    """Draw one view below what stands above it, and say where it ends."""
    named = _named(subject, view, place)
    place = replace(place, top=place.top - (CAPTION if named else 0.0))
    left = place.left + (place.room - (extent.last - extent.first) * place.scale) / 2
    row = place.top - AIR - balloons.RADIUS
    axis = row - balloons.RADIUS - 1.5 * AIR - extent.above * place.scale
    up = _frame(subject, view, extent, place.scale, (left, axis))
    parts, aims = _drawn_parts(subject, view, up, place.hatch)
    taken = _reach(subject, view, up)
    groups = [
        Group(Layer.PARTS, tuple(items), name, tuple(taken.get(name, ())))
        for name, items in parts.items()
        if items
    ]
    groups.append(Group(Layer.AXES, tuple(_axes(view, up, extent))))
    marks, aims = _gap_marks(view, up, aims)
    groups += marks
    around = _round(extent, place, row, axis)
    stand = _balloons(subject, view, aims, around)
    groups += balloons.drawn(stand, {gap.label for gap in view.gaps})
    groups += _ends(view.line, axis, (around.left, around.right), extent.below, place)
    bottom = axis - extent.below * place.scale - AIR
    hung = _hung(view, up, place)
    groups += lengths.drawn(hung, bottom)
    end = bottom - (max((h.row for h in hung), default=-1) + 1) * lengths.ROW
    spare = _spare(stand, place, axis + extent.above * place.scale)
    return [*named, *(moved(group, 0.0, spare) for group in groups)], end + spare


def _named(subject: Subject, view: View, place: Place) -> list[Group]:
    """Write the name of a line above its view, where there is more than one."""
    if len(subject.views) < 2:
        return []
    name = view.line.name
    height = fitting(name, NAME, place.room)
    return [Group(Layer.TEXT, (Lettering((place.left, place.top - CAPTION), name, height),))]


def _spare(stand: Sequence[balloons.Balloon], place: Place, top: float) -> float:
    """Say how much a view can move up where no balloon stands above it, or must down [mm]."""
    highest = max([top + BEYOND, *(one.at[1] + balloons.RADIUS for one in stand)])
    return place.top - AIR - highest


def _frame(subject: Subject, view: View, extent: Extent, scale: float, corner: Point) -> Frame:
    """Lay the line of a view on paper: its cut side, upwards."""
    bend = stretch(view.gaps, subject.exaggerated)
    start = min(c.first for s in view.line.solids for c in s.laid)
    origin = (corner[0] + (bend(start) - extent.first) * scale, corner[1])
    return Frame(origin, start, (1.0, 0.0), (0.0, 1.0), scale, bend)


def _drawn_parts(
    subject: Subject, view: View, up: Frame, hatch: Mapping[str, float]
) -> tuple[Parts, dict[str, Point]]:
    """Draw all parts of a view, and say where a leader may point to each."""
    parts, aims = cut_side(subject, view, up, hatch)
    low = replace(up, across=(0.0, -1.0))
    for name, items in from_outside(view.line.solids, low).items():
        parts.setdefault(name, []).extend(items)
    for opening in view.line.openings:
        parts.setdefault(opening.part, []).append(_opening(opening, low))
    for name in subject.settings & {*parts}:
        parts[name] = [in_blue(item) for item in parts[name]]
    return parts, aims


def _opening(opening: Opening, low: Frame) -> Item:
    """Draw the edge of an opening, from the axis down to half its width."""
    first, last, half = opening.first, opening.last, opening.half
    corners = ((first, 0.0), (first, half), (last, half), (last, 0.0))
    return Stroke(tuple(low(corner) for corner in corners), Pen.OUTLINE)


def cut_side(
    subject: Subject, view: View, up: Frame, hatch: Mapping[str, float]
) -> tuple[Parts, dict[str, Point]]:
    """Draw the cut side of a view, with the line that crosses; and where leaders may point to."""
    parts = _main_parts(subject, view, up, hatch)
    aims = {name: up(at) for name, at in targets(view.line.solids).items()}
    _cross(subject, view, up, hatch, parts, aims)
    return parts, aims


def _reach(subject: Subject, view: View, up: Frame) -> dict[str, Outlines]:
    """Go round all that each part of a view takes up, cut and from outside."""
    found: dict[str, Outlines] = {}
    for solid in view.line.solids:
        case = solid.part in subject.cases
        loops = _case_loops(view, solid, up) if case else cut_reach(solid, up)
        found.setdefault(solid.part, []).extend(loops)
    low = replace(up, across=(0.0, -1.0))
    for part, loops in outside_reach(view.line.solids, low).items():
        found.setdefault(part, []).extend(loops)
    for solid in view.crossing.line.solids if view.crossing else ():
        if view.crossing and solid.part not in subject.cases:
            right = across_of(view.crossing, up)
            for frame in (right, replace(right, across=(-1.0, 0.0))):
                found.setdefault(solid.part, []).extend(cut_reach(solid, frame))
    return found


def in_blue(item: Item) -> Item:
    """Mark an item out: it is of what the builder chooses."""
    return replace(item, ink=Ink.MARKED)


def _round(extent: Extent, place: Place, row: float, axis: float) -> balloons.Room:
    wide = (extent.last - extent.first) * place.scale
    left = place.left + (place.room - wide) / 2
    edges = place.left, place.left + place.room
    return balloons.Room(left, left + wide, row, axis + 2.5 * balloons.RADIUS, edges)


def width_of(subject: Subject, view: View, extent: Extent, scale: float, side: float) -> float:
    """Say how wide a view is on paper, with all that stands beside it [mm]."""
    wide = (extent.last - extent.first) * scale + 2 * side
    place = Place(scale, wide, 0.0, 0.0, side, {})
    row = balloons.RADIUS + 1.5 * AIR + extent.above * scale
    lines = [view.line, *([view.crossing.line] if view.crossing else [])]
    parts = {s.part for line in lines for s in line.solids} & {*subject.numbers}
    return max(wide, _round(extent, place, row, 0.0).wanted(len(parts) + len(view.gaps)))


def angles_of(subject: Subject) -> dict[str, float]:
    """Give each part its angle in all views, by who touches whom in any of them."""
    lines = [view.line for view in subject.views]
    lines += [view.crossing.line for view in subject.views if view.crossing]
    pairs = {pair for line in lines for pair in touching(line.solids)}
    sizes: dict[str, float] = {}
    for solid in (solid for line in lines for solid in line.solids):
        sizes[solid.part] = sizes.get(solid.part, 0.0) + solid.volume
    return angles(sizes, pairs)


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
            items += cut_part(solid, up, angle, closer=_closer(subject, solid))
        items += behind(solid, view.line.solids, up)
    return parts


def _closer(subject: Subject, solid: Solid) -> float:
    """Say how many times closer than usual the section lines of a part lie."""
    return CLOSER if solid.part in subject.lit else 1.0


def _case(view: View, solid: Solid, up: Frame, angle: float) -> list[Item]:
    """Draw the case, with that about a line that crosses."""
    metal, hollow = _case_boxes(view, solid, up)
    return cases_crossing(metal, hollow, angle)


def _case_loops(view: View, solid: Solid, up: Frame) -> Outlines:
    """Go round the metal of the case."""
    return [tuple(e.start for e in loop) for loop in union(*_case_boxes(view, solid, up))]


def _case_boxes(view: View, solid: Solid, up: Frame) -> tuple[list[Metal], list[Hollow]]:
    """Give the case as boxes, with that about a line that crosses."""
    metal, hollow = boxes(solid, up, (1.0,))
    other = view.crossing and next(
        (s for s in view.crossing.line.solids if s.part == solid.part), None
    )
    if view.crossing and other:
        frame = across_of(view.crossing, up)
        more, room = boxes(other, frame, (1.0, -1.0))
        metal, hollow = [*metal, *more], [*hollow, *room]
        floor = up((view.crossing.at, 0.0))[1]
        metal = [_above(one, floor) for one in metal if one.box[3] > floor]
    return metal, hollow


def _above(one: Metal, floor: float) -> Metal:
    """Cut a box off at the axis."""
    left, low, right, high = one.box
    return replace(one, box=(left, max(low, floor), right, high))


def across_of(crossing: Crossing, up: Frame) -> Frame:
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
    right = across_of(view.crossing, up)
    left = replace(right, across=(-1.0, 0.0))
    for solid in view.crossing.line.solids:
        if solid.part in subject.cases:
            continue
        items = parts.setdefault(solid.part, [])
        angle = None if solid.part in subject.shafts else hatch[solid.part]
        for frame in (right, left):
            items += cut_part(solid, frame, angle, closer=_closer(subject, solid))
            items += behind(solid, view.crossing.line.solids, frame)
    side = left if up((view.crossing.at, 0.0))[0] < _middle(view, up) else right
    own = targets(view.crossing.line.solids)
    for name, at in own.items():
        if name not in subject.cases:
            aims[name] = side(at)


def _middle(view: View, up: Frame) -> float:
    xs = [up((x, 0.0))[0] for s in view.line.solids for x in s.span] or [up.origin[0]]
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
        right = across_of(view.crossing, up)
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
) -> list[balloons.Balloon]:
    """Number all parts of a view, and letter its gaps."""
    labels = {gap.label for gap in view.gaps}
    listed = [
        (name if name in labels else str(subject.numbers[name]), name, at)
        for name, at in aims.items()
        if name in labels or name in subject.numbers
    ]
    return balloons.placed(listed, room)


def _ends(
    line: Shown, axis: float, sides: tuple[float, float], below: float, place: Place
) -> list[Group]:
    """Write the names of the ends below the axis, outside the view, above the lengths."""
    items = []
    for name, x, anchor in (
        (line.first, sides[0] - 2, Anchor.END),
        (line.last, sides[1] + 2, Anchor.START),
    ):
        words = lines_of(name, place.side - 3, NAME)
        if (1.2 + 1.6 * len(words)) * NAME > below * place.scale + AIR:
            words = [name]
        for n, told in enumerate(words):
            height = fitting(told, NAME, place.side - 3)
            y = axis - (2.2 + 1.6 * n) * NAME
            items.append(Lettering((x, y), told, height, anchor))
    return [Group(Layer.TEXT, tuple(items))]


def _hung(view: View, up: Frame, place: Place) -> list[lengths.Hung]:
    """Hang the lengths of a view."""
    start = up.origin[1] - 1.0
    asked = []
    for span in view.spans:
        a, b = (up((x, 0.0))[0] for x in (span.first, span.last))
        asked.append(lengths.Length(span.letter, min(a, b), max(a, b), (start, start)))
    return lengths.hang(asked, place.left - 2.0, place.left + place.room + 2.0)


def moved(group: Group, x: float, y: float) -> Group:
    """Shift a group on the sheet."""
    reach = tuple(tuple((a + x, b + y) for a, b in outline) for outline in group.reach)
    return replace(group, items=tuple(_shift(item, x, y) for item in group.items), reach=reach)


def _shift(item: Item, x: float, y: float) -> Item:
    if isinstance(item, Lettering):
        return replace(item, at=(item.at[0] + x, item.at[1] + y))
    if isinstance(item, Stroke | Area):
        return replace(item, points=tuple((a + x, b + y) for a, b in item.points))
    return replace(item, centre=(item.centre[0] + x, item.centre[1] + y))
