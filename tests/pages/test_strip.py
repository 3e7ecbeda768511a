"""The Strip page: ticks, what was read as found, marks, and in which order it comes apart."""

import json

import pytest
from playwright.sync_api import Page, expect
from tests.pages.visiting import HOME, Visitor

from dryfit.app.usecases.begin import start
from dryfit.app.words.strip_down import BEFORE, DO_NOT_LOSE, HARM, NOTE
from dryfit.document.read import read_document
from dryfit.store.journal import Reading, Step, journal, note


def beside(shown: str, spot: str) -> str:
    """Give what stands in a piece of the page, up to the end of its list entry."""
    return shown.partition(f'id="{spot}"')[2].partition("</li>")[0]


def found(
    visitor: Visitor, unit: int, name: str, typed: str, status: int = 200, **more: str
) -> str:
    """Post a box of what was read as found."""
    place = json.dumps(["as found", more.pop("group", "readings"), name])
    fields = {"place": place, "typed": typed, "by": "dial indicator", "back": "strip", **more}
    return visitor.post(f"/unit/{unit}/as-found", status, **fields)


def test_everything_to_note_is_there(visitor: Visitor) -> None:
    """Each part of each line has what to write down; before and after it, what is else lost."""
    unit = visitor.demo("bevel-box")
    data = visitor.data(f"/unit/{unit}/strip")
    rebuild = read_document(visitor.text(unit)).rebuild
    listed = {tick["title"]: tick["told"] for line in data["lines"] for tick in line["ticks"]}
    on_lines = {s.part for line in rebuild.lines.values() for k in line.stacks for s in k.spots}
    for name in on_lines:
        assert NOTE[rebuild.parts[name].kind] in listed[name]
    assert {*rebuild.meshes} <= {*listed}
    assert [tick["title"] for tick in data["before"]] == [*BEFORE]
    assert [tick["title"] for tick in data["keep"]] == [*DO_NOT_LOSE]


def test_what_can_hurt_stands_at_its_step(visitor: Visitor) -> None:
    """Weight and drive before anything, pins and cross screws, air: each as Care on the page."""
    unit = visitor.begin(b"dryfit: 1\nsizes in: mm\n")
    shown = visitor.read(f"/unit/{unit}/strip")
    for words in HARM:
        assert f"<b>Care.</b> {words}" in shown


def test_a_tick_goes_into_the_journal_with_its_note(visitor: Visitor) -> None:
    """What was done stays, with its time and what was noted; more can be added, nothing is lost."""
    unit = visitor.demo("lay-shaft")
    (tick, *_) = visitor.data(f"/unit/{unit}/strip")["lines"][0]["ticks"]
    for words in ("two dots at the top", "and one below"):
        visitor.post(f"/unit/{unit}/noted", step=tick["step"], note=words, back="strip")
    (after, *_) = visitor.data(f"/unit/{unit}/strip")["lines"][0]["ticks"]
    assert after["note"] == "and one below"
    assert after["entry"]
    assert after["at"]
    notes = [e.wrote.note for e in journal(visitor.store, unit) if isinstance(e.wrote, Step)]
    assert notes == ["two dots at the top", "and one below"]


def test_a_tick_can_be_taken_back(visitor: Visitor) -> None:
    """A tick by mistake is struck out; the journal keeps both, the page shows it open again."""
    unit = visitor.demo("lay-shaft")
    visitor.post(f"/unit/{unit}/noted", step=BEFORE[0], note="", back="strip")
    (done, *_) = visitor.data(f"/unit/{unit}/strip")["before"]
    visitor.post(f"/unit/{unit}/taken-back", entry=str(done["entry"]), back="strip")
    (again, *_) = visitor.data(f"/unit/{unit}/strip")["before"]
    assert again["entry"] == 0
    assert [entry.kind for entry in journal(visitor.store, unit)] == ["step", "struck out"]
    visitor.post(f"/unit/{unit}/taken-back", 422, entry="7" * 400, back="strip")


def test_a_step_of_the_build_ticks_nothing_here(visitor: Visitor) -> None:
    """What was built later under the same name does not look as if it were noted at the strip."""
    unit = visitor.demo("lay-shaft")
    note(visitor.store, unit, Step(BEFORE[0]))
    assert visitor.data(f"/unit/{unit}/strip")["before"][0]["entry"] == 0


@pytest.mark.parametrize("typed", ["x" * 100_000, "a\u2028b"])
def test_a_note_that_is_not_kept_stays_in_its_box(visitor: Visitor, typed: str) -> None:
    """A note that is too long, or cannot be read by eye, comes back with the reason beside it."""
    unit = visitor.demo("lay-shaft")
    shown = visitor.post(f"/unit/{unit}/noted", 422, step=BEFORE[1], note=typed, back="strip")
    assert typed in beside(shown, "tick-1")
    assert "Way out:" in beside(shown, "tick-1")
    assert "Way out:" not in beside(shown, "tick-0")


def test_a_reading_as_found_goes_into_the_text(visitor: Visitor) -> None:
    """What was read before the strip is in the text, where the difference is worked out from it."""
    unit = visitor.demo("feed-box")
    found(visitor, unit, "end float", "0,42", seen="0.42")
    asked = read_document(visitor.text(unit)).rebuild.as_found
    assert asked is not None
    assert asked.readings["end float"].text == "0.42 by dial indicator"
    (box, *_) = visitor.data(f"/unit/{unit}/strip")["found"]
    assert (box["typed"], box["by"], box["echo"]) == (
        "0.42",
        "dial indicator",
        "0.42 mm = 0.0165 in",
    )


def test_packs_as_found_are_kept_by_their_place(visitor: Visitor) -> None:
    """Each thin ring says between what it lies, and its thickness as found is in the text."""
    unit = visitor.demo("bevel-box")
    boxes = {box["title"]: box for box in visitor.data(f"/unit/{unit}/strip")["found"]}
    assert boxes["cover shim"]["told"] == "between case and cover"
    found(visitor, unit, "cover shim", "12 thou", group="sizes", by="micrometer")
    asked = read_document(visitor.text(unit)).rebuild.as_found
    assert asked is not None
    assert asked.sizes["cover shim"].text == "12 thou by micrometer"


def test_an_emptied_box_takes_it_out_of_the_text(visitor: Visitor) -> None:
    """A reading that was a mistake is gone with its group when its box is emptied."""
    unit = visitor.demo("lay-shaft")
    before = visitor.text(unit)
    found(visitor, unit, "end float", "6 thou")
    assert "as found" in visitor.text(unit)
    found(visitor, unit, "end float", "", seen="6 thou by dial indicator")
    assert read_document(visitor.text(unit)).rebuild.as_found is None
    assert "as found" not in visitor.text(unit)
    assert visitor.text(unit).rstrip() == before.rstrip()


def test_what_was_changed_meanwhile_is_not_written_over(visitor: Visitor) -> None:
    """Two people at one box: the second sees what the first wrote, and what he typed himself."""
    unit = visitor.demo("lay-shaft")
    found(visitor, unit, "end float", "6 thou")
    saw = str(visitor.data(f"/unit/{unit}/strip")["frame"]["revision"])
    found(visitor, unit, "end float", "7 thou", seen="6 thou by dial indicator", saw=saw)
    shown = found(
        visitor, unit, "end float", "8 thou", 409, seen="6 thou by dial indicator", saw=saw
    )
    assert 'value="8 thou"' in beside(shown, "found-0")
    assert "now 7 thou" in beside(shown, "found-0")


BAD = ["5 kg", "1,2,3", "<script>alert(1)</script>", "1" * 100_000, "-0.2", "about", "6\u202e.2"]


@pytest.mark.parametrize("typed", BAD)
def test_bad_input_as_found_is_told_beside_its_box(visitor: Visitor, typed: str) -> None:
    """What is no length stays in its box with the reason; the text is as it was."""
    unit = visitor.demo("lay-shaft")
    before = visitor.text(unit)
    shown = found(visitor, unit, "end float", typed, 422)
    assert "Way out:" in beside(shown, "found-0")
    assert "<script>alert" not in shown
    assert visitor.text(unit) == before


@pytest.mark.parametrize("place", ["", "[]", '["sizes", "shaft"]', '["as found"]', "{}", "[[1]]"])
def test_a_form_reaches_nothing_but_what_was_found(visitor: Visitor, place: str) -> None:
    """The boxes of this page change no size of the unit, whatever a form says."""
    unit = visitor.demo("feed-box")
    before = visitor.text(unit)
    fields = {"place": place, "typed": "1", "back": "strip"}
    assert "load the page again" in visitor.post(f"/unit/{unit}/as-found", 422, **fields).lower()
    assert visitor.text(unit) == before


def test_what_a_balance_reads_is_noted(visitor: Visitor) -> None:
    """A pull is in newtons, and the text has only lengths as found: it is kept as a note."""
    unit = visitor.begin(start("taper-headstock"))
    data = visitor.data(f"/unit/{unit}/strip")
    pulls = [tick["title"] for tick in data["forces"]]
    rebuild = read_document(visitor.text(unit)).rebuild
    boxes = {box["title"] for box in data["found"]}
    assert pulls
    assert not {*pulls} & boxes
    assert {*rebuild.checks} == {*pulls} | (boxes & {*rebuild.checks})


def test_marks_are_kept_and_can_be_taken_back(visitor: Visitor) -> None:
    """Pair marks and sides are notes on a part, each with its time; one can be struck out."""
    unit = visitor.demo("bevel-box")
    visitor.post(f"/unit/{unit}/marked", on="cover", note="one dot, at the top", back="strip")
    (mark,) = visitor.data(f"/unit/{unit}/strip")["marks"]
    assert (mark["on"], mark["note"]) == ("cover", "one dot, at the top")
    visitor.post(f"/unit/{unit}/taken-back", entry=str(mark["entry"]), back="strip")
    assert visitor.data(f"/unit/{unit}/strip")["marks"] == []


@pytest.mark.parametrize("typed", ["", "   ", "x" * 3_000])
def test_a_mark_that_is_not_kept_stays_in_its_box(visitor: Visitor, typed: str) -> None:
    """Nothing typed, or far too much: the reason stands at the form, the part stays chosen."""
    unit = visitor.demo("bevel-box")
    fields = {"place": '["mark"]', "on": "cover", "note": typed, "back": "strip"}
    shown = visitor.post(f"/unit/{unit}/marked", 422, **fields)
    form = shown.partition('id="marks"')[2].partition("</form>")[0]
    assert "Way out:" in form
    assert "<option selected>cover" in form
    assert typed in form


def test_it_is_told_in_which_order_it_comes_apart(visitor: Visitor) -> None:
    """Where the sizes tell, each line has its order; where they do not, the page says so."""
    unit = visitor.demo("headstock")
    shown = visitor.read(f"/unit/{unit}/strip/order")
    assert shown.index("nut&#39;, to tail") < shown.index("spindle&#39;")
    fresh = visitor.begin(b"dryfit: 1\nsizes in: mm\n")
    assert "as soon as its sizes are known" in visitor.read(f"/unit/{fresh}/strip/order")


def test_readings_of_the_journal_are_not_taken_for_as_found(visitor: Visitor) -> None:
    """What is read in the build later does not stand in the boxes of the strip."""
    unit = visitor.demo("lay-shaft")
    note(visitor.store, unit, Reading("end float", "0.0060"))
    assert visitor.data(f"/unit/{unit}/strip")["found"][0]["typed"] == ""


@pytest.mark.parametrize("text", [b"dryfit: 1\nsizes in: mm\n", b"dryfit: 1\n", b"dryfit: [\n"])
def test_a_text_with_next_to_nothing_in_it_has_a_strip(visitor: Visitor, text: bytes) -> None:
    """An empty unit, or one whose text does not read, can still be noted and photographed."""
    unit = visitor.begin(text)
    assert BEFORE[0] in visitor.read(f"/unit/{unit}/strip")
    visitor.post(f"/unit/{unit}/noted", step=BEFORE[0], note="ok", back="strip")


def test_ticks_and_boxes_stay_where_the_eye_is(page: Page) -> None:
    """In the browser a tick and a reading are kept without the page jumping."""
    page.get_by_role("button", name="lay shaft", exact=True).click()
    page.wait_for_url("**/unit/1/measure")
    page.goto(page.url.replace("measure", "strip"))
    page.evaluate("window.scrollTo(0, 300)")
    page.locator("#note-1").fill("front is the tailstock end")
    page.locator("#note-1").press("Enter")
    expect(page.locator("#tick-1")).to_contain_text("front is the tailstock end")
    expect(page.locator("#tick-1.done")).to_have_count(1)
    page.locator("#read-0").fill("0,006")
    page.locator("#read-0").press("Enter")
    expect(page.locator("#found-0")).to_contain_text("0.006 in = 0.15 mm")
    assert page.evaluate("window.scrollY") > 100
    assert page.url.endswith("/unit/1/strip")
    expect(page.locator("#apart")).not_to_contain_text("being worked out", timeout=60_000)


def test_a_long_paste_is_refused_for_what_it_is(page: Page) -> None:
    """100 000 characters in a box are told as too many, not as a dryfit that does not answer."""
    page.get_by_role("button", name="bevel box", exact=True).click()
    page.wait_for_url("**/unit/1/measure")
    page.goto(page.url.replace("measure", "strip"))
    page.locator("#read-0").fill("9" * 100_000)
    page.locator("#read-0").press("Enter")
    expect(page.locator("#found-0")).to_contain_text("100000 characters are too many")
    expect(page.locator("#told")).to_have_text("")


def test_the_strip_fits_a_phone(page: Page) -> None:
    """At 360 pixels nothing is pushed sideways, and each button is large enough for a glove."""
    page.get_by_role("button", name="bevel box", exact=True).click()
    page.wait_for_url("**/unit/1/measure")
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(page.url.replace("measure", "strip"))
    expect(page.locator("#apart li").first).to_be_visible(timeout=60_000)
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    heights = page.eval_on_selector_all(
        "main .button, main input:not([type=hidden]), main select",
        "all => all.map(one => one.getBoundingClientRect().height)",
    )
    assert min(heights) >= 44


def test_a_unit_of_no_number_has_no_strip(visitor: Visitor) -> None:
    """A stale address is told as one."""
    for path in ("/unit/99/strip", "/unit/99/strip/order", "/unit/99/photograph/x"):
        visitor.read(path, 404)
    answer = visitor.client.post("/unit/99/noted", headers={"origin": HOME}, data={"step": "x"})
    assert answer.status_code in (404, 422)
