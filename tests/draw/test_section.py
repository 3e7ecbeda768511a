"""Half-sections of all demos, read back from what lies on the sheet."""

from collections import Counter
from itertools import combinations, pairwise
from math import atan2, degrees, dist

import pytest
from tests.draw.sheets import (
    TEXTS,
    answer,
    axis,
    leaders,
    lettering,
    outlines,
    part,
    points,
    sheet,
    sheets,
)

from dryfit.app.usecases.drawing import DrawRequest, draw
from dryfit.app.usecases.lying import lying
from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.draw.paper import (
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
from dryfit.draw.section_balloons import RADIUS, crossing
from dryfit.model.parts import Bearing
from dryfit.model.parts import Ring as RingPart
from dryfit.quantities import Size
from dryfit.shape.resting import owner

ALL = [*sheets()]
IDS = [f"{name}, {line or 'unit'}" for name, line in ALL]
LINES = [(name, line) for name, line in ALL if line]

READ_BACK = 1e-3
"""Drawn sizes agree with the text's within a thousandth: a hundredth of a line's width."""

LISTED_WIDTH = 0.12
"""Width of a bearing that is not measured lies up to so much below its list size, bores of 18 to
80 mm, Normal class: ISO 492:2014, table 6 (from memory); drawn is the middle of it [mm]."""


@pytest.mark.parametrize(("name", "line"), ALL, ids=IDS)
def test_each_part_is_drawn_once(name: str, line: str | None) -> None:
    """A page can light up a part by its one group; and each has its balloon."""
    told = answer(name, line)
    assert told.drawing is not None
    groups = Counter(g.part for g in told.drawing.groups if g.layer is Layer.PARTS)
    assert {*groups.values()} == {1}
    assert {*groups} == {b.part for b in told.balloons}
    if line is None:
        assert {*groups} == {*open_text(TEXTS[name]).rebuild.parts}


@pytest.mark.parametrize(("name", "line"), ALL, ids=IDS)
def test_no_label_covers_another_or_leaves_the_sheet(name: str, line: str | None) -> None:
    """Every number, letter and name can be read, with dirty hands at arm's length."""
    drawing = sheet(name, line)
    for (left, low, right, high), text in lettering(drawing):
        assert left >= 0, text
        assert low >= 0, text
        assert right <= drawing.width, text
        assert high <= drawing.height, text
    _assert_clear(drawing)


@pytest.mark.parametrize(("name", "line"), ALL, ids=IDS)
def test_nothing_leaves_the_sheet(name: str, line: str | None) -> None:
    """No line runs off the paper."""
    drawing = sheet(name, line)
    for group in drawing.groups:
        for x, y in (point for item in group.items for point in points(item)):
            assert -1e-6 <= x <= drawing.width + 1e-6
            assert -1e-6 <= y <= drawing.height + 1e-6


@pytest.mark.parametrize(("name", "line"), ALL, ids=IDS)
def test_leaders_do_not_cross(name: str, line: str | None) -> None:
    """Each leader can be followed to its part."""
    for (a, b), (c, d) in combinations(leaders(sheet(name, line)), 2):
        assert not crossing(a, b, c, d)


@pytest.mark.parametrize(("name", "line"), LINES, ids=[f"{n}, {x}" for n, x in LINES])
def test_bearings_and_spacers_are_drawn_to_size(name: str, line: str) -> None:
    """Bore, outside and width measured off the paper are those of the text."""
    drawing, rebuild = sheet(name, line), open_text(TEXTS[name]).rebuild
    y, scale = axis(drawing), drawing.scale
    assert scale is not None
    for balloon in answer(name, line).balloons:
        record = rebuild.parts[balloon.part]
        if not isinstance(record, Bearing | RingPart):
            continue
        rings = [s for s in outlines(part(drawing, record.name)) if s.closed]
        above = [p for s in rings for p in s.points if p[1] > y]
        radii = [(p[1] - y) / scale for p in above]
        if radii and isinstance(record.bore, Size):
            assert 2 * min(radii) == pytest.approx(record.bore.mm, rel=READ_BACK)
        if radii and isinstance(record.outside, Size):
            assert 2 * max(radii) == pytest.approx(record.outside.mm, rel=READ_BACK)


@pytest.mark.parametrize(("name", "line"), LINES, ids=[f"{n}, {x}" for n, x in LINES])
def test_lengths_are_drawn_to_size(name: str, line: str) -> None:
    """From arrow to arrow each letter is as long as the text says, and so are all bearings."""
    drawing, told = sheet(name, line), answer(name, line)
    rebuild = open_text(TEXTS[name]).rebuild
    letters = {one.letter: one for one in told.letters}
    for group in drawing.groups:
        words = [i.text for i in group.items if isinstance(i, Lettering)]
        if group.layer is not Layer.SIZES or not words:
            continue
        one = letters[words[0].removesuffix(" ?")]
        tips = [i.points[0][0] for i in group.items if isinstance(i, Area)]
        drawn = abs(tips[1] - tips[0]) / (drawing.scale or 1.0)
        assert one.value_mm is not None
        if one.key in rebuild.sizes or one.instrument != (rebuild.measured_with or ""):
            assert drawn == pytest.approx(abs(one.value_mm), rel=READ_BACK), one
        else:
            assert one.value_mm - LISTED_WIDTH <= drawn <= one.value_mm + 1e-6, one


@pytest.mark.parametrize(("name", "line"), LINES, ids=[f"{n}, {x}" for n, x in LINES])
def test_faces_that_touch_in_the_model_touch_on_paper(name: str, line: str) -> None:
    """Rings that are clamped together have one face in common, to two hundredths of iron."""
    drawing, rebuild = sheet(name, line), open_text(TEXTS[name]).rebuild
    (rest,) = [r for r in lying(rebuild).lines if r.name == line]
    y, seen = axis(drawing), 0
    for touch in rest.touches:
        both = [rebuild.parts[owner(spot.part)] for spot in (touch.before, touch.after)]
        plain = all(isinstance(p, Bearing | RingPart) for p in both)
        if not plain or both[0].name == both[1].name or abs(rest.gap(touch)) > 0.02:
            continue
        xs = [
            [p[0] for s in outlines(part(drawing, one.name)) for p in s.points if p[1] > y]
            for one in both
        ]
        if all(xs):  # thin ones are blacked in, and thicker than they are
            assert max(xs[0]) - min(xs[1]) == pytest.approx(0.0, abs=0.02 * (drawing.scale or 1))
            seen += 1
    assert seen > 0 or (name, line) not in {("bevel-box", "pinion shaft"), ("quill", "spindle")}


RIGID = [
    ("feed-box", "feed shaft", "shaft", "cover", 152.36 + 0.21 - 3.42 - 148.70 - 0.35),
    ("lay-shaft", "lay-shaft", "rear washer", "case", (4.8070 - 4.5560 - 0.1240 - 0.121) * 25.4),
]
"""Line, the two parts that a gap parts, and the gap by hand: room less what lies in it [mm]."""


@pytest.mark.parametrize(("name", "line", "before", "after", "by_hand"), RIGID)
@pytest.mark.parametrize("times", [1.0, 10.0])
def test_closing_gap_on_paper_is_that_of_the_network(
    name: str, line: str, before: str, after: str, by_hand: float, times: float
) -> None:
    """The float measured off the paper is the float that the model predicts, and a sum by hand."""
    drawing, rebuild = sheet(name, line, times), open_text(TEXTS[name]).rebuild
    y, scale = axis(drawing), drawing.scale or 1.0
    ahead = max(p[0] for s in outlines(part(drawing, before)) for p in s.points if p[1] > y)
    faces = [p[0] for s in outlines(part(drawing, after)) for p in s.points if p[1] >= y]
    drawn = min(x - ahead for x in faces if x > ahead) / scale / times
    packs = {p: t / 1e3 for p, t in lying(rebuild).packs.items()}
    model = Asking(rebuild, 1).typed(rebuild.checks["end float"], packs) * 1e3
    assert drawn == pytest.approx(by_hand, abs=1e-6)
    assert model == pytest.approx(by_hand, abs=1e-6)
    words = [i.text for g in drawing.groups for i in g.items if isinstance(i, Lettering)]
    assert any("10 times" in text for text in words) == (times > 1)


@pytest.mark.parametrize(("name", "line"), ALL, ids=IDS)
def test_neighbours_are_hatched_at_different_angles(name: str, line: str | None) -> None:
    """Where two cut parts touch, the eye can tell them apart."""
    drawing, rebuild = sheet(name, line), open_text(TEXTS[name]).rebuild
    slants: dict[str, set[int]] = {}
    for group in drawing.groups:
        if group.layer is Layer.PARTS and group.part:
            lines = [i for i in group.items if isinstance(i, Stroke) and i.pen is Pen.HATCH]
            slants[group.part] = {_slant(stroke) for stroke in lines}
    for one in rebuild.lines.values():
        for stack in one.stacks:
            for a, b in pairwise(stack.spots):
                if a.part != b.part and {a.part, b.part} <= {*slants}:
                    assert not slants[a.part] & slants[b.part], (a.part, b.part)


def _slant(stroke: Stroke) -> int:
    (x0, y0), (x1, y1) = stroke.points
    return round(degrees(atan2(y1 - y0, x1 - x0))) % 180


@pytest.mark.parametrize(("name", "line"), ALL, ids=IDS)
def test_shafts_keys_and_balls_are_not_hatched(name: str, line: str | None) -> None:
    """What ISO 128-44 leaves whole is left whole: no section line crosses the axis or a ball."""
    drawing = sheet(name, line)
    rings = [
        i for g in drawing.groups if g.layer is Layer.PARTS for i in g.items if isinstance(i, Ring)
    ]
    strokes = [
        i
        for g in drawing.groups
        if g.layer is Layer.PARTS
        for i in g.items
        if isinstance(i, Stroke) and i.pen is Pen.HATCH
    ]
    for ring in rings:
        for stroke in strokes:
            middle = tuple(sum(p[n] for p in stroke.points) / 2 for n in (0, 1))
            away = ((middle[0] - ring.centre[0]) ** 2 + (middle[1] - ring.centre[1]) ** 2) ** 0.5
            assert away > 0.5 * ring.radius


@pytest.mark.parametrize(("name", "line"), ALL, ids=IDS)
def test_settings_are_marked_in_blue(name: str, line: str | None) -> None:
    """What the builder chooses stands out from the iron."""
    drawing, rebuild = sheet(name, line), open_text(TEXTS[name]).rebuild
    for group in drawing.groups:
        if group.layer is not Layer.PARTS or group.part is None:
            continue
        inks = {item.ink for item in group.items}
        assert inks == {Ink.MARKED if group.part in rebuild.settings else Ink.IRON}


UNKNOWN = b"""dryfit: 1
sizes in: mm
title: Hardly measured
lines:
  feed shaft:
    from blind end to cover:
      in the case: [case.thrust face, thrust shim, shaft, cover.boss]
      joint:       [case.joint, gasket, cover.flange]
      on the shaft: [ball, shaft.shoulder]
      in a bore:   [case.register, ball]
parts:
  case:        {kind: housing}
  cover:       {kind: cover}
  shaft:       {kind: shaft}
  gasket:      {kind: gasket}
  thrust shim: {kind: shim pack}
  ball:        {kind: deep groove ball}
sizes:
  case.thrust face to case.joint: not known
  shaft: not known
settings:
  thrust shim: {made from: [0.05, 0.10]}
"""


def test_unit_that_is_hardly_measured_is_drawn_dashed() -> None:
    """Before any size is known there is a picture to write sizes on, and it says what it is."""
    told = draw(DrawRequest(UNKNOWN))
    assert told.drawing is not None
    strokes = [i for g in told.drawing.groups for i in g.items if isinstance(i, Stroke)]
    words = [i.text for g in told.drawing.groups for i in g.items if isinstance(i, Lettering)]
    assert any(stroke.pen is Pen.ASSUMED for stroke in strokes)
    assert {"A ?", "B ?"} <= {*words}
    (finding,) = [f for f in told.findings if f.code == "draw.by proportion"]
    for name in ("case", "cover", "shaft", "ball"):
        assert name in finding.message
    assert [one.value_mm for one in told.letters][:2] == [None, None]
    assert {b.part for b in told.balloons} == {
        "case",
        "cover",
        "shaft",
        "gasket",
        "thrust shim",
        "ball",
    }


def test_measured_demo_has_hardly_a_dashed_line() -> None:
    """With lands and ends typed, what is drawn is iron and not estimate."""
    drawing = sheet("headstock")
    dashed = {
        g.part
        for g in drawing.groups
        for i in g.items
        if isinstance(i, Stroke) and i.pen is Pen.ASSUMED
    }
    assert dashed == {"nut"}


LONG = "a distance piece with a name so long that it takes all of 80 characters and more"
HOSTILE = ["<b>&amp; 'x' \"y\"", "#set page(width: 1mm) $x$", "%d {0} {{x}} \\n", LONG]


@pytest.mark.parametrize("words", HOSTILE)
def test_titles_and_ends_are_carried_literally(words: str) -> None:
    """Words are lettering and nothing else, whatever they look like, and stay on the sheet."""
    quoted = "'" + words.replace("'", "''") + "'"
    text = TEXTS["headstock"].decode()
    text = text.replace("title: Raven Nab headstock", f"title: {quoted}")
    told = draw(DrawRequest(text.encode()))
    assert told.drawing is not None, told.findings
    written = [i.text for g in told.drawing.groups for i in g.items if isinstance(i, Lettering)]
    assert told.drawing.title == words
    assert words in " ".join(written)
    _assert_on_sheet(told.drawing)


SMALLEST = 1.8
"""Least height of letters on a drawing: ISO 3098-1, the smallest of its row (from memory) [mm]."""


@pytest.mark.parametrize("title", ["lathe " * 33, "W" * 200])
def test_a_long_title_takes_more_lines_not_smaller_letters(title: str) -> None:
    """A title of 200 characters can still be read."""
    text = TEXTS["headstock"].decode().replace("title: Raven Nab headstock", f"title: {title}")
    told = draw(DrawRequest(text.encode()))
    assert told.drawing is not None, told.findings
    _assert_on_sheet(told.drawing)
    _assert_clear(told.drawing)
    words = [i for g in told.drawing.groups for i in g.items if isinstance(i, Lettering)]
    assert min(i.height for i in words if i.text and i.text[:5] in title) >= SMALLEST


def test_a_long_name_of_an_end_takes_more_lines() -> None:
    """An end named by where it looks to, in a sentence, can still be read."""
    end = "the end that looks towards the wall of the workshop"
    text = TEXTS["feed-box"].decode().replace("blind end", end)
    told = draw(DrawRequest(text.encode()))
    assert told.drawing is not None, told.findings
    _assert_on_sheet(told.drawing)
    _assert_clear(told.drawing)
    words = [i for g in told.drawing.groups for i in g.items if isinstance(i, Lettering)]
    lines = [i for i in words if i.text and i.text in end and len(i.text) > 3]
    assert " ".join(i.text for i in lines) == end
    assert min(i.height for i in lines) >= SMALLEST


@pytest.mark.parametrize("times", [1, 100, 600])
def test_a_sheet_is_never_wider_than_a_table(times: int) -> None:
    """A size typed without its point gives a small picture, not a sheet of metres."""
    text = TEXTS["feed-box"].decode()
    for size in ("152.36", "148.70", "148.68"):
        text = text.replace(size, f"{float(size) * times:.2f}")
    told = draw(DrawRequest(text.encode()))
    assert told.drawing is not None, told.findings
    assert told.drawing.width < 420  # A3 across, ISO 216 (from memory)


@pytest.mark.parametrize("many", [3, 12, 30])
def test_a_stack_of_many_rings_has_room_for_all_balloons(many: int) -> None:
    """Thirty rings in one stack: each number can be read and followed to its ring."""
    rings = [f"ring {n}" for n in range(many)]
    text = TEXTS["feed-box"].decode().replace("shim, shaft,", f"shim, {', '.join(rings)}, shaft,")
    kinds = "".join(f"  {one}: {{kind: spacer, bore: 30, outside: 44}}\n" for one in rings)
    text = text.replace("parts:\n", f"parts:\n{kinds}", 1)
    text = text.replace("152.36", f"{152.36 + 2 * many:.2f}")
    text = text.replace("sizes:\n", "sizes:\n" + "".join(f"  {one}: 2.00\n" for one in rings), 1)
    told = draw(DrawRequest(text.encode()))
    assert told.drawing is not None, told.findings
    assert {*rings} <= {one.part for one in told.balloons}
    _assert_on_sheet(told.drawing)
    _assert_clear(told.drawing)
    middles = [
        item.centre
        for group in told.drawing.groups
        for item in group.items
        if group.layer is Layer.BALLOONS and isinstance(item, Ring)
    ]
    for foot, end in leaders(told.drawing):
        own = min(middles, key=lambda at: dist(at, foot))
        assert all(_away(at, foot, end) > RADIUS for at in middles if at != own)


def _assert_clear(drawing: Drawing) -> None:
    """Hold that no lettering lies over another."""
    for (a, one), (b, other) in combinations(lettering(drawing), 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, (one, other)


def _away(at: Point, foot: Point, end: Point) -> float:
    """Measure how far a point lies from a leader."""
    long = dist(foot, end) ** 2
    dot = (at[0] - foot[0]) * (end[0] - foot[0]) + (at[1] - foot[1]) * (end[1] - foot[1])
    share = min(1.0, max(0.0, dot / long))
    return dist(at, [p + share * (q - p) for p, q in zip(foot, end, strict=True)])


NAMES = ["<b> sleeve", "sleeve & co", "شماره sleeve", LONG]


@pytest.mark.parametrize("name", NAMES)
def test_names_of_parts_are_carried_literally_or_refused(name: str) -> None:
    """A part's name is written as it stands, or the text is refused with a reason."""
    text = TEXTS["headstock"].decode().replace("distance piece", f"'{name}'")
    told = draw(DrawRequest(text.encode()))
    if told.drawing is None:
        assert [f.code for f in told.findings] == ["part.name"]
        return
    written = [i.text for g in told.drawing.groups for i in g.items if isinstance(i, Lettering)]
    assert name in written
    assert name in {g.part for g in told.drawing.groups if g.layer is Layer.PARTS}
    _assert_on_sheet(told.drawing)


def _assert_on_sheet(drawing: Drawing) -> None:
    for (left, _, right, _), text in lettering(drawing):
        assert left >= 0, text
        assert right <= drawing.width, text


def test_request_that_cannot_be_met_says_why() -> None:
    """A line that is not there, or gaps drawn smaller than they are, are told with the way out."""
    told = draw(DrawRequest(TEXTS["headstock"], line="spindel", gaps=0.5))
    assert told.drawing is None
    ways = {f.code: f.way_out for f in told.findings}
    assert ways["draw.line"] == "did you mean 'spindle'?"
    assert "1 (to scale)" in ways["draw.gaps"]


def test_parts_in_one_place_are_told() -> None:
    """A distance piece of 100 cannot reach into a mouth of 90: 2.94 mm endways, 5 mm across.

    It ends where the front set begins, at 20.00 and 0.06 of float before the register, and the
    mouth begins at 23: 23 - 20.06 = 2.94; (100 - 90) / 2 = 5.
    """
    text = TEXTS["headstock"].decode().replace("bore: 50, outside: 60", "bore: 50, outside: 100")
    told = [f for f in draw(DrawRequest(text.encode())).findings if f.code == "shape.overlap"]
    assert ["2.94 mm endways and 5.00 mm across" in f.message for f in told] == [True]
    assert "'case' and 'distance piece'" in told[0].message
    assert not [f for f in answer("headstock").findings if f.code == "shape.overlap"]


def test_numbers_and_letters_are_the_same_in_every_drawing() -> None:
    """Balloon 7 and letter H mean one thing, in the unit and in each of its lines."""
    unit = answer("bevel-box")
    for line in ("wheel shaft", "pinion shaft"):
        one = answer("bevel-box", line)
        assert {*one.balloons} <= {*unit.balloons}
    letters = {x.letter: x.key for x in unit.letters}
    assert all(letters[x.letter] == x.key for x in answer("bevel-box", "wheel shaft").letters)


def frames(drawing: Drawing) -> list[tuple[Point, ...]]:
    """List the edges of openings: three sides of a frame that begins and ends on the axis."""
    items = [item for group in drawing.groups for item in part_items(group, "case")]
    return [i.points for i in items if isinstance(i, Stroke) and len(i.points) == 4]


def part_items(group: Group, name: str) -> tuple[Item, ...]:
    """Give the items of a group if it is that of a part."""
    return group.items if group.layer is Layer.PARTS and group.part == name else ()


def test_an_opening_is_drawn_where_the_case_is_seen_from_outside() -> None:
    """Of the bevel box it is as long as from `inside`, 52 before the crossing, to `chamber`, 49
    behind it, and half of 130 deep below the axis; a case without has no frame."""
    drawing = sheet("bevel-box")
    scale = drawing.scale or 1.0
    ((start, low, high, end),) = frames(drawing)
    assert start[1] == end[1] == pytest.approx(axis(drawing))
    assert (high[0] - low[0]) / scale == pytest.approx(52 + 49, rel=READ_BACK)
    assert (start[1] - low[1]) / scale == pytest.approx(130 / 2, rel=READ_BACK)
    assert frames(sheet("feed-box")) == []
