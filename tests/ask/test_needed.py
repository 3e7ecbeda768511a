"""How the finished unit stands to what is wanted, on the bevel box, by hand."""

import pytest
from tests.ask.test_together import box

from dryfit.ask.asking import Asking
from dryfit.ask.needed import Needed, needed
from dryfit.ask.targets import targets

PACKS = {"cover shim": 0.36e-3, "cartridge shim": 0.50e-3}


def told(asking: Asking, packs: dict[str, float]) -> dict[str, Needed]:
    """Say how each need stands, by name."""
    return {n.target.need.name: n for n in needed(asking, targets(asking.rebuild), packs)}


def test_a_small_nip_is_told_as_a_length() -> None:
    """0.02 of nip as typed, no force beside it; a preload is told in words and in newtons."""
    found = told(box(), PACKS)
    nip, preload = found["wheel nip"], found["pinion preload"]
    assert nip.typed == pytest.approx(0.02e-3, abs=1e-6)
    assert nip.force is None
    assert preload.words is not None
    assert preload.force is not None
    assert preload.force.low < preload.force.typed < preload.force.high


def test_a_nip_beyond_three_hundredths_is_told_with_its_force() -> None:
    """Common practice, no source. A pack 0.05 thinner gives some 0.047 more nip."""
    hard = told(box(), {**PACKS, "cover shim": 0.31e-3})["wheel nip"]
    assert hard.typed == pytest.approx(0.067e-3, abs=3e-6)
    assert hard.force is not None
    assert hard.force.typed > 1000


def test_a_nip_of_a_quarter_is_too_hard_and_never_chosen() -> None:
    """0.26 mm between two rows: each carries far beyond a tenth of its static rating."""
    found = told(box(), {**PACKS, "cover shim": 0.05e-3})["wheel nip"]
    assert found.strain > 3
    assert found.chance == 0.0


def test_a_preload_of_rollers_without_a_rating_waits_for_it() -> None:
    """In words it needs the rating; what is lacking is named."""
    taper = (
        "front bearing: {kind: angular contact ball, bore: 30, outside: 62, width: 16, "
        "angle: 25 deg, stops shaft going: drive, ground for: 120 N,",
        "front bearing: {kind: taper roller, bore: 30, outside: 62, width: 16, set width: 17.25, "
        "angle: 14 deg, stops shaft going: drive,",
    )
    found = told(box(taper), PACKS)["pinion preload"]
    assert [slope.key for slope in found.lacking] == ["front bearing.rating"]
