"""How many draws a second come to rest, by the size of the line.

By arrays on one core, by compiled steps on all, compared in turn with scipy's root finder (hybr,
with the Jacobian, from the nominal answer), one draw at a time; only draws that it converges on
count, and its time is scaled to as many. Lines are chains of faces with a row of balls at every
fourth contact and a branch at every tenth body.
"""

from functools import partial
from typing import TYPE_CHECKING, Any

import numpy as np
from scipy.optimize import root

from dryfit.mechanics.ball_rows import ball_row
from dryfit.mechanics.pushed import faces
from dryfit.solve import equilibrium
from dryfit.solve.equations import GROUND, Element, Law
from dryfit.solve.equilibrium import settle

if TYPE_CHECKING:
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing

ROW = Law(ball_row, {"angle": 0.44, "distance": 0.42e-3, "balls": 12.0, "constant": 1.3e10})
STIFF = Law(faces, {"stiffness": 4e8})
DRAWS, ALONE, ROUNDS = 8_192, 100, 3
BODIES = (2, 8, 30, 60)


def line(bodies: int, draws: int) -> tuple[list[Element], Any]:
    """Make a line that is nipped, each draw a little otherwise."""
    luck = np.random.default_rng(bodies)
    pairs = [(n - 1, n) for n in range(bodies)] + [(bodies - 1, GROUND)]
    pairs += [(n, min(n + 5, bodies - 1)) for n in range(0, bodies - 1, 10)]
    elements = [
        Element(str(n), a, b, luck.normal(8e-6, 2e-6, draws), ROW if n % 4 == 1 else STIFF)
        for n, (a, b) in enumerate(pairs)
    ]
    return elements, luck.normal(0, 50, (bodies, draws))


def unbalanced(places: Any, elements: list[Element], loads: Any, draw: int) -> tuple[Any, Any]:
    """Give the force left on each body of one draw, and its derivative."""
    out = -loads[:, draw]
    slope = 1.0 * np.eye(len(out))
    for e in elements:
        overlap = e.offset[draw]
        overlap += places[e.before] if e.before != GROUND else 0.0
        overlap -= places[e.after] if e.after != GROUND else 0.0
        pushed = e.law.formula.function(np.float64(overlap), **e.law.arguments)
        ends = [(e.before, 1.0), (e.after, -1.0)]
        for i, sign in ends:
            if i != GROUND:
                out[i] += sign * pushed.force
                for j, other in ends:
                    if j != GROUND:
                        slope[i, j] += sign * other * pushed.stiffness
    return out, slope


def alone(elements: list[Element], loads: Any, start: Any) -> int:
    """Solve draws one by one; count those that converge."""
    solved = 0
    for draw in range(ALONE):
        found = root(
            lambda x, draw=draw: unbalanced(x, elements, loads, draw), start, jac=True, tol=1e-10
        )
        solved += bool(found.success and np.max(np.abs(found.fun)) < 1e-4)
    return solved


def settled(bodies: int, elements: list[Element], loads: Any, *, compiled: bool) -> None:
    """Solve all draws."""
    equilibrium.COMPILED = compiled
    settle(bodies, elements, loads)


def main() -> None:
    """Time all sizes and print the table."""
    head = ("bodies", "arrays", "compiled", "scipy", "arrays/scipy", "compiled/scipy", "it solves")
    rows: list[tuple[str, ...]] = [head]
    numba = equilibrium.compiler() is not None
    for bodies in BODIES:
        elements, loads = line(bodies, DRAWS)
        one = [Element(e.name, e.before, e.after, e.offset[:1], e.law) for e in elements]
        start = settle(bodies, one, loads[:, :1]).places[:, 0]
        converged = max(alone(elements, loads, start), 1)
        runs = timing.in_turn(
            {
                "arrays": partial(settled, bodies, elements, loads, compiled=False),
                "compiled": partial(settled, bodies, elements, loads, compiled=numba),
                "scipy": partial(alone, elements, loads, start),
            },
            ROUNDS,
        )
        arrays, fast = (DRAWS / runs.median(side) for side in ("arrays", "compiled"))
        theirs = converged / runs.median("scipy")
        rates = (f"{rate:,.0f}" for rate in (arrays, fast, theirs))
        ratios = (timing.times(rate / theirs) for rate in (arrays, fast))
        rows.append((str(bodies), *rates, *ratios, f"{converged} of {ALONE}"))
    print(timing.machine())
    print("draws a second" + ("" if numba else "; numba is not here: 'compiled' is arrays again"))
    print(timing.table(rows))


if __name__ == "__main__":
    main()
