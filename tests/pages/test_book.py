"""Book and copies: each sheet is printed, each file given, and a copy brought back by a press."""

from io import BytesIO

import pytest
from pypdf import PdfReader
from tests.pages.visiting import Visitor

from dryfit.app.pages.book import FILES, SHEETS
from dryfit.store import copies

HEADS = {
    "text": b"dryfit: 1",
    "parcel": b"PK\x03\x04",
    "sizes": b"\xef\xbb\xbf",
    "readings": b"\xef\xbb\xbf",
    "drawing.svg": b"<svg",
    "drawing.pdf": b"%PDF-",
    "drawing.dxf": b"  0\nSECTION",
    "plots": b"%PDF-",
}
"""What each file begins with: its format's own mark, and the byte order mark of a table."""


@pytest.mark.parametrize("name", [row.name for row in SHEETS])
def test_every_sheet_is_printed(visitor: Visitor, name: str) -> None:
    """Whatever the page offers to print is a PDF, on the paper that was asked for."""
    unit = visitor.demo("lay-shaft")
    for paper, wide in (("a4", 595), ("letter", 612)):
        answer = visitor.client.get(f"/unit/{unit}/book/sheet/{name}", params={"paper": paper})
        assert answer.status_code == 200
        assert answer.headers["content-type"] == "application/pdf"
        assert answer.content.startswith(b"%PDF-")
        assert int(PdfReader(BytesIO(answer.content)).pages[0].mediabox.width) == wide


@pytest.mark.parametrize("name", [row.name for row in FILES])
def test_every_file_is_given(visitor: Visitor, name: str) -> None:
    """Whatever the page offers to take away is what it says, named after the unit."""
    unit = visitor.demo("lay-shaft")
    answer = visitor.client.get(f"/unit/{unit}/book/file/{name}")
    assert answer.status_code == 200
    assert answer.content.startswith(HEADS[name])
    assert 'filename="tarn-hollow-' in answer.headers["content-disposition"]


def test_a_copy_is_brought_back_by_a_press(visitor: Visitor) -> None:
    """What was there before is kept as a copy itself, so that the press can be taken back."""
    unit = visitor.demo("lay-shaft")
    kept = copies.keep(visitor.store.folder, visitor.store.database, "start")
    visitor.post(f"/unit/{unit}/edit", act="set", place='["title"]', typed="Changed since")
    shown = visitor.post("/bring-back", copy=kept.name, back="copies")
    assert "Brought back" in shown
    assert "Changed since" not in visitor.text(unit)
    (newest, *_) = visitor.data("/copies")["copies"]
    visitor.post("/bring-back", copy=newest["name"], back="copies")
    assert "Changed since" in visitor.text(unit)


def test_a_copy_that_is_not_there_is_told(visitor: Visitor) -> None:
    """A stale list, or a name with a way out of the folder, brings nothing back."""
    visitor.demo("lay-shaft")
    for name in ("", "../key", "0001-20260101T000000Z-start.sqlite"):
        assert (
            "there is no copy" in visitor.post("/bring-back", 422, copy=name, back="copies").lower()
        )
