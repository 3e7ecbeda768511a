"""What must hold of bearings, and of what holds them, before any number is worked out."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from dryfit.model.known import parts_known
from dryfit.model.parts import Bearing, Cover, Part, PlainBearing, Seal, Spacer, SpringWasher
from dryfit.model.rebuild import FINGERS, LOCKED, SET, TIGHT, Rebuild
from dryfit.quantities import Finding, Place, Size
from dryfit.quantities.finding import near

CLEARANCES = ("C2", "CN", "C3", "C4", "C5")
ANGLES = {"taper roller": (5, 35)}
"""Half angle of the cup; all others have that of `BALLS` [degree]."""

BALLS = (5, 75)
FIT = Fraction(1, 2)
"""A seat differs from its bore by less [mm]."""

FEWEST, MOST = 3, 200

POSITIVE: dict[type[Part], tuple[str, ...]] = {
    Bearing: (
        *("bore", "outside", "width", "inner_width", "outer_width", "set_width"),
        *("seat", "pocket", "ball"),
    ),
    Spacer: ("bore", "outside"),
    Cover: ("screw_circle", "spigot", "thickness"),
    SpringWasher: ("free", "at", "solid"),
    PlainBearing: ("bore", "journal"),
    Seal: ("shaft",),
}
"""Sizes of each kind that are larger than nothing."""

ORDER: dict[type[Part], tuple[tuple[str, str], ...]] = {
    Bearing: (("bore", "outside"),),
    Spacer: (("bore", "outside"),),
    Cover: (("spigot", "screw_circle"),),
    SpringWasher: (("solid", "at"), ("at", "free")),
}
"""Pairs of which the first is smaller."""

NEAR = (("seat", "bore"), ("pocket", "outside"))


def bearing_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Ask every rule about bearings, springs, covers and the states that turn them."""
    for name, part in rebuild.parts.items():
        place: Place = ("parts", name)
        yield from _sizes(part, place)
        for key in ("on", "in", "left shims", "right shims"):
            other = getattr(part, {"in": "in_"}.get(key, key.replace(" ", "_")), None)
            if other:
                yield from parts_known(rebuild, [other], (*place, key))
        if isinstance(part, Bearing):
            yield from _bearing(rebuild, part, place)
    yield from _states(rebuild)


def _key(field: str) -> str:
    return field.replace("_", " ")


def _sizes(part: Part, place: Place) -> Iterator[Finding]:
    """Sizes of a part are positive and in their order."""
    for sort, names in POSITIVE.items():
        for field in names if isinstance(part, sort) else ():
            size = getattr(part, field)
            if isinstance(size, Size) and size.value <= 0:
                yield Finding(
                    "size.not positive",
                    (*place, _key(field)),
                    f"the {_key(field)} of '{part.name}' cannot be {size.text}",
                    "type it, larger than 0, or not known",
                )
    for sort, pairs in ORDER.items():
        for less, more in pairs if isinstance(part, sort) else ():
            one, other = getattr(part, less), getattr(part, more)
            if isinstance(one, Size) and isinstance(other, Size) and one.value >= other.value > 0:
                yield Finding(
                    "size.order",
                    (*place, _key(less)),
                    f"the {_key(less)} of '{part.name}' ({one.text}) is not less than its "
                    f"{_key(more)} ({other.text})",
                    "exchange the two, or measure them again",
                )


def _bearing(rebuild: Rebuild, part: Any, place: Place) -> Iterator[Finding]:
    """A bearing stops its shaft at an end of its line, and its figures can be."""
    yield from _stops(rebuild, part, place)
    for field, ring in NEAR:
        size, own = getattr(part, field), getattr(part, ring)
        if isinstance(size, Size) and isinstance(own, Size) and abs(size.value - own.value) > FIT:
            yield Finding(
                "bearing.fit",
                (*place, field),
                f"a {field} of {size.text} is no fit for '{part.name}', whose {ring} is {own.text}",
                f"type what the {field} itself measures, within 0.5 mm of the ring",
            )
    clearance = getattr(part, "clearance", None)
    if clearance and clearance.upper() not in CLEARANCES:
        yield Finding(
            "bearing.clearance",
            (*place, "clearance"),
            f"'{clearance}' is no clearance group",
            near(clearance.upper(), CLEARANCES),
        )
    if part.balls is not None and not FEWEST <= part.balls <= MOST:
        yield Finding(
            "bearing.balls",
            (*place, "balls"),
            f"'{part.name}' cannot have {part.balls} balls in a row",
            f"count them again: {FEWEST} to {MOST}, or take the key out",
        )
    yield from _angle(part, place)


def _angle(part: Any, place: Place) -> Iterator[Finding]:
    angle = getattr(part, "angle", None)
    low, high = ANGLES.get(part.kind, BALLS)
    if angle is not None and not low <= angle.value <= high:
        yield Finding(
            "bearing.angle",
            (*place, "angle"),
            f"an angle of {angle.text} is none for '{part.name}'",
            f"type that between the pushing line and square to the shaft: {low} to {high} deg",
        )


def _stops(rebuild: Rebuild, part: Any, place: Place) -> Iterator[Finding]:
    """`stops shaft going` names an end of a line that the bearing lies in."""
    stops = getattr(part, "stops", None)
    lines = [
        line
        for line in rebuild.lines.values()
        if any(spot.part == part.name for stack in line.stacks for spot in stack.spots)
    ]
    ends = [end for line in lines for end in (line.first, line.last)]
    if stops and ends and stops not in ends:
        yield Finding(
            "bearing.end",
            (*place, "stops shaft going"),
            f"'{stops}' is no end of the line of '{part.name}'",
            near(stops, ends),
        )


def _states(rebuild: Rebuild) -> Iterator[Finding]:
    """A state does screws and nuts up in a way that is known."""
    for name, state in rebuild.states.items():
        for key, word, words in (
            ("cover screws", state.cover_screws, (TIGHT, FINGERS)),
            ("nuts", state.nuts, (SET, LOCKED)),
        ):
            if word and word not in words:
                yield Finding(
                    "state.word",
                    ("states", name, key),
                    f"'{word}' says nothing of {key}",
                    f"write {' or '.join(words)}",
                )
