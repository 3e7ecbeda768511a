"""How warm a bearing runs in its first hour: which course its warmth takes, told from a log.

A sound bearing warms as a body in moving air does, fast and then ever slower, and levels. Fresh
grease is churned first and pushed aside later: its warmth has a peak. One that is too tight, or
with a ring that cannot slide, goes on rising. Limits are common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median
from typing import Literal

Shape = Literal["short", "hot", "fast", "peaked", "rising", "levelled"]

HOT = 60.0
"""Outside of a housing: stop [°C]. Common practice, no source."""

FAST, FAST_AFTER = 1.0, 30.0
"""Still rising so much [K/min] after so long [min]: stop. Common practice, no source."""

LEVEL = 0.15
"""Rising no more than this it has levelled [K/min]: some 2 K in a quarter of an hour, which is what
readings to a whole degree tell from nothing. Estimate."""

LEVELS_BY = 60.0
"""A sound run has levelled by 45 to 60 min [min]. From memory."""

USUAL_RISE = (10.0, 25.0)
"""Over the room, once levelled [K]. Common practice, no source."""

FALLEN = 2.0
"""So far below its peak it is falling back [K]: an infrared gun repeats to 1 K. Estimate."""

COOLER = 5.0
"""No bearing that runs is so much cooler than its room [K]: what a gun may be off. Estimate."""

ROOMS = (-20.0, 45.0)
"""In which somebody works [°C]: estimate."""

LONG = 15.0
"""Time over which a rate is taken at least [min]."""

FEW = 3
"""Fewer readings say nothing of a course."""


@dataclass(frozen=True, slots=True)
class Course:
    """The course that the warmth of a place took.

    Attributes
    ----------
    shape
        Too short to tell, too hot, rising too fast, fallen back from a peak, rising, levelled.
    rise
        Last reading over the room [K].
    rate
        At which it rose in the end [K/min]; None where that cannot be told.
    peak
        Minutes and degrees of the warmest, a single reading out of line left out [min, °C].
    """

    shape: Shape
    rise: float
    rate: float | None
    peak: tuple[float, float]


def course(minutes: Sequence[float], degrees: Sequence[float], room: float) -> Course:
    """Tell which course the warmth of a place takes.

    Parameters
    ----------
    minutes
        Since it began to run, rising [min]
    degrees
        What was read then [°C]
    room
        Warmth of the room [°C]

    Returns
    -------
    course
        Its shape, how far over the room it is, how fast it rises [course]

    Valid
    -----
    One run from cold at one speed, one place, one instrument; at least one reading.

    Source
    ------
    Limits: common practice, no source. That a body warms as 1 - exp(-t/tau): F. P. Incropera and
    D. P. DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed., 5.1 (from memory).

    Examples
    --------
    >>> log = [21, 26, 30, 33, 35, 36, 37, 38, 38]
    >>> course([5.0 * n for n in range(9)], log, 21).shape
    'levelled'
    >>> course([0, 10, 20, 30], [20, 31, 43, 54], 20).shape
    'fast'
    """
    pairs = sorted(zip(minutes, degrees, strict=True))
    rise, peak, rate = pairs[-1][1] - room, _peak(pairs), _rate(pairs)
    return Course(_shape(pairs, rate, peak), rise, rate, peak)


def is_of_a_run(degrees: float, room: float) -> bool:
    """Tell a warmth that a bearing may have in its first hour, and is not to be stopped at.

    Parameters
    ----------
    degrees, room
        Of the outside of its housing, and of the room [°C]

    Returns
    -------
    is_of_a_run
        Whether it is one [-]

    Valid
    -----
    The first hour from cold.

    Source
    ------
    `HOT`: common practice, no source. `COOLER`: estimate.

    Examples
    --------
    >>> is_of_a_run(37, 21), is_of_a_run(98, 21), is_of_a_run(3, 20)
    (True, False, False)
    """
    return room - COOLER <= degrees < HOT


def is_of_a_room(degrees: float) -> bool:
    """Tell the warmth of a room in which somebody works.

    Parameters
    ----------
    degrees
        Of the room [°C]

    Returns
    -------
    is_of_a_room
        Whether it is one [-]

    Valid
    -----
    Any warmth.

    Source
    ------
    `ROOMS`: estimate.

    Examples
    --------
    >>> is_of_a_room(21), is_of_a_room(70)
    (True, False)
    """
    return ROOMS[0] <= degrees <= ROOMS[1]


Log = list[tuple[float, float]]


def _shape(log: Log, rate: float | None, peak: tuple[float, float]) -> Shape:
    ran, last = log[-1]
    if max(warmth for _, warmth in log) >= HOT:
        return "hot"
    if rate is None:
        return "short"
    if rate >= FAST and ran >= FAST_AFTER:
        return "fast"
    if rate > LEVEL:
        return "rising"
    if peak[1] - last >= FALLEN:
        return "peaked"
    return "levelled" if ran >= FAST_AFTER else "short"


def _peak(log: Log) -> tuple[float, float]:
    """Find the warmest, each reading taken as the middle one of itself and its neighbours."""
    if len(log) < FEW:
        return max(log, key=lambda one: one[1])
    inner = range(1, len(log) - 1)
    told = [(log[n][0], median(warmth for _, warmth in log[n - 1 : n + 2])) for n in inner]
    return max([*told, log[-1]], key=lambda one: one[1])


def _rate(log: Log) -> float | None:
    """Slope of the straight line through the last readings, by least squares [K/min]."""
    first = sum(log[-1][0] - when >= LONG for when, _ in log) - 1
    if first < 0 or len(log) < FEW:
        return None
    tail = log[min(first, len(log) - FEW) :]
    when_0 = sum(when for when, _ in tail) / len(tail)
    warm_0 = sum(warmth for _, warmth in tail) / len(tail)
    across = sum((when - when_0) * (when - when_0) for when, _ in tail)
    return sum((when - when_0) * (warmth - warm_0) for when, warmth in tail) / across
