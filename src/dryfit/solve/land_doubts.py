"""What arithmetic finds wrong with lands: overlaps, rings that cannot pass, seats told twice."""

from collections.abc import Iterator
from itertools import combinations
from typing import Any, NamedTuple

import numpy as np

from dryfit.mechanics.threads import thread, thread_size
from dryfit.model.lands import BORE, OUTSIDE
from dryfit.model.parts import (
    Bearing,
    Bush,
    Cluster,
    Cover,
    Gasket,
    Housing,
    Nut,
    Part,
    Pin,
    Shaft,
    ShimPack,
    Spacer,
    SpringWasher,
    ThreadedRing,
    ThrustWasher,
)
from dryfit.model.rebuild import Line, Rebuild, Stack
from dryfit.quantities import Finding, Level, Size
from dryfit.solve.lands import OVERHANG, Roost, Stretch, roosts, seat_of, stretches
from dryfit.solve.luck import LOOKS, TOO_RARE, Luck
from dryfit.solve.rings import INNER, OUTER, sides
from dryfit.solve.sizes import gauge, metres, true_size

PRESSED = 0.2e-3
"""By how much a ring may be tighter than a land that it is pressed over [m]: estimate."""

EDGE = 1e-6
"""Lands that meet at one spot have no more than this in common [m]."""

ALIKE = 1e-9
"""Sizes that differ by less are told apart by nothing but their last binary digits [m]."""

SOLID = (Bearing, Spacer, ThrustWasher, Bush, Nut, Shaft)
"""What is whole all round, so that it has to be slid on."""

MAY_BE_SLIT = (ShimPack, Gasket, SpringWasher)
"""What may be slit to go on sideways."""


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
    What can be pressed: estimate. Seat and land: their difference against its own draws.

    Examples
    --------
    >>> land_doubts(Rebuild("mm"))
    ()
    """
    told: dict[tuple[object, ...], Finding] = {}
    for line in rebuild.lines.values():
        for finding in (*_overlaps(rebuild, line), *_passing(rebuild, line)):
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
    if all(isinstance(size, Size) for size in sizes) and _metres(hole) >= _metres(round_it):
        yield Finding(
            "land.wall",
            hole.place,
            f"the bore of '{name}' from {hole.key} ({_text(hole)}) is not less than its outside "
            f"from {round_it.key} ({_text(round_it)}), which lies over it",
            "measure one again, or look at the sizes between their spots",
        )


def _metres(stretch: Stretch) -> float:
    return metres(stretch.size) if isinstance(stretch.size, Size) else 0.0


def _text(stretch: Stretch) -> str:
    return stretch.size.text


class _Passes(NamedTuple):
    """What has to pass lands: the key and text of its own size, and how wide it is [m]."""

    name: str
    key: str
    told: str
    width: float


def _passing(rebuild: Rebuild, line: Line) -> Iterator[Finding]:
    """All that sits on a shaft or in a case can get there from one end."""
    for stack in line.stacks:
        for name in dict.fromkeys(spot.part for spot in stack.spots):
            for host in _hosts(rebuild, stack, name, OUTSIDE):
                hole = _hole(rebuild.parts[name])
                if hole:
                    yield from _blocked(rebuild, line, stack, host, hole, over=True)
            for host in _hosts(rebuild, stack, name, BORE):
                outside = _outside(rebuild.parts[name])
                if outside:
                    yield from _blocked(rebuild, line, stack, host, outside, over=False)


def _hosts(rebuild: Rebuild, stack: Stack, name: str, side: str) -> list[str]:
    """List the parts of a stack on whose outside, or in whose bore, a part sits."""
    part = rebuild.parts[name]
    parts = list(dict.fromkeys(spot.part for spot in stack.spots))
    others = [other for other in parts if other != name]
    shafts = [p for p in others if isinstance(rebuild.parts[p], Shaft | Pin)]
    cases = [
        p
        for p in others
        if isinstance(rebuild.parts[p], Housing | Cover) and not isinstance(rebuild.parts[p], Pin)
    ]
    if isinstance(part, Bearing):
        if sides(rebuild, parts, part) != {INNER if side == OUTSIDE else OUTER}:
            return []
        told = part.on if side == OUTSIDE else part.in_
        if told:
            return [told] if told in others else []
        return shafts[:1] if side == OUTSIDE else cases[:1]
    if side == OUTSIDE:
        if isinstance(part, ThreadedRing):
            return []
        # a ring beside a cluster may lie in a recess of it
        return [p for p in shafts if not isinstance(rebuild.parts[p], Cluster)]
    if isinstance(part, ThreadedRing):
        return cases
    round_shaft = shafts or any(_is_nut(rebuild.parts[p]) for p in parts)
    return [] if round_shaft or isinstance(part, Shaft | Cover | Housing) else cases


def _is_nut(part: Part) -> bool:
    return isinstance(part, Nut) and not isinstance(part, ThreadedRing)


def _hole(part: Any) -> _Passes | None:
    """Give the hole of a part: its bore, or as far as a thread can be screwed."""
    if isinstance(part, Nut):
        if isinstance(part, ThreadedRing) or not part.thread:
            return None
        return _Passes(part.name, "thread", f"thread {part.thread}", thread_size(part.thread)[0])
    bore = getattr(part, BORE, None)
    if not isinstance(part, (*SOLID, *MAY_BE_SLIT)) or not isinstance(bore, Size):
        return None
    return _Passes(part.name, BORE, f"bore {bore.text}", metres(bore))


def _outside(part: Any) -> _Passes | None:
    """Give how wide a part is; a threaded ring as its thread is at its root in the case."""
    if isinstance(part, ThreadedRing):
        if not part.thread:
            return None
        size = thread_size(part.thread)
        root = float(thread(size.diameter, size.pitch, form=size.form).minor_diameter)
        return _Passes(part.name, "thread", f"thread {part.thread}", root)
    if not isinstance(part, (*SOLID, *MAY_BE_SLIT)) or not isinstance(part.outside, Size):
        return None
    return _Passes(part.name, OUTSIDE, f"outside {part.outside.text}", metres(part.outside))


def _blocked(
    rebuild: Rebuild, line: Line, stack: Stack, host: str, own: _Passes, *, over: bool
) -> Iterator[Finding]:
    """Tell a part that lands keep from where it sits, whichever end it comes from."""
    known = [*roosts(rebuild, stack, own.name, host)]
    ways: dict[bool, list[Stretch]] = {True: [], False: []}
    for stretch in stretches(rebuild, host, OUTSIDE if over else BORE, line):
        tight = _metres(stretch) - own.width if over else own.width - _metres(stretch)
        if isinstance(stretch.size, Size) and tight > PRESSED + ALIKE:
            for from_first in ways:
                if any(_on_the_way(stretch, roost, from_first=from_first) for roost in known):
                    ways[from_first].append(stretch)
    if not all(ways.values()):
        return
    worst = {_worst(way, over=over).place: _worst(way, over=over) for way in ways.values()}
    named = sorted(worst.values(), key=lambda s: (_metres(s) if over else -_metres(s), s.key))
    yield Finding(
        "land.blocks",
        ("parts", own.name, own.key),
        f"'{own.name}' ({own.told}) cannot get to where it sits {'on' if over else 'in'} "
        f"'{host}': {_said(named, over=over)}",
        "one of them is misread; or it goes on from the other side, and then the "
        f"{'shoulder there is smaller' if over else 'bore there is larger'}"
        + ("; or the case parts there" if isinstance(rebuild.parts[host], Housing) else ""),
        _level(rebuild, own.name, host, named),
    )


def _on_the_way(stretch: Stretch, roost: Roost, *, from_first: bool) -> bool:
    """Tell whether a part that comes from one end has to pass a land to get to its place."""
    bounds = stretch.within(roost.group)
    if bounds is None:
        return False
    first, last = bounds
    if from_first:
        return roost.far is not None and first < roost.far - OVERHANG
    return roost.near is not None and last > roost.near + OVERHANG


def _worst(way: list[Stretch], *, over: bool) -> Stretch:
    """Name the land that lets least through."""
    return max(way, key=lambda s: (_metres(s) if over else -_metres(s), s.key))


def _said(named: list[Stretch], *, over: bool) -> str:
    """Say which land is in the way from either end."""
    less = "larger" if over else "smaller"
    told = [f"'{s.key}' is {_text(s)}" if s.key else f"all of it is {_text(s)}" for s in named]
    if len(told) == 1:
        return f"from either end {told[0]}, {less}"
    return f"from one end {told[0]}, from the other {told[1]}, both {less}"


def _level(rebuild: Rebuild, name: str, host: str, named: list[Stretch]) -> Level:
    """Stop only at what is impossible.

    What may be slit goes on sideways, a case may part, and one size for a whole part may be rough.
    """
    slit = isinstance(rebuild.parts[name], MAY_BE_SLIT)
    parts = isinstance(rebuild.parts[host], Housing)
    rough = any(not stretch.key for stretch in named)
    return "note" if slit or parts or rough else "stop"


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
                told = next(iter(_hosts(rebuild, stack, part.name, side)), None)
    return told or ""
