"""Units of force, torque, angle, temperature, speed and viscosity.

Each kind has a base unit. Factors are exact; a radian, whose factor is not a fraction, uses pi to
30 decimals. Source: 1 lbf = 4.448 221 615 260 5 N, 1 kgf = 9.806 65 N, 1 in = 25.4 mm,
1 P = 0.1 Pa.s, 1 St = 1 cm2/s, 0 °C = 273.15 K, 1 °F = 5/9 K (NIST SP 811, Appendix B, from
memory).
"""

from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from typing import Literal, get_args

Kind = Literal[
    "force",
    "torque",
    "angle",
    "temperature",
    "temperature difference",
    "speed",
    "kinematic viscosity",
    "dynamic viscosity",
]
KINDS: tuple[Kind, ...] = get_args(Kind)

PI = Fraction("3.141592653589793238462643383280")
LBF = Fraction("4.4482216152605")
KGF = Fraction("9.80665")
INCH_IN_M = Fraction("0.0254")


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of one kind: `value in base units = number * factor + offset`."""

    name: str
    factor: Fraction
    offset: Fraction = Fraction(0)


BASE: dict[Kind, str] = {
    "force": "N",
    "torque": "N.m",
    "angle": "deg",
    "temperature": "K",
    "temperature difference": "K",
    "speed": "rpm",
    "kinematic viscosity": "m2/s",
    "dynamic viscosity": "Pa.s",
}
"""The unit in which a value of this kind is kept exactly."""

TO_SI: dict[Kind, Fraction] = dict.fromkeys(KINDS, Fraction(1)) | {
    "angle": PI / 180,
    "speed": 2 * PI / 60,
}
"""Base unit to SI; exact but for angle (to rad) and speed (to rad/s)."""

_FORCE = {
    "N": ("N", Fraction(1)),
    "mN": ("mN", Fraction(1, 1000)),
    "kN": ("kN", Fraction(1000)),
    "kgf": ("kgf kg kp", KGF),
    "gf": ("gf g", KGF / 1000),
    "lbf": ("lbf lb lbs", LBF),
    "ozf": ("ozf oz", LBF / 16),
}
"""Names with spellings; g, kg, lb and oz are the pull that a balance shows."""

_ARM = {
    "m": ("m", Fraction(1)),
    "cm": ("cm", Fraction(1, 100)),
    "mm": ("mm", Fraction(1, 1000)),
    "ft": ("ft", 12 * INCH_IN_M),
    "in": ("in", INCH_IN_M),
}
_INCH_ARMS = ("ft", "in")
_INCH_FORCES = ("lbf", "ozf")

_ZERO_C = Fraction("273.15")
_ZERO_F = Fraction("459.67") * Fraction(5, 9)
_FIFTHS = Fraction(5, 9)

_PLAIN: dict[Kind, dict[str, tuple[str, Fraction]]] = {
    "force": _FORCE,
    "angle": {
        "deg": ("deg ° degree degrees", Fraction(1)),
        "arcmin": ("arcmin ' ′ ’", Fraction(1, 60)),
        "arcsec": ("arcsec \" ″ ” ''", Fraction(1, 3600)),
        "rad": ("rad", 180 / PI),
        "mrad": ("mrad", Fraction(180, 1000) / PI),
        "turn": ("turn turns", Fraction(360)),
    },
    "temperature difference": {
        "K": ("K", Fraction(1)),
        "C°": ("C° °C degC deg.C C", Fraction(1)),
        "F°": ("F° °F degF deg.F F", _FIFTHS),
    },
    "speed": {
        "rpm": ("rpm r/min rev/min 1/min /min min.1", Fraction(1)),
        "1/s": ("1/s r/s rev/s rps", Fraction(60)),
        "rad/s": ("rad/s", 30 / PI),
    },
    "kinematic viscosity": {
        "mm2/s": ("mm2/s", Fraction(1, 10**6)),
        "cSt": ("cSt", Fraction(1, 10**6)),
        "St": ("St", Fraction(1, 10**4)),
        "m2/s": ("m2/s", Fraction(1)),
    },
    "dynamic viscosity": {
        "mPa.s": ("mPa.s mPas", Fraction(1, 1000)),
        "cP": ("cP", Fraction(1, 1000)),
        "P": ("P", Fraction(1, 10)),
        "Pa.s": ("Pa.s Pas", Fraction(1)),
    },
}


def _named(rows: dict[str, tuple[str, Fraction]]) -> dict[str, Unit]:
    """Spread rows of spellings over a table by spelling."""
    return {
        spelling: Unit(name, factor)
        for name, (spellings, factor) in rows.items()
        for spelling in spellings.split()
    }


def _torques() -> dict[str, Unit]:
    """Make every force times every arm of the same system: N.m, lbf.in, ft.lb, Nm."""
    table: dict[str, Unit] = {}
    for force, arm in product(_FORCE, _ARM):
        if (force in _INCH_FORCES) != (arm in _INCH_ARMS):
            continue
        unit = Unit(f"{force}.{arm}", _FORCE[force][1] * _ARM[arm][1])
        for letters in _FORCE[force][0].split():
            table |= dict.fromkeys((f"{letters}.{arm}", f"{letters}{arm}"), unit)
            if arm in _INCH_ARMS:
                table |= dict.fromkeys((f"{arm}.{letters}", f"{arm}{letters}"), unit)
    return table


_TEMPERATURES = {
    "K": Unit("K", Fraction(1)),
    **dict.fromkeys(("°C", "C", "degC", "deg.C"), Unit("°C", Fraction(1), _ZERO_C)),
    **dict.fromkeys(("°F", "F", "degF", "deg.F"), Unit("°F", _FIFTHS, _ZERO_F)),
}

UNITS: dict[Kind, dict[str, Unit]] = {
    **{kind: _named(rows) for kind, rows in _PLAIN.items()},
    "torque": _torques(),
    "temperature": _TEMPERATURES,
}
"""Units of each kind by spelling."""

BY_NAME: dict[Kind, dict[str, Unit]] = {
    kind: {unit.name: unit for unit in table.values()} for kind, table in UNITS.items()
}
"""Units of each kind by their own name."""

COMMON: dict[Kind, tuple[str, ...]] = {
    "force": ("N", "lbf", "kgf", "gf", "kN", "ozf"),
    "torque": ("N.m", "lbf.ft", "lbf.in", "N.mm", "kgf.cm", "ozf.in"),
    "angle": ("deg", "turn", "arcmin", "arcsec", "rad"),
    "temperature": ("°C", "°F", "K"),
    "temperature difference": ("K", "F°", "C°"),
    "speed": ("rpm", "1/s", "rad/s"),
    "kinematic viscosity": ("mm2/s", "cSt", "m2/s"),
    "dynamic viscosity": ("mPa.s", "cP", "Pa.s"),
}
"""Names to be offered where a unit is missing, the likeliest first."""

IN_DOUBT: dict[Kind, dict[str, tuple[str, ...]]] = {
    "force": {},
    "torque": {
        **dict.fromkeys(("lb", "lbs", "lbf"), ("lbf.ft", "lbf.in")),
        **dict.fromkeys(("oz", "ozf"), ("ozf.in",)),
        **dict.fromkeys(("kg", "kgf", "kp"), ("kgf.m", "kgf.cm")),
        **dict.fromkeys(("g", "gf"), ("gf.cm",)),
        "N": ("N.m", "N.mm"),
        "mN": ("mN.m",),
    },
    "angle": {"min": ("arcmin",), "sec": ("arcsec",), "s": ("arcsec",), "m": ("arcmin",)},
    "temperature": dict.fromkeys(("deg", "°", "degree", "degrees"), ("°C", "°F")),
    "temperature difference": dict.fromkeys(("deg", "°", "degree", "degrees"), ("K", "F°")),
    "speed": {"r": ("r/min",), "rev": ("rev/min",), "revs": ("rev/min",)},
    "kinematic viscosity": {},
    "dynamic viscosity": {},
}
"""Letters of each kind that say too little, and what may have been meant."""
