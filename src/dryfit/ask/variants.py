"""What may be wrong in a build, from the model of the unit itself.

A variant is one thing wrong, as a change of what is put to the model: a ring not home, a burr, two
packs in each other's place, a nut not up, a dial at another radius. What every check then reads is
asked of the same model, with the same true sizes otherwise. Each kind has a prior (`PRIORS`).
"""

from collections.abc import Iterator
from dataclasses import replace

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.misreadings import MISREADINGS, warm_when_read
from dryfit.ask.mistakes import MESH_MISTAKES, MISTAKES, Unit, swapped
from dryfit.ask.priors import DOUBLE, HALF, PRIORS, Prior, scaled
from dryfit.ask.touches import touches
from dryfit.ask.variant import Variant
from dryfit.model.rebuild import Check
from dryfit.solve.predict import Reading

__all__ = [
    "DOUBLE",
    "HALF",
    "PRIORS",
    "Asking",
    "Packs",
    "Prior",
    "Variant",
    "read",
    "scaled",
    "variants",
]


def variants(asking: Asking) -> tuple[Variant, ...]:
    """List all that may be wrong in a unit and its readings, in the order of the text."""
    return (*_of_parts(asking), *_of_readings(asking))


def _of_parts(asking: Asking) -> Iterator[Variant]:
    unit = Unit(asking.rebuild, touches(asking.rebuild))
    for part in asking.rebuild.parts.values():
        yield from MISTAKES[part.kind](unit, part)
    yield from swapped(unit)
    for mesh in asking.rebuild.meshes.values():
        yield from MESH_MISTAKES[mesh.kind](unit, mesh)


def _of_readings(asking: Asking) -> Iterator[Variant]:
    for check in asking.rebuild.checks.values():
        for maker in MISREADINGS[check.kind]:
            yield from maker(asking, check)
    yield from warm_when_read(asking)


def read(
    asking: Asking,
    variant: Variant,
    check: Check,
    packs: Packs,
    *,
    amount: float | None = None,
) -> Reading:
    """Say what a check would read with one thing wrong, draw by draw.

    An amount, where it is given, stands for those drawn. Raises `NoAnswer` where nothing stops
    the part any more, or what is read is not there.
    """
    if variant.check not in ("", check.name):
        return asking.true(check, packs)
    found = variant.when_read(asking, amount).true(check, packs)
    return replace(found, shown=variant.shown(check, found, asking, amount))
