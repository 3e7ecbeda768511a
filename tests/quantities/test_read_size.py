"""Every notation of a size, with its value worked out by hand.

1 in = 25.4 mm exactly (NIST SP 811, Appendix B, from memory); a thou is 0.001 in, a tenth
0.0001 in.
"""

from fractions import Fraction

import pytest

from dryfit.quantities import NotKnown, Size, System, read_size

F = Fraction

READ: list[tuple[str, System, Fraction, str, Fraction | None]] = [
    ("12.34", "mm", F(1234, 100), "mm", F(1, 100)),
    ("149", "mm", F(149), "mm", F(1)),
    ("12.30", "mm", F(123, 10), "mm", F(1, 100)),
    ("012.3", "mm", F(123, 10), "mm", F(1, 10)),
    ("12.34", "inch", F(1234, 100) * F(254, 10), "in", F(254, 1000)),
    ("12.34 mm", "inch", F(1234, 100), "mm", F(1, 100)),
    ("12.34mm", "inch", F(1234, 100), "mm", F(1, 100)),
    ("  12.34  MM ", "inch", F(1234, 100), "mm", F(1, 100)),
    ("12\xa0mm", "inch", F(12), "mm", F(1)),
    (".0015 in", "mm", F(381, 10000), "in", F(254, 100000)),
    ("0.4856”", "mm", F(1233424, 100000), "in", F(254, 100000)),
    ("0.4856″", "mm", F(1233424, 100000), "in", F(254, 100000)),
    ("1 inch", "mm", F(254, 10), "in", F(254, 10)),
    ("2 Inches", "mm", F(508, 10), "in", F(254, 10)),
    ("1 5/8", "inch", F(41275, 1000), "in", None),
    ('1 5/8"', "mm", F(41275, 1000), "in", None),
    ("1–5/8 in", "mm", F(41275, 1000), "in", None),
    ('5/8"', "mm", F(15875, 1000), "in", None),
    ("5/8''", "mm", F(15875, 1000), "in", None),
    ("5⁄8 in", "mm", F(15875, 1000), "in", None),
    ("9/8 in", "mm", F(28575, 1000), "in", None),
    ('1½"', "mm", F(381, 10), "in", None),
    ("1 ½ in", "mm", F(381, 10), "in", None),
    ("1-½ in", "mm", F(381, 10), "in", None),
    ("⅞ in", "mm", F(22225, 1000), "in", None),
    ("1/2 mm", "mm", F(1, 2), "mm", None),
    ("1 1/2 thou", "mm", F(381, 10000), "thou", None),
    ("12.5 Thou", "mm", F(3175, 10000), "thou", F(254, 100000)),
    ("3 tenths of a thou", "mm", F(762, 100000), "tenth", F(254, 100000)),
    ("1 tenth", "inch", F(254, 100000), "tenth", F(254, 100000)),
    ("12 um", "mm", F(12, 1000), "um", F(1, 1000)),
    ("12 μm", "mm", F(12, 1000), "um", F(1, 1000)),
    ("1 micron", "mm", F(1, 1000), "um", F(1, 1000)),
    ("12.5 microns", "inch", F(125, 10000), "um", F(1, 10000)),
    ("1.5 cm", "mm", F(15), "cm", F(1)),
    (".5 m", "mm", F(500), "m", F(100)),
    ("2 ft", "mm", F(6096, 10), "ft", F(3048, 10)),
    ("2'", "mm", F(6096, 10), "ft", F(3048, 10)),
    ("2'3\"", "mm", F(6858, 10), "in", F(254, 10)),
    ("2' 3 1/2\"", "mm", F(6985, 10), "in", None),
    ("-2 ft 3 in", "mm", F(-6858, 10), "in", F(254, 10)),
    ("-6.20", "mm", F(-62, 10), "mm", F(1, 100)),
    ("–6.20", "mm", F(-62, 10), "mm", F(1, 100)),
    ("- 6.20", "mm", F(-62, 10), "mm", F(1, 100)),
    ("+6.20", "mm", F(62, 10), "mm", F(1, 100)),
    ("-1-5/8 in", "mm", F(-41275, 1000), "in", None),
]

TOLERANCES: list[tuple[str, System, Fraction, Fraction, Fraction]] = [
    ("12.34 +/- 0.02", "mm", F(1234, 100), F(2, 100), F(2, 100)),
    ("12.34±0.02", "mm", F(1234, 100), F(2, 100), F(2, 100)),
    ("12.34 ± 0.02 mm", "inch", F(1234, 100), F(2, 100), F(2, 100)),
    ("12.34 mm +/- 0.02 mm", "inch", F(1234, 100), F(2, 100), F(2, 100)),
    ("12.34 mm +/- 12 um", "mm", F(1234, 100), F(12, 1000), F(12, 1000)),
    ("12.34 +/- 0.02 in", "mm", F(313436, 1000), F(508, 1000), F(508, 1000)),
    ("0.4856 in +/- 2 tenths", "mm", F(1233424, 100000), F(508, 100000), F(508, 100000)),
    ("12 thou +/- 2", "mm", F(3048, 10000), F(508, 10000), F(508, 10000)),
    ("1 5/8 in +/- 1/64", "mm", F(41275, 1000), F(254, 640), F(254, 640)),
    ("12.34 +0.02/-0.01", "mm", F(1234, 100), F(2, 100), F(1, 100)),
    ("12.34 +0.02 / -0.01", "mm", F(1234, 100), F(2, 100), F(1, 100)),
    ("12.34 +0.02 -0.01", "mm", F(1234, 100), F(2, 100), F(1, 100)),
    ("12.34 -0.01 +0.02", "mm", F(1234, 100), F(2, 100), F(1, 100)),
    ("12.34 +0/-0.01", "mm", F(1234, 100), F(0), F(1, 100)),
    ("12.34 +0.02/-0.01 mm", "inch", F(1234, 100), F(2, 100), F(1, 100)),
    ("12.34 mm +20 um/-0.01 mm", "inch", F(1234, 100), F(2, 100), F(1, 100)),
    ("-6.20 +/- 0.02 by depth micrometer", "mm", F(-62, 10), F(2, 100), F(2, 100)),
]


def size_of(text: str, system: System = "mm", *, box: bool = False) -> Size:
    """Read a text that is a size."""
    size = read_size(text, system, box=box)
    assert isinstance(size, Size)
    return size


@pytest.mark.parametrize(("text", "system", "mm", "unit", "step"), READ)
def test_notation(
    text: str, system: System, mm: Fraction, unit: str, step: Fraction | None
) -> None:
    """A size may be written in any way the trade writes it."""
    size = size_of(text, system)
    assert (size.value, size.unit, size.step) == (mm, unit, step)
    assert (size.text, size.plus, size.minus, size.instrument) == (text.strip(), None, None, None)


@pytest.mark.parametrize(("text", "system", "mm", "plus", "minus"), TOLERANCES)
def test_tolerance(
    text: str, system: System, mm: Fraction, plus: Fraction, minus: Fraction
) -> None:
    """A tolerance is read with its own unit, or with the one unit written for all."""
    size = size_of(text, system)
    assert (size.value, size.plus, size.minus) == (mm, plus, minus)


@pytest.mark.parametrize(
    ("text", "instrument"),
    [
        ("12.34 by micrometer", "micrometer"),
        ("12.34 mm by depth  micrometer", "depth micrometer"),
        ("12.34 BY Big Caliper", "Big Caliper"),
        ('0.4856" +/- 0.0002 by 0-1 in micrometer', "0-1 in micrometer"),
    ],
)
def test_instrument(text: str, instrument: str) -> None:
    """The words behind `by` name the instrument, with their capitals, spaces folded."""
    assert size_of(text).instrument == instrument


@pytest.mark.parametrize("text", ["", "   ", "not known", "Not  Known", " NOT KNOWN "])
def test_not_known(text: str) -> None:
    """A size nobody has measured yet is a proper answer."""
    assert read_size(text, "mm") == NotKnown(text.strip())


def test_page_box() -> None:
    """In a page box `?` means not known, and a decimal comma is read; the text stays as typed."""
    assert read_size(" ? ", "mm", box=True) == NotKnown("?")
    size = size_of("12,34 +/- 0,02", box=True)
    assert (size.value, size.step, size.plus) == (F(1234, 100), F(1, 100), F(2, 100))
    assert size.text == "12,34 +/- 0,02"
    assert size_of(",5", box=True).value == F(1, 2)


def test_mm_is_the_nearest_binary_number() -> None:
    """Arithmetic gets the number that Python itself makes of the decimal."""
    assert size_of("12.34").mm == 12.34
    assert size_of("0.4856 in").mm == 12.33424
