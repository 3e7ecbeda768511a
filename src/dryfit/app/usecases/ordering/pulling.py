"""Whether a sleeve gets to a tight ring as it goes home, and a puller behind it then."""

from collections.abc import Sequence
from dataclasses import dataclass

from dryfit.app.usecases.ordering.tools import in_place
from dryfit.app.usecases.ordering.unit import LineOf, Unit
from dryfit.model.parts import Bearing
from dryfit.plan.from_shapes import off_by
from dryfit.plan.pulling import Tight, kept_on, sleeves
from dryfit.plan.reach import least_shut
from dryfit.shape.cells import Cell
from dryfit.solve.pressing import Pressing
from dryfit.solve.rings import INNER, OUTER

PIECES = {INNER: "inner", OUTER: "outer"}
"""How a ring of a bearing is called among the pieces of its shape."""

NAMES = {INNER: ("cone", "inner"), OUTER: ("cup", "outer")}
"""How it is called where it comes apart from its bearing."""


@dataclass(frozen=True, slots=True)
class Kept:
    """What keeps tools from a tight ring by sizes that were typed.

    Attributes
    ----------
    sleeve
        Bodies that keep the sleeve from its face as it goes home; none: it gets there.
    puller
        Bodies that keep claws, plates and drift from behind it, however the unit is stripped.
    alone
        Whether it comes off by itself, as a cone or a spacer; else two rings hang together.
    """

    sleeve: tuple[str, ...] = ()
    puller: tuple[str, ...] = ()
    alone: bool = False


NOTHING = Kept()
"""Nothing is known to be in the way."""


def body_of(line: LineOf, one: Pressing) -> str:
    """Name the body that a tight ring is, or is a piece of."""
    rings = (f"{one.bearing}, {name}" for name in NAMES[one.ring])
    return next((ring for ring in rings if ring in line.nest.at), one.bearing)


def kept_out(unit: Unit, one: Pressing, order: Sequence[str], step: str) -> Kept:
    """Say what keeps tools from a ring in the step that brings it and its seat together.

    A ring that comes to its seat is pushed on the face that looks back where it came from. Where
    its seat comes to it, it is held up from the other side.
    """
    line = next(line for line in unit.lines if line.name == one.line)
    body, tight, part = body_of(line, one), _tight(unit, line, one), unit.rebuild.parts[one.bearing]
    own, way = line.built.inside.get(step, (step,)), line.built.off.get(step, "")
    if tight is None or way not in line.nest.ways:
        return NOTHING
    nest, comes = line.nest, body in own
    there = in_place(line, order[: order.index(step) + 1], body)
    to = way if comes else next(other for other in nest.ways if other != way)
    sleeve = least_shut(nest, sleeves(nest, tight, to, typed=True), there)
    puller = kept_on(nest, tight, one.host, line.laid.cases)
    alone = body != one.bearing or not isinstance(part, Bearing)
    return Kept(sleeve, puller, alone)


def _tight(unit: Unit, line: LineOf, one: Pressing) -> Tight | None:
    """Give a tight ring as it lies; nothing if it has no shape here."""
    solid = next((solid for solid in line.laid.solids if solid.part == one.bearing), None)
    cells = solid.laid if solid else ()
    ring = [cell for cell in cells if cell.piece == PIECES[one.ring]] or [*cells]
    rolls = isinstance(unit.rebuild.parts[one.bearing], Bearing)
    return _as_tight(body_of(line, one), ring, one.ring, rolls=rolls) if ring else None


def _as_tight(body: str, cells: Sequence[Cell], ring: str, *, rolls: bool) -> Tight:
    """Give a ring as high as it may be: how high rings of bearings are is an estimate."""
    span = min(c.first for c in cells), max(c.last for c in cells)
    bore, outside = min(min(c.inner) for c in cells), max(max(c.outer) for c in cells)
    if not rolls:
        return Tight(body, span, (bore, outside), inside=ring == INNER)
    if ring == INNER:
        return Tight(body, span, (bore, outside + off_by((outside, outside))), inside=True)
    return Tight(body, span, (bore - off_by((bore, bore)), outside), inside=False)
