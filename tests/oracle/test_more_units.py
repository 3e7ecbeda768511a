"""More lines against the same written out by hand: springs, thrust balls, deep grooves, rings."""

import numpy as np
import pytest
from tests.oracle.springs import ByHand, Force, half_ring, tapers
from tests.oracle.test_units import HEAD, IN, OUT, compare, ours

from dryfit.mechanics.ball_rows import ball_row, deep_groove_row, groove_distance
from dryfit.mechanics.hertz import contact_constant, contacts_in_line, groove_curvature
from dryfit.mechanics.internals import FILLINGS, estimated_internals
from dryfit.mechanics.springs import spring_force


def inside(sort: str, bore: float, outside: float, width: float, angle: float) -> dict[str, float]:
    """Work out what is in a bearing that nobody has opened."""
    filling = FILLINGS[sort]
    ball, pitch, count = estimated_internals(
        bore, outside, width, share=filling.share, first=filling.first, arc=filling.arc
    )
    lean = ball * np.cos(angle) / pitch
    constants = (
        contact_constant(*groove_curvature(ball, filling.conformity, sign * lean))
        for sign in (1, -1)
    )
    return {
        "distance": groove_distance(ball, filling.conformity, filling.conformity),
        "balls": count,
        "constant": contacts_in_line(*constants),
    }


def deep_groove(bore: float, outside: float, width: float, play: float) -> Force:
    """Give the force of a deep groove row."""
    given = inside("deep groove", bore, outside, width, 0.0)
    return lambda d: float(deep_groove_row(d, play, **given).force)


DRILL = (
    HEAD
    + """
      on the shaft: [shaft.groove, ring, upper, shaft.upper shoulder]
      nose: [shaft.lower shoulder, lower]
      in the case: [cover.spigot, wave, upper]
      pocket: [lower, case.register]
      joint: [cover.flange, case.joint]
parts:
  case: {{kind: housing}}
  cover: {{kind: cover}}
  shaft: {{kind: shaft}}
  upper: {{kind: deep groove ball, bore: 17, outside: 40, width: 12.000 +/- 0.001,
          play: 0.012 +/- 0.001}}
  lower: {{kind: deep groove ball, bore: 20, outside: 47, width: 14.000 +/- 0.001,
          play: 0.014 +/- 0.001}}
  ring: {{kind: spacer}}
  wave: {{kind: spring washer, free: 4.200 +/- 0.001, force: 140 N, at: 3.050 +/- 0.001,
         solid: 1.200 +/- 0.001}}
sizes:
  cover.flange to cover.spigot: 2.850
  case.joint to case.register: {room}
  ring: 1.200
  shaft.groove to shaft.upper shoulder: 13.200
  shaft.upper shoulder to shaft.lower shoulder: 68.000
"""
)


@pytest.mark.parametrize(("room", "push"), [(97.900, 0.0), (97.900, 60.0), (96.000, 0.0)])
def test_two_deep_grooves_and_a_spring(room: float, push: float) -> None:
    """A wave spring loads both rows; a room too short for it makes it solid."""
    hand = ByHand()
    small = half_ring(17e-3, 40e-3, 12e-3, inner=True)
    large = half_ring(20e-3, 47e-3, 14e-3, inner=True)
    out_large = half_ring(20e-3, 47e-3, 14e-3, inner=False)
    hand.face("ring", "upper" + IN, 1.2e-3, small)
    hand.face("upper" + IN, "shaft", 12e-3, small)
    hand.face("shaft", "lower" + IN, 68e-3, large)
    hand.face("lower" + OUT, "case", 14e-3 - room / 1e3, out_large)
    hand.row("upper" + IN, "upper" + OUT, 0.0, deep_groove(17e-3, 40e-3, 12e-3, 12e-6))
    hand.row("lower" + IN, "lower" + OUT, 0.0, deep_groove(20e-3, 47e-3, 14e-3, 14e-6))
    hand.face("case", "cover", 0.0)
    hand.face("cover", "case", 0.0)
    hand.face("cover", "wave", 2.85e-3)
    rate = 140.0 / 1.15e-3
    hand.row(
        "wave", "upper" + OUT, 4.2e-3,
        lambda d: float(spring_force(d, 3.0e-3, rate).force) if d > 0 else 0.0,
    )  # fmt: skip
    hand.loads = {"shaft": push}
    low = room / 1e3 - 14e-3
    start = {
        "cover": 0.0, "wave": 2.85e-3, "lower" + OUT: low, "lower" + IN: low,
        "shaft": low - 68e-3, "upper" + IN: low - 80e-3, "upper" + OUT: low - 80e-3,
        "ring": low - 81.2e-3,
    }  # fmt: skip
    found = hand.rest("case", start)
    held = ours(DRILL.format(room=f"{room:.3f}"), {"shaft": push})
    for before, after, law in (("upper" + IN, "upper" + OUT, 1), ("lower" + IN, "lower" + OUT, 1)):
        mine = float(held.force(before, after)[0])
        assert law * mine == pytest.approx(found.force(before, after), rel=1e-5, abs=1e-3)
    assert float(held.force("wave", "upper" + OUT)[0]) == pytest.approx(
        found.force("wave", "upper" + OUT), rel=1e-5
    )


def test_thrust_ball_under_load() -> None:
    """A thrust bearing gives by the point-contact law, at 90 degrees whatever the load."""
    text = (
        HEAD
        + """
      up: [shaft.collar, thrust]
      down: [thrust, case.seat]
parts:
  case: {kind: housing}
  shaft: {kind: shaft}
  thrust: {kind: thrust ball, bore: 40, outside: 60, width: 13.000 +/- 0.001,
           stops shaft going: tail, on: shaft, in: case}
"""
    )
    given = inside("thrust ball", 40e-3, 60e-3, 13e-3, np.pi / 2)
    hand = ByHand()
    hand.face("shaft", "thrust" + IN, 0.0, half_ring(40e-3, 60e-3, 13e-3, inner=True))
    hand.face("thrust" + OUT, "case", 13e-3, half_ring(40e-3, 60e-3, 13e-3, inner=False))
    hand.row(
        "thrust" + IN, "thrust" + OUT, 0.0,
        lambda d: float(ball_row(d, np.pi / 2, **given).force),
    )  # fmt: skip
    hand.loads = {"shaft": 400.0}
    start = {"shaft": -13e-3, "thrust" + IN: -13e-3, "thrust" + OUT: -13e-3}
    compare(ours(text, {"shaft": 400.0}), hand.rest("case", start))


def test_threaded_ring_sets_a_taper_pair_face_to_face() -> None:
    """A ring screwed into the case past nothing loads both tapers against a step."""
    text = (
        HEAD
        + """
      left: [one, shaft.left]
      right: [shaft.right, two]
      step: [case.step, one]
      ring: [two, ring]
parts:
  case: {kind: housing}
  shaft: {kind: shaft}
  one: {kind: taper roller, bore: 30, outside: 62, width: 16.000 +/- 0.001,
        set width: 17.250 +/- 0.001, angle: 14 deg, stops shaft going: nose}
  two: {kind: taper roller, bore: 30, outside: 62, width: 16.000 +/- 0.001,
        set width: 17.250 +/- 0.001, angle: 14 deg, stops shaft going: tail}
  ring: {kind: threaded ring, set to: -0.010 +/- 0.0001}
sizes:
  shaft.left to shaft.right: 50.000
"""
    )
    row = tapers(30e-3, 62e-3, 16e-3, np.radians(14))
    ring_in, ring_out = (half_ring(30e-3, 62e-3, 16e-3, inner=way) for way in (True, False))
    hand = ByHand()
    hand.face("one" + IN, "shaft", 16e-3, ring_in)
    hand.face("shaft", "two" + IN, 50e-3, ring_in)
    hand.face("case", "one" + OUT, 0.0, ring_out)
    hand.face("two" + OUT, "ring", 16e-3, ring_out)
    hand.row("one" + OUT, "one" + IN, 17.25e-3 - 16e-3, row)
    hand.row("two" + IN, "two" + OUT, 17.25e-3 - 16e-3, row)
    hand.face("ring", "case", -(2 * 17.25e-3 + 50e-3 - 0.010e-3))
    at = 1.25e-3
    start = {
        "shaft": at + 16e-3, "one" + OUT: 0.0, "one" + IN: at, "two" + IN: at + 66e-3,
        "two" + OUT: 2 * at + 66e-3, "ring": 2 * at + 82e-3 - 0.010e-3,
    }  # fmt: skip
    found = hand.rest("case", start)
    assert found.force("two" + IN, "two" + OUT) > 50
    compare(ours(text), found)
