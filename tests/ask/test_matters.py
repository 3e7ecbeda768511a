"""What makes up the doubt in what is wanted, against the law of propagation by hand."""

import pytest

from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.matters import Matters, matters
from dryfit.ask.targets import targets

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
  case.face to case.back: -10.00 +/- 0.50
  shaft: 90.00 +/- 0.03
  washer: 10.00 +/- 0.02
needs:
  float: {kind: float, of: shaft, want: 0.2 to 0.8}
"""

DRAWS = 50_000


def _matters(text: str = TEXT, packs: dict[str, float] | None = None) -> Matters:
    rebuild = open_text(text).rebuild
    return matters(Asking(rebuild, DRAWS), targets(rebuild), packs or {})


def test_shares_are_those_of_the_variances() -> None:
    """Of a plain sum a share is u^2 over the sum of u^2 (JCGM 100:2008, 5.1.2): 16, 9 and 4."""
    found = _matters()
    assert found.every
    assert [one.key for one in found.sizes] == ["case.face to case.far face", "shaft", "washer"]
    # 50 000 draws in 37 bins: scatter of a share about 0.004
    shares = [one.share for one in found.sizes]
    assert shares == pytest.approx([16 / 29, 9 / 29, 4 / 29], abs=0.015)
    assert {(one.kind, one.of) for one in found.sizes} == {("float", "shaft")}


def test_a_size_that_moves_nothing_wanted_is_not_there() -> None:
    """The back of the case may be read by a rule: no float hangs on it, however doubtful it is."""
    assert "case.face to case.back" not in {one.key for one in _matters().sizes}


def test_a_size_is_told_with_the_want_it_matters_most_to() -> None:
    """The washer alone sets its own line: there it is all of the doubt but the two faces."""
    second = TEXT.replace(
        "parts:",
        """  other line:
    from left to right:
      in the case: [case.near, washer2, case.end]
parts:
  washer2: {kind: thrust washer}""",
    ).replace("needs:", "  case.near to case.end: 5.10 +/- 0.001\n  washer2: 5.00 +/- 0.04\nneeds:")
    found = _matters(second + "  other: {kind: float, of: washer2, want: 0.05 to 0.15}\n")
    told = {one.key: one for one in found.sizes}
    assert told["washer2"].share == pytest.approx(1.0, abs=0.015)
    assert (told["washer2"].of, told["washer"].of) == ("washer2", "shaft")


def test_what_lacks_a_size_is_not_told() -> None:
    """With a size not known nobody says that another does not matter."""
    found = _matters(TEXT.replace("shaft: 90.00 +/- 0.03", "shaft: not known"))
    assert not found.every
    assert found.sizes == ()
