"""Read back with the XML reader of Python's own library, which knows nothing of dryfit."""

import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from tests.draw.hostile import PART, TEXTS, UNSEEN, any_text, lettered, one_of_everything

from dryfit.draw.lettering import written
from dryfit.draw.paper import Area, Drawing, Group, Item, Layer, Lettering, Point, Ring, Stroke
from dryfit.draw.svg import svg

NEAR = 0.001
"""A thousandth of a millimetre: what is written is rounded to that."""

EVERYTHING = one_of_everything()


def _read(drawing: Drawing) -> ElementTree.Element:
    return ElementTree.fromstring(svg(drawing))


def _name(element: ElementTree.Element) -> str:
    return element.tag.rpartition("}")[2]


def _groups(root: ElementTree.Element) -> list[ElementTree.Element]:
    return [child for child in root if _name(child) == "g"]


def _points(path: str) -> list[list[Point]]:
    """Read the points of each course of a path."""
    courses = re.findall(r"M([^M]*)", path)
    return [
        [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", course)]
        for course in courses
    ]


def test_sheet_has_its_true_size_in_millimetres() -> None:
    """Printed without scaling, a millimetre of the drawing is one on paper."""
    root = _read(EVERYTHING)
    assert (root.get("width"), root.get("height")) == ("120.5mm", "80.25mm")
    assert root.get("viewBox") == "0 0 120.5 80.25"
    assert root[0].text == "Cover, half-section"


def test_each_group_is_there_once_and_is_named() -> None:
    """A page finds a part by its name, and ids are never there twice."""
    groups = _groups(_read(EVERYTHING))
    assert [g.get("class") for g in groups] == [g.layer.value for g in EVERYTHING.groups]
    assert [g.get("data-part") for g in groups] == [PART, None, PART, None]
    identities = [g.get("id") for g in groups if g.get("id")]
    assert len({*identities}) == len(identities) == 2
    assert not any(re.search(r"\s", name or "") for name in identities)


@pytest.mark.parametrize("number", range(len(EVERYTHING.groups)))
def test_every_item_lies_where_it_was_drawn(number: int) -> None:
    """Points, circles and texts come back within a thousandth of a millimetre, in their order."""
    group = EVERYTHING.groups[number]
    read = [shape for e in _groups(_read(EVERYTHING))[number] for shape in _shapes(e)]
    assert len(read) == len(group.items)
    for found, item in zip(read, group.items, strict=True):
        for got, told in zip(found, _places(item), strict=True):
            assert got[0] == pytest.approx(told[0], abs=NEAR)
            assert got[1] == pytest.approx(EVERYTHING.height - told[1], abs=NEAR)


def _shapes(element: ElementTree.Element) -> list[list[Point]]:
    if _name(element) == "path":
        return _points(element.get("d", ""))
    corners = {"circle": ("cx", "cy"), "text": ("x", "y")}.get(_name(element))
    if corners is None:
        return []
    x, y = (float(element.get(key, "nan")) for key in corners)
    return [[(x, y)]]


def _places(item: Item) -> tuple[Point, ...]:
    if isinstance(item, Stroke | Area):
        return item.points
    return (item.centre,) if isinstance(item, Ring) else (item.at,)


def test_nothing_but_plain_elements() -> None:
    """No pattern, marker, filter, script or style: any program shows the same."""
    elements = {_name(element) for element in _read(EVERYTHING).iter()}
    assert elements <= {"svg", "title", "rect", "g", "path", "circle", "text"}


def test_sheet_is_white_whatever_lies_behind_it() -> None:
    """Black lines on a page that is dark would not be seen: one white sheet lies below all."""
    (sheet,) = (element for element in _read(EVERYTHING).iter() if _name(element) == "rect")
    size = (float(sheet.get("width", "0")), float(sheet.get("height", "0")))
    assert size == (EVERYTHING.width, EVERYTHING.height)
    assert (sheet.get("fill"), sheet.get("class")) == ("#fff", "paper")
    assert [_name(element) for element in _read(EVERYTHING)][:3] == ["title", "rect", "g"]


def test_lines_have_the_widths_of_the_table() -> None:
    """Thick, thin and thinnest are 0.7, 0.25 and 0.18 mm [ISO 128-2 from memory]."""
    widths = {
        (e.get("class") or "").split()[0]: float(e.get("stroke-width", "0"))
        for e in _read(EVERYTHING).iter()
        if e.get("stroke-width")
    }
    assert widths == {"outline": 0.7, "assumed": 0.7, "edge": 0.25, "centre": 0.25, "hatch": 0.18}
    dashed = {
        e.get("class", "").split()[0] for e in _read(EVERYTHING).iter() if e.get("stroke-dasharray")
    }
    assert dashed == {"centre", "assumed"}


def test_it_is_black_on_white_by_itself() -> None:
    """Without a style sheet there is no colour, also of what is marked out."""
    colours = {e.get(key) for e in _read(EVERYTHING).iter() for key in ("stroke", "fill")}
    assert colours <= {None, "none", "#000", "#fff"}


@pytest.mark.parametrize("text", TEXTS)
def test_text_stands_as_it_was_typed(text: str) -> None:
    """Markup, quotes and long words are letters, in lettering, names and title."""
    root = _read(lettered(text))
    (group,) = _groups(root)
    assert (root[0].text or "") == text
    assert group.get("data-part") == text
    assert [e.text or "" for e in group if _name(e) == "text"] == [text]


@pytest.mark.parametrize("text", UNSEEN)
def test_what_nobody_would_see_is_told_by_its_number(text: str) -> None:
    """A control character neither breaks the file nor hides."""
    (group,) = _groups(_read(lettered(text)))
    assert group[-1].text == UNSEEN[text]


@given(any_text, any_text)
def test_no_text_breaks_the_file(one: str, other: str) -> None:
    """Whatever is typed, the file can be read, and says it."""
    groups = _groups(_read(lettered(one, other)))
    assert [g[-1].text or "" for g in groups] == [written(one), written(other)]
    assert len({g.get("id") for g in groups}) == 2


def test_same_drawing_is_the_same_file() -> None:
    """Two files of one drawing do not differ."""
    assert svg(one_of_everything()) == svg(one_of_everything())


def test_strokes_of_one_pen_become_one_path() -> None:
    """Hatching of a hundred lines is one element, each line a course of its own."""
    lines = tuple(Stroke(((n, 0.0), (n + 5.0, 5.0))) for n in range(100))
    drawing = Drawing("x", 120, 10, (Group(Layer.PLOT, lines),))
    ((path,),) = _groups(_read(drawing))
    starts = [course[0][0] for course in _points(path.get("d", ""))]
    assert len(starts) == 100
    assert all(b - a == 1 for a, b in pairwise(starts))


def test_lettering_has_the_height_that_was_wanted() -> None:
    """Type of 3.5 mm capitals is 3.5 / 0.72 = 4.861 mm large."""
    (text,) = [e for e in _groups(_read(lettered("x")))[0] if _name(e) == "text"]
    assert float(text.get("font-size", "0")) == pytest.approx(4.861, abs=NEAR)


def test_all_items_are_written() -> None:
    """No sort of item is left out."""
    sorts = {type(item) for group in EVERYTHING.groups for item in group.items}
    assert sorts == {Stroke, Ring, Area, Lettering}


def test_a_part_is_met_all_over_and_leads_somewhere() -> None:
    """A touch anywhere within a part leads to its page, and the name cannot break out of it."""
    square = ((10.0, 10.0), (20.0, 10.0), (20.0, 30.0), (10.0, 30.0))
    group = Group(Layer.PARTS, (Ring((15.0, 20.0), 2.0),), PART, (square,))
    bare = Group(Layer.AXES, (Ring((15.0, 20.0), 2.0),))
    drawing = Drawing("one part", 100.0, 50.0, (group, bare))
    root = ElementTree.fromstring(svg(drawing, lambda part: f"/see/{part}"))
    (link,) = (child for child in root if _name(child) == "a")
    assert (link.get("href"), link.get("tabindex")) == (f"/see/{PART}", "-1")
    assert (root.get("role"), link.get("aria-hidden")) == ("group", "true")
    (part,) = _groups(link)
    assert [_name(e) for e in part] == ["title", "path", "circle"]
    assert (part[1].get("class"), part[1].get("fill")) == ("hit", "none")
    assert _points(part[1].get("d", "")) == [[(x, 50.0 - y) for x, y in square]]
    assert [g.get("data-part") for g in _groups(root)] == [None]
    assert "<a" not in svg(drawing)
    assert 'role="img"' in svg(drawing)
