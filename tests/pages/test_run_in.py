"""Prove and run in: the log of warmth with its verdict, what is proved, what is looked at again."""

from typing import Any

import pytest
from playwright.sync_api import Page
from tests.pages.visiting import Visitor

from dryfit.app.usecases import demos
from dryfit.store.journal import Step, journal
from dryfit.store.readings import export

LEVELLED = (21, 26, 30, 33, 35, 36, 37, 38, 38)
STUCK = (20, 31, 43, 54)
"""Worked logs: a drive that levels 17 over the room, and a quill with a ring that cannot slide."""

INCH = demos.text("feed-box").replace(b"sizes in: mm", b"sizes in: inch")


def log(visitor: Visitor, unit: int, warmths: Any, *, every: int = 5, **fields: str) -> None:
    """Type a log, one reading after the other."""
    told = {"place": "front", "room": str(warmths[0]), "run": "1", **fields}
    for n, warmth in enumerate(warmths):
        own = {"minutes": str(n * every), "warmth": str(warmth)}
        visitor.post(f"/unit/{unit}/run-in-warmth", 200, None, back="run-in", **told, **own)


def runs(visitor: Visitor, unit: int) -> Any:
    """Give the runs, the newest first."""
    return visitor.data(f"/unit/{unit}/run-in")["runs"]


def test_a_run_that_levels_is_left_alone(visitor: Visitor) -> None:
    """By hand: 38 less 21 is 17 over the room, and the last four rise 0.14 a minute."""
    unit = visitor.demo("quill")
    log(visitor, unit, LEVELLED)
    (run,) = runs(visitor, unit)
    assert (run["sort"], run["word"]) == ("fits", "Fits")
    assert "17 C (31 F) over the room" in run["told"]
    assert "common practice, no source" in run["told"]
    page = visitor.read(f"/unit/{unit}/run-in")
    assert "Warmth of front" in page
    assert 'class="call fits"' in page


def test_a_run_that_does_not_level_is_stopped(visitor: Visitor) -> None:
    """Over 1 degree a minute after half an hour: stop, said by word, mark and kind of line."""
    unit = visitor.demo("quill")
    log(visitor, unit, STUCK[:3], every=10)
    assert runs(visitor, unit)[0]["sort"] == "unknown"
    log(visitor, unit, STUCK, every=10, run="2")
    assert (runs(visitor, unit)[0]["run"], runs(visitor, unit)[0]["word"]) == (2, "Stop")
    page = visitor.read(f"/unit/{unit}/run-in")
    assert 'class="call out"' in page


def test_fresh_grease_is_told_from_trouble(visitor: Visitor) -> None:
    """Rose, peaked and falls back: go on, do not set it again."""
    unit = visitor.demo("quill")
    log(visitor, unit, (20, 33, 41, 44, 43, 41, 39, 37, 36))
    assert "fresh grease" in runs(visitor, unit)[0]["told"]


@pytest.mark.parametrize(
    ("typed", "celsius", "fahrenheit"),
    [("38", "38", "100"), ("100 F", "38", "100"), ("37,8", "38", "100"), ("38 °C", "38", "100")],
)
def test_warmth_is_understood_in_both_scales(
    visitor: Visitor, typed: str, celsius: str, fahrenheit: str
) -> None:
    """100 F is 37.8 C: (100 - 32) 5/9. A bare figure is in the scale beside the box."""
    unit = visitor.demo("quill")
    log(visitor, unit, (typed,), room="21")
    (row,) = runs(visitor, unit)[0]["rows"]
    assert (row["celsius"], row["fahrenheit"]) == (celsius, fahrenheit)


def test_who_works_in_inches_types_fahrenheit(visitor: Visitor) -> None:
    """A bare 104 is 104 F there, which is 40 C; the stop is told as 140."""
    unit = visitor.begin(INCH)
    log(visitor, unit, ("104",), room="68")
    (row,) = runs(visitor, unit)[0]["rows"]
    assert (row["celsius"], row["over"]) == ("40", "20")
    assert "Stop at 140 °F" in visitor.read(f"/unit/{unit}/run-in")


@pytest.mark.parametrize(
    ("inch", "room", "typed", "asked"),
    [
        (False, "21", "98", "98 F"),  # 36.7 C
        (False, "70", "98", "70 F"),  # 21.1 C
        (False, "21", "98 C", ""),
        (False, "21", "38", ""),
        (False, "21", "250", ""),  # in F it would be 121 C: no way of a bearing either
        (True, "68", "38", "38 C"),  # 38 F is 3.3 C, 17 K below the room
        (True, "68", "104", ""),
    ],
)
def test_a_warmth_in_the_other_scale_is_asked_about(
    visitor: Visitor, inch: bool, room: str, typed: str, asked: str
) -> None:
    """98 where 98 F was meant is kept, told to stop at, and asked about: its scale may be wrong."""
    unit = visitor.begin(INCH) if inch else visitor.demo("quill")
    log(visitor, unit, (typed,), room=room)
    (run,) = runs(visitor, unit)
    assert ("was F meant" in run["scale"] or "was C meant" in run["scale"]) == bool(asked)
    assert not asked or f"type {asked}." in run["scale"]
    if typed == "98":
        assert run["word"] == "Stop"  # what is safe is said all the same


def test_the_next_reading_and_its_place_are_ready(visitor: Visitor) -> None:
    """Beside a running machine only one figure is typed: minutes, place and room stand there."""
    unit = visitor.demo("quill")
    log(visitor, unit, LEVELLED[:3])
    page = visitor.read(f"/unit/{unit}/run-in")
    for box in ('name="minutes"', 'value="15"', 'value="front"', 'value="21"'):
        assert box in page


def test_a_forgotten_reading_is_put_in_its_place(visitor: Visitor) -> None:
    """The log is in the order of its minutes, whenever they were typed."""
    unit = visitor.demo("quill")
    log(visitor, unit, (20, 30), every=20)
    told = {"place": "front", "room": "20", "run": "1", "minutes": "10", "warmth": "26"}
    visitor.post(f"/unit/{unit}/run-in-warmth", 200, None, back="run-in", **told)
    rows = runs(visitor, unit)[0]["rows"]
    assert [(row["minutes"], row["since"]) for row in rows] == [
        ("0", ""),
        ("10", "+6"),
        ("20", "+4"),
    ]


def test_a_reading_struck_out_stays_and_counts_no_more(visitor: Visitor) -> None:
    """A gun held askew: struck out with the reason, the verdict is of the others."""
    unit = visitor.demo("quill")
    log(visitor, unit, (*LEVELLED, 66))
    assert runs(visitor, unit)[0]["word"] == "Stop"
    number = str(runs(visitor, unit)[0]["rows"][-1]["number"])
    page = visitor.post(f"/unit/{unit}/run-in-strike", 422, back="run-in", entry=number, why="")
    assert "No reason was given" in page
    visitor.post(f"/unit/{unit}/run-in-strike", back="run-in", entry=number, why="exhaust pipe")
    assert runs(visitor, unit)[0]["word"] == "Fits"
    assert "Struck out: exhaust pipe" in visitor.read(f"/unit/{unit}/run-in")


def test_each_place_has_a_log_of_its_own(visitor: Visitor) -> None:
    """Two bearings are two curves."""
    unit = visitor.demo("quill")
    log(visitor, unit, LEVELLED)
    log(visitor, unit, STUCK, every=10, place="tail bearing")
    assert [(run["place"], run["word"]) for run in runs(visitor, unit)] == [
        ("tail bearing", "Stop"),
        ("front", "Fits"),
    ]


def test_the_log_leaves_text_and_checks_alone(visitor: Visitor) -> None:
    """A text with its readings is the same with a log of warmth or without."""
    unit = visitor.demo("quill")
    before = export(visitor.store, unit)
    log(visitor, unit, LEVELLED)
    assert export(visitor.store, unit) == before


def test_what_is_proved_is_ticked_with_a_note(visitor: Visitor) -> None:
    """Turned by hand, 4 N at 40: in the journal, beside its words, and the next one is open."""
    unit = visitor.demo("bevel-box")
    note = {"proof": "turns by hand", "note": "even, 4 N at 40 mm"}
    visitor.post(f"/unit/{unit}/run-in-tick", 200, None, back="run-in", **note)
    (entry,) = journal(visitor.store, unit)
    assert isinstance(entry.wrote, Step)
    assert (entry.wrote.name, entry.wrote.note) == ("turns by hand", "even, 4 N at 40 mm")
    proofs = visitor.data(f"/unit/{unit}/run-in")["proofs"]
    assert [(one["done"], one["next"]) for one in proofs][:3] == [
        (True, False),
        (False, True),
        (False, False),
    ]


def test_the_usual_cautions_stand_where_it_can_hurt(visitor: Visitor) -> None:
    """Air at most 0.1 bar with a relief; guards before it turns; local rules come first."""
    unit = visitor.demo("bevel-box")
    page = visitor.read(f"/unit/{unit}/run-in")
    for told in (
        "At most 0.1 bar and a relief that opens there",
        "Never with a sight glass",
        "Guards on, nobody in line with what turns",
        "Local rules and a competent person come first",
    ):
        assert told in page


def test_what_is_read_again_later_is_that_of_this_unit(visitor: Visitor) -> None:
    """Bolts, nuts and checks by name, and when: so that nobody has to remember them."""
    unit = visitor.demo("bevel-box")
    later = visitor.data(f"/unit/{unit}/run-in")["later"]
    assert [one["title"] for one in later] == [
        "After the first hour, warm",
        "After 8 hours",
        "After a week",
        "After 3 months",
    ]
    assert later[0]["words"][-1] == "Here: cover, cartridge, nut, ring."
    assert later[2]["words"][-1] == "Here: wheel float, pinion float, lash, cord."


WRONG = {
    "minutes": ("", "?", "abc", "-5", "1e3", "٣", "9" * 100_000, "200000", "<script>"),
    "warmth": ("", "?", "hot", "38 kg", "-300", "9999", "1,2,3", "9" * 100_000, "<script>"),
    "room": ("", "20 20", "<script>", "-80 C", "x" * 100_000),
    "place": ("", "   ", "x" * 100_000, "a\x00b"),
}


@pytest.mark.parametrize(
    ("box", "typed"), [(box, one) for box, all_ in WRONG.items() for one in all_]
)
def test_what_cannot_be_is_refused_and_nothing_is_lost(
    visitor: Visitor, box: str, typed: str
) -> None:
    """Each box of the log told by itself, the others as they were typed, nothing kept."""
    unit = visitor.demo("quill")
    fields = {
        "place": "front",
        "room": "21",
        "minutes": "40",
        "warmth": "38",
        "run": "1",
        box: typed,
    }
    page = visitor.post(f"/unit/{unit}/run-in-warmth", 422, None, back="run-in", **fields)
    assert "Not kept" in page
    assert "<script>" not in page.replace("<script src", "")
    assert journal(visitor.store, unit) == []
    if box != "warmth":
        assert 'value="38"' in page


def test_all_that_is_wrong_is_told_at_once(visitor: Visitor) -> None:
    """Three boxes wrong are three reasons."""
    unit = visitor.demo("quill")
    fields = {"place": "", "room": "warm", "minutes": "soon", "warmth": "hot"}
    page = visitor.post(f"/unit/{unit}/run-in-warmth", 422, None, back="run-in", **fields)
    for told in ("No place was typed", "no number of minutes", "Warmth:", "Room:"):
        assert page.count(told) == 1
    page = visitor.post(
        f"/unit/{unit}/run-in-warmth", 422, None, back="run-in", **(fields | {"minutes": ""})
    )
    assert page.count("No minutes were typed") == 1


@pytest.mark.parametrize(
    ("act", "fields"),
    [
        ("tick", {"proof": "no such"}),
        ("tick", {"proof": "low air", "note": "x" * 100_000}),
        ("tick", {"proof": "low air", "note": "a\x00b"}),
        ("tick", {}),
        ("strike", {"entry": "77", "why": "so"}),
        ("strike", {"entry": "x", "why": "so"}),
        ("strike", {"entry": "9" * 40, "why": "so"}),
        ("strike", {}),
        ("warmth", {}),
    ],
)
def test_forms_that_say_nothing_are_told(
    visitor: Visitor, act: str, fields: dict[str, str]
) -> None:
    """A form with a piece missing, or with too much, is no trouble."""
    unit = visitor.demo("quill")
    page = visitor.post(f"/unit/{unit}/run-in-{act}", 422, None, back="run-in", **fields)
    assert "Not kept" in page
    assert journal(visitor.store, unit) == []


def test_a_run_on_a_phone_beside_the_machine(page: Page) -> None:
    """At 360 points nothing slides sideways, and one figure and the enter key keep a reading."""
    page.get_by_role("button", name="feed box", exact=True).click()
    page.set_viewport_size({"width": 360, "height": 740})
    page.goto(page.url.replace("measure", "run-in"))
    page.get_by_label("Where, on a painted spot").fill("front")
    page.get_by_label("Room, °C").fill("21")
    for warmth in LEVELLED:
        page.get_by_label("Warmth read").fill(str(warmth))
        page.keyboard.press("Enter")
        page.get_by_role("cell", name=str(warmth), exact=True).first.wait_for()
        page.wait_for_load_state("load")
    page.get_by_text("Leave it. Levelled").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
