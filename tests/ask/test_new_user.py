"""Things a new user ran into; each worked by hand on one small box.

Thrust face to joint 152.00, boss 3.00 below the flange, shaft 148.50, gasket nipped 0.20:
room 149.20, so 0.70 without a shim; wanted 0.10 to 0.20, so 0.55.
"""

from dataclasses import replace

import pytest

from dryfit.ask.asking import Asking
from dryfit.ask.closing import Closing, close_up
from dryfit.ask.route import DIFFERENCE, GAP, SUM, Route
from dryfit.document.read import read_document

TEXT = """\
dryfit: 1
sizes in: mm
measured with: micrometer
used for: {warmer than casing: 20 K}
lines:
  shaft line:
    from blind end to cover:
      in the case: [case.face, shim, shaft, cover.boss]
      joint: [case.joint, gasket, cover.flange]
parts:
  case: {kind: housing}
  cover: {kind: cover}
  shaft: {kind: shaft}
  gasket: {kind: gasket, free: 0.25, nipped: 0.20 +/- 0.02}
  shim: {kind: shim pack}
sizes:
  case.face to case.joint: 152.00 by depth micrometer
  cover.flange to cover.boss: -3.00 by depth micrometer
  shaft: 148.50
settings:
  shim: {made from: [0.05, 0.10, 0.25, 0.50]}
needs:
  float: {kind: float, of: shaft, want: 0.10 to 0.20}
checks:
  end float: {kind: end float, of: shaft}
"""


def _close(*changes: tuple[str, str]) -> Closing:
    text = TEXT
    for typed, instead in changes:
        assert typed in text, typed
        text = text.replace(typed, instead)
    document = read_document(text)
    assert document.located() == ()
    return close_up(Asking(document.rebuild))


def _route(closing: Closing, name: str) -> Route:
    return next(r for r in closing.settings[0].routes if r.name == name)


DEPTH = (
    "checks:\n",
    "states:\n  open: {left out: [gasket, cover]}\nchecks:\n"
    "  depth: {kind: depth, from: FROM, to: TO, held: blind end, state: open}\n",
)


@pytest.mark.parametrize(
    ("start", "end"), [("case.joint", "shaft.last end"), ("shaft.last end", "case.joint")]
)
def test_depth_down_to_a_shaft_gets_less_with_a_thicker_pack(start: str, end: str) -> None:
    """152.00 - 148.50 - 0.55 = 2.95 down from the joint, whichever way it is written."""
    depth = (DEPTH[0], DEPTH[1].replace("FROM", start).replace("TO", end))
    closing = _close(depth)
    found = next(e for e in closing.expected if e.check.name == "depth")
    assert found.typed == pytest.approx(2.95e-3, abs=1e-9)
    assert "turned up" in " ".join(r.words for r in found.less)
    assert "turned up" not in " ".join(r.words for r in found.more)


def test_cover_not_home_gives_float_wherever_the_pack_lies() -> None:
    """Also with the pack against the boss a cocked cover means more float."""
    moved = ("[case.face, shim, shaft, cover.boss]", "[case.face, shaft, shim, cover.boss]")
    for closing in (_close(), _close(moved)):
        (found,) = closing.expected
        assert "cover cocked" in " ".join(r.words for r in found.more)


AS_FOUND = (
    "checks:\n",
    "as found:\n  readings: {end float: 0.42}\n  sizes: {shim: 0.50, shaft: 148.40}\nchecks:\n",
)


def test_old_reading_that_quarrels_with_the_sizes_is_told() -> None:
    """By the sizes the old float was 152 - 3 + 0.2 - 148.4 - 0.5 = 0.30; 0.42 was read."""
    route = _route(_close(AS_FOUND), DIFFERENCE)
    # 0.12 less the half width of all but 1 in 100 of what the sizes allow
    assert 0.08e-3 < route.quarrel < 0.12e-3
    agreeing = (AS_FOUND[0], AS_FOUND[1].replace("0.42", "0.31"))
    assert _route(_close(agreeing), DIFFERENCE).quarrel == 0.0


def test_pack_told_is_that_of_the_route_recommended() -> None:
    """Read by rule the sum is worth little: no pack is named before the gap is read."""
    one = _close(("152.00 by depth micrometer", "152.00 by rule")).settings[0]
    assert one.route is not None
    assert one.route.name == GAP
    assert one.pack is None
    assert one.wished == pytest.approx(0.55e-3, abs=1e-9)


def test_what_is_in_now_is_told_apart_from_the_advice() -> None:
    """0.60 is in: float 0.10, half of the builds are within; 0.55 would be far better."""
    closing = _close(("0.50]}", "0.50], fitted: 0.60}"))
    assert closing.as_it_is == pytest.approx(0.5, abs=0.1)
    assert closing.chance is not None
    assert closing.chance > 0.95
    assert closing.expected[0].typed == pytest.approx(0.10e-3, abs=1e-9)


OWN_GAP = (
    "checks:\n",
    "states:\n  trial: {left out: [gasket], fitted: {shim: 1.00}}\n"
    "readings:\n  gap: GAP\nchecks:\n  gap: {kind: gap, at: cover, state: trial}\n",
)


def test_gap_in_hand_is_used_first() -> None:
    """1.00 fitted, gap 0.53: 1.00 + 0.20 - 0.15 - 0.53 = 0.52, so 0.50."""
    one = _close((OWN_GAP[0], OWN_GAP[1].replace("GAP", "0.53"))).settings[0]
    assert one.route is not None
    assert one.route.name == GAP
    assert one.pack is not None
    assert float(one.pack.exact) == 0.50


def test_no_gap_is_no_reading() -> None:
    """A gap of nought only says that the cover is home."""
    route = _route(_close((OWN_GAP[0], OWN_GAP[1].replace("GAP", "0"))), GAP)
    assert route.chance is None
    assert "fit a thicker pack" in route.why_not


def test_pack_in_the_joint_is_left_out_while_the_gap_is_read() -> None:
    """Shim under the flange, shaft 149.40: gap 149.40 + 3 - 152 = 0.40, pack 0.15 more."""
    joint = (
        "      joint: [case.joint, gasket, cover.flange]",
        "      joint: [case.joint, shim, cover.flange]",
    )
    inside = ("[case.face, shim, shaft, cover.boss]", "[case.face, shaft, cover.boss]")
    longer = ("shaft: 148.50", "shaft: 149.40")
    closing = _close(
        joint, inside, longer, ("  gasket: {kind: gasket, free: 0.25, nipped: 0.20 +/- 0.02}\n", "")
    )
    route = _route(closing, GAP)
    assert (route.trial, route.sign) == (0.0, 1.0)
    assert route.offset == pytest.approx(0.15e-3, abs=1e-9)
    assert closing.settings[0].slope == 1.0


def test_drawer_that_cannot_is_named() -> None:
    """With two of 0.05 the thickest pack is 0.10; it is not called right."""
    one = _close(("[0.05, 0.10, 0.25, 0.50]", "[2 of 0.05]")).settings[0]
    assert one.pack is not None
    assert float(one.pack.exact) == 0.10
    assert one.why == "drawer"


def test_pack_left_thinner_for_the_heat_says_so() -> None:
    """Wanted 0 to 0.05 and 20 K warmer (0.035 longer): the nearest would bind."""
    one = _close(("want: 0.10 to 0.20", "want: 0.01 to 0.05")).settings[0]
    assert one.why == "harm"
    assert one.pack is not None
    assert one.wished is not None
    assert one.pack.thickness < one.wished


def test_absurd_size_still_shows_the_sum() -> None:
    """5.846 typed for inches in a mm text: the sum is shown, so that the slip is seen."""
    one = _close(("shaft: 148.50", "shaft: 5.846")).settings[0]
    assert one.pack is None
    assert one.wished == pytest.approx((149.20 - 5.846 - 0.15) / 1e3, abs=1e-9)
    assert one.terms


def test_better_reading_never_makes_the_chance_worse() -> None:
    """The pack is chosen anew for the better reading."""
    closing = _close(("152.00 by depth micrometer", "152.00 by rule"))
    by_sum = _route(closing, SUM).chance or 0.0
    assert closing.worth
    assert all(w.chance >= by_sum - 0.01 for w in closing.worth)


def test_same_answer_for_a_first_look() -> None:
    """2 000 draws choose the same pack as 20 000."""
    rebuild = read_document(TEXT).rebuild
    few = close_up(replace(Asking(rebuild), count=2_000)).settings[0].pack
    assert few == close_up(Asking(rebuild)).settings[0].pack
