"""Tools as shapes: what must not be there yet, or no more, for a spanner, drift, probe or puller.

Each gives the ways in which the tool can be brought to its work, each with the bodies that shut it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from dryfit.plan.actions import Way
from dryfit.plan.bodies import Body
from dryfit.plan.masks import bits
from dryfit.plan.nest import Nest

SOCKET, HOOK, PROBE, BLADE, CLAW = 6.0, 12.0, 4.0, 0.5, 5.0
"""Wall of a socket, thickness of a hook spanner, of a dial's probe, of a pack of feelers and of the
claw of a puller [mm]: estimates."""

FAR = 1e6
"""Further than anything reaches [mm]."""


@dataclass(frozen=True, slots=True)
class Reach:
    """One way to bring a tool to its work.

    Attributes
    ----------
    tool
        What is brought.
    way
        From where: as the ways of the line, or "outwards" for from outside.
    shut_by
        Bodies in its way.
    """

    tool: str
    way: str
    shut_by: int

    def as_way(self, nest: Nest, steps: Mapping[str, str] | None = None) -> Way:
        """Give it as a way to a step; `steps`: in which step each body is put on."""
        named = steps or {}
        names = (named.get(name, name) for name in nest.told(self.shut_by))
        return Way(f"{self.tool}, {FROM.get(self.way, self.way)}", frozenset(names))


FROM = {"outwards": "from outside"}
"""Ways in words where they are not those of the line."""


def _span(body: Body) -> tuple[float, float]:
    return min(c.first for c in body.cells), max(c.last for c in body.cells)


def _radii(body: Body) -> tuple[float, float]:
    return min(min(c.inner) for c in body.cells), max(max(c.outer) for c in body.cells)


def spanners(
    nest: Nest, nut: str, wall: float = SOCKET, *, typed: bool = False
) -> tuple[Reach, ...]:
    """Say how a nut can be reached: by a socket over it from an end, by a hook from outside.

    A ring that is screwed into something has its slots or holes in its face. `typed`: only what
    somebody typed is in the way.
    """
    body, own = nest.bodies[nest.at[nut]], 1 << nest.at[nut]
    span, (inner, outer) = _span(body), _radii(body)
    pins = (inner, (inner + outer) / 2) if _screwed_in(nest, nut) else None
    if not body.goes_round:
        return _drivers(nest, nut, body.cells[0].angles, typed=typed)
    found = []
    for way, face in zip(nest.ways, (span[1], span[0]), strict=True):
        before = pins or (_clear(nest, nut), outer + wall)
        met = nest.zone((face, face), before, way, typed=typed)
        if pins is None:
            met |= nest.zone(span, (outer, outer + wall), way, typed=typed)
        found.append(Reach("socket" if pins is None else "pin spanner", way, met & ~own))
    if pins is not None:
        return tuple(found)
    middle = sum(span) / 2
    wide = (max(span[0], middle - HOOK / 2), min(span[1], middle + HOOK / 2))
    hook = nest.zone(wide, (outer, FAR), "outwards", typed=typed) & ~own
    return (*found, Reach("hook spanner", "outwards", hook))


def _drivers(nest: Nest, screws: str, angles: int, *, typed: bool) -> tuple[Reach, ...]:
    """Say from which end a key gets on the heads of screws."""
    body, own = nest.bodies[nest.at[screws]], 1 << nest.at[screws]
    head = max(body.cells, key=lambda cell: max(cell.outer))
    radii = min(head.inner), max(head.outer)
    found = []
    for way, face in zip(nest.ways, (head.first, head.last), strict=True):
        met = nest.zone((face, face), radii, way, angles=angles, typed=typed)
        found.append(Reach("key or spanner", way, met & ~own))
    return tuple(found)


def surely_shut(nest: Nest, nut: str, there: int) -> str:
    """Say why no spanner gets to a nut, where that follows from what somebody typed.

    Nothing is sure of a nut whose own size nobody typed.
    """
    own = nest.bodies[nest.at[nut]]
    if any(cell.unsure[1] for cell in own.cells):
        return ""
    return blocked(nest, spanners(nest, nut, typed=True), there)


def _screwed_in(nest: Nest, ring: str) -> bool:
    """Tell a ring with its thread outside from a nut."""
    body = nest.bodies[nest.at[ring]]
    threads, (inner, _) = {c.thread for c in body.cells} - {""}, _radii(body)
    others = [b for b in nest.bodies if b is not body]
    return any(min(c.inner) > inner for b in others for c in b.cells if c.thread in threads)


def _clear(nest: Nest, nut: str) -> float:
    """Say how wide a socket is inside: it clears the thread of the nut [mm]."""
    body = nest.bodies[nest.at[nut]]
    threads = {c.thread for c in body.cells} - {""}
    inner, _ = _radii(body)
    bearing = [max(c.outer) for b in nest.bodies for c in b.cells if c.thread in threads]
    on_it = [radius for radius in bearing if radius < _radii(body)[1]]
    return max([inner, *on_it])


def drift(nest: Nest, ring: str, radii: tuple[float, float], *, way: str) -> Reach:
    """Say whether a sleeve can be set on one ring of a body to drive it away from an end.

    Parameters
    ----------
    ring
        The body that is driven.
    radii
        Of the tight ring's own face: the other ring must not be touched [mm].
    way
        From which end the sleeve comes.
    """
    body, own = nest.bodies[nest.at[ring]], 1 << nest.at[ring]
    span = _span(body)
    face = span[1] if way == nest.ways[0] else span[0]
    return Reach("drift", way, nest.zone((face, face), radii, way) & ~own)


def through_the_balls(pressed: tuple[float, float], tight: tuple[float, float]) -> str:
    """Warn if a bearing is driven by another ring than the one that is tight [mm].

    Examples
    --------
    >>> through_the_balls((45, 52), (20, 27))
    'the force goes through the balls: drive on the tight ring'
    >>> through_the_balls((21, 26), (20, 27))
    ''
    """
    inside = tight[0] <= pressed[0] and pressed[1] <= tight[1]
    return "" if inside else "the force goes through the balls: drive on the tight ring"


def probes(
    nest: Nest, at: float, radius: float, *, thick: float = PROBE, typed: bool = False
) -> tuple[Reach, ...]:
    """Say from which end a dial's probe gets to a face at a place and radius [mm].

    `typed`: only what somebody typed is in the way.
    """
    radii = (max(0.0, radius - thick / 2), radius + thick / 2)
    found = ((way, nest.zone((at, at), radii, way, typed=typed)) for way in nest.ways)
    return tuple(Reach("dial", way, met) for way, met in found)


def feelers(nest: Nest, between: Iterable[str], at: float, *, radius: float) -> tuple[Reach, ...]:
    """Say how a feeler gets into a gap between two bodies: across, or along in a ring gap.

    Parameters
    ----------
    between
        The two bodies of the gap.
    at, radius
        Where the gap opens [mm].
    """
    own = nest.mask(between)
    blade = (at - BLADE / 2, at + BLADE / 2)
    across = nest.zone(blade, (radius, FAR), "outwards") & ~own
    found = [Reach("feeler", "outwards", across)]
    for way in nest.ways:
        ring = (radius, radius + BLADE)
        found.append(Reach("feeler", way, nest.zone((at, at), ring, way) & ~own))
    return tuple(found)


def pullers(nest: Nest, ring: str, claw: float = CLAW) -> tuple[Reach, ...]:
    """Say from which end a puller gets its claws behind a ring."""
    body, own = nest.bodies[nest.at[ring]], 1 << nest.at[ring]
    (first, last), (inner, outer) = _span(body), _radii(body)
    found = []
    for way, behind in zip(nest.ways, ((first - claw, first), (last, last + claw)), strict=True):
        along = (min(behind[0], first), max(behind[1], last))
        arms = nest.zone(along, (outer, outer + claw), way)
        hold = _at(nest, behind, ((inner + outer) / 2, outer))
        found.append(Reach("puller", way, (arms | hold) & ~own))
    return tuple(found)


def _at(nest: Nest, span: tuple[float, float], radii: tuple[float, float]) -> int:
    """Give the bodies that fill some of a ring."""
    both = (nest.zone(span, radii, way) for way in nest.ways)
    found = nest.full
    for mask in both:
        found &= mask
    return found


def blocked(nest: Nest, reaches: Iterable[Reach], there: int) -> str:
    """Say why a tool cannot be brought with some bodies in place; nothing if it can.

    Examples
    --------
    >>> from dryfit.plan.bodies import stretch
    >>> nut, cover = stretch(0, 10, 20, 30), stretch(10, 15, 0, 40)
    >>> nest = Nest((Body("nut", (nut,)), Body("cover", (cover,))))
    >>> reaches = spanners(nest, "nut")[:1]
    >>> blocked(nest, reaches, nest.full)
    "socket, to last: 'cover' is in the way"
    >>> blocked(nest, reaches, nest.mask(["nut"]))
    ''
    """
    told = []
    for reach in reaches:
        names = [f"'{nest.bodies[n].name}'" for n in bits(reach.shut_by & there)]
        if not names:
            return ""
        where = FROM.get(reach.way, reach.way)
        verb = "is" if len(names) == 1 else "are"
        told.append(f"{reach.tool}, {where}: {', '.join(names)} {verb} in the way")
    return "; ".join(told)
