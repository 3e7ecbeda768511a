"""What to mind while a body is put on: edges under a lip or ring of rubber, and hard pushing."""

from collections.abc import Iterator

from dryfit.plan.bodies import ALL_ROUND, HALF, NIP, SAME, Body, Level, Stretch
from dryfit.plan.nest import Nest


def cautions(nest: Nest, name: str, way: str, *, there: int) -> tuple[str, ...]:
    """Say what to mind when a body goes on by a way off, with some bodies in place.

    Examples
    --------
    >>> from dryfit.plan.bodies import stretch
    >>> shaft = Body("shaft", (stretch(0, 30, 0, 15), stretch(30, 45, 0, 15, thread="M30")))
    >>> seal = Body("seal", (stretch(5, 12, 15, 17, gives=1.0), stretch(5, 12, 17, 20)))
    >>> cautions(Nest((shaft, seal)), "seal", "to last", there=0b11)
    ("the lip of 'seal' passes a thread of 'shaft': cover the edge",)
    """
    number = nest.at[name]
    body = nest.bodies[number]
    others = [b for n, b in enumerate(nest.bodies) if n != number and there >> n & 1]
    edges = [
        f"{soft} of '{name}' passes {edge} of '{other.name}': cover the edge"
        for other in others
        for soft, edge in dict.fromkeys(_edges(body, other, to_last=way == nest.ways[0]))
    ]
    takes = next((move.takes for move in nest.moves[number] if move.way == way), {})
    pressed = [
        f"'{name}' is pressed past '{nest.bodies[n].name}'"
        for n, level in takes.items()
        if level is Level.PRESS and there >> n & 1
    ]
    return (*edges, *pressed)


def _edges(body: Body, other: Body, *, to_last: bool) -> Iterator[tuple[str, str]]:
    """Name the edges of a body that what yields of another rubs over on its way off."""
    for cell in (cell for cell in body.cells if cell.gives):
        soft = "the lip" if min(cell.inner) > 0 and _within(body, cell) else "the O-ring"
        grooves = [*_grooves(other)]
        for edge in other.cells:
            ahead = edge.last > cell.first + NIP if to_last else edge.first < cell.last - NIP
            if ahead and _rubs(cell, edge):
                yield from ((soft, told) for told in _edge(cell, edge, other))
                if any(abs(edge.last - g.first) < SAME for g in grooves):
                    yield soft, "a groove"


def _within(body: Body, cell: Stretch) -> bool:
    """Tell what yields inwards, as a lip in its shell does, from what yields outwards."""
    return any(min(c.inner) >= max(cell.outer) - SAME and _along(c, cell) for c in body.cells)


def _along(cell: Stretch, other: Stretch) -> bool:
    return min(cell.last, other.last) - max(cell.first, other.first) > SAME


def _grooves(body: Body) -> Iterator[Stretch]:
    """List the stretches of a body that are let in, outside or in its bore, between two others."""
    round_ = [cell for cell in body.cells if cell.angles.bit_count() > 1]
    cells = sorted(round_, key=lambda cell: cell.first)
    for one, middle, other in zip(cells, cells[1:], cells[2:], strict=False):
        abut = abs(one.last - middle.first) < SAME and abs(middle.last - other.first) < SAME
        sunk = max(middle.outer) < min(max(one.outer), max(other.outer)) - DEEP
        wide = min(middle.inner) > max(min(one.inner), min(other.inner)) + DEEP
        if abut and (sunk or wide):
            yield middle


DEEP = 0.2
"""What is let in by less is no groove to a lip or O-ring [mm]: estimate."""


def _rubs(cell: Stretch, edge: Stretch) -> bool:
    """Tell whether a stretch reaches what yields, from within or from outside."""
    inside = min(cell.inner) > 0 and max(edge.outer) >= min(cell.inner) - cell.gives
    outside = min(edge.inner) > 0 and min(edge.inner) <= max(cell.outer) + cell.gives
    return (inside and max(edge.outer) <= max(cell.outer)) or (
        outside and min(edge.inner) >= min(cell.inner)
    )


def _edge(cell: Stretch, edge: Stretch, other: Body) -> Iterator[str]:
    if edge.thread:
        yield "a thread"
    if _cut_open(edge, other, outside=_inside(cell, edge)):
        yield "a keyway"
    sure = not edge.unsure[1 if _inside(cell, edge) else 0]
    if sure and 0 < _step(cell, edge) <= cell.gives:
        yield "a step"


def _cut_open(edge: Stretch, other: Body, *, outside: bool) -> bool:
    """Tell a side that a keyway is cut into from one that goes all round."""
    there = HALF
    for cell in other.cells:
        a, b = (max(cell.outer), max(edge.outer)) if outside else (min(cell.inner), min(edge.inner))
        there |= cell.angles if _along(cell, edge) and abs(a - b) < SAME else 0
    return there != ALL_ROUND


def _inside(cell: Stretch, edge: Stretch) -> bool:
    """Tell an edge that lies within what yields, on a shaft, from one round it."""
    return max(edge.outer) <= max(cell.outer)


def _step(cell: Stretch, edge: Stretch) -> float:
    """Say how far an edge stands into what yields [mm]."""
    inside = _inside(cell, edge)
    return max(edge.outer) - min(cell.inner) if inside else max(cell.outer) - min(edge.inner)
