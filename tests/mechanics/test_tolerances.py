"""Every cell of the reprinted tables of fits, against limits made of letter, grade and delta."""

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest

from dryfit.mechanics.tolerances import (
    Limits,
    bearing_bore_limits,
    hole_limits,
    radial_clearance_limits,
    shaft_limits,
    tolerance,
)

SHAFTS = """
over   g6      h5    h6    h7    js5       js6        k5    k6    m5     m6     n6     p6
3     -12/-4  -5/0  -8/0 -12/0 -2.5/2.5   -4/4       1/6   1/9   4/9   4/12   8/16  12/20
6     -14/-5  -6/0  -9/0 -15/0   -3/3   -4.5/4.5     1/7  1/10  6/12   6/15  10/19  15/24
10    -17/-6  -8/0 -11/0 -18/0   -4/4   -5.5/5.5     1/9  1/12  7/15   7/18  12/23  18/29
18    -20/-7  -9/0 -13/0 -21/0 -4.5/4.5 -6.5/6.5    2/11  2/15  8/17   8/21  15/28  22/35
30    -25/-9 -11/0 -16/0 -25/0 -5.5/5.5   -8/8      2/13  2/18  9/20   9/25  17/33  26/42
50   -29/-10 -13/0 -19/0 -30/0 -6.5/6.5 -9.5/9.5    2/15  2/21 11/24  11/30  20/39  32/51
80   -34/-12 -15/0 -22/0 -35/0 -7.5/7.5  -11/11     3/18  3/25 13/28  13/35  23/45  37/59
120  -39/-14 -18/0 -25/0 -40/0   -9/9  -12.5/12.5   3/21  3/28 15/33  15/40  27/52  43/68
180  -44/-15 -20/0 -29/0 -46/0  -10/10 -14.5/14.5   4/24  4/33 17/37  17/46  31/60  50/79
"""
"""JIS B 0401:1999, reprint; rows over 80 mm from memory but for n and p, which are in Machine
Drawing, table 15.2. Micrometres."""

HOLES = """
over  H6    H7    H8     J6      J7      JS6         K6     K7    M6     M7     N6     N7     P6     P7
3    0/8  0/12  0/18   -3/5    -6/6     -4/4       -6/2   -9/3   -9/-1 -12/0  -13/-5 -16/-4 -17/-9 -20/-8
6    0/9  0/15  0/22   -4/5    -7/8   -4.5/4.5     -7/2  -10/5  -12/-3 -15/0  -16/-7 -19/-4 -21/-12 -24/-9
10  0/11  0/18  0/27   -5/6   -8/10   -5.5/5.5     -9/2  -12/6  -15/-4 -18/0  -20/-9 -23/-5 -26/-15 -29/-11
18  0/13  0/21  0/33   -5/8   -9/12   -6.5/6.5    -11/2  -15/6  -17/-4 -21/0 -24/-11 -28/-7 -31/-18 -35/-14
30  0/16  0/25  0/39  -6/10  -11/14     -8/8      -13/3  -18/7  -20/-4 -25/0 -28/-12 -33/-8 -37/-21 -42/-17
50  0/19  0/30  0/46  -6/13  -12/18   -9.5/9.5    -15/4  -21/9  -24/-5 -30/0 -33/-14 -39/-9 -45/-26 -51/-21
120 0/25  0/40  0/63  -7/18  -14/26  -12.5/12.5   -21/4 -28/12  -33/-8 -40/0 -45/-20 -52/-12 -61/-36 -68/-28
"""  # noqa: E501
"""Tolerances for inside dimensions, p. 281; limits of housing bores, two reprinted tables. From
memory: P6 and P7 of the first row. Micrometres."""

BANDS = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250]


def cells(table: str) -> list[tuple[float, str, float, float]]:
    """Read a table as over (mm), zone, lower, upper."""
    head, *rows = [line.split() for line in table.strip().splitlines()]
    return [
        (float(row[0]), zone, *(float(limit) for limit in cell.split("/")))  # type: ignore[misc]
        for row in rows
        for zone, cell in zip(head[1:], row[1:], strict=True)
    ]


@pytest.mark.parametrize("where", [0.01, 0.5, 1.0])
@pytest.mark.parametrize(("table", "limits"), [(SHAFTS, shaft_limits), (HOLES, hole_limits)])
def test_every_printed_cell(
    table: str, limits: Callable[[float, str], Limits], where: float
) -> None:
    """Whoever looks a fit up in a book finds there what dryfit says, at any size of the step."""
    for over, zone, lower, upper in cells(table):
        up_to = BANDS[BANDS.index(int(over)) + 1]
        found = limits((over + where * (up_to - over)) * 1e-3, zone)
        printed = (lower, upper)
        assert np.array(found) * 1e6 == pytest.approx(printed, abs=1e-9), (over, zone)


def test_tables_are_read_in_full() -> None:
    """None of the 9 x 12 and 7 x 14 printed cells is left out of the check."""
    assert (len(cells(SHAFTS)), len(cells(HOLES))) == (108, 98)


def test_many_sizes_at_once() -> None:
    """A column of sizes is answered each by its own step; what is no size or too large is not."""
    sizes = np.array([0.003, 0.0031, np.nan, 0.6, 0.080 * (1 + 1e-9)])
    found = shaft_limits(sizes, "h6").lower * 1e6
    assert found == pytest.approx([-6, -8, np.nan, np.nan, -19], nan_ok=True)


@pytest.mark.parametrize("zone", ["g12", "6", "h", "H7", "x6", ""])
def test_unknown_zone_is_told_what_there_is(zone: str) -> None:
    """A slip in a zone gets the list of zones, not a wrong fit."""
    with pytest.raises(ValueError, match=r"there are: c8 to c11, .*h4 to h11"):
        shaft_limits(0.030, zone)


def test_unknown_words_are_told_what_there_is() -> None:
    """So do a grade, a class, a kind and a group."""
    with pytest.raises(ValueError, match="IT4, IT5"):
        tolerance(0.030, "7")
    with pytest.raises(ValueError, match="there are: radial, taper, thrust"):
        bearing_bore_limits(0.030, "Normal", "ball")
    with pytest.raises(ValueError, match="class of taper bearings '5'; there are: Normal"):
        bearing_bore_limits(0.030, "5", "taper")
    with pytest.raises(ValueError, match="C2, CN, C3, C4, C5"):
        radial_clearance_limits(0.030, "C1")


def test_grades_follow_their_formula() -> None:
    """Tables of grades 5 to 7 lie within a micrometre and a quarter of 7, 10 and 16 units each."""
    # The unit is i of ISO 286-1:1988, annex A; what comes of it is rounded there by no one rule.
    bands = np.array([18, 30, 50, 80, 120, 180, 250, 315, 400, 500])
    mean = np.sqrt(bands[1:] * bands[:-1])
    unit = 0.45 * np.cbrt(mean) + 0.001 * mean
    for grade, units in (("IT5", 7), ("IT6", 10), ("IT7", 16)):
        printed = tolerance(bands[1:] * 1e-3, grade) * 1e6
        assert np.abs(printed - units * unit).max() < 1.25


def test_clearance_grows_by_group() -> None:
    """A higher group is never tighter, at any bore, of ball and of roller bearings."""
    bores = np.linspace(0.003, 0.2, 300)
    for kind in ("ball", "roller"):
        groups = [
            radial_clearance_limits(bores, group, kind) for group in ("C2", "CN", "C3", "C4", "C5")
        ]
        for one, other in pairwise(groups):
            assert np.all(one.lower < other.lower)
            assert np.all(one.upper < other.upper)
        for group in groups:
            assert np.all(np.diff(group.lower) >= 0)
            assert np.all(np.diff(group.upper) >= 0)
