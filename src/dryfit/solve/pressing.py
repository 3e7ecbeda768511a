"""Which rings have to be pressed on or in, or fitted warm: force, temperature, and who takes it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from dryfit.mechanics.fits import press_pressure
from dryfit.mechanics.materials import MATERIALS
from dryfit.mechanics.press import FRICTION, rise_to_slip_on, slip_force
from dryfit.model.lands import BORE, OUTSIDE
from dryfit.model.parts import Bearing, Bush, Ring, Spacer, SpringWasher, ThrustWasher
from dryfit.model.rebuild import Between, Line, Rebuild
from dryfit.model.spots import Spot
from dryfit.quantities import Size
from dryfit.solve.bodies import BODIES
from dryfit.solve.growth import Around, Growth, growth, measured, tight
from dryfit.solve.held_doubts import STUCK
from dryfit.solve.luck import Draws, Luck, NoLuck
from dryfit.solve.passing import hosts
from dryfit.solve.rings import INNER, OUTER, on_rings, owner, ring
from dryfit.solve.roosts import seat_of
from dryfit.solve.sample import Sample, sample
from dryfit.solve.seats import seats
from dryfit.solve.sizes import gauge, metres, true_size

FREE = 1 / 2000
"""Share of its diameter by which a ring put on warm is free: common practice, no source."""

ROOM = 293.15
"""Warmth of a workshop, from which a rise is counted [K]: ISO 1."""

DRAWS, MOST = 2_000, 0.95
"""Draws of the fit, and the share of them that the most asked for is enough for."""


@dataclass(frozen=True, slots=True)
class Pressing:
    """A ring that grips what it goes on or in.

    Attributes
    ----------
    line, bearing, ring, host
        Which ring of what, and what it grips; a plain ring on a shaft counts as an inner one.
    force
        To press it all the way [N].
    most
        Beyond this it is askew or seizes [N].
    warm
        How warm the ring, or what it goes in, must be for it to slip into place [K].
    sprung
        Whether a spring pushes on it, so that it ought to slide instead.
    """

    line: str
    bearing: str
    ring: str
    host: str
    force: float
    most: float
    warm: float
    sprung: bool = False


def pressings(rebuild: Rebuild) -> tuple[Pressing, ...]:
    """Find the rings that do not slide into place by hand.

    Parameters
    ----------
    rebuild
        The unit [rebuild]

    Returns
    -------
    pressings
        In the order of the lines; none of a ring whose seat or pocket was not measured [pressings]

    Valid
    -----
    As `solve.growth.growth`: rings of steel on solid shafts, cold.

    Source
    ------
    As `mechanics.press`. Friction, and what a ring is to be free by: common practice, no source.

    Examples
    --------
    >>> pressings(Rebuild("mm"))
    ()
    """
    even, drawn = sample(rebuild, NoLuck()), sample(rebuild, Luck(DRAWS))
    return tuple(
        found
        for line in rebuild.lines.values()
        for kind in (_line, _plain)
        for found in kind(rebuild, line, (even, drawn))
    )


def unmeasured(rebuild: Rebuild) -> tuple[str, ...]:
    """Name the bearings of which it was not measured how tight they sit on or in something.

    Parameters
    ----------
    rebuild
        The unit [rebuild]

    Returns
    -------
    bearings
        In the order of the parts [text]

    Valid
    -----
    As `pressings`.

    Source
    ------
    None needed.

    Examples
    --------
    >>> unmeasured(Rebuild("mm"))
    ()
    """
    found = set[str]()
    for line in rebuild.lines.values():
        sits = seats(rebuild, [on_rings(rebuild, stack.spots) for stack in line.stacks])
        for body, host in sits.items():
            part, field = rebuild.parts[owner(body)], "seat" if body.endswith(INNER) else "pocket"
            if isinstance(part, Bearing) and not measured(rebuild, part, field, host):
                found.add(part.name)
    return tuple(name for name in rebuild.parts if name in found)


Samples = tuple[Sample, Sample]
"""With nothing off, and with everything off as it may be."""


def _line(rebuild: Rebuild, line: Line, samples: Samples) -> Iterator[Pressing]:
    stacks = [on_rings(rebuild, stack.spots) for stack in line.stacks]
    sits = seats(rebuild, stacks)
    for name in dict.fromkeys(owner(spot.part) for spots in stacks for spot in spots):
        part = rebuild.parts[name]
        if isinstance(part, Bearing):
            on, in_ = (sits.get(ring(name, side), "") for side in (INNER, OUTER))
            around = Around(on, in_, {})
            even, drawn = (growth(rebuild, part, around, one.draws) for one in samples)
            for side, host in ((INNER, on), (OUTER, in_)):
                force, most = _force(part, side, even, "usual"), _force(part, side, drawn, "high")
                if host and force > STUCK:
                    warm = ROOM + _rise(rebuild, part, side, host, samples[1])
                    sprung = _sprung(rebuild, stacks, ring(name, side))
                    yield Pressing(line.name, name, side, host, force, most, warm, sprung)


def _plain(rebuild: Rebuild, line: Line, samples: Samples) -> Iterator[Pressing]:
    """Find the plain rings of a line that grip a land: sleeves, washers, bushes."""
    for stack in line.stacks:
        for name in dict.fromkeys(spot.part for spot in stack.spots):
            part = rebuild.parts[name]
            if isinstance(part, PRESSED):
                for host in hosts(rebuild, stack, name, OUTSIDE)[:1]:
                    yield from _sleeve(rebuild, line, part, host, samples)


PRESSED = (Spacer, ThrustWasher, Bush)
"""Plain rings that may be pressed on."""


def _sleeve(
    rebuild: Rebuild, line: Line, part: Ring, host: str, samples: Samples
) -> Iterator[Pressing]:
    """Press a plain ring whose bore and land were both measured, and whose length is known."""
    length = rebuild.sizes.get(part.name)
    over = [_over(rebuild, part, host, one.draws) for one in samples]
    sized = length and isinstance(length.size, Size) and isinstance(part.outside, Size)
    if not sized or not isinstance(part.bore, Size) or max(over) <= 0:
        return
    bore = metres(part.bore)
    force, most = (
        _sleeve_force(part, length, nip, friction)
        for nip, friction in zip(over, ("usual", "high"), strict=True)
    )
    grows = MATERIALS[_metal(rebuild, part.name)].expansion
    rise = rise_to_slip_on(over[1], bore, grows, clearance=FREE * bore)
    if force > STUCK:
        yield Pressing(line.name, part.name, INNER, host, force, most, ROOM + float(rise))


def _over(rebuild: Rebuild, part: Ring, host: str, draws: Draws) -> float:
    """Say by how much a land is larger than the bore on it, as tight as `MOST` of them [m]."""
    land = seat_of(rebuild, part.name, INNER, host)
    sizes: dict[tuple[str, ...], object] = {("parts", part.name, BORE): part.bore}
    if land is not None:
        sizes[tuple(str(key) for key in land.place)] = land.size
    read = [
        true_size(draws, place, size, by)
        for place, size in sizes.items()
        if isinstance(size, Size) and (size.instrument or size.plus)
        if (by := gauge(rebuild, size.instrument))
    ]
    return float(np.quantile(read[1] - read[0], MOST)) if len(read) == len(SIDES) else 0.0


SIDES = (BORE, OUTSIDE)
"""Both have to be measured."""


def _sleeve_force(part: Ring, length: Between | None, over: float, friction: str) -> float:
    """Force with which a plain ring is pressed home over a nip [N]."""
    sizes = part.bore, part.outside, length.size if length else None
    bore, outside, long = (metres(size) if isinstance(size, Size) else 0.0 for size in sizes)
    pressure = press_pressure(max(over, 0.0), bore, outside)
    rub = getattr(FRICTION["press on"], friction)
    return float(slip_force(pressure, bore, long, friction=rub))


def _sprung(rebuild: Rebuild, stacks: Sequence[Sequence[Spot]], body: str) -> bool:
    """Tell whether a spring stands beside a ring."""
    beside = {
        other.part
        for spots in stacks
        for one, two in pairwise(spots)
        for at, other in ((one, two), (two, one))
        if at.part == body
    }
    return any(isinstance(rebuild.parts.get(name), SpringWasher) for name in beside)


def _across(part: Bearing, side: str) -> tuple[float, float]:
    """Give diameter and width over which a ring touches what it sits on or in [m]."""
    inner = side == INNER
    across, own = (part.bore, part.inner_width) if inner else (part.outside, part.outer_width)
    width = own or part.width
    if not (isinstance(across, Size) and isinstance(width, Size)):
        return 0.0, 0.0
    return metres(across), metres(width)


def _force(part: Bearing, side: str, grown: Growth, friction: str) -> float:
    """Say with how much a ring is pressed home that grips as tight as `MOST` of them [N]."""
    diameter, width = _across(part, side)
    pressures = grown.inner_pressure if side == INNER else grown.outer_pressure
    pressure, rub = float(np.quantile(pressures, MOST)), getattr(FRICTION["press on"], friction)
    return float(slip_force(pressure, diameter, width, friction=rub)) if diameter else 0.0


def _rise(rebuild: Rebuild, part: Bearing, side: str, host: str, drawn: Sample) -> float:
    """Say how much warmer than the other the wider one must be [K]."""
    inner, (diameter, _) = side == INNER, _across(part, side)
    over = tight(rebuild, part, drawn.draws, "seat" if inner else "pocket", host)
    expansion = MATERIALS["steel" if inner else _metal(rebuild, host)].expansion
    nip = float(np.quantile(over, MOST))
    return float(rise_to_slip_on(nip, diameter, expansion, clearance=FREE * diameter))


def _metal(rebuild: Rebuild, name: str) -> str:
    """Name the metal of what a ring goes in."""
    part = rebuild.parts[name]
    named = part.material or BODIES[part.kind].material
    return named if named in MATERIALS else "steel"
