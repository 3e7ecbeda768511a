"""A bench drill on two deep groove bearings: the lower fixed, a wave spring behind the upper one.

The ledge under which the lower bearing hangs is 85.90 below the joint; the shoulders of the spindle
are 68.00 apart, so the pocket of the upper bearing is 17.90 deep.
"""

import numpy as np
import pytest
from tests.scenarios.bench import at_rest, band, read, shown, true, unit

MICRO = 1e-6
SPRING = "free: 4.20, force: 140 N, at: 3.05, solid: 1.30"
RATE = 140.0 / 1.15e-3
"""Of the spring: 140 N for 4.20 - 3.05 = 1.15 mm [N/m]."""

UPPER, WIDE = "outside: 40, width: 12.000", "outside: 40, width: 16.000"
LOOSE = "width: 14.000 +/- 0.001, clearance: C3"
LEAST, MOST = 0.10e-3, 0.20e-3
"""Both rows hang in their play when the spring pushes: half of each float, and floats of 0.10 to
0.20 are those of bearings of this size and group (see below) [m]."""

NOWHERE = {"      spring: [cover.spigot, wave spring, upper]\n": ""}
OVER_THE_FIXED_RING = {
    "[cover.spigot, wave spring, upper]": "[case.upper ledge, wave spring, lower]",
    "  case.ledge to": "  case.upper ledge to case.ledge: 3.05\n  case.ledge to",
}


def spring_force(words: dict[str, str]) -> float:
    """Say how hard the spring pushes [N]."""
    held = at_rest(unit("bench-drill", words))
    return float(held.force("cover", "wave spring")[0])


def test_room_for_the_spring() -> None:
    """17.90 of pocket less 2.85 of spigot less 12.00 of bearing: 3.05, so a new one pushes 140 N.

    It first takes up the play of both bearings, and so much of its push is gone.
    """
    assert LEAST < (140.0 - spring_force({})) / RATE < MOST


def test_old_spring_pushes_next_to_nothing() -> None:
    """Set to 3.10 it has 0.05 left: 6 N of 140."""
    old = {SPRING: "free: 3.10, force: 140 N, at: 1.95, solid: 1.30"}
    assert 0.0 <= spring_force(old) <= 0.05e-3 * RATE + 1e-6


def test_float_with_a_new_spring_is_springy_and_comes_back() -> None:
    """Pushed with less than the spring has, only the rows yield; with more, the whole play goes.

    The row of the lower bearing goes from one side of its play to the other when the spring of
    some 135 N is overcome; between lie a few micrometres under 50 N.
    """
    soft = shown(unit("bench-drill"), "end float")
    hard = shown(unit("bench-drill", {"push: 50 N": "push: 250 N"}), "end float")
    assert 0 < soft < 15 * MICRO
    assert hard > 0.1e-3
    assert true(unit("bench-drill"), "end float") == pytest.approx(0.0, abs=1e-9)


def test_float_of_the_looser_group_against_the_normal_one() -> None:
    """Without the spring the lower bearing's own play is read: sqrt(4 A G - G^2), [HARRIS] 2.12.

    A bearing of 20 mm bore has 13 to 28 um across in the looser group and 5 to 20 in the normal
    one (ISO 5753-1), so their middles read as sqrt(20.5) to sqrt(12.5). Common practice, no source:
    a normal one of this size gives 0.07 to 0.15, a looser one 0.18 at times.
    """
    looser = true(unit("bench-drill", NOWHERE), "end float")
    tighter = {**NOWHERE, LOOSE: "width: 14.000 +/- 0.001, clearance: CN"}
    normal = true(unit("bench-drill", tighter), "end float")
    assert looser / normal == pytest.approx(np.sqrt(20.5 / 12.5), rel=0.01)
    assert 0.07e-3 < normal < 0.15e-3
    low, high = band(unit("bench-drill", NOWHERE), "end float")
    assert low < 0.18e-3 < high


def test_spring_over_the_fixed_ring_moves_nothing() -> None:
    """The ring it pushes on lies against its own snap ring; the spindle floats as with none."""
    fitted = unit("bench-drill", OVER_THE_FIXED_RING)
    none = unit("bench-drill", NOWHERE)
    assert true(fitted, "end float") == pytest.approx(true(none, "end float"), abs=0.1 * MICRO)
    assert float(at_rest(fitted).force("wave spring", "lower/outer ring")[0]) > 130


def test_wide_sealed_bearing_keeps_the_cover_off() -> None:
    """16 for 12 wide: 17.90 - 2.85 - 16.00 = -0.95 of room, so the cover stands off by 0.95.

    That is with the spring left out; with it, flattened to 1.30, by 2.25. The play of both rows,
    by which the bearing may be pushed down, is taken off.
    """
    gap = "checks:\n  gap: {kind: gap, at: cover}\n"
    bare = {"[cover.spigot, wave spring, upper]": "[cover.spigot, upper]"}
    bare |= {f"  wave spring: {{kind: spring washer, {SPRING}}}\n": ""}
    wide = read(unit("bench-drill", {UPPER: WIDE, "checks:\n": gap, **bare}), "gap")
    assert LEAST < 0.95e-3 - float(wide.true[0]) < MOST
    fits = read(unit("bench-drill", {"checks:\n": gap, **bare}), "gap")
    assert float(fits.true[0]) == pytest.approx(0.0, abs=1e-9)
    home = read(unit("bench-drill", {"checks:\n": gap}), "gap")
    assert float(home.true[0]) == pytest.approx(0.0, abs=1e-9)
    sprung = read(unit("bench-drill", {UPPER: WIDE, "checks:\n": gap}), "gap")
    assert LEAST < 2.25e-3 - float(sprung.true[0]) < MOST
