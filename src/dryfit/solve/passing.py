"""Whether what lies in a stack can get to its place over the lands on its way.

A part comes from one end of the line with its inner face first, and passes all lands up to where
that face comes to lie.
"""

from collections.abc import Iterator
from typing import Any, NamedTuple

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
from dryfit.solve.lands import Stretch, stretches
from dryfit.solve.rings import INNER, OUTER, sides
from dryfit.solve.roosts import OVERHANG, Roost, roosts
from dryfit.solve.sizes import metres

PRESSED = 0.2e-3
"""By how much a ring may be tighter than a land that it is pressed over [m]: estimate."""

ALIKE = 1e-9
"""Sizes that differ by less are told apart by nothing but their last binary digits [m]."""

SOLID = (Bearing, Spacer, ThrustWasher, Bush, Nut, Shaft)
"""What is whole all round, so that it has to be slid on."""

MAY_BE_SLIT = (ShimPack, Gasket, SpringWasher)
"""What may be slit to go on sideways."""


class _Passes(NamedTuple):
    """What has to pass lands: the key and text of its own size, and how wide it is [m]."""

    name: str
    key: str
    told: str
    width: float


def passing_doubts(rebuild: Rebuild, line: Line) -> Iterator[Finding]:
    """Find what cannot get to where it sits, on a shaft or in a case, from either end.

    Parameters
    ----------
    rebuild
        A unit that keeps the rules of `model.rules` [rebuild]
    line
        One of its lines [line]

    Returns
    -------
    findings
        A stop where it is impossible, a note where it may be the case that parts [findings]

    Valid
    -----
    References that hold, known threads; see `line_doubts`.

    Source
    ------
    What can be pressed: estimate. Threads: `mechanics.threads`.

    Examples
    --------
    >>> [*passing_doubts(Rebuild("mm"), Line("spindle", "nose", "tail", ()))]
    []
    """
    for stack in line.stacks:
        for name in dict.fromkeys(spot.part for spot in stack.spots):
            for host in hosts(rebuild, stack, name, OUTSIDE):
                hole = _hole(rebuild.parts[name])
                if hole:
                    yield from _blocked(rebuild, line, stack, host, hole, over=True)
            for host in hosts(rebuild, stack, name, BORE):
                outside = _outside(rebuild.parts[name])
                if outside and not _opens(rebuild.parts[host], line):
                    yield from _blocked(rebuild, line, stack, host, outside, over=False)


def hosts(rebuild: Rebuild, stack: Stack, name: str, side: str) -> list[str]:
    """List the parts of a stack on whose outside, or in whose bore, a part sits.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    stack
        One that the part lies in [stack]
    name
        The part [text]
    side
        `OUTSIDE` or `BORE` [text]

    Returns
    -------
    hosts
        Names of parts; one at most for a bearing [text]

    Valid
    -----
    A stack of known parts.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.model.spots import Spot
    >>> ring, nose = Spot("ring", "first end"), Spot("spindle", "nose")
    >>> parts = {"ring": Spacer("ring", "spacer"), "spindle": Shaft("spindle", "shaft")}
    >>> hosts(Rebuild("mm", parts=parts), Stack("s", (nose, ring)), "ring", OUTSIDE)
    ['spindle']
    """
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


def _opens(part: Part, line: Line) -> bool:
    """Tell a case that lets parts in beside a line: what goes in there is the order's question."""
    return isinstance(part, Housing) and (bool(part.opening) or line.name in part.split_along)


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
        tight = stretch.diameter - own.width if over else own.width - stretch.diameter
        if isinstance(stretch.size, Size) and tight > PRESSED + ALIKE:
            for from_first in ways:
                if any(_on_the_way(stretch, roost, from_first=from_first) for roost in known):
                    ways[from_first].append(stretch)
    if not all(ways.values()):
        return
    worst = {_worst(way, over=over).place: _worst(way, over=over) for way in ways.values()}
    named = sorted(worst.values(), key=lambda s: (s.diameter if over else -s.diameter, s.key))
    yield Finding(
        "land.blocks",
        ("parts", own.name, own.key),
        f"'{own.name}' ({own.told}) cannot get to where it sits {'on' if over else 'in'} "
        f"'{host}': {_said(named, over=over)}",
        "one of them is misread; or it goes on from the other side, and then the "
        f"{'shoulder there is smaller' if over else 'bore there is larger'}"
        + (_parts_there(line) if isinstance(rebuild.parts[host], Housing) else ""),
        _level(rebuild, own.name, host, named),
    )


def _parts_there(line: Line) -> str:
    return f"; or the case parts there: write split along: [{line.name}] to it"


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
    return max(way, key=lambda s: (s.diameter if over else -s.diameter, s.key))


def _said(named: list[Stretch], *, over: bool) -> str:
    """Say which land is in the way from either end."""
    less = "larger" if over else "smaller"
    told = [
        f"'{s.key}' is {s.size.text}" if s.key else f"all of it is {s.size.text}" for s in named
    ]
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
