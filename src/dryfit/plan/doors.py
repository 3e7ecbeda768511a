"""Ways in beside the line: an opening in the side of a case, a case that parts in two halves.

A body goes straight across through it, or first along the line until it is off what it sits on and
before the opening. Reading order: a door, what is in the way across and along, ways through.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from dryfit.plan.bodies import FAR, NIP, SAME
from dryfit.plan.sweep import PRESSED, Cells


@dataclass(frozen=True, slots=True)
class Door:
    """Where bodies go in across the axis.

    Attributes
    ----------
    way
        As it is told: "out of the opening".
    host
        The body it is in.
    span
        From where to where it is open along the line [mm].
    half
        Half of its width across [mm].
    lid
        What has to be off: the other half of a split case; empty for none.
    """

    way: str
    host: str
    span: tuple[float, float] = (-FAR, FAR)
    half: float = FAR
    lid: str = ""


Shift = tuple[float, int]
"""How far a body goes along before it goes across [mm], and what is in its way on both."""


def across(cells: Cells, number: int, host: int, door: Door, shift: float = 0.0) -> int:
    """Give the bodies in the way of one that goes across after so much of a way along.

    What lies round it, or within it, stops it; its host only where the door is too small.
    """
    own = cells.body == number
    first, last = cells.first[own][:, None] + shift, cells.last[own][:, None] + shift
    beside = np.minimum(last, cells.last) - np.maximum(first, cells.first) > NIP
    met = beside.any(axis=0) & ~own
    if fits(cells, number, door, shift):
        met &= cells.body != host
    return _mask(cells, met)


def fits(cells: Cells, number: int, door: Door, shift: float = 0.0) -> bool:
    """Tell whether a body is no longer and no wider than the door before which it lies."""
    own = cells.body == number
    first, last = cells.first[own].min() + shift, cells.last[own].max() + shift
    long = first >= door.span[0] - NIP and last <= door.span[1] + NIP
    return bool(long and cells.outer[own].max() <= door.half + NIP)


def along(cells: Cells, number: int, shift: float) -> int:
    """Give the bodies in the way of one that goes so far along the line and no further [mm]."""
    own = cells.body == number
    first, last = cells.first[own][:, None], cells.last[own][:, None]
    inner, outer = cells.inner.min(axis=1), cells.outer.max(axis=1)
    high = np.minimum(outer[own][:, None], outer)
    deep = high - np.maximum(inner[own][:, None], inner)
    gives = np.maximum(cells.gives[own][:, None], cells.gives)
    hard = deep > np.maximum(np.maximum(PRESSED * high, SAME), gives)
    if shift > 0:
        met = (cells.last > first + NIP) & (cells.first < last + shift - NIP)
    else:
        met = (cells.first < last - NIP) & (cells.last > first + shift + NIP)
    same = (cells.angles[own][:, None] & cells.angles) != 0
    return _mask(cells, (hard & met & same).any(axis=0) & ~own)


def shifts(cells: Cells, number: int, door: Door, seat: int | None) -> Iterator[float]:
    """List how far a body may go along first: off what it sits on, and before the door [mm]."""
    own = cells.body == number
    first, last = cells.first[own].min(), cells.last[own].max()
    yield 0.0
    yield from (float(s) for s in (door.span[0] - first, door.span[1] - last) if abs(s) < FAR / 2)
    if seat is not None:
        on = cells.body == seat
        yield float(cells.first[on].min() - last)
        yield float(cells.last[on].max() - first)


def ways_through(cells: Cells, number: int, host: int, door: Door, seat: int | None) -> list[int]:
    """Give for each way through a door what is in the way; no way that another is better than."""
    found = []
    for shift in dict.fromkeys(shifts(cells, number, door, seat)):
        stopped = along(cells, number, shift) if shift else 0
        found.append(stopped | across(cells, number, host, door, shift))
    few = sorted(set(found), key=lambda mask: mask.bit_count())
    return [mask for n, mask in enumerate(few) if not any(less & mask == less for less in few[:n])]


def too_small(cells: Cells, number: int, door: Door) -> str:
    """Say why a body does not go through a door, if it is for its size."""
    own = cells.body == number
    first, last = float(cells.first[own].min()), float(cells.last[own].max())
    wide, long, open_ = 2 * float(cells.outer[own].max()), last - first, door.span[1] - door.span[0]
    beyond = max(door.span[0] - first, last - door.span[1])
    told = []
    if wide > 2 * (door.half + NIP):
        told.append(f"it is {2 * door.half:.1f} wide, and {wide:.1f} are needed")
    if long > open_ + NIP:
        told.append(f"it is {open_:.1f} long, and {long:.1f} are needed")
    elif beyond > NIP:
        told.append(f"what goes through lies {beyond:.1f} beyond it, and stops there")
    return f" ({'; '.join(told)})" if told else ""


def _mask(cells: Cells, met: NDArray[np.bool_]) -> int:
    return sum(1 << int(n) for n in np.unique(cells.body[met]))
