"""Bodies from the shapes of parts: what comes apart, what is screwed, sprung, keyed or gives.

Reading order: what a document says besides, bodies by kind of part, screws, halves, seals.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from dryfit.model.own_steps import SCREWS
from dryfit.plan.bodies import ALL_ROUND, HALF, Body, Level, Stretch, keyed, stretch
from dryfit.plan.fitted import FITTED, THREAD_DEEP, as_it_is, corded
from dryfit.plan.seats import seats
from dryfit.shape.cells import Cell, Guess, Solid, What

DEEP = 0.65
"""Depth of any thread, of its pitch, at most [-]: metric 0.6134, Whitworth 0.6403."""

LIP_GIVES, LIP_HIGH = 1.0, 1.5
"""By how much a seal lip yields, and how high it stands, in radius [mm]: estimate."""

GUESSED, GUESSED_LEAST = 0.03, 0.3
"""By how much a radius that nobody typed may be off, of itself and at least [mm]: estimate. It
stops nothing by less."""

Bodies = tuple[Body, ...]


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
    screws
        By cover its screws.
    o_rings
        Covers and cartridges with an O-ring round them.
    """

    gears: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    threads: Mapping[str, float] = field(default_factory=dict)
    split: frozenset[str] = frozenset()
    screws: Mapping[str, Body] = field(default_factory=dict)
    o_rings: frozenset[str] = frozenset()


WHOLE = Apart()
"""Nothing is said."""


def bodies_of(solids: Sequence[Solid], apart: Apart = WHOLE) -> Bodies:
    """Turn the parts of a line into bodies that can be handled one by one."""
    made = [(solid, _bodies(solid, apart)) for solid in solids]
    found = [*(body for _, bodies in made for body in bodies), *apart.screws.values()]
    for solid, _ in made:
        deep = apart.threads.get(solid.part, THREAD_DEEP)
        found = FITTED.get(solid.kind, as_it_is)(found, solid.part, deep)
        found = corded(found, solid.part) if solid.part in apart.o_rings else found
    keys = [body.name for solid, bodies in made for body in bodies if _is_key(solid)]
    return tuple(keyed(found, [*keys, *(body.name for body in apart.screws.values())]))


def _bodies(solid: Solid, apart: Apart) -> Bodies:
    """Take a part as the bodies that it is of."""
    if solid.part in apart.split:
        return _halves(solid)
    if solid.part in apart.gears:
        return _geared(solid, apart.gears[solid.part])
    return KINDS.get(solid.kind, _whole)(solid)


def screws_of(cover: str) -> str:
    """Name the screws of a cover, or of the upper half of a case: the step that does them up."""
    return SCREWS + cover


HEAD = 1.6
"""Width of the head of a screw, of its diameter, and how high it is: ISO 4762 (from memory) has 1.5
and 1.0; some clearance with it."""


def screws(cover: str, circle: float, across: float, span: tuple[float, float]) -> Body:
    """Give the screws of a cover, all as one.

    Parameters
    ----------
    cover
        Its name.
    circle, across
        Radius of the circle that they stand on, and their diameter [mm].
    span
        From their points to under their heads, whichever way that is [mm].
    """
    point, under = span
    top = under + (across if under > point else -across)
    half, wide = across / 2, HEAD * across / 2
    shank = stretch(min(point, under), max(point, under), circle - half, circle + half)
    head = Stretch(
        min(under, top),
        max(under, top),
        (circle - wide,) * 2,
        (circle + wide,) * 2,
        unsure=(wide - half, wide - half),
    )
    return Body(screws_of(cover), (shank, head), Level.SCREW)


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
    own = {body.name: solid.part for solid in solids for body in _bodies(solid, apart)}
    return own | {body.name: cover for cover, body in apart.screws.items()}


BETWEEN = frozenset({What.SHIM, What.GASKET})
"""What lies between two faces."""


def _stretch(cell: Cell, part: str) -> Stretch:
    thread = f"{part} {cell.first:.3f}" if cell.what is What.THREAD else ""
    floor = cell.what is What.KEY  # nothing passes below that
    unsure = (
        off_by(cell.inner)
        if Guess.INNER in cell.guess and max(cell.inner) > 0 and not floor
        else 0.0,
        off_by(cell.outer) if Guess.OUTER in cell.guess else 0.0,
    )
    return Stretch(cell.first, cell.last, cell.inner, cell.outer, thread=thread, unsure=unsure)


def off_by(radii: tuple[float, float]) -> float:
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
