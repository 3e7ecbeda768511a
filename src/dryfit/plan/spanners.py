"""Spanners as shapes: socket, hook and pin spanner at a nut, key at the heads of screws."""

from dataclasses import replace

from dryfit.plan.bodies import SAME, Body
from dryfit.plan.nest import Nest
from dryfit.plan.reach import FAR, Reach, blocked, radii_of, span_of

SOCKET, HOOK = 6.0, 12.0
"""Wall of a socket and thickness of a hook spanner [mm]: estimates."""


def spanners(
    nest: Nest, nut: str, wall: float = SOCKET, *, typed: bool = False
) -> tuple[Reach, ...]:
    """Say how a nut can be reached: by a socket over it from an end, by a hook from outside.

    A ring that is screwed into something has its slots or holes in its face. A nut is held where
    it is as high as it gets, not at its chamfers. `typed`: only what somebody typed is in the way.
    """
    body, own = nest.bodies[nest.at[nut]], 1 << nest.at[nut]
    span, held, (inner, outer) = span_of(body), _highest(body), radii_of(body)
    pins = (inner, (inner + outer) / 2) if _screwed_in(nest, nut) else None
    if not body.goes_round:
        return _drivers(nest, nut, body.cells[0].angles, typed=typed)
    found = []
    for way, face in zip(nest.ways, (span[1], span[0]), strict=True):
        before = pins or (_clear(nest, nut), outer + wall)
        met = nest.zone((face, face), before, way, typed=typed)
        if pins is None:
            met |= nest.zone(held, (outer, outer + wall), way, typed=typed)
        found.append(Reach("socket" if pins is None else "pin spanner", way, met & ~own))
    if pins is not None:
        return tuple(found)
    middle = sum(held) / 2
    wide = (max(held[0], middle - HOOK / 2), min(held[1], middle + HOOK / 2))
    hook = nest.zone(wide, (outer, FAR), "outwards", typed=typed) & ~own
    return (*found, Reach("hook spanner", "outwards", hook))


def _highest(body: Body) -> tuple[float, float]:
    """Say from where to where a body is as high as it gets [mm]."""
    outer = radii_of(body)[1]
    cells = [cell for cell in body.cells if min(cell.outer) > outer - SAME]
    return span_of(replace(body, cells=tuple(cells)) if cells else body)


def _drivers(nest: Nest, screws: str, angles: int, *, typed: bool) -> tuple[Reach, ...]:
    """Say from which end a key gets on the heads of screws."""
    body, own = nest.bodies[nest.at[screws]], 1 << nest.at[screws]
    head = max(body.cells, key=lambda cell: max(cell.outer))
    radii = min(head.inner), max(head.outer)
    found = []
    for way, face in zip(nest.ways, (head.first, head.last), strict=True):
        met = nest.zone((face, face), radii, way, angles=angles, typed=typed)
        found.append(Reach("key or spanner", way, met & ~own))
    return tuple(found)


def surely_shut(nest: Nest, nut: str, there: int) -> str:
    """Say why no spanner gets to a nut, where that follows from what somebody typed.

    Nothing is sure of a nut whose own size nobody typed.
    """
    own = nest.bodies[nest.at[nut]]
    if any(cell.unsure[1] for cell in own.cells):
        return ""
    return blocked(nest, spanners(nest, nut, typed=True), there)


def _screwed_in(nest: Nest, ring: str) -> bool:
    """Tell a ring with its thread outside from a nut."""
    body = nest.bodies[nest.at[ring]]
    threads, (inner, _) = {c.thread for c in body.cells} - {""}, radii_of(body)
    others = [b for b in nest.bodies if b is not body]
    return any(min(c.inner) > inner for b in others for c in b.cells if c.thread in threads)


def _clear(nest: Nest, nut: str) -> float:
    """Say how wide a socket is inside: it clears the thread of the nut [mm]."""
    body = nest.bodies[nest.at[nut]]
    threads = {c.thread for c in body.cells} - {""}
    inner, _ = radii_of(body)
    bearing = [max(c.outer) for b in nest.bodies for c in b.cells if c.thread in threads]
    on_it = [radius for radius in bearing if radius < radii_of(body)[1]]
    return max([inner, *on_it])
