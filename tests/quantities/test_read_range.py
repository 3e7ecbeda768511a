"""Limits of a length: every notation, worked out by hand, and the doubtful ones."""

from fractions import Fraction

import pytest

from dryfit.quantities import SizeRange, System, Unreadable, read_range

F = Fraction

READ: list[tuple[str, System, Fraction | None, Fraction | None]] = [
    ("0.05 to 0.15", "mm", F(5, 100), F(15, 100)),
    ("0.05 TO 0.15 mm", "inch", F(5, 100), F(15, 100)),
    ("0.05 mm to 6 thou", "mm", F(5, 100), F(1524, 10**4)),
    ("2 to 6 thou", "mm", F(508, 10**4), F(1524, 10**4)),
    ("2 to 6 thou", "inch", F(508, 10**4), F(1524, 10**4)),
    ("0 to 5 thou", "mm", F(0), F(127, 1000)),
    ("2 to 6 tenths", "inch", F(508, 10**5), F(1524, 10**5)),
    ("1 thou to 30 tenths", "mm", F(254, 10**4), F(762, 10**4)),
    ("5/8 to 3/4 in", "mm", F(15875, 1000), F(1905, 100)),
    ("0.10 +/- 0.05", "mm", F(5, 100), F(15, 100)),
    ("0.10 +0.05/-0.02", "mm", F(8, 100), F(15, 100)),
    ("-0.05 to 0.02", "mm", F(-5, 100), F(2, 100)),
    ("at least 0.02", "mm", F(2, 100), None),
    ("At  most 6 thou", "mm", None, F(1524, 10**4)),
    ("0.05 to 0.05", "mm", F(5, 100), F(5, 100)),
]

REFUSED: list[tuple[str, System, str, int, str]] = [
    ("0.15 to 0.05", "mm", "size.range", 0, "0.05 to 0.15"),
    ("0.05-0.15", "mm", "size.range", 4, "0.05 to 0.15"),
    ("0.1", "mm", "size.range", 0, "at least 0.1"),
    ("0.05 to 6 thou", "mm", "size.unit", 4, "0.05 mm to 6 thou"),
    ("2 thou to 6", "mm", "size.unit", 11, "2 thou to 6 thou"),
    ("2 to 6 tenths", "mm", "size.tenths in mm", 7, "0.6 mm"),
    ("2 tenths to 6", "mm", "size.tenths in mm", 2, "0.2 mm"),
    ("at most 5/8", "mm", "size.fraction in mm", 8, "5/8 in"),
    ("at least", "mm", "size.not a number", 8, "12.34"),
    ("at least 1 +/- 2", "mm", "size.range", 10, "1"),
    ("0.05 to", "mm", "size.range", 5, "12 to 13"),
    ("0.05 to 0.1 to 0.2", "mm", "size.range", 12, "12 to 13"),
    ("0,05 to 0,15", "mm", "size.comma", 1, "0.05 to 0.15"),
    ("0.05 to 0.15 by caliper", "mm", "size.by", 13, "0.05 to 0.15"),
    ("", "mm", "size.range", 0, "0.05 to 0.15"),
    ("not known", "mm", "size.range", 0, "leave the whole entry out"),
]


@pytest.mark.parametrize(("text", "system", "low", "high"), READ)
def test_limits(text: str, system: System, low: Fraction | None, high: Fraction | None) -> None:
    """Limits may be written as they are spoken; a unit behind the second covers both."""
    assert read_range(text, system) == SizeRange(text, low, high)


@pytest.mark.parametrize(("text", "system", "code", "column", "way_out"), REFUSED)
def test_refused_limits(text: str, system: System, code: str, column: int, way_out: str) -> None:
    """Limits in doubt are refused where the doubt is, with what to type instead."""
    with pytest.raises(Unreadable) as caught:
        read_range(text, system)
    assert (caught.value.code, caught.value.column) == (code, column)
    assert way_out in caught.value.way_out


def test_limits_in_a_page_box() -> None:
    """A page box reads decimal commas in limits too."""
    limits = read_range("0,05 to 0,15", "mm", box=True)
    assert (limits.low, limits.high) == (F(5, 100), F(15, 100))
