"""What checks should read, and what a reading that differs means, on the demos and their traps."""

from importlib.resources import files

import pytest

from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.expect import AS_EXPECTED, LESS, MORE, Expected, expect
from dryfit.ask.looks import Looks
from dryfit.ask.targets import targets
from dryfit.ask.unanswered import unanswered
from dryfit.ask.uses import COMMON
from dryfit.document.read import read_document


def _expected(name: str, pack: float, *changes: tuple[str, str]) -> dict[str, Expected]:
    text = (files("dryfit.app") / "demos" / f"{name}.yaml").read_text(encoding="utf-8")
    for typed, instead in changes:
        assert typed in text
        text = text.replace(typed, instead)
    rebuild = read_document(text).rebuild
    (part,) = rebuild.settings
    asking = Asking(rebuild)
    found = expect(asking, targets(rebuild), {part: pack}, Looks(asking, {part: pack}))
    return {e.check.name: e for e in found}


def _words(reasons: object) -> str:
    return " / ".join(r.words for r in reasons)  # type: ignore[attr-defined]


def test_sound_box_reads_its_float_within_the_band_by_hand() -> None:
    """0.10 between about 0.06 and 0.14: the root sum of the doubts is 0.02 to 0.04."""
    float_ = _expected("feed-box", 0.35e-3)["end float"]
    assert float_.typed == pytest.approx(0.10e-3, abs=1e-9)
    assert float_.low is not None
    assert float_.high is not None
    assert 0.055e-3 < float_.low < 0.075e-3
    assert 0.125e-3 < float_.high < 0.145e-3


def test_sealant_for_the_gasket_binds() -> None:
    """0.11 too long: no float, the cover stands off 0.11, and a reading of nought is expected."""
    found = _expected("feed-box-sealant", 0.35e-3)
    float_, gap = found["end float"], found["under the cover"]
    assert float_.typed == 0.0
    assert float_.short == pytest.approx(0.11e-3, abs=1e-9)
    assert gap.typed == pytest.approx(0.11e-3, abs=1e-9)
    assert float_.read is not None
    assert float_.read.verdict == AS_EXPECTED
    assert float_.read.wanted.startswith("less than wanted")


def test_a_plain_nought_is_not_rounded_to_whole_millimetres() -> None:
    """The dial did not move where 0.10 is expected: `0` is not taken for all below 0.5."""
    found = _expected("feed-box", 0.35e-3, ("checks:", "readings: {end float: 0}\nchecks:"))
    read = found["end float"].read
    assert read is not None
    assert read.verdict == LESS


def test_gasket_left_out_is_among_the_reasons_for_less() -> None:
    """In the box with a gasket, float 0.21 less points to the gasket left out."""
    float_ = _expected("feed-box", 0.35e-3)["end float"]
    (gasket,) = [r for r in float_.less if "gasket left out" in r.words]
    assert gasket.change == pytest.approx(-0.21e-3, abs=1e-9)
    assert "gasket doubled" in _words(float_.more)


def test_turned_up_shim_edge_is_told_by_both_readings() -> None:
    """Pack 0.42 for 0.35 and float 0.03 for 0.10: the pack reads more, the float less."""
    found = _expected("feed-box-burr", 0.35e-3)
    pack, float_ = found["shim pack"], found["end float"]
    assert pack.read is not None
    assert float_.read is not None
    assert pack.read.verdict == MORE
    assert pack.read.off == pytest.approx(0.07e-3, abs=1e-6)
    assert float_.read.verdict == LESS
    assert float_.read.off == pytest.approx(-0.07e-3, abs=2e-6)
    assert "turned up" in _words(pack.more)
    assert "turned up" in _words(float_.less)


def test_tang_out_of_its_slot_is_among_the_reasons() -> None:
    """The lay-shaft reads 0.001 in for 0.006: the sum cannot be 0.005 out."""
    float_ = _expected("lay-shaft-tang", 0.121 * 0.0254)["end float"]
    assert float_.read is not None
    assert float_.read.verdict == LESS
    assert float_.read.off / 25.4e-6 == pytest.approx(-5.0, abs=0.05)
    assert "tang of rear washer not in its slot" in _words(float_.less)


def test_warm_case_reads_false_float() -> None:
    """Read while the case is 70 K warm the float shows 0.010 in (common practice, no source)."""
    warm = _expected("lay-shaft", 0.121 * 0.0254)["end float, case warm"]
    assert warm.typed is not None
    assert warm.typed / 0.0254 == pytest.approx(0.010, abs=0.0005)


def test_size_not_known_is_named_with_what_it_changes() -> None:
    """Without the case depth the float is not said; each 0.1 deeper gives 0.1 more float."""
    unknown = ("152.36 by depth micrometer", "not known")
    float_ = _expected("feed-box", 0.35e-3, unknown)["end float"]
    assert float_.typed is None
    assert [(s.key, s.slope) for s in float_.lacking] == [("case.thrust face to case.joint", 1.0)]


def test_size_nobody_typed_is_named_too() -> None:
    """The line left out by mistake is asked for by its two places."""
    gone = ("  cover.flange to cover.boss: -3.42 by depth micrometer\n", "")
    float_ = _expected("feed-box", 0.35e-3, gone)["end float"]
    assert [(s.key, s.slope) for s in float_.lacking] == [("cover.boss to cover.flange", -1.0)]


def test_target_is_offered_by_the_use_and_marked() -> None:
    """Without a want of its own a lay-shaft on thrust washers gets 0.10 to 0.30, no source."""
    text = (files("dryfit.app") / "demos" / "lay-shaft.yaml").read_text(encoding="utf-8")
    rebuild = read_document(text.replace(", want: 4 to 8 thou", "")).rebuild
    (target,) = targets(rebuild)
    assert (target.low, target.high, target.source) == (0.10e-3, 0.30e-3, COMMON)
    bare = read_document(
        text.replace(", want: 4 to 8 thou", "")
        .replace("used for:", "notes:", 0)
        .replace("used for: {kind: lay-shaft on thrust washers, top speed: 900 rpm}\n", "")
    ).rebuild
    assert targets(bare) == ()


def _unanswered(*changes: tuple[str, str]) -> list[str]:
    text = (files("dryfit.app") / "demos" / "feed-box.yaml").read_text(encoding="utf-8")
    for typed, instead in changes:
        assert typed in text
        text = text.replace(typed, instead)
    return [f.code for f in unanswered(read_document(text).rebuild)]


def test_nothing_is_asked_of_a_box_that_says_all() -> None:
    """The demo leaves no question open."""
    assert _unanswered() == []


def test_box_that_does_not_say_its_use_is_asked_for_it() -> None:
    """Without a want and a use no target is made up; the builder is asked."""
    no_want = (", want: 0.05 to 0.15", "")
    assert _unanswered(no_want) == []
    assert _unanswered(no_want, ("shaft between plain thrust faces", "shaft betwixt faces")) == [
        "use.unknown",
        "want.none",
    ]


def test_two_open_packs_share_one_float() -> None:
    """Only their sum counts, so neither has to be given."""
    two = (
        "  thrust shim: {made from: [0.05, 0.10, 0.25, 0.50]}",
        "  thrust shim: {made from: [0.05, 0.10]}\n  cover shim: {made from: [0.05]}",
    )
    part = ("  thrust shim: {kind", "  cover shim: {kind: shim pack}\n  thrust shim: {kind")
    stack = ("[case.joint, gasket,", "[case.joint, gasket, cover shim,")
    assert _unanswered(two, part, stack) == []
    given = ("cover shim: {made from: [0.05]}", "cover shim: {made from: [0.05], fitted: 0.10}")
    assert _unanswered(two, part, stack, given) == []


def test_wants_at_odds_are_told() -> None:
    """Float of 0.05 to 0.15 and of 0.20 to 0.30, or float and nip, of the same shaft."""
    want = "  shaft float: {kind: float, of: shaft, want: 0.05 to 0.15}\n"
    for other, codes in (
        ("{kind: float, of: shaft, want: 0.20 to 0.30}", ["want.at odds"]),
        ("{kind: nip, of: shaft, want: 0.01 to 0.03}", ["want.at odds"]),
        ("{kind: float, of: shaft, want: 0.10 to 0.30}", []),
        ("{kind: float, of: shaft, want: at least 0.02}", []),
    ):
        assert _unanswered((want, f"{want}  other: {other}\n")) == codes


def test_an_empty_drawer_is_told() -> None:
    """A list with nothing in it is not the same as no list."""
    text = (files("dryfit.app") / "demos" / "feed-box.yaml").read_text(encoding="utf-8")
    empty = text.replace("made from: [0.05, 0.10, 0.25, 0.50]", "made from: []")
    told = [finding.message for finding in open_text(empty).findings]
    assert told == ["the drawer is empty: nothing can be made of it"]


def test_limits_on_a_dial_are_told_as_such() -> None:
    """What is wanted at the teeth and what the dial shows of it are not taken for each other.

    Bevels of 20 and 30 teeth, module 4, face 22: the wheel has 60 at its rim, and at the middle of
    its face 60 - 11 sin(atan(30/20)) = 50.85; a dial at 60 shows 1.180 times the lash there, so
    0.08 to 0.20 is read as 0.094 to 0.236.
    """
    text = (files("dryfit.app") / "demos" / "bevel-box.yaml").read_text(encoding="utf-8")
    at_teeth = text.replace("on: wheel, at radius: 60,", "on: wheel, at radius: 50.85,")
    assert at_teeth != text
    for told, scale, source in (
        (text, 1.180, "as you wrote for the teeth; here as the dial shows it"),
        (at_teeth, 1.0, "as you wrote"),
    ):
        rebuild = read_document(told).rebuild
        packs = {"cover shim": 0.37e-3, "cartridge shim": 0.50e-3}
        lash = next(
            one
            for one in expect(Asking(rebuild, 200), targets(rebuild), packs)
            if one.check.name == "lash"
        )
        assert lash.target is not None
        assert lash.target.low == pytest.approx(0.08e-3 * scale, rel=2e-3)
        assert lash.target.high == pytest.approx(0.20e-3 * scale, rel=2e-3)
        assert lash.target.source == source
