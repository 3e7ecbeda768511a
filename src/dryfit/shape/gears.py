"""Cells of gears, from the meshes of the part they are on.

Of bevels, the apex says where they stand. Where along its shaft any other gear stands nobody
types: it is drawn in the middle of what is free, as an estimate.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, radians, sin
from typing import Any

from dryfit.model.meshes import Mesh
from dryfit.model.rebuild import Rebuild
from dryfit.shape.bands import mm
from dryfit.shape.cells import Cell, Guess, What
from dryfit.shape.resting import Resting

ADDENDUM, DEDENDUM = 1.0, 1.25
"""Height of a tooth above and below the pitch line, in modules: ISO 53 (from memory)."""

FILLED = 0.5
"""Share of the ring of teeth that is metal."""

FACE = 8.0
"""Face width where none is told, in modules: common practice, 6 to 12."""

BACK = 1.2
"""How thick a gear is behind its teeth, in modules: estimate."""

Points = tuple[tuple[float, float], ...]
"""Corners of an outline, by place along the axis and radius [mm]."""


@dataclass(frozen=True, slots=True)
class Gear:
    """A gear as it stands on its part.

    Attributes
    ----------
    mesh, other
        Its mesh, and the part its mate is on.
    first, last
        Where its body begins and ends along the axis [mm].
    reach
        Its greatest radius [mm].
    body, teeth
        Outlines of what is full and of a tooth.
    pitch_line
        Pitch line, from its one end to the other.
    guess
        Which sides of its teeth are estimates.
    apex
        Where the axes cross, of a bevel [mm].
    mate_ends
        How far along the axis a mate reaches that is no larger [mm].
    """

    mesh: str
    other: str
    first: float
    last: float
    reach: float
    body: Points
    teeth: Points
    pitch_line: Points
    guess: Guess
    apex: float | None = None
    mate_ends: float | None = None


def gears_on(
    rebuild: Rebuild, rest: Resting, part: str, free: tuple[float, float], hub: float
) -> tuple[Gear, ...]:
    """Give the gears of a part; `free` is where those go whose place nobody typed [mm]."""
    members = [*_members(rebuild, part)]
    cuts = [free[0] + (free[1] - free[0]) * n / max(len(members), 1) for n in range(9)]
    return tuple(
        GEARS[mesh.kind](rest, mesh, which, (cuts[n], cuts[n + 1]), hub)
        for n, (mesh, which) in enumerate(members[:8])
        if mm(mesh.module)
    )


def _members(rebuild: Rebuild, part: str) -> Iterator[tuple[Any, str]]:
    """List the meshes a part is in, as the pinion or as the wheel."""
    for mesh in rebuild.meshes.values():
        for which in ("pinion", "wheel"):
            if getattr(mesh, which) == part:
                yield mesh, which


def _mate(mesh: Mesh, which: str) -> str:
    return mesh.wheel if which == "pinion" else mesh.pinion


def pitch_radius(mesh: Any, which: str) -> float:
    """Pitch radius of a gear at its large end [mm]."""
    return float((mm(mesh.module) or 1.0) * (getattr(mesh, f"{which}_teeth") or 1) / 2)


def cone_angle(mesh: Any, which: str) -> float:
    """Angle between the axis of a bevel and its pitch line [rad].

    tan d1 = sin S / (z2 / z1 + cos S), S between the shafts: ISO 23509 (from memory).
    """
    other = "wheel" if which == "pinion" else "pinion"
    shafts = radians(float(mesh.shaft_angle.value) if mesh.shaft_angle else 90.0)
    own, mate = pitch_radius(mesh, which), pitch_radius(mesh, other)
    return atan2(sin(shafts), mate / own + cos(shafts))


def _bevel(rest: Resting, mesh: Any, which: str, free: tuple[float, float], hub: float) -> Gear:
    """Stand a bevel on its apex; it opens towards `away`."""
    part, spot = getattr(mesh, which), getattr(mesh, f"{which}_apex")
    apex = rest.places.get(part, {}).get(spot.name, (free[0] + free[1]) / 2)
    way = 1.0 if getattr(mesh, f"{which}_away") == rest.last else -1.0
    angle, module = cone_angle(mesh, which), mm(mesh.module) or 1.0
    cone = pitch_radius(mesh, which) / sin(angle)
    face = min(mm(mesh.face_width) or cone / 3, 0.6 * cone)
    small = (cone - face) / cone

    def at(height: float, share: float = 1.0, back: float = 0.0) -> tuple[float, float]:
        up = height * share - back
        x = share * cone * cos(angle) - up * sin(angle)
        return apex + way * x, share * cone * sin(angle) + up * cos(angle)

    tip, root = ADDENDUM * module, -DEDENDUM * module
    heel, toe = at(root, 1.0, BACK * module), at(root, small, BACK * module)
    hub = min(hub, 0.95 * min(heel[1], toe[1]))
    body = (toe, at(root, small), at(root), heel, (heel[0], hub), (toe[0], hub))
    teeth = (at(root, small), at(tip, small), at(tip), at(root))
    xs = [x for x, _ in (*body, *teeth)]
    line = ((apex, 0.0), at(0.0, 1.06))
    guess = Guess.NONE if mm(mesh.face_width) else Guess.ENDS
    mate = pitch_radius(mesh, "wheel" if which == "pinion" else "pinion")
    beyond = apex - way * (mate + module) if mate <= pitch_radius(mesh, which) else None
    reach = max(r for _, r in teeth)
    other = _mate(mesh, which)
    return Gear(mesh.name, other, min(xs), max(xs), reach, body, teeth, line, guess, apex, beyond)


def _cylinder(mesh: Any, which: str, radius: float, span: tuple[float, float], hub: float) -> Gear:
    """Give a gear with straight sides."""
    module = mm(mesh.module) or 1.0
    low, tip = radius - DEDENDUM * module, radius + ADDENDUM * module
    (a, b), hub = span, min(hub, 0.95 * low)
    body = ((a, hub), (a, low), (b, low), (b, hub))
    teeth = ((a, low), (a, tip), (b, tip), (b, low))
    line = ((a - 2, radius), (b + 2, radius))
    return Gear(mesh.name, _mate(mesh, which), a, b, tip, body, teeth, line, Guess.ENDS)


def _spur(rest: Resting, mesh: Any, which: str, free: tuple[float, float], hub: float) -> Gear:
    del rest
    span = _within(free, FACE * (mm(mesh.module) or 1.0))
    return _cylinder(mesh, which, pitch_radius(mesh, which), span, hub)


def _worm(rest: Resting, mesh: Any, which: str, free: tuple[float, float], hub: float) -> Gear:
    del rest
    module = mm(mesh.module) or 1.0
    if which == "pinion":
        radius = (mm(mesh.worm_diameter) or 10 * module) / 2
        return _cylinder(mesh, which, radius, _within(free, 4.5 * 3.1416 * module), hub)
    return _cylinder(mesh, which, pitch_radius(mesh, which), _within(free, FACE * module), hub)


def _within(free: tuple[float, float], width: float) -> tuple[float, float]:
    """Put a width into the middle of what is free; it may fill eight tenths of it."""
    middle = (free[0] + free[1]) / 2
    half = min(width, max(0.8 * (free[1] - free[0]), 1.0)) / 2
    return middle - half, middle + half


GEARS: dict[str, Callable[[Resting, Any, str, tuple[float, float], float], Gear]] = {
    "bevel": _bevel,
    "spur": _spur,
    "helical": _spur,
    "worm": _worm,
}


def cells_of(points: Points, what: What, guess: Guess, piece: str) -> tuple[Cell, ...]:
    """Cut an outline that is convex into cells: what it fills as it goes round the axis."""
    cuts = sorted({x for x, _ in points})
    share = FILLED if what is What.TOOTH else 1.0
    found = []
    for a, b in pairwise(cuts):
        if b - a < 1e-6:
            continue
        (low_a, high_a), (low_b, high_b) = (_across(points, x, (a + b) / 2) for x in (a, b))
        found.append(Cell(a, b, (low_a, low_b), (high_a, high_b), what, guess, share, piece))
    return tuple(found)


def _across(
    points: Sequence[tuple[float, float]], at: float, towards: float
) -> tuple[float, float]:
    """Say where a line across meets an outline, just towards a place beside it."""
    near = at + (towards - at) * 1e-9
    hits = []
    for (xa, ra), (xb, rb) in zip(points, (*points[1:], points[0]), strict=True):
        if (xa - near) * (xb - near) < 0:
            hits.append(ra + (rb - ra) * (near - xa) / (xb - xa))
    return min(hits), max(hits)


def gear_cells(gear: Gear) -> tuple[Cell, ...]:
    """Give the cells of a gear: its body and its teeth."""
    body = cells_of(gear.body, What.METAL, gear.guess | Guess.ALL, f"gear {gear.mesh}")
    teeth = cells_of(gear.teeth, What.TOOTH, gear.guess, f"teeth {gear.mesh}")
    return (*body, *teeth)
