"""How an instrument gets to what each kind of check reads: ways, shut by bodies.

Reading order: where a check is read, then one function for each kind.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

from dryfit.app.usecases.ordering.between import between, felt
from dryfit.app.usecases.ordering.unit import LineOf, Unit
from dryfit.model.rebuild import Check
from dryfit.plan.actions import Way
from dryfit.plan.instruments import (
    CORD,
    DIAL,
    STRAIGHTEDGE,
    on_faces,
    on_rims,
    through_openings,
)
from dryfit.plan.reach import FROM, Reach, as_ways, together
from dryfit.shape.resting import INNER_RING
from dryfit.solve.luck import NoLuck
from dryfit.solve.predict import lines_of
from dryfit.solve.states import conditions

Ways = tuple[Way, ...]

Side = Callable[..., Iterator[Reach]]
"""How a tool gets to a side of a body: `on_faces`, `on_rims`."""


@dataclass(frozen=True, slots=True)
class ReadAt:
    """Where a check is read.

    Attributes
    ----------
    none
        What to say if its instrument does not get there: "no dial gets to ...".
    ways
        The ways there, each shut by bodies; none at all: nothing is known to be in the way.
    distance
        Whether it is a distance between faces at rest: read the same, it means the same, whatever
        else is on. Nothing floats, and nothing drags, where what it hangs on is not there.
    """

    none: str = ""
    ways: Ways = ()
    distance: bool = False


ANYWHERE = ReadAt()
"""In the hand, or where nothing tells what its instrument has to get to."""


def read_at(unit: Unit, check: Check, *, typed: bool = False) -> ReadAt:
    """Say how the instrument of a check gets to what it reads.

    Parameters
    ----------
    unit
        The unit.
    check
        One of its checks.
    typed
        Whether only what somebody typed is in the way.
    """
    return READ_AT[check.kind](unit, check, typed)


def _in_hand(unit: Unit, check: Any, typed: bool) -> ReadAt:
    """Read of a part by itself."""
    del unit, check, typed
    return ANYWHERE


def _end_float(unit: Unit, check: Any, typed: bool) -> ReadAt:
    """Dial on an end of the part, or a shoulder of it."""
    ways = _ways_to(unit, check.of, (on_faces,), typed=typed)
    return ReadAt(f"no dial gets to an end of '{check.of}'", ways)


def _ways_to(
    unit: Unit, part: str, sides: Sequence[Side], tool: str = DIAL, *, typed: bool
) -> Ways:
    """Say how a tool gets to some sides of a part, or through an opening."""
    found: dict[Way, None] = {}
    for line in (line for line in unit.lines if line.bodies(part)):
        nest, bodies = line.nest, line.bodies(part)
        met = (r for body in bodies for side in sides for r in side(nest, body, tool, typed=typed))
        found |= dict.fromkeys(as_ways(nest, (*met, *through_openings(nest, tool))))
    return tuple(found)


def _gap(unit: Unit, check: Any, typed: bool) -> ReadAt:
    """Feeler under a cover, from its rim, or into the seat of a part that is left out."""
    out = conditions(unit.rebuild, check.state, NoLuck()).left_out
    found = [way for line in unit.lines for way in felt(line, check.at, out, typed=typed)]
    return ReadAt(f"no feeler gets into the gap at '{check.at}'", tuple(found))


def _depth(unit: Unit, check: Any, typed: bool) -> ReadAt:
    """Depth gauge: its base on one face, its rod on the other."""
    spots = check.from_, check.to
    found = [way for line in unit.lines for way in between(line, *spots, typed=typed)]
    none = f"no depth gauge gets from '{check.from_}' to '{check.to}'"
    return ReadAt(none, tuple(found), distance=True)


def _lash(unit: Unit, check: Any, typed: bool) -> ReadAt:
    """Dial on the member that is rocked: on a tooth, or on an arm clamped to what turns with it."""
    mesh = unit.rebuild.meshes[check.mesh]
    rocked = mesh.pinion if check.on == "pinion" else mesh.wheel
    ways = _ways_to(unit, rocked, (on_rims, on_faces), typed=typed)
    return ReadAt(f"no dial gets to '{rocked}'", ways)


def _across(unit: Unit, check: Any, typed: bool) -> ReadAt:
    """Dial across the shaft in a bearing, near it or with a lever."""
    shaft = shaft_in(unit, check.of)
    ways = _ways_to(unit, shaft, (on_rims,), typed=typed)
    return ReadAt(f"no dial gets to the outside of '{shaft}'", ways)


def shaft_in(unit: Unit, bearing: str) -> str:
    """Name the shaft that is in a bearing; nothing if that is not known."""
    hosts = (line.rest.hosts.get(bearing + INNER_RING) for line in unit.lines)
    on = getattr(unit.rebuild.parts.get(bearing), "on", None)
    return next((host for host in hosts if host), on or "")


def _cord(unit: Unit, check: Any, typed: bool) -> ReadAt:
    """Cord round a shaft, or round a drum put on an end of it."""
    ways = _ways_to(unit, check.of, (on_rims, on_faces), CORD, typed=typed)
    return ReadAt(f"no cord gets round '{check.of}'", ways)


def _flushness(unit: Unit, check: Any, typed: bool) -> ReadAt:
    """Straightedge over the back faces of both bevels at once."""
    lines = [next(n for n in unit.lines if n.name == line.name) for line in _lines(unit, check)]
    members = [_on_gear(line, check.mesh, typed) for line in lines]
    found = (together(one, other) for one, other in product(*members)) if len(lines) > 1 else ()
    opened = (way for line in lines for way in as_ways(line.nest, _openings(line)))
    none = f"no straightedge gets over the back faces of '{check.mesh}'"
    return ReadAt(none, tuple(dict.fromkeys((*opened, *found))), distance=True)


def from_where(way: str) -> str:
    """Say from where an instrument comes by a way.

    >>> from_where("outwards, dial"), from_where("to front, left, dial")
    ('from outside', 'from front, left')
    >>> from_where("to nose, straightedge; outwards, straightedge")
    'from two sides at once'
    >>> from_where("through the opening, dial")
    'through the opening'
    """
    if ";" in way:
        return "from two sides at once"
    side = way.rpartition(", ")[0]
    return FROM.get(side) or re.sub("^to ", "from ", side)


def _openings(line: LineOf) -> Iterator[Reach]:
    return through_openings(line.nest, STRAIGHTEDGE)


def _lines(unit: Unit, check: Check) -> list[Any]:
    return [line for line in lines_of(unit.rebuild, check) if line.name]


def _on_gear(line: LineOf, mesh: str, typed: bool) -> Ways:
    """Say how a straightedge gets to the rim or back face of a gear."""
    pieces = {f"gear {mesh}", f"teeth {mesh}"}
    cells = [(solid.part, c) for solid in line.laid.solids for c in solid.laid if c.piece in pieces]
    ends = [at for _, cell in cells for at in (cell.first, cell.last)] or [0.0]
    span, parts = (min(ends), max(ends)), dict.fromkeys(part for part, _ in cells)
    found = list[Reach]()
    for body in (body for part in parts for body in line.bodies(part)):
        found += on_rims(line.nest, body, STRAIGHTEDGE, within=span, typed=typed)
        found += on_faces(line.nest, body, STRAIGHTEDGE, within=span, typed=typed)
    return as_ways(line.nest, found)


READ_AT: dict[str, Callable[[Unit, Any, bool], ReadAt]] = {
    "end float": _end_float,
    "gap": _gap,
    "depth": _depth,
    "thickness": _in_hand,
    "backlash": _lash,
    "shake": _across,
    "cord pull": _cord,
    "flushness": _flushness,
    "lift": _across,
}
"""Where each kind of check is read."""
