"""What arithmetic finds wrong in a text: each told on its line, with a way out."""

from importlib.resources import files

import pytest

from dryfit.document.read import read_document
from dryfit.solve.doubts import doubts

TEXT = (files("dryfit.app") / "demos" / "feed-box.yaml").read_text(encoding="utf-8")


def _told(*changes: tuple[str, str]) -> list[tuple[str, str]]:
    text = TEXT
    for typed, instead in changes:
        assert typed in text
        text = text.replace(typed, instead)
    document = read_document(text)
    found = document.located(doubts(document.rebuild))
    return [(f.finding.code, f.finding.message) for f in found]


def test_sound_box_has_none() -> None:
    """Nothing is said where nothing is wrong."""
    assert _told() == []


@pytest.mark.parametrize(
    ("typed", "instead", "code"),
    [
        ("by depth micrometer", "by depth mikrometer", "instrument.unknown"),
        ("measured with: caliper", "measured with: calliper", "instrument.unknown"),
        ("by: dial indicator", "by: dail indicator", "instrument.unknown"),
        ("material: cast iron", "material: cast irn", "material.unknown"),
        ("joint:       [case.joint, gasket, cover.flange]", "", "cover.no joint"),
        ("[case.thrust face, thrust shim, shaft", "[thrust shim, shaft", "line.open end"),
    ],
)
def test_each_is_told(typed: str, instead: str, code: str) -> None:
    """An unknown name, a cover without a joint and an open end are told by name."""
    assert code in [told for told, _ in _told((typed, instead))]


def test_lengths_that_disagree_are_told_with_the_amount() -> None:
    """152.36 against 100.00 + 52.44: three lengths disagree by 0.08."""
    extra = (
        "  shaft: 148.70\n",
        "  shaft: 148.70\n  case.thrust face to case.step: 100.00\n"
        "  case.step to case.joint: 52.44\n",
    )
    (told,) = _told(extra)
    assert told[0] == "size.loop"
    assert "your three lengths disagree by 0.08 mm" in told[1]


def test_lengths_that_agree_within_their_doubt_are_not_told() -> None:
    """152.36 against 152.38 by caliper is within what calipers do."""
    extra = (
        "  shaft: 148.70\n",
        "  shaft: 148.70\n  case.thrust face to case.step: 100.00\n"
        "  case.step to case.joint: 52.38\n",
    )
    assert _told(extra) == []
