"""Tools as shapes: a way to bring one to its work, and what must not be there yet, or no more."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from dryfit.plan.actions import Way
from dryfit.plan.bodies import Body
from dryfit.plan.masks import bits
from dryfit.plan.nest import Nest

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


def span_of(body: Body) -> tuple[float, float]:
    """Say from where to where a body reaches along the line [mm]."""
    return min(c.first for c in body.cells), max(c.last for c in body.cells)


def radii_of(body: Body) -> tuple[float, float]:
    """Give the least and the greatest radius of a body [mm]."""
    return min(min(c.inner) for c in body.cells), max(max(c.outer) for c in body.cells)


def blocked(nest: Nest, reaches: Iterable[Reach], there: int) -> str:
    """Say why a tool cannot be brought with some bodies in place; nothing if it can.

    Examples
    --------
    >>> from dryfit.plan.bodies import stretch
    >>> from dryfit.plan.spanners import spanners
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


def least_shut(nest: Nest, reaches: Iterable[Reach], there: int) -> tuple[str, ...]:
    """Name what keeps a tool out by the way with the least in it; nothing if one is open.

    Examples
    --------
    >>> from dryfit.plan.bodies import stretch
    >>> nut, cover = stretch(0, 10, 20, 30), stretch(10, 15, 0, 40)
    >>> nest = Nest((Body("nut", (nut,)), Body("cover", (cover,))))
    >>> reach = Reach("socket", "to last", nest.mask(["cover"]))
    >>> least_shut(nest, [reach], 3), least_shut(nest, [reach], 1)
    (('cover',), ())
    """
    met = [reach.shut_by & there for reach in reaches]
    return nest.told(min(met, key=int.bit_count)) if met else ()


def as_ways(nest: Nest, reaches: Iterable[Reach]) -> tuple[Way, ...]:
    """Give ways shut by bodies, called by the end that they come from, then the tool."""
    told = (Way(f"{one.way}, {one.tool}", frozenset(nest.told(one.shut_by))) for one in reaches)
    return tuple(dict.fromkeys(told))


def together(one: Way, other: Way) -> Way:
    """Give the way that is open where both are.

    >>> together(Way("to nose, dial", frozenset({"cap"})), Way("outwards, dial"))
    Way(name='to nose, dial; outwards, dial', shut_by=frozenset({'cap'}))
    """
    name = one.name if one.name == other.name else f"{one.name}; {other.name}"
    return Way(name, one.shut_by | other.shut_by)
