"""What must hold of gear meshes and of the checks that read them."""

from collections.abc import Iterator
from typing import Any

from dryfit.model.known import parts_known
from dryfit.model.meshes import BevelMesh, HelicalMesh, Mesh, WormMesh
from dryfit.model.parts import Bearing, PlainBearing, Shaft
from dryfit.model.rebuild import (
    Backlash,
    Check,
    CordPull,
    Flushness,
    LashNeed,
    Lift,
    Line,
    Rebuild,
    Shake,
)
from dryfit.model.spots import Spot
from dryfit.quantities import Finding, Place, Size
from dryfit.quantities.finding import a, near

FEWEST_TEETH = 5
ANGLES = {"pressure_angle": (10, 35), "shaft_angle": (10, 170), "spiral_angle": (0, 60)}
"""What gears can have [degree]."""

USUAL = {"pressure_angle": 20, "shaft_angle": 90, "spiral_angle": 0}
"""What is taken where nothing is said [degree]."""

MEMBERS = ("pinion", "wheel")
SIZES = ("module", "centre_distance", "worm_diameter", "face_width")
MAY_BE_NOUGHT = ("lash", "eccentric")
HELIX = 60
"""No helix leans further [degree]."""

HELD = ("towards", "away")
HANDS = ("right", "left")


def mesh_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Ask every rule about meshes and the checks beside them."""
    for name, mesh in rebuild.meshes.items():
        place: Place = ("meshes", name)
        yield from _members(rebuild, mesh, place)
        yield from _figures(mesh, place)
        if isinstance(mesh, BevelMesh):
            yield from _bevel(rebuild, mesh, place)
        if isinstance(mesh, HelicalMesh):
            yield from _word(mesh.hand, HANDS, (*place, "hand"))
            yield from _helix(mesh, place)
    yield from _one_gear(rebuild)
    for section, group in (("checks", rebuild.checks), ("needs", rebuild.needs)):
        for name, asked in group.items():
            yield from _check(rebuild, asked, (section, name))


def _members(rebuild: Rebuild, mesh: Any, place: Place) -> Iterator[Finding]:
    """Both members are known, two, and lie in lines."""
    for which in MEMBERS:
        part = getattr(mesh, which)
        yield from parts_known(rebuild, [part], (*place, which))
        if part in rebuild.parts and not _line_of(rebuild, part) and rebuild.lines:
            yield Finding(
                "mesh.no line",
                (*place, which),
                f"'{part}' lies in no line, so its gear cannot move",
                "put it into a stack of its line",
            )
        carrier = rebuild.parts.get(part)
        if carrier is not None and not isinstance(carrier, Shaft):
            yield Finding(
                "mesh.member",
                (*place, which),
                f"'{part}' is {a(carrier.kind)}, and no gear turns with that",
                "name the shaft or cluster that carries this gear",
            )
    if mesh.pinion == mesh.wheel:
        yield Finding(
            "mesh.one part",
            (*place, "wheel"),
            f"'{mesh.pinion}' cannot turn itself",
            "name the part that carries the other gear",
        )


def _one_gear(rebuild: Rebuild) -> Iterator[Finding]:
    """A gear that runs with two others has one module."""
    seen: dict[tuple[type[Mesh], str, int | None], Mesh] = {}
    for name, mesh in rebuild.meshes.items():
        for part, teeth in ((mesh.pinion, mesh.pinion_teeth), (mesh.wheel, mesh.wheel_teeth)):
            first = seen.setdefault((type(mesh), part, teeth), mesh)
            one, other = first.module, mesh.module
            if isinstance(one, Size) and isinstance(other, Size) and one.value != other.value:
                yield Finding(
                    "mesh.modules",
                    ("meshes", name, "module"),
                    f"'{part}' has {teeth} teeth of module {other.text} here and of {one.text} "
                    f"in '{first.name}'",
                    "one of them is misread, if they are one gear",
                    "note",
                )


def _line_of(rebuild: Rebuild, part: str) -> Line | None:
    for line in rebuild.lines.values():
        if any(spot.part == part for stack in line.stacks for spot in stack.spots):
            return line
    return None


def _figures(mesh: Any, place: Place) -> Iterator[Finding]:
    """Teeth, module and angle are such as gears have."""
    for which in MEMBERS:
        teeth = getattr(mesh, f"{which}_teeth")
        fewest = 1 if isinstance(mesh, WormMesh) and which == "pinion" else FEWEST_TEETH
        if teeth is not None and teeth < fewest:
            yield Finding(
                "mesh.teeth",
                (*place, f"{which} teeth"),
                f"{teeth} teeth are too few for a gear",
                f"count them again: {fewest} or more",
            )
    for field in (*SIZES, *MAY_BE_NOUGHT):
        size = getattr(mesh, field, None)
        nought = field in MAY_BE_NOUGHT
        if isinstance(size, Size) and (size.value < 0 or (size.value == 0 and not nought)):
            key = field.replace("_", " ")
            yield Finding(
                "size.not positive",
                (*place, key),
                f"{a(key)} of {size.text} cannot be",
                f"type it, {'0 or more' if nought else 'larger than 0'}, or not known",
            )
    for field, (low, high) in ANGLES.items():
        angle = getattr(mesh, field, None)
        if angle is not None and not low <= angle.value <= high:
            key = field.replace("_", " ")
            yield Finding(
                "mesh.angle",
                (*place, key),
                f"no gear has a {key} of {angle.text}",
                f"type what it is, {low} to {high} deg; not said, it is {USUAL[field]} deg",
            )


def _helix(mesh: HelicalMesh, place: Place) -> Iterator[Finding]:
    """A helix leans one way or the other by no more than gears can."""
    angle = mesh.helix_angle
    if angle is not None and not 0 < angle.value <= HELIX:
        yield Finding(
            "mesh.helix",
            (*place, "helix angle"),
            f"no helical gear has a helix angle of {angle.text}",
            f"type how far its teeth lean from the shaft: up to {HELIX} deg; which way says hand",
        )


def _bevel(rebuild: Rebuild, mesh: Any, place: Place) -> Iterator[Finding]:
    """Each bevel opens towards an end of its line, from a spot on itself to one beside it."""
    for which in MEMBERS:
        part = getattr(mesh, which)
        line, away = _line_of(rebuild, part), getattr(mesh, f"{which}_away")
        if line and away not in (line.first, line.last):
            yield Finding(
                "mesh.away",
                (*place, f"{which} away"),
                f"'{away}' is no end of the line of '{part}'",
                near(away, (line.first, line.last)),
            )
        apex, crossing = getattr(mesh, f"{which}_apex"), getattr(mesh, f"{which}_crossing")
        if apex and apex.part != part:
            yield Finding(
                "mesh.apex",
                (*place, f"{which} apex"),
                f"'{apex}' is not on '{part}'",
                f"name the spot on it where its cone would end: {part}.apex",
            )
        sized = {s for b in rebuild.sizes.values() for s in (b.start, b.end)}
        for key, spot in (("apex", apex), ("crossing", crossing)):
            at = (*place, f"{which} {key}")
            yield from parts_known(rebuild, [spot.part] if spot else [], at)
            if spot and spot.part in rebuild.parts and spot not in sized:
                yield Finding(
                    "spot.unsized",
                    at,
                    f"no size reaches '{spot}'",
                    "add one under sizes, from a face of the same part",
                )
        yield from _crossing(rebuild, crossing, line, (*place, f"{which} crossing"))


def _crossing(
    rebuild: Rebuild, spot: Spot | None, line: Line | None, place: Place
) -> Iterator[Finding]:
    """Where the axes cross is told on a part that lies in the line and does not turn."""
    if spot is None or line is None or spot.part not in rebuild.parts:
        return
    lies = any(other.part == spot.part for stack in line.stacks for other in stack.spots)
    if not lies or isinstance(rebuild.parts[spot.part], Shaft):
        yield Finding(
            "mesh.crossing",
            place,
            f"'{spot}' does not stand still in the line '{line.name}'",
            "name a spot on the case, or on what is screwed to it in this line: case.crossing",
        )


def _word(word: str | None, words: tuple[str, ...], place: Place) -> Iterator[Finding]:
    if word is not None and word not in words:
        yield Finding("word", place, f"'{word}' is not known here", f"write {' or '.join(words)}")


WANTED: dict[type[Check], tuple[type, str]] = {
    Shake: (Bearing, "a bearing"),
    Lift: (PlainBearing, "a plain bearing"),
    CordPull: (Shaft, "a shaft or cluster, round which a cord can be wound"),
}


def _check(rebuild: Rebuild, check: Any, place: Place) -> Iterator[Finding]:
    """A check reads a mesh or part of the right sort, at a radius that is one."""
    if isinstance(check, Backlash | Flushness | LashNeed):
        yield from _of_mesh(rebuild, check, place)
    if isinstance(check, Backlash | LashNeed):
        yield from _word(check.on, MEMBERS, (*place, "on"))
        for which in MEMBERS:
            yield from _word(getattr(check, which), HELD, (*place, which))
        yield from _engaged(rebuild, check, place)
    radius = getattr(check, "at_radius", None)
    if radius and radius.value <= 0:
        yield Finding(
            "check.radius",
            (*place, "at radius"),
            f"a radius of {radius.text} cannot be",
            "type how far from the axis it is read, larger than 0",
        )
    for sort, (wanted, what) in WANTED.items():
        part = rebuild.parts.get(getattr(check, "of", ""))
        if isinstance(check, sort) and part is not None and not isinstance(part, wanted):
            yield Finding(
                "check.of", (*place, "of"), f"'{part.name}' is {a(part.kind)}", f"name {what}"
            )


def _of_mesh(rebuild: Rebuild, check: Any, place: Place) -> Iterator[Finding]:
    mesh: Mesh | None = rebuild.meshes.get(check.mesh)
    unread = any(p[:1] == ("meshes",) for p in rebuild.unread)
    if mesh is None and not unread:
        yield Finding(
            "mesh.unknown",
            (*place, "mesh"),
            f"there is no mesh '{check.mesh}'",
            near(check.mesh, rebuild.meshes) or "add it under meshes:",
        )
    elif isinstance(check, Flushness) and mesh and not isinstance(mesh, BevelMesh):
        yield Finding(
            "check.of",
            (*place, "mesh"),
            f"'{mesh.name}' is a {mesh.kind} mesh: only bevels have back faces to be flush",
            "name a bevel mesh",
        )


def _engaged(rebuild: Rebuild, check: Backlash | LashNeed, place: Place) -> Iterator[Finding]:
    """A sliding gear is read in a state in which it is in."""
    mesh, state = rebuild.meshes.get(check.mesh), rebuild.states.get(check.state)
    if mesh and mesh.engaged_in and (state is None or state.gears_in != mesh.engaged_in):
        yield Finding(
            "mesh.out",
            (*place, "state"),
            f"'{mesh.name}' is not in mesh in state '{check.state}'",
            f"read it in a state with gears in: {mesh.engaged_in}",
        )
