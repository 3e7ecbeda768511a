"""The best order: against every order there is, published counts and a published schedule."""

from dataclasses import replace
from itertools import combinations, pairwise
from math import inf

import pytest
from benchmarks._jobs import check, drawn_job, put, three_shafts
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plan.jobs import all_orders, jobs, right_angle_head

from dryfit.plan.actions import Act, Job, Risk, Step
from dryfit.plan.board import Board
from dryfit.plan.cost import BY_MINUTES, BY_STEPS, Weigh, costs_of
from dryfit.plan.masks import bits, masks_of
from dryfit.plan.order import best_order, how_many, next_best
from dryfit.plan.search import search
from dryfit.plan.tangles import tangles

WEIGHS = [
    BY_STEPS,
    BY_MINUTES,
    Weigh(only_what_must=True),
    Weigh(minutes=True, only_what_must=True, change=2.5),
    Weigh(change=0.3),
]


def possible(job: Job) -> bool:
    """Tell whether the job can be done at all."""
    return not tangles(job)


@settings(max_examples=150)
@given(jobs().filter(possible), st.sampled_from(WEIGHS))
def test_nothing_is_cheaper_than_the_best(job: Job, weigh: Weigh) -> None:
    """Of all orders that can be gone, each gone, none has less to be undone than the best."""
    costs = costs_of(job, weigh)
    least = min(cost for cost, _ in all_orders(costs))
    order = best_order(job, weigh)
    assert order.proven
    assert order.cost == pytest.approx(least, abs=1e-9)
    assert costs.of(costs.masks.at[name] for name in order.steps) == pytest.approx(order.cost)


@settings(max_examples=60)
@given(jobs().filter(possible))
def test_the_order_can_be_gone(job: Job) -> None:
    """Each step of the order can be done when its turn comes, and none is left out or doubled."""
    masks = masks_of(job)
    done = 0
    for name in best_order(job).steps:
        step = masks.at[name]
        assert not masks.needs[step] & ~done
        assert any(not shut & done for shut in masks.ways[step])
        done |= 1 << step
    assert done == masks.full


@settings(max_examples=60)
@given(jobs(most=5).filter(possible))
def test_next_best_orders_leave_no_cost_out(job: Job) -> None:
    """The three best kinds of order are those that trying every order finds, checks at once."""
    costs = costs_of(job)
    masks, checks = costs.masks, list(bits(costs.masks.reads))

    def at_once(order: tuple[int, ...]) -> bool:
        done = 0
        for step in order:
            waiting = any(masks.may(c, done) for c in checks if not done >> c & 1)
            if waiting and step not in checks:
                return False
            done |= 1 << step
        return True

    every = sorted({round(cost, 9) for cost, order in all_orders(costs) if at_once(order)})
    assert [order.cost for order in next_best(job, 3)] == pytest.approx(every[:3], abs=1e-8)


@settings(max_examples=60)
@given(jobs().filter(possible), st.sampled_from(WEIGHS))
def test_a_narrow_search_never_claims_too_much(job: Job, weigh: Weigh) -> None:
    """With three sets of a size kept the answer may be worse, but the bound still holds."""
    least = min(cost for cost, _ in all_orders(costs_of(job, weigh)))
    narrow = best_order(job, weigh, (3,))
    assert narrow.bound <= least + 1e-9
    assert narrow.cost >= least - 1e-9
    assert narrow.words == "best" or narrow.words.startswith("best found")


@settings(max_examples=60)
@given(jobs().filter(possible), st.sampled_from(WEIGHS))
def test_what_is_left_is_never_told_dearer_than_it_is(job: Job, weigh: Weigh) -> None:
    """The least that is told of what is to come is never more than some order really costs."""
    board = Board(costs_of(job, weigh))
    found = search(replace(board, keep=2), 1_000_000)
    assert search(board, 1_000_000, inf).costs[0] == pytest.approx(found.costs[0], abs=1e-9)
    assert search(board, 1_000_000, found.costs[0]).costs[0] == pytest.approx(found.costs[0])


@settings(max_examples=80)
@given(jobs())
def test_taking_off_never_runs_into_a_corner(job: Job) -> None:
    """Taking off whatever comes off first leaves the same as the best of all ways to go on.

    The sets that may come off are closed under union, an antimatroid, so that greed is enough
    (Korte, Lovasz, Schrader, Greedoids, 1991, chapter III; from memory). A step that nothing may
    be taken from for good is left by both.
    """
    masks = masks_of(job)
    seen, waiting = {masks.full}, [masks.full]
    while waiting:
        left = waiting.pop()
        for step in bits(left):
            wanted = any(masks.needs[other] >> step & 1 for other in bits(left))
            if not wanted and any(not shut & left for shut in masks.ways[step]):
                smaller = left ^ 1 << step
                if smaller not in seen:
                    seen.add(smaller)
                    waiting.append(smaller)
    assert masks.locked() == min(seen, key=lambda left: left.bit_count())
    assert (masks.locked() == 0) == (how_many(job) > 0)


@settings(max_examples=60)
@given(jobs(most=5).filter(possible))
def test_strip_and_build_are_mirror_images(job: Job) -> None:
    """There are as many orders to take the unit apart as to build it: each is another read back."""
    masks = masks_of(job)

    def strips(left: int) -> int:
        if not left:
            return 1
        total = 0
        for step in bits(left):
            wanted = any(masks.needs[other] >> step & 1 for other in bits(left))
            if not wanted and any(not shut & left for shut in masks.ways[step]):
                total += strips(left ^ 1 << step)
        return total

    assert strips(masks.full) == how_many(job)


def poset(pairs: list[tuple[str, str]], names: str = "") -> Job:
    """Give a job of steps in order by pairs."""
    every = dict.fromkeys([*names, *(name for pair in pairs for name in pair)])
    return Job(tuple(put(n, *(a for a, b in pairs if b == n)) for n in every))


PRINTED = "dcwbaz dcbwaz dbcwaz bdcwaz dcwbza dcbwza dbcwza bdcwza dcbzwa dbczwa bdczwa"


def test_count_of_keller_and_trotter() -> None:
    """The poset P3 of Keller and Trotter, Applied Combinatorics, section 6.4, has 11 orders."""
    orders = PRINTED.split()
    letters = sorted(orders[0])
    pairs = [
        (a, b)
        for a in letters
        for b in letters
        if a != b and all(order.index(a) < order.index(b) for order in orders)
    ]
    assert how_many(poset(pairs, "".join(letters))) == 11


def test_count_of_two_chains() -> None:
    """Two chains 1 < 2 and 3 < 4: 1234 1324 1342 3124 3142 3412, six (MathWorld)."""
    assert how_many(poset([("1", "2"), ("3", "4")])) == 6


@pytest.mark.parametrize(("size", "orders"), [(3, 48), (4, 1_680_384)])
def test_count_of_subsets(size: int, orders: int) -> None:
    """Subsets by inclusion: 48 orders of a 3-set's, 1 680 384 of a 4-set's (OEIS A046873).

    The number of the entry is from memory.
    """
    sets = [frozenset(c) for n in range(size + 1) for c in combinations(range(size), n)]
    steps = [put(str(sorted(s)), *(str(sorted(t)) for t in sets if t < s)) for s in sets]
    assert how_many(Job(tuple(steps))) == orders


def test_count_of_a_grid_and_of_fences() -> None:
    """A 2 x 7 grid has Catalan's 429 orders; fences have Euler's 1 1 2 5 16 61 272 1385."""
    top, low = "abcdefg", "ABCDEFG"
    grid = [*pairwise(top), *pairwise(low)]
    grid += zip(top, low, strict=True)
    assert how_many(poset(grid)) == 429
    fences = []
    for size in range(1, 9):
        letters = "abcdefgh"[:size]
        steps = list(pairwise(letters))
        pairs = [(a, b) if n % 2 == 0 else (b, a) for n, (a, b) in enumerate(steps)]
        fences.append(how_many(poset(pairs, letters)))
    assert fences == [1, 1, 2, 5, 16, 61, 272, 1385]


def test_chains_of_a_published_schedule() -> None:
    """Pinedo, Scheduling, 1 | chains | sum w C: chains 1-2-3-4 and 5-6-7 are done 1 2 5 6 3 7 4.

    p = 3 6 6 5 4 8 10 and w = 6 18 12 8 8 17 18 (chapter on the single machine; data and order
    from memory). A slip born at the start with chance w/100 and shown right after job j waits for
    C_j: the same sum over a hundred, by hand 1967/100.
    """
    times, shares = (3, 6, 6, 5, 4, 8, 10), (6, 18, 12, 8, 8, 17, 18)
    below = {1: "start", 2: "1", 3: "2", 4: "3", 5: "start", 6: "5", 7: "6"}
    steps: list[Step] = [put("start")]
    risks = []
    for job, (time, share) in enumerate(zip(times, shares, strict=True), start=1):
        steps.append(put(str(job), below[job], minutes=time, undo=0))
        steps.append(check(f"check {job}", str(job)))
        risks.append(Risk(f"risk {job}", share / 100, "start", {f"check {job}": 1.0}))
    order = best_order(Job(tuple(steps), tuple(risks)), BY_MINUTES)
    assert order.proven
    assert [name for name in order.steps if name.isdigit()] == ["1", "2", "5", "6", "3", "7", "4"]
    assert order.cost == pytest.approx(19.67, abs=1e-9)


def test_head_has_a_proven_best() -> None:
    """Twenty steps and eight checks: found and proven, cheaper than what the drawing's order is."""
    job = right_angle_head()
    costs = costs_of(job)
    order = best_order(job)
    assert order.proven
    assert order.cost < costs.of(costs.masks.some_order())


def test_stations_are_not_changed_for_nothing() -> None:
    """What is pressed is pressed in one visit to the press where nothing speaks against it."""
    steps = [
        replace(put(f"{n} ring"), station="press" if n % 2 else "bench", act=Act.PRESS)
        for n in range(6)
    ]
    order = best_order(Job(tuple(steps)), Weigh(change=1.0))
    assert order.cost == pytest.approx(1.0)
    assert next_best(Job(tuple(steps)), 2, Weigh(change=1.0))[1].cost == pytest.approx(2.0)


@pytest.mark.parametrize(
    "job", [drawn_job(3, 40, 15, 0.06), three_shafts()], ids=["40+15", "60+13"]
)
def test_large_jobs_are_proven(job: Job) -> None:
    """Forty steps with 15 checks, and 60 with 13 in three shafts, are solved and proven."""
    assert not tangles(job)
    order = best_order(job)
    assert order.proven
    assert order.looked_at < 100_000


def test_capped_search_tells_its_bound() -> None:
    """With five sets of a size it is only 'best found', and says what cannot be beaten."""
    job = drawn_job(3, 40, 15, 0.06)
    narrow, full = best_order(job, widths=(5,)), best_order(job)
    assert narrow.words == f"best found: {narrow.cost:.3g}, and none below {narrow.bound:.3g}"
    assert narrow.bound <= full.cost <= narrow.cost
