"""How long it takes from the start of a process to its end: the sheet of a demo, and the help.

Compared in turn with Python that does nothing, and with Python that only loads numpy. Every time
holds what the system needs to start a process. Bytecode is kept, as it is for any user; the round
that does not count writes it.
"""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchmarks import _timing as timing
else:  # a script's own folder is on the path, the one above is not
    import _timing as timing

ROOT = Path(__file__).resolve().parent.parent
ROUNDS = 15

BARE, NUMPY = "python -c pass", "python -c 'import numpy'"
HELP, DEMO = "python -m dryfit --help", "python -m dryfit demo"

SIDES = {
    BARE: ("-c", "pass"),
    NUMPY: ("-c", "import numpy"),
    HELP: ("-m", "dryfit", "--help"),
    DEMO: ("-m", "dryfit", "demo"),
}
AIMS = {HELP: 0.2, DEMO: 0.6}


def starting(words: tuple[str, ...]) -> Callable[[], object]:
    """Start Python with these words and wait for its end; a failure ends the benchmark."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}

    def act() -> object:
        command = [sys.executable, *words]
        return subprocess.run(
            command, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL, check=True
        )

    return act


def main() -> None:
    """Time all sides and print the table."""
    runs = timing.in_turn({side: starting(words) for side, words in SIDES.items()}, ROUNDS)
    rows: list[tuple[str, ...]] = [("process", "median", "to bare", "to numpy", "aim")]
    for side in SIDES:
        seconds = runs.median(side)
        rows.append(
            (
                side,
                timing.ms(seconds),
                timing.times(runs.ratio(side, BARE)),
                timing.times(runs.ratio(side, NUMPY)),
                timing.aim(seconds, AIMS[side]) if side in AIMS else "",
            )
        )
    print(f"{timing.machine()}\nmedians of {ROUNDS} rounds in turn\n\n{timing.table(rows)}")


if __name__ == "__main__":
    main()
