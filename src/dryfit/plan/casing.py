"""All lines of one casing put together: what parts of one stop of another's, and what then goes.

Reading order: how two lines lie, what stops what, all lines built up.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from dryfit.plan.actions import Job
from dryfit.plan.bodies import Stretch
from dryfit.plan.build_up import BuildUp, build_up
from dryfit.plan.lines import Stops, across, beside
from dryfit.plan.masks import masks_of
from dryfit.plan.nest import Nest


@dataclass(frozen=True, slots=True)
class Lie:
    """How two lines lie.

    Attributes
    ----------
    one, other
        The lines.
    at
        On each the spot that lies level with the other's, or nearest to it [mm].
    apart
        How far the centres are apart [mm].
    square
        Whether they are at right angles; else side by side.
    free
        What does not stop what by which way, though it reaches past: mates in mesh.
    """

    one: str
    other: str
    at: tuple[float, float]
    apart: float
    square: bool
    free: Collection[tuple[str, str, str]] = ()


@dataclass(frozen=True)
class Casing:
    """The lines of a unit, put together.

    Attributes
    ----------
    built
        Each line as steps.
    looked_at, left
        Lies that count, and those that leave no order at all, so that they do not.
    """

    built: Mapping[str, BuildUp]
    looked_at: tuple[Lie, ...] = ()
    left: tuple[Lie, ...] = ()


def stops_of(lie: Lie, nests: Mapping[str, Nest]) -> dict[str, Stops]:
    """Say for both lines what of the other stops their bodies, by body and way."""
    one, other = _sure(nests[lie.one]), _sure(nests[lie.other])
    if lie.square:
        found = {
            lie.one: across(one, other, lie.at, apart=lie.apart),
            lie.other: across(other, one, lie.at[::-1], apart=lie.apart),
        }
    else:
        by = lie.at[0] - lie.at[1]
        found = {
            lie.one: beside(one, _moved(other, by), lie.apart),
            lie.other: beside(other, _moved(one, -by), lie.apart),
        }
    return {line: _less(stops, lie.free) for line, stops in found.items()}


def _sure(nest: Nest) -> Nest:
    """Draw back what nobody typed by what it may be off: it stops less."""

    def drawn_back(cell: Stretch) -> Stretch:
        inner, outer = cell.drawn_back(wholly=False)
        return replace(cell, inner=inner, outer=outer)

    return _each(nest, drawn_back)


def _moved(nest: Nest, by: float) -> Nest:
    """Count the bodies of a line from a face that lies so much further back [mm]."""
    return _each(nest, lambda cell: replace(cell, first=cell.first + by, last=cell.last + by))


def _each(nest: Nest, change: Callable[[Stretch], Stretch]) -> Nest:
    bodies = (replace(body, cells=tuple(map(change, body.cells))) for body in nest.bodies)
    return replace(nest, bodies=tuple(bodies))


def _less(stops: Stops, free: Collection[tuple[str, str, str]]) -> Stops:
    return {
        (body, way): frozenset(name for name in names if (body, way, name) not in free)
        for (body, way), names in stops.items()
    }


def casing(
    nests: Mapping[str, Nest], stays: Mapping[str, Sequence[str]], lies: Sequence[Lie]
) -> Casing:
    """Give the steps in which all lines of a casing are put together.

    Parameters
    ----------
    nests
        Their bodies.
    stays
        Bodies of each that all others are put on or in.
    lies
        How they lie; one that would leave no order is left out, and told.
    """
    built = {name: build_up(nest, stays[name]) for name, nest in nests.items()}
    steps = {name: _step_of(one) for name, one in built.items()}
    others: dict[str, Stops] = {name: {} for name in nests}
    looked_at, left = list[Lie](), list[Lie]()
    for lie in lies if _goes(built) else ():
        more = {
            line: _as_steps(stops, steps[lie.other if line == lie.one else lie.one])
            for line, stops in stops_of(lie, nests).items()
        }
        tried = others | {line: _both(others[line], stops) for line, stops in more.items()}
        made = built | {n: build_up(nests[n], stays[n], tried[n]) for n in (lie.one, lie.other)}
        if _goes(made):
            others, built = tried, made
            looked_at.append(lie)
        else:
            left.append(lie)
    return Casing(built, tuple(looked_at), tuple(left))


def _step_of(built: BuildUp) -> dict[str, str]:
    """Say in which step each body goes into the casing; what stays in it is in none."""
    steps = {step.name: step.name for step in built.steps}
    return steps | {name: unit for unit, names in built.inside.items() for name in names}


def _as_steps(stops: Stops, step_of: Mapping[str, str]) -> Stops:
    return {
        key: frozenset(step_of[name] for name in names if name in step_of)
        for key, names in stops.items()
    }


def _both(one: Stops, other: Stops) -> Stops:
    empty = frozenset[str]()
    return {key: one.get(key, empty) | other.get(key, empty) for key in {**one, **other}}


def _goes(built: Mapping[str, BuildUp]) -> bool:
    """Tell whether all steps of all lines can be done in some order."""
    steps = {step.name: step for one in built.values() for step in one.steps}
    return not masks_of(Job(tuple(steps.values()))).locked()
