"""What each ring of a line sits on or in."""

from collections.abc import Mapping, Sequence
from typing import Any

from dryfit.model.rebuild import Rebuild
from dryfit.model.spots import Spot
from dryfit.solve.bodies import Side, Stands
from dryfit.solve.joints import body_of
from dryfit.solve.rings import INNER, OUTER, owner, ring


def seats(rebuild: Rebuild, stacks: Sequence[Sequence[Spot]]) -> dict[str, str]:
    """Name the part that each ring sits on or in: as told, else as its stack shows, else the usual.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    stacks
        Of one line, bearings as their rings [stacks]

    Returns
    -------
    seats
        By ring, both of every bearing of the line; one that has none at all is absent [text]

    Valid
    -----
    One shaft a line.

    Source
    ------
    None needed.

    Examples
    --------
    >>> seats(Rebuild("mm"), [])
    {}
    """
    found: dict[str, str] = {}
    for spots in stacks:
        for body in {spot.part for spot in spots} - set(rebuild.parts):
            shown = _shown(rebuild, spots, body)
            if shown:
                found.setdefault(body, shown)
    bodies = sorted({spot.part for spots in stacks for spot in spots})
    usual = _usual(rebuild, bodies)
    for name in {owner(body) for body in bodies if body not in rebuild.parts}:
        bearing: Any = rebuild.parts[name]
        for which, told, side in (
            (INNER, bearing.on, Side.SHAFT),
            (OUTER, bearing.in_, Side.CASE),
        ):
            host = told or found.get(ring(name, which)) or usual[side]
            if host:
                found[ring(name, which)] = host
    return found


def _shown(rebuild: Rebuild, spots: Sequence[Spot], body: str) -> str | None:
    """Name the first part of a stack that may carry a ring of it."""
    side = Side.SHAFT if body == ring(owner(body), INNER) else Side.CASE
    for spot in spots:
        if spot.part in rebuild.parts:
            kind = body_of(rebuild, spot.part)
            if kind.side is side and kind.stands is not Stands.THREADED:
                return spot.part
    return None


def _usual(rebuild: Rebuild, bodies: Sequence[str]) -> Mapping[Side, str]:
    """Name the shaft and the case of a line, for bearings that no stack puts on or in anything."""
    parts = [name for name in bodies if name in rebuild.parts]
    turns = [name for name in parts if body_of(rebuild, name).floats]
    still = [name for name in parts if body_of(rebuild, name).stands is Stands.STILL]
    return {Side.SHAFT: (turns or [""])[0], Side.CASE: (still or [""])[0]}
