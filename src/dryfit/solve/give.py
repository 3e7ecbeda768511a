"""How much parts shorten or bend at a face for each newton on it.

Half of a ring or spacer shortens at each of its faces; a cover bends like a plate between its
screws and its spigot. Parts whose section is not told are taken as rigid.
"""

from collections.abc import Callable
from typing import Any

from dryfit.mechanics.clamp import end_stiffness, ring_area
from dryfit.mechanics.holders import cover_spring
from dryfit.mechanics.materials import MATERIALS
from dryfit.model.parts import Bearing, Cover, Part, Spacer
from dryfit.model.rebuild import Rebuild
from dryfit.model.spots import Spot
from dryfit.quantities import Size
from dryfit.solve.bodies import BODIES
from dryfit.solve.growth import TRACK
from dryfit.solve.rings import INNER, owner, ring
from dryfit.solve.sizes import metres


def give_at(rebuild: Rebuild, spot: Spot, *, joint: str | None) -> float:
    """Say how much a body yields at one of its faces.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    spot
        Face of a body [spot]
    joint
        The cover whose joint the face is in; there it does not bend [text]

    Returns
    -------
    give
        Yield for each newton; 0 where the section is not known [m/N]

    Valid
    -----
    Faces pressed all round. A plate's figure may be out by a factor of two either way.

    Source
    ------
    As `mechanics.clamp` and `mechanics.holders`.

    Examples
    --------
    >>> r = Rebuild("mm", parts={"case": Part("case", "housing")})
    >>> give_at(r, Spot("case", "face"), joint=None)
    0.0
    """
    part = rebuild.parts[owner(spot.part)]
    for sort, give in GIVES.items():
        if isinstance(part, sort):
            return give(rebuild, part, spot, joint)
    return 0.0


def _of(size: Any) -> float | None:
    return metres(size) if isinstance(size, Size) else None


def _modulus(part: Part) -> float:
    named = part.material or BODIES[part.kind].material or "steel"
    return MATERIALS.get(named, MATERIALS["steel"]).modulus


def _ring(_: Rebuild, part: Any, spot: Spot, __: str | None) -> float:
    """Half of a ring between its seat and its track."""
    bore, outside = _of(part.bore), _of(part.outside)
    inner = spot.part == ring(part.name, INNER)
    width = _of(part.inner_width if inner else part.outer_width) or _of(part.width)
    if bore is None or outside is None or not width or not 0 < bore < outside:
        return 0.0
    wall = TRACK * (outside - bore)
    ends = (bore + 2 * wall, bore) if inner else (outside, outside - 2 * wall)
    return 0.5 / float(end_stiffness(width, ring_area(*ends), _modulus(part)))


def _spacer(rebuild: Rebuild, part: Any, _: Spot, __: str | None) -> float:
    bore, outside = _of(part.bore), _of(part.outside)
    between = rebuild.sizes.get(part.name)
    length = _of(between.size) if between else None
    if bore is None or outside is None or not length or not 0 <= bore < outside:
        return 0.0
    return 0.5 / float(end_stiffness(abs(length), ring_area(outside, bore), _modulus(part)))


def _cover(_: Rebuild, part: Any, __: Spot, joint: str | None) -> float:
    circle, spigot, thick = (_of(size) for size in (part.screw_circle, part.spigot, part.thickness))
    if joint == part.name or circle is None or spigot is None or thick is None:
        return 0.0
    if not 0 < spigot < circle or thick <= 0:
        return 0.0
    return float(cover_spring(circle, spigot, thick, modulus=_modulus(part)).give)


GIVES: dict[type[Part], Callable[[Rebuild, Any, Spot, str | None], float]] = {
    Bearing: _ring,
    Spacer: _spacer,
    Cover: _cover,
}
