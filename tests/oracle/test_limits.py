"""What must hold at the ends: nothing gives, a row lets go, faces are taken away, pushes grow."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from scipy.optimize import brentq
from tests.oracle.energies import CASE, MM, Row, Spring, at_rest, reach
from tests.oracle.test_units import NEAR, at, their, typed
from tests.oracle.units import UNITS, Unit, covered, headstock, pair, set_by_ring, sprung, tandem

from dryfit.solve.benchtop import Bench, NothingStops
from dryfit.solve.elastic import Held, Stray, hold
from dryfit.solve.luck import NoLuck, full
from dryfit.solve.network import Network
from dryfit.solve.newton import Unsettled
from dryfit.solve.rigid import Contact

FLOATING: dict[str, Callable[[], Unit]] = {
    "adjusting nut": lambda: headstock(0.025),
    "threaded ring": lambda: set_by_ring(0.030),
    "cover and shim": lambda: covered(0.33),
}


def pushed(bench: Bench, part: str, force: float) -> Held:
    """Push one part [N]."""
    return bench.at_rest({part: full(NoLuck(), force)} if force else {})


def place(held: Held, body: str) -> float:
    """Say where a body stands [m]."""
    return float(held.place(their(body))[0])


# Stiffness without end


def stiffer(contact: Contact, factor: float) -> Contact:
    """Make a row so many times as stiff, and let parts give so much less."""
    law = contact.law
    for number in ("constant", "rollers"):
        if law and number in law.arguments:
            more = {**law.arguments, number: law.arguments[number] * factor}
            law = replace(law, arguments=more)
    return replace(contact, law=law, give=contact.give / factor)


@pytest.mark.parametrize("name", FLOATING)
def test_the_stiffer_all_is_the_nearer_to_rigid(name: str) -> None:
    """With rows ever stiffer the dial comes down to the float of rigid parts, from above.

    A newton on the five faces of a line then takes up 2 nm: what 5e9 N/m each leave.
    """
    unit = FLOATING[name]()
    part, _ = unit.floats or ("", 0.0)
    low, high = reach(unit.springs, [*unit.drawn], part)
    net = typed(unit).net
    shown = [_travel(_stiff(net, factor), part, 1.0) for factor in (1.0, 1e3, 1e6, 1e9)]
    assert all(stiff <= soft + 1e-12 for soft, stiff in pairwise(shown))
    assert shown[0] - (high - low) > 10e-9
    assert shown[-1] == pytest.approx(high - low, abs=3e-9)


def _stiff(net: Network, factor: float) -> Network:
    contacts = tuple(stiffer(contact, factor) for contact in net.contacts)
    return replace(net, contacts=contacts)


def _travel(net: Network, part: str, push: float) -> float:
    ends = [hold(net, {part: np.array([way * push])}).place(part)[0] for way in (1, -1)]
    return float(ends[0] - ends[1])


# Relief


def relief_alone(row: Row, preload: float) -> float:
    """Say by hand what relieves the far row, over the preload, were there nothing but two rows.

    The near row is then pressed twice as far: the far one has given up all that it had.
    """
    proud = row.proud(preload) * 1e-3
    return row.law(2 * proud).force / preload


def relieved(carries: Callable[[float], float], preload: float) -> float:
    """Find the push under which the far row carries a thousandth of its preload [N]."""
    return float(brentq(lambda push: carries(push) - preload / 1e3, 0.0, 8 * preload, xtol=1e-4))


@pytest.mark.parametrize("degrees", [15, 25, 40])
@pytest.mark.parametrize("load", [60, 150, 600])
def test_relief_of_a_preloaded_pair(degrees: int, load: int) -> None:
    """The push that frees the far row is that of an independent solve to 1 %, near 3 preloads."""
    unit = preloaded(degrees, load)
    bench = typed(unit)
    front = their("front in"), their("front out")
    still = float(pushed(bench, "spindle", 0.0).force(*front)[0])
    mine = relieved(lambda p: float(pushed(bench, "spindle", -p).force(*front)[0]), still)
    which = next(n for n, s in enumerate(unit.springs) if (s.before, s.row) == ("front in", True))
    hand = relieved(lambda p: at_rest(unit.drawing, {"spindle": -p}).forces[which], still)
    assert mine == pytest.approx(hand, rel=0.01)
    # faces and rings give too, evenly, which draws 2.83 and more towards 2
    assert 2.3 < mine / still < relief_alone(Row((35, 62, 14), degrees), still)


def preloaded(degrees: int, load: int) -> Unit:
    """Write a back to back pair of another angle and preload, with short spacers."""
    unit = pair(20, 20, back_to_back=True)
    row = Row((35, 62, 14), degrees)
    rows = tuple(
        replace(s, apart=row.proud(load), law=row.law) if s.row else s for s in unit.springs
    )
    text = unit.text.replace("25 deg", f"{degrees} deg").replace("150 N", f"{load} N")
    return replace(unit, text=text, springs=rows)


def test_relief_is_eight_roots_only_while_the_angle_stays() -> None:
    """At a steep angle and light preload it is 2^1.5; flat and heavy the angle grows: more."""
    assert relief_alone(Row((35, 62, 14), 40), 1.0) == pytest.approx(2**1.5, rel=0.01)
    shares = [relief_alone(Row((35, 62, 14), 15), load) for load in (1, 60, 150, 600)]
    assert all(heavier > lighter for lighter, heavier in pairwise(shares))
    assert shares[-1] > 3.2


def test_longer_spacers_under_one_nut_give_more_preload() -> None:
    """Ground for 150 N the pair carries more under its nut, the more the longer its spacers."""
    rows = their("front in"), their("front out")
    found = [
        float(pushed(typed(pair(length, length, back_to_back=True)), "spindle", 0).force(*rows)[0])
        for length in (20, 60, 120)
    ]
    assert 150 < found[0] < found[1] < found[2]


# Springs


def test_spring_washer_holds_its_force_until_it_is_solid() -> None:
    """A washer worked from 2.8 to 1.4 mm loads the rows by its rate; solid, by what is in its way.

    140 N at 1.2 mm: 116.7 N a millimetre; rows take up a sixth of a millimetre of their float.
    """
    forces = [
        float(pushed(typed(sprung(height)), "spindle", 0.0).force(their("lower out"), "wave")[0])
        for height in (2.8, 2.4, 1.4, 1.05)
    ]
    assert forces[1] - forces[0] == pytest.approx(0.4 * 116.7, rel=0.02)
    assert forces[2] - forces[1] == pytest.approx(1.0 * 116.7, rel=0.02)
    assert forces[3] > 2 * 2.9 * 116.7


# Energy


PRESSED: dict[str, Callable[[], Unit]] = {
    name: UNITS[name]
    for name in ("back to back, 60 mm", "set of three", "adjusting nut, nipped", "branch")
}


def stored(springs: Sequence[Spring], spots: Mapping[str, float]) -> float:
    """Add up the energy of springs where the bodies are, by hand [N m]."""
    return sum(s.law(s.apart * MM + spots[s.before] - spots[s.after]).energy for s in springs)


def spots_of(bench: Bench, unit: Unit, held: Held) -> dict[str, float]:
    """Say where each body of a drawing is in the typed unit [m]."""
    return {body: at(bench, unit, held, body) - at(bench, unit, held, CASE) for body in unit.drawn}


def without(net: Network, spring: Spring) -> Network:
    """Take a contact away."""
    ends = their(spring.before), their(spring.after)
    kept = tuple(c for c in net.contacts if (c.before, c.after) != ends)
    pulls = {name: c for name, c in net.pulls.items() if (c.before, c.after) != ends}
    assert len(kept) + len(pulls) == len(net.contacts) + len(net.pulls) - 1
    return replace(net, contacts=kept, pulls=pulls)


@pytest.mark.parametrize("name", PRESSED)
def test_energy_never_rises_when_a_contact_is_taken_away(name: str) -> None:
    """Take any face or row out of a line and it holds less energy, or runs apart."""
    unit = PRESSED[name]()
    bench = typed(unit)
    whole = stored(unit.springs, spots_of(bench, unit, bench.at_rest({})))
    assert whole == pytest.approx(at_rest(unit.drawing, {}).energy, rel=1e-9)
    stays = 0
    for spring in unit.springs:
        try:
            held = hold(without(bench.net, spring), {})
        except (Stray, Unsettled):  # it runs apart
            continue
        stays += 1
        rest = [one for one in unit.springs if one is not spring]
        assert stored(rest, spots_of(bench, unit, held)) <= whole + 1e-12, spring
    assert stays > 2


@pytest.mark.parametrize("name", PRESSED)
def test_compliance_is_the_same_both_ways(name: str) -> None:
    """A newton on one part moves another as far as a newton there moves the one."""
    unit = PRESSED[name]()
    bench = typed(unit)
    bodies = sorted(at_rest(unit.drawing, {}).fast() - {CASE})
    columns = []
    for body in bodies:
        there, back = (pushed(bench, their(body), way * 0.5) for way in (1, -1))
        columns.append([place(there, other) - place(back, other) for other in bodies])
    matrix = np.array(columns)
    assert np.abs(matrix - matrix.T).max() < 1e-5 * np.abs(matrix).max()
    assert (matrix > -1e-14).all()  # nothing goes the other way
    assert np.linalg.matrix_rank(matrix, tol=1e-4 * np.abs(matrix).max()) > 2


@pytest.mark.parametrize("name", [name for name in UNITS if UNITS[name]().floats])
def test_more_push_never_moves_less(name: str) -> None:
    """However hard a part is pushed, a harder push takes it, and all beside it, no less far."""
    unit = UNITS[name]()
    bench = typed(unit)
    part, _ = unit.floats or ("", 0.0)
    held = [pushed(bench, part, force) for force in (0.0, 0.5, 4.0, 30.0, 200.0, 900.0)]
    for softer, harder in pairwise(held):
        moved = harder.rest.places - softer.rest.places
        assert moved.min() > -NEAR  # a ring that has just come free may lie anywhere about there
        assert place(harder, part) > place(softer, part)


@pytest.mark.parametrize(
    "push",
    [
        250.0,
        pytest.param(
            400.0,
        ),
    ],
)
def test_shaft_pushed_where_nothing_stops_it_is_named(push: float) -> None:
    """Lifted off its only stop the user hears which part runs out, however hard the push."""
    with pytest.raises(NothingStops, match="spindle"):
        pushed(typed(tandem()), "spindle", push)
