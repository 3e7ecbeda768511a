"""How far a reading of each workshop instrument may be off, and how that error is shared.

The limit is the half width of a rectangle. A part of it is the same in all readings of one
instrument (its zero, its scale, the hand that holds it), the rest is each reading's own.
"""

from dataclasses import dataclass
from itertools import pairwise

SHARED = 0.7
"""Share of the limit that all readings of one instrument have in common: estimate.

With the own share at sqrt(1 - SHARED**2) = 0.71 each makes up half of the variance. Nobody has
published this for a workshop; GUM (JCGM 100:2008, 5.2.4) only says that such errors are common.
"""


@dataclass(frozen=True, slots=True)
class Instrument:
    """What an instrument is good for.

    Attributes
    ----------
    limits
        Points (length [m], limit [m]), rising; straight between, flat outside.
    resolution
        One step of its scale [m].
    source
        Standard or "estimate".
    shared
        Share of the limit common to all its readings [-].
    better
        Name of the next better instrument for the same job; "" where there is none.
    """

    limits: tuple[tuple[float, float], ...]
    resolution: float
    source: str
    shared: float = SHARED
    better: str = ""


def _um(*points: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """Take points as (mm, um) and give them as (m, m)."""
    return tuple((mm / 1e3, um / 1e6) for mm, um in points)


MICROMETER = _um((0, 4), (50, 5), (100, 6), (150, 7), (200, 8), (250, 9), (500, 14))

INSTRUMENTS: dict[str, Instrument] = {
    "rule": Instrument(_um((0, 250)), 0.5e-3, "estimate", better="caliper"),
    "caliper": Instrument(
        _um((200, 30), (400, 40), (1000, 50)),
        0.01e-3,
        "DIN 862 (20, 30, 40 um new), half as much again for wear and feel: estimate",
        better="micrometer",
    ),
    "depth caliper": Instrument(
        _um((200, 50), (400, 60), (1000, 70)),
        0.01e-3,
        "as caliper; DIN 862 adds 20 um for inside and depth",
        better="depth micrometer",
    ),
    "height gauge": Instrument(
        _um((200, 40), (400, 50), (1000, 60)), 0.01e-3, "estimate", better="depth micrometer"
    ),
    "micrometer": Instrument(MICROMETER, 0.01e-3, "DIN 863: 4 um + L/50", better="comparator"),
    "depth micrometer": Instrument(
        _um((0, 6), (50, 7), (100, 8), (150, 9), (300, 12)),
        0.01e-3,
        "estimate: micrometer + 2 um for its base",
        better="comparator",
    ),
    "telescopic gauge": Instrument(
        _um((50, 15), (150, 17), (300, 20)),
        0.01e-3,
        "estimate, from memory: 10 to 15 um with a micrometer over it",
        better="bore gauge",
    ),
    "bore gauge": Instrument(
        _um((50, 6), (150, 8), (300, 10)), 1e-6, "estimate, from memory: 4 to 6 um"
    ),
    "comparator": Instrument(
        _um((0, 2), (300, 4)), 1e-6, "estimate: against gauge blocks, ISO 3650 grade 2"
    ),
    "feelers": Instrument(_um((0, 15)), 0.01e-3, "estimate: three places, averaged", shared=0.0),
    "dial indicator": Instrument(
        _um((0, 10)), 0.01e-3, "DIN 878, from memory: 9 um within 0.8 mm", shared=0.3
    ),
    "test indicator": Instrument(
        _um((0, 13)), 0.01e-3, "DIN 2270, from memory: 13 um within 0.8 mm", shared=0.3
    ),
}
"""The instruments of a small workshop, by the trade's words."""


ALSO_CALLED = {
    "vernier": "caliper",
    "vernier caliper": "caliper",
    "digital caliper": "caliper",
    "calipers": "caliper",
    "mike": "micrometer",
    "mic": "micrometer",
    "depth mike": "depth micrometer",
    "depth gauge": "depth caliper",
    "dti": "dial indicator",
    "clock": "dial indicator",
    "dial gauge": "dial indicator",
    "lever indicator": "test indicator",
    "feeler gauge": "feelers",
    "steel rule": "rule",
}
"""Other words of the trade for the same instruments."""


def limit_at(instrument: Instrument, length: float) -> float:
    """Half width of the rectangle that holds a reading's error.

    Parameters
    ----------
    instrument
        A row of `INSTRUMENTS` or one of the user's own [instrument]
    length
        Length that is read; its sign does not matter [m], shape ()

    Returns
    -------
    limit
        Half width [m], shape ()

    Valid
    -----
    Any length; outside the points of the row the nearest one holds.

    Source
    ------
    [DIN862], [DIN863] and estimates, as each row of `INSTRUMENTS` says.

    Examples
    --------
    >>> limit_at(INSTRUMENTS["caliper"], 0.300) * 1e6
    35.0
    >>> limit_at(INSTRUMENTS["micrometer"], 0.025) * 1e6
    4.5
    """
    points = instrument.limits
    length = abs(length)
    if length <= points[0][0]:
        return points[0][1]
    for (left, low), (right, high) in pairwise(points):
        if length <= right:
            return low + (high - low) * (length - left) / (right - left)
    return points[-1][1]
