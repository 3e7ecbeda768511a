"""Published limits of size: shafts and holes (ISO 286), rolling bearings (ISO 492, 199, 5753-1).

A zone of ISO 286 is a letter, which says where it lies, and a grade, which says how wide it is. Its
limits are put together here from the two, with the rule of delta for tight holes. All limits are
differences from the nominal size, so a diameter is a nominal one: 30, not 29.994.
"""

from typing import Any, NamedTuple

import numpy as np

from dryfit.mechanics.formula import Array, Number, Result, formula
from dryfit.mechanics.tables import read_table

MICRO = 1e-6
"""A micrometre [m]."""

SLACK = 1e-9
"""A nominal size that misses the end of its step by rounding still belongs to it [m]."""

_ISO286 = read_table("iso286.toml")
_ISO492 = read_table("iso492.toml")
_ISO5753 = read_table("iso5753.toml")

_MAIN = np.array(_ISO286["up_to"]["main"])
_FINE = np.array(_ISO286["up_to"]["fine"])
_UP_TO = _FINE * 1e-3 + SLACK


def _over_fine_steps(row: list[float]) -> Array:
    """Give each fine step the value of the main step it is in."""
    column = np.array(row, float)
    return column if len(column) == len(_FINE) else column[np.searchsorted(_MAIN, _FINE)]


_COLUMNS = {
    name: _over_fine_steps(row)
    for group in ("grades", "below", "above", "own")
    for name, row in _ISO286[group].items()
}
"""Grades, letters and zones of their own, each over the fine steps [um]."""

_BEARING_UP_TO = {of: np.array(row) * 1e-3 + SLACK for of, row in _ISO492["up_to"].items()}

_CLEARANCES = {
    kind: {
        "up_to": np.array(_ISO5753[kind]["up_to"]) * 1e-3 + SLACK,
        "groups": {name: row for name, row in _ISO5753[kind].items() if name != "up_to"},
    }
    for kind in ("ball", "roller")
}

WHOLE = 7
"""First grade whose js and JS are rounded to whole micrometres."""

NO_DELTA = 3
"""Up to this size the rule of delta adds nothing [mm]."""


class Limits(NamedTuple):
    """Between what something may lie.

    Attributes
    ----------
    lower
        [m].
    upper
        [m].
    """

    lower: Result
    upper: Result


def _choose(word: str, table: dict[str, Any], what: str) -> Any:
    """Look a word up, or say what there is."""
    if word not in table:
        raise ValueError(f"no {what} '{word}'; there are: {', '.join(table)}")
    return table[word]


def _pick(size: Number, up_to: Array, low: Array, high: Array) -> Limits:
    """Take the limits of the step a size is in."""
    at = np.searchsorted(up_to, size)
    low, high = (
        np.where(np.isnan(size), np.nan, np.take(column, at, mode="clip") * MICRO)
        for column in (low, high)
    )
    return Limits(low, high)


def _read_zone(zone: str, sort: str) -> tuple[str, int]:
    """Split a zone into letter and grade, or say what zones there are."""
    letter = zone.rstrip("0123456789")
    grade = zone[len(letter) :]
    first, last = _ISO286[sort].get(letter, (1, 0))
    if not grade or not first <= int(grade) <= last:
        known = (f"{one}{low} to {one}{high}" for one, (low, high) in _ISO286[sort].items())
        raise ValueError(f"no zone '{zone}' for {sort}; there are: {', '.join(known)}")
    return letter, int(grade)


def _half(grade: int) -> Array:
    """Halve a tolerance; from grade 7 on an odd one is first made even."""
    half: Array = _COLUMNS[f"IT{grade}"] / 2
    return np.floor(half) if grade >= WHOLE else half


def _shaft(zone: str) -> tuple[Array, Array]:
    """Give lower and upper limits over all steps."""
    letter, grade = _read_zone(zone, "shafts")
    width = _COLUMNS[f"IT{grade}"]
    if letter == "js":
        return -_half(grade), _half(grade)
    if letter in _ISO286["below"]:
        return _COLUMNS[letter] - width, _COLUMNS[letter]
    low = _COLUMNS[zone] if zone in _COLUMNS else _COLUMNS[letter]
    return low, low + width


def _hole(zone: str) -> tuple[Array, Array]:
    """Give lower and upper limits over all steps."""
    letter, grade = _read_zone(zone, "holes")
    width = _COLUMNS[f"IT{grade}"]
    if letter == "JS":
        return -_half(grade), _half(grade)
    if letter.lower() in _ISO286["below"]:
        low = np.abs(_COLUMNS[letter.lower()])
        return low, low + width
    high = _COLUMNS[zone] if zone in _COLUMNS else _tight(letter, grade)
    return high - width, high


def _tight(letter: str, grade: int) -> Array:
    """Give the upper limit of a hole that mirrors a shaft of the next finer grade."""
    finer = _COLUMNS[f"IT{grade - 1}"]
    delta: Array = np.where(_FINE > NO_DELTA, _COLUMNS[f"IT{grade}"] - finer, 0)
    return delta - _COLUMNS[letter.lower()]


@formula("0 < diameter <= 0.5")
def tolerance(diameter: Number, grade: str) -> Result:
    """Standard tolerance of a grade.

    Parameters
    ----------
    diameter
        Nominal size [m]
    grade
        IT4 to IT11 [text]

    Returns
    -------
    tolerance
        Upper less lower limit [m]

    Valid
    -----
    Up to 500 mm; a table in mm and um.

    Source
    ------
    [ISO286] part 1, table 1.

    Examples
    --------
    >>> tolerance(0.040, "IT7") * 1e6
    25.0
    """
    width = _choose(grade, {name: _COLUMNS[name] for name in _ISO286["grades"]}, "grade")
    return _pick(diameter, _UP_TO, width, width).upper


@formula("0 < diameter <= 0.5")
def shaft_limits(diameter: Number, zone: str) -> Limits:
    """Limits of a shaft, as differences from the nominal diameter.

    Parameters
    ----------
    diameter
        Nominal diameter [m]
    zone
        Such as g6, js6, k5 [text]

    Returns
    -------
    lower
        Lower limit [m]
    upper
        Upper limit [m]

    Valid
    -----
    Up to 500 mm; letters c to u as far as in use; a table in mm and um.

    Source
    ------
    [ISO286] part 1, tables 4 and 5, 4.3.2.3 for the rounding of js.

    Examples
    --------
    >>> low, high = shaft_limits(0.050, "k6")
    >>> low * 1e6, high * 1e6
    (2.0, 18.0)
    """
    return _pick(diameter, _UP_TO, *_shaft(zone))


@formula("0 < diameter <= 0.5")
def hole_limits(diameter: Number, zone: str) -> Limits:
    r"""Limits of a hole, as differences from the nominal diameter.

    Tight holes mirror the shaft of their letter, moved up by what their grade is coarser than the
    next: ES = -ei + delta.

    .. math:: \Delta = IT_n - IT_{n-1}

    Parameters
    ----------
    diameter
        Nominal diameter [m]
    zone
        Such as H7, J6, N7 [text]

    Returns
    -------
    lower
        Lower limit [m]
    upper
        Upper limit [m]

    Valid
    -----
    Up to 500 mm; letters C to U as far as in use; a table in mm and um.

    Source
    ------
    [ISO286] part 1, tables 2 and 3, 4.3.2.5 for delta.

    Examples
    --------
    >>> low, high = hole_limits(0.080, "N7")
    >>> low * 1e6, high * 1e6
    (-39.0, -9.0)
    """
    return _pick(diameter, _UP_TO, *_hole(zone))


def _bearing(size: Number, of: str, kind: str, accuracy: str) -> Limits:
    """Give the limits of one diameter of a bearing."""
    table = _choose(kind, {name: _ISO492[name] for name in ("radial", "taper", "thrust")}, "kind")
    lows = np.array(_choose(accuracy, table[of], f"class of {kind} bearings"))
    return _pick(size, _BEARING_UP_TO[of], lows, np.zeros_like(lows))


@formula("0.0025 < bore <= 0.25")
def bearing_bore_limits(bore: Number, accuracy: str = "Normal", kind: str = "radial") -> Limits:
    """Limits of a rolling bearing's mean bore, as differences from the nominal bore.

    Parameters
    ----------
    bore
        Nominal bore [m]
    accuracy
        Normal, 6, 5 or 4; of tapers Normal alone [text]
    kind
        radial, taper or thrust [text]

    Returns
    -------
    lower
        Lower limit [m]
    upper
        Upper limit [m]

    Valid
    -----
    Metric bearings up to 250 mm of bore; the mean of the largest and the smallest bore in one
    plane; a table in mm and um.

    Source
    ------
    [ISO492] for radial bearings and tapers, [ISO199] for thrust bearings.

    Examples
    --------
    >>> bearing_bore_limits(0.040, "5").lower * 1e6
    -8.0
    """
    return _bearing(bore, "bore", kind, accuracy)


@formula("0.006 < outside <= 0.315")
def bearing_outside_limits(
    outside: Number, accuracy: str = "Normal", kind: str = "radial"
) -> Limits:
    """Limits of a rolling bearing's mean outside diameter, as differences from the nominal one.

    Parameters
    ----------
    outside
        Nominal outside diameter [m]
    accuracy
        Normal, 6, 5 or 4; of tapers Normal alone [text]
    kind
        radial, taper or thrust [text]

    Returns
    -------
    lower
        Lower limit [m]
    upper
        Upper limit [m]

    Valid
    -----
    Metric bearings up to 315 mm of outside diameter; the mean in one plane; a table in mm and um.

    Source
    ------
    [ISO492] for radial bearings and tapers, [ISO199] for thrust bearings.

    Examples
    --------
    >>> bearing_outside_limits(0.080).lower * 1e6
    -13.0
    """
    return _bearing(outside, "outside", kind, accuracy)


@formula("0.0025 < bore <= 0.25")
def bearing_width_limits(bore: Number) -> Limits:
    """Limits of the width of one ring of a radial bearing, as differences from the nominal width.

    Parameters
    ----------
    bore
        Nominal bore [m]

    Returns
    -------
    lower
        Lower limit [m]
    upper
        Upper limit [m]

    Valid
    -----
    Normal class, not tapers; rings of a matched set have far wider limits; a table in mm and um.

    Source
    ------
    [ISO492] Normal class.

    Examples
    --------
    Twelve hundredths, enough to upset any setting by sizes from a list:

    >>> bearing_width_limits(0.040).lower * 1e6
    -120.0
    """
    lows = np.array(_ISO492["radial"]["width"]["Normal"])
    return _pick(bore, _BEARING_UP_TO["width"], lows, np.zeros_like(lows))


@formula("0.0025 < bore <= 0.2")
def radial_clearance_limits(bore: Number, group: str = "CN", kind: str = "ball") -> Limits:
    """Limits of a bearing's radial internal clearance before it is fitted.

    Parameters
    ----------
    bore
        Nominal bore [m]
    group
        C2, CN, C3, C4 or C5 [text]
    kind
        ball (deep groove) or roller (cylindrical, parts not matched) [text]

    Returns
    -------
    lower
        Least clearance, measured across the diameter [m]
    upper
        Greatest clearance [m]

    Valid
    -----
    Parallel bores up to 200 mm; a table in mm and um.

    Source
    ------
    [ISO5753] part 1.

    Examples
    --------
    >>> low, high = radial_clearance_limits(0.040, "C3")
    >>> low * 1e6, high * 1e6
    (15.0, 33.0)
    """
    table = _choose(kind, _CLEARANCES, "kind")
    low, high = np.array(_choose(group, table["groups"], "group")).T
    return _pick(bore, table["up_to"], low, high)
