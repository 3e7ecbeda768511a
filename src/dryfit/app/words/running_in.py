"""Proving and running in, in words: what a course of warmth means, what is proved, and when again.

All of it is common practice, no source, but where `mechanics.running_in` names one.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from dryfit.mechanics.running_in import (
    FAST,
    FAST_AFTER,
    HOT,
    LEVELS_BY,
    USUAL_RISE,
    Course,
    Shape,
)
from dryfit.quantities.rounding import fixed

Sort = Literal["fits", "out", "unknown", "again"]

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class CourseSaid:
    """A verdict on a run: its sort, its word, and what to do."""

    sort: Sort
    word: str
    told: str


def course_words(course: Course, ran: float) -> CourseSaid:
    """Say what a course means, and what to do.

    Parameters
    ----------
    course
        As `mechanics.running_in.course` tells it.
    ran
        How long it has run [min]
    """
    if course.shape == "rising":
        return _rising(course, ran)
    if course.shape in ("levelled", "peaked") and course.rise > USUAL_RISE[1]:
        told = f"{_OVER[course.shape]} {rise_words(course.rise)} over the room; {USUAL}"
        return CourseSaid("again", "Look again", f"{told}. Think before it goes faster.")
    sort, word, told = WORDS[course.shape]
    return CourseSaid(sort, word, told.format(rise=rise_words(course.rise)))


def rise_words(rise: float, decimals: int = 0) -> str:
    """Write a difference of warmth in both scales.

    >>> rise_words(17), rise_words(0.25, 1)
    ('17 C (31 F)', '0.3 C (0.5 F)')
    """
    return f"{fixed(rise, decimals)} C ({fixed(rise * 1.8, decimals)} F)"


def scale_words(typed: Sequence[str], taken: str) -> str:
    """Ask which scale was meant by warmths that were typed without one.

    Parameters
    ----------
    typed
        As they were typed.
    taken
        The scale they were taken in: `C` or `F`.

    Examples
    --------
    >>> scale_words(["98", "99"], "C")[:63]
    'Typed without a scale and taken as C: 98, 99. A bearing is hard'
    """
    other = "F" if taken == "C" else "C"
    figures = ", ".join(dict.fromkeys(typed))
    return (
        f"Typed without a scale and taken as {taken}: {figures}. A bearing is hardly ever so in "
        f"its first hour, nor a room; was {other} meant? Then strike it out and type "
        f"{typed[0]} {other}. Until that is certain, go by what is said above."
    )


USUAL = f"{USUAL_RISE[0]:.0f} to {rise_words(USUAL_RISE[1])} is {PRACTICE}"


_OVER = {"levelled": "Levelled, but", "peaked": "It falls back, but is still"}

WORDS: dict[Shape, tuple[Sort, str, str]] = {
    "short": (
        "unknown",
        "Not known",
        f"Too little to tell a course: read every five minutes, for {FAST_AFTER:.0f} at least.",
    ),
    "hot": (
        "out",
        "Stop",
        f"{HOT:.0f} C ({HOT * 1.8 + 32:.0f} F) or more on the outside. Stop it, let it cool to the "
        "room, find out why: too tight, too much grease, no oil, or a ring that cannot slide.",
    ),
    "fast": (
        "out",
        "Stop",
        f"After {FAST_AFTER:.0f} minutes it still rises {rise_words(FAST, 1)} a minute or more. "
        "Stop it: too tight, or a ring that cannot slide. Grease would fall back.",
    ),
    "peaked": (
        "fits",
        "Fits",
        "Leave it. It rose, peaked and falls back: usual for fresh grease. Go on, do not set it "
        "again. If it was slowed or stopped meanwhile, that tells nothing.",
    ),
    "levelled": (
        "fits",
        "Fits",
        f"Leave it. Levelled, {{rise}} over the room; {USUAL}. Log on to the hour.",
    ),
}
"""By shape of course: sort of verdict, its word, what to do."""


def _rising(course: Course, ran: float) -> CourseSaid:
    rate = f"Still rising: {rise_words(course.rate or 0.0, 1)} a minute"
    if ran < LEVELS_BY:
        told = f"{rate}. A sound run levels by 45 to {LEVELS_BY:.0f} minutes. Read on."
        return CourseSaid("unknown", "Not yet", told)
    told = f"{rate} after {ran:.0f} minutes. Let it cool, then look for what is tight."
    return CourseSaid("again", "Look again", told)


@dataclass(frozen=True, slots=True)
class Proof:
    """Something that is proved or looked at again: when, what to do, and what may hurt.

    Attributes
    ----------
    key
        Its name in the journal.
    title, words
        What it is, and how it is done.
    care
        The usual caution; empty where there is none.
    """

    key: str
    title: str
    words: tuple[str, ...]
    care: str = ""


BEFORE = (
    Proof(
        "turns by hand",
        "Turn it by hand",
        (
            "Ten turns each way: even, no tight spot, no click.",
            "Pull it round by cord or torque wrench. Beside what it read in the dry build it may "
            "only be more by the drag of its seals.",
        ),
        "Lock off the drive. Fingers, hair and the free end of the cord clear of teeth.",
    ),
    Proof(
        "static fill",
        "Leak: filled and standing",
        (
            "Wipe every joint, seal and plug dry; chalk or talc them.",
            "Fill to the mark. Look after an hour, and after a night.",
        ),
        "Oil on a floor is slippery: tray below, rags away from what is hot.",
    ),
    Proof(
        "low air",
        "Leak: low air, if at all",
        (
            "Breather plugged, soap water on the joints, no more than 0.1 bar (1.5 psi), by a "
            "regulator with a relief valve.",
            "Take the plug out of the breather again.",
        ),
        "At most 0.1 bar and a relief that opens there: on a cover 300 mm square that is already "
        "0.9 kN. Never with a sight glass in it, never from the line. Stand aside.",
    ),
    Proof(
        "oil level",
        "Oil or grease",
        (
            "To the mark, standing level; the right sort, safe for bronze where there is bronze.",
            "Breather open, drain plug tight, magnet clean.",
        ),
    ),
    Proof(
        "first start",
        "First start",
        (
            "Slowest speed first, seconds only: which way round, does it knock, does it throw oil?",
            "Then a quarter of an hour at each speed; faster only once the warmth steadies.",
        ),
        "Guards on, nobody in line with what turns, stop within reach, sleeves and hair tied. "
        "Local rules and a competent person come first.",
    ),
)
"""What is proved before it runs."""

LATER = (
    ("after the first hour, warm", "Bolts and plugs, each once round; wipe and look for oil."),
    ("after 8 hours", "Drain or look at the first oil: fine grey is usual, flakes are not."),
    ("after a week", "Bolts again. The float or lash again, cold, as it was read in the build."),
    ("after 3 months", "Float or lash, oil, seals; then as the machine's own plan says."),
)
"""What is looked at again, and when."""
