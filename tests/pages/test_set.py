"""Set: how sure it is, what to fit, what checks should read, packs tried on, what is wanted."""

import html
import json
import re

import pytest
from playwright.sync_api import Page, expect
from tests.pages.visiting import Visitor

from dryfit.app.pages import tasks
from dryfit.app.pages.strips import LEFT, RIGHT, rise, stack, strip
from dryfit.app.usecases import demos
from dryfit.app.usecases.choose import ChooseAnswer
from dryfit.app.usecases.try_on import try_on
from dryfit.app.words.checks import should
from dryfit.app.words.figures import figures
from dryfit.store.journal import Reading, note, strike_out

expect.set_options(timeout=60_000)
"""Milliseconds: a slow machine loads numpy for ten seconds."""

SLOW = {"bevel-box", "bevel-box-loose-cover", "bevel-box-tight-ring"}
"""Demos whose rows are pressed together: half a minute each."""

DEMOS = [
    pytest.param(name, marks=pytest.mark.prove) if name in SLOW else name for name in demos.names()
]

HOSTILE = (
    "12 stone",
    "0,35",
    "<script>alert(1)</script>",
    "9" * 40_000,
    "0",
    "-0.35",
    "not known",
    "{a: 1",
    "\x00",
    "a\nb",
    "🔧",
)


def words(page: str) -> str:
    """Give what is to be read on a page, in one line."""
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", page)).split())


def asked(name: str) -> ChooseAnswer:
    """Give the answer of the usecase itself."""
    answer: ChooseAnswer = tasks.choose(demos.text(name))
    return answer


def hundred(share: float) -> str:
    """Write a chance by hand."""
    whole = f"{share * 100:.0f}"
    return {"100": "99", "0": "1"}.get(whole, whole)


@pytest.mark.parametrize("name", DEMOS)
def test_the_page_says_what_the_answer_says(visitor: Visitor, name: str) -> None:
    """Chances, packs, acts and expected readings on the page are those of the sheet."""
    answer, unit = asked(name), visitor.demo(name)
    page = words(visitor.read(f"/unit/{unit}/set?look=full"))
    show = figures("inch" if answer.system == "inch" else "mm", None)
    usual = answer.usual.chance if answer.usual else None
    for share in (answer.chance_as_it_is, usual):
        assert share is None or f"{hundred(share)} in 100" in page
    for act in answer.acts:
        assert f"{act.minutes:.0f} minutes" in page
        assert f"{hundred(act.chance)} in 100" in page
    for one in answer.settings:
        if one.pack and not one.nut and one.pack.thickness_mm:
            assert " + ".join(one.pack.pieces) in page
            assert show.bare(one.pack.thickness_mm) in page
    for check in answer.checks:
        told = should(check, show)
        if told is not None:
            assert f"{told.typed}; {told.band}" in page


@pytest.mark.parametrize("name", DEMOS)
def test_every_setting_says_which_way_it_works(visitor: Visitor, name: str) -> None:
    """What a thicker pack does is said of each setting that moves something."""
    answer, unit = asked(name), visitor.demo(name)
    page = words(visitor.read(f"/unit/{unit}/set?look=full"))
    for one in answer.settings:
        assert one.thicker
        assert one.thicker[1:] in page


def test_the_headline_is_the_chance(visitor: Visitor) -> None:
    """The large figure is the chance that it closes up right the first time."""
    told = visitor.data(f"/unit/{visitor.demo('feed-box')}/set/chance")
    first = told["chances"]["chances"][0]
    chance = tasks.choose(demos.text("feed-box"), tasks.FIRST_LOOK).chance
    assert first["told"] == {"before": "", "figure": hundred(chance)}
    assert first["words"] == "That it closes up right first time, by the sizes"
    assert first["below"][-1] == "If it is done as advised: thrust shim by the sum of sizes"


def test_the_headline_says_by_which_route_it_holds(visitor: Visitor) -> None:
    """A chance that holds for a walk says so, and beside it stands that of the sum alone."""
    answer, unit = asked("bevel-box"), visitor.demo("bevel-box")
    assert answer.chance_by_sum is not None
    page = words(visitor.read(f"/unit/{unit}/set?look=full"))
    routes = "cover shim by a walk to nothing; cartridge shim by the sum of sizes"
    alone = f"By the sum of sizes alone: {hundred(answer.chance_by_sum)} in 100"
    assert f"If it is done as advised: {routes}. {alone}" in page
    measure = words(visitor.read(f"/unit/{unit}/numbers/outer bearing"))
    assert f"If it is done as advised: {routes}. By the sum of sizes alone" in measure


def test_a_first_look_says_so_and_asks_for_the_usual_one(visitor: Visitor) -> None:
    """A figure of few draws is marked, and the one of many comes in its place."""
    unit = visitor.demo("feed-box")
    first = visitor.read(f"/unit/{unit}/set/chance")
    assert "first look: 2000 units drawn" in words(first)
    (later,) = re.findall(r'data-later="([^"]+)"', first)
    assert "first look" not in visitor.read(html.unescape(later))


def test_the_recommended_way_stands_first(visitor: Visitor) -> None:
    """The way to go is the first of the ways, and what cannot be gone says why, last."""
    unit = visitor.demo("headstock")
    ways = visitor.data(f"/unit/{unit}/set/fit/nut")["fit"]["ways"]
    assert [way["best"] for way in ways] == [True, *[False] * (len(ways) - 1)]
    assert ways[0]["name"] == "walk to nothing"
    unit = visitor.demo("feed-box")
    ways = visitor.data(f"/unit/{unit}/set/fit/thrust shim")["fit"]["ways"]
    cannot = [way["told"] is None for way in ways]
    assert cannot == sorted(cannot)
    assert all("Cannot be gone: " in way["lines"][0] for way in ways if way["told"] is None)


def test_what_is_fitted_is_one_change_of_the_text(visitor: Visitor) -> None:
    """A pack typed as fitted is in the text, with the point for its comma, and nothing else is."""
    unit = visitor.demo("feed-box")
    before = visitor.text(unit)
    visitor.post(
        f"/unit/{unit}/edit",
        act="add",
        back="set",
        place=json.dumps(["settings", "thrust shim", "fitted"]),
        typed="0,35",
    )
    after = visitor.text(unit)
    assert after.replace(", fitted: 0.35", "") == before
    assert "0.0138 in" in words(visitor.read(f"/unit/{unit}/set"))


@pytest.mark.parametrize("typed", HOSTILE)
@pytest.mark.parametrize("place", [["fitted"], ["made from", 0], ["made from", 4]])
def test_what_goes_wrong_in_a_box_is_told(
    visitor: Visitor, typed: str, place: list[str | int]
) -> None:
    """Whatever is typed for a pack or a piece of stock is still in its box, or in the text."""
    unit = visitor.demo("feed-box")
    answer = visitor.client.post(
        f"/unit/{unit}/edit",
        data={
            "act": "set" if place[-1] == 0 else "add",
            "back": "set",
            "place": json.dumps(["settings", "thrust shim", *place]),
            "typed": typed,
        },
        headers={"origin": str(visitor.client.base_url)},
    )
    assert answer.status_code in (200, 422)
    assert "<script>alert" not in answer.text
    if typed.replace(",", ".") not in visitor.text(unit):
        assert "Not kept" in answer.text
        # what cannot be seen is in no page either: XML 1.0, production 2, Char
        assert not typed.isprintable() or html.escape(typed[:50]) in answer.text


def test_a_wrong_pack_has_its_reason_beside_it(visitor: Visitor) -> None:
    """What is wrong with a box is said at that box."""
    unit = visitor.demo("feed-box")
    place = json.dumps(["settings", "thrust shim", "fitted"])
    page = visitor.post(f"/unit/{unit}/edit", act="add", back="set", place=place, typed="12 stone")
    assert 'aria-describedby="setting-1-fitted-why"' in page
    assert 'id="setting-1-fitted-why"' in page


def test_what_stands_in_the_way_leads_to_its_box(visitor: Visitor) -> None:
    """A text that cannot be answered says why, with the way to the box."""
    unit = visitor.begin(demos.text("feed-box").replace(b"0.50", b"0.5 stone", 1))
    page = visitor.read(f"/unit/{unit}/set/chance")
    assert "Nothing can be said yet" in page
    text = demos.text("feed-box").decode()
    size = re.search(r"length: [\d.]+", text)
    if size is not None:
        unit = visitor.begin(text.replace(size[0], "length: 12 stone", 1))
        assert f"/unit/{unit}/measure/" in visitor.read(f"/unit/{unit}/set/chance")


def test_a_pack_tried_on_writes_nothing(visitor: Visitor) -> None:
    """Trying tells what every check would read, and the text stays as it was."""
    unit = visitor.demo("feed-box")
    before = visitor.text(unit)
    page = words(visitor.read(f"/unit/{unit}/set/tried?pack-1=0,40"))
    answer = try_on(demos.text("feed-box"), ["thrust shim: 0.40"]).answer
    assert answer is not None
    for check in answer.checks:
        told = should(check, figures("mm", None))
        assert told is not None
        assert f"{told.typed}; {told.band}" in page
    assert f"{hundred(answer.chance_as_it_is or 0.0)} in 100" in page
    assert visitor.text(unit) == before


def test_a_pack_tried_on_can_be_written_in(visitor: Visitor) -> None:
    """What was tried and is good is written in as fitted by one press, again and again."""
    unit = visitor.demo("feed-box")
    for typed in ("0,40", "0.45"):
        visitor.post(f"/unit/{unit}/write-in", part="thrust shim", typed=typed, back="set")
        assert f"fitted: {typed.replace(',', '.')}" in visitor.text(unit)


def test_a_nut_tried_on_is_written_where_a_nut_is_set(visitor: Visitor) -> None:
    """What a nut is set to stands among the parts."""
    unit = visitor.demo("headstock")
    visitor.post(f"/unit/{unit}/write-in", part="nut", typed="0.010", back="set")
    assert "set to: 0.010}" in visitor.text(unit)


@pytest.mark.parametrize("typed", HOSTILE)
def test_what_is_wrong_with_a_pack_to_be_tried_is_told(visitor: Visitor, typed: str) -> None:
    """Whatever is typed to be tried, the page answers in words."""
    unit = visitor.demo("feed-box")
    page = visitor.client.get(f"/unit/{unit}/set/tried", params={"pack-1": typed})
    assert page.status_code == 200
    assert "<script>alert" not in page.text
    good = {"0,35", "0"}
    assert ("call again" in page.text) == (typed not in good)


def test_what_is_wanted_can_be_changed(visitor: Visitor) -> None:
    """What is wanted is a box; emptied, what is usual is offered again."""
    unit = visitor.demo("feed-box")
    name = re.search(r"needs:\n +([\w ]+):", visitor.text(unit))
    assert name is not None
    fields = {"name": name[1], "back": "set", "act": "set"}
    visitor.send(f"/unit/{unit}/want", {**fields, "typed": "0,03 to 0,08"})
    assert "want: 0.03 to 0.08" in visitor.text(unit)
    assert "0.03 to 0.08 mm" in words(visitor.read(f"/unit/{unit}/set/needs"))
    visitor.send(f"/unit/{unit}/want", {**fields, "typed": ""})
    assert "want:" not in visitor.text(unit)


def test_what_is_offered_can_be_made_ones_own(visitor: Visitor) -> None:
    """Where nothing is written, all that is offered is written down with the one change."""
    text = demos.text("headstock").decode()
    begin, rest = text.split("needs:\n", 1)
    unit = visitor.begin(begin + rest.split("\n", 1)[1])
    page = visitor.read(f"/unit/{unit}/set/needs")
    found = re.search(r'name="name" value="([^"]+)"', page)
    assert found is not None
    assert words(page).count("as you wrote") == 1  # in the head alone
    visitor.post(
        f"/unit/{unit}/want", name=html.unescape(found[1]), typed="0.004 to 0.012", back="set"
    )
    assert "want: 0.004 to 0.012" in visitor.text(unit)
    assert "0.004 to 0.012 mm" in words(visitor.read(f"/unit/{unit}/set/needs"))


@pytest.mark.parametrize("typed", HOSTILE)
def test_whatever_is_wanted_is_answered(visitor: Visitor, typed: str) -> None:
    """Whatever is typed as wanted is kept or still there, and nothing breaks."""
    unit = visitor.demo("feed-box")
    name = re.search(r"needs:\n +([\w ]+):", visitor.text(unit))
    assert name is not None
    answer = visitor.client.post(
        f"/unit/{unit}/want",
        data={"name": name[1], "act": "set", "typed": typed, "back": "set"},
        headers={"origin": str(visitor.client.base_url)},
    )
    assert answer.status_code in (200, 422)
    assert "<script>alert" not in answer.text


def test_readings_taken_so_far_stand_beside(visitor: Visitor) -> None:
    """What was read stands beside what should be read; what was struck out does not."""
    unit = visitor.demo("feed-box")
    note(visitor.store, unit, Reading("end float", "0.11", "dial indicator"))
    wrong = note(visitor.store, unit, Reading("end float", "7.77"))
    strike_out(visitor.store, unit, wrong.number, "mistyped")
    page = words(visitor.read(f"/unit/{unit}/set/checks"))
    assert "0.11 by dial indicator" in page
    assert "READ 0.11 mm" in page
    assert "7.77" not in page


def test_plots_have_words_for_who_cannot_see_them(visitor: Visitor) -> None:
    """A plot says its title and its key as text too."""
    page = visitor.read(f"/unit/{visitor.demo('feed-box')}/set/plots/setting")
    (told,) = re.findall(r'<figcaption class="out-of-sight">([^<]+)', page)
    assert told.startswith("End float of shaft against thrust shim. ")
    assert "wanted: 0.05 to 0.15 mm" in told


def test_strips_are_drawn_to_scale() -> None:
    """A band lies on its axis where its figures say."""
    drawn = strip((0.02, 0.05), (0.0, 0.03, 0.06), "mm", "told")
    at = {tick.figure: float(tick.at) for tick in drawn.ticks}
    rate = (at["0.06"] - at["0"]) / 0.06 if "0.06" in at else (at["0.04"] - at["0"]) / 0.04
    assert drawn.wanted is not None
    # half of a thousandth, to which a place is written
    assert float(drawn.wanted[0]) - at["0"] == pytest.approx(0.02 * rate, abs=2e-3)
    assert float(drawn.high) - float(drawn.low) == pytest.approx(0.06 * rate, abs=2e-3)
    assert LEFT <= float(drawn.low) < float(drawn.high) <= RIGHT
    assert rise(0.56, 0.78).gain == "44"
    layers = stack([0.25, 0.10], "told").layers
    # the thicker one lies below and is two and a half times as high: 0.25 / 0.10
    assert float(layers[1].high) / float(layers[0].high) == pytest.approx(2.5, rel=1e-3)
    assert float(layers[1].y) > float(layers[0].y)


def begun(page: Page, name: str) -> str:
    """Begin a demo and give the path of its unit."""
    page.get_by_role("button", name=name, exact=True).click()
    page.wait_for_url("**/unit/1/measure")
    return page.url.removesuffix("measure")


def test_the_usual_look_takes_the_place_of_the_first(page: Page) -> None:
    """The page is there at once; its figures are a first look, then the usual ones."""
    base = begun(page, "feed box")
    with page.expect_response(lambda r: "set/chance?look=full" in r.url):
        page.goto(base + "set")
    expect(page.locator("#chance .headline")).to_have_text("99")
    expect(page.get_by_text("first look")).to_have_count(0)
    expect(page.locator(".later")).to_have_count(0)
    expect(page.locator("svg.strip-plot").first).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 1280


def test_a_pack_is_tried_by_keyboard(page: Page) -> None:
    """A thickness typed and Enter pressed tells what would be read, and can be written in."""
    base = begun(page, "feed box")
    page.goto(base + "set")
    box = page.get_by_role("textbox", name="thrust shim", exact=True)
    box.focus()
    page.keyboard.type("0.30")
    page.keyboard.press("Enter")
    write_in = page.get_by_role("button", name="Write in: 0.30 of thrust shim is fitted")
    expect(write_in).to_be_visible()
    expect(page.locator("#tried")).to_contain_text("in 100")
    page.wait_for_load_state("networkidle", timeout=60_000)
    expect(page.get_by_role("textbox", name="thrust shim", exact=True)).to_have_value("0.30")
    write_in.click()
    expect(page.get_by_label("in now, thickness")).to_have_value("0.30")


def test_it_fits_a_phone_and_prints(page: Page) -> None:
    """Nothing slides sideways at 360 pixels, and on paper there are figures and no buttons."""
    base = begun(page, "feed box")
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(base + "set")
    expect(page.locator(".later")).to_have_count(0)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.emulate_media(media="print")
    expect(page.locator("#chance .headline")).to_be_visible()
    expect(page.locator(".ways").first).to_be_visible()
    expect(page.locator("#try")).to_be_hidden()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_a_pack_to_be_tried_is_named_once_and_has_to_be_known(visitor: Visitor) -> None:
    """What is wrong stands behind the name of its setting, with a way out that is taken."""
    unit = visitor.demo("feed-box")
    page = words(visitor.read(f"/unit/{unit}/set/tried?pack-1=-0.1"))
    assert "thrust shim: '-0.1': no pack is thinner than nothing" in page
    page = words(visitor.read(f"/unit/{unit}/set/tried?pack-1=thin"))
    assert "or: not known" not in page
