"""Chance of a route that starts from a reading, against closed forms worked by hand.

Whatever the sizes, what a reading holds already cancels: the error of the reading itself, how far
the nearest pack is from what is wished, and what is not yet in while it is taken are left.
"""

from importlib.resources import files
from math import erf, sqrt

import pytest

from dryfit.ask.asking import Asking
from dryfit.ask.routes import GAP, TAKE_OUT, Route, gone
from dryfit.ask.targets import targets
from dryfit.document.read import read_document

DRAWS = 50_000
"""Standard error of a share of 0.9: 0.0013."""

LOOSE = ("shaft: 148.70", "shaft: 148.70 +/- 0.2")
"""A shaft nobody trusts: 0.1 mm deviation, many steps of the drawer, so that rounding is even."""


def _gone(name: str, *changes: tuple[str, str]) -> Route:
    text = (files("dryfit.app") / "demos" / "feed-box.yaml").read_text(encoding="utf-8")
    for typed, instead in changes:
        assert typed in text
        text = text.replace(typed, instead)
    document = read_document(text)
    assert document.located() == ()
    asking = Asking(document.rebuild, DRAWS)
    return gone(name, asking, targets(document.rebuild), "thrust shim", {})


def _gasket(tolerance: str) -> tuple[str, str]:
    return "0.21 +/- 0.02", f"0.21 +/- {tolerance}"


FINE = ("[0.05, 0.10, 0.25, 0.50]", "[0.01, 2 of 0.02, 0.05, 2 of 0.1, 0.2, 0.3]")
"""A drawer that makes about every hundredth."""


def test_closing_gap_leaves_gasket_feelers_and_drawer() -> None:
    """Gasket 0.21 +/- 0.06, feelers 0.015, drawer by 0.01: 0.889 to be within 0.05 of the middle.

    Deviations 30, 15 / sqrt(3) = 8.66 and 5 / sqrt(3) = 2.89 um, together 31.36 (JCGM 100:2008,
    5.1.2, 4.3.7). The float of the shaft, trusted or not, is in the gap. Two packs measured by
    micrometer, 4 um each of which 0.71 are its own, add 2.3 um: 31.44.
    """
    s = sqrt(30**2 + 15**2 / 3 + 5**2 / 3 + 2 * (4 * sqrt(1 - 0.7**2)) ** 2 / 3)
    by_hand = erf(50 / s / sqrt(2))
    assert _gone(GAP, _gasket("0.06"), FINE).chance == pytest.approx(by_hand, abs=0.007)
    assert _gone(GAP, _gasket("0.06"), FINE, LOOSE).chance == pytest.approx(by_hand, abs=0.007)


def test_gasket_not_in_its_middle_shifts_the_chance() -> None:
    """Wanted 0.05 to 0.10: Phi(0.8) - Phi(-0.8) of a deviation of 31.4 um, 0.574."""
    narrower = ("want: 0.05 to 0.15", "want: 0.05 to 0.10")
    by_hand = erf(25 / 31.44 / sqrt(2))
    assert _gone(GAP, _gasket("0.06"), FINE, narrower).chance == pytest.approx(by_hand, abs=0.011)


DIAL = (
    ("sizes in: mm", "sizes in: mm\ninstruments:\n  old clock: {like: feelers, limit: 0.03}"),
    ("by: dial indicator", "by: old clock"),
    ("want: 0.05 to 0.15", "want: 0.06 to 0.14"),
)
"""A dial that may be off by 0.03 either way."""


def test_reading_it_leaves_the_dial_and_the_drawer() -> None:
    """Dial within 30 um, nearest pack within 25, wanted within 40 of the middle: 0.923.

    The two rectangles make a trapezium that falls from 5 to 55: beyond 40 lie 15^2 / (60 x 50),
    and the two packs measured by micrometer (each 2.86 um its own) add 2 x 2.86^2 / 3 to the 15^2.
    """
    by_hand = 1 - (15**2 + 2 * 2.86**2 / 3) / (60 * 50)
    assert _gone(TAKE_OUT, *DIAL, LOOSE).chance == pytest.approx(by_hand, abs=0.006)


@pytest.mark.parametrize(
    ("name", "before"),
    [
        pytest.param(GAP, 30**2 + 15**2 / 3 + 4**2 / 3, id="gap: gasket, feelers, trial pack"),
        pytest.param(TAKE_OUT, 10**2 / 3 + 4**2 / 3, id="read: dial, trial pack"),
    ],
)
def test_washer_cut_to_size_brings_the_error_of_its_cut(name: str, before: float) -> None:
    """Cut to +/- 0.08, a deviation of 40 um: no reading of the washer before takes that away.

    Wanted within 50 um of the middle. Whatever was fitted at the reading is another piece; a
    micrometer is good to 4 um, what of it is common to both cancels and is left in the tolerance.
    """
    cut = ("made from: [0.05, 0.10, 0.25, 0.50]", "cut to size: +/- 0.08, fitted: 0.20")
    by_hand = erf(50 / sqrt(before + 40**2 + 5**2 / 3) / sqrt(2))
    assert _gone(name, cut, _gasket("0.06")).chance == pytest.approx(by_hand, abs=0.012)
