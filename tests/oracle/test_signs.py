"""Which way each change goes, by hand, with the reason in the test's own words."""

from itertools import pairwise

import pytest
from tests.oracle.test_units import HEAD, HEADSTOCK, IN, OUT, PAIR, ours

from dryfit.app.usecases.opening import open_text
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
used for: {{warmer than casing: 20 K}}
states:
  warm case: {{warmer than room: {{case: 20 K, cover: 20 K}}}}
checks:
  float: {{kind: end float, of: shaft}}
  float, hot: {{kind: end float, of: shaft, state: hot}}
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


@pytest.mark.parametrize(("kind", "angle"), [("angular contact ball", 25), ("taper roller", 14)])
def test_warm_shaft_face_to_face_takes_float(kind: str, angle: float) -> None:
    """Face to face both the longer shaft and the fatter inner rings close the rows."""
    text = covered(kind=kind, angle=angle)
    assert changed(text, "float, hot") < -50


@pytest.mark.parametrize(("kind", "angle"), [("angular contact ball", 25), ("taper roller", 14)])
def test_warm_case_face_to_face_gives_float(kind: str, angle: float) -> None:
    """A case that grows takes its cups apart, and lets the outer rings grow: float comes back."""
    text = covered(kind=kind, angle=angle)
    assert changed(text, "float, warm case") > 50


BACKS = HEADSTOCK.replace("200.000", "{span:.3f}").replace("angle: 14", "angle: {angle}") + (
    """
used for: {{warmer than casing: 20 K}}
checks:
  float: {{kind: end float, of: shaft}}
  float, hot: {{kind: end float, of: shaft, state: hot}}
"""
)


def gained(span: float, angle: float = 14) -> float:
    """Say how much float a warm shaft gains, cups back to back `span` apart [um]."""
    text = BACKS.format(set=0.100, span=span, angle=angle)
    return reading(text, "float, hot") - reading(text, "float")


def test_warm_shaft_back_to_back_gains_by_length_and_loses_by_diameter() -> None:
    """Back to back a long warm shaft gains float, a short one loses it to its fatter rings."""
    assert gained(600) > 20
    assert gained(100) < -20


def test_neutral_span_of_a_taper_pair() -> None:
    """Between them lies the span at which the apexes meet and warmth changes nothing.

    Apex of each row: half its mean cup diameter over tan(angle) from its middle; for these two
    near 69 and 64 mm of radius over tan(14 degrees), less what the rings themselves take up.
    """
    spans = [100.0 + 25.0 * n for n in range(21)]
    found = [gained(span) for span in spans]
    assert all(b > a for a, b in pairwise(found))
    crossing = next(s for s, g in zip(spans, found, strict=True) if g > 0)
    cups = [(85 + 45) / 2 + 0.295 * 40, (90 + 50) / 2 + 0.295 * 40]
    neutral = sum(cup / 2 / 0.2493 for cup in cups)
    assert crossing == pytest.approx(neutral, rel=0.15)
