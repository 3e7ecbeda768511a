"""Warm parts: a lay-shaft between the faces of an iron case, in inches, by hand."""

from fractions import Fraction

import pytest

from dryfit.model.parts import Cluster, Housing, ThrustWasher
from dryfit.model.rebuild import FIRST_END, LAST_END, Between, Line, Rebuild, Stack, State, UsedFor
from dryfit.model.spots import Spot
from dryfit.quantities import Quantity, Size, read_quantity, read_size
from dryfit.solve.luck import NoLuck
from dryfit.solve.network import network
from dryfit.solve.rigid import room
from dryfit.solve.sample import sample
from dryfit.solve.states import Fitted, conditions, states_of


def _size(text: str) -> Size:
    size = read_size(text, "inch")
    assert isinstance(size, Size)
    return size


def _ends(part: str) -> tuple[Spot, Spot]:
    return Spot(part, FIRST_END), Spot(part, LAST_END)


def _kelvin(text: str) -> Quantity:
    return read_quantity(text, "temperature difference")


STACK = Stack(
    "between the faces",
    (Spot("case", "front"), *_ends("washer"), *_ends("cluster"), Spot("case", "rear")),
)
LINE = Line("lay-shaft", "front", "rear", (STACK,))
BOX = Rebuild(
    "inch",
    used_for=UsedFor(warmer_than_casing=_kelvin("10 K")),
    lines={LINE.name: LINE},
    parts={
        "case": Housing("case", "housing"),
        "cluster": Cluster("cluster", "cluster"),
        "washer": ThrustWasher("washer", "thrust washer"),
    },
    sizes={
        "case": Between("case", Spot("case", "front"), Spot("case", "rear"), _size("4.8070")),
        "cluster": Between("cluster", *_ends("cluster"), _size("4.5560")),
        "washer": Between("washer", *_ends("washer"), _size("0.2450")),
    },
    states={"warm case": State("warm case", warmer_than_room={"case": _kelvin("70 K")})},
)


def _float(state: str) -> float:
    """Float in inches."""
    draws = NoLuck()
    now = conditions(BOX, state, draws)
    net = network(BOX, LINE, sample(BOX, draws), Fitted({}, now, {}, {}))
    left = room(net.closed, "cluster", net.case)
    assert left is not None
    return float(left[0]) / 0.0254


def test_cold_float_is_the_difference() -> None:
    """4.8070 - 4.5560 - 0.2450 = 0.0060."""
    assert _float("built") == pytest.approx(0.0060, abs=1e-9)


def test_warm_case_shows_a_false_float() -> None:
    """An iron case at 90 C is longer by 4.807 x 11e-6 x 70 = 0.0037: the float reads 0.0097."""
    assert _float("warm case") == pytest.approx(0.0060 + 4.807 * 11e-6 * 70, abs=1e-9)


def test_warmer_shaft_takes_float_away() -> None:
    """A steel cluster 10 K warmer is longer by 4.556 x 11.85e-6 x 10 = 0.00054: less float."""
    assert _float("hot") == pytest.approx(0.0060 - 4.556 * 11.85e-6 * 10, abs=1e-9)


def test_states_are_those_of_the_text_and_of_the_use() -> None:
    """`hot` is offered as soon as the use says how warm the shaft runs."""
    assert states_of(BOX) == ("built", "hot", "warm case")
    assert _kelvin("70 K").value == Fraction(70)
