"""What is wanted and cannot be had: how near the drawer comes, what is short, and what to get.

Feed box by hand: room 152.36 - 3.42 + 0.21 - 148.70 = 0.45, of which 0.05 to 0.15 is to be float,
so a pack of 0.35.
"""

from importlib.resources import files
from pathlib import Path

import pytest
from click.testing import CliRunner

from dryfit.app.cli.main import cli

TEXT = (files("dryfit.app") / "demos" / "feed-box.yaml").read_text(encoding="utf-8")
DRAWER = "made from: [0.05, 0.10, 0.25, 0.50]"
WANT = "want: 0.05 to 0.15"


def _run(folder: Path, command: str, *changes: tuple[str, str]) -> str:
    """Print what a command says of the box, as one line of words."""
    text = TEXT
    for typed, instead in changes:
        assert typed in text
        text = text.replace(typed, instead)
    path = folder / "box.yaml"
    path.write_text(text, encoding="utf-8")
    done = CliRunner().invoke(cli, [command, str(path), *(["--units", "mm"] * (command == "set"))])
    assert done.exit_code == 0, done.output
    return " ".join(done.output.split())


@pytest.mark.parametrize(
    ("drawer", "nearest", "short"),
    [
        ("made from: [3.0, 5.0]", "none at all", "0.35 mm too thin"),
        ("one of: [3.0, 5.0]", "3.00 mm", "2.65 mm too thick"),
        ("one of: [0.20]", "0.20 mm", "0.15 mm too thin"),
        ("made from: [2 of 0.05]", "0.10 mm = 0.05 + 0.05", "0.25 mm too thin"),
    ],
)
def test_drawer_that_makes_nothing_near(
    drawer: str, nearest: str, short: str, tmp_path: Path
) -> None:
    """No pack is recommended as if it were one: what is nearest, how far off, and what to get."""
    told = _run(tmp_path, "set", (DRAWER, drawer))
    assert f"nothing that can be made will do; the nearest is {nearest} " in told
    assert f"comes no nearer to what the sum asks for: {short}. Get what makes 0.35 mm." in told
    assert "the best there is, and not good enough" in told
    assert "take this one" not in told


def test_drawer_that_is_near_is_still_advice(tmp_path: Path) -> None:
    """Six pieces of 0.045 make 0.27, of which some come right: fit it, or get what makes 0.35."""
    told = _run(tmp_path, "set", (DRAWER, "made from: [0.045]"))
    assert "0.27 mm = 0.045 + 0.045 + 0.045 + 0.045 + 0.045 + 0.045 " in told
    assert "with 6 pieces, the most that are stacked: 0.08 mm too thin" in told
    assert "take this one" in told


def test_float_that_no_pack_leaves(tmp_path: Path) -> None:
    """1.05 to 1.15 wanted and 0.45 there without a shim: another part must make up 0.65."""
    told = _run(tmp_path, "set", (WANT, "want: 1.05 to 1.15"))
    assert "No pack gives that: another part must make up 0.65 mm" in told
    assert "take this one" not in told


IDLE = (
    ("  thrust shim: {kind", "  idle: {kind: shim pack}\n  thrust shim: {kind"),
    ("settings:\n", "settings:\n  idle: {made from: [0.1]}\n"),
)


def test_setting_that_lies_nowhere_is_told_so(tmp_path: Path) -> None:
    """A need is there; what is missing is the pack's place."""
    told = _run(tmp_path, "set", *IDLE)
    assert "moves nothing that is wanted: put it into the stack where it belongs" in told
    assert "say under needs" not in told
    assert "lies between and" not in told


def test_setting_without_a_want_is_told_so(tmp_path: Path) -> None:
    """Nothing is wanted of the box: that is what is missing."""
    use = TEXT[TEXT.index("used for:") : TEXT.index("lines:\n")]
    told = _run(tmp_path, "set", (f", {WANT}", ""), (use, ""))
    assert "nothing says how much 'shaft float' should be" in told
    assert "say under needs: what float is wanted" in told


def test_absurd_pack_is_not_answered_by_asking_for_a_want(tmp_path: Path) -> None:
    """100 mm fitted for 1.00: a float is wanted, and the notes say what stands in the way."""
    told = _run(tmp_path, "set", ("0.50]}", "0.50], fitted: 100}"))
    assert "a pack of 100 is thicker than shims are stacked" in told
    assert "cannot be said until what is noted above is put right" in told
    assert "say under needs" not in told


def test_worth_says_what_is_still_to_measure(tmp_path: Path) -> None:
    """With a size not known there is more to do than nothing."""
    told = _run(tmp_path, "worth", ("shaft: 148.70", "shaft: not known"))
    assert "measure this first" in told
    assert "No act that is known" not in told


def test_worth_of_a_box_of_which_nothing_is_wanted(tmp_path: Path) -> None:
    """No want, so no chance to raise, and that is said."""
    use = TEXT[TEXT.index("used for:") : TEXT.index("lines:\n")]
    told = _run(tmp_path, "worth", (f", {WANT}", ""), (use, ""))
    assert "nothing is wanted of the unit" in told
