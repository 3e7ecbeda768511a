"""What a mistake makes of each reading: signs reasoned by hand, sizes by sums."""

from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest

from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.changes import bearings_exchanged, besides, exchanged
from dryfit.ask.variants import DOUBLE, HALF, PRIORS, Variant, read, scaled, variants
from dryfit.mechanics.materials import MATERIALS
from dryfit.model.parts import Gasket, Nut
from dryfit.model.rebuild import Backlash, CordPull
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.rows import typed

GIVING = Path(__file__).resolve().parent.parent / "giving"
DEMOS = files("dryfit.app") / "demos"
MM = 1e-3

TWO_COVERS = """
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  shaft:
    from left to right:
      left joint:  [left cover.flange, left shim, case.left face]
      right joint: [case.right face, right shim, right cover.flange]
      through:     [left cover.boss, shaft, right cover.boss]
parts:
  case: {kind: housing}
  left cover: {kind: cover}
  right cover: {kind: cover}
  left shim: {kind: shim pack}
  right shim: {kind: shim pack}
  shaft: {kind: shaft}
sizes:
  case.left face to case.right face: 100.000
  left cover.flange to left cover.boss: 3.000
  right cover.flange to right cover.boss: -3.000
  shaft: 94.700
settings:
  left shim:  {made from: [0.10, 0.20], fitted: 0.30}
  right shim: {made from: [0.10, 0.20], fitted: 0.50}
checks:
  float: {kind: end float, of: shaft}
  face:  {kind: depth, from: case.left face, to: shaft.first end, held: left}
"""

SEALS_OUT = (
    ("cord: {kind: cord pull, of: shaft, at radius: 20}",
     "cord: {kind: cord pull, of: shaft, at radius: 20, state: open}"),
    ("states:\n", "states:\n  open: {left out: [seal]}\n"),
)  # fmt: skip


def text_of(unit: str) -> str:
    """Find the text of a unit."""
    if unit == "two covers":
        return TWO_COVERS
    if unit == "change-box, seals out":
        text = text_of("change-box")
        for was, now in SEALS_OUT:
            assert was in text
            text = text.replace(was, now)
        return text
    given = GIVING / f"{unit}.yaml"
    found = given if given.exists() else DEMOS / f"{unit.removeprefix('demo ')}.yaml"
    return found.read_text(encoding="utf-8")


PACKS = {
    "feed-box": {"thrust shim": 0.35 * MM},
    "feed-box-burr": {},
    "feed-box-sealant": {},
    "lay-shaft": {"rear washer": 0.121 * 25.4 * MM},
    "lay-shaft-tang": {},
    "bevel-box": {"cover shim": 0.32 * MM, "cartridge shim": 0.40 * MM},
    "bevel-box-loose-cover": {"cover shim": 0.32 * MM, "cartridge shim": 0.40 * MM},
    "bevel-box-tight-ring": {"cover shim": 0.32 * MM, "cartridge shim": 0.40 * MM},
    "headstock": {},
    "coupling-head": {"cover shim": 0.20 * MM},
    "idler": {"cover shim": 0.20 * MM},
    "demo quill": {},
    "demo bench-drill": {},
    "bench-drill": {},
    "bevel-drive": {"cover shim": 0.10 * MM, "cartridge shim": 0.40 * MM},
    "change-box": {},
    "change-box, seals out": {},
    "quill": {},
    "two covers": {},
}
"""Every demo, every unit that gives, and two more; with a pack that leaves some float."""

DRAWS = 40


def test_every_demo_is_among_them() -> None:
    """A new demo is tried with all that may be wrong in it."""
    for path in DEMOS.iterdir():
        name = path.name.removesuffix(".yaml")
        twice = (GIVING / f"{name}.yaml").exists()
        assert not path.name.endswith(".yaml") or (f"demo {name}" if twice else name) in PACKS


@pytest.fixture(scope="module")
def units() -> dict[str, Asking]:
    """Open every unit once."""
    found = {}
    for unit in PACKS:
        opened = open_text(text_of(unit))
        assert not opened.stopped, [f.message for f in opened.findings]
        found[unit] = Asking(opened.rebuild, DRAWS)
    return found


def one(asking: Asking, name: str) -> Variant:
    """Find a variant by its name."""
    (found,) = [v for v in variants(asking) if v.name == name]
    return found


def change(asking: Asking, unit: str, name: str, check: str, amount: float | None) -> np.ndarray:
    """Say by how much more is shown with something wrong, draw by draw."""
    asked = asking.rebuild.checks[check]
    wrong = read(asking, one(asking, name), asked, PACKS[unit], amount=amount)
    return np.asarray(wrong.shown - asking.true(asked, PACKS[unit]).shown)


T = 0.05 * MM

SIGNS = [
    # plain boxes: what fills the room takes float, what opens the joint gives it
    ("feed-box", "cocked: cover", T, {"end float": "+", "shim pack": "0"},
     "the boss stands further from the bottom of the bore"),
    ("feed-box", "burr: shaft", T, {"end float": "-", "shim pack": "0"},
     "the burr fills room between bottom and boss"),
    ("feed-box", "sealant: gasket", None, {"end float": "-"},
     "the cover comes nearer by the gasket, its boss with it"),
    ("feed-box", "doubled: gasket", None, {"end float": "+"},
     "the cover stands off by a second gasket"),
    ("feed-box", "edge turned up: thrust shim", T, {"end float": "-", "shim pack": "+"},
     "the pack fills more, and measures more when nipped whole"),
    ("feed-box", "shim missing: thrust shim", T, {"end float": "+", "shim pack": "-"},
     "the pack fills less, and measures less"),
    ("lay-shaft", "left out: front washer", None, {"end float": "+", "end float, case warm": "+"},
     "its thickness is left as room"),
    ("lay-shaft", "doubled: front washer", None, {"end float": "-"},
     "two washers are thicker than the float: nothing is left"),
    ("lay-shaft", "not in its slot: rear washer", T, {"end float": "-"},
     "the tang holds the washer off its face"),
    ("lay-shaft", "swapped: front washer, rear washer", None, {"end float": "0"},
     "both lie in one row: the sum is the same"),
    ("feed-box-burr", "edge turned up: thrust shim", 0.02 * MM,
     {"end float": "-", "shim pack": "+"},
     "as in the box that is right"),
    ("feed-box-sealant", "shim missing: thrust shim", 0.30 * MM,
     {"end float": "+", "under the cover": "-"},
     "without that shim the shaft has room, and the cover comes down on its joint"),
    ("feed-box-sealant", "burr: shaft", T, {"under the cover": "+"},
     "the shaft holds the cover off already, and the burr holds it off further"),
    ("feed-box-sealant", "cocked: cover", T, {"under the cover": "0"},
     "it stands off by 0.11 for the shaft already: a feeler that goes in there goes in as before"),
    ("feed-box-sealant", "cocked: cover", 0.5 * MM, {"under the cover": "+", "end float": "+"},
     "it stands off further than the shaft holds it"),
    ("lay-shaft-tang", "left out: rear washer", None, {"end float": "+"},
     "its thickness is left as room"),
    # the quill: a matched pair back to back, inner rings clamped by the nut, outer by the ring
    ("quill", "burr: inner spacer", T, {"end float": "+", "cord": "-"},
     "back to back the nut draws the inner rings together; the burr stops it sooner"),
    ("quill", "burr: outer spacer", T, {"end float": "-", "cord": "+"},
     "outer rings pushed apart against the inner ones: preload, a stiffer pair yields less"),
    ("quill", "not home: second, inner ring", T, {"end float": "+", "cord": "-"},
     "as a longer inner spacer"),
    ("quill", "not home: front, inner ring", T, {"end float": "0", "cord": "0"},
     "the nut clamps all the rings one behind the other: they only sit further along"),
    ("quill", "not home: front, outer ring", T, {"end float": "0", "cord": "0"},
     "the ring clamps all the outer rings together: they only sit further along"),
    ("quill", "not home: rear, inner ring", T, {"end float": "0", "cord": "0"},
     "the rear bearing slides in its pocket and stops nothing"),
    ("quill", "nut not up: nut", T, {"end float": "+", "cord": "-"},
     "the inner rings are loose by what the nut stands back, beyond their stand-off"),
    ("quill", "nut not up: lock ring", T, {"end float": "+", "cord": "+"},
     "the whole pair slides in the bore; the outer spacer, unclamped, is longer: more preload"),
    ("quill", "reversed: front", None, {"end float": "open", "cord": "-"},
     "both rows stop the spindle going to the nose only, and nothing presses them"),
    ("quill", "reversed: second", None, {"end float": "open", "cord": "-"},
     "both rows stop the spindle going to the tail only, and nothing presses them"),
    ("quill", "left out: outer spacer", None, {"end float": "+", "cord": "-"},
     "the outer rings come together by the whole spacer, away from the rows"),
    # the drill: one spring pushes on the upper outer ring
    ("bench-drill", "left out: wave spring", None, {"end float": "+"},
     "the room of the spring is float"),
    ("bench-drill", "not home: lower, outer ring", 0.2 * MM, {"end float": "-"},
     "the spindle stands nearer to the cover: the spring is pressed more, the rows yield less"),
    ("bench-drill", "floating end stuck: upper", None, {"end float": "-"},
     "pushed up, its ring no longer gives on the spring, and a tight pocket leaves the balls less"),
    # the change box: a one-way row in front, a deep groove behind, both pairs of rings clamped
    ("change-box", "burr: inner spacer", T, {"float": "+", "lash": "+"},
     "the inner rings stand further apart, away from the rows; the helix turns with the float"),
    ("change-box", "burr: outer spacer", T, {"float": "-", "lash": "-"},
     "the outer rings close on the rows"),
    ("change-box", "nut not up: nut", T, {"float": "+", "lash": "+"},
     "the rings are loose on the shaft by what the nut stands back"),
    ("change-box", "centres off: shaft, wheel, pair too far apart", T, {"float": "0", "lash": "+"},
     "teeth further apart leave more between their flanks"),
    # face to face under a cover, with bevels: the shim of the cover holds the outer rings apart
    ("bevel-drive", "cocked: cover", T, {"wheel float": "+", "lash": "+", "pinion float": "0"},
     "the outer ring goes away with the cover; held away, the wheel follows out of the mesh"),
    ("bevel-drive", "burr: sleeve", 0.03 * MM, {"wheel float": "-", "lash": "-"},
     "inner rings further apart fill the room; the wheel, held away, lies deeper by the burr"),
    ("bevel-drive", "not home: inner bearing, inner ring", 0.03 * MM,
     {"wheel float": "0", "lash": "-", "flush": "+"},
     "the rings stay as they are; the wheel stands as much nearer to the crossing: with less of"
     " the wheel outside, the pinion's back face stands out by more"),
    ("bevel-drive", "cocked: cartridge", T, {"pinion float": "0", "lash": "+"},
     "the pinion goes out of the wheel with its flange"),
    ("bevel-drive", "not home: front bearing, inner ring", T, {"pinion float": "0", "lash": "-"},
     "the shaft goes on through the ring towards the crossing, and the ring is set to its float"),
    ("bevel-drive", "not home: front bearing, outer ring", T, {"pinion float": "0", "lash": "+"},
     "the ring, and with it the pinion, stands further out in its cartridge"),
    ("bevel-drive", "burr: spacer", T, {"pinion float": "0", "lash": "0"},
     "the threaded ring is set to its float with the burr in"),
    ("bevel-drive", "dragged in locking: ring", 0.01 * MM, {"pinion float": "-", "lash": "-"},
     "the ring pushes the rear cup after its cone; the pinion, free, lies half of it deeper"),
    ("bevel-drive", "turned back: ring", T, {"pinion float": "+", "lash": "+"},
     "the rear cup goes back by what the ring does"),
    ("bevel-drive", "reversed: inner bearing", None, {"wheel float": "open"},
     "nothing stops the wheel going to the crossing"),
    # nipped under a cover, a matched pair in the cartridge
    ("bevel-box", "cocked: cover", T, {"wheel float": "+", "cord": "-", "pinion float": "0"},
     "the cover no longer nips: the rows lose their load"),
    ("bevel-box", "not home: outer bearing, inner ring", 0.02 * MM,
     {"wheel float": "-", "cord": "+", "lash": "-"},
     "face to face, what lies between the inner rings nips harder and pushes the wheel inward"),
    ("bevel-box", "nut not up: ring", T, {"pinion float": "+", "wheel float": "0"},
     "the pair slides in its cartridge"),
    ("bevel-box", "burr: sleeve", T, {"pinion float": "+"}, "back to back: a longer inner spacer"),
    ("bevel-box", "burr: spacer", T, {"pinion float": "-"}, "back to back: a longer outer spacer"),
    ("bevel-box", "gear out of place: pinion shaft, pinion of bevels too deep", T,
     {"lash": "-", "pinion float": "0", "wheel float": "0"},
     "the teeth come nearer, the rows do not know"),
    ("two covers", "swapped: left shim, right shim", None, {"float": "0", "face": "-"},
     "the sum is the same; the left cover and the shaft stand 0.20 further out"),
    # of the reading alone
    ("bevel-box", "wrong radius: lash, further out", 0.2, {"lash": "+", "cord": "0"},
     "a longer arm shows more for the same angle"),
    ("quill", "not settled: end float", 0.001 * MM, {"end float": "-", "cord": "0"},
     "rollers and balls that have not found their place stand the rings apart"),
    ("feed-box", "warm when read: shafts", None, {"end float": "-"}, "the shaft is longer"),
    ("feed-box", "warm when read: case", None, {"end float": "+"}, "the room is longer"),
    ("change-box, seals out", "seal drag: cord", None, {"cord": "+", "float": "0"},
     "a seal drags on the shaft beside the rows"),
]  # fmt: skip
"""Unit, what is wrong, how much of it, which way each reading goes, and why, all by hand."""

NOUGHT = 1e-8
"""What counts as no change [m]; forces in [N] count from 0.0001 on."""


def sign(asking: Asking, unit: str, name: str, check: str, amount: float | None) -> str:
    """Say which way a reading goes in all draws."""
    try:
        found = change(asking, unit, name, check, amount)
    except NoAnswer as why:
        return "open" if why.open_end else str(why)
    least = 1e-4 if isinstance(asking.rebuild.checks[check], CordPull) else NOUGHT
    if np.all(np.abs(found) < least):
        return "0"
    return "+" if np.all(found > least) else "-" if np.all(found < -least) else "either"


@pytest.mark.parametrize(
    ("unit", "name", "amount", "expected", "why"), SIGNS, ids=[f"{s[0]}-{s[1]}" for s in SIGNS]
)
def test_which_way_each_reading_goes(
    units: dict[str, Asking],
    unit: str,
    name: str,
    amount: float | None,
    expected: dict[str, str],
    why: str,
) -> None:
    """A fitter who reasons it through at the bench comes to the same sign."""
    found = {check: sign(units[unit], unit, name, check, amount) for check in expected}
    assert found == expected, why


BY_SUM = [
    ("feed-box", "cocked: cover", "end float", lambda _: T),
    ("feed-box", "burr: shaft", "end float", lambda _: -T),
    ("feed-box", "edge turned up: thrust shim", "shim pack", lambda _: T),
    ("feed-box", "doubled: gasket", "end float", lambda asking: asking.drawn.nipped["gasket"]),
    ("lay-shaft", "left out: front washer", "end float",
     lambda asking: asking.drawn.sizes["front washer"]),
    ("two covers", "shim too many: left shim", "float", lambda _: T),
    ("two covers", "shim missing: right shim", "float", lambda _: -T),
]  # fmt: skip


@pytest.mark.parametrize(
    ("unit", "name", "check", "by_hand"), BY_SUM, ids=[f"{s[0]}-{s[1]}" for s in BY_SUM]
)
def test_rigid_parts_change_a_reading_by_what_is_added(
    units: dict[str, Asking], unit: str, name: str, check: str, by_hand: Callable[[Asking], float]
) -> None:
    """Lengths add up: in every draw the reading goes by just what is there more or less."""
    asking = units[unit]
    asked = asking.rebuild.checks[check]
    wrong = read(asking, one(asking, name), asked, PACKS[unit], amount=T).true
    changed = wrong - asking.true(asked, PACKS[unit]).true
    assert changed == pytest.approx(np.full(DRAWS, 1.0) * by_hand(asking), abs=1e-12)


@pytest.mark.parametrize(("which", "cone"), [("pinion", 20 / 30), ("wheel", 30 / 20)])
@pytest.mark.parametrize(("told", "way"), [("too deep", -1), ("too far out", 1)])
def test_bevel_out_of_place_changes_the_lash_as_its_cone_says(
    units: dict[str, Asking], which: str, cone: float, told: str, way: int
) -> None:
    """Along its axis by s: 2 tan(pressure angle) sin(cone angle) s, where the teeth touch.

    By hand: the teeth stand back by s sin(cone angle) square to the cone; 20 teeth in 30, 20 deg.
    """
    asking = units["bevel-box"]
    name = f"gear out of place: {which} shaft, {which} of bevels {told}"
    lash, packs = asking.rebuild.checks["lash"], PACKS["bevel-box"]
    wrong = read(asking, one(asking, name), lash, packs, amount=T).true
    share = 2 * np.tan(np.radians(20)) * np.sin(np.arctan(cone))
    assert wrong - asking.true(lash, packs).true == pytest.approx(way * share * T, abs=1e-10)


@pytest.mark.parametrize(("told", "way"), [("too near", -1), ("too far apart", 1)])
def test_centres_change_the_lash_by_the_working_angle(
    units: dict[str, Asking], told: str, way: int
) -> None:
    """By a small change c of the centres: 2 tan(transverse pressure angle) c of arc.

    By hand: tan 20 / cos 15 = 0.3768, so 0.754 of it; the angle itself opens by less than 1 % of
    that for a hundredth.
    """
    asking = units["change-box"]
    wrong = one(asking, f"centres off: shaft, wheel, pair {told}")
    lash = asking.rebuild.checks["lash"]
    changed = read(asking, wrong, lash, {}, amount=0.01 * MM).true - asking.true(lash, {}).true
    by_hand = 2 * np.tan(np.radians(20)) / np.cos(np.radians(15)) * 0.01 * MM
    assert changed == pytest.approx(way * by_hand, rel=0.01)


def test_dial_further_out_shows_as_much_more(units: dict[str, Asking]) -> None:
    """An arm of 95 for a circle of 67.5 shows 1.41 times the lash: the angle is the same."""
    asking, packs = units["bevel-box"], PACKS["bevel-box"]
    lash = asking.rebuild.checks["lash"]
    wrong = one(asking, "wrong radius: lash, further out")
    shown = read(asking, wrong, lash, packs, amount=95 / 67.5 - 1).shown
    assert shown / asking.true(lash, packs).shown == pytest.approx(1.407, abs=0.001)


def test_warm_parts_read_false_by_their_growth(units: dict[str, Asking]) -> None:
    """Ten kelvin: 148.70 of steel takes float, 152.36 less 3.42 of cast iron gives it."""
    asking, packs = units["feed-box"], PACKS["feed-box"]
    check = asking.rebuild.checks["end float"]
    steel, iron = (MATERIALS[name].expansion for name in ("steel", "cast iron"))
    by_hand = {"shafts": -steel * 10 * 148.70 * MM, "case": iron * 10 * (152.36 - 3.42) * MM}
    for told, grown in by_hand.items():
        warm = one(asking, f"warm when read: {told}").when_read(asking)
        assert warm.typed(check, packs) - asking.typed(check, packs) == pytest.approx(grown)


def test_ring_turned_back_gives_the_float_it_leaves(units: dict[str, Asking]) -> None:
    """A ring that adjusts goes back by a hundredth: its cup follows, and so does the float."""
    asking, packs = units["bevel-drive"], PACKS["bevel-drive"]
    check = asking.rebuild.checks["pinion float"]
    for name, way in (("turned back: ring", 1.0), ("dragged in locking: ring", -1.0)):
        wrong = read(asking, one(asking, name), check, packs, amount=0.01 * MM).true
        changed = wrong - asking.true(check, packs).true
        assert changed == pytest.approx(way * 0.01 * MM, abs=1e-8)


def test_nut_that_stands_back_gives_as_much_float_once_rows_are_loose(
    units: dict[str, Asking],
) -> None:
    """Beyond what the pair stands off each hundredth of thread is one of float."""
    asking = units["quill"]
    check, nut = asking.rebuild.checks["end float"], one(asking, "nut not up: nut")
    near, far = (read(asking, nut, check, {}, amount=back * MM).true for back in (0.10, 0.15))
    assert far - near == pytest.approx(0.05 * MM, abs=1e-8)
    assert np.all((near > 0.05 * MM) & (near < 0.10 * MM))


@pytest.mark.parametrize(
    ("unit", "name", "under"),
    [
        ("lay-shaft", "left out: front washer", "cluster"),
        ("lay-shaft-tang", "left out: front washer", "cluster"),
        ("feed-box", "sealant: gasket", "cover"),
    ],
)
def test_what_was_left_out_and_is_fitted_again_reads_as_before(
    units: dict[str, Asking], unit: str, name: str, under: str
) -> None:
    """Left out, then as thick a piece put in its place: every float as it was, draw by draw."""
    asking = units[unit]
    variant = one(asking, name)
    (part,) = variant.parts
    thick = {**asking.drawn.nipped, **asking.drawn.sizes}[part]
    again = besides(variant.asking(asking), {under: lambda _: thick})
    check = asking.rebuild.checks["end float"]
    found = again.true(check, PACKS[unit]).true
    assert found == pytest.approx(asking.true(check, PACKS[unit]).true, abs=1e-12)
    assert not np.allclose(found, variant.asking(asking).true(check, PACKS[unit]).true)


def test_equal_pieces_in_each_others_place_change_nothing(units: dict[str, Asking]) -> None:
    """Two packs of 0.40, two bearings of one matched set: as typed, nothing is other."""
    asking = units["two covers"]
    packs = {"left shim": 0.40 * MM, "right shim": 0.40 * MM}
    swapped = exchanged("left shim", "right shim")(asking, lambda draws: draws.flat("none"))
    for check in asking.rebuild.checks.values():
        assert swapped.typed(check, packs) == asking.typed(check, packs)
    box = units["bevel-box"]
    pair = bearings_exchanged("front bearing", "rear bearing")(box, lambda draws: draws.flat(""))
    for check in box.rebuild.checks.values():
        found = pair.typed(check, PACKS["bevel-box"])
        assert found == pytest.approx(box.typed(check, PACKS["bevel-box"]), rel=1e-9)


def test_bearing_takes_its_own_sizes_to_the_other_place(units: dict[str, Asking]) -> None:
    """What was measured of it, error and all, goes with it; seat and way it faces stay."""
    asking = units["bevel-box"]
    name = "bearings swapped: inner bearing, outer bearing"
    other = one(asking, name).asking(asking)
    for here, there in (("inner bearing", "outer bearing"), ("outer bearing", "inner bearing")):
        for field, whose in (("set_width", there), ("width", there), ("seat", here)):
            was, now = (
                typed(a.rebuild, a.drawn.draws, a.rebuild.parts[part], field)
                for a, part in ((asking, whose), (other, here))
            )
            assert was is not None
            assert now == pytest.approx(was, abs=0)
        stops = [a.rebuild.parts[here].stops for a in (asking, other)]  # type: ignore[attr-defined]
        assert stops[0] == stops[1]


@pytest.mark.parametrize("unit", PACKS)
def test_nothing_of_it_changes_nothing(units: dict[str, Asking], unit: str) -> None:
    """No dirt, no edge turned up, no further out: every reading as it was.

    A nut that stands back by nothing has lost its clamp all the same.
    """
    asking = units[unit]
    assert {v.kind for v in variants(asking) if v.jumps} <= {"nut not up"}
    sized = [v for v in variants(asking) if v.between or v.steps]
    for variant in sized:
        for check in asking.rebuild.checks.values():
            if not variant.jumps:
                found = read(asking, variant, check, PACKS[unit], amount=0.0).shown
                was = asking.true(check, PACKS[unit]).shown
                assert found == pytest.approx(was, rel=1e-5, abs=1e-9), variant.name


@pytest.mark.parametrize("unit", PACKS)
def test_all_else_stays_as_it_is(units: dict[str, Asking], unit: str) -> None:
    """A mistake with one part moves no other size, in no draw."""
    asking = units[unit]
    for variant in variants(asking):
        other = variant.asking(asking)
        moved = {
            key
            for key, was in asking.drawn.sizes.items()
            if not np.array_equal(was, other.drawn.sizes[key])
        }
        assert {asking.rebuild.sizes[key].start.part for key in moved} <= {*variant.parts}
        assert len(moved) == (1 if variant.kind == "gear out of place" else 0)
        for name in {*asking.rebuild.parts} - {*variant.parts}:
            drawn = [a.drawn.draws.flat("parts", name, "width") for a in (asking, other)]
            assert np.array_equal(drawn[0], drawn[1])
        if variant.reading:
            assert other is asking


@pytest.mark.parametrize("unit", PACKS)
def test_each_has_a_name_of_its_own_and_words_for_the_bench(
    units: dict[str, Asking], unit: str
) -> None:
    """Names tell them apart, words say what to look for at which part, and a prior is there."""
    asking = units[unit]
    every = variants(asking)
    assert len({v.name for v in every}) == len(every)
    assert [v.name for v in every] == [v.name for v in variants(asking)]
    for variant in every:
        assert variant.name.startswith(variant.kind)
        assert variant.kind in PRIORS
        assert 10 < len(variant.words) < 120
        assert not set("{}_/") & {*variant.words}
        if variant.kind not in ("gear out of place", "centres off"):
            assert all(part in variant.words for part in variant.parts)


def parts_with(asking: Asking, kind: str) -> set[str]:
    """List what a kind of mistake is offered for."""
    return {part for v in variants(asking) if v.kind == kind for part in v.parts}


@pytest.mark.parametrize("unit", PACKS)
def test_only_what_the_unit_can_have(units: dict[str, Asking], unit: str) -> None:
    """No gasket, no gasket left out; nothing reversed that stops both ways; no nut, none slack."""
    asking = units[unit]
    parts, checks = asking.rebuild.parts, asking.rebuild.checks.values()
    gaskets = {name for name, part in parts.items() if isinstance(part, Gasket)}
    nuts = {name for name, part in parts.items() if isinstance(part, Nut)}
    laid = {s.part for x in asking.rebuild.lines.values() for k in x.stacks for s in k.spots}
    kinds = {v.kind for v in variants(asking)}
    assert parts_with(asking, "sealant") == parts_with(asking, "thicker gasket") == gaskets & laid
    one_way = {name for name, part in parts.items() if hasattr(part, "stops")}
    assert parts_with(asking, "reversed") == one_way
    matched = {name for name, part in parts.items() if getattr(part, "ground_for", None)}
    assert parts_with(asking, "wrong pair") == matched
    up, back = parts_with(asking, "nut not up"), parts_with(asking, "turned back")
    assert up | back == nuts
    assert not up & back
    assert back == {n for n in nuts if getattr(parts[n], "set_to", None)}
    assert ("wrong radius" in kinds) == any(isinstance(c, Backlash) for c in checks)
    assert ("seal drag" in kinds) == (unit == "change-box, seals out")
    bevels = {m for m in asking.rebuild.meshes.values() if hasattr(m, "pinion_apex")}
    assert ("gear out of place" in kinds) == bool(bevels)


def test_pieces_that_do_not_go_for_each_other_are_not_offered(units: dict[str, Asking]) -> None:
    """An inner spacer of 40 is no outer one of 70, nor is a shim of one shaft one of another."""
    assert parts_with(units["quill"], "swapped") == set()
    assert parts_with(units["bevel-drive"], "swapped") == set()
    assert parts_with(units["lay-shaft"], "swapped") == {"front washer", "rear washer"}


def test_every_prior_is_used_and_may_be_halved_and_doubled(units: dict[str, Asking]) -> None:
    """Of every kind some unit has one; chances stay chances."""
    used = {v.kind for asking in units.values() for v in variants(asking)}
    assert used == {*PRIORS}
    for times in (HALF, DOUBLE):
        for kind, prior in scaled(PRIORS, times).items():
            assert prior.chance == pytest.approx(PRIORS[kind].chance * times)
            assert 0 < prior.chance < 1
            assert 0 <= prior.seen < 1
    assert scaled(PRIORS, 1000.0)["burr"].chance == 1.0


def test_amounts_are_drawn_within_their_limits_and_shims_from_the_drawer(
    units: dict[str, Asking],
) -> None:
    """Two burrs are not the same burr; a shim too many is one of those at hand."""
    asking = units["feed-box"]
    draws = asking.drawn.draws
    burr, edge = (one(asking, n) for n in ("burr: shaft", "edge turned up: thrust shim"))
    low, high = burr.between or (0.0, 0.0)
    drawn = burr.amounts(draws)
    assert np.all((drawn >= low) & (drawn <= high))
    assert np.ptp(drawn) > 0.8 * (high - low)
    assert abs(np.corrcoef(drawn, edge.amounts(draws))[0, 1]) < 0.5
    many = one(asking, "shim too many: thrust shim").amounts(draws)
    assert {round(x / MM, 6) for x in many} == {0.05, 0.10, 0.25, 0.50}
