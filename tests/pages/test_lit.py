"""A drawing made for its page."""

import re
from xml.etree import ElementTree

from tests.draw.hostile import PART

from dryfit.app.pages.lit import lit_up
from dryfit.draw.paper import Drawing, Group, Layer, Lettering, Ring
from dryfit.draw.svg import svg


def _drawn() -> str:
    """Draw two parts, one with a name that markup would choke on, and their balloons."""
    groups = tuple(
        Group(layer, (Ring((x, 20.0), 4.0), Lettering((x, 20.0), "1", 3.0)), part)
        for x, part in ((10.0, PART), (40.0, "shaft"))
        for layer in (Layer.PARTS, Layer.BALLOONS)
    )
    return svg(Drawing("two parts", 100.0, 50.0, groups), lambda part: f"/see/{len(part)}")


def test_one_part_is_lit_and_no_other() -> None:
    """Part and balloon of a strange name are lit, and the drawing can still be read."""
    root = ElementTree.fromstring(lit_up(_drawn(), PART, {}).replace(" data-lit", ' data-lit=""'))
    lit = [e.get("data-part") for e in root.iter() if e.get("data-lit") is not None]
    assert lit == [PART, PART]
    assert "data-lit" not in lit_up(_drawn(), "nut", {})


def test_flags_fly_where_something_was_found() -> None:
    """The first number stands at the balloon, with a plus where there are more."""
    told = lit_up(_drawn(), "", {PART: (3, 7), "nut": (1,)})
    root = ElementTree.fromstring(told)
    flags = [e for e in root.iter() if e.get("class") == "flagged"]
    assert ["".join(flag.itertext()).strip() for flag in flags] == ["3+"]


def test_links_keep_the_line_that_is_drawn() -> None:
    """A touch on a part of a line drawn alone shows its boxes beside the same drawing."""
    told = lit_up(_drawn(), "", {}, "lay-shaft & co")
    assert {*re.findall('href="([^"]*)"', told)} == {
        f"/see/{len(PART)}?line=lay-shaft+%26+co#part",
        "/see/5?line=lay-shaft+%26+co#part",
    }
