"""What arithmetic finds wrong in lines with bearings and nuts, and in meshes."""

from collections.abc import Iterator
from math import cos, pi, sin
from typing import Any

from dryfit.mechanics.bevels import pitch_cones
from dryfit.mechanics.threads import thread_size
from dryfit.model.parts import PART_KINDS, Bearing, CylindricalRoller, Nut
from dryfit.model.rebuild import Line, Rebuild
from dryfit.quantities import Finding, Size
from dryfit.solve.luck import NoLuck, full
from dryfit.solve.network import Network, network
from dryfit.solve.rings import INNER, OUTER, sides
from dryfit.solve.rows import USUAL_ANGLE
from dryfit.solve.sample import sample
from dryfit.solve.sizes import metres
from dryfit.solve.spelled import spelled
from dryfit.solve.states import COLD, Fitted

NO_THREAD = "nut.thread"

WIDEST_FACE = 0.5
"""Share of the cone distance that no bevel is wide: they are cut to a third at most, common
practice."""

FAR_OUT = 1.0
"""Centre distances further than so many modules from the gears' own are taken for a slip."""


def line_doubts(rebuild: Rebuild) -> tuple[Finding, ...]:
    """Find what arithmetic finds wrong with rings, nuts and centre distances.

    Parameters
    ----------
    rebuild
        A unit that keeps the rules of `model.rules` [rebuild]

    Returns
    -------
    findings
        All of them, with their places [findings]

    Valid
    -----
    References that hold; see `model.rules.check`.

    Source
    ------
    None needed.

    Examples
    --------
    >>> line_doubts(Rebuild("mm"))
    ()
    """
    threads = [*_threads(rebuild)]
    rings = [*_rings(rebuild)]
    nuts = [] if threads else _nuts(rebuild)
    meshes = (*_centres(rebuild), *_faces(rebuild))
    return (*threads, *rings, *_angles(rebuild), *nuts, *meshes)


def _threads(rebuild: Rebuild) -> Iterator[Finding]:
    """Each thread is one that is known."""
    for name, part in rebuild.parts.items():
        if isinstance(part, Nut) and part.thread:
            try:
                across = thread_size(part.thread).diameter
            except ValueError as unknown:
                yield Finding(
                    NO_THREAD,
                    ("parts", name, "thread"),
                    f"no size is known for {unknown}",
                    "write it as M40x1.5, 1 1/2 BSF, 3/4-16 UNF, or take the key out",
                )
                continue
            yield from _face(part, across)


def _face(part: Nut, across: float) -> Iterator[Finding]:
    """The face of a nut is wider than its thread."""
    if isinstance(part.face, Size) and metres(part.face) <= across and type(part) is Nut:
        yield Finding(
            "nut.face",
            ("parts", part.name, "face"),
            f"a face of {part.face.text} across is no wider than the thread {part.thread}",
            "type the outside of the face that does the pushing, or take the key out",
        )


def _rings(rebuild: Rebuild) -> Iterator[Finding]:
    """Each stack goes through one ring of a bearing, and both rings of it touch something."""
    used: dict[str, set[str]] = {}
    for line in rebuild.lines.values():
        for stack in line.stacks:
            parts = [spot.part for spot in stack.spots]
            for name in dict.fromkeys(parts):
                part = rebuild.parts.get(name)
                if isinstance(part, Bearing):
                    told = sides(rebuild, parts, part)
                    used.setdefault(name, set()).update(told)
                    yield from _one_ring(line, stack.name, name, told)
    for name, rings in used.items():
        part = rebuild.parts[name]
        if len(rings) == 1 and not isinstance(part, CylindricalRoller):
            other = "outer" if rings == {INNER} else "inner"
            yield Finding(
                "bearing.one ring",
                ("parts", name),
                f"the {other} ring of '{name}' touches nothing endways",
                "well if it is to float; else add the stack it lies in",
                "note",
            )


def _one_ring(line: Line, stack: str, name: str, told: set[str]) -> Iterator[Finding]:
    place = ("lines", line.name, line.direction, stack)
    if told == {INNER, OUTER}:
        yield Finding(
            "stack.both rings",
            place,
            f"this stack goes from the shaft to the case through '{name}'",
            "write two: one with the shaft for its inner ring, one with the case for its outer",
        )
    elif not told:
        yield Finding(
            "stack.no ring",
            place,
            f"nothing in this stack tells which ring of '{name}' it means",
            f"begin or end it on the shaft or the case, or give '{name}' on: and in:",
        )


def _angles(rebuild: Rebuild) -> Iterator[Finding]:
    """Tell what is taken for contact angles that are not told, once for each kind of bearing."""
    for kind, (angle, spread) in USUAL_ANGLE.items():
        silent = [
            name
            for name, part in rebuild.parts.items()
            if isinstance(part, PART_KINDS[kind]) and getattr(part, "angle", None) is None
        ]
        if silent:
            named = ", ".join(f"'{name}'" for name in silent)
            yield Finding(
                "bearing.no angle",
                ("parts", silent[0]),
                f"nothing says the angle of {named}: it is taken as {angle:.0f} deg, give or take "
                f"{spread:.0f}",
                f"add it from a list, or as it is marked: angle: {angle:.0f} deg",
                "note",
            )


def _nets(rebuild: Rebuild) -> Iterator[tuple[Line, Network]]:
    """Build each line once as typed."""
    drawn = sample(rebuild, NoLuck())
    packs = {name: full(drawn.draws, 0.0) for name in rebuild.settings}
    for line in rebuild.lines.values():
        yield line, network(rebuild, line, drawn, Fitted(packs, COLD, {}, {}))


def _nuts(rebuild: Rebuild) -> Iterator[Finding]:
    """A nut that clamps has a torque, one that adjusts is set to a float."""
    if not any(isinstance(part, Nut) for part in rebuild.parts.values()):
        return
    for _, net in _nets(rebuild):
        clamps = {n for n in net.pulls if net.pulls[n].law is not None}
        for name in net.layouts:
            part: Any = rebuild.parts.get(name)
            if isinstance(part, Nut):
                yield from _nut(
                    name,
                    part,
                    adjusts=name in net.hosts,
                    clamps=name in clamps,
                    chosen=name in rebuild.settings,
                )


def _nut(name: str, part: Nut, *, adjusts: bool, clamps: bool, chosen: bool) -> Iterator[Finding]:
    if adjusts and part.torque is not None:
        yield Finding(
            "nut.torque",
            ("parts", name, "torque"),
            f"'{name}' adjusts: nothing solid lies between it and its shoulder, so a torque says "
            "nothing",
            "take the torque out and write what it is set to: set to: 0.01",
        )
    if clamps and part.set_to is not None:
        yield Finding(
            "nut.set to",
            ("parts", name, "set to"),
            f"'{name}' clamps what lies under it, so it cannot be set to a float",
            "take it out and write its torque: 50 N.m",
        )
    if adjusts and part.set_to is None and not chosen:
        yield Finding(
            "nut.not set",
            ("parts", name),
            f"nothing says what '{name}' is set to: it is taken as just nothing",
            "add set to: 0.01 by dial indicator",
            "note",
        )
    if not adjusts and not clamps:
        yield Finding(
            "nut.alone",
            ("parts", name),
            f"nothing says what '{name}' is screwed to",
            "put a shaft, or the case, into its line",
        )


def _centres(rebuild: Rebuild) -> Iterator[Finding]:
    """A centre distance is near half the sum of the pitch diameters."""
    for name, mesh in rebuild.meshes.items():
        given: Any = mesh
        centres, module = getattr(given, "centre_distance", None), mesh.module
        if not isinstance(centres, Size) or not isinstance(module, Size) or module.value <= 0:
            continue
        own = _standard(given, metres(module))
        if own is not None and abs(metres(centres) - own) > FAR_OUT * metres(module):
            yield Finding(
                "mesh.centres",
                ("meshes", name, "centre distance"),
                f"with {centres.text} between centres these gears would "
                f"{'not reach' if metres(centres) > own else 'run into'} each other: their own is "
                f"{spelled(own, rebuild)}",
                "measure it again, or the module, or count the teeth",
            )


def _standard(mesh: Any, module: float) -> float | None:
    """Work out the centre distance of a pair without profile shift."""
    if isinstance(getattr(mesh, "worm_diameter", None), Size):
        return float(metres(mesh.worm_diameter) + module * mesh.wheel_teeth) / 2
    helix = getattr(mesh, "helix_angle", None)
    lean = cos(helix.si) if helix else 1.0
    return float(module * (mesh.pinion_teeth + mesh.wheel_teeth) / 2 / lean)


def _faces(rebuild: Rebuild) -> Iterator[Finding]:
    """A bevel is not so wide that its teeth would run out towards the apex."""
    for name, mesh in rebuild.meshes.items():
        given: Any = mesh
        face, module = getattr(given, "face_width", None), mesh.module
        if not isinstance(face, Size) or not isinstance(module, Size):
            continue
        angle = given.shaft_angle.si if given.shaft_angle else pi / 2
        cone = float(pitch_cones(given.pinion_teeth, given.wheel_teeth, angle).cone_angle)
        reach = metres(module) * given.pinion_teeth / 2 / sin(cone)
        if metres(face) > WIDEST_FACE * reach:
            yield Finding(
                "mesh.face width",
                ("meshes", name, "face width"),
                f"teeth {face.text} wide do not go on a cone of {spelled(reach, rebuild)}, which "
                f"is what module {module.text} gives",
                "measure the width along the teeth, and the module, or count the teeth again",
            )
