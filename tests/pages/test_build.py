"""Build: the derived order one step a page, its hold points, and what the journal has of them."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, ClassVar

import pytest
from playwright.sync_api import Browser, Page
from starlette.testclient import TestClient
from tests.pages.visiting import HOME, KEY, PORT, HereDesk, Visitor, open_dryfit

from dryfit.app.pages import tasks
from dryfit.app.pages.guard import Guard
from dryfit.app.pages.site import site
from dryfit.app.usecases import demos
from dryfit.document.read import read_document
from dryfit.model.rules import check as rules
from dryfit.store.journal import Reading, Step, journal
from dryfit.store.opening import Store, open_store
from dryfit.store.readings import export
from dryfit.store.revisions import newest

FAST = ("feed-box", "lay-shaft", "headstock", "bench-drill")
"""Demos whose order and answers take no more than a second or so."""


class KeptDesk(HereDesk):
    """Works each thing out once for all tests here, and knows what it has worked out."""

    answers: ClassVar[dict[Any, Any]] = {}

    async def ask(self, name: str, data: bytes, *arguments: Any, **_: Any) -> Any:
        """Do it now, if it was not done before."""
        key = (name, data, arguments)
        if key not in self.answers:
            self.answers[key] = await super().ask(name, data, *arguments)
        return self.answers[key]

    def known(self, name: str, data: bytes, *arguments: Any) -> Any | None:
        """Give what was worked out."""
        return self.answers.get((name, data, arguments))


@pytest.fixture
def visitor(store: Store) -> Iterator[Visitor]:
    """Visit pages whose answers are kept."""
    app = Guard(site(store, KeptDesk()), key=KEY, port=PORT)
    with TestClient(app, base_url=HOME) as client:
        client.get("/", params={"key": KEY})
        yield Visitor(client, store)


HOSTILE = (
    "",
    "?",
    "abc",
    "<script>alert(1)</script>",
    "9" * 100_000,
    "-0.1",
    "0.1 0.2",
    "0.1 kg",
    "1,2,3",
    "0.1 mm {",
    "nought\u202e",
    "12.5 N",
    "\x00",
)


def steps(visitor: Visitor, unit: int) -> Any:
    """Give all steps as data."""
    return visitor.data(f"/unit/{unit}/build/steps")


def number_of(visitor: Visitor, unit: int, title: str) -> str:
    """Find the number of a step."""
    marks = steps(visitor, unit)["marks"]
    return next(str(mark["number"]) for mark in marks if mark["title"] == title)


def post(visitor: Visitor, unit: int, act: str, status: int = 200, **fields: str) -> str:
    """Post a form of the Build pages."""
    return visitor.post(f"/unit/{unit}/build-{act}", status, back="build", **fields)


def wrote(visitor: Visitor, unit: int) -> list[Reading | Step]:
    """Give what the journal has."""
    return [entry.wrote for entry in journal(visitor.store, unit)]


def test_the_page_is_there_at_once_and_says_what_it_waits_for(visitor: Visitor) -> None:
    """The order takes seconds: meanwhile the page says so, and brings it when it is there."""
    KeptDesk.answers.clear()
    unit = visitor.demo("feed-box")
    for at in ("", "/3"):
        page = visitor.read(f"/unit/{unit}/build{at}")
        assert "order is being derived" in page
        assert re.search(r'data-later="/unit/1/build/ste', page)


def test_all_steps_with_stops_chances_and_hold_points(visitor: Visitor) -> None:
    """The list tells each step, where builds stop, and past which there is no easy way back."""
    unit = visitor.demo("feed-box")
    page = visitor.read(f"/unit/{unit}/build/steps")
    marks = steps(visitor, unit)["marks"]
    assert [mark["title"] for mark in marks if mark["hold"]] == ["Read shim pack", "Read end float"]
    assert "About one build in" in page
    assert "Point of no return: once it is opened again &#39;gasket&#39; is renewed" in page
    assert [mark["state"] for mark in marks] == ["now", *["to come"] * 6]
    assert "Begin with step 1" in page


def test_a_step_says_all_it_takes(visitor: Visitor) -> None:
    """Picture, last chance, tools, how, what to mind, force, heat, care: on one page."""
    unit = visitor.demo("bevel-box")
    page = visitor.read(f"/unit/{unit}/build/step/6")
    for told in (
        "Press on: outer bearing",
        "<svg",
        "Last chance to see",
        "Tools: press, or a sleeve on the inner ring",
        "Press with about",
        "warm it to about",
        "Local rules come first",
    ):
        assert told in page


def typed_in(mm: float, system: str) -> str:
    """Type a length as its document has it."""
    return f"{mm / 25.4:.4f}" if system == "inch" else f"{mm:.3f}"


def _answer(name: str) -> Any:
    """Answer a demo with as many draws as usual, once."""
    key = ("choose", demos.text(name), ())
    if key not in KeptDesk.answers:
        KeptDesk.answers[key] = tasks.choose(demos.text(name))
    return KeptDesk.answers[key]


def test_a_reading_far_out_is_kept_and_named_beside_the_box(visitor: Visitor) -> None:
    """900 typed for 0.09 stays as typed, and the page says which reading spoils the mean."""
    unit = visitor.demo("feed-box")
    at = number_of(visitor, unit, "Read end float")
    for typed in ("0.09", "900"):
        post(visitor, unit, "reading", check="end float", typed=typed, at=at)
    assert [one.typed for one in wrote(visitor, unit) if isinstance(one, Reading)] == [
        "0.09",
        "900",
    ]
    told = visitor.read(f"/unit/{unit}/build/hold/{at}")
    assert "was read as 900, and 0.07 to 0.14 mm is expected: far out" in told
    assert "strike it out or type it again" in told
    notes = visitor.data(f"/unit/{unit}/set/chance?look=full")["notes"]
    assert [one["to"] for one in notes if "far out" in one["found"]["message"]] == [
        f"/unit/{unit}/build"
    ]


@pytest.mark.parametrize("name", FAST)
def test_every_hold_point_read_as_expected_fits_and_far_off_is_out(
    visitor: Visitor, name: str
) -> None:
    """What the answer expects fits; five bands more is out and more, with what would make it so.

    Where what is expected is not what is wanted, the verdict has to say so instead.
    """
    system = read_document(demos.text(name)).rebuild.system
    for check in _answer(name).checks:
        unit = visitor.demo(name)
        at = number_of(visitor, unit, f"Read {check.name}")
        band = check.high_mm - check.low_mm
        wanted = check.wanted
        inside = wanted is None or (
            (wanted.low_mm or 0) <= check.expected_mm <= (wanted.high_mm or 1e9)
        )
        expected = typed_in(check.expected_mm, system)
        post(visitor, unit, "reading", check=check.name, typed=expected, at=at)
        found = visitor.data(f"/unit/{unit}/build/hold/{at}")
        assert found["sort"] == ("fits" if inside else "out")
        (entry,) = journal(visitor.store, unit)
        post(visitor, unit, "strike", entry=str(entry.number), why="misread", at=at)
        far = typed_in(check.high_mm + 5 * band + 1, system)
        post(visitor, unit, "reading", check=check.name, typed=far, at=at)
        found = visitor.data(f"/unit/{unit}/build/hold/{at}")
        assert (found["sort"], found["side"]) == ("out", "more")
        assert found["more"]
        page = visitor.read(f"/unit/{unit}/build/hold/{at}?look=usual")
        assert "It reads more" in page
        assert "It reads less" not in page


def test_a_verdict_says_itself_three_times(visitor: Visitor) -> None:
    """Word, mark and kind of line: it survives a print in one colour."""
    unit = visitor.demo("feed-box")
    at = number_of(visitor, unit, "Read end float")
    post(visitor, unit, "reading", check="end float", typed="0.30", at=at)
    page = visitor.read(f"/unit/{unit}/build/hold/{at}")
    assert 'class="call out"' in page
    assert "#proud" in page
    assert ">Out<" in page.replace("</svg>\nOut", "</svg>>Out<")
    assert "0.15 mm more than wanted" in page


def test_a_reading_is_kept_as_typed_with_what_and_how(visitor: Visitor) -> None:
    """0,03 by a test indicator, cold: point for comma, the rest as it was typed."""
    unit = visitor.demo("feed-box")
    fields = {"instrument": "test indicator", "state": "cold, cover by the fingers"}
    post(visitor, unit, "reading", 200, check="end float", typed=" 0,03 ", at="7", **fields)
    (entry,) = wrote(visitor, unit)
    assert entry == Reading("end float", "0.03", "test indicator", "cold, cover by the fingers")


def test_a_balance_shows_newtons_and_its_text_can_be_read(visitor: Visitor) -> None:
    """6.5 means 6.5 N; a text with it, and with the balance named, has no slip in it."""
    unit = visitor.demo("quill")
    post(visitor, unit, "reading", check="cord", typed="6,5", at="13", instrument="old balance")
    (entry,) = wrote(visitor, unit)
    assert entry == Reading("cord", "6.5 N", how={"with": "old balance"})
    document = read_document(export(visitor.store, unit).text)
    found = [*document.findings, *rules(document.rebuild)]
    assert not [one for one in found if one.level == "stop"]


def test_a_length_of_a_balance_is_refused_beside_its_box(visitor: Visitor) -> None:
    """A cord pull shows a force: 0.05 mm is told so, and what to type."""
    unit = visitor.demo("quill")
    page = post(visitor, unit, "reading", 422, check="cord", typed="0.05 mm", at="13")
    assert "shows a force" in page
    assert wrote(visitor, unit) == []


def test_a_reading_struck_out_stays_to_be_read_and_counts_no_more(visitor: Visitor) -> None:
    """A false reading is not wiped out: it stands there with its reason, and is not judged."""
    unit = visitor.demo("feed-box")
    at = number_of(visitor, unit, "Read end float")
    post(visitor, unit, "reading", check="end float", typed="0.30", at=at)
    (entry,) = journal(visitor.store, unit)
    page = post(visitor, unit, "strike", 422, entry=str(entry.number), why=" ", at=at)
    assert "No reason was given" in page
    post(visitor, unit, "strike", entry=str(entry.number), why="dial on the cover", at=at)
    page = visitor.read(f"/unit/{unit}/build/step/{at}")
    assert "struck out: dial on the cover" in page
    assert visitor.data(f"/unit/{unit}/build/hold/{at}")["sort"] == ""


def test_three_readings_are_told_by_their_mean(visitor: Visitor) -> None:
    """0.09, 0.10 and 0.11 are 0.10; after another step a new run begins."""
    unit = visitor.demo("feed-box")
    at = number_of(visitor, unit, "Read end float")
    for typed in ("0.09", "0.10", "0.11"):
        post(visitor, unit, "reading", check="end float", typed=typed, at=at)
    assert visitor.data(f"/unit/{unit}/build/hold/{at}")["value"].startswith("0.10 mm")
    post(visitor, unit, "done", step="read end float", at=at, note="all right")
    post(visitor, unit, "reading", check="end float", typed="0.12", at=at)
    assert visitor.data(f"/unit/{unit}/build/hold/{at}")["value"].startswith("0.12 mm (")


def test_a_reading_does_not_change_what_it_is_judged_by(visitor: Visitor) -> None:
    """The verdict needs no new answer: what the check should read is the same before and after."""
    unit = visitor.demo("feed-box")
    at = number_of(visitor, unit, "Read end float")
    before = visitor.data(f"/unit/{unit}/build/hold/{at}")["should"]
    post(visitor, unit, "reading", check="end float", typed="0.30", at=at)
    assert visitor.data(f"/unit/{unit}/build/hold/{at}")["should"] == before


def test_steps_done_are_in_the_journal_and_the_next_is_shown(visitor: Visitor) -> None:
    """A step that is done stays done, with its note, and the build goes on with the next."""
    unit = visitor.demo("feed-box")
    sign = visitor.data(f"/unit/{unit}/build/step/2")["go"]["sign"]
    post(visitor, unit, "done", step="thrust shim", at="2", sign=sign, next="3", note="0.35, clean")
    (entry,) = wrote(visitor, unit)
    assert isinstance(entry, Step)
    assert (entry.name, entry.note, entry.how["of"]) == ("thrust shim", "0.35, clean", "build")
    marks = steps(visitor, unit)["marks"]
    assert [mark["state"] for mark in marks][:3] == ["now", "done", "to come"]
    assert "0.35, clean" in visitor.read(f"/unit/{unit}/build/steps")
    post(visitor, unit, "done", step="thrust shim", at="2", sign=sign, next="3")
    assert len(wrote(visitor, unit)) == 1


def test_a_step_not_done_after_all_is_struck_out_with_the_reason(visitor: Visitor) -> None:
    """Taken off again: it is open once more, and the journal says why."""
    unit = visitor.demo("feed-box")
    post(visitor, unit, "done", step="shaft", at="3")
    page = post(visitor, unit, "undone", 422, step="shaft", at="3", why="")
    assert "No reason was given" in page
    post(visitor, unit, "undone", step="shaft", at="3", why="burr found")
    assert steps(visitor, unit)["done"] == 0
    assert [entry.struck for entry in journal(visitor.store, unit)] == [True, False]


def test_going_on_without_a_fit_takes_a_reason(visitor: Visitor) -> None:
    """A hold point holds: past a reading that does not fit one goes only by saying why."""
    unit = visitor.demo("feed-box")
    at = number_of(visitor, unit, "Read end float")
    assert visitor.data(f"/unit/{unit}/build/hold/{at}")["go"]["doubtful"]
    page = post(visitor, unit, "done", 422, step="read end float", at=at, doubtful="1", note="")
    assert "say in a word why you go on all the same" in page
    post(visitor, unit, "reading", check="end float", typed="0.10", at=at)
    assert not visitor.data(f"/unit/{unit}/build/hold/{at}")["go"]["doubtful"]


def test_a_change_of_the_text_that_changes_the_order_is_told(visitor: Visitor) -> None:
    """Steps were done by another order: it says so, and names what is skipped and what is gone."""
    unit = visitor.demo("feed-box")
    sign = visitor.data(f"/unit/{unit}/build/step/1")["go"]["sign"]
    for step in ("thrust shim", "shaft", "gasket", "cover"):
        post(visitor, unit, "done", step=step, at="2", sign=sign)
    assert steps(visitor, unit)["changed"]["since"] == ""
    place = json.dumps(["checks", "shim pack"])
    visitor.post(f"/unit/{unit}/edit", act="remove", place=place, back="build")
    assert "read shim pack" not in visitor.read(f"/unit/{unit}/build/steps")
    changed = steps(visitor, unit)["changed"]
    assert changed["since"] == "cover"
    assert changed["gone"] == []
    post(visitor, unit, "done", step="a ring of old", at="2", sign="another")
    assert steps(visitor, unit)["changed"]["gone"] == ["a ring of old"]
    assert "The order is another now" in visitor.read(f"/unit/{unit}/build/step/2")


def test_where_you_were_after_a_restart(visitor: Visitor, tmp_path: Path) -> None:
    """Dryfit is closed and opened in the middle: the same steps are done, the same one is next."""
    unit = visitor.demo("feed-box")
    for step in ("read shim pack", "thrust shim", "shaft"):
        post(visitor, unit, "done", step=step, at="2", note="by hand")
    visitor.store.close()
    again = open_store(tmp_path / "home")
    app = Guard(site(again, KeptDesk()), key=KEY, port=PORT)
    with TestClient(app, base_url=HOME) as client:
        client.get("/", params={"key": KEY})
        after = Visitor(client, again)
        assert (steps(after, unit)["done"], steps(after, unit)["now"]) == (3, "4")
    again.close()


@pytest.mark.parametrize("typed", HOSTILE)
def test_what_is_no_reading_is_refused_beside_its_box(visitor: Visitor, typed: str) -> None:
    """Nothing, words, minus, a wrong unit, 100 000 figures: told, kept in the box, not kept."""
    unit = visitor.demo("feed-box")
    steps(visitor, unit)
    page = post(visitor, unit, "reading", 422, check="end float", typed=typed, at="7")
    assert "Not kept" in page
    assert "<script>alert" not in page
    assert wrote(visitor, unit) == []


def test_what_was_refused_stands_in_its_box_again(visitor: Visitor) -> None:
    """Nothing that was typed is lost: reading and instrument are there to be put right."""
    unit = visitor.demo("feed-box")
    steps(visitor, unit)
    fields = {"typed": "0.1 0.2", "instrument": "test indicator"}
    page = post(visitor, unit, "reading", 422, check="end float", at="7", **fields)
    assert 'value="0.1 0.2"' in page
    assert 'value="test indicator"' in page
    assert page.index('value="0.1 0.2"') < page.index("Not kept")


@pytest.mark.parametrize("box", ["instrument", "state"])
@pytest.mark.parametrize("words", ["x" * 300, "a\x00b", "'; by 0.3 +/- 4: {", "#", "] , ["])
def test_odd_words_beside_a_reading_do_no_harm(visitor: Visitor, box: str, words: str) -> None:
    """Words of any sort are refused beside the box, or kept, and the text can still be read."""
    unit = visitor.demo("feed-box")
    answer = visitor.client.post(
        f"/unit/{unit}/build-reading",
        data={"check": "end float", "typed": "0.1", "back": "build", "at": "7", box: words},
        headers={"origin": HOME},
    )
    assert answer.status_code in (200, 422)
    document = read_document(export(visitor.store, unit).text)
    assert not [one for one in document.findings if one.level == "stop"]


@pytest.mark.parametrize("words", ["x" * 100_000, "a\x00b", "\x1b[31m"])
@pytest.mark.parametrize(
    ("act", "box"), [("done", "note"), ("done", "step"), ("undone", "why"), ("strike", "why")]
)
def test_odd_words_in_the_other_boxes_are_told(
    visitor: Visitor, act: str, box: str, words: str
) -> None:
    """Too long, or what cannot be seen: refused with the reason, nothing changed."""
    unit = visitor.demo("feed-box")
    post(visitor, unit, "done", step="shaft", at="3")
    post(visitor, unit, "reading", check="end float", typed="0.1", at="7")
    number = str(journal(visitor.store, unit)[1].number)
    fields = {"step": "cover" if act == "done" else "shaft", "entry": number, "at": "3", box: words}
    page = post(visitor, unit, act, 422, **fields)
    assert "Not kept" in page
    assert [entry.struck for entry in journal(visitor.store, unit)] == [False, False]


@pytest.mark.parametrize("at", ["0", "8", "99999999999", "-1", "abc", "٣", "<b>", "1.5"])
def test_a_step_that_is_not_there(visitor: Visitor, at: str) -> None:
    """A wrong number says that there is no such step, and leads to all of them."""
    unit = visitor.demo("feed-box")
    assert "There is no such step" in visitor.read(f"/unit/{unit}/build/step/{at}")
    assert visitor.data(f"/unit/{unit}/build/hold/{at}")["check"] == ""


@pytest.mark.parametrize("number", ["0", "-3", "77", "x", "9" * 40, ""])
def test_only_what_is_there_can_be_struck_out(visitor: Visitor, number: str) -> None:
    """A number that no entry has is told."""
    unit = visitor.demo("feed-box")
    assert "Not kept" in post(visitor, unit, "strike", 422, entry=number, why="so", at="7")


def test_a_reading_of_no_check_is_refused(visitor: Visitor) -> None:
    """A check that was taken out of the text meanwhile has no readings any more."""
    unit = visitor.demo("feed-box")
    page = post(visitor, unit, "reading", 422, check="no such", typed="0.1", at="7")
    assert "There is no check &#39;no such&#39;" in page


def test_a_text_that_stops_tells_why_there_is_no_order(visitor: Visitor) -> None:
    """Where the text has to be put right first, the findings stand where the steps would."""
    unit = visitor.begin("dryfit: 1\nsizes in: mm\nlines:\n  shaft: {}\n")
    page = visitor.read(f"/unit/{unit}/build/steps")
    assert "No order can be told yet" in page
    assert "Way out" in page


def test_where_a_size_is_not_known_no_verdict_is_made_up(visitor: Visitor) -> None:
    """The word is Not known, with the size to be measured; the reading is kept all the same."""
    text = demos.text("feed-box").decode()
    unit = visitor.begin(
        text.replace("148.70 by caliper", "not known").replace("148.70", "not known")
    )
    at = number_of(visitor, unit, "Read end float")
    post(visitor, unit, "reading", check="end float", typed="0.10", at=at)
    found = visitor.data(f"/unit/{unit}/build/hold/{at}")
    assert (found["sort"], found["word"]) == ("unknown", "Not known")
    assert "until this is measured" in found["told"]
    page = visitor.read(f"/unit/{unit}/build/hold/{at}?look=usual")
    assert 'class="call unknown"' in page
    assert len(wrote(visitor, unit)) == 1


TAB = """() => {
  const here = document.activeElement;
  return here.matches("a, button, input, summary") ? here.innerText || here.name || "" : "";
}"""
"""What has the focus: its words, or the name of the box; nothing while the page itself has it."""


def tab_to(page: Page, words: str) -> None:
    """Go on by the tab key until what has the focus says so."""
    for _ in range(80):
        page.keyboard.press("Tab")
        if words in page.evaluate(TAB):
            return
    pytest.fail(f"'{words}' was not reached by the tab key")


def test_a_whole_build_by_keyboard_on_a_phone(browser: Browser, tmp_path: Path) -> None:
    """Seven steps and two readings with one thumb or none; closed and opened in the middle.

    What the checks should read is worked out by hand in the demo: float 0.10, pack 0.35.
    """
    running = open_dryfit(tmp_path / "home")
    tab = browser.new_context(viewport={"width": 360, "height": 740}).new_page()
    tab.goto(running.address)
    tab.get_by_role("button", name="feed box", exact=True).click()
    tab.goto(f"{running.base}/unit/1/build")
    tab.get_by_text("Begin with step 1").wait_for()
    assert tab.evaluate("document.documentElement.scrollWidth") <= 360
    tab_to(tab, "Begin with step 1")
    tab.keyboard.press("Enter")
    readings = {"1": "0.350", "7": "0.10"}
    for at in ("1", "2", "3", "4", "5", "6", "7"):
        if at == "4":
            running.close()
            running = open_dryfit(tmp_path / "home")
            tab.goto(running.address)
            tab.goto(f"{running.base}/unit/1/build")
            tab.get_by_text("3 of 7 steps done").wait_for()
            tab_to(tab, "Go on with step 4")
            tab.keyboard.press("Enter")
        tab.get_by_text(f"Step {at} of 7").wait_for()
        tab.wait_for_load_state("load")
        assert tab.evaluate("document.documentElement.scrollWidth") <= 360
        assert _small_targets(tab) == []
        if at in readings:
            tab.get_by_text("nine times in ten").wait_for()
            tab_to(tab, "typed")
            tab.keyboard.type(readings[at])
            tab.keyboard.press("Enter")
            tab.locator(".call .verdict", has_text="Fits").wait_for()
        tab_to(tab, "Done")
        tab.keyboard.press("Enter")
    tab.get_by_text("All steps done").wait_for()
    running.close()


def _small_targets(page: Page) -> list[str]:
    """Name what can be pressed or typed in on a step that is less than 64 points high."""
    spots = page.locator("main .button, main input:not([type=hidden]), main summary, main .bar a")
    seen = [spot for spot in spots.all() if spot.is_visible()]
    small = [spot for spot in seen if (spot.bounding_box() or {"height": 99})["height"] < 63.5]
    return [spot.evaluate("e => e.outerHTML")[:80] for spot in small]


def test_a_first_look_gives_way_to_the_usual_number(page: Page) -> None:
    """What should be read is there soon, as a first look, then with all its draws.

    A note that is being typed meanwhile is left alone.
    """
    page.get_by_role("button", name="lay shaft", exact=True).click()
    page.goto(page.url.replace("measure", "build/4"))
    page.get_by_text("nine times in ten").wait_for()
    page.get_by_label("To go on all the same").fill("no dial here")
    page.get_by_text("(first look)").wait_for(state="detached")
    assert page.get_by_text("nine times in ten").count() == 1
    assert page.get_by_label("To go on all the same").input_value() == "no dial here"
    assert page.evaluate("document.activeElement.name") == "note"


def test_text_is_the_newest(visitor: Visitor) -> None:
    """Steps and readings leave the text of the unit as it is."""
    unit = visitor.demo("feed-box")
    post(visitor, unit, "done", step="shaft", at="3")
    assert newest(visitor.store, unit).text.encode() == demos.text("feed-box")
