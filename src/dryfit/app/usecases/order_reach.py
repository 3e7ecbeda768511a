"""What the order says of dials: whether one gets to the end of a part when its float is read."""

from collections.abc import Iterator, Sequence

from dryfit.app.usecases.order_job import LineOf, Unit, reading_of
from dryfit.app.usecases.order_tools import in_place
from dryfit.model.rebuild import EndFloat
from dryfit.plan.tools import Reach, blocked, probes
from dryfit.quantities import Finding


def no_dial(unit: Unit, order: Sequence[str]) -> list[Finding]:
    """Tell floats whose part no dial gets to when they are read."""
    way_out = (
        "look at the bores round its ends; if they are right, take a dial with a long finger, or "
        "make a hole for it, before the build"
    )
    return [
        Finding(
            "plan.dial",
            ("checks", check.name),
            f"no dial gets to an end of '{check.of}' when '{check.name}' is read ({told})",
            way_out,
            "note",
        )
        for check, line in _floats(unit, order)
        if (told := _shut(line, check, order[: order.index(reading_of(check.name))]))
    ]


def _floats(unit: Unit, order: Sequence[str]) -> Iterator[tuple[EndFloat, LineOf]]:
    """List the floats that are read by a dial on a part in the case; an opening lets it in."""
    for check in unit.rebuild.checks.values():
        for line in unit.lines:
            if not isinstance(check, EndFloat) or reading_of(check.name) not in order:
                continue
            if check.of in line.nest.at and not line.nest.doors:
                yield check, line


def _shut(line: LineOf, check: EndFloat, done: Sequence[str]) -> str:
    """Say why no dial gets to either end of a part after some steps; nothing if one does."""
    reaches = dict.fromkeys(_reaches(line, check.of))  # one from each end, where all are alike
    return blocked(line.nest, reaches, in_place(line, done, check.of))


def _reaches(line: LineOf, part: str) -> Iterator[Reach]:
    """Say how a dial gets to the end faces of a part, at its rim or further in."""
    body = line.nest.bodies[line.nest.at[part]]
    ends = max(body.cells, key=lambda c: c.last), min(body.cells, key=lambda c: c.first)
    for way, cell, at in zip(line.nest.ways, ends, (ends[0].last, ends[1].first), strict=True):
        inner, outer = min(cell.inner), max(cell.outer)
        for radius in (outer - 1.0, (inner + outer) / 2, inner + 1.0):
            reaches = probes(line.nest, at, radius, typed=True)
            yield from (one for one in reaches if one.way == way)
