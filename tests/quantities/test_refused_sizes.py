"""Texts with no reading or with two: refused by name, at the place, with ways out that work."""

from fractions import Fraction

import pytest

from dryfit.quantities import Size, System, Unreadable, read_size

F = Fraction

REFUSED: list[tuple[str, System, str, int, dict[str, Fraction]]] = [
    # text, system, code, column, spellings named in the way out with their value in mm
    ("12,34", "mm", "size.comma", 2, {"12.34": F(1234, 100)}),
    ("-12,34 +/- 0,02", "mm", "size.comma", 3, {"-12.34 +/- 0.02": F(-1234, 100)}),
    ("1,234.5", "mm", "size.comma", 1, {"1234.5": F(12345, 10), "1.2345": F(12345, 10000)}),
    ("1.234,5", "mm", "size.comma", 5, {"1234.5": F(12345, 10), "1.2345": F(12345, 10000)}),
    ("1,234,567", "mm", "size.comma", 1, {"1234567": F(1234567)}),
    ("12, 13", "mm", "size.list", 2, {}),
    ("12 mm, 13 mm", "mm", "size.list", 5, {}),
    ("?", "mm", "size.question mark", 0, {"not known": F(0)}),
    ("12.3 ?", "mm", "size.question mark", 5, {}),
    ("5/8", "mm", "size.fraction in mm", 0, {"5/8 in": F(15875, 1000), "0.625 mm": F(5, 8)}),
    ("1 ½", "mm", "size.fraction in mm", 0, {"1 ½ in": F(381, 10), "1.5 mm": F(3, 2)}),
    ("12.34 +/- 1/64", "mm", "size.fraction in mm", 10, {"1/64 in": F(254, 640)}),
    ("12.34 mm +/- 1/64", "mm", "size.fraction in mm", 13, {"0.015625 mm": F(1, 64)}),
    ("5/8 +/- 0.5 mm", "inch", "size.fraction in mm", 0, {"5/8 in": F(15875, 1000)}),
    ("3 tenths", "mm", "size.tenths in mm", 2, {"0.0003 in": F(762, 10**5), "0.3 mm": F(3, 10)}),
    ("12 mm +/- 2 tenths", "inch", "size.tenths in mm", 12, {"0.2 mm": F(2, 10)}),
    ("12 +/- 2 tenths", "mm", "size.tenths in mm", 9, {"0.2 mm": F(2, 10)}),
    ("12 mil", "mm", "size.mil", 3, {"12 thou": F(3048, 10**4), "12 mm": F(12)}),
    ("0.5 Mils", "inch", "size.mil", 4, {"0.5 thou": F(127, 10**4), "0.5 mm": F(1, 2)}),
    ("1e3", "mm", "size.exponent", 1, {"1000": F(1000)}),
    ("1.5E-3 in", "mm", "size.exponent", 3, {"0.0015 in": F(381, 10**4)}),
    ("1e99999999", "mm", "size.exponent", 1, {}),
    ("1" * 61, "mm", "size.long", 60, {}),
    ("12 mm mm", "mm", "size.double unit", 6, {"12 mm": F(12)}),
    ("12 mm in", "mm", "size.double unit", 6, {"12 mm": F(12), "12 in": F(3048, 10)}),
    ('12 in"', "mm", "size.double unit", 5, {"12 in": F(3048, 10)}),
    ("12 +/- -0.02", "mm", "size.tolerance", 7, {}),
    ("12 +0.02", "mm", "size.tolerance", 3, {"12 +0.02/-0": F(12)}),
    ("12 -0.01", "mm", "size.tolerance", 3, {"12 +0/-0.01": F(12), "11.99": F(1199, 100)}),
    ("12 +0.02/+0.04", "mm", "size.tolerance", 9, {"12.03 +/- 0.01": F(1203, 100)}),
    ("12 mm -0.02/-0.04", "mm", "size.tolerance", 12, {"11.97 +/- 0.01 mm": F(1197, 100)}),
    ("+/- 0.02", "mm", "size.tolerance", 0, {"12.34 +/- 0.02": F(1234, 100)}),
    ("12.34 +/-", "mm", "size.tolerance", 6, {}),
    ("12.34 +/- by", "mm", "size.by", 10, {}),
    ("12-13", "mm", "size.range", 2, {"12.5 +/- 0.5": F(25, 2)}),
    ("12 to 13", "mm", "size.range", 3, {"12.5 +/- 0.5": F(25, 2)}),
    ("1 9/8 in", "mm", "size.fraction", 2, {"2.125 in": F(53975, 1000)}),
    ("5/0 in", "mm", "size.fraction", 2, {}),
    ("1.5/8 in", "mm", "size.fraction", 0, {}),
    ("12/13/2024", "mm", "size.fraction", 5, {}),
    ("5/", "mm", "size.fraction", 1, {}),
    ("12 mm/2", "mm", "size.fraction", 5, {}),
    ("40 by 80", "mm", "size.two numbers", 3, {"40": F(40)}),
    ("12 34", "mm", "size.two numbers", 3, {}),
    ("12 mm 3", "mm", "size.two numbers", 6, {}),
    ("1.5 5/8 in", "mm", "size.two numbers", 4, {}),
    ("2 ft 3", "mm", "size.unit", 5, {"2 ft 3 in": F(6858, 10)}),
    ("2 ft 13 in", "mm", "size.unit", 5, {"37 in": F(9398, 10)}),
    ("2.5 ft 3 in", "mm", "size.unit", 7, {"33 in": F(8382, 10)}),
    ("2 ft 3 thou", "mm", "size.unit", 5, {}),
    ("12 mmm", "mm", "size.unit", 3, {"12 mm": F(12)}),
    ("12 inchs", "mm", "size.unit", 3, {"12 inches": F(3048, 10)}),
    ("12 thuo", "mm", "size.unit", 3, {"12 thou": F(3048, 10**4)}),
    ("12 M", "mm", "size.unit", 3, {"12 mm": F(12), "12 m": F(12000)}),
    ("12 micrometer", "mm", "size.unit", 3, {"12 um": F(12, 1000), "12 by micrometer": F(12)}),
    ("5 thousandths", "mm", "size.unit", 2, {"5 thou": F(127, 1000), "5 um": F(5, 1000)}),
    ("3 hundredths", "mm", "size.unit", 2, {"0.03 mm": F(3, 100)}),
    ("12 kg", "mm", "size.unit", 3, {}),
    ("12°", "mm", "size.unit", 2, {}),
    ("50 %", "mm", "size.unit", 3, {}),
    ("12 мм", "mm", "size.unit", 3, {}),
    ("0x1F", "mm", "size.unit", 1, {}),
    ("1_000", "mm", "size.unit", 1, {}),
    (
        "12.34 +/- 12 um",
        "mm",
        "size.unit",
        5,
        {"12.34 mm +/- 12 um": F(1234, 100), "12.34 um +/- 12 um": F(1234, 10**5)},
    ),
    (
        "0.4856 +/- 2 tenths",
        "inch",
        "size.unit",
        6,
        {"0.4856 in +/- 2 tenths": F(1233424, 10**5)},
    ),
    ("1.2.3 in", "mm", "size.point", 3, {"1.23 in": F(31242, 1000)}),
    ("1..", "mm", "size.point", 2, {"1": F(1)}),
    ("12. mm", "mm", "size.point", 2, {"12 mm": F(12), "12.0 mm": F(12)}),
    ("about 12 mm", "mm", "size.about", 0, {}),
    ("~12", "mm", "size.about", 0, {}),
    ("M12", "mm", "size.not a number", 0, {"12": F(12)}),
    ("--6", "mm", "size.not a number", 0, {"6": F(6)}),
    ("abc", "mm", "size.not a number", 0, {"not known": F(0)}),
    ("nan", "mm", "size.not a number", 0, {}),
    ("-inf", "mm", "size.not a number", 0, {}),
    ("１２", "mm", "size.not a number", 0, {}),
    ("١٢", "mm", "size.not a number", 0, {}),
    ("12.34 by ", "mm", "size.by", 6, {}),
    ("by micrometer", "mm", "size.not a number", 0, {}),
    (
        "12.34 by micrometer +/- 0.02",
        "mm",
        "size.by",
        20,
        {"12.34 +/- 0.02 by micrometer": F(1234, 100)},
    ),
    ("12.34\u200b", "mm", "size.character", 5, {}),
    ("12\x0034", "mm", "size.character", 2, {}),
]


def ids(case: object) -> str | None:
    """Name a test by its text only."""
    return ascii(case) if isinstance(case, str) else None


@pytest.mark.parametrize(("text", "system", "code", "column", "ways"), REFUSED, ids=ids)
def test_refused(
    text: str, system: System, code: str, column: int, ways: dict[str, Fraction]
) -> None:
    """Nothing in doubt is read: it is told what, where, why, and what to type instead."""
    with pytest.raises(Unreadable) as caught:
        read_size(text, system)
    trouble = caught.value
    assert (trouble.code, trouble.column) == (code, column)
    assert trouble.message
    for spelling, mm in ways.items():
        assert spelling in trouble.way_out
        size = read_size(spelling, system)
        assert not isinstance(size, Size) or size.value == mm


@pytest.mark.parametrize(("text", "system", "code", "column", "ways"), REFUSED, ids=ids)
def test_message_says_more_than_no(
    text: str, system: System, code: str, column: int, ways: dict[str, Fraction]
) -> None:
    """The sentence a page shows holds the reason and the way out, and no bare refusal."""
    with pytest.raises(Unreadable) as caught:
        read_size(text, system)
    told = str(caught.value)
    assert caught.value.message in told
    assert caught.value.way_out in told
    assert len(caught.value.way_out.split()) >= 2
    assert "invalid" not in told.lower()


@pytest.mark.parametrize("text", ["1,234.5", "1,2,3", "12, 13", "1,234,567.8"])
def test_page_box_guesses_no_more_than_a_decimal_comma(text: str) -> None:
    """A comma that may part thousands, or make a list, is refused in a page box too."""
    with pytest.raises(Unreadable) as caught:
        read_size(text, "mm", box=True)
    assert caught.value.code in ("size.comma", "size.list")


def test_columns_count_in_the_text_handed_over() -> None:
    """White space before the size does not shift the mark under the doubtful character."""
    with pytest.raises(Unreadable) as caught:
        read_size("   12,34", "mm")
    assert caught.value.column == 5
