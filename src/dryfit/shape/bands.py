"""Between which radii the rings of a line lie, known or by proportion.

Reading order: a band, `bands_of` a line, then how a band is found from a record, from what a ring
sits on, and from its neighbours.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from dryfit.model.lands import Land
from dryfit.model.parts import (
    Bearing,
    Cover,
    Housing,
    Nut,
    Part,
    Pin,
    PlainBearing,
    RetainingRing,
    Ring,
    Seal,
    Shaft,
    ThreadedRing,
    ThrustBall,
)
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Size
from dryfit.shape.cells import Guess
from dryfit.shape.resting import INNER_RING, OUTER_RING, Resting, owner

BORE = 30.0
"""Bore that is drawn where nothing along a line has a diameter [mm]."""

LIKELY_OUTSIDE = 1.9
"""Outside of a bearing over its bore: between the light and medium series of common makes."""

RING = 0.30
"""Thickness of a bearing's ring at its shoulder, of the distance from bore to outside: estimate."""

SHOULDER = 0.20
"""Height of a shoulder behind a ring, of the same distance: common practice, two thirds of the
ring's own."""

RING_SPRINGS = 0.05
"""How deep a retaining ring sits in its groove, of the radius there: estimate."""


@dataclass(frozen=True, slots=True)
class Band:
    """Where a ring lies across the axis.

    Attributes
    ----------
    inner, outer
        Its radii [mm].
    on, in_
        Radius to which a shoulder of a shaft, and one of a case, stands behind it [mm].
    guess
        Which of its radii are estimates.
    """

    inner: float
    outer: float
    on: float
    in_: float
    guess: Guess = Guess.NONE


def mm(size: object) -> float | None:
    """Give a size that is known in millimetres."""
    return size.mm if isinstance(size, Size) else None


def is_shaft(part: Part | None) -> bool:
    """Tell a part that rings sit on: a shaft, a cluster or a pin."""
    return isinstance(part, Shaft | Pin)


def is_case(part: Part | None) -> bool:
    """Tell a part that rings sit in: the case, and what is screwed to it."""
    return isinstance(part, Housing | Cover) and not isinstance(part, Pin)


def bands_of(rebuild: Rebuild, rest: Resting) -> dict[str, Band]:
    """Give the band of each ring of a line: by its record, then by its neighbours, then a guess."""
    found: dict[str, Band] = {}
    rings = [body for body in rest.places if _is_ring(rebuild.parts.get(owner(body)))]
    scale = _scale(rebuild, rest)
    for body in rings:
        band = _from_record(rebuild, rest, body, scale)
        if band:
            found[body] = band
    for _ in rings:
        left = [body for body in rings if body not in found]
        beside = {
            body: band for body in left if (band := _from_neighbour(rebuild, rest, body, found))
        }
        found |= beside
        if not beside:
            break
    for body in rings:
        found.setdefault(body, _band(scale / 2, scale * 0.75, Guess.ROUND))
    return found


def _is_ring(part: Part | None) -> bool:
    return isinstance(part, Ring | Bearing | Nut | PlainBearing | Seal)


def _scale(rebuild: Rebuild, rest: Resting) -> float:
    """Find a diameter of the line to measure estimates by: a bore, a thread, a land [mm]."""
    parts = [rebuild.parts[owner(body)] for body in rest.places if owner(body) in rebuild.parts]
    bores = [mm(getattr(part, "bore", None)) for part in parts if isinstance(part, Bearing | Ring)]
    bores += [rest.threads.get(part.name) for part in parts if not isinstance(part, ThreadedRing)]
    bores += [_land_of(part) for part in parts if is_shaft(part)]
    known = [bore for bore in bores if bore]
    return max(known) if known else _by_length(rest)


def _land_of(part: Part) -> float | None:
    """Give the outside of a shaft, of its first land that is known."""
    outside: Any = getattr(part, "outside", None)
    sizes = [one.size for one in outside] if isinstance(outside, tuple) else [outside]
    return next((size.mm for size in sizes if isinstance(size, Size)), None)


def _by_length(rest: Resting) -> float:
    """Take a fifth of the length of a line for its shaft, where that is all there is."""
    every = [at for spots in rest.places.values() for at in spots.values()]
    long = max(every) - min(every) if every else 0.0
    return long / 5 if long > 1 else BORE


def _band(inner: float, outer: float, guess: Guess) -> Band:
    high = outer - inner
    return Band(inner, outer, inner + SHOULDER * high, outer - SHOULDER * high, guess)


def _from_record(rebuild: Rebuild, rest: Resting, body: str, scale: float) -> Band | None:
    """Give what the record of a part, and what it sits on, say."""
    part: Any = rebuild.parts[owner(body)]
    for kinds, reader in _READERS:
        if isinstance(part, kinds):
            return reader(rebuild, rest, part, body, scale)
    return None


def _bearing(rebuild: Rebuild, rest: Resting, part: Any, body: str, scale: float) -> Band:
    name = part.name
    seat = host_size(rebuild, rest.hosts.get(name + INNER_RING), "outside", mm(part.seat))
    pocket = host_size(rebuild, rest.hosts.get(name + OUTER_RING), "bore", mm(part.pocket))
    bore, outside = mm(part.bore) or seat, mm(part.outside) or pocket
    guess = Guess.NONE if bore else Guess.INNER
    guess |= Guess.NONE if outside else Guess.OUTER
    bore = bore or (outside / LIKELY_OUTSIDE if outside else scale)
    outside = outside or bore * LIKELY_OUTSIDE
    whole = _band(bore / 2, outside / 2, guess)
    high = RING * (whole.outer - whole.inner)
    if isinstance(part, ThrustBall):
        return whole
    if body.endswith(INNER_RING):
        return Band(whole.inner, whole.inner + high, whole.on, whole.in_, guess)
    return Band(whole.outer - high, whole.outer, whole.on, whole.in_, guess)


def host_size(rebuild: Rebuild, host: str | None, side: str, told: float | None) -> float | None:
    """Give the size of what a ring sits on: as told, or the one land there is [mm]."""
    typed: Any = getattr(rebuild.parts.get(host or ""), side, None)
    return told or mm(typed)


def _ring(rebuild: Rebuild, rest: Resting, part: Any, body: str, scale: float) -> Band | None:
    del rebuild, rest, body, scale
    bore, outside = mm(part.bore), mm(part.outside)
    if bore is None or outside is None:
        return None
    return _band(bore / 2, outside / 2, Guess.NONE)


def _nut(rebuild: Rebuild, rest: Resting, part: Any, body: str, scale: float) -> Band:
    del rebuild, body
    thread = rest.threads.get(part.name)
    guess = Guess.NONE if thread else Guess.INNER
    inner = (thread or scale) / 2
    outside = mm(part.outside)
    guess |= Guess.NONE if outside else Guess.OUTER
    return _band(inner, outside / 2 if outside else inner * 1.42, guess)


def _threaded_ring(
    rebuild: Rebuild, rest: Resting, part: Any, body: str, scale: float
) -> Band | None:
    del rebuild, body
    thread, bore = rest.threads.get(part.name), mm(part.bore)
    if thread is None and bore is None:
        return None
    outer = thread / 2 if thread else (bore or scale) / 2 * 1.3
    guess = Guess.NONE if thread else Guess.OUTER
    guess |= Guess.NONE if bore else Guess.INNER
    return _band(bore / 2 if bore else outer * 0.8, outer, guess)


def _seal(rebuild: Rebuild, rest: Resting, part: Any, body: str, scale: float) -> Band:
    del rebuild, rest, body
    shaft, outside = mm(part.shaft), mm(part.outside)
    guess = Guess.NONE if shaft else Guess.INNER
    guess |= Guess.NONE if outside else Guess.OUTER
    inner = (shaft or scale) / 2
    return _band(inner, outside / 2 if outside else inner + max(5.0, 0.35 * inner), guess)


def _plain(rebuild: Rebuild, rest: Resting, part: Any, body: str, scale: float) -> Band:
    del rebuild, rest, body
    bore = mm(part.bore) or mm(part.journal)
    inner = (bore or scale) / 2
    return _band(inner, inner * 1.3 + 2, (Guess.NONE if bore else Guess.INNER) | Guess.OUTER)


_READERS: tuple[tuple[Any, Callable[..., Band | None]], ...] = (
    (Bearing, _bearing),
    (ThreadedRing, _threaded_ring),
    (Nut, _nut),
    (Seal, _seal),
    (PlainBearing, _plain),
    (Ring, _ring),
)


def inside_stack(rebuild: Rebuild, rest: Resting, body: str) -> str:
    """Say whether the stack of a body goes along a shaft, in a case, or between the two."""
    for stack in rest.stacks:
        bodies = [spot.part for spot in stack]
        if body in bodies:
            parts = [rebuild.parts.get(name) for name in bodies]
            on = any(is_shaft(p) for p in parts) or any(b.endswith(INNER_RING) for b in bodies)
            in_ = any(is_case(p) for p in parts) or any(b.endswith(OUTER_RING) for b in bodies)
            return "between" if on == in_ else "on" if on else "in"
    return "between"


def _from_neighbour(
    rebuild: Rebuild, rest: Resting, body: str, found: Mapping[str, Band]
) -> Band | None:
    """Make a ring as high as a ring beside it wants it."""
    part = rebuild.parts[owner(body)]
    side = inside_stack(rebuild, rest, body)
    for stack in rest.stacks:
        bodies = list(dict.fromkeys(spot.part for spot in stack))
        if body not in bodies:
            continue
        at = bodies.index(body)
        beside = [*reversed(bodies[:at]), *bodies[at + 1 :]]
        near = next((found[name] for name in beside if name in found), None)
        if near:
            return _beside(part, side, near)
    return None


def _beside(part: Part, side: str, near: Band) -> Band:
    """Give a band beside another one, on the shaft or in the case."""
    own = (mm(getattr(part, "bore", None)), mm(getattr(part, "outside", None)))
    high = near.outer - near.inner
    inner, outer = near.inner, near.outer
    if side == "on":
        outer = inner + 0.8 * high
    elif side == "in":
        inner = outer - 0.8 * high
    if isinstance(part, RetainingRing):
        deep = RING_SPRINGS * inner
        inner, outer = (
            (inner - deep, inner + 0.5 * high)
            if side == "on"
            else (
                outer - 0.5 * high,
                outer + RING_SPRINGS * outer,
            )
        )
        return Band(inner, outer, near.inner, near.outer, Guess.ROUND)
    guess = Guess.NONE if own[0] else Guess.INNER
    guess |= Guess.NONE if own[1] else Guess.OUTER
    return _band((own[0] or 2 * inner) / 2, (own[1] or 2 * outer) / 2, guess)


def lands_of(rebuild: Rebuild, part: str, side: str) -> tuple[Land, ...]:
    """List the lands of a part on one side; one size all along has no spots."""
    typed: Any = getattr(rebuild.parts.get(part), side, None)
    if isinstance(typed, tuple):
        return typed
    return (Land("", "", typed),) if isinstance(typed, Size) else ()
