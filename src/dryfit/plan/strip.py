"""A nest taken apart, body by body or by groups that leave as one, and what is locked: `strip`."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from dryfit.plan.bodies import ALL_ROUND, Level
from dryfit.plan.doors import too_small
from dryfit.plan.masks import bits
from dryfit.plan.nest import Nest
from dryfit.plan.spanners import surely_shut


@dataclass(frozen=True, slots=True)
class Taken:
    """What comes off in one go, and by which way.

    Attributes
    ----------
    bodies
        Their names.
    way
        As a move tells it.
    past
        What would stop it by an estimate: a size nobody has typed.
    """

    bodies: tuple[str, ...]
    way: str
    past: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Strip:
    """A nest taken apart.

    Attributes
    ----------
    taken
        What comes off, the first first; put together it is gone backwards.
    locked
        What will not come off, each with what it would need.
    """

    taken: tuple[Taken, ...]
    locked: Mapping[str, str]


def strip(nest: Nest, stays: Sequence[str] = ()) -> Strip:
    """Take a nest apart body by body, or by the smallest group that moves as one.

    Bodies only come off, and that only frees the others: it never runs into a corner of its own
    making, and what is left when it stops is locked. A nut is unscrewed where a spanner gets to it;
    that, seats and estimates are disregarded only where nothing else comes off.

    Examples
    --------
    >>> from dryfit.plan.bodies import Body, stretch
    >>> pin = Body("pin", (stretch(0, 5, 0, 8), stretch(5, 30, 0, 5)))
    >>> ring = Body("ring", (stretch(10, 20, 5, 9),))
    >>> [(taken.bodies, taken.way) for taken in strip(Nest((pin, ring)), ["pin"]).taken]
    [(('ring',), 'to last')]
    """
    fixed = nest.mask(stays)
    there, taken = nest.full, list[Taken]()
    while there & ~fixed:
        found = next(filter(None, _tries(nest, there, fixed)), None)
        if found is None:
            break
        group, way, past = found
        taken.append(Taken(nest.told(group), way, nest.told(past)))
        there ^= group
    return Strip(tuple(taken), _needs(nest, there, fixed) if there & ~fixed else {})


Off = tuple[int, str, int]
"""A group, its way off, and what would stop it by an estimate."""


@dataclass(frozen=True, slots=True)
class _Minds:
    """What is minded as something comes off: seats, estimates of sizes, spanners."""

    seats: bool = True
    estimates: bool = True
    spanners: bool = True


MINDS = (
    _Minds(),
    _Minds(estimates=False),
    _Minds(spanners=False),
    _Minds(estimates=False, spanners=False),
    _Minds(seats=False, spanners=False),
    _Minds(seats=False, estimates=False, spanners=False),
)
"""From all to nothing, as far as it takes for something to come off."""


def _tries(nest: Nest, there: int, fixed: int) -> Iterator[Off | None]:
    """Try what is likeliest first; of what goes past estimates, what disregards least."""
    for minds in MINDS:
        singles = _singles(nest, there, fixed, minds)
        groups = _groups(nest, there, fixed, minds)
        if minds.estimates:
            yield next(singles, None)
            yield min(groups, key=_disregards, default=None)
        else:
            yield min([*singles, *groups], key=_disregards, default=None)


def _disregards(off: Off) -> tuple[int, int]:
    group, _, past = off
    return past.bit_count(), group.bit_count()


def _singles(nest: Nest, there: int, fixed: int, minds: _Minds) -> Iterator[Off]:
    """List the bodies that come off alone: halves of cases, then the last drawn first."""
    loose = sorted(bits(there & ~fixed), reverse=True)
    for n in sorted(loose, key=lambda n: not nest.bodies[n].is_half):
        if minds.seats and nest.riders[n] & there:
            continue
        others = there & ~(1 << n)
        if minds.spanners and not _turned(nest, 1 << n, there):
            continue
        for move in nest.moves[n]:
            if not (move.stops if minds.estimates else move.surely) & others:
                yield 1 << n, move.way, move.stops & others


def _turned(nest: Nest, group: int, there: int) -> bool:
    """Tell whether a spanner gets to all of a group that leaves its thread behind."""
    left = there & ~group
    screwed = [n for n in bits(group) if nest.bodies[n].can is Level.SCREW]
    return not any(
        nest.screwed_to(n) & left and surely_shut(nest, nest.bodies[n].name, there & ~(1 << n))
        for n in screwed
    )


def _groups(nest: Nest, there: int, fixed: int, minds: _Minds) -> Iterator[Off]:
    """List the groups that leave one way and leave something behind."""
    typed, riding = not minds.estimates, minds.seats
    for n in bits(there & ~fixed):
        for number, way in enumerate(nest.every_way):
            group = nest.unit(1 << n, number, there, typed=typed, riding=riding)
            if minds.spanners and not _turned(nest, group, there):
                continue
            if not group & fixed and group != there:
                past = 0
                for one in bits(group):
                    past |= nest.stops(one, number, typed=False) & there & ~group
                yield group, way, past


def _needs(nest: Nest, there: int, fixed: int) -> dict[str, str]:
    """Say of each body that is locked what stops it each way, and how hard."""
    return {nest.bodies[n].name: _need(nest, n, there) for n in bits(there & ~fixed)}


def _need(nest: Nest, number: int, there: int) -> str:
    told: dict[str, str] = {}
    for way, move in enumerate(nest.moves[number]):
        others = move.stops & there & ~(1 << number)
        stops = [f"'{nest.bodies[n].name}'{_how(nest, number, way, n)}" for n in bits(others)]
        told.setdefault(move.way, f"{move.way}: {', '.join(stops)}")
    return "; ".join(told.values())


HOW = {Level.SCREW: " (to be unscrewed)", Level.SNAP: " (to be sprung)"}
"""What a body would need to get past another, where that helps."""


def _how(nest: Nest, number: int, way: int, other: int) -> str:
    own, met = nest.bodies[number], nest.bodies[other]
    if own.outwards:
        return ""
    if way < len(nest.ways):
        if met.outwards == ALL_ROUND:
            bore = min(min(c.inner) for c in own.cells)
            high = max(max(c.outer) for c in met.cells) - bore
            return f" (a key {high:.1f} mm higher than its bore)" if bore and high > 0 else ""
        return HOW.get(Level(nest.levels[way][number, other]), "")
    move = nest.moves[number][way]
    door = next(door for door in nest.doors if door.way == move.way)
    return too_small(nest.cells, number, door) if other == nest.at[door.host] else ""
