"""How long the order of a large job takes, beside a general solver; and the blocking of 60 parts.

The solver is CP-SAT of OR-Tools, given the same job and the same linear objective: positions of all
steps, who is before whom, and for each slip and step whether the step stands between the slip and
all checks that show it. It may take 30 s a job on all cores. Where either side proves its answer
both must be equal, else they must be within 2 in 100, or the benchmark ends with an error.
"""

from dataclasses import dataclass
from functools import partial
from time import perf_counter
from typing import TYPE_CHECKING, Any

import numpy as np
from ortools.sat.python import cp_model

from dryfit.plan.actions import Job
from dryfit.plan.bodies import Body, Stretch
from dryfit.plan.cost import Costs, costs_of
from dryfit.plan.masks import bits
from dryfit.plan.nest import Nest
from dryfit.plan.order import Order, best_order
from dryfit.plan.tangles import tangles

if TYPE_CHECKING:
    from benchmarks import _jobs as jobs
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _jobs as jobs
    import _timing as timing

LIMIT = 30.0
"""Time for the solver [s]."""

SCALE = 10_000
"""It counts in whole numbers: ten-thousandths of a step. Chances have two digits, so all of it is
exact."""

CLOSE = 0.02
"""How far the sides may be apart where neither proves its answer [-]."""

PARTS, CELLS, ROUNDS = 60, 5, 15

JOBS: dict[str, Job] = {
    "40 and 15, 1 pair in 7 in order": jobs.drawn_job(1, 40, 15, 0.15),
    "40 and 15, 1 in 10": jobs.drawn_job(2, 40, 15, 0.10),
    "40 and 15, 1 in 17": jobs.drawn_job(3, 40, 15, 0.06),
    "60 and 13, three shafts": jobs.three_shafts(1),
    "60 and 13, other checks": jobs.three_shafts(2),
}


@dataclass(frozen=True, slots=True)
class Solved:
    """What the solver found."""

    cost: float
    bound: float
    proven: bool
    seconds: float


class Model:
    """A job as the solver wants it."""

    def __init__(self, costs: Costs) -> None:
        self.model = cp_model.CpModel()
        self.costs = costs
        count = len(costs.masks.names)
        self.places = [self.model.new_int_var(0, count - 1, "") for _ in range(count)]
        self.model.add_all_different(self.places)
        self.pairs: dict[tuple[int, int], Any] = {}
        for then, firsts in enumerate(costs.masks.straight):
            for first in bits(firsts):
                self.model.add(self.places[first] < self.places[then])
        self.model.minimize(sum(self.terms()))

    def before(self, a: int, b: int) -> Any:
        """Give the literal that one step is before another."""
        if (a, b) not in self.pairs:
            literal = self.model.new_bool_var("")
            self.pairs[a, b], self.pairs[b, a] = literal, literal.Not()
            self.model.add(self.places[a] < self.places[b]).only_enforce_if(literal)
            self.model.add(self.places[b] < self.places[a]).only_enforce_if(literal.Not())
        return self.pairs[a, b]

    def terms(self) -> list[Any]:
        """Give the cost of every step that may stand between a slip and what shows it."""
        found = []
        for risk, born in enumerate(self.costs.born):
            for step, weight in enumerate(self.costs.weights[risk]):
                price = round(SCALE * float(self.costs.chance[risk] * weight))
                if price and step != born:
                    inside = self.model.new_bool_var("")
                    literals = [self.before(born, step)]
                    literals += [self.before(step, check) for check in self.costs.missed[risk]]
                    self.model.add_bool_or([*(one.Not() for one in literals), inside])
                    found.append(price * inside)
        return found


def solve(job: Job) -> Solved:
    """Let the solver do it."""
    start = perf_counter()
    model = Model(costs_of(job)).model
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = LIMIT
    status = solver.solve(model)
    return Solved(
        solver.objective_value / SCALE,
        solver.best_objective_bound / SCALE,
        status == cp_model.OPTIMAL,
        perf_counter() - start,
    )


def compare(name: str, ours: Order, theirs: Solved) -> None:
    """Make sure that both sides answer the same question, and alike."""
    apart = abs(ours.cost - theirs.cost)
    if ours.proven and theirs.proven and apart > 1e-6:
        raise SystemExit(f"{name}: two proven answers, {ours.cost:.4f} and {theirs.cost:.4f}")
    if ours.proven and theirs.cost < ours.cost - 1e-6:
        raise SystemExit(f"{name}: {ours.cost:.4f} is called proven, and {theirs.cost:.4f} is less")
    if theirs.proven and ours.cost > theirs.cost + 1e-6:
        raise SystemExit(f"{name}: {ours.cost:.4f} is found, and {theirs.cost:.4f} is proven")
    if not (ours.proven or theirs.proven) and ours.cost > (1 + CLOSE) * theirs.cost:
        raise SystemExit(f"{name}: {ours.cost:.4f} is more than 2 % above {theirs.cost:.4f}")


def orders() -> list[tuple[str, ...]]:
    """Find the order of every job on both sides."""
    head = ("job", "undone", "bound", "sets", "time", "CP-SAT", "bound", "time", "to CP-SAT")
    rows: list[tuple[str, ...]] = [head]
    for name, job in JOBS.items():
        if tangles(job):
            raise SystemExit(f"{name}: {tangles(job)[0].message}")
        start = perf_counter()
        ours = best_order(job)
        seconds = perf_counter() - start
        theirs = solve(job)
        compare(name, ours, theirs)
        rows.append(
            (
                name,
                f"{ours.cost:.4f}",
                "proven" if ours.proven else f"{ours.bound:.4f}",
                f"{ours.looked_at:,}",
                f"{seconds:.2f} s",
                f"{theirs.cost:.4f}",
                "proven" if theirs.proven else f"{theirs.bound:.4f}",
                f"{theirs.seconds:.2f} s",
                timing.times(seconds / theirs.seconds),
            )
        )
    return rows


def bodies(sloped: float) -> tuple[Body, ...]:
    """Draw parts of five cells each, a share of them sloped."""
    luck = np.random.default_rng(1)

    def cell() -> Stretch:
        first, long = luck.uniform(0, 900), luck.uniform(2, 30)
        low, high = luck.uniform(3, 60), luck.uniform(1, 10)
        rise = luck.uniform(-3, 3) if luck.random() < sloped else 0.0
        return Stretch(first, first + long, (low, low + rise), (low + high, low + rise + high))

    return tuple(Body(f"part {n}", tuple(cell() for _ in range(CELLS))) for n in range(PARTS))


def blocking() -> list[tuple[str, ...]]:
    """Time who stops whom, both ways, with all masks."""
    parts = {"level cells": bodies(0.0), "one in five sloped": bodies(0.2), "all": bodies(1.0)}
    sides: dict[str, timing.Act] = {n: partial(_moves, some) for n, some in parts.items()}
    runs = timing.in_turn(sides, ROUNDS)
    rows: list[tuple[str, ...]] = [(f"blocking of {PARTS} parts", "median", "aim")]
    for side in parts:
        seconds = runs.median(side)
        rows.append((side, timing.ms(seconds), timing.aim(seconds, 0.02)))
    return rows


def _moves(parts: tuple[Body, ...]) -> object:
    return Nest(parts).moves


def main() -> None:
    """Run both and print the tables."""
    print(timing.machine())
    print(timing.table(blocking()))
    print()
    print(timing.table(orders()))


if __name__ == "__main__":
    main()
