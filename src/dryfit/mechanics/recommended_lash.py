"""Lash that tables recommend for new gears, and what a dial shows of it.

Tables give lash square to the flank, for bevels at the heel, all at the tightest place round
the gear. `lash_on_dial` makes of that what a dial shows where it stands.
"""

from collections.abc import Collection, Sequence
from typing import Any, NamedTuple

import numpy as np

from dryfit.mechanics.formula import Number, Result, formula
from dryfit.mechanics.lash import arc_of_normal, dial_reading
from dryfit.mechanics.tables import read_table
from dryfit.mechanics.tolerances import tolerance

TABLES = read_table("lash.toml")
INCH = 0.0254

BEVEL_QUALITIES = ("accurate", "commercial")
"""AGMA quality 7 to 13, and 3 to 6: as wanted where it indexes, as was usual elsewhere."""

LEAST_CLASSES = {"E": "IT7", "D": "IT8", "C": "IT9", "B": "IT10", "A": "IT11"}
"""Sorts of mating of GOST 1643, from close to wide, and the tolerance grade each stands for."""

LEAST_ABOVE = (0.0, 0.080, 0.125, 0.180, 0.250, 0.315, 0.400)
"""Centre distances above which each row of that table holds [m]."""

LEAST_SIZES = (0.080, 0.120, 0.180, 0.250, 0.315, 0.400, 0.500)
"""A size for each row whose tolerances stand in it; only one row ends elsewhere than theirs [m]."""


class LashBand(NamedTuple):
    """Recommended lash."""

    low: Result
    high: Result


@formula("0 < module <= 0.0254")
def bevel_lash_band(module: Number, quality: str = "accurate") -> LashBand:
    """Recommended lash of bevel gears by the size of their teeth.

    Parameters
    ----------
    module
        m, at the heel [m]
    quality
        One of `BEVEL_QUALITIES` [text]

    Returns
    -------
    low, high
        Square to the flank, at the heel and the tightest place [m], [m]

    Valid
    -----
    One tooth to the inch of pitch diameter (module 25.4 mm) and finer. The table stands in
    inches; a pitch on the line of two rows takes the coarser, with more lash.

    Source
    ------
    [AGMA-BEVEL] for the values; that they are square to the flank and at the heel is from
    memory.

    Examples
    --------
    >>> bevel_lash_band(0.0254 / 7).high / 0.0254
    0.006
    """
    table = TABLES["bevel"]
    row = _of(table, quality, BEVEL_QUALITIES)
    at = _above(table["pitch"], INCH / module)
    return LashBand(_taken(row["low"], at, module) * INCH, _taken(row["high"], at, module) * INCH)


@formula("0 < centre_distance < 3.048", "0.00127 < module <= 0.0508")
def cylindrical_lash_band(module: Number, centre_distance: Number) -> LashBand:
    """Recommended lash of coarse spur and helical gears.

    Parameters
    ----------
    module
        m_n, in the normal plane [m]
    centre_distance
        a [m]

    Returns
    -------
    low, high
        Square to the flank, at the tightest place [m], [m]

    Valid
    -----
    Half a tooth to just under 20 teeth to the inch of pitch diameter, centres below 120 in.
    The table stands in inches; not a number where it has a blank. A pitch on the line of two
    columns takes the finer, as printed, a centre distance on the line of two rows the larger.

    Source
    ------
    [AGMA-COARSE].

    Examples
    --------
    >>> cylindrical_lash_band(0.0254 / 8, 0.200).low / 0.0254
    0.010
    """
    table = TABLES["cylindrical"]
    row = _from(table["centre"], centre_distance / INCH)
    column = _from(table["pitch"], INCH / module)
    at = row * len(table["low"][0]) + column
    low, high = (_taken(table[limit], at, module, centre_distance) for limit in ("low", "high"))
    return LashBand(low * INCH, high * INCH)


@formula("module > 0", "centre_distance > 0", "base > 0", "step > 0")
def least_lash(
    module: Number, centre_distance: Number, *, base: Number = 60e-6, step: Number = 10e-6
) -> Result:
    r"""Least lash of steel or iron gears that run warm, as a formula.

    .. math:: j_{bn} = \tfrac23(j_0 + 0.0005\,a + 0.03\,m_n), \quad
        \text{rounded up to } 0.01\ \mathrm{mm}

    Parameters
    ----------
    module
        m_n [m]
    centre_distance
        a [m]
    base
        j_0, for the smallest gears [m]
    step
        What the table is rounded up to [m]

    Returns
    -------
    least
        j_bn, square to the flank [m]

    Valid
    -----
    Steel or iron gears in a housing of the same, pitch speeds below 15 m/s, commercial
    accuracy.

    Source
    ------
    [ISO10064] (from memory); that its table is rounded up is seen from its entries.

    Examples
    --------
    >>> least_lash(0.003, 0.100) * 1e6
    140.0
    """
    exact = 2 * (base + 0.0005 * centre_distance + 0.03 * module) / 3
    return np.ceil(exact / step - 1e-9) * step


@formula("0 < centre_distance <= 0.5")
def least_lash_class(centre_distance: Number, mating: str = "B") -> Result:
    """Least lash of cylindrical gears by sort of mating, as GOST drawings name it.

    Parameters
    ----------
    centre_distance
        a [m]
    mating
        One of `LEAST_CLASSES` [text]

    Returns
    -------
    least
        j_n min, square to the flank [m]

    Valid
    -----
    Centres up to 500 mm; a table in mm and um. Sort B is the usual one; H has none.

    Source
    ------
    [GOST1643], from memory: its columns are those of the grades 7 to 11 of [ISO286].

    Examples
    --------
    >>> least_lash_class(0.100) * 1e6
    140.0
    """
    grade = _of(LEAST_CLASSES, mating, LEAST_CLASSES)
    row = _above(LEAST_ABOVE, centre_distance)
    return tolerance(_taken(LEAST_SIZES, row, centre_distance), grade)


@formula("contact_radius > 0", "dial_radius > 0")
def lash_on_dial(
    normal: Number,
    contact_radius: Number,
    dial_radius: Number,
    *,
    pressure_angle: Number,
    helix_angle: Number = 0.0,
    stylus_angle: Number = 0.0,
) -> Result:
    r"""What a dial shows of a lash that a table gives square to the flank.

    .. math:: j_\mathrm{dial} = \frac{j_n}{\cos\alpha_n\cos\beta}\,
        \frac{r_\mathrm{dial}}{r_c}\cos\psi

    Parameters
    ----------
    normal
        j_n, square to the flank [m]
    contact_radius
        r_c, for which the table stands: for a bevel its pitch radius at the heel [m]
    dial_radius
        From the axis of the gear to the stylus [m]
    pressure_angle
        alpha_n [rad]
    helix_angle
        beta, of helical or spiral teeth [rad]
    stylus_angle
        psi, by which the stylus leans off the direction of turning [rad]

    Returns
    -------
    reading
        Of the tightest of many places round the gear [m]

    Valid
    -----
    As `lash.arc_of_normal` and `lash.dial_reading`.

    Source
    ------
    Those two.

    Examples
    --------
    >>> lash_on_dial(100e-6, 0.030, 0.060, pressure_angle=np.radians(20.0)) * 1e6
    212.84
    """
    arc = arc_of_normal(normal, pressure_angle, helix_angle)
    return dial_reading(arc, contact_radius, dial_radius, stylus_angle=stylus_angle)


def _of(table: dict[str, Any], word: str, words: Collection[str]) -> Any:
    """Take what a word stands for, or say what there is."""
    if word not in words:
        raise ValueError(f"no '{word}'; there are: {', '.join(words)}")
    return table[word]


def _above(lines: Sequence[float], size: Result) -> Result:
    """Find the row that starts below a size; on a line, the one before."""
    return np.searchsorted(lines, size * (1 - 1e-9)) - 1


def _from(lines: Sequence[float], size: Result) -> Result:
    """Find the row that starts at a size or below it."""
    return np.searchsorted(lines, size * (1 + 1e-9), side="right") - 1


def _taken(values: Any, at: Result, *sizes: Number) -> Result:
    """Read a table row by row; what was looked up by no number is none."""
    unknown = np.logical_or.reduce(np.broadcast_arrays(*map(np.isnan, sizes)))
    return np.where(unknown, np.nan, np.take(values, at, mode="clip"))
