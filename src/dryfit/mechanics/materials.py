"""What old machines are made of: stiffness, weight and expansion, each with a range.

No grade is asked for at the bench, so modulus and expansion have a half width that covers what is
printed for that metal.
"""

from typing import NamedTuple

from dryfit.mechanics.formula import formula

STEEL_MODULUS = 206e9
"""Young's modulus of steel where nothing better is known [Pa]."""

STEEL_POISSON = 0.3
"""Poisson's ratio of steel [-]."""


class Material(NamedTuple):
    """A metal near room temperature.

    Attributes
    ----------
    modulus
        Young's modulus [Pa].
    modulus_spread
        Half width of the range of printed values [Pa].
    poisson
        Poisson's ratio [-].
    density
        [kg/m^3].
    expansion
        Mean coefficient of linear expansion [1/K].
    expansion_spread
        Half width of the range of printed values [1/K].
    source
        Keys into docs/sources.md.
    """

    modulus: float
    modulus_spread: float
    poisson: float
    density: float
    expansion: float
    expansion_spread: float
    source: str


MATERIALS: dict[str, Material] = {
    "steel": Material(
        STEEL_MODULUS,
        6e9,
        STEEL_POISSON,
        7850.0,
        11.85e-6,
        0.35e-6,
        "UGURAL D.1: 200 GPa, 11.7; other texts 207, 210 (from memory) and 12",
    ),
    "bearing steel": Material(
        208e9,
        4e9,
        0.3,
        7830.0,
        12.2e-6,
        0.5e-6,
        "common practice, no source: 204 to 212 GPa, 11.7 to 12.7",
    ),
    "cast iron": Material(
        118.5e9,
        51.5e9,
        0.26,
        7190.0,
        11.0e-6,
        1.1e-6,
        "UGURAL D.1: 67 GPa for the softest grade, 12.1; other grades to 170; 9.9 to 12.1",
    ),
    "malleable iron": Material(
        165e9,
        10e9,
        0.27,
        7300.0,
        12.05e-6,
        0.3e-6,
        "UGURAL D.1: 165 GPa, 12.1; other texts 12",
    ),
    "aluminium": Material(
        71e9, 2.5e9, 0.33, 2750.0, 23.5e-6, 0.5e-6, "UGURAL D.1: 68.9 and 73.1 GPa, 23 and 24"
    ),
    "bronze": Material(
        108e9, 8e9, 0.34, 8830.0, 18.5e-6, 1.5e-6, "UGURAL D.1: 103 GPa, 17; bronzes 18 to 20"
    ),
    "brass": Material(
        103e9, 7e9, 0.34, 8500.0, 20.15e-6, 1.05e-6, "property lists: 96 to 110 GPa, 19.1 to 21.2"
    ),
}
"""By the name used in a rebuild. Poisson's ratios, and the densities of bearing steel and brass,
are from memory. The modulus of cast iron is the middle of all grades; a known grade says it far
better."""


@formula()
def material(name: str) -> Material:
    """Properties of a metal by its name.

    Parameters
    ----------
    name
        As in `MATERIALS` [text]

    Returns
    -------
    modulus
        Young's modulus [Pa]
    modulus_spread
        Half width of the range of printed values [Pa]
    poisson
        Poisson's ratio [-]
    density
        Mass of a unit of volume [kg/m^3]
    expansion
        Mean coefficient of linear expansion [1/K]
    expansion_spread
        Half width of the range of printed values [1/K]
    source
        Keys into docs/sources.md [text]

    Valid
    -----
    Near room temperature, sound metal, no grade known.

    Source
    ------
    [UGURAL] App. D.1, and what `source` says of each.

    Examples
    --------
    >>> material("cast iron").density
    7190.0
    >>> material("wood")
    Traceback (most recent call last):
    ValueError: no material 'wood'; there are: steel, bearing steel, cast iron, malleable iron,
    aluminium, bronze, brass
    """
    if name not in MATERIALS:
        raise ValueError(f"no material '{name}'; there are: {', '.join(MATERIALS)}")
    return MATERIALS[name]
