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
from dryfit.mechanics.ratings import (
    dynamic_factor,
    dynamic_rating,
    dynamic_thrust_factor,
    dynamic_thrust_rating,
    static_factor,
    static_rating,
    static_thrust_factor,
    static_thrust_rating,
)
from dryfit.model.parts import Bearing
from dryfit.model.rebuild import PreloadNeed
from dryfit.solve.benchtop import Bench
from dryfit.solve.elastic import Held
from dryfit.solve.equations import Law
from dryfit.solve.luck import Array, full
from dryfit.solve.rings import INNER, owner, ring
from dryfit.solve.rows import NOTHING, Inside

LEAN, FLAT_LEAN = (0.01, 0.4), (0.01, 0.19)
"""Least and greatest D cos(angle) / pitch diameter of the ratings' tables, and of thrust balls
D / pitch diameter [-]."""

STEEPEST = 1e-3
"""A row that is tight across has hardly any angle left; it counts with no less [rad]."""

UPRIGHT = 1.5
"""Radial ratings hold for angles below a right one [rad]."""

ROLLERS = 4.0
"""A roller carries so many times what a ball of its diameter does: estimate, on the mild side."""


@dataclass(frozen=True, slots=True)
class Carried:
    """What one row carries.

    Attributes
    ----------
    bearing
        Whose row it is.
    force
        On its inner ring along the line, towards the last end [N], shape (n,).
    loads
        Of all its balls or rollers, added up [N].
    rating
        Its dynamic rating [N]; NaN where that is not known.
    bears, static
        Dynamic and static rating by which harm is judged, of rollers estimates [N].
    """

    bearing: str
    force: Array
    loads: Array
    rating: Array
    bears: Array
    static: Array

    @property
    def share(self) -> Array:
        """Loads over the dynamic rating [-]; NaN where that is not known."""
        found: Array = np.where(self.force == 0, 0.0, self.loads / self.rating)
        return found

    @property
    def strain(self) -> Array:
        """How near it is to harm [-]: beyond one it is pressed too hard."""
        hard = self.loads / (HARDEST * self.bears)
        found: Array = np.maximum(hard, np.abs(self.force) / (TENTH * self.static))
        return found


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
    rating is that of [ISO281]; of rollers it must be typed, and harm to those without is judged by
    `ROLLERS`.

    Source
    ------
    Statics; classes and limits as `mechanics.preload`, common practice, no source.

    Examples
    --------
    See tests/solve/test_preloads.py.

    >>> STEEPEST < 1
    True
    """
    rows = carried(bench, bench.at_rest({}))
    nought = full(bench.sample.draws, 0.0)
    ahead = sum((np.maximum(row.force, 0.0) for row in rows), nought)
    back = sum((np.maximum(-row.force, 0.0) for row in rows), nought)
    force: Array = np.minimum(ahead, back)
    if need.want is None:
        return np.max([nought, *(row.strain for row in rows)], axis=0), force, frozenset()
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
        if contact.law is NOTHING:  # the other side of a row whose one law works both ways
            continue
        loads, ratings = RATED[part.kind](bench, part, contact.law, np.abs(pressed))
        found.append(Carried(name, pushes * pressed, loads, *ratings))
    return found


Ratings = tuple[Array, Array, Array]
"""Dynamic rating, and the dynamic and static ones by which harm is judged [N]."""


def _balls(bench: Bench, part: Bearing, law: Law, force: Array) -> tuple[Array, Ratings]:
    """Add up ball loads under a force, by the row's own law; and give the ratings."""
    told = law.arguments
    grown = told["inner_growth"] - told["outer_growth"]
    if law.formula is ball_row:
        angle = told["angle"]
    else:
        left = np.maximum(told["clearance"] - grown, 0.0)
        angle, grown = free_angle(left, told["distance"]), 0.0
    angle = np.clip(angle, STEEPEST, UPRIGHT)
    inside = _inside(bench, part)
    lean = np.clip(inside.ball * np.cos(angle) / inside.pitch, *LEAN)
    dynamic = dynamic_rating(dynamic_factor(lean), inside.ball, inside.count, angle=angle)
    static = static_rating(static_factor(lean), inside.ball, inside.count, angle=angle)
    rating = _typed(bench, part, dynamic)
    return _added_up(law, force, angle, grown), (rating, rating, static)


def _flat(bench: Bench, part: Bearing, law: Law, force: Array) -> tuple[Array, Ratings]:
    """Add up the loads of thrust balls, whose ratings are axial."""
    inside = _inside(bench, part)
    lean = np.clip(inside.ball / inside.pitch, *FLAT_LEAN)
    dynamic = dynamic_thrust_rating(dynamic_thrust_factor(lean), inside.ball, inside.count)
    static = static_thrust_rating(static_thrust_factor(lean), inside.ball, inside.count)
    rating = _typed(bench, part, dynamic)
    return _added_up(law, force, law.arguments["angle"], 0.0), (rating, rating, static)


def _tapers(bench: Bench, part: Bearing, law: Law, force: Array) -> tuple[Array, Ratings]:
    """Add up roller loads; their rating is as typed, what they bear without harm an estimate."""
    angle, inside = law.arguments["angle"], _inside(bench, part)
    lean = np.clip(inside.ball * np.cos(angle) / inside.pitch, *LEAN)
    balls = dynamic_rating(dynamic_factor(lean), inside.ball, inside.count, angle=angle)
    static = static_rating(static_factor(lean), inside.ball, inside.count, angle=angle)
    rating = _typed(bench, part, full(bench.sample.draws, np.nan))
    bears = np.where(np.isnan(rating), ROLLERS * balls, rating)
    return force / np.sin(angle), (rating, bears, ROLLERS * static)


def _added_up(law: Law, force: Array, angle: Array, grown: Array | float) -> Array:
    """Add up the loads of all balls of a row."""
    told = law.arguments
    under = ball_row_under(
        force,
        angle,
        distance=told["distance"],
        balls=told["balls"],
        constant=told["constant"],
        inner_growth=grown,
    )
    found: Array = told["balls"] * under.load
    return found


def _inside(bench: Bench, part: Bearing) -> Inside:
    found: Inside = bench.sample.others[("filled", part.name)]
    return found


def _typed(bench: Bench, part: Bearing, otherwise: Array) -> Array:
    return full(bench.sample.draws, part.rating.si) if part.rating else otherwise


RATED: dict[str, Callable[[Bench, Any, Law, Array], tuple[Array, Ratings]]] = {
    "angular contact ball": _balls,
    "deep groove ball": _balls,
    "two-row ball": _balls,
    "thrust ball": _flat,
    "taper roller": _tapers,
}
"""Loads of all balls or rollers [N], and ratings, by kind of bearing."""
