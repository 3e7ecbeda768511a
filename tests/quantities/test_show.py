"""Figures as printed: digits, both systems, rounding. Expected texts rounded by hand."""

from fractions import Fraction

import pytest

from dryfit.quantities import (
    Kind,
    Size,
    System,
    decimals_for,
    echo,
    read_quantity,
    read_size,
    show_band,
    show_both,
    show_length,
    show_quantity,
    typed,
)
from dryfit.quantities.rounding import exact, fixed, plain, rounded
from dryfit.quantities.show import PARTNER
from dryfit.quantities.units import BY_NAME, KINDS

F = Fraction


@pytest.mark.parametrize(
    ("half_width", "system", "decimals"),
    [
        (0.4, "mm", 1),
        (0.2, "mm", 1),
        (0.19, "mm", 2),
        (0.04, "mm", 2),
        (0.015, "mm", 3),
        (0.01, "mm", 3),
        (0.0001, "mm", 3),
        (0.0, "mm", 3),
        (3.0, "mm", 0),
        (1.5, "mm", 1),
        (40.0, "mm", 0),
        (0.0016 * 25.4, "inch", 4),
        (0.003 * 25.4, "inch", 3),
        (0.00001 * 25.4, "inch", 4),
        (25.4, "inch", 1),
    ],
)
def test_digits_deserved(half_width: float, system: System, decimals: int) -> None:
    """A wide band is told in few digits, a narrow one in more, never finer than 1 um or a tenth."""
    assert decimals_for(half_width, system) == decimals


@pytest.mark.parametrize("hundredths", range(1, 1000))
def test_last_digit_fits_the_band(hundredths: int) -> None:
    """The last digit is worth a twentieth to a half of the half width (1e-12: binary numbers)."""
    half_width = hundredths / 100
    step = 10.0 ** -decimals_for(half_width, "mm")
    assert half_width / 20 * (1 - 1e-12) <= step <= half_width / 2 * (1 + 1e-12)


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [
        (2.675, 2, "2.68"),
        (0.125, 2, "0.13"),
        (0.135, 2, "0.14"),
        (-0.125, 2, "-0.13"),
        (0.5, 0, "1"),
        (1.5, 0, "2"),
        (2.5, 0, "3"),
        (-0.004, 2, "0.00"),
        (-0.0, 1, "0.0"),
        (F(-1, 3), 4, "-0.3333"),
        (F(2, 3), 3, "0.667"),
        (9.9996, 3, "10.000"),
        (1e22, 0, "10000000000000000000000"),
        (1e-7, 3, "0.000"),
        (149, 0, "149"),
    ],
)
def test_rounding(value: Fraction | float, decimals: int, text: str) -> None:
    """A half goes away from zero, binary numbers round as the decimals they stand for."""
    assert fixed(value, decimals) == text


def test_rounding_helpers() -> None:
    """Short decimals stay short, and exact values exact."""
    assert exact(0.1) == F(1, 10)
    assert rounded(F(12345, 1000), 2) == F(1235, 100)
    assert [plain(F(5, 8)), plain(F(-12)), plain(F(100)), plain(F(1, 3))] == [
        "0.625",
        "-12",
        "100",
        "0.333333",
    ]


def test_lengths_in_both_systems() -> None:
    """A figure stands first in the system of the document, then in the other."""
    # 0.35 / 25.4 = 0.013780; half widths 0.04 mm = 0.0016 in, 0.4 mm = 0.016 in
    assert show_both(0.35, "mm", 0.04) == "0.35 mm (0.0138 in)"
    assert show_both(0.35, "inch", 0.04) == "0.0138 in (0.35 mm)"
    assert show_both(F(254, 10), "inch", 0.4) == "1.000 in (25.4 mm)"
    assert show_length(-0.004, "mm", decimals=2) == "0.00 mm"
    assert show_length(12.34, "inch", decimals=3) == "0.486 in"


def test_bands() -> None:
    """A band is told by its ends, with the digits of its half width."""
    assert show_band(0.06, 0.10, 0.14, "mm") == "0.06 to 0.14 mm"
    assert show_band(-0.012, 0.0, 0.012, "mm") == "-0.012 to 0.012 mm"
    # 0.06 / 25.4 = 0.00236, 0.14 / 25.4 = 0.00551; half width 0.00157 in
    assert show_band(0.06, 0.10, 0.14, "inch") == "0.0024 to 0.0055 in"
    assert show_band(0.10002, 0.10003, 0.10004, "mm") == "0.100 mm"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("0.4856 in", "0.4856 in = 12.334 mm"),
        ("12.34", "12.34 mm = 0.4858 in"),
        ("12.340", "12.340 mm = 0.48583 in"),
        ("149", "149 mm = 5.87 in"),
        ("12 thou", "12 thou = 0.30 mm"),
        ("12.5 thou", "12.5 thou = 0.318 mm"),
        ("3 tenths of a thou", "3 tenths of a thou = 0.008 mm"),
        ("12 um", "12 um = 0.00047 in"),
        ("1 5/8 in", "1 5/8 in = 41.275 mm"),
        ("-5/8 in", "-5/8 in = -15.875 mm"),
        ("2 ft 3 in", "27 in = 686 mm"),
        ("25.40 cm", "25.40 cm = 10.000 in"),
        ("-0.00", "0.00 mm = 0.0000 in"),
        ("12.34 +/- 0.02", "12.34 +/- 0.02 mm = 0.4858 +/- 0.0008 in"),
        ("12 +0.02/-0.01", "12 +0.02/-0.01 mm = 0.4724 +0.0008/-0.0004 in"),
        ("10 in +/- 0.02 mm", "10 +/- 0.000787 in = 254.00 +/- 0.02 mm"),
        ("12,5", "12.5 mm = 0.492 in"),
    ],
)
def test_echo(text: str, told: str) -> None:
    """What was typed comes back in both systems, with digits as fine as those typed."""
    size = read_size(text, "mm", box=True)
    assert isinstance(size, Size)
    assert echo(size) == told


@pytest.mark.parametrize(
    ("value", "kind", "unit", "half_width", "told"),
    [
        # 12.5 / 4.44822 = 2.8101; 30 / 1.35582 = 22.127; 0.5 / 0.112985 = 4.425
        (12.5, "force", "N", 0.4, "12.5 N (2.81 lbf)"),
        (-0.001, "force", "N", 0.4, "0.0 N (0.00 lbf)"),
        (30, "torque", "N.m", 1, "30.0 N.m (22.1 lbf.ft)"),
        (0.5, "torque", "N.m", 0.05, "0.50 N.m (4.4 lbf.in)"),
        (0.5, "torque", "lbf.in", 0.05, "4.4 lbf.in (0.50 N.m)"),
        (22.5, "angle", "turn", 0, "0.0625 turn (22.5 deg)"),
        (22.5, "angle", "deg", 3, "23 deg (0.063 turn)"),
        (293.15, "temperature", "°C", 3, "20 °C (68 °F)"),
        (293.15, "temperature", "°F", 3, "68 °F (20 °C)"),
        (5, "temperature difference", "K", 3, "5 K (9 F°)"),
        (68e-6, "kinematic viscosity", "mm2/s", 5e-6, "68 mm2/s"),
        (0.03, "dynamic viscosity", "mPa.s", 0, "30 mPa.s"),
        (90, "speed", "rpm", 0, "90 rpm"),
    ],
)
def test_quantities_in_both_systems(
    value: float, kind: Kind, unit: str, half_width: float, told: str
) -> None:
    """A force, torque, angle or temperature is told in the units of both benches."""
    assert show_quantity(value, kind, unit, half_width=half_width) == told


def test_typed_quantity_is_shown() -> None:
    """What was typed in one unit may be shown in another."""
    pull = read_quantity("120 g", "force")
    # 0.12 * 9.80665 = 1.17680; / 4.44822 = 0.26456
    assert show_quantity(pull, "force", "N", half_width=0.04) == "1.18 N (0.265 lbf)"


def test_typed_is_a_bare_number() -> None:
    """A size worked out goes into the document as its owner would have typed it."""
    assert typed(F(1234, 100), "mm", 2) == "12.34"
    assert typed(F(254, 10), "inch", 4) == "1.0000"
    assert typed(F(-1, 1000), "mm", 2) == "0.00"


@pytest.mark.parametrize("kind", KINDS)
def test_plain_terminals_can_print_it(kind: Kind) -> None:
    """No unit or sign is printed that a code page 437 terminal lacks, and partners exist."""
    for unit in BY_NAME[kind]:
        show_quantity(300, kind, unit, half_width=1).encode("cp437")
    for unit, partner in PARTNER[kind].items():
        assert {unit, partner} <= set(BY_NAME[kind])
