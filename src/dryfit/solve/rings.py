"""Which ring of a bearing a stack means.

A stack that holds what the bearing sits on goes through its inner ring, one that holds what it
sits in goes through its outer ring. Where the bearing does not say, kinds do: shafts and nuts go
with inner rings, the case and what is screwed to it with outer rings.
"""

from collections.abc import Iterable
from dataclasses import replace

from dryfit.model.parts import Bearing
from dryfit.model.rebuild import Rebuild
from dryfit.model.spots import Spot
from dryfit.solve.bodies import BODIES, Side

INNER, OUTER = "inner ring", "outer ring"
_APART = "/"
"""Between a bearing and its ring; no part can have it in its name."""


def ring(bearing: str, which: str) -> str:
    """Name the body that is one ring of a bearing.

    Parameters
    ----------
    bearing
        The part [text]
    which
        `INNER` or `OUTER` [text]

    Returns
    -------
    body
        Its name [text]

    Valid
    -----
    Any bearing.

    Source
    ------
    None needed.

    Examples
    --------
    >>> ring("front", INNER)
    'front/inner ring'
    """
    return f"{bearing}{_APART}{which}"


def owner(body: str) -> str:
    """Name the part that a body belongs to.

    Parameters
    ----------
    body
        A part, or a ring of one [text]

    Returns
    -------
    part
        Its name [text]

    Valid
    -----
    Any body.

    Source
    ------
    None needed.

    Examples
    --------
    >>> owner("front/inner ring"), owner("shaft")
    ('front', 'shaft')
    """
    return body.partition(_APART)[0]


def sides(rebuild: Rebuild, parts: Iterable[str], bearing: Bearing) -> set[str]:
    """Say which rings of a bearing the other parts of a stack point to.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    parts
        Parts of the stack [text]
    bearing
        One of them [part]

    Returns
    -------
    rings
        `INNER`, `OUTER`, both where the stack contradicts itself, or none [text]

    Valid
    -----
    Any stack.

    Source
    ------
    None needed.

    Examples
    --------
    >>> sides(Rebuild("mm"), [], Bearing("front", "deep groove ball"))
    set()
    """
    named = [part for part in parts if part != bearing.name]
    told = {INNER for part in named if part == bearing.on}
    told |= {OUTER for part in named if part == bearing.in_}
    if told:
        return told
    usual = {BODIES[rebuild.parts[part].kind].side for part in named if part in rebuild.parts}
    by_side = {Side.SHAFT: INNER, Side.CASE: OUTER}
    return {by_side[side] for side in usual if side in by_side}


def on_rings(rebuild: Rebuild, spots: Iterable[Spot]) -> list[Spot]:
    """Put the spots of a stack on bodies: those of a bearing on one of its rings.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    spots
        Of one stack [spots]

    Returns
    -------
    spots
        The same on bodies; a bearing whose ring is not told counts with its outer one [spots]

    Valid
    -----
    Any stack; `doubts` tells of one that contradicts itself.

    Source
    ------
    None needed.

    Examples
    --------
    >>> on_rings(Rebuild("mm"), [Spot("case", "face")])
    [Spot(part='case', name='face')]
    """
    listed = list(spots)
    parts = [spot.part for spot in listed]
    placed = []
    for spot in listed:
        part = rebuild.parts.get(spot.part)
        if isinstance(part, Bearing):
            which = INNER if sides(rebuild, parts, part) == {INNER} else OUTER
            spot = replace(spot, part=ring(spot.part, which))
        placed.append(spot)
    return placed
