"""Volumes, weights and overlaps of cells, by hand."""

from math import pi

import pytest

from dryfit.shape.cells import Cell, Guess, Solid, What, ring
from dryfit.shape.gears import cells_of
from dryfit.shape.measures import (
    GRAVITY,
    heaviest,
    overlap_findings,
    overlaps,
    seen_from_end,
    weight,
)
from dryfit.shape.rings import ball_row

EXACT = 1e-12
"""Closed forms agree but for binary fractions."""


def test_volume_of_a_plain_ring() -> None:
    """A distance piece of 22 mm, bore 30, outside 38, fills pi (19^2 - 15^2) 22."""
    assert ring(0, 22, 15, 19).volume == pytest.approx(pi * (19**2 - 15**2) * 22, rel=EXACT)


def test_volume_of_a_cone_cut_off() -> None:
    """A cone of 30 mm with radii 10 and 4 fills pi h (R^2 + R r + r^2) / 3."""
    cone = Cell(5, 35, (0, 0), (10, 4))
    assert cone.volume == pytest.approx(pi * 30 * (100 + 40 + 16) / 3, rel=EXACT)


def test_volume_of_an_outline_by_pappus() -> None:
    """A slanting square turned about the axis fills its area times the way of its centre.

    Pappus's second theorem: a square with corners on (0, 20), (3, 24), (-1, 27), (-4, 23) has an
    area of 25 and its centre at radius 23.5, so V = 2 pi 23.5 x 25.
    """
    square = ((0.0, 20.0), (3.0, 24.0), (-1.0, 27.0), (-4.0, 23.0))
    cells = cells_of(square, What.METAL, Guess.NONE, "gear")
    # the radii are taken a billionth of a cell beside its corners
    assert sum(c.volume for c in cells) == pytest.approx(2 * pi * 23.5 * 25, rel=1e-7)


def test_balls_fill_what_balls_fill() -> None:
    """Balls of 12 mm on a circle of 60 count as whole balls, however wide the ring they sweep."""
    row = ball_row(0.0, 30.0, 6.0)
    one = 4 / 3 * pi * 6**3
    count = row.volume / one
    assert count == pytest.approx(round(count), rel=EXACT)
    assert 0.75 * 15 < count < 15.7  # 60 pi / 12 would touch all round


def test_weight_of_a_steel_shaft() -> None:
    """A steel bar of 40 mm diameter and 200 mm weighs 7850 kg/m^3 x 251.3 cm^3 = 1.973 kg."""
    bar = Solid("shaft", "shaft", (ring(0, 200, 0, 20),))
    assert weight(bar) / GRAVITY == pytest.approx(1.973, abs=5e-4)
    assert weight(bar, 2700.0) == pytest.approx(weight(bar) * 2700 / 7850, rel=EXACT)


def test_heaviest_comes_first() -> None:
    """What has to be lifted is told by weight, each part with its own density."""
    bars = [
        Solid(name, "spacer", (ring(0, 10, 0, r),)) for name, r in (("iron", 10), ("light", 12))
    ]
    told = heaviest(bars, {"light": 2700.0})
    assert [name for name, _ in told] == ["iron", "light"]


def _two(first: float, outer: float, guess: Guess = Guess.NONE) -> list[Solid]:
    shaft = Solid("shaft", "shaft", (ring(0, 50, 0, 20),))
    other = Solid("ring", "spacer", (ring(0, 10, outer, 30, guess=guess),), place=first)
    return [shaft, other]


def test_overlap_is_told_with_names_and_amount() -> None:
    """A ring of bore 36 cannot be on a shaft of 40: 2 mm across, 10 mm endways."""
    (lap,) = overlaps(_two(5.0, 18.0))
    assert (lap.one, lap.other) == ("shaft", "ring")
    assert (lap.endways, lap.across) == pytest.approx((10.0, 2.0))
    (finding,) = overlap_findings(_two(5.0, 18.0))
    assert "'shaft' and 'ring'" in finding.message
    assert "2.00 mm across" in finding.message


def test_press_fit_and_nip_are_no_overlap() -> None:
    """What friction or a nut presses together by hundredths is meant so."""
    assert overlaps(_two(5.0, 19.99)) == ()
    assert overlaps(_two(49.98, 10.0)) == ()


def test_estimate_proves_no_overlap() -> None:
    """A radius that is drawn by proportion accuses nobody."""
    assert overlaps(_two(5.0, 18.0, Guess.INNER)) == ()


def test_what_is_seen_from_an_end() -> None:
    """From the first end the shaft hides nothing beyond its radius; from the last the ring does."""
    told = [(s.part, s.inner, s.outer) for s in seen_from_end(_two(45.0, 20.0), first=True)]
    assert told == [("shaft", 0.0, 20.0), ("ring", 20.0, 30.0)]
    hidden = [
        Solid("shaft", "shaft", (ring(0, 50, 0, 20),)),
        Solid("cap", "cover", (ring(50, 60, 0, 25),)),
    ]
    assert [s.part for s in seen_from_end(hidden, first=False)] == ["cap"]
