"""The sheets by themselves: strip-down, help, walk, record, readings, settings."""

import re

import pytest
from tests.book.pages import DAY, DRAWS, FOOT, answer, made, texts

from dryfit.app.cli.walk_form import walk_form
from dryfit.app.paper.press import PAPERS, Paper
from dryfit.app.usecases import begin, demos, sheets
from dryfit.app.usecases.binding import BookAnswer
from dryfit.app.usecases.opening import open_text
from dryfit.app.usecases.sheets import SheetRequest, sheet
from dryfit.app.words.strip_down import DO_NOT_LOSE, NOTE
from dryfit.app.words.walk_trade import DO, DO_PACKS

both_papers = pytest.mark.parametrize("paper", PAPERS)


def _sheet(
    name: str, demo: str | None, paper: Paper = "a4", start: str | None = None
) -> BookAnswer:
    text = demos.text(demo) if demo else None
    return sheet(SheetRequest(name, text, f"{demo}.yaml", DAY, paper, start, DRAWS))


@both_papers
@pytest.mark.parametrize("name", sheets.names())
def test_each_sheet_is_made_for_a_unit_and_empty(name: str, paper: Paper) -> None:
    """Every sheet there is can be printed, with a unit and, where that makes sense, without."""
    for demo in ("headstock", *(() if sheets.needs_text(name) else (None,))):
        done = _sheet(name, demo, paper)
        pages = texts(done.pdf)
        assert done.pdf == _sheet(name, demo, paper).pdf
        for n, text in enumerate(pages, 1):
            assert f"{n} of {len(pages)}" in text
            assert [line for line in FOOT if line not in text] == []


@both_papers
@pytest.mark.parametrize("demo", [*demos.names(), None])
def test_help_is_one_page(demo: str | None, paper: Paper) -> None:
    """One page goes to another person, whatever the unit; it asks what helpers ask first."""
    done = _sheet("help", demo, paper)
    (text,) = texts(done.pdf)
    assert done.titles == ("Help wanted",)
    assert "was the reading taken with the seals in?" in text


@both_papers
@pytest.mark.parametrize(
    ("demo", "steps"), [("bevel-box", DO_PACKS), ("headstock", DO), (None, DO)]
)
def test_walk_is_one_page_and_says_each_step(
    demo: str | None, steps: tuple[str, ...], paper: Paper
) -> None:
    """The form to plot on is one page: packs have their own steps, a nut those of the command."""
    done = _sheet("walk", demo, paper)
    (text,) = texts(done.pdf)
    assert [step for step in steps if step not in text] == []
    plain = " ".join(walk_form().split())
    assert [step for step in DO if step not in plain] == []


def test_walk_names_the_packs_to_begin_with() -> None:
    """The trial packs of the route stand in the table, ready to be read."""
    done = _sheet("walk", "bevel-box")
    (route,) = [
        route
        for one in answer("bevel-box").settings
        for route in one.routes
        if route.name == "walk to nothing" and route.chance is not None
    ]
    for pack in route.trials_mm:
        assert f"{pack:.2f} mm" in texts(done.pdf)[0]


@pytest.mark.parametrize("kind", begin.kinds())
def test_strip_down_is_made_for_each_start(kind: str) -> None:
    """Before any size is known each kind of unit has its own sheet: every part in its order."""
    done = _sheet("strip-down", None, start=kind)
    text = " ".join(texts(done.pdf))
    rebuild = open_text(begin.start(kind)).rebuild
    listed = {s.part for line in rebuild.lines.values() for k in line.stacks for s in k.spots}
    for name in listed:
        assert name in text
        first = NOTE[rebuild.parts[name].kind].split()[0]
        assert first in text
    for warning in DO_NOT_LOSE:
        assert warning in text
    assert done.findings == ()


def test_strip_down_gives_each_shim_the_places_it_lies_between() -> None:
    """Shims are noted by side: each stands between the two parts that its stack has there."""
    text = " ".join(texts(_sheet("strip-down", "bevel-box").pdf))
    assert re.search(r"cover shim case and cover\b", text)
    assert re.search(r"cartridge shim case and cartridge\b", text)


def test_record_lists_every_part_and_check() -> None:
    """The next owner finds every part, every reading as left, oil and grease."""
    text = " ".join(texts(_sheet("record", "bevel-box").pdf))
    rebuild = open_text(demos.text("bevel-box")).rebuild
    for name in (*rebuild.parts, *rebuild.checks, *rebuild.settings):
        assert name in text
    for box in ("oil: kind", "grease: kind", "first run", "rebuilt by"):
        assert box in text


def test_readings_and_settings_are_those_of_the_book() -> None:
    """A sheet taken by itself says what the same sheet of the book says."""
    bound = texts(made("bevel-box").pdf)
    for name in ("readings", "settings"):
        for text in texts(_sheet(name, "bevel-box").pdf):
            body = re.split(r"\d+ of \d+ ", text, maxsplit=1)[1].partition("Local rules")[0]
            alone = body.startswith("Expected readings")
            assert alone or any(body in page for page in bound)


def test_summary_has_a_row_for_each_check() -> None:
    """All readings stand on one sheet, with what each should read."""
    text = texts(_sheet("readings", "bevel-box").pdf)[0]
    for check in answer("bevel-box").checks:
        assert f"{check.name} {check.kind} of {check.what}, by {check.by}" in text
