"""What the order says of spanners at nuts, keys in the way, and parts put on for a check alone."""

from collections.abc import Iterator, Mapping, Sequence

from dryfit.app.usecases.ordering.checks import reading_of
from dryfit.app.usecases.ordering.unit import LineOf, Unit
from dryfit.model.parts import Cover
from dryfit.model.rebuild import Check, Depth, Thickness
from dryfit.plan.bodies import ALL_ROUND, Level
from dryfit.plan.from_shapes import screws_of
from dryfit.plan.nest import Nest
from dryfit.plan.reach import blocked
from dryfit.plan.spanners import spanners, surely_shut
from dryfit.quantities import Finding
from dryfit.solve.luck import NoLuck
from dryfit.solve.predict import lines_of
from dryfit.solve.states import conditions


def in_place(line: LineOf, done: Sequence[str], name: str) -> int:
    """Give the bodies that lie beside one after some steps, itself left out.

    On the bench a unit has only its own bodies about it, and in the case all that is there.
    """
    nest, went = line.nest, {*done}
    waits = line.units
    unit = waits.get(name)
    if unit is not None and unit not in went:
        there = {body for body in line.built.inside[unit] if body in went}
    else:
        there = {b for b in nest.at if b in went and waits.get(b, b) in went}
        there |= {*nest.at} - line.moved
    return nest.mask(there & {*nest.at}) & ~(1 << nest.at[name])


def nuts_of(line: LineOf) -> Iterator[str]:
    """List what is screwed on along a line."""
    for body in line.nest.bodies:
        if body.can is Level.SCREW:
            yield body.name


def shut_nuts(unit: Unit, order: Sequence[str]) -> Mapping[str, tuple[str, ...]]:
    """Name for each step the nuts that no spanner gets to any more after it."""
    found: dict[str, tuple[str, ...]] = {}
    for line in unit.lines:
        for nut in (name for name in nuts_of(line) if name in order):
            start = order.index(nut)
            for step in range(start + 1, len(order)):
                before, after = (in_place(line, order[: step + n], nut) for n in (0, 1))
                reaches = spanners(line.nest, nut)
                if blocked(line.nest, reaches, after) and not blocked(line.nest, reaches, before):
                    found[order[step]] = (*found.get(order[step], ()), nut)
    return found


def no_spanner(unit: Unit, order: Sequence[str]) -> list[Finding]:
    """Tell nuts that no spanner gets to when they go on."""
    way_out = (
        "look at the outside of the nut and the bores round it; if they are right it takes a "
        "thinner socket or a pin spanner of its own, made before the build"
    )
    found = []
    for line in unit.lines:
        for nut in (name for name in nuts_of(line) if name in order):
            there = in_place(line, order[: order.index(nut)], nut)
            told = surely_shut(line.nest, nut, there)
            if told:
                message = f"no spanner gets to '{nut}' as it goes on ({told})"
                found.append(Finding("plan.spanner", ("parts", nut), message, way_out, "note"))
    return found


def under_rings(line: LineOf, name: str, done: Sequence[str]) -> tuple[str, ...]:
    """Say of a key which rings are on before it as they would not get over it."""
    nest = line.nest
    if name not in nest.at or nest.bodies[nest.at[name]].outwards != ALL_ROUND:
        return ()
    key = nest.bodies[nest.at[name]]
    high = max(max(cell.outer) for cell in key.cells)
    ways = {body: taken.way for taken in line.built.strip.taken for body in taken.bodies}
    rings = [f"'{ring}'" for ring in nest.at if ring in done and _stopped(nest, ring, ways, name)]
    return (
        (f"after {', '.join(rings)}: no bore there passes its {2 * high:.1f} mm",) if rings else ()
    )


def _stopped(nest: Nest, ring: str, ways: Mapping[str, str], key: str) -> bool:
    """Tell whether a key would stop a ring on its way off, for its bore."""
    number, way = nest.at[ring], ways.get(ring)
    bore = min(min(cell.inner) for cell in nest.bodies[number].cells)
    met = [move.stops >> nest.at[key] & 1 for move in nest.moves[number] if move.way == way]
    return bore > 0 and any(met)


def trial_fit(unit: Unit, name: str, done: Sequence[str]) -> tuple[str, ...]:
    """Say what goes on for a check alone and comes off again, and which pack it decides."""
    checks = {reading_of(check.name): check for check in unit.rebuild.checks.values()}
    check = checks.get(name)
    if check is None or isinstance(check, Thickness | Depth):
        return ()
    out = conditions(unit.rebuild, check.state, NoLuck()).left_out
    if not out:
        return ()
    told = ", ".join(f"'{part}'" for part in sorted(out))
    on = [f"'{part}'" for part in _missing(unit, check, done) if part not in out]
    fit = f"put on {' and '.join(on)} for it, without {told}; then off again"
    packs = [f"'{part}'" for part in sorted(out) if part in unit.rebuild.settings]
    decides = f"it decides {' and '.join(packs)}, made up after it"
    return (*([fit] if on else []), *([decides] if packs else []))


def _missing(unit: Unit, check: Check, done: Sequence[str]) -> list[str]:
    """List the covers in the stacks of a check that are not on yet."""
    lines = lines_of(unit.rebuild, check)
    stacked = dict.fromkeys(s.part for line in lines for k in line.stacks for s in k.spots)
    steps = {part: own for line in unit.lines for part, own in line.parts.items()}
    covers = [part for part in stacked if isinstance(unit.rebuild.parts[part], Cover)]
    went = {*done, *(screws_of(part) for part in covers)}
    return [part for part in covers if {*steps.get(part, ())} - went]
