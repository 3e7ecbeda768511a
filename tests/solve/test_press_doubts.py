"""What is pressed harder than it bears is told: rings on seats, threads, rows."""

from pathlib import Path

import pytest

from dryfit.app.usecases import demos
from dryfit.app.usecases.opening import FindingAnswer, open_text

GIVING = Path(__file__).resolve().parent.parent / "giving"
BOX = (GIVING / "change-box.yaml").read_text("utf-8")
QUILL = (GIVING / "quill.yaml").read_text("utf-8")


def _told(text: str, *changes: tuple[str, str]) -> list[FindingAnswer]:
    for typed, instead in changes:
        assert typed in text, typed
        text = text.replace(typed, instead)
    opened = open_text(text)
    assert [f.message for f in opened.findings if f.level == "stop"] == []
    return [
        f for f in opened.findings if f.code in ("bearing.tight", "nut.overdone", "row.harmful")
    ]


@pytest.mark.parametrize("text", [BOX, QUILL], ids=["change box", "quill"])
def test_a_unit_as_they_are_built_is_not_told(text: str) -> None:
    """Fits of some microns, torques of a hand, a pair ground for 150 N."""
    assert _told(text) == []


@pytest.mark.parametrize(
    ("typed", "instead", "told"),
    [
        ("seat: 40.005", "seat: 40.070", False),
        ("seat: 40.005", "seat: 40.080", True),
        ("pocket: 80.01", "pocket: 79.850", False),
        ("pocket: 80.01", "pocket: 79.830", True),
    ],
)
def test_a_ring_pressed_by_more_than_a_500th_is_told(typed: str, instead: str, told: bool) -> None:
    """A bore of 40 is 0 to 0.012 under size, 0.006 in the mean, and bears 0.080; an outside of 80
    is 0 to 0.013 under, 0.0065 in the mean, and bears 0.160 (ISO 492, Normal class).
    """
    codes = [f.code for f in _told(BOX, (typed, instead))]
    assert ("bearing.tight" in codes) is told


def test_a_press_fit_half_a_millimetre_too_tight_names_both_figures() -> None:
    """40.50 on a bore of 39.994: 0.51 for 0.08."""
    (told,) = (f for f in _told(BOX, ("seat: 40.005", "seat: 40.500")) if f.code == "bearing.tight")
    assert "0.51 mm tight on its seat" in told.message
    assert "no more than 0.08 mm" in told.message
    assert (
        told.line == BOX.splitlines().index(next(x for x in BOX.splitlines() if "seat:" in x)) + 1
    )


@pytest.mark.parametrize(
    ("torque", "told"), [("50 N.m", False), ("1000 N.m", False), ("5000 N.m", True)]
)
def test_a_torque_a_hundred_times_too_large_is_told(torque: str, told: bool) -> None:
    """M40x1.5 carries 38.59^2 pi/4 = 1170 mm2 and 351 kN at 300 N/mm2.

    Torque over force is 1.5 / 2 pi, and friction times 22.5 at the flanks (39.03 / 2 cos 30) and
    24 at the face: 3.96 mm at a friction of 0.08, 7.68 at 0.16. So 5000 N.m pull with 650 to
    1260 kN, 1000 N.m with 252 at most.
    """
    found = _told(BOX, ("torque: 50 N.m", f"torque: {torque}"))
    over = [f for f in found if f.code == "nut.overdone"]
    assert bool(over) is told
    if told:
        pull, bears = (
            int(word) for word in over[0].message.split() if word.isdigit() and len(word) > 5
        )
        assert 650_000 < pull < 1_270_000
        assert bears == 350_000


@pytest.mark.parametrize(("force", "told"), [(1500, False), (4000, True)])
def test_a_pair_pressed_beyond_a_fifth_of_its_rating_is_told(force: int, told: bool) -> None:
    """Pairs of 35 x 72 x 17 are listed with some 30 kN: a fifth of it at 25 degrees is 2.5 kN.

    Ground for 1500 N, with equal spacers, they are pressed by about that; so by 4000.
    """
    ground = ("ground for: 150 N", f"ground for: {force} N")
    nuts = (("torque: 30 N.m", "torque: 120 N.m"), ("torque: 60 N.m", "torque: 240 N.m"))
    found = [f for f in _told(QUILL, ground, *nuts) if f.code == "row.harmful"]
    assert bool(found) is told
    if told:
        assert len(found) == 2
        pressed = float(found[0].message.split(" by ")[1].split(" N")[0])
        assert 0.75 * force < pressed < 1.25 * force


def test_a_spacer_a_millimetre_too_short_presses_with_what_the_nut_can() -> None:
    """The nut pulls the rings together until its force is used up: 30 N.m on M35, 4 to 10 kN."""
    short = ("  inner spacer: 20.000 +/-", "  inner spacer: 19.000 +/-")
    found = [f for f in _told(QUILL, short) if f.code == "row.harmful"]
    assert [f.message.split("'")[1] for f in found] == ["front", "second"]
    for one in found:
        assert 4000 < float(one.message.split(" by ")[1].split(" N")[0]) < 10_000
        assert "harm" in one.message
        assert "spacer" in one.way_out


@pytest.mark.parametrize(
    "row",
    [
        "front: {kind: taper roller, bore: 40, outside: 80, width: 18, set width: 19.75,"
        " angle: 14 deg, stops shaft going: tail}",
        "front: {kind: deep groove ball, bore: 40, outside: 80, width: 18}",
        "front: {kind: two-row ball, bore: 40, outside: 80, width: 30, angle: 25 deg, play: 0.01}",
        "front: {kind: thrust ball, bore: 40, outside: 68, width: 6, set width: 19.00,"
        " stops shaft going: tail}",
    ],
    ids=lambda row: row.split(",")[0].split(": ")[-1],
)
def test_rows_of_every_kind_are_looked_at(row: str) -> None:
    """Ten millimetres too little between two tail faces: whatever row it is, it is crushed."""
    text = f"""\
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  spindle:
    from nose to tail:
      shaft: [shaft.shoulder, rear]
      inner: [front, shaft.step]
      outer: [case.face, front]
      last:  [rear, case.register]
parts:
  case: {{kind: housing}}
  shaft: {{kind: shaft}}
  {row}
  rear: {{kind: angular contact ball, bore: 40, outside: 80, width: 18.00, angle: 25 deg,
         stops shaft going: tail}}
sizes:
  shaft.step to shaft.shoulder: 100
  case.face to case.register: ROOM
"""
    text = text.replace("stops shaft going: tail}\n  rear", "stops shaft going: nose}\n  rear")
    told = {
        room: [f.message for f in _told(text.replace("ROOM", room)) if f.code == "row.harmful"]
        for room in ("150", "130")
    }
    assert told["150"] == []
    assert any("'front'" in message for message in told["130"])
    assert any("'rear'" in message for message in told["130"])


@pytest.mark.parametrize(("rise", "told"), [("80 K", True), ("100 K", False)])
def test_heat_that_opens_a_ring_less_than_it_is_tight_is_told(rise: str, told: bool) -> None:
    """A ring of 30 opens 30 x 11.85e-6 x 80 = 0.028, and is 0.028 + 0.005 = 0.033 tight (ISO 492,
    Normal: 0 to -0.010); at 100 K it opens 0.036. Expansion of steel: 11.5 to 12.2e-6 (handbooks).
    """
    text = demos.text("bevel-box-tight-ring").decode().replace("hot by: 80 K", f"hot by: {rise}")
    found = [f for f in open_text(text).findings if f.code == "ring.too cool"]
    assert bool(found) is told
    for one in found:
        assert "'front bearing' opens by 0.028 mm, and it is 0.033 mm tight" in one.message
        assert "press it home as well, or cool the shaft" in one.way_out
