"""What sits on or in what: cylinders that fit, the shorter body on the longer one."""

from collections.abc import Iterator, Sequence

from dryfit.plan.bodies import SAME, Body, Stretch

SNUG = 0.06
"""Two radii that differ by no more fit each other [mm]: estimate, a loose running fit."""


def seats(bodies: Sequence[Body]) -> dict[str, str]:
    """Name for each body what it sits on, or else in.

    Lips are no seats, nor are keys and screws. A bearing that sits on a shaft and in a case is
    taken to go with the shaft: common practice, as its inner ring is the tight one where the shaft
    turns.

    Examples
    --------
    >>> from dryfit.plan.bodies import stretch
    >>> shaft = Body("shaft", (stretch(0, 90, 0, 20),))
    >>> bearing = Body("bearing", (stretch(10, 28, 20, 40),))
    >>> case = Body("case", (stretch(-5, 95, 40, 60),))
    >>> seats([shaft, bearing, case])
    {'bearing': 'shaft'}
    """
    found = {}
    for body in bodies:
        hosts = sorted(_hosts(body, bodies), key=lambda one: (not one[0], -one[1]))
        if hosts:
            found[body.name] = hosts[0][2]
    return found


def _hosts(body: Body, bodies: Sequence[Body]) -> Iterator[tuple[bool, float, str]]:
    """List longer bodies that one fits on or in, and over which length [mm]."""
    for other in bodies:
        if other is not body and other.goes_round and _long(other) > _long(body):
            on, in_ = (sum(pair) for pair in zip(*_fits(body, other), strict=True))
            if on > SAME:
                yield True, on, other.name
            elif in_ > SAME:
                yield False, in_, other.name


def _fits(body: Body, other: Body) -> list[tuple[float, float]]:
    """Over which length a body fits on another, and in it, stretch by stretch [mm]."""
    pairs = [(0.0, 0.0)]
    for cell in body.cells:
        for host in other.cells:
            along = min(cell.last, host.last) - max(cell.first, host.first)
            if along > SAME and not (cell.gives or host.gives) and cell.angles & host.angles:
                on = _snug(cell.inner, host.outer) or _same_thread(cell, host)
                in_ = _snug(cell.outer, host.inner)
                pairs.append((along if on else 0.0, along if in_ else 0.0))
    return pairs


def _snug(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return max(one) > SAME and abs(min(one) - max(other)) <= SNUG


def _same_thread(cell: Stretch, host: Stretch) -> bool:
    return bool(cell.thread) and cell.thread == host.thread


def _long(body: Body) -> float:
    return max(c.last for c in body.cells) - min(c.first for c in body.cells)
