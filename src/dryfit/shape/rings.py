"""Cells of what is one ring: distance pieces, washers, packs, nuts, seals; and of bearings."""

from collections.abc import Callable
from dataclasses import replace
from math import cos, floor, pi, radians, sin, tan
from typing import Any

from dryfit.model.parts import Bearing
from dryfit.shape.bands import Band, mm
from dryfit.shape.cells import Cell, Guess, What, ring
from dryfit.shape.resting import INNER_RING, OUTER_RING
from dryfit.shape.scene import Scene

BALL = 0.295
"""Diameter of a ball over outside less bore of its bearing: as in `mechanics.internals`."""

ROLLER, ROLLER_LONG = 0.25, 0.65
"""Diameter of a roller over the same, and its length over the width: as there."""

FULL = 0.85
"""Share of the circle that balls or rollers stand on which they fill: estimate."""

USUAL_ANGLE = {"angular contact ball": 30.0, "two-row ball": 30.0, "taper roller": 14.0}
"""Contact angle that is drawn where none is told [degree]."""


def plain(what: What) -> Callable[[Scene, str], tuple[Cell, ...]]:
    """Make cells of a part that is one ring of something."""

    def cells(scene: Scene, part: str) -> tuple[Cell, ...]:
        if part not in scene.rest.places:
            return ()
        band = scene.bands[part]
        first, last, guess = scene.ring_ends(part)
        return (ring(first, last, band.inner, band.outer, what=what, guess=guess | band.guess),)

    return cells


def nut(scene: Scene, part: str) -> tuple[Cell, ...]:
    """Give a nut, with its chamfers."""
    if part not in scene.rest.places:
        return ()
    band = scene.bands[part]
    first, last, guess = scene.ring_ends(part)
    guess |= band.guess
    return chamfered(ring(first, last, band.inner, band.outer, guess=guess), outer=0.8)


def chamfered(cell: Cell, *, outer: float) -> tuple[Cell, ...]:
    """Take the outer edges of a cell off at 45 degrees."""
    cut = min(outer, cell.length / 4, (cell.outer[0] - cell.inner[0]) / 3)
    low, high = cell.outer[0] - cut, cell.outer[0]
    a, b = cell.first + cut, cell.last - cut
    ends = Guess.FIRST, Guess.LAST
    return (
        replace(cell, last=a, outer=(low, high), guess=cell.guess & ~ends[1]),
        replace(cell, first=a, last=b, guess=cell.guess & Guess.ROUND),
        replace(cell, first=b, outer=(high, low), guess=cell.guess & ~ends[0]),
    )


def _bodies(scene: Scene, part: str) -> tuple[str, str]:
    """Name the two rings; one that no stack goes through lies as the other."""
    both = (part + INNER_RING, part + OUTER_RING)
    here = [body for body in both if body in scene.rest.places]
    return (both[0], both[1]) if len(here) == 2 else (here[0], here[0])


Ends = tuple[float, float, Guess]
"""Where a ring begins and ends [mm], and which of its ends is an estimate."""

Rows = Callable[[Scene, Any, Band, tuple[Ends, Ends]], tuple[Cell, ...]]


def bearing(rows: Rows) -> Callable[[Scene, str], tuple[Cell, ...]]:
    """Make cells of a bearing: two rings, and between them what rolls."""

    def cells(scene: Scene, part: str) -> tuple[Cell, ...]:
        if not any(part + which in scene.rest.places for which in (INNER_RING, OUTER_RING)):
            return ()
        inner_body, outer_body = _bodies(scene, part)
        ends = scene.ring_ends(inner_body), scene.ring_ends(outer_body)
        return rows(scene, scene.rebuild.parts[part], _whole(scene, part), ends)

    return cells


def _whole(scene: Scene, part: str) -> Band:
    """Give the band from the bore of a bearing to its outside."""
    bands = [scene.bands[part + w] for w in (INNER_RING, OUTER_RING) if part + w in scene.bands]
    first = bands[0]
    if len(bands) == 2:
        return replace(first, inner=bands[0].inner, outer=bands[1].outer)
    bore, outside = (mm(getattr(scene.rebuild.parts[part], f)) for f in ("bore", "outside"))
    return replace(
        first,
        inner=bore / 2 if bore else first.inner,
        outer=outside / 2 if outside else first.outer,
    )


def _two_rings(
    whole: Band, ends: tuple[Ends, Ends], steps: tuple[float, float, float, float]
) -> tuple[Cell, Cell]:
    """Give both rings; `steps`: inner ring's radius at its ends, then the outer ring's."""
    (a, b, g), (c, d, h) = ends
    round_ = whole.guess
    inner = Cell(
        a, b, (whole.inner, whole.inner), steps[:2], guess=g | round_ & Guess.INNER, piece="inner"
    )
    outer = Cell(
        c, d, steps[2:], (whole.outer, whole.outer), guess=h | round_ & Guess.OUTER, piece="outer"
    )
    return inner, outer


def balls(scene: Scene, record: Any, whole: Band, ends: tuple[Ends, Ends]) -> tuple[Cell, ...]:
    """Give a row of balls; one that stops one way has a low shoulder on either ring."""
    pitch, radius = (whole.inner + whole.outer) / 2, _radius(record, whole)
    tall, low = pitch - 0.55 * radius, pitch + 0.55 * radius
    slack = 0.25 * radius
    way = stops(scene, record)
    step_in = (tall, tall - slack) if way > 0 else (tall - slack, tall)
    step_out = (low + slack, low) if way > 0 else (low, low + slack)
    if way == 0:
        step_in, step_out = (tall, tall), (low, low)
    rings = _two_rings(whole, ends, (*step_in, *step_out))
    return (*rings, ball_row(_middle(ends), pitch, radius))


def _radius(record: Any, whole: Band, rows: int = 1) -> float:
    """Radius of a ball, as told or by proportion [mm]."""
    told = mm(record.ball)
    return (told or BALL * 2 * (whole.outer - whole.inner)) / 2 * (0.8 if rows > 1 else 1.0)


def ball_row(at: float, pitch: float, radius: float, piece: str = "balls") -> Cell:
    """Give a row of balls as the ring that it sweeps, filled as far as it is."""
    count = max(1, floor(FULL * pi * pitch / radius))
    swept = pi * ((pitch + radius) ** 2 - (pitch - radius) ** 2) * 2 * radius
    share = count * 4 / 3 * pi * radius**3 / swept
    return ring(
        at - radius,
        at + radius,
        pitch - radius,
        pitch + radius,
        what=What.BALL,
        share=min(share, 1.0),
        piece=piece,
    )


def _middle(ends: tuple[Ends, Ends]) -> float:
    return sum(e[0] + e[1] for e in ends) / 4


def stops(scene: Scene, record: Any) -> float:
    """Say which way a row stops the shaft: -1 the first end, +1 the last, 0 both or neither."""
    told = getattr(record, "stops", None)
    return 0.0 if told is None else 1.0 if told == scene.rest.last else -1.0


def two_rows(scene: Scene, record: Any, whole: Band, ends: tuple[Ends, Ends]) -> tuple[Cell, ...]:
    """Give two rows of balls between one pair of rings."""
    del scene
    pitch, radius = (whole.inner + whole.outer) / 2, _radius(record, whole, 2)
    rings = _two_rings(whole, ends, (*(pitch - 0.55 * radius,) * 2, *(pitch + 0.55 * radius,) * 2))
    quarter = min(e[1] - e[0] for e in ends) / 4
    return (*rings, *(ball_row(_middle(ends) + s * quarter, pitch, radius) for s in (-1, 1)))


def tapers(scene: Scene, record: Any, whole: Band, ends: tuple[Ends, Ends]) -> tuple[Cell, ...]:
    """Give a cone, a cup and a taper roller between them, as one sloping stretch each."""
    way = stops(scene, record)
    angle = radians(_angle(record))
    pitch, high = (whole.inner + whole.outer) / 2, whole.outer - whole.inner
    thick, middle = ROLLER * high, _middle(ends)
    long = ROLLER_LONG * min(e[1] - e[0] for e in ends)
    rise = tan(angle) * way

    def along(offset: float, at: float) -> float:
        return min(max(pitch + offset + rise * (middle - at), whole.inner + 1), whole.outer - 1)

    (a, b, _), (c, d, _) = ends
    half = thick / 2
    cone = (along(-half, a), along(-half, b))
    cup = (along(half, c), along(half, d))
    rings = _two_rings(whole, ends, (*cone, *cup))
    x0, x1 = middle - long / 2, middle + long / 2
    roller = Cell(
        x0,
        x1,
        (along(-half, x0), along(-half, x1)),
        (along(half, x0), along(half, x1)),
        What.ROLLER,
        share=FULL * 0.7854,
        piece="rollers",
    )
    return (*rings, roller)


def _angle(record: Any) -> float:
    told = getattr(record, "angle", None)
    return float(told.value) if told else USUAL_ANGLE.get(record.kind, 0.0)


def cylinders(scene: Scene, record: Any, whole: Band, ends: tuple[Ends, Ends]) -> tuple[Cell, ...]:
    """Give a row of rollers on plain tracks."""
    del scene, record
    pitch, high = (whole.inner + whole.outer) / 2, whole.outer - whole.inner
    half = ROLLER * high / 2
    rings = _two_rings(whole, ends, (*(pitch - half,) * 2, *(pitch + half,) * 2))
    long = ROLLER_LONG * min(e[1] - e[0] for e in ends)
    middle = _middle(ends)
    return (
        *rings,
        ring(
            middle - long / 2,
            middle + long / 2,
            pitch - half,
            pitch + half,
            what=What.ROLLER,
            share=FULL * 0.7854,
            piece="rollers",
        ),
    )


def thrust(scene: Scene, record: Any, whole: Band, ends: tuple[Ends, Ends]) -> tuple[Cell, ...]:
    """Give two washers and the balls between them."""
    del scene, record
    (a, b, g), (c, d, h) = ends
    washers = tuple(
        ring(x0, x1, whole.inner, whole.outer, guess=g_ | whole.guess, piece=piece)
        for x0, x1, g_, piece in ((a, b, g, "inner"), (c, d, h, "outer"))
    )
    left, right = min(b, d), max(a, c)
    pitch = (whole.inner + whole.outer) / 2
    room = max(right - left, 0.0)
    radius = min((whole.outer - whole.inner) * 0.32, max(room * 0.75, 1.0))
    return (*washers, ball_row((left + right) / 2, pitch, radius))


Line = tuple[tuple[float, float], tuple[float, float]]
"""A straight line from one place and radius to another [mm]."""


def contact_lines(scene: Scene, part: str) -> tuple[Line, ...]:
    """Give the lines of contact of a bearing that stops one way, from outside to the axis [mm]."""
    record = scene.rebuild.parts[part]
    cells = scene.cells.get(part, ())
    if not isinstance(record, Bearing) or USUAL_ANGLE.get(record.kind) is None:
        return ()
    rows = [cell for cell in cells if cell.what in (What.BALL, What.ROLLER)]
    ways = [stops(scene, record)] if len(rows) == 1 else [1.0, -1.0]
    angle = radians(_angle(record))
    return tuple(_contact(row, way, angle) for row, way in zip(rows, ways, strict=False) if way)


def _contact(row: Cell, way: float, angle: float) -> Line:
    """Draw through the middle of a row: the outer ring holds it on the side it stops."""
    at, pitch = (row.first + row.last) / 2, (row.inner[0] + row.outer[1]) / 2
    out = 0.9 * (row.outer[0] - row.inner[0])
    return (at + way * out * sin(angle), pitch + out * cos(angle)), (
        at - way * pitch * tan(angle),
        0.0,
    )
