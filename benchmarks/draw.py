"""How long one drawing takes, for every demo: where its parts lie, and then its shapes and sheet.

The text is opened before and not timed: it is read and checked for whatever is asked of it.
"""

from functools import partial
from typing import TYPE_CHECKING

from dryfit.app.usecases import demos
from dryfit.app.usecases.drawing import DrawRequest, drawn
from dryfit.app.usecases.lying import lying
from dryfit.app.usecases.opening import open_text

if TYPE_CHECKING:
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing

ROUNDS, MOST = 9, 0.1
"""Rounds, and what shapes and sheet of one drawing may take [s]."""

LIE, DRAW = "where its parts lie", "shapes and sheet"


def main() -> None:
    """Time all demos and print the table."""
    rows: list[tuple[str, ...]] = [("demo", LIE, DRAW, "aim")]
    for name in demos.names():
        text = demos.text(name)
        opened = open_text(text)
        lies = lying(opened.rebuild)
        sides: dict[str, timing.Act] = {
            LIE: partial(lying, opened.rebuild),
            DRAW: partial(drawn, opened, DrawRequest(text), lies),
        }
        runs = timing.in_turn(sides, ROUNDS)
        own = runs.median(DRAW)
        rows.append((name, timing.ms(runs.median(LIE)), timing.ms(own), timing.aim(own, MOST)))
    print(f"{timing.machine()}\nmedians of {ROUNDS} rounds in turn\n\n{timing.table(rows)}")


if __name__ == "__main__":
    main()
