"""Every formula of `mechanics` is right in any system of units: its docstring's brackets hold.

Metre, kilogram, second and kelvin are made longer or shorter at random; each argument is scaled by
its bracket, and the result must scale by its own. Formulas fitted in certain units are named here.
"""

import re
import zlib
from typing import Any

import numpy as np
import pytest
from tests.checks.formula_cases import ALL_CASES, FORMULA_CASES, FormulaCase
from tests.test_docstrings import entries, sections

EMPIRICAL = {
    "bearing_torque.oil_torque": "mm^2/s, rpm, mm, N mm",
    "materials.material": "a table",
    "ratings.dynamic_rating": "N, mm",
    "ratings.dynamic_thrust_rating": "N, mm",
    "ratings.static_factor": "N/mm^2",
    "ratings.static_thrust_factor": "N/mm^2",
    "recommended_lash.bevel_lash_band": "in",
    "recommended_lash.cylindrical_lash_band": "in",
    "recommended_lash.least_lash_class": "mm, um",
    "seals.gland": "in",
    "threads.thread_fit": "um, mm, in",
    "threads.thread_size": "mm, in",
    "tolerances.bearing_bore_limits": "mm, um",
    "tolerances.bearing_outside_limits": "mm, um",
    "tolerances.bearing_width_limits": "mm, um",
    "tolerances.hole_limits": "mm, um",
    "tolerances.radial_clearance_limits": "mm, um",
    "tolerances.shaft_limits": "mm, um",
    "tolerances.tolerance": "mm, um",
}
"""Formulas with constants that have a unit, and which."""

BASE = {
    "m": (1, 0, 0, 0),
    "kg": (0, 1, 0, 0),
    "s": (0, 0, 1, 0),
    "K": (0, 0, 0, 1),
    "N": (1, 1, -2, 0),
    "Pa": (-1, 1, -2, 0),
    "rad": (0, 0, 0, 0),
    "-": (0, 0, 0, 0),
    "1": (0, 0, 0, 0),
}


def powers(unit: str) -> np.ndarray[Any, np.dtype[np.float64]]:
    """Read `N m^2/s` as powers of metre, kilogram, second and kelvin."""
    found = np.zeros(4)
    for sign, part in zip([1, *[-1] * unit.count("/")], unit.split("/"), strict=True):
        for piece in part.split():
            name, _, power = piece.partition("^")
            found += sign * float(power or 1) * np.array(BASE[name])
    return found


def brackets(docstring: str, heading: str) -> dict[str, str]:
    """Read the unit of every entry under a heading."""
    found = entries(sections(docstring)[heading])
    return {name: re.findall(r"\[([^\[\]]+)\]", text)[-1] for name, text in found.items()}


def factor(unit: str, bases: np.ndarray[Any, np.dtype[np.float64]]) -> float:
    """Work out how a quantity changes when the base units do."""
    return float(np.prod(bases ** powers(unit)))


def rescaled(case: FormulaCase, bases: np.ndarray[Any, np.dtype[np.float64]]) -> dict[str, Any]:
    """Give all arguments of a case, defaults too, in other units."""
    given = case.formula.arguments(**case.arguments)
    units = brackets(case.formula.__doc__ or "", "Parameters")
    return {
        name: value if isinstance(value, str) else value * factor(units[name], bases)
        for name, value in given.items()
    }


CHECKED = sorted(
    name
    for name, case in FORMULA_CASES.items()
    if case.is_numeric and case.function not in EMPIRICAL
)


@pytest.mark.parametrize("name", CHECKED)
def test_scales_by_its_brackets(name: str) -> None:
    """Whoever works in inches, pounds or anything else gets the same machine."""
    case = FORMULA_CASES[name]
    bases = 2.0 ** np.random.default_rng(zlib.crc32(name.encode())).uniform(-1, 1, 4)
    units = brackets(case.formula.__doc__ or "", "Returns")
    here, there = (
        result if isinstance(result, tuple) else (result,)
        for result in (
            case.formula(**case.arguments),
            case.formula(**rescaled(case, bases)),
        )
    )
    for one, other, unit in zip(here, there, units.values(), strict=True):
        np.testing.assert_allclose(other, one * factor(unit, bases), rtol=1e-7, err_msg=unit)


def test_the_exempt_are_needed() -> None:
    """A formula is not exempt for nothing: it is there, and it says its units."""
    assert set(EMPIRICAL) <= {case.function for case in ALL_CASES}


def test_units_are_read() -> None:
    """`N/m^1.5` is a mass over a square root of a length and a time twice."""
    assert powers("N/m^1.5").tolist() == [-0.5, 1, -2, 0]
    assert powers("N m").tolist() == [2, 1, -2, 0]
    assert powers("1/K").tolist() == [0, 0, 0, -1]
    assert powers("m^2/s").tolist() == [2, 0, -1, 0]
