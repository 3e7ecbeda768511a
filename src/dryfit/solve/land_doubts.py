"""What arithmetic finds wrong with lands: overlaps, walls of nothing, seats told twice."""

from collections.abc import Iterator
from itertools import combinations

import numpy as np

from dryfit.model.lands import BORE, OUTSIDE
from dryfit.model.parts import Bearing
from dryfit.model.rebuild import Line, Rebuild
from dryfit.quantities import Finding, Size
from dryfit.solve.lands import Stretch, stretches
from dryfit.solve.luck import LOOKS, TOO_RARE, Luck
from dryfit.solve.passing import hosts, passing_doubts
from dryfit.solve.rings import INNER, OUTER
from dryfit.solve.roosts import seat_of
from dryfit.solve.sizes import gauge, true_size

EDGE = 1e-6
"""Lands that meet at one spot have no more than this in common [m]."""


def land_doubts(rebuild: Rebuild) -> tuple[Finding, ...]:
    """Find what arithmetic finds wrong with lands.

    Parameters
    ----------
    rebuild
        A unit that keeps the rules of `model.rules` [rebuild]

    Returns
    -------
    findings
        All of them, with their places [findings]

    Valid
    -----
    References that hold, known threads; see `line_doubts`.

    Source
    ------
    Seat and land: their difference against its own draws.

    Examples
    --------
    >>> land_doubts(Rebuild("mm"))
    ()
    """
    told: dict[tuple[object, ...], Finding] = {}
    for line in rebuild.lines.values():
        for finding in (*_overlaps(rebuild, line), *passing_doubts(rebuild, line)):
            told.setdefault((finding.code, finding.place), finding)
    return (*told.values(), *_seats(rebuild))


def _overlaps(rebuild: Rebuild, line: Line) -> Iterator[Finding]:
    """No place of a part has two diameters, and each has a wall."""
    for name in dict.fromkeys(s.part for stack in line.stacks for s in stack.spots):
        outside = stretches(rebuild, name, OUTSIDE, line)
        bore = stretches(rebuild, name, BORE, line)
        for side in (outside, bore):
            for one, other in combinations(side, 2):
                if _common(one, other):
                    yield _overlap(name, one, other)
        for hole in bore:
            for round_it in outside:
                yield from _wall(name, hole, round_it)


def _common(one: Stretch, other: Stretch) -> bool:
    """Tell whether two lands have more than an edge in common."""
    if None not in (one.group, other.group) and one.group != other.group:
        return False
    return min(one.last, other.last) - max(one.first, other.first) > EDGE


def _overlap(name: str, one: Stretch, other: Stretch) -> Finding:
    first, second = sorted((one, other), key=lambda each: each.key)
    return Finding(
        "land.overlap",
        second.place,
        f"'{first.key}' and '{second.key}' of '{name}' overlap, so one place would have two "
        "diameters",
        "let one end where the other begins, or look at the sizes between their spots",
    )


def _wall(name: str, hole: Stretch, round_it: Stretch) -> Iterator[Finding]:
    """Two lands that lie over each other, though not between the same spots, leave a wall."""
    sizes = (hole.size, round_it.size)
    if not (hole.key and round_it.key and _common(hole, round_it)):
        return  # `model.land_rules` tells of one size all along
    if all(isinstance(size, Size) for size in sizes) and hole.diameter >= round_it.diameter:
        yield Finding(
            "land.wall",
            hole.place,
            f"the bore of '{name}' from {hole.key} ({hole.size.text}) is not less than its outside "
            f"from {round_it.key} ({round_it.size.text}), which lies over it",
            "measure one again, or look at the sizes between their spots",
        )


def _seats(rebuild: Rebuild) -> Iterator[Finding]:
    """A seat and the land it is agree as well as their instruments allow."""
    draws = Luck(LOOKS)
    for name, part in rebuild.parts.items():
        for field, ring in (("seat", INNER), ("pocket", OUTER)):
            typed = getattr(part, field, None)
            if not isinstance(part, Bearing) or not isinstance(typed, Size):
                continue
            land = seat_of(rebuild, name, ring, _told_host(rebuild, part, ring))
            if land is None or not isinstance(land.size, Size):
                continue
            by, land_by = gauge(rebuild, typed.instrument), gauge(rebuild, land.size.instrument)
            if by is None or land_by is None:
                continue
            place = tuple(str(key) for key in land.place)
            gap = true_size(draws, ("parts", name, field), typed, by)
            gap = gap - true_size(draws, place, land.size, land_by)
            middle = float(np.mean(gap))
            if float(np.mean(np.abs(gap - middle) >= abs(middle))) < TOO_RARE:
                yield Finding(
                    f"bearing.{field} twice",
                    ("parts", name, field),
                    f"the {field} of '{name}' ({typed.text}) and its land on '{land.place[1]}' "
                    f"({land.size.text}) differ by more than their instruments explain",
                    f"measure again and take one of them out; until then the {field} counts",
                    "note",
                )


def _told_host(rebuild: Rebuild, part: Bearing, ring: str) -> str:
    """Name what a ring sits on or in: as told, else the one that its stack shows."""
    told = part.on if ring == INNER else part.in_
    for line in rebuild.lines.values():
        for stack in line.stacks:
            if not told and part.name in {spot.part for spot in stack.spots}:
                side = OUTSIDE if ring == INNER else BORE
                told = next(iter(hosts(rebuild, stack, part.name, side)), None)
    return told or ""
