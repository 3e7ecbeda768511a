"""How long a row of balls takes: force and stiffness of a million draws at once.

Compared in turn with the bare square roots and powers that the law itself needs, as many of them,
by NumPy on arrays of the same size: nothing that works the law out with NumPy can be faster.
"""

from typing import TYPE_CHECKING

import numpy as np

from dryfit.mechanics.ball_rows import ball_row
from dryfit.mechanics.formula import Number
from dryfit.mechanics.roller_rows import taper_row

if TYPE_CHECKING:
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing

DRAWS = 1_000_000
ROUNDS = 9

BALLS, TAPERS = "ball row, force and stiffness", "taper row, force and stiffness"
ROOTS, POWER = "two square roots", "one power"


def main() -> None:
    """Time all sides and print the table."""
    draws = np.random.default_rng(1)
    approach = 10e-6 + 5e-6 * draws.standard_normal(DRAWS)
    growth = 5e-6 * draws.random(DRAWS)
    positive = draws.random(DRAWS) + 0.5
    balls: dict[str, Number] = {"distance": 0.42e-3, "balls": 12.0, "constant": 1.3e10}
    tapers: dict[str, Number] = {"rollers": 17.0, "length": 12e-3, "inner_growth": growth}
    runs = timing.in_turn(
        {
            BALLS: lambda: ball_row(approach, 0.44, **balls, inner_growth=growth),
            ROOTS: lambda: (np.sqrt(positive), np.sqrt(positive)),
            TAPERS: lambda: taper_row(approach, 0.25, **tapers),
            POWER: lambda: positive ** (1 / 9),
        },
        ROUNDS,
    )
    rows: list[tuple[str, ...]] = [("a million draws", "median", "to the bare law")]
    for side, bare in ((BALLS, ROOTS), (TAPERS, POWER)):
        ratio = timing.times(runs.ratio(side, bare))
        rows.append((side, timing.ms(runs.median(side)), ratio))
        rows.append((f"  {bare}", timing.ms(runs.median(bare)), ""))
    print(timing.machine())
    print(timing.table(rows))


if __name__ == "__main__":
    main()
