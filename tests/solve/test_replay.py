"""What friction does to a build appears by itself: same sizes, another order or force."""

import pytest

from dryfit.app.usecases.opening import open_text
from dryfit.model.rebuild import Rebuild
from dryfit.solve.benchtop import Bench, lay_on
from dryfit.solve.elastic import Held
from dryfit.solve.luck import NoLuck
from dryfit.solve.predict import predict
from dryfit.solve.sample import sample
from dryfit.solve.states import Fitted, conditions

PAIR = """
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  spindle:
    from nose to tail:
      on the shaft: [shaft.shoulder, front, inner spacer, second, nut]
      in the case: [case.register, front, outer spacer, second, lock ring]
parts:
  case: {{kind: housing}}
  shaft: {{kind: shaft}}
  front: {{kind: angular contact ball, bore: 40, outside: 80, width: 18.000 +/- 0.001,
          angle: 25 deg, stops shaft going: tail, ground for: 150 N {front}}}
  second: {{kind: angular contact ball, bore: 40, outside: 80, width: 18.000 +/- 0.001,
           angle: 25 deg, stops shaft going: nose, ground for: 150 N}}
  inner spacer: {{kind: spacer}}
  outer spacer: {{kind: spacer}}
  nut: {{kind: nut, thread: M40x1.5, torque: {torque} N.m}}
  lock ring: {{kind: threaded ring, thread: M85x2, torque: 40 N.m}}
sizes:
  inner spacer: 20.000 +/- 0.001
  outer spacer: 20.000 +/- 0.001
checks:
  end float: {{kind: end float, of: shaft}}
"""

TIGHT = ", seat: 40.012 by micrometer, pressed with: {force} kN"
"""Sixteen micrometres or so of interference with the middle of the bearing's own tolerance."""


def read(text: str) -> Rebuild:
    """Read a text that must hold no stop."""
    opened = open_text(text)
    assert not opened.stopped, [found.message for found in opened.findings]
    return opened.rebuild


def bench(rebuild: Rebuild, state: str = "built") -> Bench:
    """Lay the unit on the bench with every size as typed."""
    line = next(iter(rebuild.lines.values()))
    drawn = sample(rebuild, NoLuck())
    return lay_on(rebuild, drawn, Fitted({}, conditions(rebuild, state, NoLuck()), {}, {}), line)


def home(held: Held) -> float:
    """Say how far the front inner ring stands off the shoulder [um]."""
    return float(held.place("front/inner ring")[0] - held.place("shaft")[0]) * 1e6


def pair(force: float | None, torque: float) -> Held:
    """Build the pair with the front ring pressed on with a force, the nut done up with a torque."""
    front = "" if force is None else TIGHT.format(force=force)
    return bench(read(PAIR.format(front=front, torque=torque))).at_rest({})


def test_a_ring_pressed_hard_enough_is_home() -> None:
    """A tight ring pressed with plenty stands on its shoulder; so does one that slides."""
    assert home(pair(20, 30)) == pytest.approx(0, abs=1)
    assert home(pair(None, 30)) == pytest.approx(0, abs=2)


def test_a_ring_pressed_too_weakly_stays_short() -> None:
    """Pressed and nutted with less than it takes, a tight ring stays off its shoulder: not home."""
    assert home(pair(1, 3)) > 100


def test_the_nut_brings_it_home_if_it_is_strong_enough() -> None:
    """The same ring comes home under a nut that pulls harder than it grips."""
    assert home(pair(1, 60)) == pytest.approx(0, abs=3)


def test_a_tight_ring_eats_the_clamp() -> None:
    """The nut's force reaches the shoulder less what the tight ring holds."""
    loose, tight = pair(None, 30), pair(20, 30)
    reaches = [float(held.force("shaft", "front/inner ring")[0]) for held in (loose, tight)]
    assert reaches[1] < 0.9 * reaches[0]


QUILL = """
dryfit: 1
sizes in: mm
measured with: micrometer
used for: {{kind: slow worm, warmer than casing: 15 K}}
lines:
  spindle:
    from nose to tail:
      on the shaft: [shaft.shoulder, front, inner spacer, second, nut]
      in the quill: [quill.register, front, outer spacer, second, lock ring]
      rear: [shaft.rear shoulder, rear]
parts:
  quill: {{kind: housing}}
  shaft: {{kind: shaft}}
  front: {{kind: angular contact ball, bore: 35, outside: 72, width: 17.000 +/- 0.001,
          angle: 25 deg, stops shaft going: tail, ground for: 150 N}}
  second: {{kind: angular contact ball, bore: 35, outside: 72, width: 17.000 +/- 0.001,
           angle: 25 deg, stops shaft going: nose, ground for: 150 N}}
  rear: {{kind: deep groove ball, bore: 30, outside: 62, width: 16, play: 0.001 +/- 0.0002,
         pocket: {pocket} by bore gauge}}
  inner spacer: {{kind: spacer}}
  outer spacer: {{kind: spacer}}
  nut: {{kind: nut, thread: M35x1.5, torque: 30 N.m}}
  lock ring: {{kind: threaded ring, thread: M75x1.5, torque: 60 N.m}}
sizes:
  inner spacer: 20.000 +/- 0.001
  outer spacer: 20.000 +/- 0.001
  shaft.shoulder to shaft.rear shoulder: 180.00
"""


def rear_load(pocket: float, state: str) -> float:
    """Say what the rear bearing carries along the shaft [N]."""
    held = bench(read(QUILL.format(pocket=pocket)), state).at_rest({})
    return float(
        held.force("rear/inner ring", "rear/outer ring")[0]
        + held.force("rear/outer ring", "rear/inner ring")[0]
    )


def test_a_floating_end_that_sticks_loads_itself_when_warm() -> None:
    """Tight in its pocket the rear ring cannot follow the warm shaft; eased it can."""
    assert rear_load(61.985, "built") == pytest.approx(0, abs=1)
    assert rear_load(61.985, "hot") > 100
    assert rear_load(62.005, "hot") == pytest.approx(0, abs=1)


def test_float_of_a_pair_nipped_is_less_than_nothing_by_both_approaches() -> None:
    """A nipped pair has a float below nought: as much as both rows are pressed together."""
    rebuild = read(PAIR.format(front="", torque=30))
    held = bench(rebuild).at_rest({})
    found = predict(rebuild, rebuild.checks["end float"], sample(rebuild, NoLuck()), packs={})
    rows = [c for c in held.contacts if c.before.partition("/")[0] == c.after.partition("/")[0]]
    pressed = sum(float(c.length[0] - held.distance(c)[0]) for c in rows)
    assert len(rows) == 2
    assert float(found.true[0]) == pytest.approx(-pressed, abs=1e-9)
    assert float(found.shown[0]) > 0
