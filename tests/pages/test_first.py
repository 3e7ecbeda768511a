"""The first page: units to go on with, kinds to point at, demos, and what is brought in."""

import zipfile
from io import BytesIO

import pytest
from playwright.sync_api import Page
from tests.pages.visiting import HOME, Visitor
from tests.store.samples import TEXT, telephone_jpeg

from dryfit.app.words.kinds import KINDS
from dryfit.store.journal import Step, journal, note
from dryfit.store.parcel import pack
from dryfit.store.photographs import add_photograph, pictures
from dryfit.store.readings import as_it_stands, last_runs
from dryfit.store.revisions import rebuilds


def brought(data: bytes, name: str = "box.yaml") -> dict[str, tuple[str, bytes]]:
    """Bring a file as the form does."""
    return {"brought": (name, data)}


def zipped(files: dict[str, bytes]) -> bytes:
    """Zip files under any names."""
    held = BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return held.getvalue()


def test_a_demo_is_one_press_away(page: Page) -> None:
    """Somebody who only wants to look has a worked example after one press."""
    page.get_by_role("button", name="lay shaft", exact=True).click()
    page.wait_for_url("**/unit/1/measure")


def test_the_question_stands_first(visitor: Visitor) -> None:
    """The first page asks what is on the bench, and says in a line what the program does."""
    shown = visitor.read("/")
    assert "What is on your bench?" in shown
    assert "which shim to fit" in shown


def test_kinds_are_drawings_large_enough_for_a_finger(page: Page) -> None:
    """Each of six kinds is a half-section to point at: no link is smaller than 48 pixels."""
    for width in (1280, 360):
        page.set_viewport_size({"width": width, "height": 800})
        cards = page.locator(".kinds a")
        assert cards.count() == len(KINDS) == 6
        for n in range(6):
            box, drawn = cards.nth(n).bounding_box(), cards.nth(n).locator("svg").bounding_box()
            assert box is not None
            assert min(box["width"], box["height"]) >= 48
            assert drawn is not None
            assert drawn["height"] >= 100
        assert page.evaluate("document.documentElement.scrollWidth") == width


def test_a_kind_is_reached_by_keyboard_alone(page: Page) -> None:
    """Tab comes to each kind in its order, and Enter points at it."""
    names = [kind.name for kind in KINDS]
    reached: list[str] = []
    for _ in range(12):
        page.keyboard.press("Tab")
        text = page.evaluate("document.activeElement.querySelector('b')?.textContent ?? ''")
        if text in names:
            reached.append(text)
    assert reached == names
    page.locator(".kinds a").nth(3).focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/kind/spindle-pair")


def test_units_begun_stand_first_with_a_way_to_go_on(visitor: Visitor) -> None:
    """Who comes back sees the units begun, the one changed last on top, before the kinds."""
    visitor.demo("lay-shaft")
    visitor.demo("bevel-box")
    units = visitor.data("/")["units"]
    shown = visitor.read("/")
    titles = [unit["title"] for unit in units]
    places = [
        shown.index(words) for words in ("What is on your bench?", *titles, "Shaft between faces")
    ]
    assert places == sorted(places)
    assert [unit["number"] for unit in units] == [2, 1]
    assert all(unit["page"] == "measure" and unit["changed"] for unit in units)


def test_a_unit_of_which_nothing_is_measured_goes_on_with_the_strip(visitor: Visitor) -> None:
    """Who has not measured yet is led to the strip, not to empty boxes."""
    visitor.post("/together", kind="lay-shaft")
    (unit,) = visitor.data("/")["units"]
    assert unit["page"] == "strip"


def test_a_unit_can_be_begun_with_nothing(visitor: Visitor) -> None:
    """What is none of the six kinds is begun empty, at its text, where lines are typed."""
    assert "<textarea" in visitor.post("/begin", kind="blank")
    assert "lines: {}" in visitor.text(1)


def test_a_text_comes_in_byte_for_byte(visitor: Visitor) -> None:
    """A text that was mailed is a unit after one press, as it was written."""
    visitor.post("/bring-in", files=brought(TEXT))
    assert visitor.text(1).encode() == TEXT


def test_a_text_with_slips_comes_in_to_be_put_right(visitor: Visitor) -> None:
    """A slip in a text that was brought in is no reason to refuse it: it is shown in the unit."""
    visitor.post("/bring-in", files=brought(TEXT.replace(b"148.70", b"148,70")))
    assert rebuilds(visitor.store) == [1]


def test_a_zip_brings_its_photographs_and_its_journal(visitor: Visitor) -> None:
    """All that went with a unit comes back out of its zip."""
    unit = visitor.begin(TEXT)
    note(visitor.store, unit, Step("cover off", "two dots"))
    add_photograph(visitor.store, unit, telephone_jpeg(), shows="case")
    held = BytesIO()
    pack(visitor.store, unit, held)
    visitor.post("/bring-in", files=brought(held.getvalue(), "box.zip"))
    assert [one.shows for one in pictures(visitor.store, 2)] == ["case"]
    assert [entry.wrote.note for entry in journal(visitor.store, 2)] == ["two dots"]  # type: ignore[union-attr]


def test_what_was_lost_on_the_way_is_in_the_journal(visitor: Visitor) -> None:
    """A photograph that is missing in a zip is named for good, and the rest comes in."""
    listed = (
        '[{"photograph": "%s", "shows": "cover", "caption": "", "at": "2026-01-02T03:04:05+00:00"}]'
    )
    data = zipped({"rebuild.yaml": TEXT, "photographs.json": (listed % ("0" * 64)).encode()})
    shown = visitor.post("/bring-in", files=brought(data))
    (entry,) = journal(visitor.store, 1)
    assert "was left out" in shown
    assert isinstance(entry.wrote, Step)
    assert "'cover' was left out" in entry.wrote.note


HOSTILE = {
    "an empty file": (b"", "he file is empty"),
    "a zip with a way out of it": (zipped({"../rebuild.yaml": TEXT}), "rebuild.yaml"),
    "a zip of something else": (zipped({"report.docx": b"x"}), "report.docx"),
    "a zip that swells": (zipped({"rebuild.yaml": b"#" * 80_000_000}), "rebuild.yaml"),
    "a damaged zip": (zipped({"rebuild.yaml": TEXT})[:-30], "zip"),
    "the head of a zip alone": (b"PK\x03\x04", "zip"),
    "a picture": (b"\xff\xd8\xff\xe0" + bytes(range(256)) * 9, "is a photograph"),
    "a large photograph": (telephone_jpeg() + b"\0" * 3_000_000, "is a photograph"),
    "a print": (b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n", "a printed page"),
    "a program": (b"\x7fELF\2\1\1\0\0\0", "for a program to read"),
    "another text": (b"dear reader,\nplease find attached", "no line begins with"),
    "a text of two megabytes": (b"dryfit: 1\n#" + b"x" * 2_000_000, "1"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_what_cannot_come_in_is_told_beside_the_button(visitor: Visitor, name: str) -> None:
    """A file made to harm, or a wrong one, is refused with the reason; no unit is begun."""
    data, words = HOSTILE[name]
    shown = visitor.post("/bring-in", 422, files=brought(data), place='["bring-in"]')
    beside = shown.partition('id="bring-in"')[2].partition("</section>")[0]
    assert 'role="alert"' in beside
    assert words in beside
    assert "Way out:" in beside
    assert rebuilds(visitor.store) == []


def test_no_file_chosen_is_not_an_empty_file(visitor: Visitor) -> None:
    """A browser sends a file without a name where none was chosen: that is what is said."""
    end = "--end"
    body = "\r\n".join(
        [
            end,
            'Content-Disposition: form-data; name="place"',
            "",
            '["bring-in"]',
            end,
            'Content-Disposition: form-data; name="brought"; filename=""',
            "Content-Type: application/octet-stream",
            "",
            "",
            f"{end}--",
            "",
        ]
    )
    headers = {"origin": HOME, "content-type": "multipart/form-data; boundary=end"}
    answer = visitor.client.post("/bring-in", content=body, headers=headers)
    assert answer.status_code == 422
    assert "No file was chosen" in answer.text
    assert "is empty" not in answer.text


def test_a_kind_that_is_none_is_told(visitor: Visitor) -> None:
    """A stale address leads to a page with a way out, not to a failure."""
    assert "no kind of unit called" in visitor.read("/kind/steam-engine", 404)
    visitor.post("/begin", 422, demo="steam-engine")


def titles(visitor: Visitor, where: str = "units") -> list[str]:
    """List the titles on the first page."""
    return [unit["title"] for unit in visitor.data("/")[where]]


def test_units_of_one_kind_can_be_told_apart(visitor: Visitor) -> None:
    """The second and third of a kind have a number in their title, and nothing else is other."""
    for _ in range(3):
        visitor.post("/together", kind="lay-shaft")
    visitor.post("/begin", demo="feed-box")
    visitor.post("/begin", demo="feed-box")
    title = "A cluster of gears between two thrust washers"
    box = "Scarth Foss feed box"
    assert titles(visitor) == [f"{box} 2", box, f"{title} 3", f"{title} 2", title]
    assert visitor.text(3).replace(f"{title} 3", title) == visitor.text(1)
    assert "unit 3, " in visitor.read("/")


def test_a_text_brought_in_keeps_its_title(visitor: Visitor) -> None:
    """What comes from elsewhere stays byte for byte as it is; the list has its number."""
    for _ in range(2):
        visitor.post("/bring-in", files=brought(TEXT))
    assert visitor.text(2) == visitor.text(1) == TEXT.decode()
    assert {unit["told"].partition(",")[0] for unit in visitor.data("/")["units"]} == {
        "unit 1",
        "unit 2",
    }


def test_a_unit_put_away_is_off_the_list_and_comes_back_whole(visitor: Visitor) -> None:
    """It can be put away and taken out again as often as one likes: text and readings stay."""
    unit, other = visitor.demo("feed-box"), visitor.demo("lay-shaft")
    read = f"/unit/{unit}/build-reading"
    fields = {"check": "end float", "at": "7", "back": "build"}
    visitor.send(read, {**fields, "typed": "0.09"})
    text = visitor.text(unit)
    for _ in range(2):
        visitor.post(f"/unit/{unit}/put-away")
        page = visitor.post(f"/unit/{unit}/put-away")
        assert [one["number"] for one in visitor.data("/")["units"]] == [other]
        assert titles(visitor, "away") == ["Scarth Foss feed box"]
        assert "Take out again" in page
        visitor.read(f"/unit/{unit}/measure")  # a bookmark still leads to it
        visitor.post(f"/unit/{unit}/out-again")
        assert {one["number"] for one in visitor.data("/")["units"]} == {unit, other}
    visitor.send(read, {**fields, "typed": "0.10"})
    assert visitor.text(unit) == text
    held = as_it_stands(visitor.store, unit)
    assert [one.typed for one in last_runs(held.entries)["end float"]] == ["0.09", "0.10"]


def test_a_zip_of_a_unit_put_away_is_listed_where_it_is_brought_in(visitor: Visitor) -> None:
    """Who brings one in sees it, whatever was done with it elsewhere."""
    unit = visitor.demo("feed-box")
    visitor.post(f"/unit/{unit}/put-away")
    held = BytesIO()
    pack(visitor.store, unit, held)
    visitor.post("/bring-in", files=brought(held.getvalue(), "box.zip"))
    assert [one["number"] for one in visitor.data("/")["units"]] == [unit + 1]


def test_putting_away_what_is_not_there_is_told(visitor: Visitor) -> None:
    """A unit that nobody has is not there, in words."""
    for act in ("put-away", "out-again"):
        assert "there is no" in visitor.post(f"/unit/99/{act}", 404).lower()
