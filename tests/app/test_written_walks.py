"""Walks of the document on the sheet: what a fitter reads, in the words of the command `walk`."""

import json
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner

from dryfit.app.cli.main import cli

DOCS = Path(__file__).resolve().parents[2] / "docs"


def _set(folder: Path, demo: str, walk: str, *more: str, code: int = 0) -> str:
    """Ask for the sheet of a demo with a walk written in it."""
    text = (files("dryfit.app") / "demos" / f"{demo}.yaml").read_text(encoding="utf-8")
    path = folder / "box.yaml"
    path.write_text(f"{text}walks:\n  {walk}\n", encoding="utf-8")
    done = CliRunner().invoke(cli, ["set", str(path), *more])
    assert done.exit_code == code, done.output
    return done.output


def _block(sheet: str, head: str) -> str:
    """Cut one block out of a sheet."""
    return next(block for block in sheet.split("\n\n") if block.startswith(head))


def _flat(text: str) -> str:
    return " ".join(text.split())


BEVEL = "wheel float: {with: cover shim, 0.50: 0.118, 0.55: 0.170, 0.60: 0.219}"


def test_bevel_box_is_told_its_pack(tmp_path: Path) -> None:
    """Nothing at 0.381; rows touch at 0.388; 0.0175 of nip and a little for the cover: 0.370."""
    sheet = _set(tmp_path, "bevel-box", BEVEL)
    fit = _flat(_block(sheet, "Fit: cover shim"))
    assert "0.37 mm (0.0146 in) = 0.25 + 0.12, by the walk you read" in fit
    walk = _flat(_block(sheet, "Walk: wheel float, by cover shim"))
    assert "0.55 0.170 mm 0.001 mm above the line" in walk
    assert "would read nothing with a pack of 0.381 mm (0.0150 in), plus or minus 0.00" in walk
    assert "parts truly touch with a pack of 0.388 mm" in walk
    assert "nip wanted: 0.005 to 0.030 mm" in walk
    assert "that asks for 0.370 mm" in walk
    assert "fit 0.37 mm (0.0146 in) = 0.25 + 0.12: over 9" in walk
    assert "cover shim: walk it to nothing" not in sheet


def test_headstock_is_told_how_far_to_turn(tmp_path: Path) -> None:
    """0.060 read last and 0.009 to be read: 0.051 / 1.5 x 360 = 12.3 degrees, 7.5 mm on 70."""
    walk = "end float: {with: nut, 0 deg: 0.110, 6 deg: 0.086, 12 deg: 0.060}"
    told = _flat(_block(_set(tmp_path, "headstock", walk), "Walk: end float, by nut"))
    assert "would read nothing at 26.5 degrees, plus or minus 2.2 degrees" in told
    assert "tighten 12.3 degrees, 7.5 mm" in told
    assert "there the dial should read 0.009 mm" in told


HALF = (("0.60", "0.168"), ("0.55", "0.143"), ("0.50", "0.118"))


def test_off_the_line_in_the_words_of_the_command(tmp_path: Path) -> None:
    """Half the float that the packs should give: the same findings line by line, and no pack."""
    written = ", ".join(f"{pack}: {read}" for pack, read in HALF)
    sheet = _set(tmp_path, "bevel-box", f"wheel float: {{with: cover shim, {written}}}")
    words = ["walk", "--pack", *(f"{pack}: {read}" for pack, read in HALF)]
    typed = CliRunner().invoke(cli, words).output
    off = _block(typed, "Off the line").splitlines()[2:]
    assert len(off) > 5
    block = _block(sheet, "Walk: wheel float, by cover shim")
    assert "\n".join(off) in block
    assert "0.50 times as fast as the packs should make it" in _flat(block)
    assert "once the above is cleared up: read again first" in _flat(block)
    assert "first clear up the walk: see below" in _flat(_block(sheet, "Fit: cover shim"))


def test_float_that_goes_the_other_way_is_told(tmp_path: Path) -> None:
    """Floats typed at each other's packs: no line is laid, and what to look at is told."""
    walk = "wheel float: {with: cover shim, 0.50: 0.219, 0.55: 0.170, 0.60: 0.118}"
    told = _flat(_block(_set(tmp_path, "bevel-box", walk), "Walk: wheel float"))
    assert "goes the other way than the stacks of the document say" in told
    assert "at each other's pack?" in told
    assert "fit" not in told


def test_one_reading_is_gone_by_until_there_are_more(tmp_path: Path) -> None:
    """0.118 with 0.50: 0.37 by read it, then correct; two more packs would make it a walk."""
    sheet = _set(tmp_path, "bevel-box", "wheel float: {with: cover shim, 0.50: 0.118}")
    assert "one reading so far; a walk has three" in sheet
    told = _flat(_block(sheet, "Walk: wheel float"))
    assert "one reading: a line needs two, and a third to check them" in told
    assert "fit 0.37 mm (0.0146 in) = 0.25 + 0.12" in told


def test_sizes_that_quarrel_are_told_beside_the_pack(tmp_path: Path) -> None:
    """Floats 0.12 more than the sizes have it: the pack is that of the walk, and one is wrong."""
    walk = "wheel float: {with: cover shim, 0.50: 0.241, 0.55: 0.290, 0.60: 0.340}"
    told = _flat(_block(_set(tmp_path, "bevel-box", walk), "Walk: wheel float"))
    assert "less float than you read: one of them is wrong" in told


@pytest.mark.parametrize(
    ("demo", "walk"),
    [
        ("bevel-box", BEVEL),
        ("bevel-box", "wheel float: {with: cover shim, 0.50: 0.118}"),
        ("headstock", "end float: {with: nut, 0: 0.110, 1/60 turn: 0.086, 12 deg: 0.060}"),
        (
            "lay-shaft",
            "end float: {with: rear washer, 0.119: 8 thou, 0.121: 6 thou, 0.123: 4 thou}",
        ),
    ],
)
def test_walks_are_in_the_json(demo: str, walk: str, tmp_path: Path) -> None:
    """Each walk is data that keeps to the schema: pack and part, line, where nothing is."""
    answer = json.loads(_set(tmp_path, demo, walk, "--json"))
    jsonschema.validate(answer, json.loads((DOCS / "json" / "set.schema.json").read_text()))
    (told,) = answer["walks"]
    assert told["check"] == walk.partition(":")[0]
    assert told["clear"]
    if len(told["walk"]["points"]) == 3:
        assert told["walk"]["nothing"]["low"] < told["walk"]["nothing"]["high"]
        assert (told["pack"] is None) == (demo == "headstock")


def test_slips_come_with_line_and_way_out(tmp_path: Path) -> None:
    """A pack that does not move the float stops the answer, at its own line."""
    walk = "wheel float: {with: cartridge shim, 0.5: 0.1, 0.6: 0.2, 0.7: 0.3}"
    told = _flat(_set(tmp_path, "bevel-box", walk, code=1))
    assert "stop: 'cartridge shim' does not move 'wheel float'" in told
    assert "name the pack or nut that was changed" in told


def test_page_shows_what_is_printed(tmp_path: Path) -> None:
    """The block on docs/walk.md is the one that its own readings give."""
    page = (DOCS / "walk.md").read_text(encoding="utf-8")
    shown = next(b for b in page.split("```") if "Walk: wheel float" in b)
    block = _block(_set(tmp_path, "bevel-box", BEVEL), "Walk: wheel float")
    assert shown.removeprefix("text\n").strip() == block.strip()
