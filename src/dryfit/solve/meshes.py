"""The lash of a mesh as it stands, and what a dial reads of it.

Rocked by hand one way and the other, the teeth push both shafts along: each line is brought to rest
under either hand torque, and the arc is the gap of the teeth where they then are, with what the
movement of a helix or a worm adds. `LASHES` has one entry for each kind of mesh.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from dryfit.mechanics.bevel_lash import bevel_contact_radius, bevel_lash, cone_movement
from dryfit.mechanics.bevels import pitch_cones
from dryfit.mechanics.lash import cylindrical_lash, dial_reading, mesh_shift, worm_lash
from dryfit.mechanics.tooth_forces import bevel_forces, cylindrical_forces
from dryfit.mechanics.worms import worm_pair
from dryfit.model.rebuild import Backlash, Flushness, Line
from dryfit.model.spots import Spot
from dryfit.quantities import Quantity, Size
from dryfit.solve.benchtop import Bench, NothingStops, NotYet
from dryfit.solve.elastic import Held
from dryfit.solve.luck import Array, full
from dryfit.solve.sizes import gauge, metres, true_size

HAND = 1.0
"""Torque by which a member is rocked where none is told [N m]."""

PRESSURE_ANGLE = 20.0
"""Where none is told [degree]."""

AWAY, TOWARDS = "away", "towards"

NO_WAY = 0.0
"""On parallel shafts no end is nearer to the mesh."""


@dataclass(frozen=True, slots=True)
class Member:
    """One gear of a mesh in its line, under hand torque one way and the other.

    Attributes
    ----------
    part
        What it is part of.
    bench
        The unit, looked at along its line.
    flanks
        The line at rest, on one flank and on the other.
    """

    part: str
    bench: Bench
    flanks: tuple[Held, Held]

    def spot(self, spot: Spot, flank: int) -> Array:
        """Say where a spot of a body of this line stands [m]."""
        held = self.flanks[flank]
        return held.place(spot.part) + self.bench.net.layouts[spot.part].offsets[spot.name]

    def moved(self) -> Array:
        """Say how far the part goes along from one flank to the other [m]."""
        return self.flanks[0].place(self.part) - self.flanks[1].place(self.part)


@dataclass(frozen=True, slots=True)
class Lash:
    """What a mesh has.

    Attributes
    ----------
    arc
        Along the circle where the teeth touch [m], shape (n,).
    radius
        Where the teeth touch, of the member that is rocked [m].
    lacking
        What is not known of it.
    """

    arc: Array
    radius: Array
    lacking: frozenset[str]


def lash(bench: Bench, check: Backlash) -> tuple[Array, Array, frozenset[str]]:
    """Say what a mesh has where the teeth touch and what a dial reads of it.

    Parameters
    ----------
    bench
        The unit [bench]
    check
        Which mesh, how held, where read [check]

    Returns
    -------
    arc, shown, lacking
        True arc and reading, and what is not known [m], [m], [keys]

    Raises
    ------
    NothingStops
        A shaft of the mesh is not stopped.
    NotYet
        Sizes of the mesh, or of a line that its teeth push along, are not known.

    Valid
    -----
    Both members in lines of their own; parallel shafts with their ends written the same way round.

    Source
    ------
    As `mechanics.lash` and `mechanics.bevel_lash`.

    Examples
    --------
    >>> sorted(LASHES)
    ['bevel', 'helical', 'spur', 'worm']
    """
    mesh: Any = bench.rebuild.meshes[check.mesh]
    _must_be_known(bench, mesh)
    found = LASHES[mesh.kind](bench, check, mesh)
    at = metres(check.at_radius) if check.at_radius else None
    radius = found.radius if at is None else full(bench.sample.draws, at)
    return found.arc, dial_reading(np.maximum(found.arc, 0.0), found.radius, radius), found.lacking


def line_with(bench: Bench, part: str) -> Line:
    """Find the line in which a part lies.

    Parameters
    ----------
    bench
        The unit [bench]
    part
        A part [text]

    Returns
    -------
    line
        The first line whose stacks name it [line]

    Raises
    ------
    NothingStops
        It lies in no line.

    Valid
    -----
    Any part.

    Source
    ------
    None needed.

    Examples
    --------
    See tests/oracle/test_signs.py.

    >>> PRESSURE_ANGLE
    20.0
    """
    for line in bench.rebuild.lines.values():
        if any(spot.part == part for stack in line.stacks for spot in stack.spots):
            return line
    raise NothingStops(part)


NEEDED = ("module", "centre_distance", "worm_diameter")
"""Sizes of a mesh without which nothing can be said of it."""


def _must_be_known(bench: Bench, mesh: Any) -> None:
    """Tell all at once what is not known of a mesh and of the lines of its members."""
    without = [f for f in NEEDED if hasattr(mesh, f) and not isinstance(getattr(mesh, f), Size)]
    lacking = {f"{mesh.name}.{field.replace('_', ' ')}" for field in without}
    for part in (mesh.pinion, mesh.wheel):
        try:
            lacking |= bench.along(line_with(bench, part)).lacking
        except NotYet as not_yet:
            lacking |= not_yet.lacking
    if lacking:
        _, lash_too = _before(bench, mesh)
        raise NotYet(frozenset(lacking) | lash_too)


def _known(bench: Bench, mesh: Any, field: str) -> Array:
    """Draw a size that `_must_be_known` has seen."""
    size = _size(bench, mesh, field)
    if size is None:
        raise NotYet(frozenset({f"{mesh.name}.{field.replace('_', ' ')}"}))
    return size


def _size(bench: Bench, mesh: Any, field: str) -> Array | None:
    """Draw a size written with a mesh; a module is a name for a size of tooth, and exact."""
    size = getattr(mesh, field)
    if field == "module" and isinstance(size, Size):
        return full(bench.sample.draws, metres(size))
    by = gauge(bench.rebuild, size.instrument) if isinstance(size, Size) else None
    if by is None:
        return None
    return true_size(bench.sample.draws, ("meshes", mesh.name, field), size, by)


def _angle(told: Quantity | None, usual: float) -> float:
    return told.si if told else float(np.radians(usual))


def _centres(bench: Bench, mesh: Any) -> Array:
    """Work out the centre distance: as measured, with its shims, less what an eccentric takes."""
    centres = _known(bench, mesh, "centre_distance")
    if mesh.centre_shims:
        centres = centres + bench.put.packs.get(mesh.centre_shims, 0.0)
    throw = _size(bench, mesh, "eccentric")
    if throw is not None:
        centres = centres - throw * np.cos(_angle(mesh.eccentric_turned, 0.0))
    return centres


def _before(bench: Bench, mesh: Any) -> tuple[Array, frozenset[str]]:
    """Draw the lash that a mesh was made with; what is not known is what is assumed, or none."""
    own, key = _size(bench, mesh, "lash"), f"{mesh.name}.lash"
    if own is None:
        return full(bench.sample.draws, bench.put.assumed.get(key, 0.0)), frozenset({key})
    return own, frozenset()


def _member(
    bench: Bench, check: Any, part: str, which: str, along: Mapping[int, Array], away: float
) -> Member:
    """Bring the line of a member to rest on both flanks, held as the check says."""
    own = bench.along(line_with(bench, part))
    held = getattr(check, which, None)
    hand = own.push(check.name, None) * {AWAY: away, TOWARDS: -away}.get(held or "", 0.0)
    first = own.at_rest({part: along[0] + hand})
    alike = along[0] is along[1]
    return Member(part, own, (first, first if alike else own.at_rest({part: along[1] + hand})))


@dataclass(frozen=True, slots=True)
class Stands:
    """How the members of a bevel pair stand.

    Attributes
    ----------
    shifts
        Of pinion and wheel, away from where the axes cross [m], shape (n,) each.
    cones
        Their pitch angles [rad].
    distance
        Cone distance [m].
    face
        Width of the teeth [m].
    """

    shifts: tuple[Array, Array]
    cones: tuple[float, float]
    distance: Array
    face: Array


def _stands(bench: Bench, check: Any, mesh: Any) -> Stands:
    """Say how far the members of a bevel pair stand from where they were meant to."""
    cones = tuple(pitch_cones(mesh.pinion_teeth, mesh.wheel_teeth, _angle(mesh.shaft_angle, 90.0)))
    module, face = _known(bench, mesh, "module"), _size(bench, mesh, "face_width")
    distance = module * mesh.pinion_teeth / 2 / np.sin(cones[0])
    face = distance / 3 if face is None else face
    radii = [(distance - face / 2) * np.sin(cone) for cone in cones]
    rocked = radii[0] if getattr(check, "on", None) == "pinion" else radii[1]
    force = (_angle(getattr(check, "torque", None), 0.0) or HAND) / rocked
    shifts = []
    for which, cone, radius in zip(("pinion", "wheel"), cones, radii, strict=True):
        part = getattr(mesh, which)
        away = _way(bench, part, getattr(mesh, f"{which}_away"))
        alpha = _angle(mesh.pressure_angle, PRESSURE_ANGLE)
        push = bevel_forces(force * radius, radius, cone_angle=cone, pressure_angle=alpha).along
        out = away * push  # on either flank straight teeth push a bevel out
        member = _member(bench, check, part, which, {0: out, 1: out}, away)
        apex, crossing = getattr(mesh, f"{which}_apex"), getattr(mesh, f"{which}_crossing")
        shifts.append(away * (member.spot(apex, 0) - member.spot(crossing, 0)))
    return Stands((shifts[0], shifts[1]), (cones[0], cones[1]), distance, face)


def _bevel(bench: Bench, check: Backlash, mesh: Any) -> Lash:
    stands = _stands(bench, check, mesh)
    before, lacking = _before(bench, mesh)
    arc = bevel_lash(
        *stands.shifts,
        cone_angle=stands.cones[0],
        mate_cone_angle=stands.cones[1],
        pressure_angle=_angle(mesh.pressure_angle, PRESSURE_ANGLE),
        spiral_angle=_angle(mesh.spiral_angle, 0.0),
        lash_before=before,
    ).arc
    contact = "full length" if mesh.teeth == "full length" else "crowned"
    rocked = stands.cones[0] if check.on == "pinion" else stands.cones[1]
    radius = bevel_contact_radius(stands.distance, stands.face, rocked, contact=contact)
    return Lash(arc, radius, lacking)


def flushness(bench: Bench, check: Flushness) -> tuple[Array, Array]:
    """Say how far the pinion's back face stands out beyond the wheel's along the pitch line.

    Parameters
    ----------
    bench
        The unit [bench]
    check
        Which bevel pair [check]

    Returns
    -------
    out, shown
        Signed, and as a straightedge and feeler show it [m], shape (n,)

    Raises
    ------
    NothingStops
        A shaft of the mesh is not stopped.
    NotYet
        As `lash`.

    Valid
    -----
    Back cones turned to the pitch circle at the pitch angle.

    Source
    ------
    As `mechanics.bevel_lash.cone_movement`.

    Examples
    --------
    See tests/oracle/test_signs.py.

    >>> AWAY
    'away'
    """
    mesh = bench.rebuild.meshes[check.mesh]
    _must_be_known(bench, mesh)
    stands = _stands(bench, check, mesh)
    out: Array = cone_movement(
        *stands.shifts, cone_angle=stands.cones[0], mate_cone_angle=stands.cones[1]
    ).flushness
    return out, np.abs(out)


def _way(bench: Bench, part: str, end: str) -> float:
    """Say which way along the line of a part an end of it lies."""
    return 1.0 if line_with(bench, part).last == end else -1.0


def _cylindrical(bench: Bench, check: Backlash, mesh: Any) -> Lash:
    alpha = _angle(mesh.pressure_angle, PRESSURE_ANGLE)
    helix = _helix(mesh)
    module, centres = _known(bench, mesh, "module"), _centres(bench, mesh)
    teeth = mesh.pinion_teeth + mesh.wheel_teeth
    radii = {
        "pinion": centres * mesh.pinion_teeth / teeth,
        "wheel": centres * mesh.wheel_teeth / teeth,
    }
    rocked = "pinion" if check.on == "pinion" else "wheel"
    force = (_angle(check.torque, 0.0) or HAND) / radii[rocked]
    moved = {}
    for which, hand in (("pinion", 1.0), ("wheel", -1.0)):
        along = {
            flank: cylindrical_forces(
                way * force * radii[which],
                radii[which],
                pressure_angle=alpha,
                helix_angle=hand * helix,
            ).along
            for flank, way in ((0, 1.0), (1, -1.0))
        }
        moved[which] = _member(bench, check, getattr(mesh, which), which, along, NO_WAY).moved()
    before, lacking = _before(bench, mesh)
    made = cylindrical_lash(centres, module, teeth, pressure_angle=alpha, helix_angle=helix).arc
    slid = np.abs(mesh_shift(moved["pinion"] - moved["wheel"], helix))
    return Lash(made + before + slid, radii[rocked], lacking)


def _helix(mesh: Any) -> float:
    told = getattr(mesh, "helix_angle", None)
    right = (getattr(mesh, "hand", None) or "right") == "right"
    return _angle(told, 0.0) * (1.0 if right else -1.0)


def _worm(bench: Bench, check: Backlash, mesh: Any) -> Lash:
    alpha = _angle(mesh.pressure_angle, PRESSURE_ANGLE)
    module, worm = (_known(bench, mesh, field) for field in ("module", "worm_diameter"))
    centres = _centres(bench, mesh)
    pair = worm_pair(
        module, mesh.pinion_teeth, mesh.wheel_teeth, worm_diameter=worm, pressure_angle=alpha
    )
    force = (_angle(check.torque, 0.0) or HAND) / (pair.wheel_diameter / 2)
    along = {0: force, 1: -force}
    float_ = _member(bench, check, mesh.pinion, "pinion", along, NO_WAY).moved()
    before, lacking = _before(bench, mesh)
    arc = worm_lash(
        centres - pair.centre_distance,
        np.abs(float_),
        pressure_angle=alpha,
        lead_angle=pair.lead_angle,
        lead=pair.lead,
        lash_before=before,
    ).arc
    return Lash(arc, pair.wheel_diameter / 2, lacking)


LASHES: dict[str, Callable[[Bench, Backlash, Any], Lash]] = {
    "bevel": _bevel,
    "spur": _cylindrical,
    "helical": _cylindrical,
    "worm": _worm,
}
