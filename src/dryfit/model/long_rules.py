"""Lengths longer than any part of a machine: a slip of the point, or of the unit."""

from collections.abc import Iterator
from dataclasses import fields

from dryfit.model.lands import lands
from dryfit.model.parts import Part
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding, Place, Size
from dryfit.quantities.finding import Level

LONGEST = 10_000
"""What is longer lies on few benches [mm]: estimate."""

NO_MACHINE = 100_000
"""No part of a machine is longer [mm]: estimate."""

Typed = tuple[Place, str, Size]
"""A length: its place, what it is called, and the length."""


def long_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """No part is longer than a machine; what is very long is noted."""
    for place, called, size in _lengths(rebuild):
        if abs(size.value) > NO_MACHINE:
            yield _long(place, called, size, most=NO_MACHINE, level="stop")
        elif abs(size.value) > LONGEST:
            yield _long(place, called, size, most=LONGEST, level="note")


def _long(place: Place, called: str, size: Size, *, most: int, level: Level) -> Finding:
    """Tell a length that is more than the most."""
    limit = "no part of a machine is" if level == "stop" else "few parts on a bench are"
    read = f"{called} was read as {float(abs(size.value)) / 1000:.4g} m ('{size.text}')"
    leave = "" if level == "stop" else ", or leave it if it is so long"
    return Finding(
        "size.long",
        place,
        f"{read}: {limit} longer than {most / 1000:g} m",
        f"look at the point and at the unit, and type it again{leave}",
        level,
    )


def _lengths(rebuild: Rebuild) -> Iterator[Typed]:
    """List all lengths that are known."""
    for between in rebuild.sizes.values():
        if isinstance(between.size, Size):
            yield between.place, f"'{between.key}'", between.size
    for part in rebuild.parts.values():
        yield from _of_part(part)
    for name, setting in rebuild.settings.items():
        if setting.fitted is not None:
            yield ("settings", name, "fitted"), f"'{name}' as fitted", setting.fitted


def _of_part(part: Part) -> Iterator[Typed]:
    """List the lengths that stand with a part itself."""
    for one in fields(part):
        if not one.metadata:
            continue
        key = one.metadata["key"] or one.name.replace("_", " ")
        typed, place = getattr(part, one.name), ("parts", part.name, key)
        if isinstance(typed, Size):
            yield place, f"{key} of '{part.name}'", typed
        elif one.metadata["reads"] == "diameters":
            for land in lands(typed):
                if isinstance(land.size, Size):
                    yield (*place, land.key), f"{key} of '{part.name}' {land.key}", land.size
