"""Ticks of an axis in steps of 1, 2 and 5, their figures, and the span that an axis shows."""

from collections.abc import Sequence
from math import ceil, floor, log10

Span = tuple[float, float]
"""Least and greatest value that an axis shows."""


def step_of(low: float, high: float, most: int) -> float:
    """Step of ticks from the row 1, 2, 5 that gives so many ticks at most.

    >>> step_of(0.0, 0.13, 6), step_of(0.28, 0.52, 6), step_of(0, 90, 10)
    (0.05, 0.05, 10.0)
    """
    for power in range(floor(log10((high - low) / most)), 12):
        for step in (1, 2, 5):
            size = float(f"{step}e{power}")
            if len(multiples(low, high, size)) <= most:
                return size
    return high - low


def multiples(low: float, high: float, step: float) -> tuple[int, ...]:
    """Count the ticks between two values, in steps from nought.

    >>> multiples(0.28, 0.52, 0.1)
    (3, 4, 5)
    """
    dust = 1e-9
    return tuple(range(ceil(low / step - dust), floor(high / step + dust) + 1))


def figure(count: int, step: float) -> str:
    """Write the figure at a tick, with as many decimals as its step has.

    >>> figure(3, 0.05), figure(0, 0.05), figure(-2, 0.005), figure(4, 20.0)
    ('0.15', '0', '−0.010', '80')
    """
    places = max(0, -floor(log10(step) + 1e-9))
    text = f"{abs(count) * step:.{places}f}" if count else "0"
    return f"−{text}" if count < 0 else text


def spread(values: Sequence[float], *, nought: bool = False, room: float = 0.06) -> Span:
    """Give the span of an axis that holds all values, with some room; from nought on if told."""
    low, high = min(values), max(values)
    if nought:
        low, high = min(low, 0.0), max(high, 0.0)
    air = room * (high - low or abs(high) or 1.0)
    return (low if nought and low == 0.0 else low - air), high + air
