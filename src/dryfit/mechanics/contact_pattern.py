"""What a contact pattern says about where the gears stand, in signs and words only.

Signs: +1 is away from the crossing point, -1 towards it. Patterns are those on the wheel, the
gear with more teeth; its toe is the small end, high is at the tips of its teeth. Nothing here
says how far: that takes another blue.
"""

from collections.abc import Collection
from typing import NamedTuple

import numpy as np

from dryfit.mechanics.bevel_lash import cone_movement
from dryfit.mechanics.formula import Number, Result, formula


class PatternCorrection(NamedTuple):
    """Which way to move each member for a pattern, and which one first."""

    wheel: float
    pinion: float
    first: str
    cause: str


PATTERNS: dict[str, PatternCorrection] = {
    "toe": PatternCorrection(1.0, -1.0, "wheel", "wheel too near, little lash"),
    "heel": PatternCorrection(-1.0, 1.0, "wheel", "wheel too far out, much lash"),
    "high": PatternCorrection(1.0, -1.0, "pinion", "pinion too far out"),
    "low": PatternCorrection(-1.0, 1.0, "pinion", "pinion too near"),
    "centred": PatternCorrection(0.0, 0.0, "", "both stand right"),
}
"""Correction for each pattern on the wheel: the first member, then the other restores lash."""

WORM_PATTERNS: dict[str, float] = {"entering": 1.0, "leaving": 0.0, "centred": 0.0}
"""Move of a worm wheel along its axis for each side of its teeth that the blue shows on."""


@formula()
def pattern_correction(pattern: str) -> PatternCorrection:
    """Which way to shift the members of a bevel pair for a pattern on the wheel.

    Parameters
    ----------
    pattern
        One of `PATTERNS` [text]

    Returns
    -------
    wheel, pinion
        +1 away from the crossing point, -1 towards it, 0 stays [-], [-]
    first
        The member that moves the pattern; the other one then restores the lash [text]
    cause
        What the pattern shows [text]

    Valid
    -----
    Straight bevels on either flank; spiral bevels on the drive side. Float and preload first:
    a shaft that moves has no pattern.

    Source
    ------
    [TM-653] p. 4-181; [TM-306] p. 8-42.

    Examples
    --------
    >>> pattern_correction("high").pinion
    -1.0
    """
    _known(pattern, PATTERNS)
    return PATTERNS[pattern]


class PatternSigns(NamedTuple):
    """Signs of what shifts do to lash and pattern."""

    lash: Result
    lengthwise: Result
    height: Result


@formula("0 < wheel_cone_angle < pi", "0 < pinion_cone_angle < pi")
def expected_pattern(
    wheel_shift: Number,
    pinion_shift: Number,
    *,
    wheel_cone_angle: Number,
    pinion_cone_angle: Number,
) -> PatternSigns:
    """What shifts from their right places do to lash and pattern on the wheel.

    The opening of the pitch cones brings lash and moves the pattern along the tooth; the slide
    along the pitch line moves it up or down the flank.

    Parameters
    ----------
    wheel_shift, pinion_shift
        Along each axis, away from the crossing point [m], [m]
    wheel_cone_angle, pinion_cone_angle
        Pitch angles [rad], [rad]

    Returns
    -------
    lash
        +1 more, -1 less [-]
    lengthwise
        +1 towards the heel, -1 towards the toe [-]
    height
        +1 towards the tips of the wheel, -1 towards its roots [-]

    Valid
    -----
    Straight bevels. Without crown the pattern only leaves the middle at all along the tooth;
    with crown the height moves more than the length. Signs, no sizes.

    Source
    ------
    Signs of `bevel_lash.cone_movement`; they agree with [TM-653] and [TM-306], and with our own
    search for first contact on whole flanks.

    Examples
    --------
    The pinion of a 1 : 2 pair too far out, its wheel too near by half of that:

    >>> expected_pattern(
    ...     -50e-6, 110e-6, wheel_cone_angle=np.arctan(2.0), pinion_cone_angle=np.arctan(0.5)
    ... ).height
    1.0
    """
    moved = cone_movement(
        pinion_shift,
        wheel_shift,
        cone_angle=pinion_cone_angle,
        mate_cone_angle=wheel_cone_angle,
    )
    apart = np.sign(moved.separation)
    return PatternSigns(apart, apart, np.sign(moved.flushness))


@formula()
def worm_wheel_correction(side: str) -> float:
    """Which way to move a worm wheel along its axis for the side its blue shows on.

    Parameters
    ----------
    side
        One of `WORM_PATTERNS`: where the worm's thread comes in, or goes out [text]

    Returns
    -------
    move
        +1 towards the entering side, so that its edge leaves the middle of the worm; 0 stays [-]

    Valid
    -----
    A drive that turns one way; one that turns both ways is centred. Lash does not change.

    Source
    ------
    [TM-372] para 6-10.

    Examples
    --------
    >>> worm_wheel_correction("entering")
    1.0
    """
    _known(side, WORM_PATTERNS)
    return WORM_PATTERNS[side]


def _known(word: str, table: Collection[str]) -> None:
    """Say what there is where a word is not known."""
    if word not in table:
        raise ValueError(f"no pattern '{word}'; there are: {', '.join(table)}")
