"""Where the spots of a part lie: sums, what is left by difference, and loops, by hand."""

import pytest

from dryfit.model.rebuild import Between
from dryfit.model.spots import Spot
from dryfit.quantities import NotKnown
from dryfit.solve.luck import NoLuck, as_array
from dryfit.solve.spots import Layout, lay_out


def _layout(sizes: dict[str, float | None], doubts: dict[str, float] | None = None) -> Layout:
    """Lay out a shaft from sizes such as {"a b": 5.0}; None is not known."""
    between = [
        Between(key, Spot("shaft", key[0]), Spot("shaft", key[2]), NotKnown("")) for key in sizes
    ]
    values = {key: as_array([x]) for key, x in sizes.items() if x is not None}
    return lay_out(
        "shaft",
        between,
        used=["a", "b", "c"],
        values=values,
        doubts=doubts or {},
        draws=NoLuck(),
        assumed={},
    )


def test_unknown_length_is_left_by_difference() -> None:
    """With the whole and one part typed, the other part is not asked for: 30 - 12 = 18."""
    layout = _layout({"a b": 12.0, "a c": 30.0, "b c": None})
    assert float(layout.offsets["c"][0] - layout.offsets["b"][0]) == 18.0
    assert not layout.lacking


def test_three_lengths_that_disagree_are_told() -> None:
    """12.00 and 18.00 against 30.08 over all: they disagree by 0.08."""
    layout = _layout({"a b": 12.0, "b c": 18.0, "a c": 30.08})
    (loop,) = layout.loops
    assert abs(float(loop.gap[0])) == pytest.approx(0.08)
    assert set(loop.keys) == {"a b", "b c", "a c"}


def test_equally_doubtful_lengths_share_their_disagreement() -> None:
    """0.09 over three equal doubts is 0.03 each: b at 12.03, c at 30.06 (least squares by hand)."""
    layout = _layout({"a b": 12.0, "b c": 18.0, "a c": 30.09})
    assert float(layout.offsets["b"][0]) == pytest.approx(12.03)
    assert float(layout.offsets["c"][0]) == pytest.approx(30.06)


def test_the_surer_length_moves_less() -> None:
    """With 'a c' surer by a factor 1000 the other two take up the 0.09 alone, 0.045 each."""
    layout = _layout(
        {"a b": 12.0, "b c": 18.0, "a c": 30.09}, {"a b": 1e-2, "b c": 1e-2, "a c": 1e-5}
    )
    assert float(layout.offsets["c"][0]) == pytest.approx(30.09, abs=1e-6)
    assert float(layout.offsets["b"][0]) == pytest.approx(12.045, abs=1e-6)


def test_the_size_nobody_typed_is_named() -> None:
    """A spot that hangs loose is told by the size that would tie it."""
    layout = _layout({"a b": 12.0})
    assert layout.lacking == {"shaft.a to shaft.c"}
