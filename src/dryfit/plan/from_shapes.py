"""Bodies from the shapes of parts: what comes apart, what is screwed, sprung, keyed or gives.

Reading order: what is drawn finer than it is, bodies by kind of part, threads, retaining rings.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from dryfit.plan.bodies import ALL_ROUND, FAR, SAME, Body, Level, Stretch, keyed
from dryfit.plan.seats import seats
from dryfit.shape.cells import Cell, Guess, Solid, What

THREAD_DEEP = 0.9
"""Depth of a thread whose pitch is not known [mm]: 0.6134 P of 1.5 mm (ISO 68-1), common for
nuts of shafts."""

DEEP = 0.65
"""Depth of any thread, of its pitch, at most [-]: metric 0.6134, Whitworth 0.6403."""

LIP_GIVES, LIP_HIGH = 1.0, 1.5
"""By how much a seal lip yields, and how high it stands, in radius [mm]: estimate."""

GUESSED, GUESSED_LEAST = 0.03, 0.3
"""By how much a radius that nobody typed may be off, of itself and at least [mm]: estimate. It
stops nothing by less."""

Bodies = tuple[Body, ...]

HALF = 1 << 63
"""Class of angles of the upper half of a split case; it has one bit, as each key has."""


@dataclass(frozen=True)
class Apart:
    """What a document says of how parts come apart, beside their shapes.

    Attributes
    ----------
    gears
        By shaft the meshes whose gear is put on it.
    threads
        By nut how deep its thread is [mm], where that is known.
    split
        Cases that part in two halves along this line.
    """

    gears: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    threads: Mapping[str, float] = field(default_factory=dict)
    split: frozenset[str] = frozenset()


WHOLE = Apart()
"""Nothing is said."""


def bodies_of(solids: Sequence[Solid], apart: Apart = WHOLE) -> Bodies:
    """Turn the parts of a line into bodies that can be handled one by one."""
    made = [(solid, _bodies(solid, apart)) for solid in solids]
    found = [body for _, bodies in made for body in bodies]
    for solid, _ in made:
        deep = apart.threads.get(solid.part, THREAD_DEEP)
        found = FITTED.get(solid.kind, _as_it_is)(found, solid.part, deep)
    keys = [body.name for solid, bodies in made for body in bodies if _is_key(solid)]
    return tuple(keyed(found, keys))


def _bodies(solid: Solid, apart: Apart) -> Bodies:
    """Take a part as the bodies that it is of."""
    if solid.part in apart.split:
        return _halves(solid)
    if solid.part in apart.gears:
        return _geared(solid, apart.gears[solid.part])
    return KINDS.get(solid.kind, _whole)(solid)


def upper(case: str) -> str:
    """Name the half of a split case that is lifted off."""
    return f"{case}, upper half"


def _halves(solid: Solid) -> Bodies:
    """Give both halves of a split case; the lower one, which stays, goes by its name."""
    cells = _stretches(solid)
    low = tuple(replace(cell, angles=ALL_ROUND & ~HALF) for cell in cells)
    high = tuple(replace(cell, angles=HALF) for cell in cells)
    return (Body(solid.part, low), Body(upper(solid.part), high, outwards=HALF))


def _geared(solid: Solid, meshes: Iterable[str]) -> Bodies:
    """Give a shaft, and each gear that is put on it."""
    loose = {f"{solid.part}, gear of {mesh}": {f"gear {mesh}", f"teeth {mesh}"} for mesh in meshes}
    every = set().union(*loose.values())
    own = {cell.piece for cell in solid.cells} - every
    bodies = {solid.part: own} | loose
    named = ((name, _stretches(solid, pieces)) for name, pieces in bodies.items())
    return tuple(Body(name, cells) for name, cells in named if cells)


def seats_of(solids: Sequence[Solid], bodies: Sequence[Body]) -> dict[str, str]:
    """Name what each body sits on or in; packs and gaskets lie between others and sit on none."""
    between = {s.part for s in solids if all(c.what in BETWEEN for c in s.cells)}
    return {name: host for name, host in seats(bodies).items() if name not in between}


def parts_of(solids: Sequence[Solid], apart: Apart = WHOLE) -> dict[str, str]:
    """Name for each body the part that it is of."""
    return {body.name: solid.part for solid in solids for body in _bodies(solid, apart)}


BETWEEN = frozenset({What.SHIM, What.GASKET})
"""What lies between two faces."""


def _stretch(cell: Cell, part: str) -> Stretch:
    thread = f"{part} {cell.first:.3f}" if cell.what is What.THREAD else ""
    floor = cell.what is What.KEY  # nothing passes below that
    unsure = (
        _off(cell.inner)
        if Guess.INNER in cell.guess and max(cell.inner) > 0 and not floor
        else 0.0,
        _off(cell.outer) if Guess.OUTER in cell.guess else 0.0,
    )
    return Stretch(cell.first, cell.last, cell.inner, cell.outer, thread=thread, unsure=unsure)


def _off(radii: tuple[float, float]) -> float:
    """Say by how much a side may be off that is an estimate [mm]."""
    return max(GUESSED * min(radii), GUESSED_LEAST)


def _stretches(solid: Solid, pieces: Iterable[str] | None = None) -> tuple[Stretch, ...]:
    wanted = None if pieces is None else set(pieces)
    laid = [cell for cell in solid.laid if wanted is None or cell.piece in wanted]
    return tuple(_stretch(cell, solid.part) for cell in laid)


def _whole(solid: Solid) -> Bodies:
    """Take a part as one body."""
    return (Body(solid.part, _stretches(solid)),)


def _apart(**pieces: tuple[str, ...]) -> Callable[[Solid], Bodies]:
    """Take a part as several bodies, each of some of its pieces."""

    def bodies(solid: Solid) -> Bodies:
        named = ((f"{solid.part}, {name}", _stretches(solid, own)) for name, own in pieces.items())
        return tuple(Body(name, cells) for name, cells in named if cells)

    return bodies


def _screwed(solid: Solid) -> Bodies:
    return (Body(solid.part, _stretches(solid), Level.SCREW),)


def _sprung(solid: Solid) -> Bodies:
    return (Body(solid.part, _stretches(solid), Level.SNAP),)


def _key(solid: Solid) -> Bodies:
    return (Body(solid.part, _stretches(solid), outwards=ALL_ROUND),)


def _is_key(solid: Solid) -> bool:
    return any(cell.what is What.KEY for cell in solid.cells)


def _seal(solid: Solid) -> Bodies:
    """Give a seal a lip that yields, and a shell that does not."""
    cells = []
    for cell in _stretches(solid):
        edge = tuple(r + LIP_HIGH for r in cell.inner)
        cells.append(replace(cell, outer=(edge[0], edge[1]), gives=LIP_GIVES))
        cells.append(replace(cell, inner=(edge[0], edge[1])))
    return (Body(solid.part, tuple(cells)),)


KINDS: dict[str, Callable[[Solid], Bodies]] = {
    "taper roller": _apart(cone=("inner", "rollers"), cup=("outer",)),
    "cylindrical roller": _apart(inner=("inner",), outer=("outer", "rollers")),
    "nut": _screwed,
    "threaded ring": _screwed,
    "retaining ring": _sprung,
    "key": _key,
    "seal": _seal,
}
"""Kinds of part that are more than one body, or are not just pushed."""


def _as_it_is(bodies: list[Body], name: str, deep: float) -> list[Body]:
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


def _lies_on(cell: Stretch, first: float, last: float) -> bool:
    return min(cell.last, last) - max(cell.first, first) > SAME


FITTED: dict[str, Callable[[list[Body], str, float], list[Body]]] = {
    "nut": _threaded,
    "threaded ring": _threaded,
    "retaining ring": _in_groove,
}
"""What is done with a body once all others are there."""
