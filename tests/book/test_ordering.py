"""The order on paper: that it is the order of the command, and what a hand expects of the demos."""

import re
from itertools import pairwise

import pytest
from tests.book.pages import DAY, DRAWS, answer, made, texts

from dryfit.app.paper.ordering import TITLE
from dryfit.app.usecases import begin, demos
from dryfit.app.usecases.book import BookRequest, book
from dryfit.app.usecases.order import OrderRequest, order
from dryfit.app.usecases.sheets import SheetRequest, sheet

MM = 25.4
"""An inch in millimetres, exactly: NIST SP 811, Appendix B, from memory."""

every_demo = pytest.mark.parametrize("name", demos.names())


def _alone(kind: str, text: bytes | None, start: str | None = None) -> str:
    done = sheet(SheetRequest(kind, text, "box.yaml", DAY, "a4", start, DRAWS))
    return " ".join(texts(done.pdf))


@every_demo
def test_paper_says_what_the_command_says(name: str) -> None:
    """Every step stands on paper by its number, in order, with last chances and where it stops."""
    text = _alone("order", demos.text(name))
    told = order(OrderRequest(demos.text(name)))
    places = []
    for number, step in enumerate(told.steps, start=1):
        words = step.name if step.act in ("read", "do") else f"{step.act}: {step.name}"
        places.append(text.index(f" {number} {words} "))
        around = text[places[-2] if number > 1 else 0 :]
        assert all(f"last chance to '{hidden}'" in around for hidden in step.hides[:1])
        assert all(mind in around for mind in (*step.mind, step.words))
    assert all(one < other for one, other in pairwise(places))
    for one in told.schedules:
        assert f"{one.name} {one.steps:.1f} {one.minutes:.0f}" in text


@every_demo
def test_book_has_the_order_before_its_checks(name: str) -> None:
    """The order is a section of the book, and is what it is by itself."""
    titles = made(name).titles
    checks = [n for n, title in enumerate(titles) if title.startswith("Check: ")]
    assert titles.index(TITLE) < min(checks)
    alone = _alone("order", demos.text(name))
    body = re.split(r"1 of \d+ ", alone, maxsplit=1)[1].partition("Local rules")[0]
    assert any(body in page for page in texts(made(name).pdf))


@every_demo
def test_hold_points_ask_for_what_the_answer_expects(name: str) -> None:
    """A hold point asks for the reading that the answer expects, to the last digit printed."""
    text = _alone("order", demos.text(name))
    for check in answer(name).checks:
        found = re.search(rf"read {re.escape(check.name)} should \w+ (-?[\d.]+) (mm|in|N);", text)
        assert found is not None
        printed, unit = found.groups()
        value = check.force.expected_n if check.force else check.expected_mm
        assert (unit == "N") == bool(check.force)
        assert value is not None
        value /= MM if unit == "in" else 1.0
        half = 0.5 * 10.0 ** -len(printed.partition(".")[2])  # rounding takes half a last digit
        assert abs(float(printed) - value) <= half * (1 + 1e-6)


def test_feed_box_by_hand() -> None:
    """The shaft goes in before the gasket and cover shut the bore; the pack is measured loose.

    By hand: shim and shaft go in by the open end; gasket, then cover close it; the float is read
    when the cover is screwed down, for it is the cover that stops the shaft.
    """
    text = _alone("order", demos.text("feed-box"))
    steps = (
        "read shim pack",
        "put on: thrust shim",
        "put on: shaft",
        "put on: gasket",
        "put on: cover",
        "close: screws of cover",
        "read end float",
    )
    places = [text.index(f" {n} {words} ") for n, words in enumerate(steps, start=1)]
    assert places == sorted(places)
    assert "last chance to 'read shim pack' 2 put on: thrust shim" in text


def test_tight_ring_stands_below_its_step() -> None:
    """At the press the sheet says force, warmth and which ring takes the load, step by step.

    By hand: 30 mm bore, seat 4 um over and ring 5 um under: 1.84 kN (tests/solve/test_pressing.py).
    """
    text = _alone("order", demos.text("bevel-box"))
    after = text[text.index("press on: front bearing") : text.index("put on: sleeve")]
    assert "push on its inner ring, never through the balls" in after
    assert "press with about 1800 N" in after
    assert "80 C at most" in after


def test_headstock_comes_apart_from_the_tail() -> None:
    """The strip-down sheet says nut, rear cone, then the spindle out at the nose.

    By hand: the spindle's flange is at the nose, larger than either bearing, so it leaves there,
    with the distance piece and front cone that stand behind it, once the nut and rear cone are off.
    """
    text = _alone("strip-down", demos.text("headstock"))
    steps = ("'nut', to tail", "'rear, cone', to tail", "'spindle', 'distance piece', 'front")
    places = [text.index(words) for words in steps]
    assert places == sorted(places)


def test_what_comes_off_no_way_is_told_on_paper() -> None:
    """A cluster too large for both bores is not left out in silence."""
    for kind in ("order", "strip-down"):
        closed = demos.text("lay-shaft").replace(b", opening: {front face to rear face: 3}", b"")
        text = _alone(kind, closed)
        assert "'cluster' does not come off along 'lay-shaft'" in text


@pytest.mark.parametrize("kind", begin.kinds())
def test_start_has_no_strip_order(kind: str) -> None:
    """Before any size is known no order is made up for the strip."""
    assert "in which order" not in _alone("strip-down", None, kind)


@pytest.mark.parametrize(
    "text", [demos.text("feed-box").replace(b"148.70", b"148,70"), begin.start("blank")]
)
def test_book_goes_without_an_order_that_cannot_be_told(text: bytes) -> None:
    """A slip in the text, or no line at all, still gives a book; only the order is left out."""
    done = book(BookRequest(text, "box.yaml", DAY, "a4", DRAWS))
    assert done.pdf.startswith(b"%PDF-")
    assert TITLE not in done.titles
