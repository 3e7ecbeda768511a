"""The chance that a route comes right first time, against true units on which it is gone.

How they are gone stands in gone.py. Quill and bench drill have nothing to set.
"""

from functools import cache

import numpy as np
import pytest
from tests.bench.gone import pack_of, right, with_state_of
from tests.bench.test_readings import NAMES, Words, opened, packs

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.route import Route
from dryfit.ask.routes import routes
from dryfit.ask.settings import moved_by
from dryfit.ask.targets import Target, targets
from dryfit.bench.readings import true_units
from dryfit.bench.wrong_units import WorseGauges

UNITS, MANY = 4_000, 20_000
SEED = 77
POINTS = 0.015

Gone = tuple[str, str, str]


@cache
def found(name: str, part: str, draws: int) -> dict[str, Route]:
    """Go all routes to one setting, the others as in hand."""
    asking = Asking(opened(name), draws)
    others = {p: t for p, t in packs(name).items() if p != part}
    return {r.name: r for r in routes(asking, targets(asking.rebuild), part, others)}


def came_right(
    name: str, part: str, route: Route, units: int, truth: Words = (), shared: float = 1.0
) -> float:
    """Go a route on true units, and say in which share what the setting moves comes right."""
    others = {p: t for p, t in packs(name).items() if p != part}
    rebuild = with_state_of(opened(name, truth), route)
    true = true_units(rebuild, WorseGauges(units, SEED, shared))
    made: Packs = {**others, part: pack_of(true, part, route, others)}
    return float(np.mean(right(true, moved(name, part), made)))


def moved(name: str, part: str) -> tuple[Target, ...]:
    """List what a setting moves."""
    asking = Asking(opened(name), 1)
    others = {p: t for p, t in packs(name).items() if p != part}
    return moved_by(asking, targets(asking.rebuild), part, others)


ROUTES: list[Gone] = [
    (name, part, route)
    for name in NAMES
    for part in opened(name).settings
    for route, one in found(name, part, 1_000).items()
    if one.chance is not None and one.name != "difference"
]


@pytest.mark.parametrize(("name", "part", "route"), ROUTES)
def test_chance_of_a_route(name: str, part: str, route: str) -> None:
    """4 000 units: within 1.5 points and two standard errors of either side."""
    one = found(name, part, UNITS)[route]
    share = came_right(name, part, one, UNITS)
    said = one.chance or 0.0
    assert share == pytest.approx(said, abs=POINTS + 2 * np.sqrt(2 * said * (1 - said) / UNITS))


@pytest.mark.prove
@pytest.mark.parametrize(("name", "part", "route"), ROUTES)
def test_chance_of_a_route_by_many_units(name: str, part: str, route: str) -> None:
    """20 000 units: within 1.5 points."""
    one = found(name, part, MANY)[route]
    share = came_right(name, part, one, MANY)
    assert share == pytest.approx(one.chance or 0.0, abs=POINTS)
