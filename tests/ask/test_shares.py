"""What makes up the doubt of a reading, against the law of propagation by hand."""

import pytest

from dryfit.app.usecases import demos
from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.shares import DIAL, ELSE, shares

TEXT = """
dryfit: 1
sizes in: mm
lines:
  shaft line:
    from left to right:
      in the case: [case.face, washer, shaft, case.far face]
parts:
  case:   {kind: housing}
  shaft:  {kind: shaft}
  washer: {kind: thrust washer}
sizes:
  case.face to case.far face: 100.50 +/- 0.04
  shaft: 90.00 +/- 0.03
  washer: 10.00 +/- 0.02
needs:
  float: {kind: float, of: shaft, want: 0.2 to 0.8}
checks:
  end float: {kind: end float, of: shaft, by: dial indicator}
"""

DRAWS = 50_000


def _shares(text: str = TEXT) -> dict[str, float]:
    opened = open_text(text)
    assert not opened.stopped
    asking = Asking(opened.rebuild, DRAWS)
    (check,) = opened.rebuild.checks.values()
    return {one.key: one.share for one in shares(asking, check, {})}


def test_shares_are_those_of_the_variances() -> None:
    """Of a plain sum a share is u^2 over the sum of u^2 (JCGM 100:2008, 5.1.2): 16, 9 and 4.

    The dial's own part is in the sum too, so the three are compared with each other.
    """
    found = _shares()
    sizes = [found["case.face to case.far face"], found["shaft"], found["washer"]]
    whole = sum(sizes)
    # 50 000 draws in 37 bins: scatter of a share about 0.004
    assert [one / whole for one in sizes] == pytest.approx([16 / 29, 9 / 29, 4 / 29], abs=0.015)
    assert whole + found[DIAL] == pytest.approx(1.0, abs=0.015)
    assert found[ELSE] == pytest.approx(0.0, abs=0.015)


def test_errors_that_cancel_are_not_laid_to_something_else() -> None:
    """A pack measured and checked by one micrometer: pack and reading say all, and half cancels.

    By hand, shared error s and own errors o of equal variance: the pack is off by -(s + o1), the
    reading by s + o2, what is read by o2 - o1. Either alone tells 1^2 / (2 x 2) = 1/4 of it.
    """
    rebuild = open_text(demos.text("feed-box")).rebuild
    check = rebuild.checks["shim pack"]
    asked = shares(Asking(rebuild, DRAWS), check, {"thrust shim": 0.35e-3})
    found = {one.key: one.share for one in asked}
    # rectangles, not normals: of a sum of two the mean is still even, so 1/4 holds
    assert found["thrust shim"] == pytest.approx(0.25, abs=0.02)
    assert found[DIAL] == pytest.approx(0.25, abs=0.02)
    assert found[ELSE] == pytest.approx(0.0, abs=1e-6)


def test_greatest_comes_first() -> None:
    """The bar at the top is the size to look at."""
    found = list(_shares())
    assert found[0] == "case.face to case.far face"
    assert found.index("shaft") < found.index("washer")


def test_a_size_read_better_has_less_of_a_share() -> None:
    """With the case known to 0.004 it hardly counts: 0.16 of 13.16."""
    found = _shares(TEXT.replace("100.50 +/- 0.04", "100.50 +/- 0.004"))
    assert found["case.face to case.far face"] < 0.03
    assert found["shaft"] > 0.5
