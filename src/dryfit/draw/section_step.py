"""A small picture of one step: the cut half of a line as built so far, what goes on lit.

Reading order: what is handed in, `step_picture`, parts thin and lit, the way that something goes
on, faces that are hidden, then names and words. It is as wide as a phone wants it.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import hypot

from dryfit.draw import section_balloons as balloons
from dryfit.draw.lettering import lines_of
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
    Ring,
    Stroke,
)
from dryfit.draw.section_lines import Extent, Parts, across_of, cut_side, moved
from dryfit.draw.section_sheet import fitting
from dryfit.draw.section_view import Frame, Subject, View

WIDE, TALL = 100.0, 62.0
"""Width of a picture, and height at most of what is drawn in it [mm]: on a phone 320 dots wide a
millimetre is 3.2 of them, and capitals of 3 mm are as high as those of 13-dot type."""

LARGEST = 4.0
"""Scale of very small units [-]."""

EDGE, SIDE = 2.0, 10.0
"""About a picture, and beside, above or below the view for the arrow [mm]."""

NAME, NAMES = 3.0, 36.0
"""Height of letters, and room for the name of an end [mm]."""

BEYOND = 3.0
"""How far an axis is drawn beyond its line [mm]."""

TIP, HALF = 3.6, 1.7
"""Length of the head of the arrow that shows the way on, and half its width [mm]."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A face that is hidden: its letter, place and radii [mm], and whether the line crosses."""

    letter: str
    at: float
    radii: tuple[float, float]
    crossing: bool = False


@dataclass(frozen=True, slots=True)
class Way:
    """The way that something goes on, or off: from which end, or from outside where it is none."""

    part: str
    end: str = ""
    crossing: bool = False
    off: bool = False


@dataclass(frozen=True)
class Moment:
    """One step, to be drawn.

    Attributes
    ----------
    title
        Of the picture.
    view
        The line with the parts that are on by then, and the one that crosses it.
    extent
        How far it reaches once all are on: the same for all steps of it.
    hatch
        Angle of the section lines of each part [degree].
    cases, shafts
        Parts that go round all, that are not cut.
    lit
        What goes on in it.
    numbers
        What is numbered, with its number on the drawing of the unit.
    marks, way
        Faces it hides, and the way that what is lit goes on.
    words
        What is said below.
    """

    title: str
    view: View
    extent: Extent
    hatch: Mapping[str, float]
    cases: frozenset[str] = frozenset()
    shafts: frozenset[str] = frozenset()
    lit: frozenset[str] = frozenset()
    numbers: Mapping[str, str] = field(default_factory=dict)
    marks: tuple[Mark, ...] = ()
    way: Way | None = None
    words: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Laid:
    """A step on paper: its frame, where leaders point to, how high its parts reach [mm]."""

    moment: Moment
    up: Frame
    aims: Mapping[str, Point]
    top: float

    @property
    def ends(self) -> tuple[float, float]:
        """Where the view begins and ends, once all is on [mm]."""
        extent = self.moment.extent
        return self.up((extent.first, 0.0))[0], self.up((extent.last, 0.0))[0]

    @property
    def sides(self) -> tuple[Frame, ...]:
        """The line that crosses, right and left of its axis; nothing where none does."""
        if self.moment.view.crossing is None:
            return ()
        right = across_of(self.moment.view.crossing, self.up)
        return right, replace(right, across=(-1.0, 0.0))

    @property
    def far_end(self) -> str:
        """What the end of the line that crosses is called that is above; empty if none does."""
        crossing = self.moment.view.crossing
        if crossing is None:
            return ""
        return crossing.line.last if crossing.way > 0 else crossing.line.first


def step_picture(moment: Moment) -> Drawing:
    """Draw a step."""
    extent = moment.extent
    room = WIDE - 2 * (EDGE + SIDE)
    scale = min(room / (extent.last - extent.first), TALL / extent.above, LARGEST)
    left = (WIDE - (extent.last - extent.first) * scale) / 2
    up = Frame((left, 0.0), extent.first, (1.0, 0.0), (0.0, 1.0), scale)
    subject = Subject(moment.title, (), {}, moment.cases, moment.shafts, lit=moment.lit)
    parts, aims = cut_side(subject, moment.view, up, moment.hatch)
    drawn = [*_parts(parts, moment.lit)]
    laid = _Laid(moment, up, aims, max([0.0, *_heights(drawn)]))
    groups = [
        *drawn,
        Group(Layer.AXES, tuple(_axes(laid))),
        *_arrow(laid),
        *_signs(laid),
        Group(Layer.TEXT, tuple(_below(laid))),
    ]
    heights = [*_heights(groups)]
    low, high = min(heights) - EDGE, max(heights) + EDGE
    placed = tuple(moved(group, 0.0, -low) for group in groups)
    return Drawing(moment.title, WIDE, high - low, placed, scale)


def _heights(groups: Iterable[Group]) -> Iterator[float]:
    """Say how low and how high each item reaches [mm]."""
    for item in (item for group in groups for item in group.items):
        if isinstance(item, Lettering):
            yield from (item.at[1] - 0.3 * item.height, item.at[1] + 1.15 * item.height)
        elif isinstance(item, Ring):
            yield from (item.centre[1] - item.radius, item.centre[1] + item.radius)
        else:
            yield from (y for _, y in item.points)


def _parts(parts: Parts, lit: frozenset[str]) -> Iterator[Group]:
    """Draw what was there thin, and above it what is lit, thick and marked out."""
    for name, items in parts.items():
        if items and name not in lit:
            yield Group(Layer.PARTS, tuple(_thin(item) for item in items), name)
    for name, items in parts.items():
        if items and name in lit:
            yield Group(Layer.PARTS, tuple(replace(i, ink=Ink.MARKED) for i in items), name)


def _thin(item: Item) -> Item:
    """Draw an outline thin."""
    if isinstance(item, Stroke | Ring) and item.pen in (Pen.OUTLINE, Pen.ASSUMED):
        return replace(item, pen=Pen.EDGE)
    return item


def _axes(laid: _Laid) -> Iterator[Item]:
    """Draw axes, and lines of contact, pitch lines and screws of what is there."""
    view, up, (first, last) = laid.moment.view, laid.up, laid.ends
    yield Stroke(((first - BEYOND, 0.0), (last + BEYOND, 0.0)), Pen.CENTRE)
    thin = [(up(a), up(b)) for a, b in view.line.thin]
    if view.crossing is not None:
        x, _ = up((view.crossing.at, 0.0))
        yield Stroke(((x, -BEYOND), (x, laid.top + BEYOND)), Pen.CENTRE)
        lines = view.crossing.line.thin
        thin += [(frame(a), frame(b)) for frame in laid.sides for a, b in lines]
    for ends in thin:
        if all(EDGE <= x <= WIDE - EDGE for x, _ in ends):
            yield Stroke(ends, Pen.CENTRE)


def _arrow(laid: _Laid) -> Iterator[Group]:
    """Draw the arrow by which something goes on, from outside of all towards its place."""
    course = _course(laid)
    if course is not None and laid.moment.way is not None:
        foot, tip = course[::-1] if laid.moment.way.off else course
        yield Group(Layer.MARKS, _headed(foot, tip))


def _course(laid: _Laid) -> tuple[Point, Point] | None:
    """Say from where to where the arrow goes for something that is put on; None without one."""
    way, long = laid.moment.way, SIDE - 1.0
    if way is None or way.part not in laid.aims:
        return None
    x, y = laid.aims[way.part]
    if not way.end or (way.crossing and way.end == laid.far_end):
        return (x, laid.top + 1.0 + long), (x, laid.top + 1.0)
    if way.crossing:
        return (x, -1.0 - long), (x, -1.0)
    first, last = laid.ends
    if way.end == laid.moment.view.line.first:
        return (first - 1.0 - long, y), (first - 1.0, y)
    return (last + 1.0 + long, y), (last + 1.0, y)


def _headed(foot: Point, tip: Point) -> tuple[Item, ...]:
    """Draw a thick arrow."""
    (a, b), (x, y) = foot, tip
    long = hypot(x - a, y - b)
    u, v = (x - a) / long, (y - b) / long
    neck = x - TIP * u, y - TIP * v
    head = tip, (neck[0] - HALF * v, neck[1] + HALF * u), (neck[0] + HALF * v, neck[1] - HALF * u)
    return Stroke((foot, neck), ink=Ink.MARKED), Area(head, ink=Ink.MARKED)


def _signs(laid: _Laid) -> Iterator[Group]:
    """Number what is lit and letter the faces it hides, in a row above the view."""
    numbers, aims = laid.moment.numbers, laid.aims
    faces = {mark.letter: _ends_of(laid, mark) for mark in laid.moment.marks}
    asked = [(number, name, aims[name]) for name, number in numbers.items() if name in aims]
    asked += [(letter, letter, _middle(ends)) for letter, ends in faces.items()]
    row = laid.top + 1.0 + SIDE + balloons.RADIUS
    edge = EDGE + balloons.RADIUS
    room = balloons.Room(edge, WIDE - edge, row, row, (EDGE, WIDE - EDGE))
    for one in balloons.placed(asked, room):
        if one.part in faces and one.label == one.part:
            bar = Stroke(faces[one.part], ink=Ink.MARKED)
            yield Group(Layer.MARKS, (bar, *_lettered(one)))
        else:
            (group,) = balloons.drawn([one])
            yield replace(group, items=tuple(replace(i, ink=Ink.MARKED) for i in group.items))


def _ends_of(laid: _Laid, mark: Mark) -> tuple[Point, Point]:
    """Say where a face begins and ends on paper; of a line that crosses, on its left side."""
    frame = laid.sides[1] if mark.crossing and laid.sides else laid.up
    return frame((mark.at, mark.radii[0])), frame((mark.at, mark.radii[1]))


def _middle(ends: tuple[Point, Point]) -> Point:
    return (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2


def _lettered(one: balloons.Balloon) -> tuple[Item, ...]:
    """Draw the letter of a face in a square that stands on its corner, with a leader."""
    (x, y), (u, v), r = one.at, one.target, balloons.RADIUS + 0.6
    far = abs(u - x) + abs(v - y)
    foot = x + (u - x) * r / far, y + (v - y) * r / far
    corners = ((x, y + r), (x + r, y), (x, y - r), (x - r, y))
    return (
        Stroke((foot, one.target), Pen.EDGE, ink=Ink.MARKED),
        Stroke(corners, Pen.EDGE, closed=True, ink=Ink.MARKED),
        Lettering((x, y - NAME / 2), one.label, NAME, Anchor.MIDDLE, bold=True, ink=Ink.MARKED),
    )


def _below(laid: _Laid) -> Iterator[Item]:
    """Write the names of the ends, and what is said, below the axis and an arrow there."""
    line, course = laid.moment.view.line, _course(laid)
    y = min(0.0, course[0][1] if course else 0.0) - 1.0 - 1.4 * NAME
    yield Lettering((EDGE, y), line.first, fitting(line.first, NAME, NAMES))
    yield Lettering((WIDE - EDGE, y), line.last, fitting(line.last, NAME, NAMES), Anchor.END)
    if laid.far_end:
        yield _far_name(laid)
    told = (one for text in laid.moment.words for one in lines_of(text, WIDE - 2 * EDGE, NAME))
    for n, one in enumerate(told, start=1):
        yield Lettering((EDGE, y - 1.6 * n * NAME - 1.0), one, NAME)


def _far_name(laid: _Laid) -> Lettering:
    """Name the end of the line that crosses which is above, beside its axis, clear of the arrow."""
    crossing, course = laid.moment.view.crossing, _course(laid)
    assert crossing is not None  # asked for where a line crosses
    x = laid.up((crossing.at, 0.0))[0]
    sign = -1.0 if course is not None and course[0][0] > x else 1.0
    room = (WIDE - EDGE - x if sign > 0 else x - EDGE) - 3.0
    anchor = Anchor.START if sign > 0 else Anchor.END
    height = fitting(laid.far_end, NAME, min(room, NAMES))
    return Lettering((x + sign * 3.0, laid.top + 0.3 * SIDE), laid.far_end, height, anchor)
