"""A line pushed along, against statics and the rule for when the rows of a pair part."""

import numpy as np
import pytest

from dryfit.app.usecases import demos
from dryfit.app.usecases.opening import open_text
from dryfit.ask.asking import Asking
from dryfit.ask.needed import needed
from dryfit.ask.pushed import Pushed, pushed
from dryfit.ask.targets import targets
from dryfit.model.rebuild import FloatNeed, PreloadNeed

DRAWS = 50


def _asked(demo: str, of: str, state: str = "built") -> tuple[Asking, PreloadNeed | FloatNeed]:
    rebuild = open_text(demos.text(demo)).rebuild
    needs = (t.need for t in targets(rebuild))
    need = next(
        n
        for n in needs
        if isinstance(n, PreloadNeed | FloatNeed) and (n.of, n.state) == (of, state)
    )
    return Asking(rebuild, DRAWS), need


def _pushed(demo: str, of: str, pushes: list[float], **packs: float) -> Pushed:
    asking, need = _asked(demo, of)
    found = pushed(asking, need, packs, pushes)
    assert found is not None
    return found


@pytest.mark.parametrize(("demo", "of"), [("bevel-box", "pinion shaft"), ("quill", "spindle")])
def test_rows_carry_the_push_between_them(demo: str, of: str) -> None:
    """Statics: what stops it on one way less what stops it on the other is the push."""
    pushes = [-2000.0, -300.0, -10.0, 0.0, 10.0, 300.0, 2000.0]
    found = _pushed(demo, of, pushes)
    left = found.to_last - found.to_first
    # of the quill's spring about a newton comes and goes with the travel: it is no row
    np.testing.assert_allclose(left - left[3], pushes, atol=3.0)


def test_at_rest_it_is_the_preload_that_is_told() -> None:
    """The point at which both curves cross is the force that `set` tells."""
    asking, need = _asked("bevel-box", "pinion shaft")
    found = _pushed("bevel-box", "pinion shaft", [0.0])
    (told,) = (n for n in needed(asking, targets(asking.rebuild), {}) if n.target.need == need)
    assert told.force is not None
    assert min(found.to_last[0], found.to_first[0]) == pytest.approx(told.force.typed, rel=1e-6)
    assert found.travel[0] == 0.0


def test_rollers_part_where_the_power_of_their_law_says() -> None:
    """Rollers yield by the power 9/10, which ties together where either row of a pair is free.

    Palmgren, Ball and Roller Bearing Engineering, 3rd ed. (power from memory). Rows that yield d1
    and d2 under preload P, F = K d^n: pushed one way the second is free at P (1 + d2/d1)^n, the
    other way the first at P (1 + d1/d2)^n. So (r1^(1/n) - 1) (r2^(1/n) - 1) = 1 for both in parts
    of P. Rings yield evenly: n lies between 1 and 10/9.
    """
    nip = {"nut": -0.015e-3}
    rest = _pushed("headstock", "spindle", [0.0], **nip).to_last[0]
    times = np.linspace(1.5, 3.0, 601)
    to_last = _pushed("headstock", "spindle", [rest * t for t in times], **nip).to_first
    to_first = _pushed("headstock", "spindle", [-rest * t for t in times], **nip).to_last
    free = [times[int(np.argmax(other < 0.001 * rest))] for other in (to_last, to_first)]
    # a thousandth of the preload is left where the row counts as free: 0.004 of the times
    assert (free[0] - 1) * (free[1] - 1) > 1 - 0.01
    assert (free[0] ** 0.9 - 1) * (free[1] ** 0.9 - 1) < 1 + 0.01


def test_balls_part_later_than_even_springs_would() -> None:
    """A row that stiffens as it is pressed carries more than twice as much at twice the travel."""
    rest = _pushed("bevel-box", "pinion shaft", [0.0]).to_last[0]
    found = _pushed("bevel-box", "pinion shaft", [2.0 * rest, 10.0 * rest])
    assert found.to_first[0] > 0.0
    assert found.to_first[1] == 0.0


def test_rows_are_named_by_the_way_they_stop() -> None:
    """Of the wheel shaft the outer bearing stops it towards the cover, as the text says."""
    found = _pushed("bevel-box", "wheel shaft", [-500.0, 500.0], **{"cover shim": 0.37e-3})
    assert (found.stops_last, found.stops_first) == (("outer bearing",), ("inner bearing",))
    assert found.ends == ("crossing", "cover")
    assert found.travel[0] < 0 < found.travel[1]


def test_float_is_travelled_before_rows_carry() -> None:
    """A spindle with 0.060 of float goes as far, and a little that the rows yield."""
    found = _pushed("headstock", "spindle", [-50.0, 50.0])
    assert found.travel[1] - found.travel[0] == pytest.approx(0.060e-3, abs=4e-6)


def test_nothing_to_push_where_nothing_gives() -> None:
    """A shaft between plain faces has no rows."""
    asking, need = _asked("feed-box", "shaft")
    assert pushed(asking, need, {}, [100.0]) is None
