"""Which views a drawing has: a line each, and with it a line that ends on it by bevels."""

from collections.abc import Iterator, Mapping

from dryfit.app.usecases.drawing_marks import LetterAnswer, Wide, spans
from dryfit.draw.section_view import Crossing, Opening, Radial, Shown, View
from dryfit.model.lands import OPENING
from dryfit.model.meshes import BevelMesh
from dryfit.model.parts import Housing
from dryfit.model.rebuild import Rebuild
from dryfit.shape.bands import is_shaft
from dryfit.shape.covers import screw_lines
from dryfit.shape.rings import contact_lines
from dryfit.shape.scene import Scene


def views(
    rebuild: Rebuild,
    scenes: Mapping[str, Scene],
    letters: tuple[LetterAnswer, ...],
    gaps: Mapping[str, tuple[Wide, ...]],
) -> Iterator[View]:
    """Give a view of each line; one that ends on another by bevels is drawn with that."""
    crossings = dict(_crossings(rebuild, scenes))
    with_another = {crossing.line.name for crossing in crossings.values()}
    for name, scene in scenes.items():
        if scene.cells and name not in with_another:
            hung = tuple(spans(rebuild, scene, letters))
            marked = tuple(one.gap for one in gaps[name])
            yield View(_shown(scene), crossings.get(name), hung, marked)


def _shown(scene: Scene) -> Shown:
    """Give a line as it is drawn, with its lines of contact and pitch lines."""
    thin = tuple(line for own in thin_lines(scene).values() for line in own)
    rest = scene.rest
    return Shown(rest.name, rest.first, rest.last, scene.solids(), thin, tuple(openings(scene)))


def openings(scene: Scene) -> Iterator[Opening]:
    """Give the openings at the side of the case along a line, no wider than the case is there."""
    for part in (name for name in scene.cells if isinstance(scene.part(name), Housing)):
        cells = scene.cells[part]
        ends = min(c.first for c in cells), max(c.last for c in cells)
        for land in scene.lands(part, OPENING, *ends):
            near = [c for c in cells if c.first < land.last and land.first < c.last]
            half = min([land.radius, *(max(c.outer) for c in near)])
            yield Opening(part, land.first, land.last, half)


def thin_lines(scene: Scene) -> dict[str, tuple[tuple[Radial, Radial], ...]]:
    """Give by part its lines of contact, its pitch lines and the axis of its screws [mm]."""
    return {
        part: (
            *contact_lines(scene, part),
            *((g.pitch_line[0], g.pitch_line[1]) for g in scene.gears.get(part, ())),
            *screw_lines(scene, part),
        )
        for part in scene.cells
    }


def _crossings(rebuild: Rebuild, scenes: Mapping[str, Scene]) -> Iterator[tuple[str, Crossing]]:
    """Find lines that end on another by bevels, each line once; the first one lies along."""
    taken: set[str] = set()
    for mesh in rebuild.meshes.values():
        if not isinstance(mesh, BevelMesh):
            continue
        for own, mate in ((mesh.wheel, mesh.pinion), (mesh.pinion, mesh.wheel)):
            along, other = _line_with(scenes, own), _line_with(scenes, mate)
            if along and other and not {along, other} & taken:
                way = _way(mesh, mate, scenes[other])
                at, own_at = _cross_at(scenes[along], own), _cross_at(scenes[other], mate)
                if (
                    at is not None
                    and own_at is not None
                    and _ends_there(scenes[other], own_at, way)
                ):
                    taken |= {along, other}
                    yield along, Crossing(_shown(scenes[other]), at, own_at, way)


def _line_with(scenes: Mapping[str, Scene], part: str) -> str | None:
    return next((name for name, scene in scenes.items() if part in scene.cells), None)


def _ends_there(scene: Scene, at: float, way: float) -> bool:
    """Tell a line that lies on one side of the axis it meets."""
    turning = [c for n, own in scene.cells.items() if is_shaft(scene.part(n)) for c in own]
    return all(way * (x - at) > -1.0 for c in turning for x in (c.first, c.last))


def _cross_at(scene: Scene, part: str) -> float | None:
    return next((g.apex for g in scene.gears.get(part, ()) if g.apex is not None), None)


def _way(mesh: BevelMesh, mate: str, other: Scene) -> float:
    away = mesh.wheel_away if mate == mesh.wheel else mesh.pinion_away
    return 1.0 if away == other.rest.last else -1.0
