"""The whole text in one box."""

import html
import re

import pytest
from tests.pages.visiting import Visitor

from dryfit.app.usecases import demos


def textarea(told: str) -> str:
    """Give what stands in the box of a page, as a browser would take it."""
    found = re.search(r"<textarea[^>]*>\n(.*?)</textarea>", told, re.DOTALL)
    assert found
    return html.unescape(found[1])


def keep(visitor: Visitor, text: str, status: int = 200, saw: int | None = None) -> str:
    """Post a whole text, with the line ends a browser sends."""
    number = saw if saw is not None else visitor.data("/unit/1/text")["frame"]["revision"]
    sent = text.replace("\r\n", "\n").replace("\n", "\r\n")
    return visitor.post("/unit/1/text", status, text=sent, saw=str(number), back="text")


@pytest.mark.parametrize("name", demos.names())
def test_what_is_kept_unchanged_is_the_same_to_the_byte(visitor: Visitor, name: str) -> None:
    """Opened and kept without a change, a text makes no new revision."""
    visitor.demo(name)
    before = visitor.data("/unit/1/text")["frame"]["revision"]
    keep(visitor, textarea(visitor.read("/unit/1/text")))
    assert visitor.text(1).encode() == demos.text(name)
    assert visitor.data("/unit/1/text")["frame"]["revision"] == before


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_mark_stay(visitor: Visitor, ends: str, mark: str) -> None:
    """A text from another system keeps its line ends and its byte order mark."""
    text = mark + demos.text("lay-shaft").decode().replace("\n", ends)
    visitor.begin(text)
    changed = textarea(visitor.read("/unit/1/text")).replace("4.5560", "4.5550")
    keep(visitor, changed)
    assert visitor.text(1) == text.replace("4.5560", "4.5550")


def test_a_text_is_one_change(visitor: Visitor) -> None:
    """What was done all over a text is taken back by one undo."""
    visitor.demo("lay-shaft")
    text = demos.text("lay-shaft").decode()
    keep(visitor, text.replace("4.5560", "4.5550").replace("0.1240", "0.1250"))
    assert "0.1250" in visitor.text(1)
    visitor.post("/unit/1/undo", back="text")
    assert visitor.text(1) == text


@pytest.mark.parametrize(
    "text", ["", "[", "a: b: c", "{{7*7}}</textarea><script>alert(1)</script>", "\n\n  x"]
)
def test_a_broken_text_is_kept_and_told(visitor: Visitor, text: str) -> None:
    """Half a text may be kept: it says by line what is wrong, and runs nothing."""
    visitor.demo("lay-shaft")
    told = keep(visitor, text)
    assert visitor.text(1) == text
    assert "Line 1" in told or "Line 2" in told or "Line 3" in told
    assert "<script>alert" not in told
    assert textarea(told) == text
    assert visitor.read("/unit/1/measure")


def test_too_long_a_text_stays_in_its_box(visitor: Visitor) -> None:
    """More than 1 MB is not kept; what was typed is still there, and the text as it was."""
    visitor.demo("lay-shaft")
    long = "# " + "x" * 1_100_000
    told = keep(visitor, long, 422)
    assert "at most 1 MB" in told
    assert textarea(told).replace("\r\n", "\n") == long
    assert visitor.text(1).encode() == demos.text("lay-shaft")


def test_what_was_changed_meanwhile_is_not_lost(visitor: Visitor) -> None:
    """Kept from an older page, a text does not write over what others did; both are shown."""
    visitor.demo("lay-shaft")
    text = demos.text("lay-shaft").decode()
    saw = visitor.data("/unit/1/text")["frame"]["revision"]
    keep(visitor, text.replace("4.5560", "4.5550"))
    mine = text.replace("0.1240", "0.1250")
    told = keep(visitor, mine, 409, saw=saw)
    assert textarea(told).replace("\r\n", "\n") == mine
    assert "4.5550" in told
    assert "4.5550" in visitor.text(1)
    assert "0.1250" not in visitor.text(1)
    keep(visitor, mine)
    assert visitor.text(1) == mine
