"""Steps of assembly from bodies: each is put on by a way it would come off, units whole.

A body may be put on as long as a way off it would still be open, so what shuts that way comes
later. What only leaves as a group is built up on its carrier first, and goes in as one. So does
what is locked along the line: it has to go in by a way that the line does not show.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from dryfit.model.own_steps import DRESSED
from dryfit.plan.actions import Act, Job, Step, Way
from dryfit.plan.bodies import Body, Level
from dryfit.plan.lines import Stops
from dryfit.plan.masks import bits, masks_of
from dryfit.plan.nest import Move, Nest
from dryfit.plan.spanners import spanners
from dryfit.plan.strip import Strip, Taken, strip
from dryfit.plan.tight import PRESSED

ACTS = {Level.SCREW: Act.SCREW, Level.SNAP: Act.PUT, Level.PRESS: Act.PRESS}
"""What is done to put a body on, by the most that it has to pass."""

MINUTES = {Act.PUT: 2.0, Act.SCREW: 4.0}
"""To do a step, and as long to take it back but for what is pressed: estimates."""

ENTRY = 8.0
"""To put a group in, and to take it out: estimate."""


@dataclass(frozen=True, slots=True)
class BuildUp:
    """A line as steps.

    Attributes
    ----------
    steps
        In the order in which the unit can be built.
    strip
        How it comes apart.
    inside
        By unit the bodies that go in with it.
    nuts
        By nut the ways to it if no spanner were wanted.
    off
        By step the way by which it comes off again, on the bench too; empty of what is locked.
        A group that is dressed within another is left out.
    """

    steps: tuple[Step, ...]
    strip: Strip
    inside: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    nuts: Mapping[str, tuple[Way, ...]] = field(default_factory=dict)
    off: Mapping[str, str] = field(default_factory=dict)

    @property
    def unreached(self) -> tuple[str, ...]:
        """Nuts that no usual spanner gets to in any order."""
        ways = {step.name: step.ways for step in self.steps}
        return tuple(nut for nut, bare in self.nuts.items() if ways[nut] == bare)


def build_up(nest: Nest, stays: Sequence[str], others: Stops | None = None) -> BuildUp:
    """Give the steps in which the bodies of a line are put together.

    Parameters
    ----------
    nest
        The bodies.
    stays
        Those that all others are put on or in: the case.
    others
        Bodies of other lines that stop one, by body and way.

    Examples
    --------
    >>> from dryfit.plan.bodies import stretch
    >>> pin = Body("pin", (stretch(0, 5, 0, 8), stretch(5, 30, 0, 5)))
    >>> ring, cap = Body("ring", (stretch(5, 9, 5, 9),)), Body("cap", (stretch(9, 15, 5, 9),))
    >>> steps = build_up(Nest((pin, ring, cap)), ["pin"]).steps
    >>> [(step.name, [sorted(way.shut_by) for way in step.ways]) for step in steps]
    [('ring', [['cap']]), ('cap', [[]])]
    """
    done = strip(nest, stays)
    every = (*done.taken, *([Taken(tuple(done.locked), "")] if done.locked else []))
    units = {_unit_name(nest, taken): taken for taken in every if len(taken.bodies) > 1}
    step_of = {name: name for taken in every for name in taken.bodies}
    step_of |= {name: unit for unit, taken in units.items() for name in taken.bodies}
    glue = _Glue(nest, nest.mask(stays), step_of, others or {})
    steps: list[Step] = []
    off = {step_of[taken.bodies[0]]: taken.way for taken in every}
    for taken in reversed(every):
        if len(taken.bodies) == 1:
            steps.append(glue.single(taken))
        else:
            inner, ways = _inside(nest, taken)
            steps += [*inner, glue.unit(taken, inner)]
            off |= ways
    nuts = {
        s.name: s.ways
        for s in steps
        if s.act is Act.SCREW and step_of.get(s.name) == s.name and s.ways
    }
    inside = {unit: taken.bodies for unit, taken in units.items()}
    return BuildUp(tuple(_reached(glue, steps, nuts)), done, inside, nuts, off)


def _reached(glue: "_Glue", steps: list[Step], nuts: Collection[str]) -> list[Step]:
    """Ask for a spanner at each nut, where that leaves an order in which all can be done."""
    if masks_of(Job(tuple(steps))).locked():
        return _in_a_row(steps)
    for number, step in enumerate(steps):
        if step.name in nuts:
            asked = [*steps[:number], glue.with_spanner(step), *steps[number + 1 :]]
            if not masks_of(Job(tuple(asked))).locked():
                steps = asked
    return steps


def _in_a_row(steps: list[Step]) -> list[Step]:
    """Put steps in the one order that is known to go."""
    before = [frozenset[str](), *(frozenset({step.name}) for step in steps)]
    return [replace(step, after=one, ways=()) for step, one in zip(steps, before, strict=False)]


def _carrier(nest: Nest, names: Iterable[str]) -> str:
    """Name what the others of a group are put on: the longest."""

    def length(name: str) -> float:
        cells = nest.bodies[nest.at[name]].cells
        return max(c.last for c in cells) - min(c.first for c in cells)

    return max(names, key=length)


def _unit_name(nest: Nest, taken: Taken) -> str:
    return _carrier(nest, taken.bodies) + DRESSED


def _inside(nest: Nest, taken: Taken) -> tuple[list[Step], Mapping[str, str]]:
    """Give the steps by which a group is put together on the bench, and how each comes off."""
    carrier = _carrier(nest, taken.bodies)
    bodies = tuple(body for body in nest.bodies if body.name in taken.bodies)
    kept = {name: on for name, on in nest.sits.items() if {name, on} <= set(taken.bodies)}
    inner = build_up(Nest(bodies, nest.first, nest.last, sits=kept), [carrier])
    minutes = MINUTES[Act.PUT]
    first = Step(name=carrier, act=Act.TAKE, minutes=minutes, undo=minutes)
    off = {taken.bodies[0]: taken.way for taken in inner.strip.taken if len(taken.bodies) == 1}
    return [first, *(replace(s, after=s.after | {carrier}) for s in inner.steps)], off


@dataclass(frozen=True)
class _Glue:
    """What turns moves into ways."""

    nest: Nest
    stays: int
    step_of: Mapping[str, str]
    others: Stops

    def single(self, taken: Taken) -> Step:
        """Give the step that puts one body on."""
        (name,) = taken.bodies
        number = self.nest.at[name]
        moves = self.nest.moves[number]
        act = _act(self.nest.bodies[number], moves, taken)
        ways = self._ways(taken, [(m.way, m.stops) for m in moves])
        minutes = PRESSED if act is Act.PRESS else (MINUTES[act], MINUTES[act])
        return self._step(name, act, taken, self._seat(taken.bodies), ways, minutes=minutes)

    def unit(self, taken: Taken, inner: Sequence[Step]) -> Step:
        """Give the step that puts a group in."""
        stops = []
        for number, way in enumerate(self.nest.every_way):
            found = 0
            for n in bits(self.nest.mask(taken.bodies)):
                found |= self.nest.stops(n, number, typed=False)
            stops.append((way, found))
        after = frozenset(step.name for step in inner) | self._seat(taken.bodies)
        name = _unit_name(self.nest, taken)
        ways = self._ways(taken, stops)
        return self._step(name, Act.ENTER, taken, after, ways, minutes=(ENTRY, ENTRY))

    def _step(
        self,
        name: str,
        act: Act,
        taken: Taken,
        after: frozenset[str],
        ways: tuple[Way, ...],
        *,
        minutes: tuple[float, float],
    ) -> Step:
        return Step(
            name=name,
            act=act,
            minutes=minutes[0],
            undo=minutes[1],
            after=after,
            ways=self._other_lines(taken.bodies, ways),
        )

    def _ways(self, taken: Taken, stops: Iterable[tuple[str, int]]) -> tuple[Way, ...]:
        """Leave out the ways that what stays stops; name the steps that shut the others.

        What came off past an estimate goes on past it. For what is locked no way is known.
        """
        own, past = self.nest.mask(taken.bodies), self.nest.mask(taken.past)
        found = []
        for way, stopped in stops if taken.way else ():
            left = stopped & ~own & ~(past if way == taken.way else 0)
            if not left & self.stays:
                found.append(Way(way, frozenset(self._steps(self.nest.told(left)))))
        return tuple(found)

    def with_spanner(self, step: Step) -> Step:
        """Let what is screwed go on only while a spanner gets to it."""
        reaches = [r for r in spanners(self.nest, step.name) if not r.shut_by & self.stays]
        tools = [reach.as_way(self.nest, self.step_of) for reach in reaches]
        both = tuple(
            Way(f"{way.name}, {tool.name}", way.shut_by | tool.shut_by)
            for way in step.ways
            for tool in tools
        )
        return replace(step, ways=both or step.ways)

    def _steps(self, names: Iterable[str]) -> set[str]:
        return {self.step_of[name] for name in names if name in self.step_of}

    def _seat(self, names: Collection[str]) -> frozenset[str]:
        sits = self.nest.sits
        seats = {sits[name] for name in names if name in sits} - set(names)
        return frozenset(self._steps(seats))

    def _other_lines(self, names: Collection[str], ways: tuple[Way, ...]) -> tuple[Way, ...]:
        return tuple(
            Way(
                way.name,
                way.shut_by.union(*(self.others.get((n, way.name), frozenset()) for n in names)),
            )
            for way in ways
        )


def _act(body: Body, moves: Iterable[Move], taken: Taken) -> Act:
    """Say what is done to put a body on by the way it came off."""
    if body.can in (Level.SCREW, Level.SNAP):
        return ACTS[body.can]
    takes = [level for move in moves if move.way == taken.way for level in move.takes.values()]
    return ACTS.get(max(takes, default=Level.FREE), Act.PUT)
