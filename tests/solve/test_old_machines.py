"""Settings that old machines have: cap shims, lock nuts, eccentric sleeves, shims under a worm."""

import numpy as np
import pytest

from dryfit.app.usecases.opening import open_text
from dryfit.solve.luck import NoLuck, full
from dryfit.solve.predict import predict
from dryfit.solve.sample import sample

LATHE = """
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  spindle:
    from nose to tail:
      on the shaft: [spindle.flange, front]
      rear: [rear, nut]
      in the case: [front, case.front]
      tail: [case.rear, rear]
parts:
  case: {{kind: housing}}
  spindle: {{kind: shaft {weight}}}
  front: {{kind: taper roller, bore: 50, outside: 90, width: 20, set width: 21.75, angle: 14 deg,
          stops shaft going: tail}}
  rear: {{kind: taper roller, bore: 45, outside: 85, width: 19, set width: 20.75, angle: 14 deg,
         stops shaft going: nose}}
  nut: {{kind: nut, thread: M45x1.5, set to: 0.050 {lock}}}
  plain: {{kind: plain bearing, bore: 60.00, journal: 60.10, left shims: left pack,
          right shims: right pack}}
  left pack: {{kind: shim pack}}
  right pack: {{kind: shim pack}}
sizes:
  case.front to case.rear: 200.00
settings:
  left pack: {{made from: [0.05, 0.10], fitted: 0.15}}
  right pack: {{made from: [0.05, 0.10], fitted: 0.15}}
states:
  before locking: {{nuts: set}}
checks:
  float: {{kind: end float, of: spindle {state}}}
  lift: {{kind: lift, of: plain}}
"""


def value(text: str, check: str, **packs: float) -> float:
    """Say what a check truly finds with every size as typed [um]."""
    opened = open_text(text)
    assert not opened.stopped, [found.message for found in opened.findings]
    rebuild, luck = opened.rebuild, NoLuck()
    fitted = {name.replace("_", " "): full(luck, thick * 1e-3) for name, thick in packs.items()}
    found = predict(rebuild, rebuild.checks[check], sample(rebuild, luck), packs=fitted)
    return float(found.true[0]) * 1e6


def lathe(*, lock: str = "", state: str = "", weight: str = "") -> str:
    """Write the lathe with a locking, a state and a weight."""
    return LATHE.format(lock=lock, state=state, weight=weight)


def test_lift_is_the_mean_of_both_shims() -> None:
    """Three tenths of shims in all, alike at both sides or not, lift the same in the middle."""
    assert value(lathe(), "lift", left_pack=0.15, right_pack=0.15) == pytest.approx(50)
    assert value(lathe(), "lift", left_pack=0.10, right_pack=0.20) == pytest.approx(50)
    assert value(lathe(), "lift", left_pack=0.05, right_pack=0.05) == pytest.approx(-50)


def test_lift_needs_nothing_of_the_lines() -> None:
    """A length of the spindle that is not known keeps its float from being said, not the lift."""
    opened = open_text(lathe().replace("rear: 200.00", "rear: not known"))
    drawn = sample(opened.rebuild, NoLuck())
    packs = {name: full(NoLuck(), 0.15e-3) for name in ("left pack", "right pack")}
    found = {
        name: predict(opened.rebuild, check, drawn, packs=packs)
        for name, check in opened.rebuild.checks.items()
    }
    assert found["float"].lacking == {"case.front to case.rear"}
    assert not found["lift"].lacking
    assert float(found["lift"].true[0]) == pytest.approx(50e-6)


def test_nut_leaves_the_float_it_was_set_to() -> None:
    """An adjusting nut with nothing behind it leaves the float it was set to."""
    assert value(lathe(), "float") == pytest.approx(50, abs=0.5)


def test_lock_nut_takes_float_away() -> None:
    """A lock nut pushes the nut on by the play of its thread, so the float is less once locked."""
    lock = ", locked by: lock nut"
    before = value(lathe(lock=lock, state=", state: before locking"), "float")
    assert before == pytest.approx(50, abs=0.5)
    assert value(lathe(lock=lock), "float") < before - 20
    assert value(lathe(lock=", locked by: tab washer"), "float") == pytest.approx(50, abs=0.5)


def test_weight_of_an_upright_spindle_does_not_change_its_float() -> None:
    """A spindle that hangs rests on one row; it travels as far, and what that row yields."""
    heavy = lathe(weight=", weight: 200 N, weighs towards: nose")
    assert 50 < value(heavy, "float") < 52


WORM = """
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  worm:
    from left to right:
      case: [case.left, worm, case.right]
  wheel:
    from low to high:
      table: [case.low, wheel, case.high]
parts:
  case: {{kind: housing}}
  worm: {{kind: shaft}}
  wheel: {{kind: shaft}}
  infeed: {{kind: shim pack}}
meshes:
  drive: {{kind: worm, pinion: worm, wheel: wheel, pinion teeth: 1, wheel teeth: 40, module: 2.0000,
          centre shims: infeed, worm diameter: 24.000, centre distance: 52.000,
          lash: 0.020 {throw}}}
sizes:
  case.left to case.right: 80.{play}
  worm: 80.000
  case.low to case.high: 30.010
  wheel: 30.000
settings:
  infeed: {{made from: [0.05, 0.10], fitted: 0.10}}
checks:
  lash: {{kind: backlash, mesh: drive, on: wheel}}
"""


def worm(play: str = "010", throw: str = "") -> str:
    """Write the worm with its end float and its eccentric."""
    return WORM.format(play=play, throw=throw)


def test_shims_under_a_worm_add_to_the_lash() -> None:
    """A tenth more of shims opens the flanks by 2 tan(20 degrees) of it: 0.073 mm."""
    thin, thick = (value(worm(), "lash", infeed=pack) for pack in (0.0, 0.1))
    angle = np.arctan(np.tan(np.radians(20)) / np.cos(np.arctan(2 / 24)))
    assert thick - thin == pytest.approx(2 * np.tan(angle) * 100, abs=0.05)


def test_end_float_of_a_worm_is_felt_one_to_one() -> None:
    """Twenty micrometres more of end float are twenty more at the wheel's rim."""
    little, more = (value(worm(play), "lash", infeed=0.0) for play in ("010", "030"))
    assert more - little == pytest.approx(20, abs=0.2)


def test_eccentric_turned_away_opens_the_mesh() -> None:
    """The sleeve takes most from the centres at nought; turned a quarter it takes nothing."""
    at = ", eccentric: 0.100 by micrometer, eccentric turned: {} deg"
    near, away = (value(worm(throw=at.format(turn)), "lash", infeed=0.1) for turn in (0, 90))
    assert away > near + 60
