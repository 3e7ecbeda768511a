"""What must hold of lines that lie side by side or cross."""

from collections.abc import Iterator

from dryfit.model.axes import Axes, ParallelAxes
from dryfit.model.known import names_in, parts_known
from dryfit.model.meshes import Mesh
from dryfit.model.rebuild import Line, Rebuild
from dryfit.model.spots import Spot
from dryfit.quantities import Finding, Place
from dryfit.quantities.finding import near

SPOTS = (
    ("level", "line"),
    ("other level", "other"),
    ("crossing", "line"),
    ("other crossing", "other"),
)
"""Which spot belongs to which of the two lines, by their keys."""


def axes_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Two lines that are there are told of once, each by a spot of its own casing."""
    told: dict[frozenset[str], str] = {}
    for name, axes in rebuild.axes.items():
        place: Place = ("axes", name)
        yield from _lines(rebuild, axes, place)
        pair = frozenset({axes.line, axes.other})
        if pair in told:
            message = f"how '{axes.line}' and '{axes.other}' lie is told by '{told[pair]}' already"
            yield Finding("axes.twice", place, message, "take one of them out")
        told.setdefault(pair, name)
        for key, of in SPOTS:
            spot = getattr(axes, key.replace(" ", "_"), None)
            if spot is not None:
                yield from _spot(rebuild, spot, getattr(axes, of), (*place, key))
        yield from _apart(rebuild, axes, place)


def _lines(rebuild: Rebuild, axes: Axes, place: Place) -> Iterator[Finding]:
    known = names_in(rebuild, "lines", rebuild.lines)
    for key in ("line", "other"):
        name = getattr(axes, key)
        if name not in known:
            message = f"there is no line '{name}'"
            yield Finding("line.unknown", (*place, key), message, near(name, rebuild.lines))
    if axes.line == axes.other:
        message = f"'{axes.line}' does not lie beside itself"
        yield Finding("axes.itself", (*place, "other"), message, "name the other line")


def _spot(rebuild: Rebuild, spot: Spot, line: str, place: Place) -> Iterator[Finding]:
    """A spot is on something of its line that stands still, and a size or stack says where."""
    yield from parts_known(rebuild, [spot.part], place)
    lying = _parts_in(rebuild.lines.get(line))
    if spot.part in rebuild.parts and lying and spot.part not in lying:
        message = f"'{spot.part}' does not lie in the line '{line}'"
        yield Finding("axes.spot", place, message, f"name a spot on the case in '{line}'")
        return
    sized = [s for b in rebuild.sizes.values() for s in (b.start, b.end)]
    stacks = [s for one in rebuild.lines.values() for k in one.stacks for s in k.spots]
    names = list(dict.fromkeys(s.name for s in (*sized, *stacks) if s.part == spot.part))
    if spot.part in rebuild.parts and spot.name not in names:
        message = f"nothing says where '{spot}' lies"
        way_out = near(spot.name, names) or f"add a size from another spot of '{spot.part}' to it"
        yield Finding("axes.spot", place, message, way_out)


def _parts_in(line: Line | None) -> set[str]:
    return {spot.part for stack in line.stacks for spot in stack.spots} if line else set()


def _apart(rebuild: Rebuild, axes: Axes, place: Place) -> Iterator[Finding]:
    """Parallel lines are some way apart; no distance is less than nothing."""
    typed = axes.centre_distance
    if typed is not None and typed.value < (0 if not isinstance(axes, ParallelAxes) else 1e-9):
        message = f"centres cannot be {typed.text} apart"
        way_out = "type the distance of the centres, larger than 0"
        yield Finding("size.not positive", (*place, "centre distance"), message, way_out)
    if isinstance(axes, ParallelAxes) and typed is None and mesh_between(rebuild, axes) is None:
        message = "how far the centres are apart is not said, and no mesh between the lines says it"
        yield Finding("axes.apart", place, message, "add centre distance: 72.05")


def mesh_between(rebuild: Rebuild, axes: Axes) -> Mesh | None:
    """Give a mesh between two lines that says how far their centres are apart, if there is one."""
    one, other = (_parts_in(rebuild.lines.get(name)) for name in (axes.line, axes.other))
    for mesh in rebuild.meshes.values():
        pair = {mesh.pinion in one, mesh.wheel in other}
        turned = {mesh.pinion in other, mesh.wheel in one}
        if hasattr(mesh, "centre_distance") and ({True} in (pair, turned)):
            return mesh
    return None
