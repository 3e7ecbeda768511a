"""Sizes as the bench writes them, with exact values worked out by hand (1 in = 25.4 mm exactly)."""

from fractions import Fraction

import pytest

from dryfit.quantities import NotKnown, Size, System, Unreadable, read_size

READ: list[tuple[str, System, Fraction, Fraction | None]] = [
    ("12.34", "mm", Fraction("12.34"), Fraction("0.01")),
    ("0.350", "mm", Fraction("0.35"), Fraction("0.001")),
    (".0015", "inch", Fraction("0.0381"), Fraction("0.00254")),
    ("0.4856 in", "mm", Fraction("12.33424"), Fraction("0.00254")),
    ('0.4856"', "mm", Fraction("12.33424"), Fraction("0.00254")),
    ("1 5/8 in", "mm", Fraction("41.275"), None),
    ("1-5/8 in", "mm", Fraction("41.275"), None),
    ("5/8", "inch", Fraction("15.875"), None),
    ("½ in", "mm", Fraction("12.7"), None),
    ("12 thou", "mm", Fraction("0.3048"), Fraction("0.0254")),
    ("1/2 thou", "mm", Fraction("0.0127"), None),
    ("3 tenths", "inch", Fraction("0.00762"), Fraction("0.00254")),
    ("12 µm", "mm", Fraction("0.012"), Fraction("0.001")),
    ("2 ft 3 in", "inch", Fraction("685.8"), Fraction("25.4")),
    ("−6.20", "mm", Fraction("-6.2"), Fraction("0.01")),
]

REFUSED: list[tuple[str, System, str]] = [
    ("12,34", "mm", "12.34"),
    ("5/8", "mm", "5/8 in"),
    ("3 tenths", "mm", "0.0003 in"),
    ("?", "mm", "not known"),
    ("5 mil", "mm", "thou"),
    ("1e3", "mm", ""),
    ("12 thuo", "mm", "12 thou"),
    ("1.2.3", "mm", ""),
    ("1" * 61, "mm", "60"),
]


@pytest.mark.parametrize(("text", "system", "mm", "step"), READ)
def test_notation_is_read_exactly(
    text: str, system: System, mm: Fraction, step: Fraction | None
) -> None:
    """A size gets the exact value and the last digit that were typed."""
    size = read_size(text, system)
    assert isinstance(size, Size)
    assert (size.value, size.step) == (mm, step)


@pytest.mark.parametrize(("text", "system", "hint"), REFUSED)
def test_doubtful_size_is_refused_with_the_way_out(text: str, system: System, hint: str) -> None:
    """Where there is doubt the size is refused, and what to type instead is spelt out."""
    with pytest.raises(Unreadable) as caught:
        read_size(text, system)
    assert hint in caught.value.way_out + caught.value.message
    assert caught.value.way_out
    assert 0 <= caught.value.column <= len(text)


def test_tolerance_and_instrument_are_kept() -> None:
    """What stands behind the number is kept with it."""
    size = read_size("12.34 +/- 0.02 by depth micrometer", "mm")
    assert isinstance(size, Size)
    assert size.plus == size.minus == Fraction("0.02")
    assert size.instrument == "depth micrometer"


def test_not_known_is_a_value() -> None:
    """An empty value or `not known` is read as such; a page box also takes a question mark."""
    assert isinstance(read_size("not known", "mm"), NotKnown)
    assert isinstance(read_size("", "mm"), NotKnown)
    assert isinstance(read_size("?", "mm", box=True), NotKnown)
