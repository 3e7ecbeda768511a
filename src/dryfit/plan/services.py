"""Where grease, sealant and locking get to, and until when: the step of a service.

Reading order: a nook to be got at, how it is reached, the stages at which a service can be done,
the latest of them that leaves an order.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from dryfit.plan.actions import ANY_WAY, Act, Job, Step, Way, Wishes
from dryfit.plan.checks import DONE_MINUTES
from dryfit.plan.masks import masks_of
from dryfit.plan.nest import Nest
from dryfit.plan.reach import FAR, Reach
from dryfit.plan.spanners import spanners

NOZZLE = 4.0
"""Room that a grease nozzle or a brush takes [mm]: estimate."""

LONG = 150.0
"""How deep into a case a nozzle or brush is brought [mm]: estimate."""

HELD = "held in the hand"
"""The way to a part that is not put on yet."""


@dataclass(frozen=True, slots=True)
class Nook:
    """What a nozzle or brush has to get to.

    Attributes
    ----------
    span
        From where to where along the line; reached over its near face from an end [mm].
    radii
        The gap, face or surface, as a ring [mm].
    own
        Bodies that are no hindrance: those that it is of.
    outwards
        Whether it can be reached from outside too.
    """

    span: tuple[float, float]
    radii: tuple[float, float]
    own: Collection[str] = ()
    outwards: bool = False


def nozzles(nest: Nest, nook: Nook) -> tuple[Reach, ...]:
    """Say how a nozzle gets to a nook: along the line at any height of the gap, or from outside.

    Examples
    --------
    >>> from dryfit.plan.bodies import Body, stretch
    >>> row, cover = stretch(0, 15, 20, 40), stretch(15, 20, 0, 45)
    >>> nest = Nest((Body("row", (row,)), Body("cover", (cover,))))
    >>> for reach in nozzles(nest, Nook((0, 15), (26, 34), ["row"])):
    ...     print(reach.way, nest.told(reach.shut_by))
    to last ('cover',)
    to first ()
    """
    own, (low, high) = nest.mask(nook.own), nook.radii
    wide = min(NOZZLE, high - low)
    found = dict[Reach, None]()
    for way, face in zip(nest.ways, (nook.span[1], nook.span[0]), strict=True):
        for at in (low, (low + high - wide) / 2, high - wide):
            shut = nest.zone((face, face), (at, at + wide), way) & ~own
            found[Reach("nozzle", way, shut)] = None
    if nook.outwards:
        shut = nest.zone(nook.span, (low, FAR), "outwards") & ~own
        found[Reach("nozzle", "outwards", shut)] = None
    return tuple(found)


@dataclass(frozen=True)
class Site:
    """A line as a service finds it.

    Attributes
    ----------
    nest
        Its bodies.
    inside
        By unit dressed on the bench, the bodies in it.
    stays
        Bodies that are there from the first.
    """

    nest: Nest
    inside: Mapping[str, Sequence[str]] = field(default_factory=dict)
    stays: Collection[str] = ()

    def got_at(self, bodies: Sequence[str], nook: Nook) -> "Stages":
        """Give the stages at which a nozzle gets to a nook of some bodies, the latest first."""
        reaches = nozzles(self.nest, nook)
        near = [reach for reach in reaches if self._depth(nook, reach.way) <= LONG]
        own = [name for name in bodies if name not in self.stays]
        yield from self._whole(own, near)
        yield from self._dressed(own, reaches)
        yield frozenset(), tuple(Way(HELD, frozenset({name})) for name in own)

    def locking(self, nut: str) -> "Stages":
        """Give the stages at which a nut can be locked: while a spanner gets to it, or any time."""
        reaches = spanners(self.nest, nut)
        yield from self._whole([nut], reaches)
        yield from self._dressed([nut], reaches)
        yield frozenset({nut}), (ANY_WAY,)

    @cached_property
    def _units(self) -> Mapping[str, str]:
        """For each body dressed on the bench its unit."""
        return {name: unit for unit, names in self.inside.items() for name in names}

    def _whole(self, bodies: Sequence[str], reaches: Iterable[Reach]) -> "Stages":
        """Give the stage at which bodies are in place, with whatever is put on before or after."""
        steps = {name: self._units.get(name, name) for name in self.nest.at}
        own = frozenset({*bodies, *(steps[name] for name in bodies)})
        yield own, self._ways(reaches, self.nest.full, steps, own)

    def _dressed(self, bodies: Sequence[str], reaches: Sequence[Reach]) -> "Stages":
        """Give the stage at which what they are dressed on has not gone in yet."""
        for unit in dict.fromkeys(self._units[name] for name in bodies if name in self._units):
            there, own = self.nest.mask(self.inside[unit]), frozenset(bodies)
            ways = self._ways(reaches, there, {}, own)
            yield own, tuple(Way(way.name, way.shut_by | {unit}) for way in ways)

    def _depth(self, nook: Nook, way: str) -> float:
        """Say how deep in what stays a nook lies, seen from an end [mm]."""
        cells = [c for n in self.stays for c in self.nest.bodies[self.nest.at[n]].cells]
        if not cells or way not in self.nest.ways:
            return 0.0
        if way == self.nest.ways[0]:
            return max(cell.last for cell in cells) - nook.span[1]
        return nook.span[0] - min(cell.first for cell in cells)

    def _ways(
        self, reaches: Iterable[Reach], there: int, steps: Mapping[str, str], own: frozenset[str]
    ) -> tuple[Way, ...]:
        """Leave out what is shut by what stays, or by what has to be there."""
        stays, found = self.nest.mask(self.stays), []
        for reach in reaches:
            if not reach.shut_by & there & stays:
                shut = Reach(reach.tool, reach.way, reach.shut_by & there)
                way = shut.as_way(self.nest, steps)
                if not way.shut_by & own:
                    found.append(way)
        return tuple(dict.fromkeys(found))


Stages = Iterator[tuple[frozenset[str], tuple[Way, ...]]]
"""What comes first and the ways to a service, the latest stage first."""


def covered(hidden_by: Sequence[frozenset[str]]) -> Stages:
    """Give the stage of a face that is open as long as one of some groups of steps is not done."""
    yield frozenset(), tuple(Way(f"before {_either(names)}", names) for names in hidden_by)


def _either(names: Iterable[str]) -> str:
    return " or ".join(f"'{name}'" for name in sorted(names))


def latest(
    make: Callable[[frozenset[str], tuple[Way, ...]], Step],
    stages: Stages,
    steps: Sequence[Step],
    wishes: Wishes,
) -> Step | None:
    """Give a service as the latest of its stages that leaves an order; the first, if none does.

    Nothing where no stage has a way at all.
    """
    open_ = [make(after, ways) for after, ways in stages if ways]
    for step in open_:
        own = Wishes((*wishes.steps, step), wishes.pins, wishes.bans)
        if not masks_of(Job(tuple(steps), wishes=own)).locked():
            return step
    return open_[0] if open_ else None


def serves(name: str, act: Act, minutes: float | None = None) -> Callable[..., Step]:
    """Give what makes the step of a service once it is known what it comes after, and its ways."""
    takes = minutes or DONE_MINUTES

    def make(after: frozenset[str], ways: tuple[Way, ...]) -> Step:
        return Step(name=name, act=act, minutes=takes, undo=takes, after=after, ways=ways)

    return make
