"""The rows of a line: which way each stops its inner ring, where, and with what force.

A row is a contact between the two rings of a bearing, with a law from `mechanics`. `ROWS` has one
entry for each kind of bearing. What cannot be seen inside a bearing is estimated, with its spread
in the draws; each estimate is drawn once a bearing, whatever state is asked for.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from dryfit.mechanics.ball_rows import (
    ball_row,
    ball_row_under,
    deep_groove_row,
    free_angle,
    groove_distance,
)
from dryfit.mechanics.hertz import contact_constant, contacts_in_line, groove_curvature
from dryfit.mechanics.internals import FILLINGS, Filling, estimated_internals
from dryfit.mechanics.pushed import steady
from dryfit.mechanics.roller_rows import taper_row
from dryfit.mechanics.thermal import axial_shift
from dryfit.mechanics.tolerances import bearing_width_limits, radial_clearance_limits
from dryfit.model.parts import Bearing, TaperRoller
from dryfit.model.rebuild import Line, Rebuild
from dryfit.quantities import Size
from dryfit.solve.equations import Law
from dryfit.solve.growth import Growth
from dryfit.solve.luck import Array, Draws, full
from dryfit.solve.rigid import Contact
from dryfit.solve.rings import INNER, OUTER, ring
from dryfit.solve.sample import Sample
from dryfit.solve.sizes import gauge, metres, true_size

NOT_A_SET = 0.03e-3
"""How far the faces of an unmatched bearing may stand off: half width, common practice [m]."""

WIDEST = 250
"""Largest bore whose width tolerance is in the table [mm]."""

NOTHING = Law(steady, {"force": 0.0})
"""For the other side of a row whose one law works both ways."""

USUAL_ANGLE = {
    "angular contact ball": (30.0, 12.0),
    "two-row ball": (30.0, 6.0),
    "taper roller": (14.0, 3.0),
}
"""Contact angle that is taken where none is told, and the half width of its rectangle [degree]."""


@dataclass(frozen=True, slots=True)
class Rings:
    """Widths of a bearing and where its row just touches.

    Attributes
    ----------
    inner, outer
        Widths of the rings [m], shape (n,).
    set_width
        From the face on which the inner ring is pushed to that on which the outer rests [m].
    lacking
        Keys of sizes that are not known and for which nothing stands in.
    """

    inner: Array
    outer: Array
    set_width: Array | None
    lacking: frozenset[str]


@dataclass(frozen=True, slots=True)
class Seen:
    """A bearing as it is asked for its row.

    Attributes
    ----------
    rebuild, part, sample
        The unit, the bearing, where its errors come from.
    rings
        Its widths.
    growth
        Of its tracks.
    """

    rebuild: Rebuild
    part: Any
    sample: Sample
    rings: Rings
    growth: Growth

    @property
    def draws(self) -> Draws:
        """Where its errors come from."""
        return self.sample.draws

    def size(self, field: str) -> Array | None:
        """Draw a size that is written with the bearing."""
        return typed(self.rebuild, self.draws, self.part, field)

    def flat(self, what: str) -> Array:
        """Draw what is estimated, between -1 and 1."""
        return self.draws.flat("parts", self.part.name, what)


def typed(rebuild: Rebuild, draws: Draws, part: Any, field: str) -> Array | None:
    """Draw a size that is written with a part.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    draws
        Where its error comes from [draws]
    part
        The part [part]
    field
        Name of the field [text]

    Returns
    -------
    values
        True sizes, or None where it is not known [m], shape (n,)

    Valid
    -----
    Fields that hold sizes.

    Source
    ------
    As `true_size`.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> typed(Rebuild("mm"), NoLuck(), Bearing("front", "deep groove ball"), "width") is None
    True
    """
    size = getattr(part, field)
    by = gauge(rebuild, size.instrument) if isinstance(size, Size) else None
    return true_size(draws, ("parts", part.name, field), size, by) if by else None


def rings(rebuild: Rebuild, part: Bearing, draws: Draws) -> Rings:
    """Draw the three axial sizes of a bearing.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    part
        The bearing [part]
    draws
        Where the errors come from [draws]

    Returns
    -------
    rings
        Widths and set width [m], shape (n,)

    Valid
    -----
    Any bearing; a width that is not known counts as nothing and is listed. One that names no
    instrument is taken from a list of sizes, and so has the tolerance of the Normal class.

    Source
    ------
    [ISO492] for widths; as `true_size` where they are measured.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> sorted(rings(Rebuild("mm"), Bearing("front", "taper roller"), NoLuck()).lacking)
    ['front.width']
    """
    both, inner, outer = (
        _width(rebuild, part, draws, field) for field in ("width", "inner_width", "outer_width")
    )
    inner, outer = (both if own is None else own for own in (inner, outer))
    lacking = frozenset({f"{part.name}.width"}) if inner is None or outer is None else frozenset()
    if isinstance(part, TaperRoller) and not isinstance(part.set_width, Size):
        lacking |= {f"{part.name}.set width"}
    nought = full(draws, 0.0)
    return Rings(
        nought if inner is None else inner,
        nought if outer is None else outer,
        typed(rebuild, draws, part, "set_width"),
        lacking,
    )


def _width(rebuild: Rebuild, part: Bearing, draws: Draws, field: str) -> Array | None:
    """Draw a width: as measured, or, with no instrument named, as listed and its tolerance."""
    size = getattr(part, field)
    if not isinstance(size, Size) or size.instrument or size.plus is not None:
        return typed(rebuild, draws, part, field)
    if not isinstance(part.bore, Size) or not 0 < part.bore.value <= WIDEST:
        return typed(rebuild, draws, part, field)
    limits = bearing_width_limits(metres(part.bore))
    middle, half = (limits.upper + limits.lower) / 2, (limits.upper - limits.lower) / 2
    width: Array = full(draws, metres(size) + middle) + half * draws.flat("parts", part.name, field)
    return width


def row(seen: Seen, line: Line) -> tuple[Contact, ...]:
    """Give the contacts between the rings of a bearing.

    Parameters
    ----------
    seen
        The bearing with its draws and growth [bearing]
    line
        The line it lies in, whose ends `stops shaft going` names [line]

    Returns
    -------
    contacts
        None for a bearing that lets the shaft go endways [contacts]

    Valid
    -----
    Kinds of bearing in `ROWS`.

    Source
    ------
    [HARRIS] for the rows; estimates of `mechanics.internals`.

    Examples
    --------
    >>> sorted(ROWS)[:3]
    ['angular contact ball', 'cylindrical roller', 'deep groove ball']
    """
    return ROWS[seen.part.kind](seen, line)


@dataclass(frozen=True, slots=True)
class Inside:
    """Balls or rollers of a bearing: diameter [m], circle [m], number, shape (n,) each."""

    ball: Array
    pitch: Array
    count: Array


def _filled(seen: Seen, filling: Filling, rows: int = 1) -> Inside:
    """Draw what is inside a bearing, once."""
    return seen.sample.kept(("filled", seen.part.name), lambda: _drawn(seen, filling, rows))


def _drawn(seen: Seen, filling: Filling, rows: int) -> Inside:
    bore, outside = (seen.size(field) for field in ("bore", "outside"))
    bore = full(seen.draws, 30e-3) if bore is None else bore
    outside = bore * 2 if outside is None else outside
    width = np.maximum(np.maximum(seen.rings.inner, seen.rings.outer), 5e-3) / rows
    found = estimated_internals(
        bore, outside, width, share=filling.share, first=filling.first, arc=filling.arc
    )
    own = seen.size("ball")
    diameter = found.diameter * (1 + filling.spread * seen.flat("ball")) if own is None else own
    count = found.count * (1 + filling.count_spread * seen.flat("count"))
    own_count = full(seen.draws, seen.part.balls) if seen.part.balls else count
    return Inside(diameter, found.pitch, own_count)


def _balls(seen: Seen, filling: Filling, angle: Array, rows: int = 1) -> dict[str, Any]:
    """Give what every law of a ball row wants; worked out once, whatever the state."""
    return seen.sample.kept(
        ("balls", seen.part.name), lambda: _worked_out(seen, filling, angle, rows)
    )


def _worked_out(seen: Seen, filling: Filling, angle: Array, rows: int) -> dict[str, Any]:
    inside = _filled(seen, filling, rows)
    conformity = filling.conformity + filling.conformity_spread * seen.flat("groove")
    lean = inside.ball * np.cos(angle) / inside.pitch
    inner, outer = (
        contact_constant(*groove_curvature(inside.ball, conformity, sign * lean))
        for sign in (1.0, -1.0)
    )
    return {
        "distance": groove_distance(inside.ball, conformity, conformity),
        "balls": inside.count,
        "constant": contacts_in_line(inner, outer),
    }


def _angle(seen: Seen) -> Array:
    """Draw a contact angle; as told it is good to a degree."""
    told = seen.part.angle
    usual, spread = USUAL_ANGLE[seen.part.kind] if told is None else (float(told.value), 1.0)
    angle: Array = np.radians(usual + spread * seen.flat("angle"))
    return angle


def _one_way(seen: Seen, line: Line, law: Law, *, touch: Array, zero: Array) -> Contact:
    """Put a row between the rings so that it stops the shaft one way."""
    inner, outer = ring(seen.part.name, INNER), ring(seen.part.name, OUTER)
    if seen.part.stops == line.last:
        before, after, width = inner, outer, seen.rings.outer
    else:
        before, after, width = outer, inner, seen.rings.inner
    return Contact(before, after, touch - width, law, zero - width)


def _stands(seen: Seen, stand_off: Array) -> Array:
    """Give the set width: as measured, else as wide as the rings and what they stand off."""
    own = seen.rings.set_width
    return (seen.rings.inner + seen.rings.outer) / 2 + stand_off if own is None else own


def _angular(seen: Seen, line: Line) -> tuple[Contact, ...]:
    angle = _angle(seen)
    balls = _balls(seen, FILLINGS["angular contact"], angle)
    if seen.part.ground_for is not None:
        force = full(seen.draws, seen.part.ground_for.si)
        stand_off = ball_row_under(force, angle, **balls).approach
    else:
        stand_off = NOT_A_SET * seen.flat("stand-off")
    zero = _stands(seen, stand_off)
    law = Law(ball_row, {"angle": angle, **balls, **_grown(seen)})
    touch = zero + _closer(seen, angle, balls["distance"])
    return (_one_way(seen, line, law, touch=touch, zero=zero),)


def _grown(seen: Seen) -> dict[str, Array]:
    return {"inner_growth": seen.growth.inner, "outer_growth": seen.growth.outer}


def _closer(seen: Seen, angle: Array, distance: Array) -> Array:
    """Say by how much sooner a ball row touches because its tracks have grown."""
    across = distance * np.cos(angle) + (seen.growth.inner - seen.growth.outer) / 2
    along = np.sqrt(np.maximum(distance**2 - across**2, 0.0))
    return distance * np.sin(angle) - along


def _deep_groove(seen: Seen, _: Line) -> tuple[Contact, ...]:
    clearance = _clearance(seen)
    balls = _balls(seen, FILLINGS["deep groove"], full(seen.draws, 0.0))
    left = clearance - seen.growth.inner + seen.growth.outer
    half = balls["distance"] * np.sin(free_angle(np.maximum(left, 0.0), balls["distance"]))
    law = Law(deep_groove_row, {"clearance": clearance, **balls, **_grown(seen)})
    return _both_ways(seen, law, half)


def _both_ways(seen: Seen, law: Law, half: Array) -> tuple[Contact, ...]:
    """Stop the shaft both ways, each after half of the float; one law counts from the middle."""
    inner, outer = ring(seen.part.name, INNER), ring(seen.part.name, OUTER)
    middle = (seen.rings.inner - seen.rings.outer) / 2
    return (
        Contact(inner, outer, middle - half, law, middle),
        Contact(outer, inner, -middle - half, NOTHING, -middle),
    )


def _clearance(seen: Seen) -> Array:
    """Draw the radial clearance: as measured, of its group, or of the normal group."""
    own = seen.size("play")
    if own is not None:
        return own
    bore = seen.size("bore")
    group = (seen.part.clearance or "CN").upper()
    limits = radial_clearance_limits(
        float(np.mean(bore)) if bore is not None else 30e-3, group, kind="ball"
    )
    middle, half = (limits.upper + limits.lower) / 2, (limits.upper - limits.lower) / 2
    drawn: Array = full(seen.draws, middle) + half * seen.flat("clearance")
    return drawn


def _taper(seen: Seen, line: Line) -> tuple[Contact, ...]:
    angle = _angle(seen)
    filling = FILLINGS["taper"]
    count = _filled(seen, filling).count
    zero = _stands(seen, NOT_A_SET * seen.flat("stand-off"))
    length = np.maximum(seen.rings.inner, 5e-3) * filling.length
    law = Law(taper_row, {"angle": angle, "rollers": count, "length": length, **_grown(seen)})
    closer = axial_shift(seen.growth.inner - seen.growth.outer, angle)
    return (_one_way(seen, line, law, touch=zero + closer, zero=zero),)


def _thrust(seen: Seen, line: Line) -> tuple[Contact, ...]:
    angle = full(seen.draws, np.pi / 2)
    balls = _balls(seen, FILLINGS["thrust ball"], angle)
    height = _stands(seen, full(seen.draws, 0.0))
    law = Law(ball_row, {"angle": angle, **balls})
    return (_one_way(seen, line, law, touch=height, zero=height),)


def _two_rows(seen: Seen, line: Line) -> tuple[Contact, ...]:
    angle = _angle(seen)
    balls = _balls(seen, FILLINGS["angular contact"], angle, rows=2)
    play = seen.size("play")
    if play is not None:
        apart = play / 2
    elif seen.part.ground_for is not None:
        force = full(seen.draws, seen.part.ground_for.si)
        apart = -ball_row_under(force, angle, **balls).approach
    else:
        apart = full(seen.draws, 0.0)
    closer = _closer(seen, angle, balls["distance"])
    law = Law(ball_row, {"angle": angle, **balls, **_grown(seen)})
    inner, outer = ring(seen.part.name, INNER), ring(seen.part.name, OUTER)
    middle = (seen.rings.inner - seen.rings.outer) / 2
    return (
        Contact(inner, outer, middle - apart + closer, law, middle - apart),
        Contact(outer, inner, -middle - apart + closer, law, -middle - apart),
    )


def _free(*_: Any) -> tuple[Contact, ...]:
    return ()


ROWS: dict[str, Callable[[Seen, Line], tuple[Contact, ...]]] = {
    "angular contact ball": _angular,
    "deep groove ball": _deep_groove,
    "taper roller": _taper,
    "thrust ball": _thrust,
    "two-row ball": _two_rows,
    "cylindrical roller": _free,
}
