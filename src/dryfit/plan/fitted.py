"""What is done with a body once all others are there: threads, retaining rings, O-rings.

Reading order: threads under nuts and rings, retaining rings sprung out of grooves, O-rings, the
table by kind of part.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace

from dryfit.plan.bodies import FAR, NIP, SAME, Body, Stretch, stretch
from dryfit.plan.seats import SNUG

THREAD_DEEP = 0.9
"""Depth of a thread whose pitch is not known [mm]: 0.6134 P of 1.5 mm (ISO 68-1), common for
nuts of shafts."""


def as_it_is(bodies: list[Body], name: str, deep: float) -> list[Body]:
    """Leave a body as it is."""
    del name, deep
    return bodies


def _touching(cell: Stretch, other: Stretch, deep: float) -> bool:
    """Tell whether two stretches lie on each other within the depth of a thread [mm]."""
    along = min(cell.last, other.last) - max(cell.first, other.first) > SAME
    near = deep + SAME
    inside = abs(max(cell.outer) - min(other.inner)) < near
    return along and (inside or abs(min(cell.inner) - max(other.outer)) < near)


def _threaded(bodies: list[Body], name: str, deep: float) -> list[Body]:
    """Give what is screwed the thread it lies on or in, and a core that passes nothing else."""
    (own,) = (body for body in bodies if body.name == name)
    deep = max(deep, _loose(bodies, own))
    host, thread = _thread_under(bodies, own, deep)
    if not host:
        return bodies
    inside = any(
        min(cell.inner) > max(c.outer) - deep - SAME
        for cell in own.cells
        for c in host.cells
        if _touching(cell, c, deep)
    )
    grown = (-deep, 0.0) if inside else (0.0, deep)
    cells = tuple(replace(cell.grown(*grown), thread=thread) for cell in own.cells)
    marked = _marked(host, own, thread, deep)
    other = {name: replace(own, cells=cells), host.name: marked}
    return [other.get(body.name, body) for body in bodies]


LOOSE = 5.0
"""A nut whose thread is drawn no further from anything is screwed on that all the same [mm]."""


def _loose(bodies: Iterable[Body], own: Body) -> float:
    """Say how far what is screwed is drawn from what lies next to it, within it or round it."""
    gaps = [
        max(min(mine.inner) - max(cell.outer), min(cell.inner) - max(mine.outer))
        for body in bodies
        if body is not own
        for cell in body.cells
        for mine in own.cells
        if min(cell.last, mine.last) - max(cell.first, mine.first) > SAME
    ]
    least = min((gap for gap in gaps if gap >= 0), default=FAR)
    return least + SAME if least < LOOSE else 0.0


def _marked(host: Body, own: Body, thread: str, deep: float) -> Body:
    """Give a body the thread where something is screwed on it, and at the chamfer beside that."""
    under = [c for c in host.cells if any(_touching(c, cell, deep) for cell in own.cells)]
    ends = [
        c
        for c in host.cells
        if c.outer[0] != c.outer[1]
        and any(_abut(c, u) and max(c.outer) <= max(u.outer) + SAME for u in under)
    ]
    cells = tuple(replace(c, thread=thread) if c in under + ends else c for c in host.cells)
    return replace(host, cells=cells)


def _abut(cell: Stretch, other: Stretch) -> bool:
    return abs(cell.last - other.first) < SAME or abs(cell.first - other.last) < SAME


def _thread_under(bodies: list[Body], own: Body, deep: float) -> tuple[Body | None, str]:
    """Find what something is screwed on or into: a thread that is drawn, else what it touches."""
    near = [
        (body, cell)
        for body in bodies
        for cell in body.cells
        if body is not own and any(_touching(cell, mine, deep) for mine in own.cells)
    ]
    drawn = [(body, cell.thread) for body, cell in near if cell.thread]
    if drawn:
        return drawn[0]
    return (near[0][0], own.name) if near else (None, "")


def _in_groove(bodies: list[Body], name: str, deep: float) -> list[Body]:
    """Spring a retaining ring as far as the lower land beside its groove wants it."""
    del deep
    (own,) = (body for body in bodies if body.name == name)
    by = sum(_sprung_by(own, body) for body in bodies if body is not own)
    leaving = tuple(cell.grown(by, by) for cell in own.cells) if by else ()
    return [replace(b, leaving=leaving) if b is own else b for b in bodies]


def _sprung_by(ring: Body, body: Body) -> float:
    """Say how far a body springs a ring that lies in a groove of it: out of a shaft's is plus."""
    first, last = min(c.first for c in ring.cells), max(c.last for c in ring.cells)
    inner, outer = min(min(c.inner) for c in ring.cells), max(max(c.outer) for c in ring.cells)
    over = [c for c in body.cells if _lies_on(c, first, last)]
    beside = [c for c in body.cells if abs(c.last - first) < SAME or abs(c.first - last) < SAME]
    bores = [min(c.inner) for c in beside if min(c.inner) > 0]
    if beside and any(abs(max(c.outer) - inner) < SAME for c in over):
        return max(0.0, min(max(c.outer) for c in beside) - inner)
    if bores and any(abs(min(c.inner) - outer) < SAME for c in over):
        return -max(0.0, outer - max(bores))
    return 0.0


CORD, CORD_STANDS, CORD_GIVES = 3.0, 0.3, 0.6
"""Width of the cord of an O-ring, how far it stands out of its groove and by how much it yields, in
radius [mm]: common practice, a fifth of its thickness nipped."""


def corded(bodies: list[Body], name: str) -> list[Body]:
    """Put an O-ring in the middle of the longest stretch by which a body fits into another."""
    (own,) = (body for body in bodies if body.name == name)
    fits = [
        (min(cell.last, bore.last), max(cell.first, bore.first), max(cell.outer))
        for cell in own.cells
        for body in bodies
        for bore in body.cells
        if body is not own and abs(max(cell.outer) - min(bore.inner)) <= SNUG
    ]
    last, first, radius = max(fits, key=lambda fit: fit[0] - fit[1], default=(0.0, 0.0, 0.0))
    if last - first < CORD:
        return bodies
    middle = (first + last) / 2
    span, radii = (middle - CORD / 2, middle + CORD / 2), (radius - NIP, radius + CORD_STANDS)
    corded = replace(own, cells=(*own.cells, stretch(*span, *radii, gives=CORD_GIVES)))
    return [corded if body is own else body for body in bodies]


def _lies_on(cell: Stretch, first: float, last: float) -> bool:
    return min(cell.last, last) - max(cell.first, first) > SAME


FITTED: dict[str, Callable[[list[Body], str, float], list[Body]]] = {
    "nut": _threaded,
    "threaded ring": _threaded,
    "retaining ring": _in_groove,
}
"""What is done with a body once all others are there."""
