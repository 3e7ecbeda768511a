"""Sizes measured part by part: every box, whatever is typed into it."""

import html
import json
import re
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect
from tests.pages.visiting import Visitor

from dryfit.app.usecases import demos
from dryfit.document.read import read_document

TEXT = """
dryfit: 1
sizes in: mm
measured with: caliper
lines:
  shaft line:
    from left to right:
      in the case: [case.face, gasket, shaft, case.far face]
parts:
  case:   {kind: housing, bore: {face to far face: 46}}
  shaft:  {kind: shaft, outside: 30}
  gasket: {kind: gasket, free: 0.25}
sizes:
  case.face to case.far face: 100.50 by depth micrometer
  shaft: 100.00 +/- 0.02
needs:
  float: {kind: float, of: shaft, want: 0.2 to 0.8}
"""

Row = dict[str, Any]


def rows(visitor: Visitor, part: str, unit: int = 1) -> list[Row]:
    """Give the boxes of a part, as data."""
    shown = visitor.data(f"/unit/{unit}/measure/{part}")["part"]
    return [*shown["rows"], *shown["further"]]


def box(visitor: Visitor, part: str, label: str) -> Row:
    """Give one of its boxes."""
    return next(row for row in rows(visitor, part) if row["label"] == label)


def fields(row: Row, part: str, saw: int, typed: str, **more: str) -> dict[str, str]:
    """Fill in the form of a box."""
    seen = {} if row["seen"] is None else {"seen": row["seen"]}
    back = {"back": "measure", "at": part, "spot": row["id"], "saw": str(saw)}
    return {"place": row["place"], "by": row["by"], **seen, **back, "typed": typed, **more}


def put(visitor: Visitor, part: str, row: Row, typed: str, status: int = 200, **more: str) -> str:
    """Type into a box and leave it."""
    saw = visitor.data(f"/unit/1/measure/{part}")["frame"]["revision"]
    return visitor.post("/unit/1/box", status, **fields(row, part, saw, typed, **more))


def shown_box(told: str, row: Row) -> str:
    """Cut one box out of a page, with what stands beside it."""
    found = re.search(rf'<li class="size" id="row-{row["id"]}">.*?</li>', told, re.DOTALL)
    assert found
    return found[0]


def test_a_size_is_kept_as_typed_and_echoed(visitor: Visitor) -> None:
    """What is typed stands in the text, and beside it the same in the other system."""
    visitor.begin(TEXT)
    row = box(visitor, "shaft", "length, first end to last end")
    told = put(visitor, "shaft", row, "99.98 +/- 0.01")
    assert "  shaft: 99.98 +/- 0.01\n" in visitor.text(1)
    assert "3.9362 +/- 0.0004 in" in shown_box(told, row)  # 99.98 / 25.4 = 3.93622, by hand


def test_a_decimal_comma_is_read(visitor: Visitor) -> None:
    """Somebody used to a comma need not think of it; the text has a point."""
    visitor.begin(TEXT)
    row = box(visitor, "case", "face to far face")
    told = put(visitor, "case", row, "100,48")
    assert "case.face to case.far face: 100.48 by depth micrometer\n" in visitor.text(1)
    assert 'value="100.48"' in shown_box(told, row)


def test_an_instrument_is_chosen_beside_the_size(visitor: Visitor) -> None:
    """The instrument stands behind the size in the text, and goes where it is taken back."""
    visitor.begin(TEXT)
    row = box(visitor, "shaft", "outside")
    put(visitor, "shaft", row, "30.00", by="micrometer")
    assert "outside: 30.00 by micrometer}" in visitor.text(1)
    again = box(visitor, "shaft", "outside")
    assert (again["typed"], again["by"]) == ("30.00", "micrometer")
    put(visitor, "shaft", again, "30.00", by="")
    assert "outside: 30.00}" in visitor.text(1)


def test_what_nobody_knows_is_welcome(visitor: Visitor) -> None:
    """A `?` is kept as not known: the box is dashed, and it says what waits for it."""
    visitor.begin(TEXT)
    row = box(visitor, "shaft", "length, first end to last end")
    told = shown_box(put(visitor, "shaft", row, "?"), row)
    assert "  shaft: not known\n" in visitor.text(1)
    assert "not known yet" in told
    assert "unknown" in told
    assert "cannot be told without it" in visitor.read("/unit/1/numbers/shaft")
    (mine,) = (p for p in visitor.data("/unit/1/measure")["parts"] if p["name"] == "shaft")
    assert mine["told"] == "1 of 2"


def test_what_is_taken_instead_is_told(visitor: Visitor) -> None:
    """A gasket whose nipped thickness nobody knows is taken as common practice has it."""
    visitor.begin(TEXT.replace("free: 0.25", "free: 0.25, nipped: not known"))
    told = visitor.read("/unit/1/numbers/gasket")
    assert "nipped to 0.80 to 0.95 of its free thickness" in told


def test_how_good_is_good_enough(visitor: Visitor) -> None:
    """Beside a size stands which share of the doubt it makes, and that another matters not.

    Of 0.010 mm (half of +/- 0.02) and some 0.005 mm (9 um depth micrometer as a rectangle) the
    first makes about 80 in 100 of the variance together with the gasket's: more than half.
    """
    back = TEXT.replace("  shaft: 100", "  case.face to case.back: -10\n  shaft: 100")
    visitor.begin(back)
    told = visitor.read("/unit/1/numbers/shaft")
    assert re.search(r"\d+ in 100 of the doubt in the float of shaft", told)
    assert "nothing that is wanted hangs on it" in visitor.read("/unit/1/numbers/case")
    assert re.search(r"\d+ in 100", told)


BAD = {
    "wrong unit": "12 furlongs",
    "two commas": "1,2,3",
    "script": "<script>alert(1)</script>",
    "long": "9" * 100_000,
    "words": "about right",
    "quotes": "\"'&{{7*7}}",
    "brackets": "{a: [b, c]}",
    "nothing seen": "a\u202eb",
}


@pytest.mark.parametrize("typed", BAD.values(), ids=BAD.keys())
@pytest.mark.parametrize("part", ["inner bearing", "cover shim"])
def test_bad_input_is_told_beside_its_box(visitor: Visitor, part: str, typed: str) -> None:
    """Whatever is typed: no size takes it, a reason stands beside the box, it is not lost."""
    visitor.demo()
    before = visitor.text(1)
    saw = visitor.data(f"/unit/1/measure/{part}")["frame"]["revision"]
    for row in rows(visitor, part):
        if row["sort"] == "words":
            continue
        told = visitor.post("/unit/1/box", 422, **fields(row, part, saw, typed))
        beside = shown_box(told, row)
        assert 'role="alert"' in beside
        assert "Not kept" in beside
        assert "<script>alert" not in told
        assert ">49<" not in told
        if row["sort"] != "choice":
            assert 'aria-invalid="true"' in beside
    assert visitor.text(1) == before


@pytest.mark.parametrize("typed", ["0", "-5", "", "?", "1000000"])
@pytest.mark.parametrize("part", ["cover", "gasket", "thrust shim"])
def test_a_strange_size_breaks_no_page(visitor: Visitor, part: str, typed: str) -> None:
    """Nought, less than nothing, nothing at all and a kilometre: kept or refused, never broken."""
    visitor.demo("feed-box")
    for row in rows(visitor, part):
        saw = visitor.data(f"/unit/1/measure/{part}")["frame"]["revision"]
        form = fields(row, part, saw, typed)
        answer = visitor.client.post("/unit/1/box", data=form, headers={"origin": ORIGIN})
        assert answer.status_code in (200, 422), (row["label"], typed)
        if answer.status_code == 422:
            assert "Not kept" in shown_box(answer.text, row)
        elif visitor.data(f"/unit/1/measure/{part}")["frame"]["revision"] != saw:
            visitor.read(f"/unit/1/drawing/{part}")
            visitor.post("/unit/1/undo", at=part)


ORIGIN = "http://127.0.0.1:8642"


@pytest.mark.parametrize("name", ["feed-box", "lay-shaft", "headstock"])
def test_every_size_of_a_demo_can_be_changed_and_changed_back(visitor: Visitor, name: str) -> None:
    """A slip of the pen leaves no trace: the text is the same to the byte."""
    visitor.demo(name)
    before = visitor.text(1)
    tried = 0
    for part in read_document(before).rebuild.parts:
        for row in rows(visitor, part):
            if row["sort"] != "size" or row["seen"] is None:
                continue
            put(visitor, part, row, "77.125", by="")
            changed = visitor.text(1)
            assert changed != before
            (again,) = (r for r in rows(visitor, part) if r["id"] == row["id"])
            assert (again["typed"], again["seen"]) == ("77.125", "77.125")
            put(visitor, part, again, row["typed"], by=row["by"])
            assert visitor.text(1) == before, row["place"]
            tried += 1
    assert tried >= 4


def test_a_finding_stands_beside_its_box(visitor: Visitor) -> None:
    """A seat that cannot hold its ring is told where it was typed, on the drawing, in the list."""
    visitor.demo()
    row = box(visitor, "inner bearing", "seat")
    told = put(visitor, "inner bearing", row, "41.000")
    assert "Way out" in shown_box(told, row)
    (flag,) = re.findall(r'aria-label="finding (\d+)"', shown_box(told, row))
    parts = visitor.data("/unit/1/measure")["parts"]
    assert [p["flags"] for p in parts if p["name"] == "inner bearing"] == [[int(flag)]]
    everything = re.search(r'<section id="findings".*?</section>', told, re.DOTALL)
    assert everything
    assert f'aria-label="finding {flag}"' in everything[0]


def test_what_is_found_by_arithmetic_comes_with_the_drawing(visitor: Visitor) -> None:
    """What the drawing guesses is told with it, and flies a flag on the drawing where it can."""
    visitor.begin(TEXT + "instruments:\n  old caliper: {like: caliper, limit: 0.05}\n")
    row = box(visitor, "shaft", "outside")
    put(visitor, "shaft", row, "30", by="sextant")
    told = visitor.read("/unit/1/drawing/shaft")
    assert f'id="found-{row["id"]}"' in told
    assert "is no instrument known here" in told


def test_flags_fly_at_the_balloons(visitor: Visitor) -> None:
    """A part with a finding has its number at its balloon on the drawing."""
    visitor.demo("quill")
    told = visitor.read("/unit/1/drawing")
    flags = [p for p in visitor.data("/unit/1/drawing")["parts"] if p["flags"]]
    assert len(re.findall('class="flagged"', told)) == len(flags)


def test_two_tabs_are_told_of_each_other(visitor: Visitor) -> None:
    """What somebody else changed is shown with what I typed; nothing is written over unseen."""
    visitor.begin(TEXT)
    row = box(visitor, "shaft", "length, first end to last end")
    saw = visitor.data("/unit/1/measure/shaft")["frame"]["revision"]
    put(visitor, "shaft", row, "99.90")
    told = visitor.post("/unit/1/box", 409, **fields(row, "shaft", saw, "99.80"))
    beside = shown_box(told, row)
    assert "now 99.90" in beside
    assert 'value="99.80"' in beside
    assert "shaft: 99.90\n" in visitor.text(1)
    again = fields(box(visitor, "shaft", row["label"]), "shaft", saw + 1, "99.80")
    visitor.post("/unit/1/box", 200, **again)
    assert "shaft: 99.80\n" in visitor.text(1)


def test_another_box_changed_meanwhile_is_no_matter(visitor: Visitor) -> None:
    """Two people at two sizes do not hinder each other."""
    visitor.begin(TEXT)
    row, other = box(visitor, "shaft", "outside"), box(visitor, "case", "face to far face")
    saw = visitor.data("/unit/1/measure/shaft")["frame"]["revision"]
    put(visitor, "case", other, "100.49")
    visitor.post("/unit/1/box", 200, **fields(row, "shaft", saw, "29.98"))
    assert "100.49 by depth micrometer" in visitor.text(1)
    assert "outside: 29.98}" in visitor.text(1)


def test_a_size_that_is_not_there_yet_has_its_box(visitor: Visitor) -> None:
    """What the text may have of a part is written for the first time, and taken out again."""
    visitor.begin(TEXT)
    row = box(visitor, "gasket", "nipped")
    assert row["seen"] is None
    put(visitor, "gasket", row, "0.21 +/- 0.02")
    assert "free: 0.25, nipped: 0.21 +/- 0.02}" in visitor.text(1)
    there = box(visitor, "gasket", "nipped")
    put(visitor, "gasket", there, "", act="remove")
    assert visitor.text(1) == TEXT


def test_a_setting_is_written_where_its_part_is(visitor: Visitor) -> None:
    """The pack that is fitted, and what it may be made of, are among the boxes of the shim."""
    visitor.demo()
    put(visitor, "cover shim", box(visitor, "cover shim", "fitted"), "0.35")
    assert "cover shim: {made from: [0.05, 0.10, 0.12, 0.15, 0.25], fitted: 0.35}" in (
        visitor.text(1)
    )
    put(visitor, "cover shim", box(visitor, "cover shim", "made from: one more"), "2 of 0.50")
    put(visitor, "cover shim", box(visitor, "cover shim", "made from: 1"), "")
    assert "made from: [0.10, 0.12, 0.15, 0.25, 2 of 0.50], fitted" in visitor.text(1)


def add(visitor: Visitor, status: int = 200, **typed: str) -> str:
    """Post the form that adds a size."""
    form = {"side": "length", "from": "", "to": "", "typed": "", "by": "", "at": typed["part"]}
    return visitor.post("/unit/1/add-size", status, **{**form, **typed})


def test_a_size_is_added(visitor: Visitor) -> None:
    """A length between two places, and a diameter over a stretch, go where the text has them."""
    visitor.demo()
    add(visitor, 200, part="cover", **{"from": "flange", "to": "lip"}, typed="14,5", by="caliper")
    assert "  cover.flange to cover.lip: 14.5 by caliper\n" in visitor.text(1)
    add(visitor, 200, part="cover", side="bore", **{"from": "spigot", "to": "flange"}, typed="52")
    assert "bore: {flange to outer face: 46, spigot to flange: 52}" in visitor.text(1)


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        ({"from": "flange", "to": "", "typed": "1"}, "a size needs two places"),
        ({"from": "flange", "to": "case.joint", "typed": "1"}, "plain name"),
        ({"from": "flange", "to": "spigot", "typed": "1"}, "is there already"),
        ({"from": "flange", "to": "<script>", "typed": "12 furlongs"}, "furlongs"),
        ({"from": "a" * 100_000, "to": "b", "typed": "1"}, "Not kept"),
        ({"from": "flange", "to": "flange", "typed": "1", "side": "bore"}, "to itself"),
    ],
)
def test_a_size_that_cannot_be_added_is_told(
    visitor: Visitor, typed: dict[str, str], reason: str
) -> None:
    """The form stays open with what was typed, and says why."""
    visitor.demo()
    before = visitor.text(1)
    told = add(visitor, 422, part="cover", **typed)
    form = re.search(r'<details id="add" open>.*?</details>', told, re.DOTALL)
    assert form
    assert reason.lower() in form[0].lower()
    assert "<script>" not in form[0]
    assert visitor.text(1) == before


def test_a_part_is_renamed_everywhere(visitor: Visitor) -> None:
    """The new name stands in stacks, sizes and settings, and its page is found under it."""
    visitor.demo()
    form = {"part": "cover shim", "at": "cover shim", "typed": "joint shim"}
    told = visitor.post("/unit/1/rename", 200, **form)
    assert "Measure: joint shim" in told
    assert "cover shim" not in visitor.text(1)
    assert visitor.text(1).count("joint shim") == 3
    visitor.post("/unit/1/undo")
    assert visitor.text(1).encode() == demos.text("bevel-box")


@pytest.mark.parametrize("name", ["", "nut", "a.b", "a to b", "x" * 100_000, "<b>: {", "kind: x"])
def test_a_name_that_cannot_be_is_told(visitor: Visitor, name: str) -> None:
    """No name is taken twice, none is empty, and what was typed stays."""
    visitor.demo()
    form = {"part": "cover", "at": "cover", "typed": name}
    answer = visitor.client.post("/unit/1/rename", data=form, headers={"origin": ORIGIN})
    if answer.status_code == 422:
        assert '<details id="name" open>' in answer.text
        assert visitor.text(1).encode() == demos.text("bevel-box")
    else:
        assert answer.status_code == 200
        assert name in read_document(visitor.text(1)).rebuild.parts
    assert "<b>:" not in answer.text


def test_a_text_with_a_part_twice_has_its_page(visitor: Visitor) -> None:
    """A part of that name twice is told with its line; the other parts have their boxes."""
    visitor.begin(TEXT.replace("  gasket:", "  shaft: {kind: shaft}\n  gasket:"))
    told = visitor.read("/unit/1/measure/shaft")
    assert "put right first" in told
    assert "finding 1" in told
    assert rows(visitor, "gasket")


@pytest.mark.parametrize("text", ["", ": : :", "[1, 2", "dryfit: 1\nparts: 3", "{" * 500, "\t\tx"])
def test_a_text_that_cannot_be_read_has_its_pages(visitor: Visitor, text: str) -> None:
    """However broken a text is, it says what is wrong and leads to the whole text."""
    visitor.begin(text)
    told = visitor.read("/unit/1/measure")
    assert "/unit/1/text" in told
    assert "finding 1" in told
    assert visitor.read("/unit/1/measure/anything")
    assert visitor.read("/unit/1/drawing")
    assert '<b class="fig">Line' in visitor.read("/unit/1/text")


def test_a_part_that_is_gone_is_told(visitor: Visitor) -> None:
    """An old address says that the part is not there any more."""
    visitor.demo()
    told = html.unescape(visitor.read("/unit/1/measure/coverr"))
    assert "There is no part 'coverr' in the text now: did you mean 'cover'?" in told
    assert told.index("There is no part") < told.index('id="drawing"')  # first on a telephone
    assert "There is no line 'x'" in html.unescape(visitor.read("/unit/1/measure?line=x"))
    place = json.dumps(["sizes", "lid"])
    told = visitor.post("/unit/1/box", 422, place=place, typed="1", at="lid", seen="2")
    assert "not in the text any more" in told


def test_letters_beside_boxes_are_those_of_the_drawing(visitor: Visitor) -> None:
    """A letter on the drawing stands beside the box of the same size."""
    visitor.demo()
    drawing = visitor.read("/unit/1/drawing")
    drawn = {*re.findall(r'font-weight="700">([A-Z]{1,2})</text>', drawing)}
    names = read_document(visitor.text(1)).rebuild.parts
    beside = {row["letter"] for part in names for row in rows(visitor, part) if row["letter"]}
    assert drawn
    assert drawn <= beside


def test_the_part_that_is_chosen_is_lit(visitor: Visitor) -> None:
    """Part and balloon are lit on the drawing, its row in the list is marked, and no other."""
    visitor.demo()
    told = visitor.read("/unit/1/drawing/cover")
    assert len(re.findall("data-lit", told)) == 2
    assert len(re.findall('data-part="cover" data-lit', told)) == 2
    (marked,) = re.findall(r'<a href="([^"]*)" aria-current="true">', told)
    assert marked == "/unit/1/measure/cover#part"


def test_each_line_can_be_drawn_alone(visitor: Visitor) -> None:
    """Of several lines one is chosen, and stays chosen while sizes are typed."""
    visitor.demo()
    whole, one = (visitor.read(f"/unit/1/drawing{query}") for query in ("", "?line=pinion+shaft"))
    assert 'data-part="cover"' in whole
    assert 'data-part="cover"' not in one
    row = box(visitor, "nut", "thread")
    form = fields(row, "nut", 1, "M30x2")
    told = visitor.post("/unit/1/box?line=pinion+shaft", 200, **form)
    assert 'href="/unit/1/measure/nut?line=pinion+shaft" aria-current="true"' in told


def begin(page: Page, demo: str = "lay shaft") -> None:
    """Begin a demo in a browser and wait for its drawing and its numbers."""
    page.get_by_role("button", name=demo, exact=True).click()
    page.wait_for_url("**/unit/1/measure")
    settled(page)


def boxes(page: Page) -> Locator:
    """Find the boxes of the part that is shown, in their order."""
    return page.locator(".size input:not([type=hidden])")


def settled(page: Page) -> None:
    """Wait until nothing more is to come."""
    expect(page.locator(".later, [data-later], [aria-busy]")).to_have_count(0, timeout=60_000)


def test_touched_typed_drawn_and_undone(page: Page) -> None:
    """A touch on a part shows its sizes; a size typed changes drawing and number; undo takes it."""
    begin(page)
    page.locator('.parts[data-part="cluster"] .hit').click(position={"x": 4, "y": 4}, force=True)
    page.wait_for_url("**/measure/cluster#part")
    settled(page)
    box = boxes(page).first
    drawing, number = page.locator("#drawing").inner_html(), page.locator("#numbers").inner_text()
    box.fill("4.4")
    box.press("Enter")
    expect(page.locator("#numbers")).not_to_have_text(number, timeout=60_000)
    settled(page)
    assert page.locator("#drawing").inner_html() != drawing
    assert "/measure/cluster" in page.url
    page.get_by_role("button", name="Undo").click()
    settled(page)
    assert "/measure/cluster" in page.url
    expect(boxes(page).first).to_have_value("4.5560")


def test_enter_goes_on_and_nothing_typed_is_lost(page: Page) -> None:
    """Box by box by Enter alone; a box half typed stays as it is while the answer comes."""
    begin(page)
    page.locator("#parts").get_by_role("link", name="cluster").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/measure/cluster*")
    settled(page)
    boxes(page).first.focus()
    boxes(page).first.fill("4.5550")
    page.keyboard.press("Enter")
    expect(boxes(page).nth(1)).to_be_focused()
    page.keyboard.type("2.0")
    expect(page.locator(".size .echo").first).to_have_text("115.697 mm")  # 4.5550 x 25.4, by hand
    settled(page)
    expect(boxes(page).nth(1)).to_be_focused()
    expect(boxes(page).nth(1)).to_have_value("2.0")


def test_a_refusal_stands_beside_the_box(page: Page) -> None:
    """A wrong unit is told beside its box without leaving the page; mended, it is kept."""
    begin(page)
    page.goto(page.url + "/cluster")
    settled(page)
    box = boxes(page).first
    box.fill("4 furlongs")
    box.press("Tab")
    expect(page.locator(".size .refused").first).to_contain_text("furlongs")
    expect(box).to_have_value("4 furlongs")
    box.fill("4.5")
    box.press("Tab")
    expect(page.locator(".size .refused")).to_have_count(0)
    expect(page.locator(".size .echo").first).to_have_text("114 mm")  # as fine as typed


def test_a_reload_in_the_middle_loses_nothing(page: Page) -> None:
    """What was typed and left is there after a reload, drawing and all."""
    begin(page)
    page.goto(page.url + "/cluster")
    box = boxes(page).first
    box.fill("4.5540")
    box.press("Tab")
    expect(page.locator(".size .echo").first).to_have_text("115.672 mm")
    page.reload()
    expect(boxes(page).first).to_have_value("4.5540")
    settled(page)
    expect(page.locator("#drawing svg")).to_be_visible()


def test_it_can_be_worked_on_a_phone(page: Page) -> None:
    """At 360 px a part of the list leads to its boxes, and nothing runs off the side."""
    page.set_viewport_size({"width": 360, "height": 740})
    begin(page)
    page.locator("#parts").get_by_role("link", name="rear washer").click()
    page.wait_for_url("**/rear%20washer#part")
    settled(page)
    expect(page.locator(".part-head h2")).to_be_in_viewport()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
