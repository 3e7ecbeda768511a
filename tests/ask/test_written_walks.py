"""Walks in the document: lines worked by hand, the pack they ask for, its chance of being right."""

from importlib.resources import files
from math import erf, sqrt

import numpy as np
import pytest

from dryfit.ask.asking import Asking
from dryfit.ask.closing import Closing, close_up
from dryfit.ask.in_hand import Set
from dryfit.ask.route import TAKE_OUT, WALK, Route
from dryfit.ask.unanswered import unanswered
from dryfit.ask.walk import Walk
from dryfit.ask.written_walks import TakenWalk
from dryfit.document.read import read_document
from dryfit.model.rebuild import Rebuild
from dryfit.model.rules import check

UNDER_THE_COVER = """\
dryfit: 1
sizes in: mm
lines:
  spindle:
    from blind end to cover:
      in the case: [case.face, shaft, cover.boss]
      joint: [case.joint, shim, cover.flange]
parts: {case: {kind: housing}, cover: {kind: cover}, shaft: {kind: shaft}, shim: {kind: shim pack}}
sizes:
  case.face to case.joint: 100.00
  cover.flange to cover.boss: -1.38
  shaft: 99.00
settings:
  shim: {made from: [0.03, 0.05, 0.10, 0.25]}
needs:
  shaft float: {kind: float, of: shaft, want: 0.05 to 0.15}
checks:
  end float: {kind: end float, of: shaft}
"""
"""As typed a shim of 0.38 leaves no float, and each hundredth more gives as much of it."""

GIVES = "{with: shim, 0.50: 0.120, 0.55: 0.170, 0.60: 0.220}"


def _read(text: str, walk: str, name: str = "end float") -> Rebuild:
    document = read_document(f"{text}walks:\n  {name}: {walk}\n")
    assert document.findings == ()
    assert [f for f in check(document.rebuild) if f.level == "stop"] == []
    return document.rebuild


def _closed(text: str, walk: str, *, count: int = 500, name: str = "end float") -> Closing:
    return close_up(Asking(_read(text, walk, name), count))


def _demo(name: str, *changes: tuple[str, str]) -> str:
    text = (files("dryfit.app") / "demos" / f"{name}.yaml").read_text(encoding="utf-8")
    for typed, instead in changes:
        assert typed in text
        text = text.replace(typed, instead)
    return text


def _taken(closing: Closing) -> tuple[TakenWalk, Walk]:
    (taken,) = closing.walks
    assert taken.walk is not None
    return taken, taken.walk


def _route(one: Set, name: str) -> Route:
    return next(route for route in one.routes if route.name == name)


def _mm(metres: float) -> float:
    return metres * 1e3


SHADE = 1e-5
"""A reading with a thicker pack counts a shade less, as a micrometer is less sure of it [mm]."""


def test_thicker_cover_shim_gives_float() -> None:
    """On a line: 0.120 with 0.50, so nothing with 0.38; 0.10 is wanted, so 0.48 is fitted."""
    closing = _closed(UNDER_THE_COVER, GIVES)
    _, walk = _taken(closing)
    assert _mm(walk.nothing.at) == pytest.approx(0.38, abs=1e-9)
    assert _mm(walk.goal.at) == pytest.approx(0.48, abs=1e-9)
    assert walk.off == pytest.approx((0, 0, 0), abs=1e-12)
    pack = closing.settings[0].pack
    assert pack is not None
    assert _mm(pack.thickness) == pytest.approx(0.48)
    assert [piece.text for piece in pack.pieces] == ["0.25", "0.10", "0.10", "0.03"]


def test_thicker_shim_behind_a_ring_takes_float() -> None:
    """On a line: 0.250 with 0.20, so nothing with 0.45; 0.10 is wanted, so 0.35 is fitted."""
    walk = "{with: thrust shim, 0.20: 0.250, 0.25: 0.200, 0.30: 0.150}"
    closing = _closed(_demo("feed-box"), walk)
    _, found = _taken(closing)
    assert _mm(found.nothing.at) == pytest.approx(0.45, abs=1e-9)
    assert _mm(found.goal.at) == pytest.approx(0.35, abs=1e-9)
    pack = closing.settings[0].pack
    assert pack is not None
    assert _mm(pack.thickness) == pytest.approx(0.35)


PACKS, FLOATS = np.array([0.50, 0.55, 0.60]), np.array([0.118, 0.170, 0.219])
SCATTERED = "{with: shim, 0.50: 0.118, 0.55: 0.170, 0.60: 0.219}"


def test_scattered_readings_by_the_normal_equations() -> None:
    """The line of known slope is as high as the mean of what the readings make of it.

    Slope 1: n b = sum(y - x) = -0.382 - 0.380 - 0.381 = -1.143, b = -0.381: nothing at 0.381.
    Slope free: sums x 1.65, y 0.507, xx 0.9125, xy 0.2839; slope (3 x 0.2839 - 1.65 x 0.507) /
    (3 x 0.9125 - 1.65^2) = 0.01515 / 0.0150 = 1.01, height (0.507 - 1.01 x 1.65) / 3 = -0.3865:
    nothing at 0.3865 / 1.01 = 0.38267.
    """
    _, walk = _taken(_closed(UNDER_THE_COVER, SCATTERED))
    assert _mm(walk.nothing.at) == pytest.approx(0.381, abs=SHADE)
    assert _mm(walk.goal.at) == pytest.approx(0.481, abs=SHADE)
    assert walk.own.slope == pytest.approx(1.01, abs=1e-4)
    assert _mm(walk.own.where(0.0)) == pytest.approx(0.38267, abs=SHADE)


def test_scattered_readings_by_numpy() -> None:
    """numpy.polyfit: degree 0 of what is over the packs, degree 1 of the readings themselves."""
    _, walk = _taken(_closed(UNDER_THE_COVER, SCATTERED))
    (height,) = np.polyfit(PACKS, FLOATS - PACKS, 0)
    slope, own = np.polyfit(PACKS, FLOATS, 1)
    assert _mm(walk.nothing.at) == pytest.approx(-height, abs=SHADE)
    assert _mm(walk.own.where(0.0)) == pytest.approx(-own / slope, abs=SHADE)


WALKED = {
    "bevel-box": "{with: cover shim, 0.50: 0.118, 0.55: 0.170, 0.60: 0.219}",
    "feed-box": "{with: thrust shim, 0.20: 0.252, 0.25: 0.199, 0.30: 0.151}",
    "lay-shaft": "{with: rear washer, 0.119: 8.2 thou, 0.121: 6.1 thou, 0.123: 3.9 thou}",
}


@pytest.mark.parametrize("demo", WALKED)
def test_route_and_line_ask_for_the_same_pack(demo: str) -> None:
    """The pencil rule of the route and the line of `walk` come to one thickness."""
    name = "wheel float" if demo == "bevel-box" else "end float"
    closing = _closed(_demo(demo), WALKED[demo], count=200, name=name)
    taken, walk = _taken(closing)
    (one,) = (s for s in closing.settings if s.part == taken.part)
    route = _route(one, WALK)
    assert route.taken is not None
    assert one.route is route
    wished = route.trial + route.offset + route.sign * route.taken
    # the model finds a pack to 0.02 um where rows are pressed
    assert wished == pytest.approx(walk.goal.at, abs=5e-8)


def test_nip_is_told_from_where_the_rows_touch() -> None:
    """Bevel box, three floats with packs 0.381 thicker than they are on the mean.

    The dial shows more than there is by what the push yields, so the rows touch with so much
    thicker a pack; from there to the middle of 0.005 to 0.030 it is 0.0175 of nip, and a little
    more of pack as the cover gives.
    """
    text = _demo("bevel-box")
    taken, walk = _taken(_closed(text, WALKED["bevel-box"], count=200, name="wheel float"))
    assert _mm(walk.nothing.at) == pytest.approx(0.381, abs=SHADE)
    low, yields, high = walk.yields
    assert 1e-6 < low < yields < high < 20e-6
    rebuild = read_document(text).rebuild
    typed = Asking(rebuild, 1).as_typed(rebuild.checks["wheel float"], {"cover shim": 0.6e-3})
    assert yields == pytest.approx(float(typed.shown[0] - typed.true[0]), abs=1e-8)
    past = walk.nothing.at + yields - walk.goal.at
    assert 0.0175 <= _mm(past) < 0.0195
    assert taken.slope == 1.0


def test_one_reading_is_read_then_corrected() -> None:
    """0.120 with 0.50 and 0.10 wanted: 0.02 thinner, by the route that needs one reading."""
    closing = _closed(UNDER_THE_COVER, "{with: shim, 0.50: 0.120}")
    (taken,) = closing.walks
    assert taken.walk is None
    route = _route(closing.settings[0], TAKE_OUT)
    assert route.pack is not None
    assert _mm(route.pack.thickness) == pytest.approx(0.48)
    assert _route(closing.settings[0], WALK).taken is None


def test_two_readings_are_gone_by_unchecked() -> None:
    """The mean of 0.382 and 0.380 is nothing, and 0.10 more is fitted."""
    closing = _closed(UNDER_THE_COVER, "{with: shim, 0.50: 0.118, 0.55: 0.170}")
    taken, walk = _taken(closing)
    assert walk.checked == "none"
    assert taken.clear
    assert _mm(walk.goal.at) == pytest.approx(0.481, abs=SHADE)


def test_order_of_writing_does_not_matter() -> None:
    """Packs are put in order by the model, slackest first, however they are typed."""
    mixed = "{with: shim, 0.60: 0.219, 0.50: 0.118, 0.55: 0.170}"
    taken, walk = _taken(_closed(UNDER_THE_COVER, mixed))
    assert [step.key for step in taken.steps] == ["0.60", "0.55", "0.50"]
    assert _mm(walk.nothing.at) == pytest.approx(0.381, abs=SHADE)


def test_float_that_follows_by_half_is_not_gone_by() -> None:
    """0.05 of pack that gives 0.025 of float: told as half the slope, and no pack is made of it."""
    closing = _closed(UNDER_THE_COVER, "{with: shim, 0.50: 0.120, 0.55: 0.145, 0.60: 0.170}")
    taken, walk = _taken(closing)
    told = {doubt.trace: doubt.off for doubt in walk.doubts}
    assert told["slope less"] == pytest.approx(0.5, abs=1e-3)
    assert not taken.clear
    assert _route(closing.settings[0], WALK).taken is None


def test_flat_readings_near_nothing_are_left_out() -> None:
    """The slackest first: 0.36 reads what it should not, 0.004, and stays out of the line."""
    flat = "{with: shim, 0.36: 0.004, 0.60: 0.220, 0.50: 0.120, 0.40: 0.020}"
    closing = _closed(UNDER_THE_COVER, flat)
    taken, walk = _taken(closing)
    # rigid parts yield nothing: what is over the line near nothing is then off by 0.024
    assert walk.looked.left_out == (3,)
    assert taken.clear
    assert _mm(walk.nothing.at) == pytest.approx(0.38, abs=SHADE)


CUT = ("{made from: [0.03, 0.05, 0.10, 0.25]}", "{cut to size: +/- 0.02}")
SURE = """{with: shim, 0.50 +/- 0.0001: F0 +/- 0.02, 0.55 +/- 0.0001: F1 +/- 0.02,
    0.60 +/- 0.0001: F2 +/- 0.02}"""


def _normal(z: float) -> float:
    return (1 + erf(z / sqrt(2))) / 2


@pytest.mark.parametrize(("more", "left"), [(0.0, 0.0), (0.004, 0.004)])
def test_chance_is_that_of_line_cut_and_remainder(more: float, left: float) -> None:
    """Three floats of sd 0.010 make a line of 0.010 / sqrt 3; the shim is cut to sd 0.010.

    Together 0.01155; 0.08 to 0.12 is wanted. The shim is cut to whole hundredths, so of floats
    0.004 more, and 0.476 asked for, 0.48 is cut, and the float is likely 0.104. By the normal
    distribution (0.02 - left) / 0.01155 and (0.02 + left) / 0.01155. 20 000 draws are good to three
    times 0.002.
    """
    text = UNDER_THE_COVER.replace(*CUT).replace("0.05 to 0.15", "0.08 to 0.12")
    walk = SURE
    for key, value in (("F0", 0.120), ("F1", 0.170), ("F2", 0.220)):
        walk = walk.replace(key, f"{value + more:.3f}")
    closing = _closed(text, walk, count=20_000)
    route = _route(closing.settings[0], WALK)
    assert route.pack is not None
    assert _mm(route.pack.thickness) == pytest.approx(0.48)
    spread = sqrt(0.01**2 / 3 + 0.01**2)
    expected = _normal((0.02 - left) / spread) - _normal(-(0.02 + left) / spread)
    assert route.chance == pytest.approx(expected, abs=0.006)


def test_sizes_that_quarrel_with_the_walk_are_told_and_the_walk_is_gone_by() -> None:
    """0.38 leaves nothing as typed; floats 0.3 more put nothing at 0.08, and 0.18 is fitted."""
    closing = _closed(UNDER_THE_COVER, "{with: shim, 0.50: 0.420, 0.55: 0.470, 0.60: 0.520}")
    one = closing.settings[0]
    assert one.route is _route(one, WALK)
    assert one.pack is not None
    assert _mm(one.pack.thickness) == pytest.approx(0.18)
    # 0.3 less the band of three sizes by caliper: they hide 0.02 to 0.03 each
    assert 0.2 < _mm(one.route.quarrel if one.route else 0.0) < 0.3


def test_walk_is_gone_by_though_the_sizes_look_surer() -> None:
    """What is put in wrong is in the readings and in no size, so the walk counts though rough.

    Floats good to sd 0.05 make a line of 0.05 / sqrt 3 = 0.0289: within 0.05 of it 0.917; the sizes
    by themselves are good to 0.002.
    """
    text = UNDER_THE_COVER
    for size in ("100.00", "-1.38", "99.00"):
        text = text.replace(f": {size}\n", f": {size} +/- 0.002\n")
    rough = GIVES.replace("0.120", "0.120 +/- 0.1").replace("0.170", "0.170 +/- 0.1")
    closing = _closed(text, rough.replace("0.220", "0.220 +/- 0.1"), count=5000)
    one = closing.settings[0]
    by_sum, walk = _route(one, "sum of sizes").chance, _route(one, WALK).chance
    assert (by_sum or 0.0) > 0.99
    assert walk == pytest.approx(_normal(1.732) - _normal(-1.732), abs=0.012)
    assert one.route is _route(one, WALK)


def test_size_that_nobody_measured_is_not_needed() -> None:
    """With the length of the shaft not known the walk asks for the same 0.48."""
    text = UNDER_THE_COVER.replace("shaft: 99.00", "shaft: not known")
    closing = _closed(text, GIVES)
    _, walk = _taken(closing)
    assert _mm(walk.goal.at) == pytest.approx(0.48, abs=1e-9)
    assert closing.settings[0].pack is not None


def test_inches_and_millimetres_are_one() -> None:
    """Hand: 0.121 with 0.0060 in of float, so nothing with 0.127, and 0.006 wanted: 0.121 in."""
    inch = "{with: rear washer, 0.119: 8 thou, 0.121: 0.006, 0.123: 4 thou}"
    mm = "{with: rear washer, 3.0226 mm: 0.2032 mm, 3.0734 mm: 152.4 um, 3.1242 mm: 0.1016 mm}"
    for typed in (inch, mm):
        closing = _closed(_demo("lay-shaft"), typed)
        _, walk = _taken(closing)
        assert _mm(walk.nothing.at) / 25.4 == pytest.approx(0.127, abs=1e-6)
        assert _mm(walk.goal.at) / 25.4 == pytest.approx(0.121, abs=1e-6)
        pack = closing.settings[0].pack
        assert pack is not None
        assert float(pack.exact) / 25.4 == pytest.approx(0.121)


def test_nut_is_walked_by_its_marks() -> None:
    """M45x1.5: 0.110, 0.086 and 0.060 at 0, 6 and 12 degrees, 0.025 apart by the thread.

    Mean of 0.110, 0.111, 0.110 is 0.11033: nothing at 0.11033 / 1.5 x 360 = 26.48 degrees. The
    middle of 0.005 to 0.010 is 0.0075 truly, which the dial reads with what yields besides.
    """
    walk = "{with: nut, 0 deg: 0.110, 6 deg: 0.086, 12 deg: 0.060}"
    taken, found = _taken(_closed(_demo("headstock"), walk))
    assert taken.by_nut
    assert found.nothing.at == pytest.approx(0.331 / 3 / 1.5 * 360)
    shown = 0.0075 + _mm(found.yields[1])
    assert found.goal.at == pytest.approx((0.331 / 3 - shown) / 1.5 * 360)
    # tapers of 14 degrees under 100 N yield 1 to 3 um (Palmgren, see test_walk.py)
    assert 0.0005 < _mm(found.yields[1]) < 0.003


def test_pack_that_moves_nothing_and_nut_without_pitch_are_told() -> None:
    """Each is told at its own walk, and stops the answer."""
    other = "{with: cartridge shim, 0.5: 0.1, 0.6: 0.2, 0.7: 0.3}"
    (idle,) = unanswered(_read(_demo("bevel-box"), other, "wheel float"))
    assert (idle.code, idle.place, idle.level) == (
        "walk.moves nothing",
        ("walks", "wheel float", "with"),
        "stop",
    )
    text = _demo("headstock", (", thread: M45x1.5", ""))
    marks = "{with: nut, 0 deg: 0.110, 6 deg: 0.086, 12 deg: 0.060}"
    (pitch,) = unanswered(_read(text, marks))
    assert pitch.code == "walk.pitch"


def test_nut_that_clamps_moves_no_float() -> None:
    """The nut of the pinion holds its sleeve: no turn of it changes the float of the pair."""
    walk = "{with: nut, 0 deg: 0.110, 6 deg: 0.086, 12 deg: 0.060}"
    (told,) = unanswered(_read(_demo("bevel-box"), walk, "pinion float"))
    assert told.code == "walk.moves nothing"


def test_pack_that_is_in_is_judged_with_the_other_one_chosen() -> None:
    """The cover shim fitted, the cartridge shim open: the lash is that of both, not of none."""
    setting = "cover shim: {made from: [0.05, 0.10, 0.12, 0.15, 0.25]"
    text = _demo("bevel-box", (setting, f"{setting}, fitted: 0.37"))
    closing = _closed(text, WALKED["bevel-box"], count=200, name="wheel float")
    route = _route(closing.settings[0], WALK)
    # it is the walk's own chance, near 1 with nothing fitted; without the other shim it is nought
    assert (route.chance or 0.0) > 0.9
    assert route.harm < 0.02
    # and when it is in, it is as sure as when it was to be fitted: of both wants, the pair's too
    open_ = _closed(_demo("bevel-box"), WALKED["bevel-box"], count=200, name="wheel float")
    assert closing.as_it_is == pytest.approx(open_.chance)
