"""Plain `number unit` texts against pint, a library of units written by others.

Compared is only what pint reads right. It reads `1 5/8 in` as 0.625 in, `1,25 mm` as 125 mm and
`25.00 +/- 0.02 mm` not as a tolerance, so fractions, commas and tolerances are left to the tables
worked out by hand. Both sides are binary numbers at the end: 1e-12 leaves room for a few roundings,
and is a million times finer than any slip in a factor.
"""

from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.quantities import Kind, Size, read_quantity, read_size

REGISTRY: Any = pint.UnitRegistry()

LENGTHS = {
    "mm": "mm",
    "cm": "cm",
    "m": "m",
    "um": "um",
    "in": "in",
    "inch": "inch",
    "ft": "ft",
    "thou": "thou",
}

QUANTITIES: dict[Kind, tuple[str, dict[str, str]]] = {
    "force": (
        "N",
        {"N": "N", "kN": "kN", "kgf": "kgf", "gf": "gram_force", "lbf": "lbf", "ozf": "ozf"},
    ),
    "torque": (
        "N*m",
        {
            "N.m": "N*m",
            "N.mm": "N*mm",
            "kgf.m": "kgf*m",
            "kgf.cm": "kgf*cm",
            "lbf.ft": "lbf*ft",
            "lbf.in": "lbf*in",
            "ozf.in": "ozf*in",
        },
    ),
    "angle": (
        "rad",
        {
            "deg": "deg",
            "arcmin": "arcmin",
            "arcsec": "arcsec",
            "turn": "turn",
            "rad": "rad",
            "mrad": "mrad",
        },
    ),
    "temperature": ("K", {"°C": "degC", "°F": "degF", "K": "K"}),
    "temperature difference": ("K", {"K": "K", "C°": "delta_degC", "F°": "delta_degF"}),
    "speed": ("rad/s", {"rpm": "rpm", "rad/s": "rad/s", "1/s": "turn/s"}),
    "kinematic viscosity": (
        "m**2/s",
        {"mm2/s": "mm**2/s", "cSt": "centistokes", "St": "stokes", "m2/s": "m**2/s"},
    ),
    "dynamic viscosity": (
        "Pa*s",
        {"mPa.s": "mPa*s", "cP": "centipoise", "P": "poise", "Pa.s": "Pa*s"},
    ),
}

NUMBERS = st.decimals(min_value=0, max_value=99999, places=4)
CASES = [(kind, ours) for kind, (_, units) in QUANTITIES.items() for ours in units]


def by_pint(number: str, unit: str, base: str) -> float:
    """Let pint turn a number of some unit into another unit."""
    magnitude: float = REGISTRY.Quantity(float(number), unit).to(base).magnitude
    return magnitude


@pytest.mark.parametrize("unit", LENGTHS)
@given(number=NUMBERS)
def test_lengths_agree_with_pint(unit: str, number: object) -> None:
    """A length in any unit is as long as others say it is."""
    size = read_size(f"{number} {unit}", "mm")
    assert isinstance(size, Size)
    assert size.mm == pytest.approx(by_pint(str(number), LENGTHS[unit], "mm"), rel=1e-12)


@pytest.mark.parametrize(("kind", "unit"), CASES)
@given(number=NUMBERS)
def test_quantities_agree_with_pint(kind: Kind, unit: str, number: object) -> None:
    """A force, torque, angle, temperature or viscosity is as large as others say it is."""
    base, units = QUANTITIES[kind]
    quantity = read_quantity(f"{number} {unit}", kind)
    assert quantity.si == pytest.approx(by_pint(str(number), units[unit], base), rel=1e-12)
