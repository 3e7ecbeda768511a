"""What to mind while a body is put on: edges under a lip or ring of rubber, and hard pushing."""

from collections.abc import Iterator

from dryfit.plan.bodies import ALL_ROUND, NIP, Body, Level, Stretch
from dryfit.plan.nest import Nest


def cautions(nest: Nest, name: str, way: str, *, there: int) -> tuple[str, ...]:
    """Say what to mind when a body goes on by a way off, with some bodies in place.

    Examples
    --------
    >>> from dryfit.plan.bodies import stretch
    >>> shaft = Body("shaft", (stretch(0, 30, 0, 15), stretch(30, 45, 0, 15, thread="M30")))
    >>> seal = Body("seal", (stretch(5, 12, 15, 17, gives=1.0),))
    >>> cautions(Nest((shaft, seal)), "seal", "to last", there=0b11)
    ("the lip of 'seal' passes a thread of 'shaft': cover the edge",)
    """
    number = nest.at[name]
    body = nest.bodies[number]
    others = [b for n, b in enumerate(nest.bodies) if n != number and there >> n & 1]
    edges = [
        f"the lip of '{name}' passes {edge} of '{other.name}': cover the edge"
        for other in others
        for edge in dict.fromkeys(_edges(body, other, to_last=way == nest.ways[0]))
    ]
    takes = next((move.takes for move in nest.moves[number] if move.way == way), {})
    pressed = [
        f"'{name}' is pressed past '{nest.bodies[n].name}'"
        for n, level in takes.items()
        if level is Level.PRESS and there >> n & 1
    ]
    return (*edges, *pressed)


def _edges(body: Body, other: Body, *, to_last: bool) -> Iterator[str]:
    """Name the edges of a body that what yields of another rubs over on its way off."""
    soft = [cell for cell in body.cells if cell.gives]
    for cell in soft:
        for edge in other.cells:
            ahead = edge.last > cell.first + NIP if to_last else edge.first < cell.last - NIP
            if ahead and _rubs(cell, edge):
                yield from _edge(cell, edge)


def _rubs(cell: Stretch, edge: Stretch) -> bool:
    """Tell whether a stretch reaches what yields, from within or from outside."""
    inside = min(cell.inner) > 0 and max(edge.outer) >= min(cell.inner) - cell.gives
    outside = min(edge.inner) > 0 and min(edge.inner) <= max(cell.outer) + cell.gives
    return (inside and max(edge.outer) <= max(cell.outer)) or (
        outside and min(edge.inner) >= min(cell.inner)
    )


def _edge(cell: Stretch, edge: Stretch) -> Iterator[str]:
    if edge.thread:
        yield "a thread"
    if edge.angles != ALL_ROUND:
        yield "a keyway"
    if 0 < _step(cell, edge) <= cell.gives:
        yield "a step"


def _step(cell: Stretch, edge: Stretch) -> float:
    """Say how far an edge stands into what yields [mm]."""
    inside = max(edge.outer) <= max(cell.outer)
    return max(edge.outer) - min(cell.inner) if inside else max(cell.outer) - min(edge.inner)
