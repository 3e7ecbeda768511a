"""A unit with bearings, nuts and springs, written in another way, reads the same.

The rewriting is that of `turns`; units are those of tests/giving. Bodies come to rest to a
nanometre, so that is how near two tellings must be.
"""

from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml
from tests.invariance.telling import Data, text_of
from tests.invariance.turns import mirrored, renamed, shuffled

from dryfit.app.usecases.opening import open_text
from dryfit.solve.luck import Luck, NoLuck, full
from dryfit.solve.predict import predict
from dryfit.solve.sample import sample

FOLDER = Path(__file__).resolve().parent.parent / "giving"
UNITS = sorted(path.stem for path in FOLDER.glob("*.yaml"))
DRAWS, NEAR = 64, 3e-9


def data_of(name: str) -> Data:
    """Read a unit as plain data."""
    text = (FOLDER / f"{name}.yaml").read_text(encoding="utf-8")
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
            np.testing.assert_allclose(theirs, mine, rtol=1e-5, atol=NEAR, err_msg=name)


@pytest.mark.parametrize("name", UNITS)
def test_line_looked_at_from_its_other_end(name: str) -> None:
    """Whichever end the builder starts from, every reading is the same."""
    alike(told(data_of(name)), told(mirrored(data_of(name))))


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
