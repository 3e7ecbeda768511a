"""A unit with bearings, nuts and springs, written in another way, reads the same.

The rewriting is that of `turns`; units are those of tests/giving, tests/scenarios and the demos
that give. Bodies come
to rest to a nanometre, so that is how near two tellings must be.
"""

import re
from copy import deepcopy
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml
from tests.invariance.telling import DEMOS, Data, gives, text_of
from tests.invariance.turns import in_other_units, mirrored, renamed, shuffled

from dryfit.app.usecases.opening import open_text
from dryfit.model.rebuild import Rebuild
from dryfit.solve.luck import Luck, NoLuck, full
from dryfit.solve.predict import predict
from dryfit.solve.sample import sample

TESTS = Path(__file__).resolve().parent.parent
FOLDERS = {"giving": TESTS / "giving", "scenarios": TESTS / "scenarios", "demos": DEMOS}
PATHS = {
    f"{name}/{path.stem}": path
    for name, folder in FOLDERS.items()
    for path in sorted(folder.glob("*.yaml"))
    if name != "demos" or (gives(path) and not path.stem.startswith("bevel-box-"))
}
UNITS = sorted(PATHS)
DRAWS, NEAR = 64, 3e-9


def data_of(name: str) -> Data:
    """Read a unit as plain data."""
    text = PATHS[name].read_text(encoding="utf-8")
    data: Data = yaml.load(text, Loader=yaml.BaseLoader)
    data.setdefault("settings", {})
    data.setdefault("needs", {})
    return data


def told(data: Data) -> dict[str, Any]:
    """Ask for every check, draw by draw."""
    opened = open_text(text_of(data))
    assert not opened.stopped, [found.message for found in opened.findings]
    rebuild, luck = opened.rebuild, Luck(DRAWS)
    drawn = sample(rebuild, luck)
    packs = {name: full(luck, pack(rebuild)) for name in rebuild.settings}
    asked = rebuild.checks.items()
    return {name: predict(rebuild, check, drawn, packs=packs) for name, check in asked}


PACKS = {"Skell Lathe right-angle box": 0.45e-3}
"""Packs that leave float, where 0.1 mm would press everything."""


def pack(rebuild: Rebuild) -> float:
    """Give a thickness for every pack of a unit [m]."""
    return PACKS.get(rebuild.title, 0.1e-3)


def alike(one: dict[str, Any], other: dict[str, Any]) -> None:
    """Hold two tellings to be the same draw by draw."""
    assert one.keys() == other.keys()
    for name, found in one.items():
        for field in ("true", "shown"):
            mine, theirs = getattr(found, field), getattr(other[name], field)
            np.testing.assert_allclose(theirs, mine, rtol=1e-4, atol=NEAR, err_msg=name)


@pytest.mark.parametrize("name", UNITS)
def test_line_looked_at_from_its_other_end(name: str) -> None:
    """Whichever end the builder starts from, every reading is the same; a depth has its sign."""
    turned, data = told(mirrored(data_of(name))), data_of(name)
    for check in data["checks"]:
        if data["checks"][check]["kind"] == "depth":
            turned[check] = replace(turned[check], true=-turned[check].true)
    alike(told(data), turned)


@pytest.mark.parametrize("name", UNITS)
def test_entries_in_another_order(name: str) -> None:
    """Where a part, stack or size stands in the text changes no reading."""
    alike(told(data_of(name)), told(shuffled(data_of(name), 3)))


@pytest.mark.parametrize("name", UNITS)
def test_a_part_by_another_name(name: str) -> None:
    """A name counts for nothing: sorted first or last, the nominal reading stays."""
    data = data_of(name)
    one = told_nominal(data)
    for number, part in enumerate(data["parts"]):
        new = ("aa", "zz")[number % 2]
        other = told_nominal(renamed(data, part, new))
        assert other == pytest.approx(one, abs=NEAR, rel=1e-5), part


@pytest.mark.parametrize("name", UNITS)
def test_in_inches(name: str) -> None:
    """The same sizes as fractions of an inch; a nut's thread and a spring's force stay."""
    one, other = (told_nominal(d) for d in (data_of(name), in_other_units(data_of(name))))
    assert other == pytest.approx(one, abs=NEAR, rel=1e-5)


RIGID = (4e-9, 1e-6)
"""Lengths [m] and forces [-] of lines whose parts do not give: as near as bodies come to rest."""

CLAMPED = (4e-9, 1e-3)
"""The same where both parts are under a nut: 0.05 of some 20 mm is 1 in 400 of what they yield.

7 kN shorten an inner spacer of 46 over 35 by 1 um, so by 2.4 nm more, and a row of 30 N/um then
carries 0.07 N less of 150; a cord goes by the power 1.33 of that.
"""

Chain = tuple[str, str, str, tuple[float, float]]

CHAINS: list[Chain] = [
    ("demos/bench-drill", "case.joint to case.ledge", "cover.flange to cover.spigot", RIGID),
    ("demos/headstock", "distance piece", "case.front register to case.rear register -", RIGID),
    ("demos/quill", "inner spacer", "outer spacer", CLAMPED),
    ("demos/bevel-box", "sleeve", "spacer", CLAMPED),
    ("demos/bevel-box", "case.register to case.joint", "cover.flange to cover.spigot -", RIGID),
    (
        "demos/bevel-box",
        "case.pinion crossing to case.nose joint",
        "pinion shaft.apex to pinion shaft.shoulder",
        RIGID,
    ),
    (
        "giving/bench-drill",
        "case.joint to case.nose register",
        "spindle.top shoulder to spindle.nose shoulder",
        RIGID,
    ),
    (
        "giving/bench-drill",
        "cover.flange to cover.spigot",
        "case.joint to case.nose register",
        RIGID,
    ),
    ("giving/bevel-drive", "case.register to case.joint", "cover.flange to cover.spigot -", RIGID),
    ("giving/bevel-drive", "sleeve", "case.register to case.joint", CLAMPED),
    (
        "giving/bevel-drive",
        "case.pinion crossing to case.nose joint",
        "pinion shaft.apex to pinion shaft.shoulder",
        RIGID,
    ),
    (
        "giving/bevel-drive",
        "cartridge.flange to cartridge.register",
        "case.pinion crossing to case.nose joint -",
        RIGID,
    ),
    ("giving/change-box", "case.low to case.high", "wheel", RIGID),
    ("giving/change-box", "inner spacer", "outer spacer", CLAMPED),
    ("giving/quill", "inner spacer", "outer spacer", CLAMPED),
    (
        "scenarios/bench-drill",
        "case.joint to case.ledge",
        "spindle.top shoulder to spindle.nose shoulder",
        RIGID,
    ),
    (
        "scenarios/bench-drill",
        "cover.flange to cover.spigot",
        "spindle.top shoulder to spindle.nose shoulder -",
        RIGID,
    ),
    ("scenarios/bench-drill", "case.ledge to case.groove", "pocket ring", RIGID),
    ("scenarios/quill", "inner spacer", "outer spacer", CLAMPED),
    (
        "scenarios/quill",
        "spindle.shoulder to spindle.tail shoulder",
        "quill.register to quill.spring seat",
        RIGID,
    ),
    (
        "scenarios/taper-headstock",
        "distance piece",
        "case.front register to case.rear register -",
        RIGID,
    ),
]
"""A unit and two sizes of one chain; where both grow, the one takes what the other gives. With a
minus the second shrinks."""


@pytest.mark.parametrize(("name", "one", "other", "within"), CHAINS)
def test_one_longer_and_another_as_much_of_the_same_chain(
    name: str, one: str, other: str, within: tuple[float, float]
) -> None:
    """+d and -d: a twentieth of a millimetre more here and less there leaves every cold reading.

    The first alone moves some reading, so that the second is what puts it back.
    """
    data = data_of(name)
    cold = {n: c for n, c in data["checks"].items() if c.get("state") in (None, "nipped")}
    data["checks"] = cold
    data.pop("readings", None)
    alone, both = deepcopy(data), deepcopy(data)
    second, sign = other.removesuffix(" -"), -1 if other.endswith(" -") else 1
    for changed in (alone, both):
        changed["sizes"][one] = longer(changed["sizes"][one], Decimal("0.05"))
    both["sizes"][second] = longer(both["sizes"][second], sign * Decimal("0.05"))
    before = told_nominal(data)
    assert moved(cold, before, told_nominal(both), within) == {}
    assert moved(cold, before, told_nominal(alone), within) != {}


def moved(
    checks: Data, one: dict[str, float], other: dict[str, float], within: tuple[float, float]
) -> dict[str, tuple[float, float]]:
    """List the checks that read otherwise, lengths [m] and forces [N] each by their own measure."""
    length, share = within
    allowed = {
        name: share * abs(one[name]) if checks[name]["kind"] == "cord pull" else length
        for name in one
    }
    return {n: (one[n], other[n]) for n in one if not abs(one[n] - other[n]) <= allowed[n]}


def longer(text: str, by: Decimal) -> str:
    """Add to a typed size."""
    return re.sub(r"^-?[\d.]+", lambda found: str(Decimal(found[0]) + by), text)


def told_nominal(data: Data) -> dict[str, float]:
    """Ask for every check with all sizes as typed."""
    opened = open_text(text_of(data))
    assert not opened.stopped, [found.message for found in opened.findings]
    rebuild, luck = opened.rebuild, NoLuck()
    drawn = sample(rebuild, luck)
    packs = {name: full(luck, pack(rebuild)) for name in rebuild.settings}
    return {
        name: float(predict(rebuild, check, drawn, packs=packs).shown[0])
        for name, check in rebuild.checks.items()
    }
