"""The walk to nothing as a page: of no unit, and kept in the text of one."""

import html
import re

import pytest
from playwright.sync_api import Page, expect
from tests.pages.visiting import Visitor

from dryfit.app.pages.walk_view import mark_written, rows
from dryfit.app.usecases.walk import WalkRequest, walked
from dryfit.app.usecases.walk_texts import read_pitch

NUT = {
    "by": "nut",
    "system": "mm",
    "pitch": "1.5",
    "mark-1": "0",
    "read-1": "0.082",
    "mark-2": "10 deg",
    "read-2": "0,041",
    "mark-3": "15",
    "read-3": "0.020",
}

expect.set_options(timeout=60_000)
"""Milliseconds: a slow machine loads numpy for ten seconds."""

HOSTILE = ("12 stone", "", "<script>alert(1)</script>", "9" * 100_000, "-1", "1,2,3", "\x00", "🔧")

SHIM = {"back": "walk", "at": "thrust shim", "check": "end float"}

PACKS = {"mark-1": "0.50", "read-1": "0.112", "mark-2": "0,55", "read-2": "0.161"}


def words(page: str) -> str:
    """Give what is to be read on a page, in one line."""
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", page)).split())


def test_it_says_where_the_float_ends(visitor: Visitor) -> None:
    """Three marks and their floats give the place to stop at, as the line through them has it."""
    page = words(visitor.send("/walk", {**NUT, "want": "0.010", "across": "60"}))
    # by hand: 0.082 - 0.041 - 0.020 fall by 1.5 / 360 a degree; the mean of what is left over
    # puts nothing at 0.0477 x 240 + 8.33 = 19.8 deg, and 0.010 of float 2.4 deg before that
    rate = 1.5 / 360
    mean_read, mean_mark = (0.082 + 0.041 + 0.020) / 3, (0 + 10 + 15) / 3
    nothing = mean_mark + mean_read / rate
    # weights of the readings differ a little from the plain mean: a tenth of a degree
    found = re.search(r"nothing at ([\d.]+) degrees", page)
    assert found is not None
    assert float(found[1]) == pytest.approx(nothing, abs=0.1)
    assert f"to {nothing - 0.010 / rate:.1f} degrees" in page


def test_it_is_the_answer_of_the_command(visitor: Visitor) -> None:
    """The page and `dryfit walk` say the same."""
    visitor.send("/walk", NUT)
    told = visitor.client.get("/walk", params={**NUT, "as": "json"}).json()["told"]
    answer = walked(WalkRequest(("0 deg: 0.082", "10 deg: 0.041", "15 deg: 0.020"), pitch="1.5"))
    assert answer.nothing is not None
    assert f"{answer.nothing.at:.1f} degrees" in told["parts"][0]["lines"][0]
    assert [point["mark"] for point in told["points"]] == ["0 deg", "10 deg", "15 deg"]
    assert told["plot"]["told"].startswith("Walk to nothing. ")


def test_packs_need_no_pitch(visitor: Visitor) -> None:
    """With packs the readings say themselves which way a thicker one works."""
    page = words(visitor.send("/walk", {"by": "pack", "want": "0.10", **PACKS}))
    assert "A thicker pack gives float" in page
    thou = {"read-1": "0.0052", "read-2": "0.0035", "read-3": "0.0026"}
    inch = words(visitor.send("/walk", {**NUT, **thou, "system": "inch", "pitch": "16 per inch"}))
    assert "in (" in inch
    assert read_pitch("16 per inch", "mm") == pytest.approx(0.0254 / 16)


@pytest.mark.parametrize("typed", HOSTILE)
@pytest.mark.parametrize("box", ["mark-2", "read-2", "pitch", "want", "past", "across", "push"])
def test_what_is_wrong_is_beside_its_box_and_nothing_is_lost(
    visitor: Visitor, box: str, typed: str
) -> None:
    """Whatever stands in a box is still there, and what is wrong with it is said at it."""
    answer = visitor.client.post(
        "/walk",
        data={**NUT, box: typed, "back": "walk"},
        headers={"origin": "http://127.0.0.1:8642"},
    )
    empty_is_good = not typed and box not in ("mark-2", "read-2", "pitch")
    assert answer.status_code == (200 if empty_is_good else 422)
    assert "<script>alert" not in answer.text
    assert 'value="0,041"' in answer.text or box == "read-2"
    if not empty_is_good:
        at = "row-2" if box.endswith("-2") else box
        assert f'id="{at}-why"' in answer.text
        if typed.isprintable():
            assert f'value="{html.escape(typed)}"' in answer.text


def test_the_summary_names_the_reading_or_box(visitor: Visitor) -> None:
    """What is wrong stands above with the number of its reading, as it does below at its row."""
    wrong = {**NUT, "read-2": "abc", "mark-3": "5x", "want": "1 kg", "back": "walk"}
    told = html.unescape(visitor.send("/walk", wrong, 422))
    summary = told.partition('id="slip"')[2].partition("</section>")[0]
    heads = re.findall(r"<p><b>([^<]*):</b>", summary)
    assert heads == ["Reading 2", "Reading 3", "Float to stop at"]
    assert "Reading 2:</b> no number begins 'abc'" in summary
    unit = visitor.demo("feed-box")
    wrong = {"mark-1": "0.1", "read-1": "0.12", "mark-2": "0.2", "read-2": "abc"}
    wrong |= {"at": "thrust shim", "check": "end float", "back": "walk"}
    told = html.unescape(visitor.send(f"/unit/{unit}/walk", wrong, 422))
    assert "<b>Reading 2:</b> no number begins 'abc'" in told


def test_no_name_of_an_option_is_left_over(visitor: Visitor) -> None:
    """Messages name boxes, not words for a command line."""
    page = words(
        visitor.send("/walk", {**NUT, "want": "-0.01", "past": "0.02", "back": "walk"}, 422)
    )
    assert "--" not in page
    assert "Leave out 'want' or 'past'" in page or "leave out 'want' or 'past'" in page


def test_more_rows_come_and_what_was_typed_stays(visitor: Visitor) -> None:
    """Somebody who reads at eight marks gets eight rows."""
    page = visitor.send("/walk", {**NUT, "more": "1", "rows": "5", "back": "walk"})
    assert 'name="mark-10"' in page
    assert 'value="0,041"' in page
    assert rows({"mark-3": "1", "read-3": ""}) == (("", ""), ("", ""), ("1", ""))


def test_a_walk_of_a_unit_is_kept_in_its_text(visitor: Visitor) -> None:
    """Rows that are kept stand under walks, and one that is emptied is gone again."""
    unit = visitor.demo("feed-box")
    visitor.send(f"/unit/{unit}/walk", {**SHIM, **PACKS})
    assert "end float: {with: thrust shim, 0.50: 0.112, 0.55: 0.161}" in visitor.text(unit)
    visitor.send(
        f"/unit/{unit}/walk",
        {**SHIM, **PACKS, "read-1": "0.113", "mark-2": "0.60", "read-2": "0.21"},
    )
    text = visitor.text(unit)
    assert "0.50: 0.113" in text
    assert "0.60: 0.21" in text
    assert "0.55" not in text.split("walks:")[1]
    visitor.send(f"/unit/{unit}/walk", {**SHIM, "mark-1": "", "read-1": ""})
    assert "with: thrust shim" not in visitor.text(unit)


def test_a_walk_of_a_nut_says_how_far_to_turn_it(visitor: Visitor) -> None:
    """Floats at marks of the headstock's nut give the way to go, with the unit's own pitch."""
    unit = visitor.demo("headstock")
    marks = {"mark-1": "0", "read-1": "0.110", "mark-2": "6", "read-2": "0.086"}
    more = {"mark-3": "1/30 turn", "read-3": "0,060"}
    nut = {"back": "walk", "at": "nut", "check": "end float"}
    visitor.send(f"/unit/{unit}/walk", {**nut, **marks, **more})
    assert "{with: nut, 0 deg: 0.110, 6 deg: 0.086, 1/30 turn: 0.060}" in visitor.text(unit)
    told = visitor.data(f"/unit/{unit}/walk-told/nut")["walks"]
    # by hand: 1.5 mm a turn; 12 deg and 0.060 of float left are 14.4 deg on, 26.4 in all
    assert "26." in " ".join(told[0]["stop"]["lines"])
    assert told[0]["stop"]["lines"][0].startswith("Tighten ")
    assert told[0]["plot"] is not None


@pytest.mark.parametrize("typed", HOSTILE)
@pytest.mark.parametrize("box", ["mark-2", "read-2"])
def test_a_wrong_row_of_a_unit_keeps_nothing_and_loses_nothing(
    visitor: Visitor, box: str, typed: str
) -> None:
    """Where one row is wrong no row is written, and all that was typed is still there."""
    unit = visitor.demo("feed-box")
    before = visitor.text(unit)
    answer = visitor.client.post(
        f"/unit/{unit}/walk",
        data={"back": "walk", "at": "thrust shim", "check": "end float", **PACKS, box: typed},
        headers={"origin": "http://127.0.0.1:8642"},
    )
    assert answer.status_code == 422
    assert "<script>alert" not in answer.text
    assert 'id="row-2-why"' in answer.text
    assert 'value="0.112"' in answer.text
    assert visitor.text(unit) == before


def test_one_pack_twice_is_told(visitor: Visitor) -> None:
    """Two floats with one pack are not silently made one."""
    unit = visitor.demo("feed-box")
    page = visitor.send(f"/unit/{unit}/walk", {**SHIM, **PACKS, "mark-2": "0.50"}, 422)
    assert "is the same pack as in row 1" in words(page)


def test_a_float_has_one_walk(visitor: Visitor) -> None:
    """A float walked by one pack is not overwritten by another; the page says which it was."""
    text = visitor.text(visitor.demo("bevel-box"))
    unit = visitor.begin(
        text + "walks:\n  wheel float: {with: cover shim, 0.50: 0.118, 0.55: 0.170}\n"
    )
    page = visitor.read(f"/unit/{unit}/walk/cartridge shim?check=wheel float")
    assert "is written already, by cover shim" in words(page)
    fields = {"back": "walk", "at": "cartridge shim", "check": "wheel float"}
    told = visitor.send(f"/unit/{unit}/walk", {**fields, **PACKS}, 422)
    assert "is written already, by cover shim" in words(told)


def test_a_bare_mark_at_a_nut_is_degrees() -> None:
    """A figure alone means degrees at a nut, and a thickness of a pack."""
    assert mark_written("10", "nut") == "10 deg"
    assert mark_written("2 flats of 6", "nut") == "2 flats of 6"
    assert mark_written("0,45", "pack") == "0.45"


def test_a_walk_is_typed_standing_at_the_machine(page: Page) -> None:
    """At 360 pixels a walk is typed by keyboard alone, and every box can be hit with a glove."""
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(page.url.split("/?")[0].rstrip("/") + "/walk")
    page.get_by_label("Pitch of the nut").focus()
    for typed in ("1.5", "0", "0.082", "10", "0.041", "15", "0.020"):
        page.keyboard.type(typed)
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#comes-to")).to_contain_text("19.8 degrees")
    page.wait_for_load_state()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    for box in page.locator(".walk-row input").all():
        found = box.bounding_box()
        assert found is not None
        assert found["height"] >= 64


def test_a_walk_of_a_unit_is_typed_by_keyboard(page: Page) -> None:
    """The rows of a unit's walk are kept by Enter, and its answer comes beside them."""
    page.get_by_role("button", name="feed box", exact=True).click()
    page.wait_for_url("**/unit/1/measure")
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(page.url.replace("measure", "walk/thrust%20shim"))
    page.get_by_label("pack 1").focus()
    for typed in ("0.30", "0.161", "0.35", "0.112", "0.40", "0.060"):
        page.keyboard.type(typed)
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#comes-to")).to_contain_text("on the line")
    expect(page.get_by_label("float read 3")).to_have_value("0.060")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_a_wrong_walk_in_a_text_is_told_at_its_row(visitor: Visitor) -> None:
    """A text brought in with a float that cannot be read says so at that row."""
    text = visitor.text(visitor.demo("feed-box"))
    walk = "walks:\n  end float: {with: thrust shim, 0.30: 0.161, 0.35: 12 stone}\n"
    page = visitor.read(f"/unit/{visitor.begin(text + walk)}/walk/thrust shim")
    assert 'id="row-2-why"' in page
    assert 'value="12 stone"' in page


def test_what_cannot_be_walked_is_told(visitor: Visitor) -> None:
    """An old address of a setting that was renamed says so, above what can be walked."""
    unit = visitor.demo("feed-box")
    told = html.unescape(visitor.read(f"/unit/{unit}/walk/thrust shims"))
    assert "There is no setting or nut 'thrust shims' in the text now" in told
    assert "did you mean 'thrust shim'?" in told
