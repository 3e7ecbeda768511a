"""Packs that act together, on the bevel box: all aims met as typed, signs by hand."""

import numpy as np
import pytest
from tests.invariance.telling import DEMOS

from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.settings import choose_all
from dryfit.ask.slopes import pack_slope
from dryfit.ask.targets import targets
from dryfit.ask.together import ideals

PACKS = ["cover shim", "cartridge shim"]


def box(*words: tuple[str, str]) -> Asking:
    """Open the bevel box with other words."""
    text = (DEMOS / "bevel-box.yaml").read_text(encoding="utf-8")
    for old, new in words:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    opened = open_text(text)
    assert not opened.stopped, [finding.message for finding in opened.findings]
    return Asking(opened.rebuild, 400)


def test_ideal_packs_meet_every_aim_that_they_move() -> None:
    """Asked again with those packs, nip and lash are in the middle of what is wanted."""
    asking = box()
    wanted = tuple(t for t in targets(asking.rebuild) if t.need.name in ("wheel nip", "lash"))
    found = ideals(asking, wanted, PACKS, {})
    for target in wanted:
        assert asking.typed(target.need, found) == pytest.approx(target.aim, abs=0.1e-6)


def test_case_deeper_by_a_twentieth_wants_a_thinner_cover_pack_by_as_much() -> None:
    """The joint lies further out, so the spigot has to come in: -0.05; and the wheel stays."""
    deeper = ("case.register to case.joint: 72.00", "case.register to case.joint: 72.05")
    packs = []
    for asking in (box(), box(deeper)):
        wanted = tuple(t for t in targets(asking.rebuild) if t.need.name in ("wheel nip", "lash"))
        packs.append(ideals(asking, wanted, PACKS, {}))
    moved = {part: packs[1][part] - packs[0][part] for part in PACKS}
    assert moved["cover shim"] == pytest.approx(-50e-6, abs=0.3e-6)
    assert moved["cartridge shim"] == pytest.approx(0.0, abs=0.3e-6)


MITRE = 2 * np.tan(np.radians(20.0))
PINION, WHEEL = MITRE * 20 / np.hypot(20, 30), MITRE * 30 / np.hypot(20, 30)
"""Arc of lash for a millimetre along the axis, 2 tan(alpha) sin(delta): 0.404 and 0.606, [METRIC]
14-3; 20 and 30 teeth, so sin(delta) is 20 or 30 over the root of 20^2 + 30^2."""

SIGNS = [
    (
        "cover shim",
        "wheel nip",
        -0.94,
        0.06,
        "it holds the spigot off the outer ring: less nip, "
        "all of it but what cover and rings yield",
    ),
    ("cover shim", "pinion preload", 0.0, 0.0, "it lies in the wheel's line"),
    ("cartridge shim", "wheel nip", 0.0, 0.0, "it lies in the pinion's line"),
    ("cartridge shim", "pinion preload", 0.0, 0.0, "the nut presses the pair, not the flange"),
    ("cartridge shim", "lash", PINION, 0.001, "it draws the pinion out of mesh, to the drive"),
    (
        "cover shim",
        "lash",
        WHEEL / 2,
        0.02,
        "the wheel hangs between two rows alike, and one of "
        "them goes out with the cover: half of it, out of mesh",
    ),
]


@pytest.mark.parametrize(("part", "need", "slope", "within", "why"), SIGNS)
def test_thicker_pack(part: str, need: str, slope: float, within: float, why: str) -> None:
    """Which way and how far each setting moves each need, by hand; packs of 0.36 and 0.50."""
    asking = box()
    packs = {"cover shim": 0.36e-3, "cartridge shim": 0.50e-3}
    found = pack_slope(asking, asking.rebuild.needs[need], packs, part)
    assert found == pytest.approx(slope, abs=within), why


def test_signs_leave_no_setting_out() -> None:
    """Every setting of the box has its row for every need."""
    rebuild = box().rebuild
    assert {row[:2] for row in SIGNS} == {(s, n) for s in rebuild.settings for n in rebuild.needs}


def test_two_packs_on_one_float_share_what_is_missing() -> None:
    """Begun alike, each takes half: the least change of both."""
    two = (
        "settings:\n",
        "settings:\n  inner shim: {made from: [0.05, 0.10]}\n",
    )
    part = (
        "  cover shim: {kind: shim pack}\n",
        "  cover shim: {kind: shim pack}\n  inner shim: {kind: shim pack}\n",
    )
    stack = ("[case.register, inner bearing]", "[case.register, inner shim, inner bearing]")
    asking = box(two, part, stack)
    (nip,) = (t for t in targets(asking.rebuild) if t.need.name == "wheel nip")
    found = ideals(asking, [nip], ["cover shim", "inner shim"], {})
    begun = 0.3e-3
    assert found["cover shim"] - begun == pytest.approx(begun - found["inner shim"], abs=1e-6)
    assert asking.typed(nip.need, found) == pytest.approx(nip.aim, abs=0.1e-6)


def test_chosen_packs_are_those_of_the_drawer() -> None:
    """Each can be made, and the nip as typed is within what is wanted."""
    asking = box()
    wanted = targets(asking.rebuild)
    packs = choose_all(asking, wanted, PACKS, {})
    stock = (5, 10, 12, 15, 25)
    reach = {0} | {a + b + c for a in (0, *stock) for b in (0, *stock) for c in (0, *stock)}
    assert all(round(packs[part] * 1e5) in reach for part in PACKS)
    nip = asking.typed(asking.rebuild.needs["wheel nip"], packs)
    assert 0.005e-3 < nip < 0.030e-3
