"""Which way each change goes, by hand, with the reason in the test's own words."""

from itertools import pairwise

import numpy as np
import pytest
from tests.oracle.test_units import HEAD, HEADSTOCK, IN, OUT, PAIR, ours
from tests.oracle.texts import OVERHUNG
from tests.oracle.units import set_by_ring

from dryfit.app.usecases.opening import open_text
from dryfit.mechanics.materials import MATERIALS
from dryfit.solve.luck import NoLuck, full
from dryfit.solve.predict import predict
from dryfit.solve.sample import sample

BACK, FACE = {"front": "tail", "rear": "nose"}, {"front": "nose", "rear": "tail"}


def preload(text: str, sides: dict[str, str]) -> float:
    """Say what the front row carries [N]."""
    held = ours(text)
    ends = ("front" + IN, "front" + OUT)
    return float(held.force(*(ends if sides == BACK else ends[::-1]))[0])


def reading(text: str, check: str, **packs: float) -> float:
    """Say what a check truly finds with every size as typed [um]."""
    opened = open_text(text)
    assert not opened.stopped, [found.message for found in opened.findings]
    rebuild, luck = opened.rebuild, NoLuck()
    fitted = {name.replace("_", " "): full(luck, thick * 1e-3) for name, thick in packs.items()}
    found = predict(rebuild, rebuild.checks[check], sample(rebuild, luck), packs=fitted)
    assert not found.lacking
    return float(found.true[0]) * 1e6


def nipped(sides: dict[str, str], inner: float, outer: float) -> str:
    """Write a pair whose outer rings are held, so that either arrangement can be nipped."""
    text = PAIR.format(**sides, inner=inner, outer=outer)
    text = text.replace("outer spacer, rear]", "outer spacer, rear, ring]")
    ring = "  ring: {kind: threaded ring, thread: M80x2, torque: 60 N.m}\n"
    return text.replace("sizes:", f"{ring}sizes:")


def test_longer_inner_spacer_back_to_back_takes_preload_away() -> None:
    """Back to back the nut draws the inner rings together; a longer spacer stops it sooner."""
    short, long = (preload(nipped(BACK, inner, 20.0), BACK) for inner in (20.0, 20.004))
    assert long < short


def test_longer_outer_spacer_back_to_back_adds_preload() -> None:
    """Back to back a longer outer spacer pushes the outer rings apart, against the inner ones."""
    short, long = (preload(nipped(BACK, 20.0, outer), BACK) for outer in (20.0, 20.004))
    assert long > short


def test_longer_inner_spacer_face_to_face_adds_preload() -> None:
    """Face to face the inner rings push outward on the outer ones; a longer inner spacer more."""
    short, long = (preload(nipped(FACE, inner, 19.98), FACE) for inner in (20.0, 20.004))
    assert long > short


def test_longer_outer_spacer_face_to_face_takes_preload_away() -> None:
    """Face to face the outer rings hold the inner ones in; further apart they hold less."""
    short, long = (preload(nipped(FACE, 20.0, outer), FACE) for outer in (19.980, 19.984))
    assert long < short


def test_harder_nut_on_a_back_to_back_pair_adds_preload() -> None:
    """More clamp shortens the inner spacer, which lets the inner rings nearer to each other."""
    soft = nipped(BACK, 60.0, 60.0)
    hard = soft.replace("torque: 33 N.m", "torque: 66 N.m")
    assert preload(hard, BACK) > preload(soft, BACK)


@pytest.mark.parametrize("step", [0.005, 0.020])
def test_nut_screwed_on_takes_float(step: float) -> None:
    """The nut pushes the rear cone against its cup: each micrometre on is one of float less."""
    check = "checks:\n  float: {{kind: end float, of: shaft}}\n"
    slack, tight = (
        reading((HEADSTOCK + check).format(set=value), "float") for value in (0.050, 0.050 - step)
    )
    assert slack - tight == pytest.approx(step * 1e3, abs=0.1)


COVERED = (
    HEAD
    + """
      {left}
      {right}
      in the case: [case.register, one]
      far: [two, cover.spigot]
      joint: [case.joint, shim, cover.flange]
parts:
  case: {{kind: housing {case}}}
  cover: {{kind: cover {case}}}
  shim: {{kind: shim pack}}
  shaft: {{kind: shaft}}
  one: {{kind: {kind}, bore: 40, outside: 80, width: 18.000 +/- 0.001, angle: {angle} deg,
        set width: 18.000 +/- 0.001, stops shaft going: {one}}}
  two: {{kind: {kind}, bore: 40, outside: 80, width: 18.000 +/- 0.001, angle: {angle} deg,
        set width: 18.000 +/- 0.001, stops shaft going: {two}}}
sizes:
  case.register to case.joint: {room:.3f}
  cover.flange to cover.spigot: -5.000
  shaft.left to shaft.right: {span:.3f}
settings:
  shim: {{made from: [0.05], fitted: 0.000}}
states:
  warm shaft: {{warmer than room: {{shaft: 20 K}}}}
  warm case: {{warmer than room: {{case: 20 K, cover: 20 K}}}}
checks:
  float: {{kind: end float, of: shaft}}
  float, warm shaft: {{kind: end float, of: shaft, state: warm shaft}}
  float, warm case: {{kind: end float, of: shaft, state: warm case}}
"""
)


def covered(*, kind: str = "angular contact ball", angle: float = 25, case: str = "") -> str:
    """Write a face to face pair under a cover: cups outside, shoulders between the inner rings."""
    return COVERED.format(
        left="left: [one, shaft.left]",
        right="right: [shaft.right, two]",
        kind=kind, angle=angle, one="nose", two="tail", span=300, room=341.1, case=case,
    )  # fmt: skip


def test_thicker_shim_under_a_cover_gives_float() -> None:
    """The cover stands further out, so the outer rings are further apart: as much more float."""
    thin, thick = (reading(covered(), "float", shim=pack) for pack in (0.05, 0.1))
    assert thick - thin == pytest.approx(50, abs=0.5)
    assert thin > 0


def changed(text: str, warm: str) -> float:
    """Say how much more float there is in a warm state [um]."""
    return reading(text, warm, shim=0.1) - reading(text, "float", shim=0.1)


KINDS = [("angular contact ball", 25.0), ("taper roller", 14.0)]

WARM = MATERIALS["steel"].expansion * 20.0 * 1e3
"""What 20 K do to a millimetre of steel [um/mm]."""


def sooner(bore: float, outside: float, kind: str, angle: float) -> float:
    """Say how much sooner a row touches along as its inner track and balls are warm [um].

    They grow into the outer track, whose wall is taken as 0.205 of outside less bore. Rollers slide
    up their cup's cone. Balls keep the distance A of their grooves' centres: A cos grows, A sin
    shrinks; A is 0.04 of the ball, and that 0.295 of outside less bore.
    """
    up = WARM * (outside - 0.205 * (outside - bore)) / 2
    radians = np.radians(angle)
    if kind == "taper roller":
        return up / float(np.tan(radians))
    apart = 0.04 * 0.295 * (outside - bore) * 1e3
    along = np.sqrt(apart**2 - (apart * np.cos(radians) + up) ** 2)
    return float(apart * np.sin(radians) - along)


@pytest.mark.parametrize(("kind", "angle"), KINDS)
def test_warm_shaft_face_to_face_takes_float(kind: str, angle: float) -> None:
    """Face to face both the longer shaft and the fatter inner rings close the rows.

    By hand: 300 between the shoulders, half of each inner ring, and what grows across.
    """
    expected = -WARM * (300 + 18 / 2 + 18 / 2) - 2 * sooner(40, 80, kind, angle)
    found = changed(covered(kind=kind, angle=angle), "float, warm shaft")
    assert found == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize(("kind", "angle"), [("angular contact ball", 25), ("taper roller", 14)])
def test_warm_case_face_to_face_gives_float(kind: str, angle: float) -> None:
    """A case that grows takes its cups apart, and lets the outer rings grow: float comes back."""
    text = covered(kind=kind, angle=angle)
    assert changed(text, "float, warm case") > 50


BACKS = HEADSTOCK.replace("200.000", "{span:.3f}").replace(": nose}}", ": nose, on: shaft}}") + (
    """
states:
  warm shaft: {{warmer than room: {{shaft: 20 K}}}}
checks:
  float: {{kind: end float, of: shaft}}
  float, warm shaft: {{kind: end float, of: shaft, state: warm shaft}}
"""
)


def gained(span: float, kind: str = "taper roller", angle: float = 14) -> float:
    """Say how much float a warm shaft gains, back to back, outer rings `span` apart [um]."""
    text = BACKS.replace("taper roller", kind).replace("angle: 14", f"angle: {angle}")
    text = text.format(set=0.100, span=span)
    return reading(text, "float, warm shaft") - reading(text, "float")


def by_hand(span: float, kind: str, angle: float) -> float:
    """Say the same by hand: what of the shaft lies between the rows, less what grows across [um].

    From flange to nut lie 21.75, the span, 20.75 and the float of 0.1; of each inner ring half
    counts, for the other half lies beyond its row.
    """
    along = 21.75 + span + 20.75 + 0.1 - 20 / 2 - 19 / 2
    return WARM * along - sooner(50, 90, kind, angle) - sooner(45, 85, kind, angle)


@pytest.mark.parametrize(("kind", "angle"), KINDS)
@pytest.mark.parametrize("span", [60.0, 600.0])
def test_warm_shaft_back_to_back_gains_by_length_and_loses_by_diameter(
    kind: str, angle: float, span: float
) -> None:
    """Back to back a long warm shaft gains float, a short one loses it to its fatter rings."""
    found = gained(span, kind, angle)
    assert found == pytest.approx(by_hand(span, kind, angle), abs=0.01)
    assert found > 0 if span > 500 else found < 0


def test_ring_beside_a_nut_is_as_warm_as_its_shaft() -> None:
    """Whether `on: shaft` is written or understood, a warm shaft changes the float alike."""
    told = BACKS.format(set=0.100, span=200)
    left = told.replace(", on: shaft", "")
    assert told != left
    warm = [reading(text, "float, warm shaft") for text in (told, left)]
    assert warm[0] == pytest.approx(warm[1], abs=0.01)


def test_neutral_span_of_a_taper_pair() -> None:
    """At the span at which both cups have one apex, warmth changes nothing; beside it, it does.

    About its apex a cone grows along its own surface: one apex for both rows, and no row notices.
    """
    apexes = sum((d - 0.205 * 40) / 2 / np.tan(np.radians(14)) for d in (90, 85))
    neutral = float(apexes) - (21.75 + 20.75 + 0.1 - 20 / 2 - 19 / 2)
    assert gained(neutral) == pytest.approx(0, abs=0.2)  # spans are written to a micrometre
    found = [gained(neutral + step) for step in (-50, -10, 10, 50)]
    assert all(b > a for a, b in pairwise(found))
    assert found[1] < -2 < 2 < found[2]


@pytest.mark.parametrize("step", [0.004, 0.015])
def test_threaded_ring_screwed_in_takes_float(step: float) -> None:
    """The ring pushes the near cup after its cone: each micrometre in is one of float less."""
    slack, tight = (reading(set_by_ring(to).text, "float") for to in (0.030, 0.030 - step))
    assert slack - tight == pytest.approx(step * 1e3, abs=0.01)


def test_threaded_ring_screwed_past_nothing_nips() -> None:
    """With no float left the ring presses the rows, and the reading turns to less than nothing."""
    assert reading(set_by_ring(-0.006).text, "float") < reading(set_by_ring(-0.002).text, "float")
    assert reading(set_by_ring(-0.002).text, "float") < 0


@pytest.mark.parametrize("more", [0.05, -0.10])
def test_thicker_shim_under_a_cartridge_flange_opens_the_lash(more: float) -> None:
    """The flange stands further from the mesh, and takes the pinion out of the wheel.

    By hand: out by s along its axis the pinion's teeth stand back by s sin(cone angle) square to
    the cone, and 2 tan(pressure angle) of that shows round the circle; 18 teeth in 36.
    """
    thin, thick = (reading(OVERHUNG, "lash", shim=pack) for pack in (0.25, 0.25 + more))
    by_teeth = 2 * np.tan(np.radians(20)) * np.sin(np.arctan(18 / 36))
    assert thick - thin == pytest.approx(by_teeth * more * 1e3, abs=0.05)


GEARED = """
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  first:
    from left to right:
      through: [case.left, driver, case.right]
  second:
    from left to right:
      through: [case.near, driven, case.far]
parts:
  case:   {{kind: housing}}
  driver: {{kind: shaft}}
  driven: {{kind: shaft}}
meshes:
  pair: {{{mesh}, pinion: driver, wheel: driven, module: 2, lash: 0.050}}
sizes:
  case.left to case.right: {room:.3f}
  case.near to case.far: {wheel_room:.3f}
  driver: 100.000
  driven: 80.000
checks:
  lash: {{kind: backlash, mesh: pair, on: wheel}}
"""

WORM = "kind: worm, pinion teeth: 1, wheel teeth: 30, worm diameter: 24, centre distance: 42"
HELICAL = (
    "kind: helical, pinion teeth: 20, wheel teeth: 40, helix angle: 15 deg, hand: HAND,"
    " centre distance: 62.12"
)


@pytest.mark.parametrize(
    ("mesh", "share"),
    [
        (WORM, 1.0),
        (HELICAL.replace("HAND", "right"), np.tan(np.radians(15))),
        (HELICAL.replace("HAND", "left"), np.tan(np.radians(15))),
    ],
    ids=["worm", "right hand helix", "left hand helix"],
)
def test_end_float_adds_to_lash(mesh: str, share: float) -> None:
    """Rocked, a worm or a helical pinion slides through its end float, and the wheel follows.

    By hand: a worm is a rack, so the wheel's circle follows it whole; a helix turns along into
    round by the tangent of its angle, whichever its hand.
    """
    little, much = (geared(mesh, room, 80.010) for room in (100.010, 100.090))
    assert much - little == pytest.approx(80 * share, abs=0.1)


def geared(mesh: str, room: float, wheel_room: float) -> float:
    """Say what lash a pair has; its driver is 100 long, its wheel 80, in so much room [um]."""
    return reading(GEARED.format(mesh=mesh, room=room, wheel_room=wheel_room), "lash")


@pytest.mark.parametrize("hand", ["right", "left"])
def test_end_float_of_a_helical_wheel_adds_too(hand: str) -> None:
    """Teeth push on each other: as the pinion goes one way the wheel goes the other; floats add.

    By hand: on parallel shafts the torques of both members have one sign and their helices two.
    """
    mesh = HELICAL.replace("HAND", hand)
    little, much = (geared(mesh, 100.090, room) for room in (80.010, 80.060))
    assert much - little == pytest.approx(50 * np.tan(np.radians(15)), abs=0.1)
