"""Force and warmth of tight rings, beside a hand calculation for the demos."""

import math

import pytest

from dryfit.app.usecases import demos
from dryfit.app.usecases.opening import open_text
from dryfit.solve.pressing import Pressing, pressings, unmeasured

STEEL, GROWS = 207e9, 12e-6
"""Modulus [Pa] and expansion [1/K] of steel: R. G. Budynas and J. K. Nisbett, Shigley's Mechanical
Engineering Design, 9th ed., table A-5 (207 GPa), and Neale's usual 12e-6; from memory. Steels
differ by 2 and 5 in 100."""


def _of(demo: str) -> dict[tuple[str, str], Pressing]:
    rebuild = open_text(demos.text(demo)).rebuild
    return {(one.bearing, one.ring): one for one in pressings(rebuild)}


def _by_hand(bore: float, outside: float, width: float, over: float) -> float:
    """Force to press a ring on a solid shaft of the same steel [N].

    p = E delta / (2 d) (1 - (d / D)^2), F = mu p pi d L: Shigley, 9th ed., eq. 3-57 with a solid
    inner member, and 7-48, from memory. D, over which the ring is thick: bore plus 0.205 of what
    lies between bore and outside, as the balls take the rest (estimate, as in the tool); mu 0.12.
    """
    track = bore + 0.205 * (outside - bore)
    pressure = STEEL * over / (2 * bore) * (1 - (bore / track) ** 2)
    return 0.12 * pressure * math.pi * bore * width


@pytest.mark.parametrize(
    ("bearing", "bore", "outside", "width", "over"),
    [
        # Over: the seat as read less the middle of the ring's own limits, which are 0 to -12 um to
        # 50 mm and 0 to -10 um to 30 mm in the Normal class (ISO 492, from memory).
        ("inner bearing", 0.040, 0.080, 0.018, 4e-6 + 6e-6),
        ("outer bearing", 0.040, 0.080, 0.018, 3e-6 + 6e-6),
        ("front bearing", 0.030, 0.062, 0.016, 4e-6 + 5e-6),
        ("rear bearing", 0.030, 0.062, 0.016, 3e-6 + 5e-6),
    ],
)
def test_force_of_the_bevel_box(
    bearing: str, bore: float, outside: float, width: float, over: float
) -> None:
    """The press is set by the force of the fit; 3 in 100 for what steels differ."""
    found = _of("bevel-box")[bearing, "inner ring"]
    assert found.force == pytest.approx(_by_hand(bore, outside, width, over), rel=0.03)
    assert found.most > 0.16 / 0.12 * found.force


@pytest.mark.parametrize(("bearing", "bore", "seat"), [("front bearing", 0.030, 4e-6)])
def test_warmth_of_the_bevel_box(bearing: str, bore: float, seat: float) -> None:
    """A ring is warm enough for nearly the tightest it may be, and no warmer than for the tightest.

    By hand: from the middle (5 um of the ring's own limits) to the tightest (10 um, and 2 um that
    a micrometer may be off), free by 1/2000 of the bore.
    """
    found = _of("bevel-box")[bearing, "inner ring"]
    least, most = (
        293.15 + (seat + own + bore / 2000) / (GROWS * bore) for own in (5e-6, 10e-6 + 2e-6)
    )
    assert least < found.warm < most


def test_outer_ring_of_the_quill_is_found_and_ought_to_slide() -> None:
    """The tail bearing's pocket is 15 um under 62 mm: it grips, and its spring cannot move it.

    By hand: outside 0 to -13 um (ISO 492, from memory), so it is 15 - 6.5 = 8.5 um over.
    """
    (found,) = _of("quill").values()
    assert (found.bearing, found.ring, found.host) == ("tail bearing", "outer ring", "quill")
    assert found.sprung


@pytest.mark.parametrize("demo", ["headstock", "bench-drill", "feed-box"])
def test_fit_that_was_not_measured_is_not_made_up(demo: str) -> None:
    """Where neither seat nor pocket was read nothing is said of force."""
    assert _of(demo) == {}


def _sleeve(bore: str, land: str) -> list[Pressing]:
    """Measure the bore of the coupling head's distance piece, and the land under it."""
    text = demos.text("coupling-head").decode()
    text = text.replace(
        "{kind: spacer, bore: 30, outside: 38}", f"{{kind: spacer, bore: {bore}, outside: 38}}"
    )
    text = text.replace("shoulder to thread: 30", f"shoulder to thread: {land}")
    found = pressings(open_text(text.encode()).rebuild)
    return [one for one in found if one.bearing == "distance piece"]


def test_sleeve_that_grips_is_pressed_too() -> None:
    """A distance piece 20 um tight is pressed home like a ring; 3 in 100 for what steels differ.

    By hand, as above with D its own outside: p = 207e9 x 20e-6 / 0.060 x (1 - (30 / 38)^2) = 26.0
    MPa, F = 0.12 x 26.0e6 x pi x 0.030 x 0.024 = 7.05 kN.
    """
    (one,) = _sleeve("30.000 by micrometer", "30.020 by micrometer")
    assert (one.host, one.line) == ("spindle", "spindle")
    assert one.force == pytest.approx(7.05e3, rel=0.03)
    # warm: (20 + 15 + what two micrometers may be off, 2 to 5 um) / (12e-6 x 30 mm) above 20 C
    assert 20 + 35 / 0.36 < one.warm - 273.15 < 20 + 42 / 0.36


@pytest.mark.parametrize(
    ("bore", "land"),
    [
        ("30.020 by micrometer", "30.000 by micrometer"),  # loose
        ("30", "30.020 by micrometer"),  # its bore was not measured
        ("30.000 by micrometer", "30"),  # the land was not
    ],
)
def test_sleeve_that_slides_or_was_not_measured_is_not_pressed(bore: str, land: str) -> None:
    """Nothing is said of a fit that is loose, or of which one side was not read."""
    assert _sleeve(bore, land) == []


def test_bearings_whose_fit_was_not_measured_are_named() -> None:
    """Of the headstock neither seat nor pocket was read, of the wheel shaft's bearings both."""
    assert unmeasured(open_text(demos.text("headstock")).rebuild) == ("front", "rear")
    quill = ("front", "second", "tail bearing")  # as typed, in each run the same
    assert unmeasured(open_text(demos.text("quill")).rebuild) == quill
    names = unmeasured(open_text(demos.text("bevel-box")).rebuild)
    assert {"front bearing", "rear bearing"} <= {*names}
    assert not {"inner bearing", "outer bearing"} & {*names}
