"""Who stops whom, from half-sections: two published products, and what a bench would show."""

from dataclasses import replace
from itertools import combinations
from math import comb, factorial, prod

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plan.and_or import Splits

from dryfit.plan.bodies import ALL_ROUND, Body, Level, Stretch, keyed, stretch
from dryfit.plan.masks import bits
from dryfit.plan.nest import Nest
from dryfit.plan.strip import strip
from dryfit.plan.sweep import both_ways

Rings = list[tuple[float, float, float, float]]


def body(name: str, *rings: tuple[float, float, float, float], can: Level = Level.PRESS) -> Body:
    """Give a body of level rings: from, to, inner and outer radius."""
    return Body(name, tuple(stretch(*ring) for ring in rings), can)


def nest(parts: dict[str, Rings]) -> Nest:
    """Give a nest of bodies."""
    return Nest(tuple(body(name, *rings) for name, rings in parts.items()))


def hard(one: Nest) -> tuple[list[int], list[int]]:
    """Give for each body what stops it each way."""
    return [moves[0].stops for moves in one.moves], [moves[1].stops for moves in one.moves]


PRODUCT: dict[str, Rings] = {
    "cap": [(0, 5, 0, 12), (5, 20, 10, 12)],
    "receptacle": [(5, 95, 8, 10)],
    "stick": [(5, 95, 0, 8)],
    "handle": [(95, 150, 0, 12), (80, 95, 10, 12)],
}


def test_four_part_product() -> None:
    """Cap, stick, receptacle and handle: 15 hyperarcs and 10 sequences, from our rings.

    L. S. Homem de Mello and A. C. Sanderson, AND/OR graph representation of assembly plans, IEEE
    Trans. Robotics and Automation 6 (1990) 188 (both counts as reported elsewhere, from memory).
    """
    product = nest(PRODUCT)
    contacts = [(0, 1), (0, 2), (1, 2), (2, 3), (1, 3)]
    splits = Splits(hard(product), contacts)
    assert splits.graph()[1] == 15
    assert splits.sequences() == 10


PEN: dict[str, Rings] = {
    "cap": [(80, 120, 5, 6), (120, 122, 0, 6)],
    "head": [(90, 95, 1.5, 4), (95, 100, 0, 4), (100, 105, 0, 5), (105, 115, 0, 2)],
    "body": [(0, 100, 4, 5)],
    "tube": [(20, 95, 1.0, 1.5)],
    "ink": [(22, 95, 0, 1.0)],
    "button": [(-3, 0, 0, 5), (0, 10, 0, 4)],
}


def test_ball_point_pen() -> None:
    """The pen of Bourjault has 12 sequences, once ink goes only into a tube that the head closes.

    T. L. De Fazio and D. E. Whitney, Simplified generation of all mechanical assembly sequences,
    IEEE J. Robotics and Automation 3 (1987) 640 (count from memory). The rule on ink is one of
    use, not of shape: without it our rings give more.
    """
    pen = nest(PEN)
    at = pen.at
    pairs = [("body", "cap"), ("body", "head"), ("head", "tube"), ("tube", "ink")]
    contacts = [(at[a], at[b]) for a, b in [*pairs, ("body", "button")]]
    ink, tube, head = (1 << at[name] for name in ("ink", "tube", "head"))

    def fills(one: int, other: int) -> bool:
        for to, filled in ((one, other), (other, one)):
            if filled == ink and not (to & tube and to & head):
                return False
            if filled & ink and filled != ink and not filled & head:
                return False
        return True

    assert Splits(hard(pen), contacts, fills).sequences() == 12
    assert Splits(hard(pen), contacts).sequences() > 12


@pytest.mark.parametrize("count", range(2, 8))
def test_closed_forms(count: int) -> None:
    """A free chain and a free cluster have as many plans as the textbook sums say.

    Chain: n(n+1)/2 nodes, (n+1)n(n-1)/6 hyperarcs, Catalan trees, (n-1)! sequences. All touching
    all: 2^n - 1 nodes, (3^n - 2^(n+1) + 1)/2 hyperarcs, (2n-3)!! trees, n!(n-1)!/2^(n-1) sequences.
    Such as a stack of plain discs, each free to leave either way if the others are left out.
    """
    free = ([0] * count, [0] * count)
    chain = Splits(free, [(n, n + 1) for n in range(count - 1)])
    assert chain.graph() == (count * (count + 1) // 2, (count + 1) * count * (count - 1) // 6)
    assert chain.trees() == comb(2 * count - 2, count - 1) // count
    assert chain.sequences() == factorial(count - 1)
    cluster = Splits(free, combinations(range(count), 2))
    assert cluster.graph() == (2**count - 1, (3**count - 2 ** (count + 1) + 1) // 2)
    assert cluster.trees() == prod(range(1, 2 * count - 2, 2))
    assert cluster.sequences() == factorial(count) * factorial(count - 1) // 2 ** (count - 1)


@st.composite
def ring_nests(draw: st.DrawFn) -> tuple[Body, ...]:
    """Draw bodies that fill squares of a half-section without getting into each other."""
    count = draw(st.integers(3, 6))
    owner: dict[tuple[int, int], int] = {}
    for number in range(count):
        x, r = draw(st.integers(0, 7)), draw(st.integers(0, 4))
        for _ in range(draw(st.integers(1, 5))):
            owner.setdefault((x, r), number)
            if draw(st.booleans()):
                x = min(7, max(0, x + draw(st.sampled_from([-1, 1]))))
            else:
                r = min(4, max(0, r + draw(st.sampled_from([-1, 1]))))
    return tuple(
        Body(f"p{n}", tuple(stretch(x, x + 1, r, r + 1) for (x, r), of in owner.items() if of == n))
        for n in sorted(set(owner.values()))
    )


def mirrored(one: Body) -> Body:
    """Give a body seen from the other end of the line."""
    cells = [
        replace(c, first=-c.last, last=-c.first, inner=c.inner[::-1], outer=c.outer[::-1])
        for c in one.cells
    ]
    return replace(one, cells=tuple(cells))


@given(ring_nests())
def test_one_way_is_the_other_read_across(bodies: tuple[Body, ...]) -> None:
    """What stops one body going one way is stopped by it going the other, whichever end one is at.

    R. H. Wilson and J.-C. Latombe, Geometric reasoning about mechanical assembly, Artificial
    Intelligence 71 (1994) 371 (from memory).
    """
    ahead, back = both_ways(bodies)
    assert np.array_equal(back, ahead.T)
    turned, _ = both_ways([mirrored(one) for one in bodies])
    assert np.array_equal(turned, back)


def squares(bodies: tuple[Body, ...]) -> dict[int, set[tuple[int, int]]]:
    """List the squares that each body fills."""
    return {n: {(int(c.first), int(c.inner[0])) for c in one.cells} for n, one in enumerate(bodies)}


@given(ring_nests())
def test_sweep_is_that_of_squares_pushed_along(bodies: tuple[Body, ...]) -> None:
    """Bodies of squares pushed along square by square stop each other just as the sweep says."""
    ahead, _ = both_ways(bodies)
    filled = squares(bodies)
    for a, own in filled.items():
        for b, other in filled.items():
            pushed = {(x + push, r) for push in range(1, 9) for x, r in own}
            assert (ahead[a, b] > 0) == (a != b and bool(pushed & other))


@settings(max_examples=60)
@given(ring_nests())
def test_greed_takes_off_all_that_can_come_off(bodies: tuple[Body, ...]) -> None:
    """Body by body, in whatever order, the same are left: those that no order can take off."""
    one = Nest(bodies)
    seen, waiting = {one.full}, [one.full]
    while waiting:
        there = waiting.pop()
        for n in bits(there):
            if any(not move.stops & there for move in one.moves[n]):
                less = there ^ 1 << n
                if less not in seen:
                    seen.add(less)
                    waiting.append(less)
    done = strip(one)
    singles = all(len(taken.bodies) == 1 for taken in done.taken)
    least = min(seen, key=lambda there: there.bit_count())
    if singles:
        assert one.mask(done.locked) == least
    else:
        assert least


CONE = Stretch(0, 20, (20, 20), (30, 24))
CUP = Stretch(0, 20, (30, 24), (40, 40))


def test_a_cup_leaves_its_cone_one_way_only() -> None:
    """A taper lets go towards its thick end and holds towards its thin one."""
    cone, cup = Body("cone", (CONE,)), Body("cup", (CUP,))
    ahead, back = both_ways([cone, cup])
    assert ahead[0, 1] == Level.HARD
    assert ahead[1, 0] == Level.FREE
    assert back[0, 1] == Level.FREE


@given(
    st.tuples(*[st.integers(0, 8)] * 2),
    st.tuples(*[st.integers(0, 8)] * 2),
    st.tuples(*[st.integers(0, 9)] * 3),
    st.tuples(*[st.integers(0, 9)] * 3),
)
def test_slopes_are_swept_as_fine_steps_are(
    span: tuple[int, int],
    other_span: tuple[int, int],
    radii: tuple[int, int, int],
    other_radii: tuple[int, int, int],
) -> None:
    """A slope stops what the same slope cut into 40 steps stops, within a step's height."""

    def make(ends: tuple[int, int], r: tuple[int, int, int]) -> Stretch:
        first, last = min(ends), max(ends) + 1
        return Stretch(first, last, (r[0], r[1]), (r[0] + 1 + r[2] / 3, r[1] + 1 + r[2] / 2))

    one, other = make(span, radii), make(other_span, other_radii)
    deepest = -np.inf
    for x in np.linspace(one.first, one.last, 41):
        for y in np.linspace(other.first, other.last, 41):
            if y > x:
                (a, b), (c, d) = at(one, x), at(other, y)
                deepest = max(deepest, min(b - c, d - a))
    ahead, _ = both_ways([Body("a", (one,)), Body("b", (other,))])
    step = (9 + 4.5 + 9 + 4.5) / 40
    if deepest > 0.1:
        assert ahead[0, 1] == Level.HARD
    if deepest < -step:
        assert ahead[0, 1] == Level.FREE


def at(cell: Stretch, x: float) -> tuple[float, float]:
    """Give the radii of a stretch at a place."""
    share = (x - cell.first) / (cell.last - cell.first)
    inner, outer = (pair[0] + (pair[1] - pair[0]) * share for pair in (cell.inner, cell.outer))
    return inner, outer


SHAFT = (stretch(0, 30, 0, 25), stretch(30, 100, 0, 20), stretch(100, 130, 0, 18, thread="M36"))


def test_a_nut_holds_the_shaft_though_it_is_drawn_at_core_size() -> None:
    """A shaft does not slip out through its own nut, however wide the nut is drawn."""
    for bore in (17.2, 18.0, 18.5):
        nut = Body("nut", (stretch(100, 112, bore, 27, thread="M36"),), Level.SCREW)
        ring = body("ring", (30, 100, 20, 26))
        one = Nest((Body("shaft", SHAFT), ring, nut))
        moves = {m.way: one.told(m.stops) for m in one.moves[0]}
        assert moves == {"to last": ("ring", "nut"), "to first": ("nut",)}
        assert [t.bodies for t in strip(one, ["shaft"]).taken] == [("nut",), ("ring",)]


def test_a_nut_does_not_pass_another_thread() -> None:
    """A nut of one thread is stopped by a larger thread further on."""
    shaft = Body("shaft", (*SHAFT, stretch(130, 150, 0, 19, thread="M38")))
    nut = Body("nut", (stretch(100, 112, 17.2, 27, thread="M36"),), Level.SCREW)
    assert Nest((shaft, nut)).moves[1][0].stops == 0b01


def test_press_over_a_land_of_the_same_size() -> None:
    """A ring with 0.02 of nip is pressed along its land, and not over the next, 1 mm larger."""
    shaft = body("shaft", (0, 100, 0, 20.02), (100, 120, 0, 21))
    ring = body("ring", (60, 80, 20, 26))
    one = Nest((shaft, ring))
    to_last, to_first = one.moves[1]
    assert to_first.takes == {0: Level.PRESS}
    assert to_first.stops == 0
    assert to_last.stops == 0b01


KEYED = {
    "shaft": [(0, 60, 0, 15), (60, 65, 0, 20)],
    "key": [(30, 50, 12, 17)],
    "coupling": [(30, 55, 15, 30)],
}


def test_a_key_must_pass_under_the_ring_before_it() -> None:
    """A plain ring behind the key cannot go over it; one that is bored to clear it can."""
    for bore, stopped in ((15, True), (17, False)):
        parts = {**KEYED, "ring": [(10, 20, bore, 25)]}
        bodies = keyed([body(n, *rings) for n, rings in parts.items()], ["key"])
        bodies = [replace(b, outwards=ALL_ROUND if b.name == "key" else 0) for b in bodies]
        one = Nest(tuple(bodies))
        stops = one.told(one.moves[3][0].stops)
        assert ("key" in stops) == stopped
    assert one.told(one.moves[1][0].stops) == ("coupling",)


def test_a_key_lets_its_own_hub_slide() -> None:
    """The coupling slides off over its key, and the key lifts out after it, not before."""
    bodies = keyed([body(n, *rings) for n, rings in KEYED.items()], ["key"])
    one = Nest(tuple(replace(b, outwards=ALL_ROUND if b.name == "key" else 0) for b in bodies))
    assert [t.bodies for t in strip(one, ["shaft"]).taken] == [("coupling",), ("key",)]


def test_retaining_ring_is_sprung_over_its_land() -> None:
    """A ring in its groove stops the bearing; sprung it passes its land, but no flange."""
    shaft = body("shaft", (0, 50, 0, 20), (50, 52, 0, 18.5), (52, 60, 0, 20))
    ring = Body("ring", (stretch(50, 52, 18.5, 23),), Level.SNAP, (stretch(50, 52, 20, 24.5),))
    bearing = body("bearing", (30, 50, 20, 40))
    one = Nest((shaft, bearing, ring))
    assert one.told(one.moves[1][0].stops) == ("ring",)
    assert [t.bodies for t in strip(one, ["shaft"]).taken] == [("ring",), ("bearing",)]
    flanged = body(
        "shaft", *[(c.first, c.last, 0, c.outer[0]) for c in shaft.cells], (60, 65, 0, 22)
    )
    assert Nest((flanged, bearing, ring)).moves[2][0].stops == 0b001


def test_a_lip_slides_over_what_it_gives_for() -> None:
    """A seal lip passes a land 0.5 larger with a warning, and is stopped by one 2 mm larger."""
    lip = Body("seal", (stretch(0, 8, 19.5, 21, gives=1.0), stretch(0, 8, 21, 30)))
    for radius, level in ((19.5, Level.FREE), (20.0, Level.SLIDE), (22.0, Level.HARD)):
        ahead, _ = both_ways([lip, body("shaft", (0, 8, 0, 19.5), (8, 40, 0, radius))])
        assert ahead[0, 1] == level


def test_cover_is_held_by_its_screws() -> None:
    """A cover that nothing else holds still waits for its screws."""
    cover = body("cover", (0, 10, 20, 50))
    screws = body("screws", (-5, 10, 44, 46), can=Level.SCREW)
    apart = (replace(screws, cells=(stretch(-5, 0, 44, 46),)), cover)
    one = Nest(apart, held={"cover": frozenset({"screws"})})
    assert all("screws" in one.told(move.stops) for move in one.moves[1])


def test_shaft_comes_out_with_what_it_carries() -> None:
    """A shaft between two pressed-up rings in a case leaves as one unit with them."""
    case = body("case", (0, 100, 40, 60), (-10, 0, 35, 60))
    shaft = body("shaft", (40, 60, 0, 25), (0, 100, 0, 20))
    left, right = body("left", (0, 40, 20, 40)), body("right", (60, 100, 20, 40))
    caught = Nest(
        (case, shaft, left, right),
        held={"left": frozenset({"shaft"}), "right": frozenset({"shaft"}),
              "shaft": frozenset({"left", "right"})},
    )  # fmt: skip
    done = strip(caught, ["case"])
    assert done.taken[0].bodies == ("shaft", "left", "right")
    assert done.taken[0].way == "to last"


def test_locked_bodies_are_named_with_what_each_needs() -> None:
    """Two hooked halves are told, each with what stops it each way; nothing is left to guess."""
    case = body("case", (0, 10, 0, 30), (10, 50, 25, 30), (50, 60, 0, 30))
    ball = body("ball", (20, 40, 0, 20))
    done = strip(Nest((case, ball)), ["case"])
    assert done.taken == ()
    assert done.locked == {"ball": "to last: 'case'; to first: 'case'"}


def test_locked_by_a_thread_is_told_as_that() -> None:
    """What only a thread holds is told as to be unscrewed."""
    plug = Body("plug", (stretch(0, 10, 0, 20, thread="M40"),))
    case = Body("case", (stretch(0, 10, 20, 40, thread="M40"), stretch(-5, 0, 0, 40)))
    done = strip(Nest((case, plug)), ["case"])
    assert done.locked == {"plug": "to last: 'case' (to be unscrewed); to first: 'case'"}


def test_bolt_through_a_cover_holds_it() -> None:
    """A bolt in its own class of angles holds the cover by its head, and is screwed out itself."""
    case = body("case", (0, 100, 60, 90))
    cover = body("cover", (100, 110, 0, 90))
    bolt = Body(
        "bolt",
        (
            stretch(80, 100, 72, 78, thread="M6"),
            stretch(100, 110, 72, 78),
            stretch(110, 116, 70, 80),
        ),
        Level.SCREW,
    )
    threaded = Body("case", (replace(case.cells[0], thread="M6"),))
    nest = Nest(tuple(keyed([threaded, cover, bolt], ["bolt"])))
    cover_off, bolt_off = nest.moves[1][0], nest.moves[2][0]
    assert nest.told(cover_off.stops) == ("bolt",)
    assert bolt_off.stops == 0
    assert [t.bodies for t in strip(nest, ["case"]).taken] == [("bolt",), ("cover",)]


def test_half_of_a_split_case_lifts_off() -> None:
    """The cap of a split case lifts off across the axis, and then the shaft, not before."""
    below, above = 0b01, 0b10
    ends = (stretch(0, 10, 20, 60), stretch(10, 90, 50, 60), stretch(90, 100, 20, 60))
    case = Body("case", tuple(replace(cell, angles=below) for cell in ends))
    cap = Body("cap", tuple(replace(cell, angles=above) for cell in ends), outwards=above)
    shaft = replace(body("shaft", (0, 100, 0, 20), (40, 60, 20, 45)), outwards=above)
    nest = Nest((case, cap, shaft))
    assert [t.bodies for t in strip(nest, ["case"]).taken] == [("cap",), ("shaft",)]
    assert nest.told(nest.moves[2][0].stops) == ("cap",)
