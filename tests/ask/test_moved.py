"""A setting moved: the same answers as on the whole sheet, of fewer draws; slips are told."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from tests.bench.test_readings import opened

from dryfit.app.cli.main import cli
from dryfit.app.usecases import demos
from dryfit.app.usecases.try_on import try_on
from dryfit.ask.asking import Asking
from dryfit.ask.closing import close_up
from dryfit.ask.moved import moved

BEVEL = demos.text("bevel-box")
HEADSTOCK = demos.text("headstock")
IN = ("cover shim: 0.37", "cartridge shim: 0.50")


def test_readings_are_those_of_the_sheet_with_the_same_packs() -> None:
    """As typed to a nanometre; a band of 2 000 draws within a hundredth of a millimetre."""
    asking = Asking(opened("bevel-box"), 4_000)
    whole = close_up(asking)
    packs = {one.part: one.in_hand or 0.0 for one in whole.settings}
    tried = moved(asking, packs)
    for one, other in zip(whole.expected, tried.expected, strict=True):
        if one.in_newton:
            continue
        assert other.typed == pytest.approx(one.typed, abs=1e-9)
        assert other.high == pytest.approx(one.high, abs=0.01e-3)


def test_more_shim_under_the_cover_gives_more_float_and_less_nip() -> None:
    """0.05 more of pack: the nip falls by 0.05 where rows have parted, its sign as by hand."""
    asking = Asking(opened("bevel-box"), 2_000)
    nips = [
        moved(asking, {"cover shim": at, "cartridge shim": 0.5e-3}).needed[0].typed or 0.0
        for at in (0.45e-3, 0.50e-3)
    ]
    assert nips[1] - nips[0] == pytest.approx(-0.05e-3, abs=0.001e-3)


def test_it_is_told_as_a_first_look(tmp_path: Path) -> None:
    """With the number of draws, in words and in JSON; the readings are those as tried."""
    runner, box = CliRunner(), tmp_path / "box.yaml"
    box.write_bytes(BEVEL)
    words = [w for pack in IN for w in ("--with", pack)]
    told = runner.invoke(cli, ["expect", str(box), *words])
    assert told.exit_code == 0
    assert "Tried on: a first look" in told.output
    assert "as tried" in told.output
    found = json.loads(runner.invoke(cli, ["expect", str(box), "--json", *words]).output)
    assert found["first_look"] == 2_000
    plain = json.loads(runner.invoke(cli, ["expect", str(box), "--json"]).output)
    assert plain["first_look"] == 0


def test_nut_is_tried_by_the_float_it_is_set_to() -> None:
    """Set to 0.012, the float as typed is 0.012; the dial shows what yields besides."""
    answer = try_on(HEADSTOCK, ["nut: 0.012"]).answer
    assert answer is not None
    (need,) = answer.needs
    assert need.expected_mm == pytest.approx(0.012, abs=1e-6)
    assert answer.settings[0].nut is not None


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (["cover shin: 0.40"], "did you mean 'cover shim'"),
        (["cover shim: -1"], "thinner than nothing"),
        (["cover shim 0.40"], "a colon"),
        (["cover shim: thick"], "cover shim: thick"),
        (["cover shim: not known"], "type its thickness"),
        (["cover shim: 0.40"], "'cartridge shim' is not fitted"),
        ([*IN, "cover shim: 0.40"], "named twice"),
    ],
)
def test_what_is_wrong_with_a_pack_is_told(typed: list[str], says: str) -> None:
    """Name, place and way out; nothing is answered."""
    tried = try_on(BEVEL, typed)
    assert tried.answer is None
    assert any(says in slip for slip in tried.slips)


def test_all_that_is_wrong_is_told_at_once() -> None:
    """Three slips, three messages."""
    assert len(try_on(BEVEL, ["x", "cover shin: 1", "cover shim: -1"]).slips) == 3
