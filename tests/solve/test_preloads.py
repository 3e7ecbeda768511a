"""How hard rows are pressed together, and how heavy that is: statics by hand.

The quill of tests/scenarios has a pair ground for 150 N at the nose and a spring of 112 N behind
its tail bearing, all worked out in test_quill.py.
"""

import numpy as np
import pytest
from tests.scenarios.bench import at_rest, load, unit

from dryfit.app.usecases.opening import open_text
from dryfit.model.rebuild import PreloadNeed, Rebuild
from dryfit.quantities import read_preload
from dryfit.solve.luck import NoLuck
from dryfit.solve.predict import Reading, predict
from dryfit.solve.recommended import preload_limits, preload_word
from dryfit.solve.sample import sample

OPEN = {"pocket: 61.985": "pocket: 62.008"}
UNLIKE = {"bore: 45, outside: 85": "rating: 60 kN, bore: 45, outside: 85"}


def preload(rebuild: Rebuild, want: str | None) -> Reading:
    """Ask how hard the rows of the spindle are pressed together."""
    wanted = read_preload(want) if want else None
    need = PreloadNeed("preload", "preload", of="spindle", want=wanted)
    return predict(rebuild, need, sample(rebuild, NoLuck()), packs={})


def test_force_is_that_of_the_rows_that_stop_either_way() -> None:
    """The front row carries what second and tail row carry together, or there were no rest."""
    quill = unit("quill", OPEN)
    held = at_rest(quill)
    found = preload(quill, "at least 10 N")
    assert found.true[0] == pytest.approx(load(held, "front"), rel=1e-6)
    back = load(held, "second") + load(held, "rear")
    assert found.true[0] == pytest.approx(back, rel=1e-6)
    assert found.shown[0] == found.true[0]


def test_share_is_the_sum_of_ball_loads_over_the_rating() -> None:
    """With a typed rating: F / (C sin(angle)); the angle is a little more than 25 degrees loaded.

    The deep groove row has the flattest angle and so the most load on its balls for its thrust:
    its own rating counts, so it is given one beyond reach.
    """
    front = "outside: 72, width: 17.000 +/- 0.001, angle: 25 deg, stops shaft going: nose"
    second = front.replace("nose", "tail")
    rear = "rear:    {kind: deep groove ball,"
    rated = unit(
        "quill",
        {**OPEN, front: f"rating: 26 kN, {front}", second: f"rating: 26 kN, {second}"}
        | {rear: f"{rear} rating: 9000 kN,"},
    )
    share = float(preload(rated, "light").true[0])
    force = load(at_rest(rated), "front")
    assert share == pytest.approx(force / (26e3 * np.sin(np.radians(25.0))), rel=0.03)
    assert share < force / (26e3 * np.sin(np.radians(25.0)))


def test_free_float_is_no_preload() -> None:
    """The headstock with 0.060 of float has none, whatever it is asked in."""
    headstock = unit("taper-headstock")
    for want in ("light", "at least 1 N"):
        assert preload(headstock, want).true[0] == 0.0


def test_tapers_are_rated_only_where_their_rating_is_typed() -> None:
    """Rollers have no rating that could be worked out from outside."""
    headstock = unit("taper-headstock")
    assert preload(headstock, "light").lacking == {"front.rating", "rear.rating"}
    assert preload(unit("taper-headstock", UNLIKE), "light").lacking == {"front.rating"}


def test_words_lie_between_their_limits() -> None:
    """Common practice, no source: none to 0.2 %, light to 3.6, medium to 9, heavy to 20."""
    assert preload_limits("light", "medium") == (0.002, 0.09)
    assert preload_limits("none", "light") == (None, 0.036)
    assert [preload_word(s) for s in (0.0, 0.01, 0.05, 0.15, 0.9)] == [
        "none",
        "light",
        "medium",
        "heavy",
        "harmful",
    ]


THRUST = """
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  spindle:
    from nose to tail:
      nose:   [case.nose face, front]
      first:  [front, spindle.nose shoulder]
      second: [spindle.tail shoulder, rear]
      tail:   [rear, case.tail face]
parts:
  case: {kind: housing}
  spindle: {kind: shaft}
  front: {kind: thrust ball, bore: 40, outside: 60, width: 4.500 +/- 0.001,
          set width: 13.000 +/- 0.001, balls: 18, ball: 6.35, stops shaft going: nose}
  rear: {kind: thrust ball, bore: 40, outside: 60, width: 4.500 +/- 0.001,
         set width: 13.000 +/- 0.001, balls: 18, ball: 6.35, stops shaft going: tail}
sizes:
  case.nose face to case.tail face: 125.980
  spindle.nose shoulder to spindle.tail shoulder: 100.000
checks:
  float: {kind: end float, of: spindle}
"""


def test_thrust_balls_are_rated_along_the_shaft() -> None:
    """C_a = b_m f_c Z^(2/3) D^1.8 at 90 degrees (ISO 281:2007): 1.3 x 78.7 x 18^(2/3) x 6.35^1.8 N.

    D / D_pw is 6.35 / 50 = 0.127, with f_c 77.4 at 0.12 and 79.3 at 0.13 (table 4, from memory).
    At 90 degrees the loads of all balls are the thrust itself, so the share is F / C_a.
    """
    found = open_text(THRUST)
    assert not found.stopped, [f.message for f in found.findings]
    share = preload(found.rebuild, "light")
    rating = float(share.shown[0] / share.true[0])
    assert rating == pytest.approx(1.3 * 78.7 * 18 ** (2 / 3) * 6.35**1.8, rel=0.01)
