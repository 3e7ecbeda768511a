"""What the order cannot do: bodies that come off no way, fits not measured, checks without room."""

from collections.abc import Sequence

from dryfit.app.usecases.ordering.checks import reading_of
from dryfit.app.usecases.ordering.unit import LineOf
from dryfit.model.rebuild import Rebuild
from dryfit.plan.actions import Job
from dryfit.quantities import Finding
from dryfit.solve.pressing import unmeasured


def locked(lines: Sequence[LineOf]) -> list[Finding]:
    """Tell bodies that come off no way."""
    way_out = (
        "measure the diameters named; or write how it gets in: opening: or split along: on the "
        "case, gears put on: on a shaft whose wheel comes off"
    )
    found = []
    for line in lines:
        for name, need in line.built.strip.locked.items():
            message = f"'{name}' does not come off along '{line.name}' ({need})"
            found.append(Finding("plan.no way", ("lines", line.name), message, way_out, "note"))
    return found


def unmeasured_fits(rebuild: Rebuild) -> list[Finding]:
    """Tell once of which bearings it is not known how tight they go home."""
    names = unmeasured(rebuild)
    told = ", ".join(f"'{name}'" for name in names)
    message = f"not measured, on its seat or in its pocket, how tight it sits: {told}"
    way_out = "feel whether each ring is tight before it goes home: what does not slide is pressed"
    return [Finding("plan.fits", ("parts",), message, way_out, "note")] if names else []


def unread(rebuild: Rebuild, job: Job) -> list[Finding]:
    """Tell checks that no order has room for."""
    way_out = "read it when the unit is first tried together, before the build"
    return [
        Finding(
            "plan.unread",
            ("checks", name),
            f"'{name}' cannot be read on the way: parts would have to come off again",
            way_out,
            "note",
        )
        for name in rebuild.checks
        if reading_of(name) not in job.named
    ]
