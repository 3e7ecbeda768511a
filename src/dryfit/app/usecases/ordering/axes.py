"""How the lines of a casing lie to each other, as the plan takes it: from axes, and from bevels.

Of a pair of bevels the document says where its axes cross, so nothing more has to be typed.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from dryfit.model.axes import Axes, ParallelAxes, SquareAxes
from dryfit.model.axes_rules import mesh_between
from dryfit.model.meshes import BevelMesh, Mesh, SpurMesh, WormMesh
from dryfit.model.rebuild import Rebuild
from dryfit.model.spots import Spot
from dryfit.plan.casing import Casing, Lie
from dryfit.quantities import Finding, Size
from dryfit.shape.resting import Resting

SQUARE = 90.0
"""The angle of shafts that are square to each other [degree]."""

Rests = Mapping[str, Resting]
"""Lines at rest, by name."""


def lies_of(rebuild: Rebuild, rests: Sequence[Resting]) -> tuple[Lie, ...]:
    """Say how lines lie, as far as that is told and all spots of it are known."""
    by_name = {rest.name: rest for rest in rests}
    told = [_told(rebuild, axes, by_name) for axes in rebuild.axes.values()]
    pairs = {frozenset({axes.line, axes.other}) for axes in rebuild.axes.values()}
    bevels = [
        lie
        for mesh in rebuild.meshes.values()
        if isinstance(mesh, BevelMesh)
        for lie in _of_bevels(mesh, by_name)
        if frozenset({lie.one, lie.other}) not in pairs
    ]
    return (*(lie for lie in told if lie), *bevels)


def _told(rebuild: Rebuild, axes: Axes, rests: Rests) -> Lie | None:
    spots: tuple[Spot | None, Spot | None] = (None, None)
    if isinstance(axes, ParallelAxes):
        spots = (axes.level, axes.other_level)
    elif isinstance(axes, SquareAxes):
        spots = (axes.crossing, axes.other_crossing)
    at = [_at(rests, line, s) for line, s in zip((axes.line, axes.other), spots, strict=True)]
    apart = _apart(rebuild, axes)
    if at[0] is None or at[1] is None or apart is None:
        return None
    free = tuple(way for mesh in _meshes(rebuild, axes, rests) for way in _free(mesh, rests))
    square = isinstance(axes, SquareAxes)
    return Lie(axes.line, axes.other, (at[0], at[1]), apart, square, free)


def _at(rests: Rests, line: str, spot: Spot | None) -> float | None:
    """Say where a spot lies along a line, if that is known [mm]."""
    if spot is None or line not in rests:
        return None
    return rests[line].places.get(spot.part, {}).get(spot.name)


def _apart(rebuild: Rebuild, axes: Axes) -> float | None:
    """Say how far the centres are apart, as told or by a mesh [mm]."""
    told = axes.centre_distance or getattr(mesh_between(rebuild, axes), "centre_distance", None)
    if isinstance(told, Size):
        return told.mm
    return 0.0 if told is None and isinstance(axes, SquareAxes) else None


def _meshes(rebuild: Rebuild, axes: Axes, rests: Rests) -> list[Mesh]:
    """List the meshes between two lines."""
    pair = {axes.line, axes.other}
    return [
        mesh
        for mesh in rebuild.meshes.values()
        if {_line_of(rests, mesh.pinion), _line_of(rests, mesh.wheel)} == pair
    ]


def _line_of(rests: Rests, part: str) -> str:
    return next((name for name, rest in rests.items() if part in rest.places), "")


def _free(mesh: Mesh, rests: Rests) -> Iterator[tuple[str, str, str]]:
    """Say what mates in mesh do not stop.

    Straight and helical teeth slide along each other, a worm is screwed out, a bevel opens.
    """
    lines = {part: rests[_line_of(rests, part)] for part in (mesh.pinion, mesh.wheel)}
    both = {part: (f"to {rest.first}", f"to {rest.last}") for part, rest in lines.items()}
    if isinstance(mesh, BevelMesh):
        yield mesh.pinion, f"to {mesh.pinion_away}", mesh.wheel
        yield mesh.wheel, f"to {mesh.wheel_away}", mesh.pinion
    if isinstance(mesh, SpurMesh | WormMesh):
        yield from ((mesh.pinion, way, mesh.wheel) for way in both[mesh.pinion])
    if isinstance(mesh, SpurMesh):
        yield from ((mesh.wheel, way, mesh.pinion) for way in both[mesh.wheel])


def _of_bevels(mesh: BevelMesh, rests: Rests) -> Iterator[Lie]:
    """Say how the lines of two bevels lie, if these are square to each other."""
    one, other = _line_of(rests, mesh.pinion), _line_of(rests, mesh.wheel)
    at = _at(rests, one, mesh.pinion_crossing), _at(rests, other, mesh.wheel_crossing)
    angle = mesh.shaft_angle
    if at[0] is not None and at[1] is not None and (angle is None or angle.value == SQUARE):
        yield Lie(one, other, (at[0], at[1]), 0.0, True, tuple(_free(mesh, rests)))


def left_lies(casing: Casing) -> list[Finding]:
    """Tell lies that leave no order."""
    way_out = "look at the spots and sizes by which they lie to each other"
    return [
        Finding(
            "plan.axes",
            ("lines", lie.one),
            f"what parts of '{lie.one}' and '{lie.other}' stop of each other leaves no order: it "
            "is not looked at",
            way_out,
            "note",
        )
        for lie in casing.left
    ]


def untold(casing: Casing) -> tuple[str, ...]:
    """List the pairs of lines of which it is not looked at what one stops of the other."""
    seen = {frozenset({lie.one, lie.other}) for lie in (*casing.looked_at, *casing.left)}
    pairs = combinations(casing.built, 2)
    return tuple(f"'{a}' and '{b}'" for a, b in pairs if frozenset({a, b}) not in seen)
