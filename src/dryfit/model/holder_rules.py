"""What must hold of nuts and springs, and of forces that are typed with any part or check."""

from collections.abc import Iterator
from dataclasses import fields
from itertools import pairwise
from typing import Any

from dryfit.model.parts import Nut, Shaft, SpringWasher
from dryfit.model.rebuild import Rebuild
from dryfit.model.spots import Spot
from dryfit.quantities import Finding, Place, Quantity, Size
from dryfit.quantities.finding import near
from dryfit.quantities.rounding import plain, two_figures

STIFFEST = 1e5
"""Stiffness of the heaviest disc springs and more: estimate [N/mm]."""

PUSHES = {"force": "50 N", "torque": "50 N.m"}
"""Sorts of quantity that are not less than nothing, each with one that can be."""


def holder_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Ask every rule about what holds and pushes."""
    yield from _one_behind_another(rebuild)
    yield from _at_one_place(rebuild)
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
                    at: Place = ("lines", line.name, line.direction, stack.name)
                    yield _two_nuts(before, after, at)


def _at_one_place(rebuild: Rebuild) -> Iterator[Finding]:
    """Two stacks of a line do not end in two nuts on the same face."""
    for line in rebuild.lines.values():
        seen: dict[tuple[Spot, int, type], str] = {}
        for stack in line.stacks:
            for at, step in ((-1, -1), (0, 1)):
                nut = rebuild.parts.get(stack.spots[at].part) if len(stack.spots) > 1 else None
                beside = [s for s in stack.spots[::step] if nut and s.part != nut.name]
                if not isinstance(nut, Nut) or not beside:
                    continue
                first = seen.setdefault((beside[0], at, type(nut)), nut.name)
                if first != nut.name:
                    yield _two_nuts(
                        first, nut.name, ("lines", line.name, line.direction, stack.name)
                    )


def _two_nuts(one: str, other: str, place: Place) -> Finding:
    return Finding(
        "nut.two",
        place,
        f"'{one}' and '{other}' lie face to face on one thread: neither holds anything by itself",
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
    yield from _stiff(part, place)
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


def _stiff(part: SpringWasher, place: Place) -> Iterator[Finding]:
    """No washer that springs is as stiff as a block of steel."""
    free, at, force = part.free, part.at, part.force
    if not isinstance(free, Size) or not isinstance(at, Size) or force is None:
        return
    pressed = free.value - at.value
    if pressed > 0 and force.si > STIFFEST * float(pressed):
        yield Finding(
            "spring.stiff",
            (*place, "force"),
            f"'{part.name}' would push with {force.text} when {plain(pressed)} mm short of free, "
            f"{two_figures(force.si / float(pressed))} N for each mm: stiffer than any spring "
            f"washer, {two_figures(STIFFEST)} at most (estimate)",
            "read its list again: N or kN, free height and the height at which it pushes so hard",
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
