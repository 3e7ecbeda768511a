"""A lathe headstock on two taper rollers: a bearing replaced, the nut turned, the spindle warm.

The front set is 2.225 narrower than the one that came out (22.225 before, 20.000 now), so its
distance piece is made 2.225 longer: 41.300 before, 43.525 now. The nut is M45x1.5, 70 outside.
"""

import numpy as np
import pytest
from tests.scenarios.bench import true, unit

from dryfit.mechanics.materials import MATERIALS

MICRO = 1e-6
LENGTH, RISE = 0.210, 6.0
STEEL = MATERIALS["steel"].expansion
SET_TO = "set to: 0.060 by dial indicator"
BEFORE = {
    "width: 20.000 +/- 0.001, set width: 20.000": "width: 22.225 +/- 0.001, set width: 22.225",
    "distance piece: 43.525": "distance piece: 41.300",
}


def test_as_much_more_spacer_as_the_set_is_narrower_leaves_the_nut() -> None:
    """2.225 in, 2.225 out: between flange and nut nothing has changed."""
    as_found, now = unit("taper-headstock", BEFORE), unit("taper-headstock")
    only_set = unit("taper-headstock", {"distance piece: 43.525": "distance piece: 41.300"})
    where = true(now, "nut from flange")
    assert where == pytest.approx(true(as_found, "nut from flange"), abs=1e-9)
    assert true(only_set, "nut from flange") - where == pytest.approx(-2.225e-3, abs=1e-9)


def test_nut_lies_where_the_sizes_say() -> None:
    """43.525 + 20.000 + 210.000 + 19.750 = 293.275, and 0.060 further back for the float."""
    assert true(unit("taper-headstock"), "nut from flange") == pytest.approx(293.335e-3, abs=1e-9)


def test_twelve_and_a_half_degrees_take_the_float_from_60_to_8() -> None:
    """(0.060 - 0.008) / 1.5 x 360 = 12.48 degrees; 7.6 mm at the outside of 70.

    Turned on, the nut goes towards the nose, so the float falls by as much as it advances.
    """
    turn = np.radians(12.48)
    advance = 1.5e-3 * turn / (2 * np.pi)
    assert advance == pytest.approx(0.052e-3, abs=1e-9)
    assert 35 * turn == pytest.approx(7.6, abs=0.03)
    loose = unit("taper-headstock")
    turned = unit("taper-headstock", {SET_TO: "set to: 0.008 by dial indicator"})
    moved = true(turned, "nut from flange") - true(loose, "nut from flange")
    assert moved == pytest.approx(-advance, abs=1e-9)
    assert true(loose, "end float") == pytest.approx(0.060e-3, abs=1e-9)
    assert true(turned, "end float") == pytest.approx(0.008e-3, abs=1e-9)


def test_lock_nut_takes_the_play_of_the_thread_once() -> None:
    """Done up behind the nut it pushes it from one flank of the thread to the other.

    M45x1.5 in 6H and 6g, pitch diameters of ISO 965-1: nut 0 to 200 um over the size, spindle 32 to
    182 under it, so 207 apart in the middle, and tan(30) of that along: 119.5 um. The table goes by
    steps of diameter, its formulas by the diameter itself: 2 %.
    """
    words = {SET_TO: "set to: 0.300 by dial indicator, locked by: lock nut"}
    play = (32 + (200 + 150) / 2) * MICRO * np.tan(np.radians(30))
    left = true(unit("taper-headstock", words), "end float")
    assert 0.300e-3 - left == pytest.approx(play, rel=0.025)


def warms(length: float, words: dict[str, str] | None = None) -> float:
    """Say how the float changes when the spindle gets 6 K warmer, with the cups so far apart."""
    sizes = {"case.rear register: 210.000": f"case.rear register: {length * 1e3:.3f}"}
    warm = unit("taper-headstock", sizes | (words or {}))
    return true(warm, "end float, running") - true(warm, "end float")


def test_length_alone_of_a_warm_spindle_adds_float() -> None:
    """The cones lie outside the cups, so a longer spindle draws them off: a dT L, added.

    As each millimetre of length adds the same and the rings do theirs once, twice the length gives
    6 K x 11.85e-6 x 210 mm = 14.9 um more; with 11.5e-6, as often taken, 14.5.
    """
    more = warms(2 * LENGTH) - warms(LENGTH)
    assert more == pytest.approx(STEEL * RISE * LENGTH, rel=1e-9)
    assert more * 11.5e-6 / 11.85e-6 == pytest.approx(14.5 * MICRO, abs=0.05 * MICRO)


COT = 1 / np.tan(np.radians(14.0))
WALL = 0.205
"""Of a ring at its track, over outside less bore: estimate of `solve.growth`."""

TRACKS = sum(outside - WALL * (outside - bore) for bore, outside in ((50, 90), (45, 85))) * 1e-3
"""Where the rollers run on their cups, both bearings: 81.8 + 76.8 mm [m]."""


def test_rings_that_grow_take_more_back() -> None:
    """Warm cones are larger across by a dT d and ride up their cups by (a dT d / 2) cot(angle).

    By hand: 6 K x 11.85e-6 x (81.8 + 76.8)/2 x 4.01 = 22.6 um off the float. Each cone lengthens,
    half of which lies between the rows: with 19.875 of that and the 210 between the cups the
    spindle gives 16.3. So 6.3 um of float are lost: this headstock runs tighter, not slacker.
    The distance piece is as warm as the spindle under it and changes nothing.
    """
    along = STEEL * RISE * (LENGTH + 39.75e-3 / 2)
    across = STEEL * RISE * TRACKS / 2 * COT
    assert along == pytest.approx(16.3 * MICRO, abs=0.1 * MICRO)
    assert across == pytest.approx(22.6 * MICRO, abs=0.1 * MICRO)
    float_added = 6.0 * 11.85e-6 * 0.060e-3  # of the spindle, as long again as the float
    assert warms(LENGTH) == pytest.approx(along - across + float_added, abs=0.1e-9)


def test_what_rings_take_goes_by_the_cotangent_alone() -> None:
    """At 20 degrees the cones ride up by cot(20) / cot(14) = 0.685 of that, whatever d is."""
    going = [f"{angle} deg, stops shaft going: " for angle in (14, 20)]
    steep = {going[0] + end: going[1] + end for end in ("tail", "nose")}
    along = STEEL * RISE * (LENGTH + 39.75e-3 / 2 + 0.060e-3)
    less = warms(LENGTH, steep) - along
    assert less / (warms(LENGTH) - along) == pytest.approx(
        1 / np.tan(np.radians(20)) / COT, rel=1e-6
    )


def test_a_warm_case_undoes_a_warm_spindle() -> None:
    """With the case 6 K warmer too, every length and diameter is larger by 71e-6, so is the float.

    The float of 60 um then grows by 4 nm: rings, spindle and case of one metal keep their shape.
    """
    words = {
        "{spindle: 6 K, distance piece: 6 K}": "{spindle: 6 K, distance piece: 6 K, case: 6 K}",
        "{kind: housing}": "{kind: housing, material: steel}",
    }
    assert warms(LENGTH, words) == pytest.approx(STEEL * RISE * 0.060e-3, abs=0.1e-9)


def test_distance_piece_runs_as_warm_as_the_spindle_it_sits_on() -> None:
    """Told only that shafts run 6 K warmer than the casing, the answer is that of the state above.

    A piece of 43.525 left cold makes the float 6 x 11.85e-6 x 43.525 = 3.1 um too large.
    """
    words = {
        "measured with: micrometer\n": "measured with: micrometer\nused for: {USE}\n",
        "USE": "kind: lathe headstock, warmer than casing: 6 K",
        "of: spindle, push: 20 N, state: running": "of: spindle, push: 20 N, state: hot",
    }
    hot, told = (true(unit("taper-headstock", w), "end float, running") for w in (words, {}))
    assert hot == pytest.approx(told, abs=1e-9)
