"""The upright quill of quill.yaml written out by hand, and where scipy brings it to rest.

The springs between its parts are those of `tests.oracle.energies`; lengths in mm. Of heat and fits
each figure is worked out here. Steel all through: 206 GPa, 0.3, 11.85 um/m for each kelvin.
"""

from dataclasses import dataclass

import numpy as np
from tests.oracle.energies import (
    CASE,
    MM,
    Drawing,
    Law,
    Pressed,
    Rest,
    Row,
    Spring,
    at_rest,
    faces,
    filled,
    half,
    half_rings,
    pull,
    spring_washer,
    tightened,
)
from tests.oracle.units import nose_stop, tail_stop, touch

from dryfit.mechanics.ball_rows import ball_row, ball_row_energy, deep_groove_row

EXPANSION, YOUNG, POISSON = 11.85e-6, 206e9, 0.3
FRONT, REAR = (35, 72, 17), (30, 62, 16)
SPRING, FREE = 120.0 / 1.2e-3, 4.5
WALL = 0.205
"""Of a ring at its track, over outside less bore: estimate of `solve.growth`."""


def inner_track(size: tuple[int, int, int], rise: float) -> float:
    """How much the inner track of a bearing grows by heat, on diameter [m]."""
    bore, outside, _ = size
    return EXPANSION * rise * (outside - WALL * (outside - bore)) * MM


def pressed_in(tight: float) -> float:
    """How much an outer track of the tail bearing shrinks in a pocket that is so tight [m].

    Thick rings of Lame ([SHIGLEY] 3-56): the outer ring, 62 over 55.44, in steel 99.2 over 62.
    """
    across = (62 - WALL * 32) * MM
    fit, wide = 62 * MM, 1.6 * 62 * MM
    housing = (wide**2 + fit**2) / (wide**2 - fit**2) + POISSON
    ring = (fit**2 + across**2) / (fit**2 - across**2) - POISSON
    pressure = max(tight, 0.0) * YOUNG / (fit * (housing + ring))
    return 2 * pressure * fit**2 * across / (YOUNG * (fit**2 - across**2))


def angular(row: Row, grown: float) -> Law:
    """An angular contact row whose inner track has grown [m]."""
    angle, inside = np.radians(row.degrees), row.inside

    def law(d: float) -> Pressed:
        energy = ball_row_energy(d, angle, inner_growth=grown, **inside)
        return Pressed(float(energy), *map(float, ball_row(d, angle, inner_growth=grown, **inside)))

    return law


def groove(play: float, grown: float) -> Law:
    """A deep groove row with so much play [mm], from which its tracks take what they grow [m]."""
    inside = filled("deep groove", REAR, 0.0)
    left = play * MM - grown

    def law(d: float) -> Pressed:
        stretched = max(np.hypot(d, inside.distance - left / 2) - inside.distance, 0.0)
        energy = 0.4 * inside.balls * inside.constant * stretched**2.5
        row = deep_groove_row(d, play * MM, inner_growth=grown, **inside._asdict())
        return Pressed(energy, *map(float, row))

    return law


@dataclass(frozen=True)
class Quill:
    """The quill in one state.

    Attributes
    ----------
    rise
        How much warmer the spindle and all that sits on it is than the quill [K].
    stuck
        Where the outer ring of the tail bearing stays [m]; free to slide where not told.
    tight
        How much larger than its pocket that ring is [m].
    spaced
        Length of both spacers [mm].
    back_to_back
        Which way the pair stands.
    apart
        From the one shoulder of the spindle to the other [mm].
    """

    rise: float = 0.0
    stuck: float | None = None
    tight: float = 0.0
    spaced: float = 20.0
    back_to_back: bool = False
    apart: float = 180.0

    @property
    def at_rest(self) -> Rest:
        """Where all parts stand and what each row carries."""
        return at_rest(self.drawing, {})

    @property
    def drawing(self) -> Drawing:
        """Every face, row and thread of the line."""
        g, spaced = 1 + EXPANSION * self.rise, self.spaced
        wide, tail = 17.0, 16.0
        row = Row(FRONT, 25)
        (in_, out), (tail_in, _) = half_rings(FRONT), half_rings(REAR)
        tube_in, tube_out = half(46, 35, spaced), half(72, 60, spaced)
        law = angular(row, inner_track(FRONT, self.rise))
        groove_law = groove(0.012, inner_track(REAR, self.rise) + pressed_in(self.tight))
        proud, more = row.proud(150), (g - 1) * wide / 2
        stops = (tail_stop, nose_stop) if self.back_to_back else (nose_stop, tail_stop)
        ways = (1, -1) if self.back_to_back else (-1, 1)
        return Drawing(
            (
                touch("spindle", "front in", 0, in_),
                touch("front in", "inner spacer", g * wide, in_, tube_in),
                touch("inner spacer", "second in", g * spaced, tube_in, in_),
                touch("second in", "nut", g * wide, in_),
                Spring("nut", "spindle", 0, pull(tightened(30, 35, 1.5))),
                touch(CASE, "front out", 0, out),
                touch("front out", "outer spacer", wide, out, tube_out),
                touch("outer spacer", "second out", spaced, tube_out, out),
                touch("second out", "lock ring", wide, out),
                Spring("lock ring", CASE, 0, pull(tightened(60, 75, 1.5))),
                stops[0]("front", proud + ways[0] * more, law),
                stops[1]("second", proud + ways[1] * more, law),
                touch("spindle", "rear in", g * self.apart, tail_in),
                touch("rear in", "circlip", g * tail, tail_in),
                touch("circlip", "spindle", 1.2 - g * (self.apart + 17.2)),
                Spring("rear in", "rear out", (g - 1) * tail / 2, groove_law),
                touch("rear out", "wave", tail),
                Spring("wave", CASE, FREE - 19.3 - self.apart, spring_washer(SPRING, 3.1e-3)),
                *self._held,
            ),
            {
                CASE: 0, "spindle": 0, "front in": 0, "inner spacer": wide,
                "second in": wide + spaced, "nut": 2 * wide + spaced, "front out": 0,
                "outer spacer": wide, "second out": wide + spaced, "lock ring": 2 * wide + spaced,
                "rear in": self.apart, "rear out": self.apart - 0.07, "circlip": self.apart + tail,
                "wave": self.apart + tail,
            },
            {},
        )  # fmt: skip

    @property
    def _held(self) -> tuple[Spring, ...]:
        """Two faces that leave a stuck ring no way."""
        if self.stuck is None:
            return ()
        where = self.stuck / MM
        return Spring(CASE, "rear out", where, faces()), touch("rear out", CASE, -where)
