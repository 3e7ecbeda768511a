"""Lines of one casing put together: what one stops of the other, and what that leaves."""

import pytest

from dryfit.plan.actions import Job
from dryfit.plan.bodies import Body, stretch
from dryfit.plan.casing import Casing, Lie, casing, stops_of
from dryfit.plan.nest import Nest
from dryfit.plan.order import best_order


def _body(name: str, *cells: tuple[float, float, float, float]) -> Body:
    return Body(name, tuple(stretch(*cell) for cell in cells))


def _line(name: str, *bodies: Body) -> Nest:
    return Nest(bodies, f"{name} front", f"{name} rear")


def _order(found: Casing) -> tuple[str, ...]:
    steps = {step.name: step for one in found.built.values() for step in one.steps}
    return best_order(Job(tuple(steps.values()))).steps


UPPER = _line(
    "upper",
    _body("case", (0, 2, 10, 45), (2, 60, 40, 45)),
    _body("upper shaft", (2, 50, 0, 10), (20, 40, 10, 30)),
)
LOWER = _line(
    "lower",
    _body("case", (100, 102, 10, 45), (102, 160, 40, 45)),
    _body("lower shaft", (102, 150, 0, 10), (145, 150, 10, 25)),
)
STAYS = {"upper": ("case",), "lower": ("case",)}


@pytest.mark.parametrize(("apart", "stopped"), [(54.0, True), (56.0, False)])
def test_wider_gear_goes_in_before_the_one_that_would_stop_it(apart: float, stopped: bool) -> None:
    """Both shafts go in from the rear. The lower one's gear lies behind the upper one's: with
    centres nearer than 30 + 25 = 55 the upper shaft has to be in first."""
    lie = Lie("upper", "lower", (0.0, 100.0), apart, square=False)
    for one, other in ((UPPER, LOWER), (LOWER, UPPER)):
        nests = {"upper": UPPER, "lower": LOWER}
        nests = {name: nests[name] for name in (one.last.split()[0], other.last.split()[0])}
        found = casing(nests, STAYS, [lie])
        assert found.looked_at == (lie,)
        order = _order(found)
        if stopped:
            assert order.index("upper shaft") < order.index("lower shaft")
        else:
            assert order == tuple(f"{name} shaft" for name in nests)


def test_level_spots_are_laid_beside_each_other() -> None:
    """Moved along by 40 the lower gear lies deeper than the upper one's, so it is first in."""
    lie = Lie("upper", "lower", (0.0, 140.0), 54.0, square=False)
    order = _order(casing({"upper": UPPER, "lower": LOWER}, STAYS, [lie]))
    assert order.index("lower shaft") < order.index("upper shaft")


def test_mates_in_mesh_are_let_past() -> None:
    """What is told to be free is not stopped, by that way alone."""
    free = (("upper shaft", "to upper rear", "lower shaft"),)
    lie = Lie("upper", "lower", (0.0, 100.0), 54.0, square=False, free=free)
    nests = {"upper": UPPER, "lower": LOWER}
    plain = stops_of(Lie("upper", "lower", (0.0, 100.0), 54.0, square=False), nests)
    less = stops_of(lie, nests)
    assert "lower shaft" in plain["upper"]["upper shaft", "to upper rear"]
    assert "lower shaft" not in less["upper"]["upper shaft", "to upper rear"]
    assert less["lower"] == plain["lower"]


def test_lines_that_leave_no_order_are_told_and_left_out() -> None:
    """Two shafts right through each other stop each other whatever comes first: that cannot be how
    they lie, so an order is given without it, and the pair is named."""
    lie = Lie("upper", "lower", (20.0, 120.0), 0.0, square=True)
    found = casing({"upper": UPPER, "lower": LOWER}, STAYS, [lie])
    assert (found.looked_at, found.left) == ((), (lie,))
    assert _order(found) == ("upper shaft", "lower shaft")
