"""Draws belong to their place in the text: one edit moves one size, more draws begin the same."""

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from tests.invariance.telling import (
    DOCUMENTS,
    ROOT,
    Data,
    ask,
    data_of,
    packs_in,
    tell,
    text_of,
)

from dryfit.ask.asking import Asking
from dryfit.document.read import read_document
from dryfit.model.rebuild import Check, Need
from dryfit.quantities import Size
from dryfit.solve.luck import Array

EACH = pytest.mark.parametrize("name", DOCUMENTS)
SIZES = [(name, key) for name in DOCUMENTS for key in data_of(name)["sizes"]]


def _drawn(data: Data, count: int = 500) -> dict[str, Array]:
    """Give every drawn size and gasket by its place in the text."""
    drawn = Asking(read_document(text_of(data)).rebuild, count).drawn
    sizes = {f"sizes {key}": values for key, values in drawn.sizes.items()}
    return sizes | {f"parts {name}": values for name, values in drawn.nipped.items()}


def _nudged(data: Data, key: str) -> Data:
    """Change the value of one size in the last digit but one, all else as it was."""
    number, _, rest = data["sizes"][key].partition(" ")
    digits = number.replace("5/32", "0.15625")
    value = float(digits) + 10.0 ** (1 - len(digits.partition(".")[2]))
    decimals = len(digits.partition(".")[2])
    return {**data, "sizes": {**data["sizes"], key: f"{value:.{decimals}f} {rest}".strip()}}


@pytest.mark.parametrize(("name", "key"), SIZES)
def test_edit_of_one_size_moves_no_other(name: str, key: str) -> None:
    """A builder who measures one part again sees the change of that part, not new luck."""
    data = data_of(name)
    before, after = _drawn(data), _drawn(_nudged(data, key))
    moved = {place for place in before if not np.array_equal(before[place], after[place])}
    assert moved == {f"sizes {key}"}


@EACH
def test_first_look_is_the_beginning_of_the_full_answer(name: str) -> None:
    """2 000 draws of every size and every check are the first of the 20 000."""
    data = data_of(name)
    few, many = ask(data, 2_000), ask(data, 20_000)
    packs = packs_in(name, few)
    for place, values in _drawn(data, 20_000).items():
        assert np.array_equal(_drawn(data, 2_000)[place], values[:2_000]), place
    asked_of: list[Check | Need] = [*few.rebuild.checks.values(), *few.rebuild.needs.values()]
    for asked in asked_of:
        one, other = few.true(asked, packs), many.true(asked, packs)
        assert np.array_equal(one.true, other.true[:2_000]), asked.name
        assert np.array_equal(one.shown, other.shown[:2_000]), asked.name


TELL = """
import sys
from tests.invariance.telling import data_of, tell
print(repr(tell(sys.argv[1], data_of(sys.argv[1]))))
"""


def _told_elsewhere(name: str, seed: str) -> str:
    """Let another Python tell, with its own hashes of names."""
    paths = os.pathsep.join([str(ROOT / "src"), str(ROOT)])
    done = subprocess.run(
        [sys.executable, "-c", TELL, name],
        env={**os.environ, "PYTHONPATH": paths, "PYTHONHASHSEED": seed},
        cwd=Path(ROOT),
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout.strip()


@pytest.mark.parametrize("name", ["feed-box", "two-covers", "side-by-side"])
def test_same_text_gives_the_same_bits(name: str) -> None:
    """Today or tomorrow, the same text gets the same answer to the last bit."""
    assert (
        _told_elsewhere(name, "1") == _told_elsewhere(name, "2") == repr(tell(name, data_of(name)))
    )


def test_tolerance_of_one_size_is_its_own() -> None:
    """A size measured better keeps the same draws, only closer together."""
    data = data_of("two-covers")
    wide = ask(data, 500)
    closer = {**data, "sizes": {**data["sizes"], "spacer": "28.90 +/- 0.005"}}
    narrow = ask(closer, 500)
    assert np.allclose(_errors(wide), 2 * _errors(narrow), rtol=0, atol=1e-16)


def _errors(asking: Asking) -> Array:
    """How far the drawn spacer is from the typed one [m]."""
    size = asking.rebuild.sizes["spacer"].size
    assert isinstance(size, Size)
    return asking.drawn.sizes["spacer"] - float(size.value) / 1e3
