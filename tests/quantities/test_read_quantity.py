"""Forces, torques, angles, temperatures, speeds and viscosities as typed.

Expected values worked out by hand from the exact factors of NIST SP 811, Appendix B, from memory:
1 lbf = 4.448 221 615 260 5 N, 1 kgf = 9.806 65 N, 1 in = 25.4 mm, 1 cP = 1 mPa.s, 1 cSt = 1 mm2/s.
"""

import math
from fractions import Fraction

import pytest

from dryfit.quantities import Kind, Unreadable, read_quantity
from dryfit.quantities.units import BASE, BY_NAME, COMMON, KINDS, UNITS, Unit

F = Fraction

READ: list[tuple[str, Kind, Fraction, str]] = [
    ("12.5 N", "force", F(125, 10), "N"),
    ("12 kN", "force", F(12000), "kN"),
    ("3 kgf", "force", F("29.41995"), "kgf"),
    ("1.5 kg", "force", F("14.709975"), "kgf"),
    ("120 g", "force", F("1.176798"), "gf"),
    ("2 lb", "force", F("8.896443230521"), "lbf"),
    ("1 1/2 lbf", "force", F("6.67233242289075"), "lbf"),
    ("16 oz", "force", F("4.4482216152605"), "ozf"),
    ("1 N.m", "torque", F(1), "N.m"),
    ("1 N·m", "torque", F(1), "N.m"),
    ("1 Nm", "torque", F(1), "N.m"),
    ("1 N m", "torque", F(1), "N.m"),
    ("250 N mm", "torque", F(1, 4), "N.mm"),
    ("3 mN.m", "torque", F(3, 1000), "mN.m"),
    ("1 kgf.m", "torque", F("9.80665"), "kgf.m"),
    ("10 kg-cm", "torque", F("0.980665"), "kgf.cm"),
    # 4.4482216152605 * 0.3048 and * 0.0254
    ("1 lbf.ft", "torque", F("1.3558179483314004"), "lbf.ft"),
    ("1 lbf·ft", "torque", F("1.3558179483314004"), "lbf.ft"),
    ("1 ft-lb", "torque", F("1.3558179483314004"), "lbf.ft"),
    ("1 lb-ft", "torque", F("1.3558179483314004"), "lbf.ft"),
    ("1 lbf.in", "torque", F("0.1129848290276167"), "lbf.in"),
    ("12 in-lbs", "torque", F("1.3558179483314004"), "lbf.in"),
    ("16 oz-in", "torque", F("0.1129848290276167"), "ozf.in"),
    ("12.5 deg", "angle", F(125, 10), "deg"),
    ("12.5°", "angle", F(125, 10), "deg"),
    ("30 arcmin", "angle", F(1, 2), "arcmin"),
    ("30'", "angle", F(1, 2), "arcmin"),
    ("36 arcsec", "angle", F(1, 100), "arcsec"),
    ("2° 30'", "angle", F(5, 2), "arcmin"),
    ("-2° 30′ 36″", "angle", F(-251, 100), "arcsec"),
    ("2 deg 30 arcmin", "angle", F(5, 2), "arcmin"),
    ("1/16 turn", "angle", F(225, 10), "turn"),
    ("20 °C", "temperature", F("293.15"), "°C"),
    ("20 deg C", "temperature", F("293.15"), "°C"),
    ("68 °F", "temperature", F("293.15"), "°F"),
    ("-40 F", "temperature", F("233.15"), "°F"),
    ("293.15 K", "temperature", F("293.15"), "K"),
    ("-273.15 C", "temperature", F(0), "°C"),
    ("9 F°", "temperature difference", F(5), "F°"),
    ("9 °F", "temperature difference", F(5), "F°"),
    ("5 C°", "temperature difference", F(5), "C°"),
    ("70 K", "temperature difference", F(70), "K"),
    ("90 rpm", "speed", F(90), "rpm"),
    ("90 RPM", "speed", F(90), "rpm"),
    ("90 r/min", "speed", F(90), "rpm"),
    ("90 1/min", "speed", F(90), "rpm"),
    ("90 min⁻¹", "speed", F(90), "rpm"),
    ("1.5 1/s", "speed", F(90), "1/s"),
    ("68 mm2/s", "kinematic viscosity", F(68, 10**6), "mm2/s"),
    ("68 mm²/s", "kinematic viscosity", F(68, 10**6), "mm2/s"),
    ("68 cSt", "kinematic viscosity", F(68, 10**6), "cSt"),
    ("0.000068 m2/s", "kinematic viscosity", F(68, 10**6), "m2/s"),
    ("30 mPa.s", "dynamic viscosity", F(3, 100), "mPa.s"),
    ("30 cP", "dynamic viscosity", F(3, 100), "cP"),
    ("0.03 Pa·s", "dynamic viscosity", F(3, 100), "Pa.s"),
]

TOLERANCES: list[tuple[str, Kind, Fraction, Fraction, Fraction]] = [
    ("5 +/- 3 K", "temperature difference", F(5), F(3), F(3)),
    ("5 N +0.5/-0.2", "force", F(5), F(1, 2), F(1, 5)),
    ("20 °C +/- 3 K", "temperature", F("293.15"), F(3), F(3)),
    ("20 +/- 3 °C", "temperature", F("293.15"), F(3), F(3)),
    ("68 °F +/- 9 F°", "temperature", F("293.15"), F(5), F(5)),
    ("5° +/- 30'", "angle", F(5), F(1, 2), F(1, 2)),
    ("1 N.m +/- 20 N.mm", "torque", F(1), F(2, 100), F(2, 100)),
]

REFUSED: list[tuple[str, Kind, str, int, str]] = [
    ("12", "force", "quantity.unit", 2, "12 N or 12 lbf"),
    ("12", "angle", "quantity.unit", 2, "12 deg or 12 turn"),
    ("20 +/- 3 K", "temperature", "quantity.unit", 2, "20 °C +/- 3 K"),
    ("20 deg", "temperature", "quantity.unit", 3, "20 °C or 20 °F"),
    ("5 lb", "torque", "quantity.unit", 2, "5 lbf.ft or 5 lbf.in"),
    ("5 kg", "torque", "quantity.unit", 2, "5 kgf.m or 5 kgf.cm"),
    ("5 N", "torque", "quantity.unit", 2, "5 N.m or 5 N.mm"),
    ("5 N.m", "force", "quantity.unit", 2, "N, lbf"),
    ("68 cP", "kinematic viscosity", "quantity.unit", 3, "mm2/s"),
    ("30 MPa.s", "dynamic viscosity", "quantity.unit", 3, "30 mPa.s"),
    ("20 MN.m", "torque", "quantity.unit", 3, "?"),
    ('1/16"', "angle", "quantity.unit", 4, "1/16 turn, or 1/16 arcsec"),
    ("½'", "angle", "quantity.unit", 1, "½ turn"),
    ('0.06"', "angle", "quantity.unit", 4, "0.06 arcsec"),
    ("1/16 in", "angle", "quantity.unit", 5, "turn"),
    ("12 min", "angle", "quantity.unit", 3, "12 arcmin"),
    ("2° 70'", "angle", "quantity.unit", 3, "190 arcmin"),
    ("2° 30", "angle", "quantity.unit", 3, "2 deg 30 arcmin"),
    ("-273.16 °C", "temperature", "quantity.cold", 0, "above"),
    ("-459.68 F", "temperature", "quantity.cold", 0, "above"),
    ("5 N by balance", "force", "quantity.by", 2, "alone"),
    ("12,5 N", "force", "quantity.comma", 2, "12.5 N"),
    ("12 N 3", "force", "quantity.two numbers", 5, "one value"),
    ("12 13 N", "force", "quantity.two numbers", 3, "one value"),
    ("1e3 N", "force", "quantity.exponent", 1, "1000 N"),
    ("?", "force", "quantity.question mark", 0, "leave the entry out"),
    ("", "angle", "quantity.empty", 0, "deg"),
    ("slow", "speed", "quantity.not a number", 0, "rpm"),
    ("5 N (", "force", "quantity.unit", 2, "N"),
    ("5 N +1", "force", "quantity.tolerance", 4, "5 N +1/-0"),
]


@pytest.mark.parametrize(("text", "kind", "value", "unit"), READ)
def test_quantity(text: str, kind: Kind, value: Fraction, unit: str) -> None:
    """A quantity may be written in the units of either system, and is kept exactly."""
    quantity = read_quantity(text, kind)
    assert (quantity.value, quantity.unit, quantity.kind) == (value, unit, kind)
    assert (quantity.plus, quantity.minus) == (None, None)


@pytest.mark.parametrize(("text", "kind", "value", "plus", "minus"), TOLERANCES)
def test_tolerance(text: str, kind: Kind, value: Fraction, plus: Fraction, minus: Fraction) -> None:
    """A tolerance on a temperature is a difference, and never has the zero of a scale added."""
    quantity = read_quantity(text, kind)
    assert (quantity.value, quantity.plus, quantity.minus) == (value, plus, minus)


@pytest.mark.parametrize(("text", "kind", "code", "column", "way_out"), REFUSED)
def test_refused(text: str, kind: Kind, code: str, column: int, way_out: str) -> None:
    """A quantity in doubt is refused where the doubt is, with what to type instead."""
    with pytest.raises(Unreadable) as caught:
        read_quantity(text, kind)
    assert (caught.value.code, caught.value.column) == (code, column)
    assert way_out in caught.value.way_out


def test_step_is_the_last_digit_typed() -> None:
    """The digits typed are kept as the finest thing the reading can tell."""
    assert read_quantity("68.0 °F", "temperature").step == F(1, 18)
    assert read_quantity("120 g", "force").step == F("0.00980665")
    assert read_quantity("1/16 turn", "angle").step is None


def test_bare_number_gets_the_unit_of_its_place() -> None:
    """Where the page says the unit, a bare number is read in it, another unit still as typed."""
    assert read_quantity("90", "speed", unit_if_bare="rpm").value == 90
    assert read_quantity("1.5 1/s", "speed", unit_if_bare="rpm").value == 90
    assert read_quantity("20 +/- 3 K", "temperature", unit_if_bare="°C").value == F("293.15")
    assert read_quantity("12,5", "force", unit_if_bare="N", box=True).value == F(125, 10)


def test_si_is_in_radians() -> None:
    """Formulas get radians and radians per second; to the last bits of a binary number."""
    assert read_quantity("1/4 turn", "angle").si == pytest.approx(math.pi / 2, rel=1e-15)
    assert read_quantity("1 rad", "angle").si == pytest.approx(1, rel=1e-15)
    assert read_quantity("60 rpm", "speed").si == pytest.approx(2 * math.pi, rel=1e-15)
    assert read_quantity("20 °C", "temperature").si == 293.15


@pytest.mark.parametrize("kind", KINDS)
def test_tables_hang_together(kind: Kind) -> None:
    """Every unit offered can be typed, reads as itself, and the base unit has the factor 1."""
    assert BY_NAME[kind][BASE[kind]] == Unit(BASE[kind], F(1))
    assert set(COMMON[kind]) <= set(BY_NAME[kind])
    for name in BY_NAME[kind]:
        assert read_quantity(f"500 {name}", kind).unit == name
    for spelling, unit in UNITS[kind].items():
        if spelling not in ('"', "″", "”", "''"):
            assert read_quantity(f"500 {spelling}", kind).unit == unit.name
