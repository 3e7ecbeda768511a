"""Hatching, balloons, chains and outlines by themselves."""

from collections import Counter
from itertools import combinations, pairwise
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.draw.section_balloons import APART, crossing, spread, uncrossed
from dryfit.draw.section_hatch import ANGLES, angles, hatched
from dryfit.draw.section_lengths import Length, hang
from dryfit.draw.section_outline import Metal, union

SQUARE = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
HOLE = [(4.0, 4.0), (6.0, 4.0), (6.0, 6.0), (4.0, 6.0)]


def test_section_lines_fill_a_square() -> None:
    """Lines 1 mm apart across a square of 10 mm are its area over that distance: 100 mm long."""
    lines = hatched([SQUARE], 45.0, 0.1)
    long = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in lines)
    assert long * 0.1 == pytest.approx(100.0, rel=0.002)  # short ones in the corners are left out


def test_section_lines_leave_a_hole() -> None:
    """A hole in a cut part stays paper: 4 mm^2 less."""
    lines = hatched([SQUARE, HOLE], 135.0, 0.1)
    long = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in lines)
    assert long * 0.1 == pytest.approx(96.0, rel=0.002)


def test_part_with_many_neighbours_has_an_angle_of_its_own() -> None:
    """A case that nine parts touch, each other too, shares its angle with none of them."""
    names = [str(n) for n in range(10)]
    found = angles(dict.fromkeys(names, 1.0), combinations(names, 2))
    assert len({*found.values()}) == 10
    assert {*ANGLES} < {*found.values()}


@given(st.lists(st.floats(0, 100), max_size=10))
def test_balloons_stand_apart_in_their_row(wanted: list[float]) -> None:
    """However near their parts lie, no balloon covers its neighbour, and none leaves the row."""
    found = spread(sorted(wanted), 0.0, 100.0)
    assert len(found) == len(wanted)
    assert all(b - a >= APART - 1e-6 for a, b in pairwise(found))
    assert all(-1e-6 <= at <= 100.0 + 1e-6 for at in found)


POINT = st.tuples(st.floats(0, 100), st.floats(0, 60))


@given(st.lists(POINT, min_size=2, max_size=9, unique=True))
def test_leaders_are_uncrossed(ends: list[tuple[float, float]]) -> None:
    """Wherever parts lie, balloons change places until no two leaders cross."""
    slots = [(n * 10.0, 100.0) for n in range(len(ends))]
    at = uncrossed(slots, ends)
    assert sorted(at) == slots
    for i, j in combinations(range(len(ends)), 2):
        assert not crossing(at[i], ends[i], at[j], ends[j])


@given(st.lists(st.tuples(st.floats(0, 150), st.floats(0.1, 100)), max_size=12))
def test_lengths_of_a_chain_do_not_overlap(spans: list[tuple[float, float]]) -> None:
    """Letters of one chain stand clear of each other."""
    asked = [Length("AB", a, a + long, (0.0, 0.0)) for a, long in spans]
    hung = hang(asked, -400.0, 400.0)
    for one, other in combinations(hung, 2):
        if one.row == other.row:
            (a, b), (c, d) = one.letter_at, other.letter_at
            assert b <= c or d <= a


def test_cases_about_two_axes_are_one() -> None:
    """Where two tubes meet, the wall of each is open to the hollow of the other.

    A level tube, 10 wide inside and 14 outside, from x 0 to 30; an upright one from y 0 to 40 at
    x 10 to 20, 2 thick. Together their walls enclose one hollow, open at three ends: no edge may
    lie within either hollow.
    """
    metal = [
        Metal((0.0, 0.0, 30.0, 7.0)),
        Metal((8.0, 0.0, 22.0, 40.0)),
    ]
    hollow = [((0.0, -1.0, 30.0, 5.0), False), ((10.0, -1.0, 20.0, 41.0), False)]
    loops = union(metal, hollow)
    area = sum(_area([edge.start for edge in loop]) for loop in loops)
    # the level wall from 0 to 10 and 20 to 30, 2 high; the upright ones, 2 wide, from 7 to 40
    assert area == pytest.approx(2 * 10 * 2 + 2 * 2 * 33)


def _area(points: list[tuple[float, float]]) -> float:
    turned = [*points[1:], points[0]]
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(points, turned, strict=True)) / 2


def test_a_part_with_more_neighbours_than_angles_is_hatched_all_the_same() -> None:
    """Forty parts that all touch each other are drawn; no angle is given to many of them."""
    names = [f"part {n}" for n in range(40)]
    found = angles(dict.fromkeys(names, 1.0), combinations(names, 2))
    assert {*found} == {*names}
    assert max(Counter(found.values()).values()) <= 2
