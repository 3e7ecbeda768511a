"""A kind that was pointed at: ten boxes at most, and a first answer."""

import json
import re
from html import unescape

import pytest
from playwright.sync_api import Page, expect
from tests.pages.visiting import Visitor

from dryfit.app.usecases import begin
from dryfit.app.usecases.opening import open_text
from dryfit.app.words.kinds import KINDS, kind_of
from dryfit.store.revisions import rebuilds

# Hand calculation for the shaft between faces, in mm: the room is 152.40 + 0.21 - 6.20 = 146.41,
# the shaft 145.60, so without a shim it floats 0.81. Wanted is 0.10 to 0.30, its middle 0.20: the
# sum asks for 0.61 of shim. The drawer makes steps of 0.05, so 0.60 is fitted and 0.21 is left.
SHAFT = {"size-0": "152,40", "size-1": "6.20", "size-2": "145.60", "size-3": "0.21"}
SHIM, FLOAT = "0.60 mm", "0.210 mm"

# The same in inches: 6.0000 + 0.0083 - 0.2441 - 5.7313 = 0.0329 without a shim; less the middle of
# what is wanted, 0.0079, makes 0.0250, which 20 and 5 thou of the drawer are; 0.0079 is left.
IN_INCH = {"size-0": "6.0000", "size-1": "0.2441", "size-2": "5.7313", "size-3": "8.3 thou"}


def posted(visitor: Visitor, kind: str, typed: dict[str, str], status: int = 200) -> str:
    """Post the boxes of a kind."""
    return visitor.post("/in-pieces", status, None, at=kind, back="kind", **typed)


def usual(kind: str) -> dict[str, str]:
    """Type the sizes of the invented unit that the kind is drawn with."""
    found = kind_of(kind)
    assert found is not None
    return {f"size-{n}": one.usual.lstrip("-") for n, one in enumerate(found.sizes)}


def box(shown: str, number: int) -> str:
    """Give the part of a page that is one box with all that stands beside it."""
    return shown.partition(f'id="size-{number}"')[2].partition("</li>")[0]


def told(visitor: Visitor, unit: int = 1) -> str:
    """Read the first answer, tags left out."""
    plain = re.sub(r"<[^>]+>", " ", visitor.read(f"/unit/{unit}/first-answer/told"))
    return " ".join(unescape(plain).split())


def test_a_new_user_comes_from_ten_boxes_to_a_first_answer(page: Page) -> None:
    """From the first page to a shim and its float: one pointing, four sizes, one press."""
    page.get_by_role("link", name=re.compile("Shaft between faces")).click()
    page.wait_for_url("**/kind/shimmed-shaft")
    for name, value in SHAFT.items():
        page.locator(f"#{name}").fill(value)
    page.get_by_role("button", name="Show the first answer").click()
    page.wait_for_url("**/unit/1/first-answer")
    answer = page.locator("#first-answer")
    expect(answer.locator(".headline").first).to_have_text(SHIM, timeout=60_000)
    expect(answer).to_contain_text(f"It should read {FLOAT}")
    expect(answer).to_contain_text("Most of that doubt comes from")
    expect(answer.get_by_text("A first look")).to_have_count(0, timeout=60_000)
    expect(answer.locator(".headline").first).to_have_text(SHIM)


def test_the_boxes_are_gone_through_by_keyboard(page: Page) -> None:
    """Type, Tab, Tab, type: no mouse from the first box to the answer."""
    page.goto(page.url + "kind/lay-shaft")
    assert page.evaluate("document.activeElement.id") == "size-0"
    for value in ("122.10", "115.70", "3.15"):
        page.keyboard.type(value)
        page.keyboard.press("Tab")
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_url("**/unit/1/first-answer")
    expect(page.locator("#first-answer .headline")).to_have_text("3.05 mm", timeout=60_000)
    expect(page.get_by_text("A first look")).to_have_count(0, timeout=60_000)


def test_letters_and_drawing_fit_a_phone(page: Page) -> None:
    """On a phone of 360 pixels nothing has to be pushed sideways, and a finger meets each box."""
    for kind in KINDS:
        page.set_viewport_size({"width": 360, "height": 740})
        page.goto(page.url.partition("/kind")[0].rstrip("/") + f"/kind/{kind.start}")
        assert page.evaluate("document.documentElement.scrollWidth") == 360
        for part in ("#size-0", "#by-0", "button.first"):
            seen = page.locator(part).bounding_box()
            assert seen is not None
            assert seen["height"] >= 48


@pytest.mark.parametrize("kind", [kind.start for kind in KINDS])
def test_the_first_boxes_close_a_chain_of_every_kind(visitor: Visitor, kind: str) -> None:
    """With its first boxes filled in every kind has a check that can be said, and why."""
    posted(visitor, kind, usual(kind))
    answer = visitor.data("/unit/1/first-answer/told")["answer"]
    assert answer["stopped"] == []
    (first, *_) = answer["reads"]
    assert first["typed"]
    assert first["band"]
    assert first["causes"]


def test_the_answer_is_that_of_the_sum(visitor: Visitor) -> None:
    """The shim and the float are what a pencil makes of the same four sizes."""
    posted(visitor, "shimmed-shaft", SHAFT)
    words = told(visitor)
    assert f"Fit: shim {SHIM}" in words
    assert f"It should read {FLOAT}" in words


def test_inch_means_inch_all_through(visitor: Visitor) -> None:
    """Who measures in inches types bare inches, and is told a pack of thou in the drawer."""
    posted(visitor, "shimmed-shaft", IN_INCH | {"sizes-in": "inch"})
    assert "Fit: shim 0.0250 in" in told(visitor)
    assert "sizes in: inch" in visitor.text(1)


@pytest.mark.parametrize("system", ["mm", "inch"])
@pytest.mark.parametrize("kind", begin.kinds())
def test_no_start_has_a_figure_that_changes_with_the_unit(kind: str, system: str) -> None:
    """Choosing inch changes what is typed from then on, and no figure that stood there before."""
    lengths = {}
    for name in ("mm", system):
        rebuild = open_text(begin.begun(kind, name).text).rebuild  # type: ignore[arg-type]
        fields = json.dumps(
            [rebuild.needs, rebuild.meshes, rebuild.parts, rebuild.checks], default=str
        )
        lengths[name] = re.findall(r"value=Fraction\([^)]*\)", fields)
    assert lengths["mm"] == lengths[system]


def test_drawers_are_those_of_the_system() -> None:
    """Stock is in thou for who measures in inches: each start names just the drawer of mm."""
    for kind in begin.kinds():
        stock = re.findall(r"made from: (\[[^\]]*\])", begin.start(kind).decode())
        assert {*stock} <= {begin.DRAWER["mm"]}


def test_what_is_not_known_is_named(visitor: Visitor) -> None:
    """With a size left open no chain closes, and the page names just that size."""
    posted(visitor, "shimmed-shaft", {**SHAFT, "size-2": "?"})
    words = told(visitor)
    assert "No chain closes yet" in words
    assert "End float lacks 1 size shaft" in words


def test_nothing_at_all_may_be_known(visitor: Visitor) -> None:
    """Empty boxes are no mistake: the unit is begun and says what it waits for."""
    posted(visitor, "taper-headstock", {})
    assert "lacks 5 sizes" in told(visitor)


def test_which_way_a_boss_lies_is_asked_not_signed(visitor: Visitor) -> None:
    """Nobody has to know which sign a boss has: it reaches in, or it stands back."""
    posted(visitor, "shimmed-shaft", SHAFT)
    assert "cover.flange to cover.boss: -6.20 by depth micrometer" in visitor.text(1)
    posted(visitor, "shimmed-shaft", SHAFT | {"way-1": "plus"})
    assert "cover.flange to cover.boss: 6.20 by depth micrometer" in visitor.text(2)


def test_the_instrument_that_was_used_goes_into_the_text(visitor: Visitor) -> None:
    """A size read by another instrument is as doubtful as that one is; +/- says all by itself."""
    typed = {**SHAFT, "by-2": "caliper", "size-3": "0.21 +/- 0.02"}
    posted(visitor, "shimmed-shaft", typed)
    assert "shaft: 145.60 by caliper" in visitor.text(1)
    assert "nipped: 0.21 +/- 0.02" in visitor.text(1)


def test_comments_of_the_start_stay(visitor: Visitor) -> None:
    """The text that is begun is the start with its hints; values are put in, no more is touched."""
    posted(visitor, "shimmed-shaft", SHAFT)
    changed = visitor.text(1).splitlines()
    start = begin.start("shimmed-shaft").decode().splitlines()
    assert len(changed) == len(start)
    assert sum(a != b for a, b in zip(changed, start, strict=True)) == 4


BAD = {
    "another unit": ("5 kg", 422),
    "two commas": ("1,2,3", 422),
    "nothing": ("", 200),
    "not known": ("?", 200),
    "a script": ("<script>alert(1)</script>", 422),
    "far too long": ("1" * 100_000, 422),
    "zero": ("0", 422),
    "minus": ("-6.2", 422),
    "words": ("about six", 422),
    "unseen": ("6\u202e.2", 422),
    "a yaml trick": ("6.2, shaft: 1", 422),
    "enormous": ("9" * 40, 422),
}


@pytest.mark.parametrize("name", BAD)
@pytest.mark.parametrize("number", [0, 2])
def test_bad_input_is_told_beside_its_box(visitor: Visitor, name: str, number: int) -> None:
    """Whatever is typed in a box, the reason stands beside it and all else is as it was typed."""
    typed, status = BAD[name]
    shown = posted(visitor, "shimmed-shaft", {**SHAFT, f"size-{number}": typed}, status)
    if status == 200:
        return
    assert "<script>alert" not in shown
    assert "Way out:" in box(shown, number)
    assert f'value="{SHAFT["size-1"]}"' in box(shown, 1)
    others = [n for n in range(4) if n != number]
    assert not any("Way out:" in box(shown, n) for n in others)
    assert rebuilds(visitor.store) == []


def test_all_problems_come_at_once(visitor: Visitor) -> None:
    """Three wrong boxes are three reasons, each beside its own, after one press."""
    wrong = {"size-0": "x", "size-1": "-3", "size-2": "0", "size-3": "0.21"}
    shown = posted(visitor, "shimmed-shaft", wrong, 422)
    assert ["Way out:" in box(shown, n) for n in range(4)] == [True, True, True, False]


def test_what_is_chosen_stays_chosen(visitor: Visitor) -> None:
    """Inch, the instrument and the way are as they were chosen when a box comes back."""
    wrong = {**SHAFT, "size-0": "x", "sizes-in": "inch", "by-2": "caliper", "way-1": "plus"}
    shown = posted(visitor, "shimmed-shaft", wrong, 422)
    assert 'value="inch" checked' in shown
    assert "<option selected>caliper" in box(shown, 2)
    assert 'value="plus" selected' in box(shown, 1)
    assert "145.60" in box(shown, 2)


def test_an_instrument_that_is_none_is_the_usual_one(visitor: Visitor) -> None:
    """A form from elsewhere cannot put its words into a text."""
    posted(visitor, "shimmed-shaft", SHAFT | {"by-2": "x} evil: {", "way-2": "minus"})
    assert "shaft: 145.60 by micrometer" in visitor.text(1)


def test_still_together_leads_to_the_strip(visitor: Visitor) -> None:
    """A unit that is whole is begun with nothing measured, and its strip-down sheet is at hand."""
    shown = visitor.post("/together", kind="worm-table")
    assert "Print the strip-down sheet" in shown
    assert visitor.text(1).encode() == begin.start("worm-table")
    assert "no kind of unit" in visitor.post("/together", 422, kind="no such", back="")


HEADSTOCK = {
    "size-0": "118.40",
    "size-1": "19.00",
    "size-2": "20.75",
    "size-3": "18.00",
    "size-4": "19.75",
}


def test_a_headstock_is_told_one_float_and_no_doubt_in_nothing(visitor: Visitor) -> None:
    """The nut is set to one true float, and the check reads what the dial is to show then.

    Nothing was typed of a float that is in, so none is told; a pull of nothing has no doubt.
    """
    posted(visitor, "taper-headstock", HEADSTOCK)
    words = told(visitor)
    shown = re.search(r"Turn it until the dial shows ([0-9.]+) mm .*? by dial indicator", words)
    true = re.search(r"Set nut: true float to end with ([0-9.]+) mm", words)
    reads = re.search(r"It should read ([0-9.]+) mm", words)
    assert shown
    assert true
    assert reads
    assert reads[1] == shown[1]
    assert float(true[1]) < float(shown[1])
    assert f"{true[1]} mm" in words.partition("by dial indicator")[2]
    assert "the rest is what the rows yield under the push" in words
    assert "In now" not in words
    assert (
        "each with its share of it: all else: bearings, fits, friction, run-out nearly all" in words
    )
    slack = visitor.text(1).replace("{kind: nut}", "{kind: nut, set to: 0.05 mm by dial indicator}")
    assert slack != visitor.text(1)
    words = told(visitor, visitor.begin(slack))
    pull = words.partition("Pull ")[2]
    assert "It should show as good as nothing, 0 N" in pull
    assert "0 to 0 N" not in pull
    assert "that doubt comes from" not in pull


def test_sizes_of_bearings_are_counted_too(visitor: Visitor) -> None:
    """Five boxes that were filled are not called one size; what is not known is counted as such."""
    posted(visitor, "taper-headstock", HEADSTOCK)
    unit = visitor.data("/")["units"][0]
    known, every = re.findall(r"(\d+) of (\d+) sizes", unit["told"])[0]
    assert int(known) >= len(HEADSTOCK)
    assert int(every) > int(known)  # bores and outsides are not known yet
    assert f"{known} of {every} sizes" in visitor.read("/unit/1/measure")
