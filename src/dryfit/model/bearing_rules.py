"""What must hold of bearings, and of what holds them, before any number is worked out."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from dryfit.model.known import parts_known
from dryfit.model.parts import (
    Bearing,
    Cover,
    Housing,
    Key,
    Nut,
    Part,
    PlainBearing,
    Ring,
    Seal,
    SpringWasher,
    ThreadedRing,
    Turned,
)
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding, Place, Size
from dryfit.quantities.finding import a, near

CLEARANCES = ("C2", "CN", "C3", "C4", "C5")
ANGLES = {"taper roller": (5, 35)}
"""Half angle of the cup; all others have that of `BALLS` [degree]."""

BALLS = (5, 75)
FIT = Fraction(1, 2)
"""A seat differs from its bore by less [mm]."""

TABLES = {"bore": (Fraction(5, 2), 250), "outside": (Fraction(6), 315)}
"""Sizes for which tolerances of rings are in the tables: above the one, to the other [mm]."""

SLACK_TO = 200
"""Greatest bore for which clearances are in the tables [mm]."""

FEWEST, MOST = 3, 200

ROUND = Fraction(22, 7)
"""A circle is no more than so many times as long as it is wide."""

SLIMMEST = Fraction(1, 7)
"""Balls and rollers are no thinner than this share of outside less bore: estimate, from light
series, whose balls are a fifth."""

SET = Fraction(3, 4)
"""A bearing set is no narrower than this share of its wider ring: estimate; cones stand out of
their cups by no more."""

LEAST, LEAST_OF_BORE = Fraction(2), Fraction(1, 20)
"""The outside of a bearing is larger than its bore by this [mm] and this share of it at least:
estimate; the thinnest that are made, such as 3 x 6 and 50 x 62, have more (from memory)."""

POSITIVE: dict[type[Part], tuple[str, ...]] = {
    Bearing: (
        *("bore", "outside", "width", "inner_width", "outer_width", "set_width"),
        *("seat", "pocket", "ball"),
    ),
    Ring: ("bore", "outside"),
    Turned: ("bore", "outside"),
    Cover: ("screw_circle", "spigot", "thickness"),
    SpringWasher: ("free", "at", "solid"),
    PlainBearing: ("bore", "journal"),
    Seal: ("shaft", "outside"),
    Nut: ("outside",),
    ThreadedRing: ("bore",),
    Housing: ("opening",),
    Key: ("stands_out",),
}
"""Sizes of each kind that are larger than nothing."""

ORDER: dict[type[Part], tuple[tuple[str, str], ...]] = {
    Bearing: (
        ("bore", "outside"),
        ("width", "outside"),
        ("inner_width", "outside"),
        ("outer_width", "outside"),
        ("set_width", "outside"),
    ),
    Ring: (("bore", "outside"),),
    Turned: (("bore", "outside"),),
    Seal: (("shaft", "outside"),),
    ThreadedRing: (("bore", "outside"),),
    Cover: (("spigot", "screw_circle"),),
    SpringWasher: (("solid", "at"), ("at", "free")),
}
"""Pairs of which the first is smaller."""

NEAR = (("seat", "bore"), ("pocket", "outside"))


def bearing_rules(rebuild: Rebuild) -> Iterator[Finding]:
    """Ask every rule about bearings, and about the sizes of what holds them."""
    for name, part in rebuild.parts.items():
        place: Place = ("parts", name)
        yield from _sizes(part, place)
        for key in ("on", "in", "left shims", "right shims"):
            other = getattr(part, {"in": "in_"}.get(key, key.replace(" ", "_")), None)
            if other:
                yield from parts_known(rebuild, [other], (*place, key))
        if isinstance(part, Bearing):
            yield from _bearing(rebuild, part, place)


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


def _too_thin(part: Any, place: Place) -> Iterator[Finding]:
    """Two rings, and what rolls between them, have room between bore and outside."""
    bore, outside = part.bore, part.outside
    if isinstance(bore, Size) and isinstance(outside, Size):
        least = LEAST + LEAST_OF_BORE * bore.value
        if 0 < outside.value - bore.value < least:
            yield Finding(
                "size.order",
                (*place, "outside"),
                f"between the bore of '{part.name}' ({bore.text}) and its outside "
                f"({outside.text}) there is no room for two rings and what rolls between them",
                "measure both again: was a seat or a pocket read instead?",
            )


def _bearing(rebuild: Rebuild, part: Any, place: Place) -> Iterator[Finding]:
    """A bearing stops its shaft at an end of its line, and its figures can be."""
    yield from _stops(rebuild, part, place)
    yield from _too_thin(part, place)
    for field, ring in NEAR:
        size, own = getattr(part, field), getattr(part, ring)
        if isinstance(size, Size) and isinstance(own, Size) and abs(size.value - own.value) > FIT:
            yield Finding(
                "bearing.fit",
                (*place, field),
                f"a {field} of {size.text} is no fit for '{part.name}', whose {ring} is {own.text}",
                f"type what the {field} itself measures, within 0.5 mm of the ring; or was it the "
                f"{ring} that was misread?",
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
    yield from _in_tables(part, place)
    yield from _inside(part, place)
    yield from _width(part, place)
    yield from _set_width(part, place)


def _in_tables(part: Any, place: Place) -> Iterator[Finding]:
    """Bore and outside are in the tables of tolerances and, where none is typed, of clearance."""
    for field, (least, most) in TABLES.items():
        size = getattr(part, field)
        by_group = field == "bore" and hasattr(part, "clearance") and part.play is None
        most = SLACK_TO if by_group else most
        if isinstance(size, Size) and size.value > 0 and not least < size.value <= most:
            yield Finding(
                f"bearing.{field}",
                (*place, field),
                f"{a(field)} of {size.text} is {float(size.value):g} mm; the tables hold above "
                f"{float(least):g} to {most} mm",
                "look whether it is in the right unit, or write not known",
            )


def _inside(part: Any, place: Place) -> Iterator[Finding]:
    """The balls have room between the rings and round them."""
    bore, outside, ball = part.bore, part.outside, part.ball
    if not isinstance(bore, Size) or not isinstance(outside, Size):
        return
    yield from _too_many(part, outside.value - bore.value, outside.value + bore.value, place)
    if not isinstance(ball, Size):
        return
    room, circle = outside.value - bore.value, (outside.value + bore.value) / 2
    round_it = part.balls is not None and part.balls * ball.value > ROUND * circle
    if ball.value > 0 and room > 0 and (2 * ball.value >= room or round_it):
        yield Finding(
            "bearing.ball",
            (*place, "ball"),
            f"{'as many balls' if round_it else 'balls'} of {ball.text} have no room in "
            f"'{part.name}', between {bore.text} and {outside.text}",
            "measure one again, or take the key out: it is then estimated",
        )


def _too_many(part: Any, wall: Fraction, twice: Fraction, place: Place) -> Iterator[Finding]:
    """Balls as thin as any go round their circle."""
    if wall <= 0 or part.balls is None or not FEWEST <= part.balls <= MOST:
        return
    most = int(ROUND * twice / 2 / (SLIMMEST * wall))
    if part.balls > most:
        yield Finding(
            "bearing.balls",
            (*place, "balls"),
            f"{part.balls} balls or rollers have no room in one row of '{part.name}', between "
            f"{part.bore.text} and {part.outside.text}",
            f"count those of one row again: {most} at most, or take the key out",
        )


def _set_width(part: Any, place: Place) -> Iterator[Finding]:
    """Set together, inner and outer ring are about as wide as the wider of them, or more."""
    rings = [s for s in (part.width, part.inner_width, part.outer_width) if isinstance(s, Size)]
    widest = max(rings, key=lambda size: size.value, default=None)
    set_ = part.set_width
    if widest is not None and isinstance(set_, Size) and 0 < set_.value < SET * widest.value:
        yield Finding(
            "bearing.set width",
            (*place, "set width"),
            f"'{part.name}' cannot be {set_.text} over both its rings, with one of them "
            f"{widest.text} wide",
            "measure from the face that pushes the inner ring to the face on which the outer rests",
        )


def _width(part: Any, place: Place) -> Iterator[Finding]:
    """How wide each ring is stands somewhere, if only as not known."""
    both = (("inner width", part.inner_width), ("outer width", part.outer_width))
    lacking = [key for key, size in both if size is None and part.width is None]
    if lacking:
        key = "width" if len(lacking) == len(both) else lacking[0]
        yield Finding(
            "bearing.width",
            place,
            f"nothing says the {key} of '{part.name}', so where its rings stand is not known",
            f"add {key}: with the figure of a list, or {key}: 18.00 by micrometer",
            "note",
        )


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
