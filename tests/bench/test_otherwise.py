"""How far what is told is off, on units that are otherwise than the document tells.

True units have covers twice as soft and contact angles 3 degrees off; what all readings of an
instrument share is as large as its whole limit; and 20 in 100 have something wrong that no eye
found. The limits are never more than 10 points too hopeful, nor 25 too little so.

The first figure, by the sizes, and the bands promise nothing of units with something wrong: they
are set beside units without. The second figure counts with such units, and with checks that are
read before the unit is closed: it is set beside all units, put right where a check shows one.
"""

import pytest
from tests.bench.otherwise import (
    DEMOS_WITH_A_CHANCE,
    MODELS,
    OPTIMISTIC,
    OTHERWISE,
    PESSIMISTIC,
    TWICE,
    WHOLE,
    WRONG,
    Bench,
    came,
    told,
    within,
)
from tests.bench.test_chance import ROUTES, came_right, found
from tests.bench.test_readings import CHECKS, MANY, SEEDS

SOME, FEW = 2_000, 500
DEAR = ("bevel-box", "quill", "bench-drill")
"""Demos whose checks are dear, and none of them near a limit."""

READ_FIRST = [
    (case, early)
    for case in DEMOS_WITH_A_CHANCE
    for early in (False, True)
    if not early or case == "bevel-box"
]
"""Demos with a chance; where the route reads first, also with the thing wrong there already."""

OFF = ("steeper", "flatter")


def kept(said: float, share: float) -> bool:
    """Tell whether a share is within the limits about what was said."""
    return said - OPTIMISTIC < share < said + PESSIMISTIC


@pytest.mark.parametrize(("case", "early"), READ_FIRST)
def test_second_figure_on_a_bench_otherwise_than_told(case: str, early: bool) -> None:
    """All of it at once: the second figure, told for as many wrong units, keeps within limits."""
    one = came(case, OTHERWISE, early=early, units=SOME)
    assert kept(told(case).second, one.read)
    assert one.read >= one.unread  # reading the checks has not made it worse


@pytest.mark.prove
@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("model", OFF)
@pytest.mark.parametrize(("case", "early"), READ_FIRST)
def test_second_figure_on_many_such_units(case: str, early: bool, model: str, seed: int) -> None:
    """5 000 units by three seeds, angles off either way; as the table of priors has it, too."""
    bench = Bench(model, WHOLE, WRONG)
    one = came(case, bench, early=early, units=MANY, seed=seed)
    assert kept(told(case).second, one.read)
    assert kept(told(case).usual, one.read)


OVER = {("bevel-box", "flatter")}
"""With twice the shared error the limit is broken: what nips the rows of the pinion is the fit of
their seats, both by one micrometer; its preload takes 8 points by that, 3 by flatter angles."""


@pytest.mark.prove
@pytest.mark.parametrize("model", OFF)
@pytest.mark.parametrize(("case", "early"), READ_FIRST)
def test_second_figure_with_gauges_twice_as_far_off(case: str, early: bool, model: str) -> None:
    """Twice the shared error: within limits but for the bevel box with flatter angles."""
    one = came(case, Bench(model, TWICE, WRONG), early=early)
    assert kept(told(case).second, one.read) == ((case, model) not in OVER)


@pytest.mark.parametrize("model", OFF)
@pytest.mark.parametrize(("name", "part", "route"), ROUTES)
def test_chance_of_a_route_otherwise_than_told(
    name: str, part: str, route: str, model: str
) -> None:
    """Covers, angles and gauges off: the first figure of every route keeps within limits."""
    one = found(name, part, SOME)[route]
    share = came_right(name, part, one, SOME, MODELS[model].get(name, ()), WHOLE)
    assert kept(one.chance or 0.0, share)


@pytest.mark.parametrize(("name", "check"), CHECKS)
def test_bands_otherwise_than_told(name: str, check: str) -> None:
    """Covers, angles and gauges off, nothing wrong: a band for 90 in 100 holds 80 at least."""
    units = FEW if name in DEAR else SOME
    assert within(name, check, Bench("steeper", WHOLE), units=units)[0] > 0.90 - OPTIMISTIC


@pytest.mark.prove
@pytest.mark.parametrize("model", OFF)
@pytest.mark.parametrize(("name", "check"), CHECKS)
def test_bands_of_many_otherwise_than_told(name: str, check: str, model: str) -> None:
    """5 000 units, angles off either way."""
    assert within(name, check, Bench(model, WHOLE), units=MANY)[0] > 0.90 - OPTIMISTIC


def test_a_band_of_one_gauge_holds_what_its_arithmetic_leaves() -> None:
    """A depth by one depth caliper that shares twice as much as told: 67 in 100, not 90.

    By hand: 0.7 u + 0.714 v, u and v flat from -1 to 1, is a triangle of half width 1.414, of which
    0.967 holds 90 in 100. Of 1.4 u + 0.714 v, a trapezoid, beyond 0.967 lie
    (2.114 - 0.967)^2 / (4 x 1.4 x 0.714) = 33 in 100. With the whole limit shared, 1.0 u, they are
    (1.714 - 0.967)^2 / (4 x 0.714) = 20. Three standard errors of 2 000, and a point for the other
    sizes, which are as told. No band for 90 in 100 can keep within 10 of such a gauge.
    """
    for shared, beyond in ((TWICE, 0.329), (WHOLE, 0.195)):
        bench = Bench("", shared)
        share, _ = within("headstock", "nut from flange", bench, units=SOME)
        assert share == pytest.approx(1 - beyond, abs=0.042), shared


@pytest.mark.parametrize("case", ["feed-box", "lay-shaft", "bevel-box"])
def test_unread_checks_leave_wrong_units_closed(case: str) -> None:
    """Nobody reads a check: the first figure is more than 10 points too hopeful with wrong units.

    That is what the second figure is for; with every check read it is within limits.
    """
    one = came(case, Bench(wrong=WRONG), units=SOME)
    assert one.unread < told(case).by_sizes - OPTIMISTIC
    assert kept(told(case).second, one.read)
