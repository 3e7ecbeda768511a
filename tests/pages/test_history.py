"""What was changed when, and the way back."""

import re

from tests.pages.test_measure import box, put
from tests.pages.visiting import Visitor

from dryfit.app.usecases import demos

LENGTH = "length, first end to last end"


def test_every_change_is_told_in_words(visitor: Visitor) -> None:
    """Whoever comes back after a year reads what was changed, from what to what."""
    visitor.demo("feed-box")
    put(visitor, "shaft", box(visitor, "shaft", LENGTH), "148.75")
    visitor.post("/unit/1/rename", part="cover", typed="end cover")
    told = [one["words"] for one in visitor.data("/unit/1/history")["changes"]]
    assert told[0] == "cover is now called 'end cover'"
    assert told[1] == "shaft: '148.70' is now '148.75'"
    assert told[-1] == "begun"


def test_an_older_text_is_looked_at_and_gone_back_to(visitor: Visitor) -> None:
    """An older text is shown, and becomes the newest without taking anything off the list."""
    visitor.demo("feed-box")
    put(visitor, "shaft", box(visitor, "shaft", LENGTH), "148.75")
    changes = visitor.data("/unit/1/history")["changes"]
    first = changes[-1]["number"]
    assert "148.70" in visitor.read(f"/unit/1/history/{first}")
    told = visitor.post("/unit/1/go-back", number=str(first), saw=str(changes[0]["number"]))
    assert visitor.text(1).encode() == demos.text("feed-box")
    assert len(visitor.data("/unit/1/history")["changes"]) == len(changes) + 1
    assert len(re.findall(r"\(now\)", told)) == 1


def test_what_was_done_meanwhile_is_not_written_over(visitor: Visitor) -> None:
    """Going back from a page that is no longer true is refused, and nothing is done."""
    visitor.demo("feed-box")
    changes = visitor.data("/unit/1/history")["changes"]
    put(visitor, "shaft", box(visitor, "shaft", LENGTH), "148.75")
    old = str(changes[0]["number"])
    told = visitor.post("/unit/1/go-back", 422, number=old, saw=old, back="history", at=old)
    assert "changed elsewhere meanwhile" in told
    assert "148.75" in visitor.text(1)


def test_strange_numbers_lead_nowhere(visitor: Visitor) -> None:
    """A number of another unit, of none, or no number at all is told, and nothing breaks."""
    visitor.demo("feed-box")
    other = visitor.demo("lay-shaft")
    theirs = visitor.data(f"/unit/{other}/history")["changes"][0]["number"]
    for number in (str(theirs), "999", "-1", "", "<script>", "1" * 1000):
        told = visitor.post("/unit/1/go-back", 422, number=number, back="history")
        assert "no such text" in told
        assert "<script>" not in told.replace("<script src", "")
        visitor.read(f"/unit/1/history/{number}")
