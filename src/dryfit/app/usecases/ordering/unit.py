"""A rebuild with its lines laid out as bodies and built up: what all questions of order ask."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from dryfit.app.usecases.lying import lying
from dryfit.app.usecases.ordering.axes import lies_of
from dryfit.app.usecases.ordering.bodies import LaidOut, laid_out
from dryfit.model.rebuild import Rebuild
from dryfit.plan.build_up import BuildUp
from dryfit.plan.casing import Casing, casing
from dryfit.plan.nest import Nest
from dryfit.plan.services import Site
from dryfit.shape.resting import Resting
from dryfit.solve.pressing import Pressing, pressings


@dataclass(frozen=True)
class LineOf:
    """A line of a rebuild as bodies and steps.

    Attributes
    ----------
    name
        The line.
    laid
        Its shapes and bodies.
    built
        How they go together.
    parts
        For each part the steps that put it on.
    rest
        Where the spots of its parts lie.
    """

    name: str
    laid: LaidOut
    built: BuildUp
    parts: Mapping[str, tuple[str, ...]]
    rest: Resting

    @property
    def nest(self) -> Nest:
        """Its bodies."""
        return self.laid.nest

    @property
    def moved(self) -> frozenset[str]:
        """Bodies that are put on; all others stay where they are."""
        strip = self.built.strip
        return frozenset(n for taken in strip.taken for n in taken.bodies) | {*strip.locked}

    @cached_property
    def units(self) -> Mapping[str, str]:
        """For each body that is dressed on the bench, the step in which it goes in."""
        return {body: unit for unit, bodies in self.built.inside.items() for body in bodies}

    def bodies(self, part: str) -> list[str]:
        """Name the bodies that a part comes apart into."""
        return [name for name, of in self.laid.parts.items() if of == part and name in self.nest.at]

    @property
    def site(self) -> Site:
        """The line as a service finds it."""
        return Site(self.nest, self.built.inside, self.laid.cases)


@dataclass(frozen=True)
class Unit:
    """A rebuild with its lines built up.

    Attributes
    ----------
    rebuild
        As it was typed.
    lines
        Its lines.
    packs, unknown_packs
        Thickness of each setting as drawn [mm], and those that nothing tells.
    casing
        Which lines are looked at together.
    """

    rebuild: Rebuild
    lines: tuple[LineOf, ...]
    packs: Mapping[str, float]
    unknown_packs: frozenset[str]
    casing: Casing

    @cached_property
    def tight(self) -> tuple[Pressing, ...]:
        """Rings that go home tight."""
        return pressings(self.rebuild)


def unit_of(rebuild: Rebuild) -> Unit:
    """Build up every line from its shapes, with what parts of one stop of another's."""
    lies = lying(rebuild)
    laid = {rest.name: laid_out(lies.rebuild, rest) for rest in lies.lines}
    nests = {name: one.nest for name, one in laid.items()}
    cases = {name: one.cases for name, one in laid.items()}
    whole = casing(nests, cases, lies_of(rebuild, lies.lines))
    lines = tuple(_line(rest, laid[rest.name], whole.built[rest.name]) for rest in lies.lines)
    return Unit(rebuild, lines, lies.packs, lies.unknown_packs, whole)


def _line(rest: Resting, laid: LaidOut, built: BuildUp) -> LineOf:
    parted = laid.parts
    names = {step.name for step in built.steps}
    parts: dict[str, tuple[str, ...]] = {}
    for body, part in parted.items():
        parts[part] = (*parts.get(part, ()), *([body] if body in names else []))
    for unit, inside in built.inside.items():
        for body in inside:
            parts[parted[body]] += (unit,)
    on_steps = {part: own for part, own in parts.items() if own}
    return LineOf(rest.name, laid, built, on_steps, rest)
