"""Which pack to fit and by which route, on the demos, by hand."""

from dataclasses import replace
from fractions import Fraction
from importlib.resources import files
from math import erf, sqrt

import numpy as np
import pytest

from dryfit.ask.asking import Asking
from dryfit.ask.packs import packs_about
from dryfit.ask.route import Route
from dryfit.ask.routes import recommended, routes
from dryfit.ask.settings import chance
from dryfit.ask.slopes import slopes
from dryfit.ask.targets import targets
from dryfit.document.read import read_document
from dryfit.model.rebuild import Rebuild


def _demo(name: str, *changes: tuple[str, str]) -> Rebuild:
    text = (files("dryfit.app") / "demos" / f"{name}.yaml").read_text(encoding="utf-8")
    for typed, instead in changes:
        assert typed in text
        text = text.replace(typed, instead)
    document = read_document(text)
    assert document.located() == ()
    return document.rebuild


def _routes(rebuild: Rebuild) -> dict[str, Route]:
    (part,) = rebuild.settings
    return {r.name: r for r in routes(Asking(rebuild), targets(rebuild), part, {})}


EXACT = (
    ("152.36 by depth micrometer", "152.36 +/- 0.01"),
    ("-3.42 by depth micrometer", "-3.42 +/- 0.01"),
    ("148.70", "148.70 +/- 0.03"),
)


@pytest.mark.parametrize(
    ("demo", "thickness", "pieces"),
    [
        ("feed-box", "0.35", 2),  # 152.36 + 0.21 - 3.42 - 148.70 - 0.10
        ("feed-box-sealant", "0.14", 3),  # without the gasket 0.21 less
        ("feed-box-burr", "0.35", 2),
        ("lay-shaft", "3.0734", 1),  # 4.8070 - 4.5560 - 0.1240 - 0.006 = 0.121 in
    ],
)
def test_pack_by_the_sum_is_the_one_worked_by_hand(demo: str, thickness: str, pieces: int) -> None:
    """The pack closes the sum with the middle of what is wanted, in the fewest pieces."""
    pack = _routes(_demo(demo))["sum of sizes"].pack
    assert pack is not None
    assert pack.exact == Fraction(thickness)
    assert len(pack.pieces) == pieces


def test_chance_is_that_of_the_normal_sum() -> None:
    """With +/- 0.01, 0.01, 0.02 and 0.03 (2 sd) and 4 um on the pack: 2 Phi(0.05 / sd) - 1."""
    deviation = sqrt((0.01**2 + 0.01**2 + 0.02**2 + 0.03**2) / 4 + 0.004**2 / 3)
    by_hand = erf(0.05 / deviation / sqrt(2))
    told = _routes(_demo("feed-box", *EXACT))["sum of sizes"].chance
    # 20 000 draws: standard error 0.0007 at 0.99
    assert told == pytest.approx(by_hand, abs=0.0025)


@pytest.mark.parametrize(
    ("rule", "pack", "sign"), [("thicker shim", 0.36, -1), ("thinner", 0.30, 1)]
)
def test_thicker_shim_takes_float_away(rule: str, pack: float, sign: int) -> None:
    """The shim lies inside with the shaft: thicker, and there is less room left for it."""
    rebuild = _demo("feed-box")
    need = rebuild.needs["shaft float"]
    asking = Asking(rebuild, 1)
    change = asking.typed(need, {"thrust shim": pack / 1e3}) - 0.10e-3
    assert np.sign(round(change, 9)) == sign, rule


def test_pencil_rule_of_the_closing_gap() -> None:
    """Fitted 0.45 without the gasket, gap 0.21: pack 0.45 + 0.21 (gasket) - 0.10 - 0.21 = 0.35."""
    route = _routes(_demo("feed-box"))["closing gap"]
    assert route.left_out == ("gasket",)
    assert route.offset * 1e3 == pytest.approx(0.21 - 0.10, abs=1e-6)
    assert route.sign == -1
    assert route.reading is not None
    assert route.reading[1] == pytest.approx(route.trial - 0.24e-3, abs=1e-6)


def test_pencil_rule_at_the_seat_of_a_washer() -> None:
    """No cover there: rear washer left out, its room read, washer = room - 0.006 in."""
    route = _routes(_demo("lay-shaft"))["closing gap"]
    assert route.left_out == ("rear washer",)
    assert route.offset / 25.4e-6 == pytest.approx(-6.0, abs=1e-3)
    assert route.sign == 1


def test_a_gap_taken_gives_the_pack() -> None:
    """The gap reads 0.24 with 0.45 fitted and no gasket: 0.45 + 0.11 - 0.24 = 0.32, so 0.30."""
    text = (
        "checks:\n",
        "states:\n  trial: {left out: [gasket], fitted: {thrust shim: 0.45}}\n"
        "readings:\n  gap: 0.24\nchecks:\n  gap: {kind: gap, at: cover, state: trial}\n",
    )
    pack = _routes(_demo("feed-box", text))["closing gap"].pack
    assert pack is not None
    assert pack.exact == Fraction("0.30")


AS_FOUND = (
    "checks:\n",
    "as found:\n  readings: {end float: 0.42}\n"
    "  sizes: {thrust shim: 0.10, shaft: 148.63}\nchecks:\n",
)


def test_difference_alters_the_old_pack_by_what_changed() -> None:
    """Old float 0.42 on 0.10; the new shaft is 0.07 longer: 0.10 + 0.42 - 0.07 - 0.10 = 0.35."""
    route = _routes(_demo("feed-box", AS_FOUND))["difference"]
    assert route.pack is not None
    assert route.pack.exact == Fraction("0.35")


def test_difference_needs_no_size_of_a_part_that_stays() -> None:
    """Case depth not known: the sum cannot be closed, the difference still can, and as well."""
    unknown = ("152.36 by depth micrometer", "not known")
    found = _routes(_demo("feed-box", AS_FOUND, unknown))
    assert found["sum of sizes"].chance is None
    assert "case.thrust face to case.joint" in found["sum of sizes"].why_not
    assert found["difference"].pack is not None
    assert found["difference"].pack.exact == Fraction("0.35")
    whole = _routes(_demo("feed-box", AS_FOUND))["difference"].chance
    assert found["difference"].chance == pytest.approx(whole, abs=0.01)


def test_gap_needs_no_size_of_the_case_either() -> None:
    """The gap holds the case depth in itself; only the gasket still counts."""
    unknown = ("152.36 by depth micrometer", "not known")
    found = _routes(_demo("feed-box", unknown))
    assert found["closing gap"].offset * 1e3 == pytest.approx(0.11, abs=1e-6)
    assert found["closing gap"].chance == pytest.approx(
        _routes(_demo("feed-box"))["closing gap"].chance, abs=0.01
    )
    best = recommended(tuple(found.values()))
    assert best is not None
    assert best.name == "closing gap"


def test_reading_beats_the_sum_when_sizes_are_coarse() -> None:
    """All by caliper, the sum is worse than the gap, and the gap is recommended."""
    coarse = (("152.36 by depth micrometer", "152.36 by depth caliper"), ("by depth", "by depth"))
    found = _routes(_demo("feed-box", *coarse, ("-3.42 by depth micrometer", "-3.42 by rule")))
    assert (found["closing gap"].chance or 0) > (found["sum of sizes"].chance or 1)
    best = recommended(tuple(found.values()))
    assert best is not None
    assert best.name == "closing gap"


def test_signs_of_every_size_of_the_feed_box() -> None:
    """Deeper case, shallower boss, thicker gasket: more float. Longer shaft, thicker shim: less."""
    rebuild = _demo("feed-box")
    found = {s.key: s.slope for s in slopes(Asking(rebuild, 1), rebuild.needs["shaft float"], {})}
    assert found == {
        "case.thrust face to case.joint": 1,
        "cover.flange to cover.boss": 1,  # -3.42 towards nought: the boss reaches in less
        "gasket": 1,
        "shaft": -1,
        "thrust shim": -1,
    }


def test_fewest_pieces_make_each_sum() -> None:
    """0.50 is one piece of 0.50, not two of 0.25; two of 0.25 only where 0.50 is out."""
    rebuild = _demo("feed-box")
    made = {
        p.exact: len(p.pieces) for p in packs_about(rebuild.settings["thrust shim"], 0.5e-3, "mm")
    }
    assert made[Fraction("0.5")] == 1
    assert made[Fraction("0.35")] == 2
    setting = replace(rebuild.settings["thrust shim"], made_from=())
    assert [p.exact for p in packs_about(setting, 0.0, "mm")] == [0]


def test_drawer_with_few_pieces_is_not_overdrawn() -> None:
    """With two of 0.10 and nothing else, 0.20 is the thickest pack."""
    rebuild = _demo("feed-box", ("[0.05, 0.10, 0.25, 0.50]", "[2 of 0.10]"))
    made = packs_about(rebuild.settings["thrust shim"], 0.2e-3, "mm")
    assert [float(p.exact) for p in made] == [0.0, 0.1, 0.2]


def test_wrong_pack_has_a_poor_chance() -> None:
    """A pack 0.10 too thick leaves about no float: nearly nobody would get it right."""
    rebuild = _demo("feed-box")
    assert chance(Asking(rebuild), targets(rebuild), {"thrust shim": 0.45e-3}) < 0.02


def test_read_it_then_correct_takes_out_what_the_float_is_too_large() -> None:
    """Feed box: what was fitted, plus the float read, less the 0.10 that is wanted.

    The shim lies with the shaft between the faces, so each hundredth of it takes one of float.
    """
    route = _routes(_demo("feed-box"))["read it, then correct"]
    assert route.check is not None
    assert route.check.kind == "end float"
    assert route.sign == pytest.approx(1.0, abs=1e-9)
    assert route.offset == pytest.approx(-0.10e-3, abs=1e-9)
    assert route.reading is not None
    room = 152.36 + 0.21 - 3.42 - 148.70
    assert route.reading[1] == pytest.approx(room * 1e-3 - route.trial, abs=2e-6)


def test_reading_it_beats_the_sum_where_sizes_are_loose() -> None:
    """A shaft by rule is good to half a millimetre; a dial on the float is to a hundredth."""
    found = _routes(_demo("feed-box", ("shaft: 148.70", "shaft: 148.70 by rule")))
    by_sum, read = (found[name].chance or 0.0 for name in ("sum of sizes", "read it, then correct"))
    assert by_sum < 0.3
    assert read > 0.9


def test_walk_averages_three_readings() -> None:
    """Three packs 0.05 apart, the middle of three lines: never worse than one reading."""
    found = _routes(_demo("feed-box", ("shaft: 148.70", "shaft: 148.70 by rule")))
    walk, once = found["walk to nothing"], found["read it, then correct"]
    steps = np.diff(walk.trials)
    assert len(walk.trials) == 3
    assert steps == pytest.approx([-50e-6, -50e-6], abs=1e-12)  # each slacker than the one before
    assert (walk.chance or 0.0) >= (once.chance or 0.0) - 0.005
