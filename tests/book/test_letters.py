"""User text on paper is literal and legible: markup, right to left, long words, odd letters."""

import re

import pytest
import typst
from tests.book.pages import DAY, DRAWS, raw, texts

from dryfit.app.paper import press
from dryfit.app.paper.blocks import Sheet, Text
from dryfit.app.paper.letters import _runs, can_be_set, legible
from dryfit.app.paper.press import Imprint, pressed
from dryfit.app.usecases import demos
from dryfit.app.usecases.binding import BookAnswer
from dryfit.app.usecases.book import BookRequest, book

TEXT = demos.text("feed-box").decode()
IMPRINT = Imprint("a unit", "a file", DAY, "a4")

HOSTILE = (
    '#let x = 1; #panic("x") #eval("1")',
    "*bold* _not_ `raw` $x^2$",
    r"a\b \u{41} \ ~ -- --- ... 'q' \"q\"",
    "= Head / term: - item + item <label> @ref // gone /* gone */",
    "https://example.org <b>&amp;</b> {{ x }} {% y %} %s {0}",
    "]]) #[ #{ #( )",
)


def _book(title: str = "", notes: str = "") -> BookAnswer:
    text = TEXT
    if title:
        text = text.replace("title: Scarth Foss feed box", f"title: {_quoted(title)}")
    if notes:
        text = re.sub(r"notes: .*", lambda _: f"notes: {_quoted(notes)}", text)
    return book(BookRequest(text.encode(), "box.yaml", DAY, "a4", DRAWS))


def _quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


@pytest.mark.parametrize("typed", HOSTILE)
def test_markup_is_printed_as_it_was_typed(typed: str) -> None:
    """Nothing that a user types is ever a command of the typesetter: it stands as it was typed."""
    done = _book(typed, f"before {typed} after")
    assert "pack" in " ".join(texts(done.pdf))
    cover = texts(done.pdf)[0]
    assert cover.count(typed) >= 2
    assert f"before {typed} after" in cover
    assert [f for f in done.findings if f.code == "paper.letter"] == []


def test_word_without_a_space_stays_on_the_page() -> None:
    """80 capitals without a space are broken, none is lost, and none runs off the paper."""
    done = _book(notes="W" * 80)
    lines = re.findall("W{5,}", raw(done.pdf)[0])
    assert sum(map(len, lines)) == 80
    # A line is 184 mm = 521.6 pt wide; W of Fira Sans 4.203 takes 0.826 em of 13 pt (its table
    # hmtx): 48.6 of them.
    assert max(map(len, lines)) <= 48


def test_long_title_is_cut_in_the_head_alone() -> None:
    """200 letters of title stand on the cover whole, and do not push a page out of shape."""
    title = "Q" + " very long" * 19 + " title"
    done = _book(title)
    cover, second, *_ = texts(done.pdf)
    assert title in cover
    assert title not in second
    assert title[:60] in second
    assert "…" in second


def test_right_to_left_stays_in_its_place() -> None:
    """Hebrew and Arabic are printed in their own faces, and a figure behind them stays behind."""
    name = "שים אב"
    text = TEXT.replace("thrust shim", name)
    done = book(BookRequest(text.encode(), "box.yaml", DAY, "a4", DRAWS))
    every = " ".join(texts(done.pdf))
    assert [f for f in done.findings if f.code == "paper.letter"] == []
    assert "שים" in every
    assert "‹U+" not in every
    assert legible(f"{name} 0.35 mm") == f"\u2067{name}\u2069 0.35 mm"
    assert "مرحبا" in texts(_book(notes="مرحبا 12").pdf)[0].replace("\u2067", "")


@pytest.mark.parametrize(
    ("character", "code"), [("\u200f", "U+200F"), ("字", "U+5B57"), ("\u200b", "U+200B")]
)
def test_what_no_face_has_is_named(character: str, code: str) -> None:
    """A letter that no face has, or that turns the writing, stands as its code; that is told."""
    done = _book(notes=f"one {character} two")
    assert f"one ‹{code}› two" in texts(done.pdf)[0]
    (found,) = [f for f in done.findings if f.code == "paper.letter"]
    assert code in found.message
    assert f"‹{code}›" in found.message
    assert (found.line, found.level) == (4, "note")
    assert code in texts(done.pdf)[1]


def test_control_characters_are_refused_and_the_book_says_so() -> None:
    """A bell in a title stops the answer with a message; it is no blank square on the cover."""
    done = book(BookRequest(TEXT.replace("feed box", "feed\x07box", 1).encode(), "x", DAY, "a4"))
    assert not done.answered
    assert "text.control" in {found.code for found in done.findings}
    assert any("U+0007" in text for text in texts(done.pdf))


def test_every_letter_of_the_table_can_be_set(monkeypatch: pytest.MonkeyPatch) -> None:
    """The table of letters is true: the typesetter, asked for PDF/A, refuses what it cannot set."""
    firsts, lasts = _runs()
    letters = [chr(n) for a, b in zip(firsts, lasts, strict=True) for n in range(a, b + 1)]
    assert len(letters) > 3000
    assert all(map(can_be_set, letters))
    monkeypatch.setattr(press, "legible", lambda text: text)
    rows = [" ".join(letters[n : n + 30]) for n in range(0, len(letters), 30)]
    assert pressed((Sheet("Letters", tuple(Text(row) for row in rows)),), IMPRINT)
    with pytest.raises(typst.TypstError, match="字"):
        pressed((Sheet("Letters", (Text("字"),)),), IMPRINT)
