"""A bench drill on two deep groove bearings: the lower fixed, a wave spring behind the upper one.

The ledge under which the lower bearing hangs is 85.90 below the joint; the shoulders of the spindle
are 68.00 apart, so the pocket of the upper bearing is 17.90 deep.
"""

import numpy as np
import pytest
from scipy.optimize import brentq
from tests.oracle.energies import FACE, deep_groove, half_rings
from tests.scenarios.bench import at_rest, band, read, shown, true, unit

MICRO = 1e-6
SPRING = "free: 4.20, force: 140 N, at: 3.05, solid: 1.30"
RATE = 140.0 / 1.15e-3
"""Of the spring: 140 N for 4.20 - 3.05 = 1.15 mm [N/m]."""

UPPER, WIDE = "outside: 40, width: 12.000", "outside: 40, width: 16.000"
LOOSE = "width: 14.000 +/- 0.001, clearance: C3"
CLEARANCE = {"upper": 18.0e-6, "lower": 20.5e-6}
"""Middles of 11 to 25 and 13 to 28 um, the looser group at 17 and 20 mm of bore (ISO 5753-1)."""

ROWS = {"upper": deep_groove((17, 40, 12), 0.018), "lower": deep_groove((20, 47, 14), 0.0205)}
(UPPER_IN, _), (LOWER_IN, LOWER_OUT) = half_rings((17, 40, 12)), half_rings((20, 47, 14))
GIVE = 6 / FACE + UPPER_IN + LOWER_IN + LOWER_OUT
"""From cover to case over two bearings: spring, ring, shoulder, shoulder, ring, snap ring, case are
six pairs of faces, and half of each ring under one shortens [m/N]."""


def half_float(name: str) -> float:
    """How far a ring goes either way from the middle: sqrt(4 A G - G^2) / 2, [HARRIS] 2.12 [m].

    Balls are taken as 0.295 of outside less bore and grooves as 0.5175 of the ball (estimates of
    `mechanics.internals`), so A is 0.035 of the ball: 0.2375 and 0.2788 mm.
    """
    apart = {"upper": 0.035 * 0.295 * 23e-3, "lower": 0.035 * 0.295 * 27e-3}[name]
    play = CLEARANCE[name]
    return float(np.sqrt(4 * apart * play - play**2) / 2)


TAKEN = half_float("upper") + half_float("lower")
"""A spring pushes both rows to the ends of their play: half of each float, 0.065 + 0.075 mm."""


def pushed_down(x: float) -> float:
    """Say what the spring puts on the spindle when it lies x below the middle of its float [N]."""

    def out_of_balance(e: float) -> float:
        return ROWS["upper"](e).force - max(RATE * (1.15e-3 - x - e), 0.0)

    return ROWS["upper"](float(brentq(out_of_balance, 0.0, 1.2e-3, xtol=1e-13))).force


def lies(push: float) -> float:
    """Say how far below the middle of the lower row's float the spindle lies [m]; push down [N]."""

    def out_of_balance(x: float) -> float:
        return ROWS["lower"](x).force - pushed_down(x) - push

    return float(brentq(out_of_balance, -0.5e-3, 0.5e-3, xtol=1e-13))


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

    It first takes up the play of both bearings, 0.140, and what their balls yield, 0.021: with
    121.7 N a millimetre 19.5 N of its push is gone. Where the room is more, so is what is lost.
    """
    there = pushed_down(lies(0.0))
    assert 140.0 - there == pytest.approx(RATE * (TAKEN + 21 * MICRO), abs=0.1)
    # 0.17 um of rings and faces besides
    assert spring_force({}) == pytest.approx(there - RATE * GIVE * there, abs=0.002)
    wider = spring_force({"case.ledge: 85.900": "case.ledge: 86.000"})
    stiff = RATE * 0.1e-3
    assert 0.95 * stiff < spring_force({}) - wider < stiff


def test_old_spring_pushes_nothing() -> None:
    """Set to 3.10 it has 0.05 left in 3.05 of room, and the play of both rows is 0.140.

    In bearings without that play it would push 6 N of 140.
    """
    old = {SPRING: "free: 3.10, force: 140 N, at: 1.95, solid: 1.30"}
    assert TAKEN > 0.05e-3
    assert spring_force(old) == pytest.approx(0.0, abs=1e-6)
    assert spring_force(old | {"ledge: 85.900": "ledge: 85.700"}) > 6.0


def test_float_with_a_new_spring_is_springy_and_comes_back() -> None:
    """Pushed with less than the spring has, only the rows yield; with more, the whole play goes.

    The dial is at rest where the row of the lower bearing carries the spring and the push. 50 N
    either way move it 5 um; 250 N lift it off and turn the row over: 30 um more than its play.
    """
    for push in (50, 250):
        hand = lies(push) - lies(-push)
        found = shown(unit("bench-drill", {"push: 50 N": f"push: {push} N"}), "end float")
        assert 0 < found - hand < GIVE * 2 * push  # rings and faces only add
    assert lies(50) - lies(-50) == pytest.approx(5.1 * MICRO, abs=0.1 * MICRO)
    assert lies(250) - lies(-250) > 2 * half_float("lower")
    assert true(unit("bench-drill"), "end float") == pytest.approx(0.0, abs=1e-9)


def test_float_of_the_looser_group_against_the_normal_one() -> None:
    """Without the spring the lower bearing's own play is read: sqrt(4 A G - G^2), [HARRIS] 2.12.

    A bearing of 20 mm bore has 13 to 28 um across in the looser group and 5 to 20 in the normal
    one (ISO 5753-1), so their middles read as sqrt(20.5) to sqrt(12.5), 0.150 and 0.118.
    Common practice, no source: a normal one of this size gives 0.07 to 0.15, a looser one 0.18 at
    times.
    """
    looser = true(unit("bench-drill", NOWHERE), "end float")
    tighter = {**NOWHERE, LOOSE: "width: 14.000 +/- 0.001, clearance: CN"}
    normal = true(unit("bench-drill", tighter), "end float")
    apart = 0.035 * 0.295 * 27e-3
    assert looser == pytest.approx(2 * half_float("lower"), abs=1e-9)
    assert normal == pytest.approx(np.sqrt(4 * apart * 12.5e-6 - 12.5e-6**2), abs=1e-9)
    assert looser / normal == pytest.approx(np.sqrt(20.5 / 12.5), rel=0.01)
    assert 0.07e-3 < normal < 0.15e-3
    low, high = band(unit("bench-drill", NOWHERE), "end float")
    assert low < 0.18e-3 < high


WARM = "{spindle: 10 K, snap ring: 10 K}"


def test_warm_spindle_takes_float_from_its_groove() -> None:
    """Ten kelvin warmer than the case, the lower inner track takes 4.9 um of the 20.5 of play.

    10 x 11.85e-6 x (47 - 0.205 x 27) = 4.91 um (the wall of a ring is an estimate of
    `solve.growth`), so sqrt(4 A G - G^2) goes from 0.150 to 0.131.
    """
    words = {
        "checks:\n": f"states:\n  running: {{warmer than room: {WARM}}}\nchecks:\n",
        "push: 50 N": "push: 50 N, state: running",
    }
    apart = 0.035 * 0.295 * 27e-3
    left = 20.5e-6 - 10 * 11.85e-6 * (47 - 0.205 * 27) * 1e-3
    warm = true(unit("bench-drill", NOWHERE | words), "end float")
    assert warm == pytest.approx(np.sqrt(4 * apart * left - left**2), abs=1e-9)
    assert warm == pytest.approx(0.131e-3, abs=0.5e-6)


def test_spring_over_the_fixed_ring_moves_nothing() -> None:
    """The ring it pushes on lies against its own snap ring; the spindle floats as with none.

    The spring is as hard as in the right place: 140 N in 3.05, with nothing to take up.
    """
    fitted = unit("bench-drill", OVER_THE_FIXED_RING)
    none = unit("bench-drill", NOWHERE)
    assert true(fitted, "end float") == pytest.approx(true(none, "end float"), abs=1e-9)
    force = float(at_rest(fitted).force("wave spring", "lower/outer ring")[0])
    yields = 3 / FACE + LOWER_OUT  # case, spring, ring, snap ring
    assert force == pytest.approx(140.0 * (1 - RATE * yields), abs=0.001)
    # 140 N on a ring 12.75 wide between two faces do not show at the spindle
    assert shown(fitted, "end float") == pytest.approx(shown(none, "end float"), abs=0.1 * MICRO)


def gap(words: dict[str, str]) -> float:
    """Say how far the cover stands off [m]."""
    asked = {"checks:\n": "checks:\n  gap: {kind: gap, at: cover}\n"}
    return float(read(unit("bench-drill", asked | words), "gap").true[0])


def test_wide_sealed_bearing_keeps_the_cover_off() -> None:
    """16 for 12 wide: 17.90 - 2.85 - 16.00 = -0.95 of room, so the cover stands off by 0.95.

    That is with the spring left out; with it, flattened to 1.30, by 2.25. The bearing may be pushed
    down through the play of both rows, so a feeler finds 0.140 less.
    """
    bare = {"[cover.spigot, wave spring, upper]": "[cover.spigot, upper]"}
    bare |= {f"  wave spring: {{kind: spring washer, {SPRING}}}\n": ""}
    wide = {UPPER: WIDE}
    assert gap(wide | bare) == pytest.approx(0.95e-3 - TAKEN, abs=1e-9)
    assert gap(wide) == pytest.approx(2.25e-3 - TAKEN, abs=1e-9)
    assert gap(bare) == pytest.approx(0.0, abs=1e-9)
    assert gap({}) == pytest.approx(0.0, abs=1e-9)
