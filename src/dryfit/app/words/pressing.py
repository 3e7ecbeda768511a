"""Rings that go home tight, in words: who takes the load, how hard, how warm, what to mind."""

from dryfit.app.usecases.ordering.presses import PressAnswer
from dryfit.mechanics.press import HOTTEST_FILLED_RING, HOTTEST_PLAIN_RING, HOTTEST_RING
from dryfit.quantities.rounding import two_figures
from dryfit.solve.rings import INNER

OPEN, FILLED = HOTTEST_RING - 273.15, HOTTEST_FILLED_RING - 273.15
"""How warm a ring may be made, plain and open, or sealed, greased or with a plastic cage [C]."""

PLAIN = HOTTEST_PLAIN_RING - 273.15
"""How warm a ring may be made that is not of a bearing [C]."""

GUARD = f"sealed, greased or with a plastic cage it may have {FILLED:.0f} C at most"

WHY = ": it is sealed, greased for life or has a plastic cage"

HOT = "gloves; hold it home until it is cold, else it draws off"


NOT_BY_HEAT = "not by heat alone"

MADE = "make a sleeve that gets past, such as one in two halves"

TOO_HOT = f"{NOT_BY_HEAT}: it would take more than {PLAIN:.0f} C"


def press_words(one: PressAnswer) -> tuple[str, ...]:
    """Say how a tight ring goes home, sentence by sentence.

    >>> ring = PressAnswer("front", "inner ring", "shaft", "balls", 1827, 4134, 75)
    >>> for told in press_words(ring):
    ...     print(told)
    'front' grips 'shaft': push on its inner ring, never through the balls
    press with about 1800 N; from 4100 N on it is askew or seizes: stop
    or warm it to about 75 C: gloves; hold it home until it is cold, else it draws off
    """
    grips = f"'{one.bearing}' grips '{one.host}'"
    if one.sprung:
        return (f"{grips}, and a spring is to move it: make it a sliding fit before it goes in",)
    if one.sleeve_shut:
        return _no_sleeve(one)
    most = f"from {two_figures(one.most_n)} N on it is askew or seizes: stop"
    push = f"push on its {one.ring}, never through the {one.rolls}"
    return (
        f"{grips}: {push if one.rolls else 'push it square, over its whole face'}",
        f"press with about {two_figures(one.force_n)} N; {most}",
        _warm(one),
    )


def _no_sleeve(one: PressAnswer) -> tuple[str, ...]:
    """Say that a ring cannot be pressed by its own face, and what to do instead.

    >>> past = ("gear",)
    >>> ring = PressAnswer("rear", "outer ring", "case", "balls", 9, 20, 60, sleeve_shut=past)
    >>> for told in _no_sleeve(ring):
    ...     print(told)
    'rear' grips 'case': do not press it, no sleeve gets to its outer ring past 'gear'
    pushed by anything else it would go home through its balls
    warm 'case' to about 60 C, the bearing cold: gloves; hold it home until it is cold, else it \
draws off
    """
    past = " and ".join(f"'{name}'" for name in one.sleeve_shut)
    face = f"its {one.ring}" if one.rolls else "its face"
    grips = f"'{one.bearing}' grips '{one.host}'"
    through = f"pushed by anything else it would go home through its {one.rolls}"
    warm = _warm(one).removeprefix("or").lstrip(", ")
    return (
        f"{grips}: do not press it, no sleeve gets to {face} past {past}",
        *([through] if one.rolls else []),
        f"{warm}; {MADE}" if warm.startswith(NOT_BY_HEAT) else warm,
    )


def _warm(one: PressAnswer) -> str:
    """Say how warm it has to be to slip on, and whether it may."""
    degrees = f"{one.warm_c:.0f} C"
    if not one.rolls:
        return f"or warm it to about {degrees}: {HOT}" if one.warm_c <= PLAIN else TOO_HOT
    inner = one.ring == INNER
    most, why = (FILLED, WHY) if one.filled and inner else (OPEN, "")
    if one.warm_c > most:
        return f"{NOT_BY_HEAT}: it would take {degrees}, and {most:.0f} C is the most{why}"
    if not inner:
        return f"or warm '{one.host}' to about {degrees}, the bearing cold: {HOT}"
    if one.warm_c > FILLED and one.filled is None:
        return f"or, plain and open, warm it to about {degrees} ({GUARD}): {HOT}"
    return f"or warm it to about {degrees}: {HOT}"
