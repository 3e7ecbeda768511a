"""A nut that adjusts is set by what is read: how far, which way, how sure, worked by hand."""

from math import erf, sqrt

import numpy as np
import pytest

from dryfit.app.usecases.choose import ChooseAnswer, ChooseRequest, choose
from dryfit.ask.asking import Asking
from dryfit.ask.closing import Closing, close_up
from dryfit.ask.nut_routes import walked
from dryfit.ask.route import TAKE_OUT, WALK
from dryfit.ask.slopes import pack_slope
from dryfit.document.read import read_document

TAPER = (
    "width: {wide} +/- 0.005, set width: {wide} +/- 0.010, angle: 14 deg, stops shaft going: {way}"
)
TEXT = """dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  spindle:
    from nose to tail:
      at the nose:    [spindle.flange, front]
      at the tail:    [rear, nut]
      front cup:      [front, case.front register]
      rear cup:       [case.rear register, rear]
parts:
  case:    {kind: housing}
  spindle: {kind: shaft}
  front: {kind: taper roller, bore: 50, outside: 90, FRONT}
  rear:  {kind: taper roller, bore: 45, outside: 85, REAR}
  nut:   {kind: nut, thread: M45x1.5, outside: 70, set to: 0.110}
instruments:
  my dial: {like: dial indicator, limit: 0.012}
sizes:
  case.front register to case.rear register: 210.00 by height gauge
settings:
  nut: {set by: my dial}
needs:
  spindle float: {kind: float, of: spindle, want: 0.020 to 0.050}
checks:
  end float: {kind: end float, of: spindle, push: 100 N}
""".replace("FRONT", TAPER.format(wide="20.000", way="tail")).replace(
    "REAR", TAPER.format(wide="19.750", way="nose")
)
NIP = (
    "kind: float, of: spindle, want: 0.020 to 0.050",
    "kind: nip, of: spindle, want: 0.010 to 0.030",
)
LOCK = ("set to: 0.110", "locked by: lock nut")


def text(*changes: tuple[str, str]) -> str:
    """Change the text."""
    found = TEXT
    for was, now in changes:
        assert was in found
        found = found.replace(was, now)
    return found


def closing(*changes: tuple[str, str]) -> Closing:
    """Ask everything with 20 000 draws."""
    return close_up(Asking(read_document(text(*changes)).rebuild, 20_000))


def answer(*changes: tuple[str, str]) -> ChooseAnswer:
    """Ask as the command does, with fewer draws."""
    return choose(ChooseRequest(text(*changes).encode(), 2_000))


def phi(x: float) -> float:
    """Give the normal distribution."""
    return (1 + erf(x / sqrt(2))) / 2


def test_float_set_is_the_middle_of_what_is_wanted() -> None:
    """0.035 of 0.020 to 0.050; from 0.110 that is 0.075 of 1.5 a turn: tighten by 18 degrees."""
    (one,) = closing().settings
    assert one.pack is not None
    assert one.nut is not None
    assert one.pack.thickness == pytest.approx(0.035e-3, abs=0.0011e-3)
    assert one.nut.degrees == pytest.approx(18.0, abs=0.3)
    assert one.nut.locking == 0.0


def test_chance_by_reading_against_the_rectangle() -> None:
    """A dial good to 0.012 either way: limits 0.015 off the middle are never missed by it.

    With 0.027 to 0.043 wanted, 0.008 either way, it is met in 8 of 12: 66.7 in 100, the rectangle
    of GUM 4.3.7 (JCGM 100:2008); where half of the limit is shared by all readings of a dial the
    sum of two rectangles lies between that and the normal of the same deviation:
    0.012/sqrt 3 = 0.00693, 2 Phi(0.008/0.00693) - 1 = 75.2 in 100.
    """
    by_reading = {r.name: r for r in closing().settings[0].routes}[TAKE_OUT]
    assert by_reading.chance is not None
    assert by_reading.chance > 0.97
    narrow = ("want: 0.020 to 0.050", "want: 0.027 to 0.043")
    narrower = {r.name: r for r in closing(narrow).settings[0].routes}[TAKE_OUT]
    rectangle, normal = 8 / 12, 2 * phi(0.008 / (0.012 / sqrt(3))) - 1
    assert narrower.chance is not None
    assert rectangle - 0.015 < narrower.chance < normal + 0.015


def test_slacker_nut_gives_float() -> None:
    """By as much as it is slackened; a nip it takes out."""
    asking = Asking(read_document(text()).rebuild, 100)
    (need,) = asking.rebuild.needs.values()
    assert pack_slope(asking, need, {"nut": 0.05e-3}, "nut") == pytest.approx(1.0, abs=1e-4)
    assert answer().settings[0].thicker.startswith("slacker nut gives spindle more room: float up")
    told = answer(NIP).settings[0].thicker
    assert told == "slacker nut takes nip out of spindle: less; tighter: more nip"


def test_nip_cannot_be_set_by_reading_and_is_walked_past_nothing() -> None:
    """0.020 past where rows touch: 4.8 degrees of 1.5 a turn, less what yields under the push."""
    (one,) = closing(NIP).settings
    found = {r.name: r for r in one.routes}
    assert found[TAKE_OUT].chance is None
    assert "nothing left to read" in found[TAKE_OUT].why_not
    assert one.route is not None
    assert one.route.name == WALK
    assert one.nut is not None
    assert one.nut.shown is None
    assert one.pack is not None
    assert one.pack.thickness == pytest.approx(-0.020e-3, abs=0.002e-3)
    past = -one.pack.thickness / 1.5e-3 * 360
    assert 0 < past - (one.nut.past or 0.0) < 1.5


def test_play_of_a_lock_nut_need_not_be_known_when_it_is_read_locked() -> None:
    """Set blind it is right in few; read with the lock nut done up it is as sure as without one."""
    plain = {r.name: r for r in closing().settings[0].routes}[TAKE_OUT]
    locked = closing(LOCK)
    found = {r.name: r for r in locked.settings[0].routes}[TAKE_OUT]
    assert plain.chance is not None
    assert found.chance == pytest.approx(plain.chance, abs=0.01)
    nut = locked.settings[0].nut
    assert nut is not None
    assert nut.locking > 0.05e-3
    assert nut.to == pytest.approx(0.035e-3, abs=0.0011e-3)


def test_walk_by_hand() -> None:
    """Three readings and their marks, and the last mark: each an error of its own.

    A mark is set within 2 degrees either way, 2/360 of 1.5: 0.00833; with a dial of 0.012, all its
    own: sqrt((0.012^2 + 0.00833^2) / 3 / 3 + 0.00833^2 / 3) = 0.00683. Where the dial's error is
    the same for all three it does not shrink: sqrt(0.012^2/3 + 0.00833^2/9 + 0.00833^2/3) = 0.0089.
    """
    rebuild = read_document(text()).rebuild
    asking = Asking(rebuild, 20_000)
    made = asking.made({"nut": walked(asking, "nut", 0.035e-3)})["nut"]
    spread = float(np.std(made)) * 1e3
    assert 0.00683 * 0.98 < spread < 0.0089 * 1.02
    assert float(np.mean(made)) * 1e3 == pytest.approx(0.035, abs=0.0003)


@pytest.mark.parametrize(
    ("was", "now", "code", "says"),
    [
        ("{set by: my dial}", "{made from: [0.05]}", "setting.nut", "no thickness to choose"),
        ("{set by: my dial}", "{fitted: 0.05}", "setting.nut", "no thickness to choose"),
        ("{set by: my dial}", "{set by: my dail}", "instrument.unknown", "my dail"),
        ("  nut: {set by: my dial}", "  front: {set by: my dial}", "setting.set by", "only a nut"),
        ("set to: 0.110", "torque: 50 N.m", "setting.clamps", "clamps"),
    ],
)
def test_what_cannot_be_is_told(was: str, now: str, code: str, says: str) -> None:
    """Each slip has its place and a way out."""
    found = [f for f in answer((was, now)).findings if f.code == code]
    assert found
    assert says in found[0].message
    assert found[0].way_out


def test_nut_without_a_word_of_what_sets_it_is_told() -> None:
    """An empty setting names an instrument as the way out."""
    found = answer(("nut: {set by: my dial}", "nut: {}")).findings
    assert any("set by" in f.way_out for f in found)
