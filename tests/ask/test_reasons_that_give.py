"""What would make a reading of a nipped pair more or less is asked of the model, sign and all."""

from pathlib import Path

import pytest

from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.looks import Looks
from dryfit.ask.words import reasons

GIVING = Path(__file__).resolve().parent.parent / "giving"
QUILL = GIVING / "quill.yaml"
DRIVE = GIVING / "bevel-drive.yaml"


def test_burr_on_the_outer_spacer_of_a_back_to_back_pair_adds_preload() -> None:
    """A longer outer spacer pushes the outer rings apart: more pull on the cord, less float."""
    asking = Asking(open_text(QUILL.read_text(encoding="utf-8")).rebuild, 100)
    checks = asking.rebuild.checks
    more, less = reasons(Looks(asking, {}), checks["cord"])
    assert "dirt or a burr on outer spacer" in [reason.words for reason in more]
    assert "dirt or a burr on inner spacer" in [reason.words for reason in less]
    more, less = reasons(Looks(asking, {}), checks["end float"])
    assert "dirt or a burr on inner spacer" in [reason.words for reason in more]
    assert "dirt or a burr on outer spacer" in [reason.words for reason in less]
    assert all(reason.change is None for reason in (*more, *less))


def test_bearing_that_stops_nothing_any_more_is_a_reason_for_more_float_and_less_pull() -> None:
    """Both rows then stop the spindle one way only: it runs out the other way, with no preload."""
    asking = Asking(open_text(QUILL.read_text(encoding="utf-8")).rebuild, 100)
    checks = asking.rebuild.checks
    more, _ = reasons(Looks(asking, {}), checks["end float"])
    assert "front in back to front" in [reason.words for reason in more]
    more, less = reasons(Looks(asking, {}), checks["cord"])
    assert "front in back to front" in [reason.words for reason in less]
    single = "front not one of the matched set"
    assert all(single in [reason.words for reason in side] for side in (more, less))


@pytest.mark.parametrize(("apex", "stands"), [("60.00", "out"), ("63.00", "in")])
def test_straightedge_shows_a_step_without_its_sign(apex: str, stands: str) -> None:
    """A cartridge that stands off takes the pinion's back face out: from within, the step closes.

    By hand: 1.5 out with its apex 60 before the shoulder; 3 nearer to the crossing it stands in.
    """
    text = DRIVE.read_text(encoding="utf-8")
    was = "pinion shaft.apex to pinion shaft.shoulder: 60.00"
    assert was in text
    rebuild = open_text(text.replace(was, was.replace("60.00", apex))).rebuild
    packs = {"cover shim": 0.10e-3, "cartridge shim": 0.40e-3}
    more, less = reasons(Looks(Asking(rebuild, 100), packs), rebuild.checks["flush"])
    cocked = "cartridge cocked, or not pulled home all round"
    there = [cocked in [reason.words for reason in side] for side in (more, less)]
    assert there == ([True, False] if stands == "out" else [False, True])


def test_reading_that_does_not_follow_is_told_nothing_of_it() -> None:
    """The nut clamps the front ring with all others: whether it is home, the float does not say."""
    asking = Asking(open_text(QUILL.read_text(encoding="utf-8")).rebuild, 100)
    more, less = reasons(Looks(asking, {}), asking.rebuild.checks["end float"])
    words = " / ".join(reason.words for reason in (*more, *less))
    assert "inner ring of front not home" not in words
    assert "inner ring of second not home" in words
