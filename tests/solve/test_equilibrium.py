"""Bodies come to rest where their forces balance: against closed forms, and against scipy."""

import numpy as np
import pytest
from scipy.optimize import minimize

from dryfit.mechanics.ball_rows import ball_row
from dryfit.mechanics.formula import Array
from dryfit.mechanics.pushed import faces, grip, steady
from dryfit.mechanics.roller_rows import taper_row
from dryfit.solve.equations import GROUND, Element, Law
from dryfit.solve.equilibrium import settle
from dryfit.solve.factor import pattern, solved
from dryfit.solve.newton import RunsAway

MICRO = 1e-6


def at(value: float, draws: int = 1) -> Array:
    """Give the same value in every draw."""
    return np.full(draws, value)


def stiff(stiffness: float) -> Law:
    """Two faces."""
    return Law(faces, {"stiffness": stiffness})


@pytest.mark.parametrize("size", [1, 2, 5, 9, 16])
def test_equations_of_any_pattern_are_solved(size: int) -> None:
    """Many small systems at once give what numpy gives for each."""
    draws = np.random.default_rng(size)
    matrix = np.zeros((7, size, size))
    pairs = [(j, i) for i in range(size) for j in range(i) if draws.random() < 0.5]
    for j, i in pairs:
        matrix[:, i, j] = matrix[:, j, i] = draws.normal(size=7)
    matrix += 2 * size * np.eye(size)
    right = draws.normal(size=(size, 7))
    diagonal = np.array([matrix[:, i, i] for i in range(size)])
    beside = {(j, i): matrix[:, j, i] for j, i in pairs}
    found = solved(pattern(size, pairs), diagonal, beside, right)
    expected = np.linalg.solve(matrix, right.T[..., None])[..., 0].T
    np.testing.assert_allclose(found, expected, rtol=1e-12, atol=1e-14)


@pytest.mark.parametrize(
    ("load", "bolt", "clamped"),
    [(0, 10000, 10000), (4000, 10800, 6800), (8000, 11600, 3600), (12000, 12400, 400),
     (12500, 12500, 0), (14000, 14000, 0)],
)  # fmt: skip
def test_bolted_joint(load: float, bolt: float, clamped: float) -> None:
    """A bolt takes its share of an outer load until the joint opens, then all of it.

    Shigley, 9th ed., eq. 8-24, 8-25, 8-28: F_b = F_i + C P up to P = F_i / (1 - C), C = 0.2.
    """
    joint = [
        Element("bolt", 0, GROUND, at(10000 / 2e8), stiff(2e8)),
        Element("clamped", GROUND, 0, at(10000 / 8e8), stiff(8e8)),
    ]
    rest = settle(1, joint, np.array([[float(load)]]))
    np.testing.assert_allclose(rest.forces[:, 0], [bolt, clamped], atol=1e-5)


@pytest.mark.parametrize(("law", "power"), [("tapers", 10 / 9), ("faces", 1.0)])
def test_relief_of_a_pair(law: str, power: float) -> None:
    """The load that frees the second row is 2^p times the preload: 2.1601 tapers, 2 faces."""
    row = (
        stiff(1e8)
        if law == "faces"
        else Law(taper_row, {"angle": np.pi / 2, "rollers": 17.0, "length": 12e-3})
    )
    deep = 5e-6
    pair = [
        Element("loaded", 0, GROUND, at(deep, 2), row),
        Element("relieved", GROUND, 0, at(deep, 2), row),
    ]
    preload = settle(1, pair, np.zeros((1, 2))).forces[0, 0]
    loads = preload * 2**power * np.array([[1 - 1e-4, 1 + 1e-4]])
    left = settle(1, pair, loads).forces[1]
    assert left[0] > 0
    assert left[1] == 0


def test_what_nothing_stops_is_named() -> None:
    """A shaft pushed where nothing stands in its way is told, not placed somewhere."""
    elements = [Element("left", GROUND, 0, at(0.0), stiff(1e8)), *chained(1, 2)]
    with pytest.raises(RunsAway) as told:
        settle(3, elements, np.array([[-10.0], [0.0], [5.0]]))
    assert told.value.bodies == (2,)


def chained(*pair: int) -> list[Element]:
    """Two bodies that can push each other apart one way."""
    return [Element("next", pair[0], pair[1], at(0.0), stiff(1e8))]


def test_a_body_nobody_pushes_stays() -> None:
    """A loose part between gaps is left where it was."""
    gaps = [
        Element("l", GROUND, 0, at(-1e-4), stiff(1e8)),
        Element("r", 0, GROUND, at(-1e-4), stiff(1e8)),
    ]
    rest = settle(1, gaps, np.zeros((1, 1)), np.array([[3e-5]]))
    assert rest.places[0, 0] == 3e-5


def test_a_ring_that_grips_is_moved_only_beyond_its_limit() -> None:
    """A ring that takes 800 N to slide stays under 600, and goes to its shoulder under 900."""
    ring = [
        Element("grip", 0, GROUND, at(0.0, 2), Law(grip, {"limit": 800.0})),
        Element("shoulder", 0, GROUND, at(-0.15e-3, 2), stiff(5e8)),
    ]
    rest = settle(1, ring, np.array([[600.0, 900.0]]))
    assert rest.places[0, 0] < 1e-8
    assert rest.forces[1].tolist() == pytest.approx([0.0, 100.0], abs=1e-4)


def test_steady_pull_is_carried_through() -> None:
    """A nut at 5 kN presses all it clamps with 5 kN."""
    stack = [
        Element("shoulder", GROUND, 0, at(0.0), stiff(1e9)),
        Element("ring", 0, 1, at(0.0), stiff(2e9)),
        Element("nut", 1, GROUND, at(0.0), Law(steady, {"force": 5000.0})),
    ]
    # the nut pulls body 1 towards the ground, against the stack
    rest = settle(
        2, [*stack[:2], Element("nut", 1, GROUND, at(0.0), stack[2].law)], np.zeros((2, 1))
    )
    assert rest.forces[:2, 0].tolist() == pytest.approx([5000.0, 5000.0])


def energy(places: Array, elements: list[Element], loads: Array, draw: int) -> float:
    """Add up the energy of a case by hand: faces k d^2 / 2, rows by their own integral."""
    total = -float(places @ loads[:, draw])
    for element in elements:
        overlap = element.offset[draw]
        overlap += places[element.before] if element.before != GROUND else 0.0
        overlap -= places[element.after] if element.after != GROUND else 0.0
        if element.law.formula is faces:
            total += 0.5 * element.law.arguments["stiffness"] * max(overlap, 0.0) ** 2
        else:
            given = element.law.arguments
            along = max(given["distance"] * np.sin(given["angle"]) + overlap, 0.0)
            across = given["distance"] * np.cos(given["angle"])
            pressed = max(np.hypot(along, across) - given["distance"], 0.0)
            total += 0.4 * given["balls"] * given["constant"] * pressed**2.5
    return total


def test_random_lines_against_scipy() -> None:
    """Branched lines of faces and rows rest where scipy finds the least energy."""
    draws = np.random.default_rng(3)
    bodies, count = 5, 6
    row = {"angle": 0.44, "distance": 0.42e-3, "balls": 12.0, "constant": 1.3e10}
    pairs = [(GROUND, 0), (0, 1), (1, 2), (2, 3), (3, 4), (4, GROUND), (0, 3), (1, 4)]
    elements = [
        Element(
            str(n), a, b,
            draws.normal(15e-6, 5e-6, count),
            Law(ball_row, row) if n % 3 == 1 else stiff(float(10 ** draws.uniform(7.5, 8.5))),
        )
        for n, (a, b) in enumerate(pairs)
    ]  # fmt: skip
    loads = draws.normal(0, 100, (bodies, count))
    rest = settle(bodies, elements, loads)
    for draw in range(count):
        found = minimize(
            lambda x, draw=draw: energy(x * MICRO, elements, loads, draw) * 1e6,
            np.zeros(bodies),
            method="BFGS",
            options={"gtol": 1e-7, "maxiter": 4000},
        )
        np.testing.assert_allclose(rest.places[:, draw], found.x * MICRO, atol=2e-9)
        ours = energy(rest.places[:, draw], elements, loads, draw)
        assert ours <= energy(found.x * MICRO, elements, loads, draw) + 1e-15


def test_start_does_not_matter() -> None:
    """Wherever the search begins, forces and places of stopped bodies are the same."""
    row = Law(ball_row, {"angle": 0.44, "distance": 0.42e-3, "balls": 12.0, "constant": 1.3e10})
    elements = [
        Element("a", GROUND, 0, at(1e-6, 50), stiff(3e8)),
        Element("b", 0, 1, at(4e-6, 50), row),
        Element("c", 1, GROUND, at(2e-6, 50), stiff(2e8)),
    ]
    loads = np.random.default_rng(1).normal(0, 300, (2, 50))
    one = settle(2, elements, loads)
    other = settle(2, elements, loads, np.random.default_rng(2).normal(0, 5e-4, (2, 50)))
    np.testing.assert_allclose(other.forces, one.forces, atol=1e-5)
    np.testing.assert_allclose(other.places, one.places, atol=1e-12)
