"""What must hold of nuts and springs, and of forces that are typed with any part or check."""

from collections.abc import Iterator
from dataclasses import fields
from itertools import pairwise
from typing import Any

from dryfit.model.parts import Nut, Shaft, SpringWasher
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding, Place, Quantity
from dryfit.quantities.finding import near

PUSHES = {"force": "50 N", "torque": "50 N.m"}
"""Sorts of quantity that are not less than nothing, each with one that can be."""


def holder_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Ask every rule about what holds and pushes."""
    yield from _one_behind_another(rebuild)
    for name, part in rebuild.parts.items():
        yield from _pushes(part, ("parts", name))
        if isinstance(part, SpringWasher):
            yield from _spring(part, ("parts", name))
        if isinstance(part, Shaft) and part.weighs_towards:
            yield from _weighs(rebuild, part, ("parts", name, "weighs towards"))
    for name, check in rebuild.checks.items():
        yield from _pushes(check, ("checks", name))


def _one_behind_another(rebuild: Rebuild) -> Iterator[Finding]:
    """Two nuts on one thread have something between them, or one locks the other."""
    for line in rebuild.lines.values():
        for stack in line.stacks:
            names = dict.fromkeys(spot.part for spot in stack.spots)
            for before, after in pairwise(names):
                one, other = rebuild.parts.get(before), rebuild.parts.get(after)
                if isinstance(one, Nut) and type(one) is type(other):
                    yield Finding(
                        "nut.two",
                        ("lines", line.name, line.direction, stack.name),
                        f"'{before}' and '{after}' lie face to face on one thread: neither holds "
                        "anything by itself",
                        "name the one that holds, and give it locked by: lock nut",
                    )


def _pushes(record: Any, place: Place) -> Iterator[Finding]:
    """A force or torque is not less than nothing."""
    for field in fields(record):
        typed = getattr(record, field.name)
        usual = PUSHES.get(typed.kind) if isinstance(typed, Quantity) else None
        if usual and typed.value < 0:
            key = field.metadata["key"] or field.name.replace("_", " ")
            yield Finding(
                "force.negative",
                (*place, key),
                f"{key} cannot be {typed.text}, less than nothing",
                f"type how much, without a sign: {key}: {usual}",
            )


def _spring(part: SpringWasher, place: Place) -> Iterator[Finding]:
    """A spring pushes with some force at a height that is told."""
    if part.force is not None and part.force.value == 0:
        yield Finding(
            "spring.no force",
            (*place, "force"),
            f"'{part.name}' would push with nothing",
            "type the force it has at the height at:, from a list or by weights on a pillar drill",
        )
    for key, other, typed in (
        ("force", "at", part.force is None and part.at is not None),
        ("at", "force", part.at is None and part.force is not None),
    ):
        if typed:
            yield Finding(
                "spring.half told",
                place,
                f"'{part.name}' has its {other} but not its {key}, so its push is not known",
                "give both: force: 140 N, at: 3.05",
                "note",
            )


def _weighs(rebuild: Rebuild, part: Shaft, place: Place) -> Iterator[Finding]:
    """A shaft weighs towards an end of a line."""
    ends = [end for line in rebuild.lines.values() for end in (line.first, line.last)]
    if ends and part.weighs_towards not in ends:
        yield Finding(
            "end.unknown",
            place,
            f"no line has an end '{part.weighs_towards}'",
            near(str(part.weighs_towards), dict.fromkeys(ends)),
        )
