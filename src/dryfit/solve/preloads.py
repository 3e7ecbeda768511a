"""How hard the rows of a line are pressed against each other, in newtons and as a share of rating.

The share is what says whether a preload is light or heavy: the loads of all balls or rollers of a
row, added up, over the row's dynamic rating; `mechanics.preload` has the words for it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from dryfit.mechanics.ball_rows import ball_row, ball_row_under, free_angle
from dryfit.mechanics.preload import PRELOAD_CLASSES
from dryfit.mechanics.ratings import dynamic_factor, dynamic_rating, static_factor, static_rating
from dryfit.model.parts import Bearing
from dryfit.model.rebuild import PreloadNeed
from dryfit.solve.benchtop import Bench
from dryfit.solve.elastic import Held
from dryfit.solve.luck import Array, full
from dryfit.solve.rigid import Contact
from dryfit.solve.rings import INNER, owner, ring
from dryfit.solve.rows import Inside

LEAN = (0.01, 0.4)
"""Least and greatest D cos(angle) / pitch diameter of the rating's table [-]."""

STEEPEST = 1e-3
"""A row that is tight across has hardly any angle left; it counts with no less [rad]."""


@dataclass(frozen=True, slots=True)
class Carried:
    """What one row carries.

    Attributes
    ----------
    bearing
        Whose row it is.
    force
        On its inner ring along the line, towards the last end [N], shape (n,).
    share
        Loads of all its balls or rollers over its dynamic rating [-]; NaN where that is not known.
    rating, static
        Dynamic and static rating, radial [N]; NaN where not known.
    """

    bearing: str
    force: Array
    share: Array
    rating: Array
    static: Array


def preload(bench: Bench, need: PreloadNeed) -> tuple[Array, Array, frozenset[str]]:
    """Say how hard the rows of a line are pressed against each other.

    Parameters
    ----------
    bench
        The unit [bench]
    need
        Which part's line, and in what its preload is wanted [need]

    Returns
    -------
    preload, force, lacking
        The force if it is wanted in newtons; the share of rating if it is wanted in words; if
        nothing is wanted, its strain: the larger of the share over the heaviest preload and of the
        force on a row over a tenth of its static rating, beyond one too hard. Then the force, and
        what is not known [N] or [-], [N], [keys]

    Raises
    ------
    NothingStops
        A body that nothing stops.
    NotYet
        Sizes of the line are not known.

    Valid
    -----
    At rest under no push; the less loaded way counts, so a weight is no preload. With balls the
    rating is that of [ISO281]; of rollers it must be typed, and without it they are strained by a
    nip of `NIPPED`.

    Source
    ------
    Statics; classes and limits as `mechanics.preload`, common practice, no source.

    Examples
    --------
    See tests/solve/test_preloads.py.

    >>> STEEPEST < 1
    True
    """
    still = bench.at_rest({})
    rows = carried(bench, still)
    nought = full(bench.sample.draws, 0.0)
    ahead = sum((np.maximum(row.force, 0.0) for row in rows), nought)
    back = sum((np.maximum(-row.force, 0.0) for row in rows), nought)
    force: Array = np.minimum(ahead, back)
    if need.want is None:
        return _strain(bench, rows, np.maximum(still.nip(), 0.0) / NIPPED), force, frozenset()
    if need.want.classes is None:
        return force, force, frozenset()
    share = np.max([row.share for row in rows], axis=0) if rows else nought
    lacking = frozenset(f"{row.bearing}.rating" for row in rows if np.isnan(row.rating).any())
    return np.where(force > 0, share, 0.0), force, lacking


HARDEST = PRELOAD_CLASSES[-2].up_to
"""Share of dynamic rating beyond which a preload is harmful [-]."""

TENTH = 0.1
"""Share of a row's static rating that its preload may come to: common practice, no source [-]."""


NIPPED = 0.03e-3
"""A nip beyond this is told with its force: common practice, no source [m]."""


def _strain(bench: Bench, rows: list[Carried], unrated: Array) -> Array:
    """Say how near the hardest loaded row is to harm; one that is not rated, by the nip alone."""
    worst = full(bench.sample.draws, 0.0)
    for row in rows:
        strain = np.fmax(row.share / HARDEST, np.abs(row.force) / (TENTH * row.static))
        worst = np.maximum(worst, np.where(np.isnan(strain), unrated, strain))
    return worst


def carried(bench: Bench, still: Held) -> list[Carried]:
    """List what each row of a line carries.

    Parameters
    ----------
    bench
        The unit [bench]
    still
        The line at rest [held]

    Returns
    -------
    rows
        Those that press, one for each contact of a bearing [rows]

    Valid
    -----
    Any line.

    Source
    ------
    [ISO281], [ISO76] for ratings.

    Examples
    --------
    See tests/solve/test_preloads.py.

    >>> sorted(RATED)[:2]
    ['angular contact ball', 'deep groove ball']
    """
    found = []
    for contact, pressed in zip(still.contacts, still.rest.forces, strict=True):
        name = owner(contact.before)
        if name != owner(contact.after) or contact.law is None:
            continue
        part: Any = bench.rebuild.parts[name]
        pushes = -1.0 if contact.before == ring(name, INNER) else 1.0
        loads, rating, static = RATED[part.kind](bench, part, contact, np.abs(pressed))
        share = np.where(pressed == 0, 0.0, loads / rating)
        found.append(Carried(name, pushes * pressed, share, rating, static))
    return found


def _balls(bench: Bench, part: Bearing, contact: Contact, force: Array) -> tuple[Array, ...]:
    """Add up ball loads under a force, by the row's own law; and give the ratings."""
    law = contact.law.arguments if contact.law else {}
    inside: Inside = bench.sample.others[("filled", part.name)]
    if "distance" not in law:  # the other side of a row whose one law works both ways
        nought = full(bench.sample.draws, 0.0)
        return nought, nought + 1.0, nought + 1.0
    grown = law.get("inner_growth", 0.0) - law.get("outer_growth", 0.0)
    if contact.law and contact.law.formula is ball_row:
        angle, grown_by = law["angle"], grown
    else:
        left = np.maximum(law["clearance"] - grown, 0.0)
        angle, grown_by = free_angle(left, law["distance"]), 0.0
    angle = np.clip(angle, STEEPEST, np.pi / 2)
    under = ball_row_under(
        force,
        angle,
        distance=law["distance"],
        balls=law["balls"],
        constant=law["constant"],
        inner_growth=grown_by,
    )
    upright = np.minimum(angle, 1.5)
    lean = np.clip(inside.ball * np.cos(upright) / inside.pitch, *LEAN)
    typed = _typed(bench, part)
    dynamic = dynamic_rating(dynamic_factor(lean), inside.ball, inside.count, angle=upright)
    static = static_rating(static_factor(lean), inside.ball, inside.count, angle=upright)
    return law["balls"] * under.load, dynamic if typed is None else typed, static


def _tapers(bench: Bench, part: Bearing, contact: Contact, force: Array) -> tuple[Array, ...]:
    """Add up roller loads; their rating is as typed."""
    typed = _typed(bench, part)
    unknown = full(bench.sample.draws, np.nan)
    angle = contact.law.arguments["angle"] if contact.law else 1.0
    return force / np.sin(angle), unknown if typed is None else typed, unknown


def _typed(bench: Bench, part: Bearing) -> Array | None:
    return full(bench.sample.draws, part.rating.si) if part.rating else None


RATED: dict[str, Callable[[Bench, Any, Contact, Array], tuple[Array, ...]]] = {
    "angular contact ball": _balls,
    "deep groove ball": _balls,
    "two-row ball": _balls,
    "thrust ball": _balls,
    "taper roller": _tapers,
}
"""Loads of all balls or rollers [N], dynamic and static rating [N], by kind of bearing."""
