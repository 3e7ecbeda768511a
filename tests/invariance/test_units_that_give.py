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
from dryfit.solve.luck import Luck, NoLuck, full
from dryfit.solve.predict import predict
from dryfit.solve.sample import sample

TESTS = Path(__file__).resolve().parent.parent
FOLDERS = {"giving": TESTS / "giving", "scenarios": TESTS / "scenarios", "demos": DEMOS}
PATHS = {
    f"{name}/{path.stem}": path
    for name, folder in FOLDERS.items()
    for path in sorted(folder.glob("*.yaml"))
    if name != "demos" or gives(path)
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
    packs = {name: full(luck, 0.1e-3) for name in rebuild.settings}
    asked = rebuild.checks.items()
    return {name: predict(rebuild, check, drawn, packs=packs) for name, check in asked}


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
def test_a_spacer_or_case_by_another_name(name: str) -> None:
    """A name counts for nothing: sorted first or last, the nominal reading stays."""
    data = data_of(name)
    for part in [p for p, given in data["parts"].items() if given["kind"] in ("spacer", "nut")]:
        for new in ("aa", "zz"):
            one, other = (told_nominal(d) for d in (data, renamed(data, part, new)))
            assert other == pytest.approx(one, abs=NEAR, rel=1e-5)


@pytest.mark.parametrize("name", UNITS)
def test_in_inches(name: str) -> None:
    """The same sizes as fractions of an inch; a nut's thread and a spring's force stay."""
    one, other = (told_nominal(d) for d in (data_of(name), in_other_units(data_of(name))))
    assert other == pytest.approx(one, abs=NEAR, rel=1e-5)


DRILL_SHOULDERS = "spindle.top shoulder to spindle.nose shoulder"

TOGETHER = {
    "demos/bevel-box": ["sleeve", "spacer"],
    "giving/bench-drill": [
        "case.joint to case.nose register",
        "spindle.top shoulder to spindle.nose shoulder",
    ],
    "giving/bevel-drive": ["case.register to case.joint", "cover.flange to cover.spigot -"],
    "giving/change-box": ["case.low to case.high", "wheel"],
    "giving/quill": ["inner spacer", "outer spacer"],
    "scenarios/bench-drill": [
        "case.joint to case.ledge",
        "spindle.top shoulder to spindle.nose shoulder",
    ],
    "scenarios/quill": [
        "spindle.shoulder to spindle.tail shoulder",
        "quill.register to quill.spring seat",
    ],
    "scenarios/taper-headstock": ["distance piece", "case.front register to case.rear register -"],
}
"""Two sizes of one chain; where both grow, the one takes what the other gives. With a minus the
second shrinks."""


@pytest.mark.parametrize("name", UNITS)
def test_one_longer_and_another_as_much_of_the_same_chain(name: str) -> None:
    """+d and -d: a twentieth of a millimetre more here and less there leaves every cold reading.

    Clamped spacers of other length give otherwise: 0.05 of some 20 mm is 1 in 400 of what they
    yield, a hundredth of a micrometre.
    """
    data = data_of(name)
    cold = {n: c for n, c in data["checks"].items() if c.get("state") in (None, "nipped")}
    data["checks"] = cold
    changed = deepcopy(data)
    for size in TOGETHER[name]:
        key, sign = size.removesuffix(" -"), -1 if size.endswith(" -") else 1
        changed["sizes"][key] = longer(changed["sizes"][key], sign * Decimal("0.05"))
    one, other = told_nominal(data), told_nominal(changed)
    assert all(near(one[n], other[n], cold[n]["kind"]) for n in cold)
    changed["sizes"][TOGETHER[name][0].removesuffix(" -")] = data["sizes"][TOGETHER[name][0]]
    moved = told_nominal(changed)
    assert not all(near(one[n], moved[n], cold[n]["kind"]) for n in cold)


def near(one: float, other: float, kind: str) -> bool:
    """Hold a length to 0.02 um, and what hangs on preload to two in a thousand besides."""
    return abs(one - other) <= 2e-8 + (0 if kind == "depth" else 2e-3 * abs(one))


def longer(text: str, by: Decimal) -> str:
    """Add to a typed size."""
    return re.sub(r"^-?[\d.]+", lambda found: str(Decimal(found[0]) + by), text)


def told_nominal(data: Data) -> dict[str, float]:
    """Ask for every check with all sizes as typed."""
    opened = open_text(text_of(data))
    rebuild, luck = opened.rebuild, NoLuck()
    drawn = sample(rebuild, luck)
    packs = {name: full(luck, 0.1e-3) for name in rebuild.settings}
    return {
        name: float(predict(rebuild, check, drawn, packs=packs).shown[0])
        for name, check in rebuild.checks.items()
    }
