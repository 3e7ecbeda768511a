"""Pictures of the steps of an order, read back from their SVG, and what is said of each step."""

from dataclasses import replace
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner, Result
from tests.book.pages import DAY, DRAWS, texts
from tests.draw.hostile import TEXTS, UNSEEN
from tests.draw.reading import clashes
from tests.draw.sheets import leaders, lettering, points

from dryfit.app.cli.main import cli
from dryfit.app.usecases import demos
from dryfit.app.usecases.drawing import DrawRequest, draw
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.order import order_of
from dryfit.app.usecases.ordering.answers import OrderAnswer, StepAnswer
from dryfit.app.usecases.ordering.no_return import NoReturnAnswer, no_return_of
from dryfit.app.usecases.ordering.unit import unit_of
from dryfit.app.usecases.sheets import SheetRequest, sheet
from dryfit.app.usecases.steps import (
    Stage,
    StepDrawRequest,
    draw_step,
    off_drawn,
    staged,
    step_drawn,
)
from dryfit.app.words.order import by_what, last_sight, no_way_back
from dryfit.document.edit import Edit
from dryfit.document.mentions import change
from dryfit.draw.paper import Area, Drawing, Group, Ink, Layer, Lettering, Pen, Stroke
from dryfit.draw.section_balloons import crossing
from dryfit.draw.section_lines import extent_of
from dryfit.draw.section_step import Mark, Moment, Way, step_picture
from dryfit.draw.section_view import Crossing, Shown, View
from dryfit.draw.svg import svg
from dryfit.plan.actions import Act, Job, Step
from dryfit.plan.placing import turns
from dryfit.shape.cells import Solid, ring

NAMES = demos.names()
SVG = "{http://www.w3.org/2000/svg}"


@cache
def stage(name: str) -> Stage:
    """Make a demo ready to be drawn, once."""
    opened = open_text(demos.text(name))
    return staged(opened, order_of(opened))


def order(name: str) -> OrderAnswer:
    """Give the order of a demo."""
    return stage(name).order


@cache
def drawing(name: str, number: int) -> Drawing:
    """Draw a step of a demo."""
    return step_drawn(stage(name), number)


def steps_of(name: str) -> range:
    """Number the steps of a demo."""
    return range(1, len(order(name).steps) + 1)


def step(name: str, called: str) -> tuple[int, StepAnswer]:
    """Find a step by its name."""
    return next((n, s) for n, s in enumerate(order(name).steps, 1) if s.name == called)


def parts_in(text: str) -> list[tuple[str, bool]]:
    """Read from an SVG which parts are drawn, and which of them are marked out."""
    found = []
    for group in ElementTree.fromstring(text).iter(f"{SVG}g"):
        if group.get("class") == "parts":
            inks = {one.get("class", "").split()[-1] for one in group if one.get("class")}
            assert len(inks) == 1, "a part is lit as a whole or not at all"
            found.append((group.get("data-part", ""), inks == {"marked"}))
    return found


def on_by_then(answer: OrderAnswer, number: int, cases: set[str]) -> set[str]:
    """Work out by hand's rule what hangs together after a step.

    What is put on after a "take" and before it goes "into" the case lies on the bench; what
    goes into the case brings with it all that is on it. A cover that is read on before its turn is
    put on to be read on.
    """
    groups = {s.name: {*s.work.puts} for s in answer.steps if s.act.startswith("into")}
    bench = {body: group for group, bodies in groups.items() for body in bodies}
    done = answer.steps[:number]
    entered = {s.name for s in done if s.name in groups}
    now = answer.steps[number - 1]
    put = [s.name for s in done if s.act not in ("read", "close", "lock") and s.name not in groups]
    group = bench.get(now.name)
    if group and group not in entered:
        return {one for one in put if bench.get(one) == group}
    on = {one for one in put if bench.get(one) is None or bench[one] in entered}
    return on | cases | ({*now.work.about} if now.act == "read" else set())


@pytest.mark.parametrize("name", NAMES)
def test_picture_holds_exactly_what_is_on_by_then(name: str) -> None:
    """Of its line all that hangs together after a step is drawn, and nothing else."""
    ready = stage(name)
    for number in steps_of(name):
        told = order(name).steps[number - 1]
        if told.act == "read" and told.work.there == told.work.about:
            continue  # a part measured by itself, before it goes on
        if told.act == "do":
            continue  # an own step that is at no part of a line
        shown = [body for body, _ in parts_in(svg(drawing(name, number)))]
        assert len(shown) == len({*shown}), "each is drawn once"
        lines = [told.work.line]
        for view in ready.views:
            pair = [view.line.name, *([view.crossing.line.name] if view.crossing else [])]
            lines = pair if told.work.line in pair else lines
        cases = {case for case in ready.cases if case in ready.parts}
        there = on_by_then(order(name), number, cases)
        if not there & ready.cases:
            lines = [told.work.line]
        assert {*shown} == there & {body for line in lines for body in ready.bodies[line]}


@pytest.mark.parametrize("name", NAMES)
def test_what_goes_on_is_lit_and_nothing_else(name: str) -> None:
    """What goes on is marked out, what was there is not; nothing is lit where one only reads."""
    for number in steps_of(name):
        told = order(name).steps[number - 1]
        lit = sorted(body for body, marked in parts_in(svg(drawing(name, number))) if marked)
        if told.act in ("read", "do"):
            assert lit == []
        elif told.act == "grease":
            assert lit == [*told.work.about]
        elif told.act == "close":
            assert lit == [told.name.removeprefix("screws of ")]
        elif told.act.startswith("into"):
            assert told.name.removesuffix(" with what is on it") in lit
        else:
            assert lit == [told.name]


@pytest.mark.parametrize("name", NAMES)
def test_each_part_is_put_on_once(name: str) -> None:
    """Through the whole order each part is lit once as it goes on, besides with its group."""
    put = [body for s in order(name).steps for body in s.work.puts if len(s.work.puts) == 1]
    ready = stage(name)
    every = {body for line in ready.bodies.values() for body in line} - ready.cases
    assert sorted(put) == sorted(every)


@pytest.mark.parametrize("name", NAMES)
def test_labels_can_be_read_and_nothing_leaves_the_picture(name: str) -> None:
    """No number, letter or word lies on another, and all is on the paper."""
    drawings = [drawing(name, number) for number in steps_of(name)]
    drawings += [off_drawn(stage(name), n) for n in range(1, len(order(name).strip) + 1)]
    for one in drawings:
        assert clashes(one) == []
        rings = [box for box, _ in lettering(one)]
        for n, a in enumerate(rings):
            for b in rings[n + 1 :]:
                apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
                assert apart, one.title
        for x, y in (p for group in one.groups for item in group.items for p in points(item)):
            assert -1e-6 <= x <= one.width + 1e-6, one.title
            assert -1e-6 <= y <= one.height + 1e-6, one.title


@pytest.mark.parametrize("name", NAMES)
def test_leaders_do_not_cross(name: str) -> None:
    """Each leader can be followed, those of hidden faces too."""
    for number in steps_of(name):
        lines = leaders(drawing(name, number))
        lines += [(s.points[0], s.points[-1]) for s in _face_leaders(drawing(name, number))]
        pairs = ((a, b) for n, a in enumerate(lines) for b in lines[n + 1 :])
        assert not any(crossing(*a, *b) for a, b in pairs)


def _faces(one: Drawing) -> list[Group]:
    """List the groups that mark a face: those with a letter."""
    marks = (group for group in one.groups if group.layer is Layer.MARKS)
    return [group for group in marks if any(isinstance(i, Lettering) for i in group.items)]


def _face_leaders(one: Drawing) -> list[Stroke]:
    strokes = (i for group in _faces(one) for i in group.items if isinstance(i, Stroke))
    return [i for i in strokes if i.pen is Pen.EDGE and not i.closed]


def test_faces_that_the_cover_of_the_feed_box_hides() -> None:
    """By hand: it stands on the gasket, on the joint, and shuts the bore.

    Of the end of the shaft, 30 across, its hole of 20 leaves 4/9 to be seen.
    """
    _, told = step("feed-box", "cover")
    hidden = {one.face for one in told.work.hidden}
    assert hidden == {"case.thrust face", "case.joint", "gasket.last end"}
    assert [one.mark for one in told.work.hidden] == ["a", "b", "c"]


def test_hidden_face_is_marked_in_words_and_where_it_is() -> None:
    """A thick bar lies on the face, from radius to radius to scale, its letter in the words."""
    number, told = step("headstock", "rear, cup")
    one = drawing("headstock", number)
    register = next(h for h in told.work.hidden if h.face == "case.rear register")
    bars = [
        s for g in _faces(one) for s in g.items if isinstance(s, Stroke) and s.pen is Pen.OUTLINE
    ]
    lengths = [abs(s.points[0][1] - s.points[1][1]) / (one.scale or 1.0) for s in bars]
    # the case is 75 wide at its wall and 85 at the register: 5 in radius, by the text
    assert register.radii_mm == pytest.approx((37.5, 42.5))
    assert pytest.approx(lengths[told.work.hidden.index(register)], abs=1e-6) == 5.0
    words = [i.text for g in one.groups for i in g.items if isinstance(i, Lettering)]
    assert f"{register.mark}  hides case.rear register: look at it first" in words


def _head(one: Drawing) -> tuple[float, float]:
    """Read which way the arrow points: from the middle of its foot to its tip."""
    (group,) = [
        g
        for g in one.groups
        if g.layer is Layer.MARKS and any(isinstance(i, Area) for i in g.items)
    ]
    (area,) = [i for i in group.items if isinstance(i, Area)]
    (stroke,) = [i for i in group.items if isinstance(i, Stroke)]
    return area.points[0][0] - stroke.points[0][0], area.points[0][1] - stroke.points[0][1]


@pytest.mark.parametrize(
    ("name", "called", "way"),
    [
        ("headstock", "rear, cone", (-1, 0)),  # from the tail, which is on the right
        ("headstock", "front, cup", (1, 0)),  # from the nose
        ("bevel-box", "sleeve", (0, -1)),  # from the drive, drawn upwards
        ("bevel-box", "pinion shaft", (0, 1)),  # from the crossing, below
    ],
)
def test_arrow_shows_the_way_on(name: str, called: str, way: tuple[int, int]) -> None:
    """The arrow points from the end that a part comes from towards its place."""
    x, y = _head(drawing(name, step(name, called)[0]))
    assert (x > 0) - (x < 0) == way[0]
    assert (y > 0) - (y < 0) == way[1]


def test_arrow_of_the_strip_points_the_way_off() -> None:
    """Taken apart, the nut of the headstock leaves to the tail, on the right."""
    x, _ = _head(off_drawn(stage("headstock"), 1))
    assert x > 0


def test_lit_part_is_thicker_and_hatched_closer_in_black_and_white() -> None:
    """Without any colour the part that goes on stands out: thick outline, twice the hatching."""
    number, _ = step("bevel-box", "cover")
    lit, plain = (_of(drawing("bevel-box", n), "cover") for n in (number, number + 2))
    assert {i.ink for i in lit} == {Ink.MARKED}
    assert Pen.OUTLINE in {i.pen for i in lit}
    assert Pen.OUTLINE not in {i.pen for i in plain}
    hatch = [sum(i.pen is Pen.HATCH for i in items) for items in (lit, plain)]
    assert 1.7 < hatch[0] / hatch[1] < 2.3  # lines that are too short are left out of both


def _of(one: Drawing, part: str) -> list[Stroke]:
    (group,) = [g for g in one.groups if g.layer is Layer.PARTS and g.part == part]
    return [i for i in group.items if isinstance(i, Stroke)]


def test_steps_of_one_line_are_drawn_at_one_scale() -> None:
    """The unit does not jump from picture to picture: scale and place stay."""
    numbers = [
        n for n in steps_of("headstock") if "case" in order("headstock").steps[n - 1].work.there
    ]
    drawn = [drawing("headstock", n) for n in numbers]
    lefts = {round(min(x for s in _of(one, "case") for x, _ in s.points), 6) for one in drawn}
    assert len({one.scale for one in drawn}) == 1
    assert len(lefts) == 1


def test_same_hatching_as_on_the_drawing_of_the_unit() -> None:
    """All cuts of one part are alike, in whatever drawing: ISO 128-3 (from memory)."""
    whole = draw(DrawRequest(demos.text("bevel-box"))).drawing
    assert whole is not None
    last = drawing("bevel-box", len(steps_of("bevel-box")))
    for part in ("cartridge", "spacer", "cover"):
        slopes = [_slope(one, part) for one in (whole, last)]
        assert slopes[0] == pytest.approx(slopes[1], abs=1e-6)


def _slope(one: Drawing, part: str) -> float:
    line = next(s for s in _of(one, part) if s.pen is Pen.HATCH)
    (x0, y0), (x1, y1) = line.points
    return abs((y1 - y0) / (x1 - x0))


HOSTILE = "c <b $x$ _y_ =z= 軸 --"
"""A name that markup and templates would choke on."""


def hostile() -> bytes:
    """Give the feed box with such a name for its cover."""
    edit = Edit("rename", ("parts", "cover"), typed=HOSTILE)
    renamed = change(demos.text("feed-box").decode(), edit)
    assert not renamed.findings
    return renamed.text.encode()


def test_hostile_name_is_written_as_it_stands() -> None:
    """Whatever a part is called, its picture has that name as letters and never as markup."""
    answer = draw_step(StepDrawRequest(hostile(), 5))
    assert answer.drawing is not None
    text = svg(answer.drawing)
    assert HOSTILE in [part for part, lit in parts_in(text) if lit]
    words = [one.text for one in ElementTree.fromstring(text).iter(f"{SVG}text")]
    assert f"5  put on: {HOSTILE}, from cover" in " ".join(filter(None, words))
    done = sheet(SheetRequest("order", hostile(), "box.yaml", DAY, draws=DRAWS))
    assert "c <b $x$ _y_ =z= ‹U+8EF8› --" in " ".join(texts(done.pdf))


@pytest.mark.parametrize("text", [*TEXTS, *UNSEEN])
def test_hostile_ends_of_a_line_have_room_and_stay_letters(text: str) -> None:
    """Names of ends and words below are letters, have room, and lie clear of each other."""
    shaft = Solid("shaft", "shaft", (ring(0, 50, 0, 10), ring(50, 80, 0, 7)))
    crossing_line = Shown("b", text, text, (replace(shaft, part="b"),))
    view = View(Shown("a", text, text, (shaft,)), Crossing(crossing_line, 20.0, 0.0, 1.0))
    moment = Moment(
        text,
        view,
        extent_of(view, 1.0),
        {},
        shafts=frozenset({"shaft", "b"}),
        lit=frozenset({"b"}),
        numbers={"b": "12"},
        marks=(Mark("a", 50.0, (7.0, 10.0)),),
        way=Way("b", text, crossing=True),
        words=(text, text),
    )
    one = step_picture(moment)
    assert clashes(one) == []
    parts = parts_in(svg(one))
    assert parts == [("shaft", False), ("b", True)]


def test_torque_is_as_typed_or_from_the_users_own_table() -> None:
    """35 N.m stands in the text of the bevel box; of its screws nothing does: none is made up."""
    assert step("bevel-box", "nut")[1].work.torque == "35 N.m"
    assert by_what(step("bevel-box", "screws of cover")[1])[-1] == "torque: from your own table"
    assert step("bevel-box", "cover")[1].work.torque is None


def test_nut_that_is_set_has_an_instrument_and_no_torque() -> None:
    """The headstock's nut is set until the indicator reads right; a torque would mislead."""
    work = step("headstock", "nut")[1].work
    assert work.torque is None
    assert work.tools == ("socket from tail", "test indicator")


def test_tight_ring_has_its_sleeve_and_its_heat() -> None:
    """A ring that grips is pushed on that ring, or warmed; one too tight for heat is not."""
    warm = "to warm it: oil bath or hot plate, thermometer, gloves"
    tools = step("bevel-box", "front bearing")[1].work.tools
    assert tools == ("press, or a sleeve on the inner ring", warm)
    tight = [s.work.tools for s in order("bevel-box-tight-ring").steps if s.presses]
    assert ("press, or a sleeve on the inner ring",) in tight  # 133 C: see tests/app/test_order.py


def test_points_of_no_return_of_the_feed_box() -> None:
    """The pack is in and can be measured no more; the gasket is nipped and renewed if opened."""
    told = {s.name: s.work.no_return for s in order("feed-box").steps if s.work.no_return}
    assert told == {
        "thrust shim": (NoReturnAnswer("check", "read shim pack"),),
        "screws of cover": (NoReturnAnswer("gasket", "gasket"),),
    }


def test_lock_is_a_point_of_no_return_but_a_lock_nut_is_none() -> None:
    """A tab washer bent back is renewed; a lock nut is just undone (common practice)."""
    for lock, wanted in (("tab washer", 1), ("lock nut", 0)):
        text = demos.text("bevel-box").replace(
            b"M30x1.5, torque", f"M30x1.5, locked by: {lock}, torque".encode()
        )
        steps = order_of(open_text(text)).steps
        (locked,) = [one for one in steps if one.name == "lock nut"]
        assert len(locked.work.no_return) == wanted
        assert locked.work.tools == (lock,)
        assert locked.work.about == ("nut",)


def test_sealant_and_what_is_spoiled_are_points_of_no_return() -> None:
    """What is stuck with sealant is cleaned to be opened; a plug driven in does not come back."""
    sealed, plug = Step(name="seal joint", act=Act.SEAL), Step(name="plug", once=True)
    job = Job((sealed, plug))
    unit = unit_of(open_text(demos.text("feed-box")).rebuild)
    told = [[*no_return_of(unit, job, turn, ())] for turn in turns(job, ("seal joint", "plug"))]
    assert told == [
        [NoReturnAnswer("sealant", "seal joint")],
        [NoReturnAnswer("spoilt", "plug")],
    ]


def _run(*words: str) -> Result:
    return CliRunner().invoke(cli, [*words])


@pytest.mark.parametrize(
    ("ending", "begins"), [(".svg", b"<svg"), (".pdf", b"%PDF"), (".dxf", b"  0\nSECTION")]
)
def test_draw_writes_one_step(tmp_path: Path, ending: str, begins: bytes) -> None:
    """`draw --step 5` writes that step's picture as the ending says."""
    where = tmp_path / f"x{ending}"
    done = _run("draw", "feed-box", "--step", "5", "-o", str(where))
    assert done.exit_code == 0, done.output
    assert where.read_bytes().replace(b"\r\n", b"\n").startswith(begins)
    assert "5  put on: cover, from cover" in done.output


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (("--step", "8"), 1, "there is no step 8 in this order"),
        (("--step", "8"), 1, "write 1 to 7"),
        (("--step", "0"), 2, "--step 0: type its number in `dryfit order`"),
        (("--step", "one"), 2, "--step one: type its number"),
        (("--step", "2", "--line", "feed shaft"), 2, "leave out --line and --gaps"),
        (("--pin", "cover before shaft"), 2, "it goes with --step"),
        (("--step", "2", "--pin", "cover before shaft"), 1, "'shaft' wants what shuts it"),
    ],
)
def test_step_that_cannot_be_drawn_is_told(
    tmp_path: Path, words: tuple[str, ...], code: int, told: str
) -> None:
    """A step that is not there is told with those that are, and nothing is written."""
    where = tmp_path / "x.svg"
    done = _run("draw", "feed-box", *words, "-o", str(where))
    assert done.exit_code == code
    assert told in " ".join(done.output.split())
    assert not where.exists()


def test_order_goes_on_paper_with_its_wishes(tmp_path: Path) -> None:
    """`order -o` writes the sheets of the order as it was wished, and of the strip."""
    where = tmp_path / "order.pdf"
    wish = ("--pin", "rear, cup before front, cup")
    assert _run("order", "headstock", *wish, "-o", str(where)).exit_code == 0
    text = " ".join(texts(where.read_bytes()))
    assert text.index("put on: rear, cup") < text.index("put on: front, cup")
    assert _run("order", "headstock", "--strip", "-o", str(where)).exit_code == 0
    assert "'spindle', 'distance piece', 'front, cone' in one" in " ".join(
        texts(where.read_bytes())
    )
    both = _run("order", "headstock", "--json", "-o", str(where))
    assert both.exit_code == 2
    assert "leave one of them out" in both.output


def test_sheet_says_of_each_step_what_the_command_says() -> None:
    """Tools, torque, faces hidden and points of no return stand on paper as on the screen."""
    done = sheet(SheetRequest("order", demos.text("feed-box"), "box.yaml", DAY, draws=DRAWS))
    text = " ".join(texts(done.pdf))
    for told in order("feed-box").steps:
        own = () if told.act == "read" else by_what(told)
        for words in (*own, last_sight(told), *no_way_back(told)):
            assert words in text
    assert "step 6, screws of cover: once it is opened again 'gasket' is renewed" in text
