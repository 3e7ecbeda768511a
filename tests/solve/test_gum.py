"""Sums of four sizes as a user types them, against the GUM's own example.

JCGM 101:2008 (GUM Supplement 1), 9.2: four quantities of unit deviation are added. `copies` in
tests/checks does the same on bare draws; here they are sizes of a document, and their sum a float.
A hundredth of a millimetre stands for the example's unit.
"""

import numpy as np
import pytest

from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.needed import Needed, needed
from dryfit.ask.targets import targets
from dryfit.solve.luck import Array

UNIT = 0.01e-3

DRAWS = 1_000_000
"""Standard error of the mean 0.002, of the deviation 0.0014, of a quantile at 97.5 % 0.0055."""

ROW = """
dryfit: 1
sizes in: mm
title: Four sizes in a row
instruments:
  gauge a: {{like: feelers, limit: {limit}}}
  gauge b: {{like: feelers, limit: {limit}}}
  gauge c: {{like: feelers, limit: {limit}}}
  gauge d: {{like: feelers, limit: {limit}}}
lines:
  block:
    from left to right:
      row: [room.left, one, two, shaft, room.right]
parts:
  room: {{kind: housing}}
  one: {{kind: spacer}}
  two: {{kind: spacer}}
  shaft: {{kind: shaft}}
sizes:
  room.left to room.right: 60.50 {a}
  one: 20.00 {b}
  two: 10.00 {c}
  shaft: 30.00 {d}
needs:
  float: {{kind: float, of: shaft, want: 0.48 to 0.52}}
"""

NORMAL = dict.fromkeys("abcd", "+/- 0.02")
"""Two standard deviations, so a deviation of one unit (docs/format.md)."""

FLAT = {name: f"by gauge {name}" for name in "abcd"}
"""The half width of a rectangle of unit deviation is the root of three (JCGM 100:2008, 4.3.7).

Like feelers, for these share no part of their limit: the four are independent.
"""


def _asked(typed: dict[str, str]) -> tuple[Array, Needed]:
    """True float [units], and how the need for it stands."""
    opened = open_text(ROW.format(limit=f"{3**0.5 / 100:.8f}", **typed))
    assert not opened.stopped, opened.findings
    asking = Asking(opened.rebuild, DRAWS)
    wanted = targets(opened.rebuild)
    (stands,) = needed(asking, wanted, {})
    return asking.true(wanted[0].need, {}).true / UNIT, stands


@pytest.mark.parametrize(
    ("typed", "end"),
    [
        pytest.param(NORMAL, 3.92, id="normal, table 2"),
        pytest.param(FLAT, 3.88, id="rectangular, table 3"),
    ],
)
def test_four_sizes_in_a_row(typed: dict[str, str], end: float) -> None:
    """Deviation 2.0 and 95 in 100 within 3.92, of rectangles 3.88 (JCGM 101:2008, 9.2.2, 9.2.3).

    Half of the last printed digit and three standard errors: 3.92 and 3.88 are told apart.
    """
    values, _ = _asked(typed)
    assert values.mean() == pytest.approx(50.0, abs=0.01)
    assert values.std() == pytest.approx(2.0, abs=0.007)
    low, high = np.quantile(values, (0.025, 0.975)) - 50.0
    assert high == pytest.approx(end, abs=0.005 + 0.0165)
    assert low == pytest.approx(-end, abs=0.005 + 0.0165)


@pytest.mark.parametrize(
    ("typed", "end", "within"),
    [
        # 1.644854 x 2; 2 Phi(1) - 1
        pytest.param(NORMAL, 3.2897, 0.6827, id="normal"),
        # Four rectangles from 0 to 1 have (t**4 - 4 (t - 1)**4) / 24 of their sum within t <= 2 of
        # an end (Irwin and Hall, 1927): 0.05 at t = 1.0466, and (2 - t) 2 sqrt(3) = 3.3025.
        # Two units from the middle t = 2 - 2 / (2 sqrt(3)) = 1.42265: 0.16535 on either side.
        pytest.param(FLAT, 3.3025, 0.6693, id="rectangular"),
    ],
)
def test_band_and_chance_that_are_told(typed: dict[str, str], end: float, within: float) -> None:
    """Nine in ten, and the chance to be within 0.48 to 0.52, are those of the closed form.

    Five standard errors: 0.0045 of the 5 % quantile, 0.0005 of the share.
    """
    _, stands = _asked(typed)
    assert stands.low is not None
    assert stands.high is not None
    assert stands.low / UNIT == pytest.approx(50.0 - end, abs=0.0225)
    assert stands.high / UNIT == pytest.approx(50.0 + end, abs=0.0225)
    assert stands.chance == pytest.approx(within, abs=0.0025)
