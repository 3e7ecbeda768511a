"""A cover that lies in the case: the case reaches past its joint as far as a bore is typed."""

import pytest

from dryfit.app.usecases import demos
from dryfit.app.usecases.lying import lying
from dryfit.document.read import read_document
from dryfit.shape.kinds import built

HEAD = demos.text("coupling-head").decode()
BORE = "register to joint: 62}, outside: {back to joint: 100}"
SUNK = "register to joint: 62, joint to rim: 104}, outside: {back to rim: 160}"
BACK = "  case.register to case.back: -14"


def case_cells(text: str) -> list[tuple[float, ...]]:
    """Give the case as it is drawn: from, to, bore and outside radius [mm]."""
    lies = lying(read_document(text.encode()).rebuild)
    solids = built(lies.rebuild, lies.lines[0]).solids()
    (case,) = (solid for solid in solids if solid.part == "case")
    return [(c.first, c.last, c.inner[0], c.outer[0]) for c in case.laid]


def test_case_ends_at_the_joint_of_its_cover() -> None:
    """Nothing typed past the joint: the case of 14 + 72 ends there."""
    assert case_cells(HEAD)[-1][:2] == pytest.approx((14, 86))


def test_case_has_a_rim_where_a_bore_is_typed_past_the_joint() -> None:
    """A rim of 14 with a bore of 104 begins at the joint itself, under the shim, not at the flange
    that stands off it by that."""
    text = HEAD.replace(BORE, SUNK).replace(BACK, f"{BACK}\n  case.joint to case.rim: 14")
    cells = case_cells(text)
    assert cells[-2] == pytest.approx((14, 86, 31, 80))
    assert cells[-1] == pytest.approx((86, 100, 52, 80))
