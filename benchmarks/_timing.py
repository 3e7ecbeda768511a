"""What the benchmarks share: runs taken in turn, their medians and ratios, and a small table.

What is compared is run A B A B ..., never A A B B: whatever slows the machine for a while then
slows both sides. A ratio is the median over the rounds of what stood side by side in one round.
"""

import os
import platform
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib.metadata import version
from statistics import median
from time import perf_counter

Act = Callable[[], object]


@dataclass(frozen=True, slots=True)
class Runs:
    """Times of several sides, one a round each.

    Attributes
    ----------
    seconds
        By side, in the order of the rounds [s].
    """

    seconds: Mapping[str, tuple[float, ...]]

    def median(self, side: str) -> float:
        """Give the time of a side [s]."""
        return median(self.seconds[side])

    def ratio(self, side: str, to: str) -> float:
        """Say how many times as long a side takes as another [-]."""
        pairs = zip(self.seconds[side], self.seconds[to], strict=True)
        return median(one / other for one, other in pairs)


def in_turn(sides: Mapping[str, Act], rounds: int, *, before: Act = lambda: None) -> Runs:
    """Time every side once a round, after one round that does not count.

    Parameters
    ----------
    sides
        What to run, by name.
    rounds
        How often.
    before
        What to do before each run, not timed.
    """
    seconds: dict[str, list[float]] = {side: [] for side in sides}
    for _ in range(1 + rounds):
        for side, act in sides.items():
            before()
            start = perf_counter()
            act()
            seconds[side].append(perf_counter() - start)
    return Runs({side: tuple(taken[1:]) for side, taken in seconds.items()})


def machine() -> str:
    """Describe what the figures were taken on."""
    python = f"{platform.python_implementation()} {platform.python_version()}"
    system = f"{platform.system()} {platform.machine()}"
    return f"{os.cpu_count()} cores, {system}, {python}, numpy {version('numpy')}"


def table(rows: list[tuple[str, ...]]) -> str:
    """Write rows below their heads, the first column to the left and the others to the right."""
    wide = [max(len(row[n]) for row in rows) for n in range(len(rows[0]))]
    lines = []
    for first, *others in rows:
        cells = [cell.rjust(size) for cell, size in zip(others, wide[1:], strict=True)]
        lines.append("  ".join([first.ljust(wide[0]), *cells]).rstrip())
    return "\n".join([lines[0], "-" * (sum(wide) + 2 * len(wide) - 2), *lines[1:]])


def ms(seconds: float) -> str:
    """Write a time in milliseconds."""
    return f"{seconds * 1e3:.{1 if seconds < 0.1 else 0}f} ms"


def times(ratio: float) -> str:
    """Write a ratio with about two figures that count."""
    places = next(n for n, least in enumerate((10, 1, 0.1, 0)) if ratio >= least)
    return f"{ratio:.{places}f} x"


def aim(seconds: float, most: float) -> str:
    """Say what was aimed at, and whether it is met."""
    return f"under {most * 1e3:.0f} ms: {'met' if seconds < most else 'MISSED'}"
