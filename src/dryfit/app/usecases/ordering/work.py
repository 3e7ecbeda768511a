"""The work of each step of an order: what goes on, from where and by what, and what it hides.

Reading order: `works` from step to step, then sites, ways and faces.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from dryfit.app.usecases.ordering.answers import HiddenAnswer, WorkAnswer
from dryfit.app.usecases.ordering.means import check_read, tools_of, torque_of
from dryfit.app.usecases.ordering.no_return import no_return_of
from dryfit.app.usecases.ordering.presses import PressAnswer
from dryfit.app.usecases.ordering.reach import from_where
from dryfit.app.usecases.ordering.unit import LineOf, Unit
from dryfit.model.own_steps import SCREWS
from dryfit.model.rebuild import Thickness
from dryfit.plan.actions import ANY_WAY, Act, Job, Step
from dryfit.plan.checks import NOT_YET_HIDDEN
from dryfit.plan.placing import Turn
from dryfit.plan.sight import Face, faces, in_sight
from dryfit.solve.predict import lines_of

MARKS = "abc"
"""Letters of the largest faces that a step hides: so many are marked in its picture."""

SPANNER = "spanner that fits"
"""For what is screwed where nothing tells how it is reached."""

Presses = Mapping[str, tuple[PressAnswer, ...]]
"""Tight rings by the step in which they go home."""


def works(unit: Unit, job: Job, told: Sequence[Turn], tight: Presses) -> tuple[WorkAnswer, ...]:
    """Say of each step of an order what it works on."""
    site, found, done = _site(unit), list[WorkAnswer](), set[str]()
    for turn in told:
        found.append(_work(site, job, turn, tight.get(turn.step.name, ()), done))
        done.add(turn.step.name)
    return tuple(found)


@dataclass
class _Site:
    """What hangs together so far: at the case, and in each group that is dressed on the bench."""

    unit: Unit
    faces: Mapping[str, tuple[Face, ...]]
    main: list[str]
    bench: dict[str, list[str]] = field(default_factory=dict)

    def group_of(self, body: str) -> str:
        """Name the group in which a body is dressed on the bench; empty once that is in."""
        inside = ((g, own) for line in self.unit.lines for g, own in line.built.inside.items())
        return next((g for g, own in inside if body in own and body not in self.main), "")

    def with_it(self, body: str) -> list[str]:
        """Give all that hangs together with a body before it is handled."""
        if body in self.main:
            return self.main
        return self.bench.get(self.group_of(body), [])


def _site(unit: Unit) -> _Site:
    cases = [case for line in unit.lines for case in line.laid.cases]
    seen = {line.name: faces(line.nest, line.rest) for line in unit.lines}
    return _Site(unit, seen, list(dict.fromkeys(cases)))


def _work(
    site: _Site, job: Job, turn: Turn, tight: tuple[PressAnswer, ...], done: set[str]
) -> WorkAnswer:
    """Say what a step works on, and do it."""
    step = turn.step
    line, puts = _puts(site.unit.lines, step)
    about = () if puts else _about(site.unit, step)
    no_return = tuple(no_return_of(site.unit, job, turn, puts, tight))
    tools, torque = tools_of(site.unit.rebuild, step, tight), torque_of(site.unit.rebuild, step)
    if line is None:
        own = (n for n in site.unit.lines if any(body in n.nest.at for body in about))
        name = next((n.name for n in own), "")
        whole = _read_on(site, step, about)
        if step.reads:
            tools = tuple(_from(job, step, done, tool) for tool in tools)
        if step.act is Act.ENTER:
            about = tuple(body for body in about if body not in whole[:1])
        return WorkAnswer(name, (), about, whole, "", tools, torque, (), no_return)
    before = {body: list(site.with_it(body)) for body in line.nest.at}
    there = _put(site, step, puts)
    hidden = _hidden(site, line, before, there)
    side, ways = _comes_by(line, job, step, done)
    if step.act is Act.SCREW and not ways:
        ways = (SPANNER,)
    tools = (*ways, *tools)
    return WorkAnswer(line.name, puts, (), tuple(there), side, tools, torque, hidden, no_return)


def _puts(lines: Sequence[LineOf], step: Step) -> tuple[LineOf | None, tuple[str, ...]]:
    """Say what goes on in a step, and on which line; screws are no part of their own."""
    name = step.name
    for line in lines if step.act is not Act.CLOSE else ():
        if name in line.built.inside:
            return line, line.built.inside[name]
        if name in line.nest.at:
            return line, (name,)
    return None, ()


def _put(site: _Site, step: Step, puts: tuple[str, ...]) -> list[str]:
    """Put bodies where they go, and give all that hangs together then."""
    group = site.group_of(puts[0]) if len(puts) == 1 else ""
    there = site.bench.setdefault(group, []) if group and step.name != group else site.main
    there += [body for body in puts if body not in there]
    return there


def _about(unit: Unit, step: Step) -> tuple[str, ...]:
    """Name the bodies that a step is done to or read on, in which nothing goes on."""
    bodies = [body for line in unit.lines for body in line.nest.at]
    if step.act is Act.OTHER:
        return ()
    if not step.reads:
        closed = step.name.removeprefix(SCREWS) if step.act is Act.CLOSE else ""
        return tuple(b for b in dict.fromkeys(bodies) if b in step.after or b == closed)
    check = check_read(unit.rebuild, step)
    if check is None:
        return ()
    if isinstance(check, Thickness):
        return tuple(b for b in dict.fromkeys(bodies) if _is_of(b, check.of))
    parts = [getattr(check, key, None) for key in ("of", "at")]
    parts += [getattr(getattr(check, key, None), "part", None) for key in ("from_", "to")]
    mesh = unit.rebuild.meshes.get(getattr(check, "mesh", ""))
    parts += [mesh.wheel, mesh.pinion] if mesh else []
    named = [b for b in dict.fromkeys(bodies) for part in parts if part and _is_of(b, part)]
    lines = lines_of(unit.rebuild, check)
    return tuple(dict.fromkeys(named)) or tuple(
        spot.part for line in lines for stack in line.stacks for spot in stack.spots[:1]
    )


def _is_of(body: str, part: str) -> bool:
    """Tell a body that is a part or a ring of it."""
    return body == part or body.startswith(f"{part}, ")


def _read_on(site: _Site, step: Step, about: tuple[str, ...]) -> tuple[str, ...]:
    """Give what hangs together where something is read or done up.

    A part whose thickness is read is by itself; what is not on yet is put on to be read on.
    """
    loose = tuple(b for b in about if b not in site.main)
    group = next((g for b in loose if (g := site.group_of(b)) in site.bench), "")
    if group:
        return tuple(site.bench[group])
    if loose and isinstance(check_read(site.unit.rebuild, step), Thickness):
        return about
    return (*site.main, *loose)


def _comes_by(line: LineOf, job: Job, step: Step, done: set[str]) -> tuple[str, tuple[str, ...]]:
    """Say from which side something comes, and with which spanner it is reached."""
    taken = line.built.off.get(step.name, "")
    open_ = [way.name for way in job.ways(step) if not way.shut_by & done]
    known = [one for one in open_ if one.startswith(("to ", "out"))]
    known.sort(key=lambda one: one.partition(", ")[0] != taken)
    if not known:
        return "", ()
    way = known[0].partition(", ")[0]
    reaches = (reach for one in known if (reach := one.partition(", ")[2]))
    told = (one.replace(", to ", " from ").replace(", from ", " from ") for one in reaches)
    return side_of(way), tuple(dict.fromkeys(told))


def _from(job: Job, step: Step, done: set[str], tool: str) -> str:
    """Say from where an instrument gets in, if that is from one side alone."""
    ways = {one.name for one in job.ways(step) if not one.shut_by & done}
    sides = {from_where(way) for way in ways - {ANY_WAY.name, NOT_YET_HIDDEN}}
    return f"{tool}, {sides.pop()}" if len(sides) == 1 else tool


def side_of(way: str) -> str:
    """Say from where something comes that leaves by a way.

    >>> side_of("to cover"), side_of("outwards"), side_of("out of the opening")
    ('cover', 'outside', 'the opening')
    """
    return "outside" if way == "outwards" else way.removeprefix("to ").removeprefix("out of ")


def _hidden(
    site: _Site, line: LineOf, before: Mapping[str, list[str]], there: Sequence[str]
) -> tuple[HiddenAnswer, ...]:
    """List the faces that could be seen before a step, and no more after it."""
    nest = line.nest
    after = nest.mask(body for body in there if body in nest.at)
    gone = []
    for face in site.faces[line.name]:
        with_it = [body for body in before[face.body] if body in nest.at]
        seen = face.body in with_it and in_sight(nest, face, nest.mask(with_it))
        if seen and face.body in there and not in_sight(nest, face, after):
            gone.append(face)
    gone.sort(key=lambda face: face.radii[0] ** 2 - face.radii[1] ** 2)
    return tuple(
        HiddenAnswer(MARKS[n : n + 1], face.name, line.name, round(face.at, 6), face.radii)
        for n, face in enumerate(gone)
    )
