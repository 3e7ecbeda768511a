"""Lines brought to rest by compiled steps lie where those of arrays bring them, to the last digits.

Each of the two is held by the other here; what they find is checked against scipy elsewhere.
"""

import sys
from types import ModuleType
from typing import Any

import numpy as np
import pytest
from tests.invariance.telling import text_of
from tests.invariance.test_units_that_give import UNITS, data_of

from dryfit import solve
from dryfit.app.usecases.opening import open_text
from dryfit.mechanics.ball_rows import ball_row, deep_groove_row
from dryfit.mechanics.formula import Array
from dryfit.mechanics.pushed import faces, grip, steady
from dryfit.mechanics.roller_rows import face_row, taper_row
from dryfit.mechanics.springs import spring_force
from dryfit.solve import equilibrium, newton
from dryfit.solve.equations import GROUND, Element, Equations, Law, equations, sort
from dryfit.solve.luck import Luck, full
from dryfit.solve.predict import predict
from dryfit.solve.sample import sample

DRAWS = 300
BALLS = {"distance": 0.42e-3, "balls": 12.0, "constant": 1.3e10}

LAWS = (
    Law(faces, {"stiffness": 4e8}),
    Law(ball_row, {"angle": 0.44, **BALLS, "inner_growth": 4e-6, "outer_growth": 1e-6}),
    Law(deep_groove_row, {"clearance": 9e-6, **BALLS}),
    Law(taper_row, {"angle": 0.25, "rollers": 17.0, "length": 12e-3}),
    Law(spring_force, {"travel": 1e-3, "rate": 1e5}),
    Law(grip, {"limit": 60.0}),
    Law(steady, {"force": 30.0}),
)


@pytest.fixture(scope="module")
def compiled() -> ModuleType:
    """Give the compiled search, where numba is there."""
    pytest.importorskip("numba")
    from dryfit.solve import compiled  # it needs numba

    return compiled


def tangle(seed: int, bodies: int = 9, draws: int = DRAWS) -> Equations:
    """Make a line with every law and some branches, each draw a little otherwise.

    Each body is stopped both ways by its neighbours, with up to some 40 micrometres of play.
    """
    luck = np.random.default_rng(seed)
    chain = [*zip([GROUND, *range(bodies)], [*range(bodies), GROUND], strict=True)]
    pairs = [*chain, *((after, before) for before, after in chain), (1, 4), (6, 3), (2, GROUND)]
    laws = [*LAWS, *luck.choice(np.array(LAWS), len(pairs))]
    elements = [
        Element(str(n), a, b, luck.normal(-10e-6, 15e-6, draws), LAWS[0])
        for n, (a, b) in enumerate(pairs)
    ]
    elements += [
        Element(f"law {n}", a, b, luck.normal(4e-6, 6e-6, draws), laws[n])
        for n, (a, b) in enumerate(pairs)
    ]
    ordered = sorted(elements, key=lambda e: sort(e.law))
    return equations(bodies, ordered, luck.normal(0, 40, (bodies, draws)))


def full_of(value: float, draws: int) -> Array:
    """Give the same value in every draw."""
    return np.full(draws, value)


@pytest.mark.parametrize("seed", range(12))
def test_same_places_and_forces_on_any_line(compiled: ModuleType, seed: int) -> None:
    """All laws, branches, loads both ways: to 1e-9 mm and 1e-9 of the greatest force."""
    line = tangle(seed)
    places, forces = newton.at_rest(line)
    also_places, also_forces = compiled.at_rest(line)
    assert np.max(np.abs(places)) > 1e-6
    np.testing.assert_allclose(also_places, places, rtol=0, atol=1e-12)
    np.testing.assert_allclose(also_forces, forces, rtol=0, atol=1e-9 * np.max(forces))


@pytest.mark.parametrize("name", UNITS)
def test_same_readings_of_whole_units(
    compiled: ModuleType, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every check of every unit, draw by draw."""
    rebuild = open_text(text_of(data_of(name))).rebuild

    def told() -> dict[str, Any]:
        luck = Luck(DRAWS)
        drawn = sample(rebuild, luck)
        packs = {setting: full(luck, 0.1e-3) for setting in rebuild.settings}
        return {n: predict(rebuild, c, drawn, packs=packs) for n, c in rebuild.checks.items()}

    asked: list[Equations] = []
    search = compiled.at_rest

    def noted(line: Equations) -> Any:
        asked.append(line)
        return search(line)

    monkeypatch.setattr(compiled, "at_rest", noted)
    plain = told()
    assert not asked
    monkeypatch.setattr(equilibrium, "COMPILED", True)
    fast = told()
    assert asked
    for check, found in plain.items():
        for field in ("true", "shown"):
            mine, other = getattr(found, field), getattr(fast[check], field)
            np.testing.assert_allclose(other, mine, rtol=1e-9, atol=1e-12, err_msg=check)


def test_what_runs_away_is_told_alike(compiled: ModuleType) -> None:
    """A body that nothing stops in a few draws of many."""
    loads = full_of(0.0, DRAWS).reshape(1, -1)
    loads[0, 7] = 50.0
    line = equations(1, [Element("first", GROUND, 0, full_of(0.0, DRAWS), LAWS[0])], loads)
    for search in (newton.at_rest, compiled.at_rest):
        with pytest.raises(newton.RunsAway) as told:
            search(line)
        assert told.value.bodies == (0,)


def test_a_size_that_is_not_known_leaves_its_draws_unknown(compiled: ModuleType) -> None:
    """NaN stays with its draw."""
    line = tangle(3)
    line.offset[2, 5] = np.nan
    forces = compiled.at_rest(line)[1]
    assert np.isnan(forces[:, 5]).any()
    assert not np.isnan(np.delete(forces, 5, axis=1)).any()


def test_a_law_it_does_not_know_is_left_to_arrays(compiled: ModuleType) -> None:
    """Plain faces with high spots are in no unit yet."""
    law = Law(face_row, {"area": 400e-6})
    line = equations(
        1, [Element("first", 0, GROUND, full_of(0.0, 4), law)], full_of(40.0, 4).reshape(1, -1)
    )
    assert face_row not in compiled.LAWS
    np.testing.assert_array_equal(compiled.at_rest(line)[0], newton.at_rest(line)[0])


def test_without_a_numba_that_works_arrays_do_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """None there, or one that is broken: the same answer, only slower."""
    monkeypatch.setitem(sys.modules, "dryfit.solve.compiled", None)
    monkeypatch.delattr(solve, "compiled", raising=False)
    monkeypatch.setattr(equilibrium, "COMPILED", True)
    equilibrium.compiler.cache_clear()
    try:
        assert equilibrium.compiler() is None
        push = full_of(40.0, DRAWS).reshape(1, -1)
        stop = Element("stop", 0, GROUND, full_of(0.0, DRAWS), LAWS[0])
        rest = equilibrium.settle(1, [stop], push)
        np.testing.assert_allclose(rest.forces, push, rtol=1e-6)
    finally:
        equilibrium.compiler.cache_clear()
