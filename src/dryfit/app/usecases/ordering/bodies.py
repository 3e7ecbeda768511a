"""The bodies of a line as the order sees them: what comes apart, and ways in beside the line."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from dryfit.mechanics.threads import thread_size
from dryfit.model.lands import OPENING
from dryfit.model.parts import Cover, Housing, Nut, Shaft
from dryfit.model.rebuild import Rebuild
from dryfit.plan.bodies import Body
from dryfit.plan.doors import Door
from dryfit.plan.from_shapes import DEEP, Apart, bodies_of, parts_of, screws, seats_of, upper
from dryfit.plan.nest import Nest
from dryfit.quantities import Finding
from dryfit.shape.cells import Solid
from dryfit.shape.covers import screw_span
from dryfit.shape.kinds import built
from dryfit.shape.measures import overlap_findings
from dryfit.shape.resting import Resting
from dryfit.shape.scene import Scene

OUT, PARTED = "out of the opening", "out of the lower half"
"""Ways through doors as they are told."""


@dataclass(frozen=True)
class LaidOut:
    """A line as bodies.

    Attributes
    ----------
    solids, nest
        The shapes, and the bodies they come apart into.
    parts
        The part that each is of.
    cases
        Housings, which stay.
    laps
        Parts that are in one place, as findings.
    """

    solids: tuple[Solid, ...]
    nest: Nest
    parts: Mapping[str, str]
    cases: tuple[str, ...]
    laps: tuple[Finding, ...]


def laid_out(rebuild: Rebuild, rest: Resting) -> LaidOut:
    """Lay the bodies of a line out."""
    scene = built(rebuild, rest)
    solids, apart = scene.solids(), apart_of(rebuild, rest, scene)
    bodies = bodies_of(solids, apart)
    cases = tuple(s.part for s in solids if isinstance(rebuild.parts[s.part], Housing))
    sits = {name: host for name, host in seats_of(solids, bodies).items() if name not in cases}
    nest = Nest(
        bodies,
        rest.first,
        rest.last,
        held=_held(scene, apart, cases),
        sits=sits,
        doors=tuple(door for case in cases for door in _doors(scene, case, apart, bodies)),
    )
    return LaidOut(solids, nest, parts_of(solids, apart), cases, overlap_findings(solids))


def apart_of(rebuild: Rebuild, rest: Resting, scene: Scene) -> Apart:
    """Say what the document says of how the parts of a line come apart."""
    parts = rebuild.parts.values()
    return Apart(
        {part.name: part.gears_put_on for part in parts if isinstance(part, Shaft)},
        {part.name: deep for part in parts if isinstance(part, Nut) and (deep := _deep(part))},
        frozenset(p.name for p in parts if isinstance(p, Housing) and rest.name in p.split_along),
        {name: body for name in scene.cells if (body := _screws(scene, name))},
        frozenset(p.name for p in parts if isinstance(p, Cover) and p.o_ring),
    )


SCREW = 0.09
"""Diameter of the screws of a cover, of that of their circle: estimate, M8 on 90 mm."""


def _screws(scene: Scene, cover: str) -> Body | None:
    """Give the screws of a cover whose circle is known."""
    span = screw_span(scene, cover)
    if span is None:
        return None
    point, under, radius = span
    return screws(cover, radius, SCREW * 2 * radius, (point, under))


def _held(scene: Scene, apart: Apart, cases: Iterable[str]) -> Mapping[str, frozenset[str]]:
    """Say what holds covers, and the upper halves of cases, besides their shape."""
    halves = {upper(case): _across_the_joint(scene, case) for case in cases if case in apart.split}
    return halves | {cover: frozenset({body.name}) for cover, body in apart.screws.items()}


def _deep(nut: Nut) -> float:
    """Say how deep the thread of a nut is at most, if it is one that is known [mm]."""
    try:
        return DEEP * thread_size(nut.thread).pitch * 1e3 if nut.thread else 0.0
    except ValueError:
        return 0.0


def _across_the_joint(scene: Scene, case: str) -> frozenset[str]:
    """Name what is screwed to both halves of a split case."""
    return frozenset(name for name in scene.guests(case) if name in scene.cells)


def _doors(scene: Scene, case: str, apart: Apart, bodies: tuple[Body, ...]) -> Iterator[Door]:
    """Give the openings of a case that lie along this line, and its joint if it is split there."""
    (own,) = (body for body in bodies if body.name == case)
    ends = min(c.first for c in own.cells), max(c.last for c in own.cells)
    lands = scene.lands(case, OPENING, *ends)
    for number, land in enumerate(lands, start=1):
        way = OUT if len(lands) == 1 else f"{OUT}, {number}"
        yield Door(way, case, (land.first, land.last), land.radius)
    if case in apart.split:
        yield Door(PARTED, case, lid=upper(case))
