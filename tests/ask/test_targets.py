"""What is wanted by use and layout; figures are common practice, no source, where not named."""

import pytest
from tests.invariance.telling import text_of
from tests.invariance.test_units_that_give import data_of
from tests.scenarios.bench import unit

from dryfit.app.usecases.opening import open_text
from dryfit.ask.targets import AGMA, Target, in_words, layout_of, targets
from dryfit.ask.uses import COMMON, TEXTBOOK, USES, Asked, Layout
from dryfit.model.rebuild import FloatNeed, PreloadNeed, Rebuild

LINES = "lines:\n"


def used(name: str, kind: str, words: dict[str, str] | None = None) -> Rebuild:
    """Read a unit and say what it is used for."""
    return unit(name, {LINES: f"used for: {{kind: {kind}}}\n{LINES}", **(words or {})})


def only(rebuild: Rebuild) -> Target:
    """Give the one thing that is wanted."""
    (target,) = targets(rebuild)
    return target


@pytest.mark.parametrize("name", ["taper-headstock", "quill", "bench-drill"])
def test_nothing_is_wanted_without_a_use(name: str) -> None:
    """The same bearings want float in a gearbox and preload in a spindle."""
    assert targets(unit(name)) == ()


@pytest.mark.parametrize(
    ("name", "layout"),
    [
        ("taper-headstock", Layout.TAPERS),
        ("quill", Layout.SPRUNG),
        ("bench-drill", Layout.SPRUNG),
    ],
)
def test_layout_is_seen_from_the_parts(name: str, layout: Layout) -> None:
    """A spring counts before the pair that it stands behind."""
    rebuild = unit(name)
    (line,) = rebuild.lines.values()
    assert layout_of(rebuild, line) is layout


def test_tapers_of_a_headstock_want_hardly_any_float() -> None:
    """Cold, 0 to 0.01 mm: common practice."""
    found = only(used("taper-headstock", "headstock"))
    assert isinstance(found.need, FloatNeed)
    assert (found.low, found.high, found.source) == (0.0, 0.01e-3, COMMON)


def test_tapers_of_a_gearbox_want_float_by_their_bore() -> None:
    """50 mm bore, one at each end, 10 to 16 degrees: 50 to 100 um, [CHIKHACHEVA] table 10."""
    found = only(used("taper-headstock", "gearbox"))
    assert found.source == TEXTBOOK
    assert found.low == pytest.approx(50e-6, rel=1e-12)
    assert found.high == pytest.approx(100e-6, rel=1e-12)


def test_spring_wants_four_to_ten_newtons_a_millimetre_of_bore() -> None:
    """20 mm bore: 80 to 200 N."""
    found = only(used("bench-drill", "bench drill"))
    assert isinstance(found.need, PreloadNeed)
    assert found.low == pytest.approx(80.0, rel=1e-12)
    assert found.high == pytest.approx(200.0, rel=1e-12)
    assert in_words(found) == ""


def test_matched_pair_of_a_spindle_wants_a_word() -> None:
    """Light to medium, whatever its size."""
    spring = {"      spring:         [rear, wave spring, quill.spring seat]\n": ""}
    spring |= {
        "  wave spring: {kind: spring washer, free: 4.5, force: 120 N, at: 3.30, solid: 1.4}\n": ""
    }
    found = only(used("quill", "spindle", spring))
    assert in_words(found) == "light to medium"


def test_lash_is_that_of_the_table_square_to_the_flank_made_an_arc() -> None:
    """Module 3 is 8.5 teeth to the inch: 0.004 to 0.008 in for usual bevels; over cos(20 deg).

    AGMA table for bevels, as reprinted by Engineers Edge: row 8 to 10, qualities 3 to 6.
    """

    data = data_of("giving/bevel-drive")
    data["used for"] = {"kind": "right-angle drive"}
    found = targets(open_text(text_of(data)).rebuild)
    (lash,) = (t for t in found if t.source == AGMA)
    assert lash.low == pytest.approx(0.004 * 25.4e-3 / 0.939693, rel=1e-5)
    assert lash.high == pytest.approx(0.008 * 25.4e-3 / 0.939693, rel=1e-5)


def test_every_use_says_what_lies_beyond_either_side() -> None:
    """Nobody is told a range without its reasons."""

    for use in USES.values():
        for make in use.rows.values():
            row = make(Asked(40e-3))
            assert row.less
            assert row.more
            assert row.low is None or row.high is None or row.low < row.high
