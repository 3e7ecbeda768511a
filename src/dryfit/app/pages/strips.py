"""Small pictures within a line of a page: a chance as a bar, a pack, a band over its axis.

All sizes are those of the picture itself, written as SVG has them.
"""

from collections.abc import Sequence

from dryfit.app.pages.set_view import Layer, Rise, Stack, Strip, Tick
from dryfit.draw.plot_ticks import figure, multiples, spread, step_of
from dryfit.draw.svg import number

WIDE = 200.0
"""Of the bar of a chance: 2 for one in a hundred."""

LEFT, RIGHT = 16.0, 224.0
"""Where the axis of a strip begins and ends."""

MOST_TICKS = 5

ROOM = 44.0
"""Height of the picture of a pack that is as thick as the thickest."""

THINNEST = 2.0
"""A piece is drawn no thinner."""


def rise(was: float, then: float) -> Rise:
    """Draw a chance and what an act makes of it.

    Examples
    --------
    >>> rise(0.56, 0.78)
    Rise(was='112', at='112', gain='44')
    """
    low, high = sorted((was, then))
    return Rise(number(low * WIDE), number(low * WIDE), number((high - low) * WIDE))


def stack(pieces: Sequence[float], told: str) -> Stack:
    """Draw the pieces of a pack, the thickest at the bottom, to one scale.

    Parameters
    ----------
    pieces
        Their thickness [mm]
    told
        The same in words.
    """
    scale = ROOM / max(sum(pieces), 1e-9)
    layers, top = [], 0.0
    for place, thick in enumerate(sorted(pieces)):
        high = max(thick * scale, THINNEST)
        inset = 2.0 * (place % 2)
        layers.append(Layer(number(top), number(high), number(4 + inset), number(60 - 2 * inset)))
        top += high + 1.5
    return Stack(tuple(layers), number(top + 1.0), told)


def strip(
    wanted: tuple[float | None, float | None],
    expected: tuple[float, float, float],
    unit: str,
    told: str,
) -> Strip:
    """Set what is wanted and what is expected over one axis.

    Parameters
    ----------
    wanted
        Least and most, None for an open side [-]
    expected
        Low end, as typed, high end [-]
    unit
        Of both.
    told
        The same in words.
    """
    low, typed, high = expected
    limits = [value for value in wanted if value is not None]
    span = spread([low, typed, high, *limits], nought=_near_nought(low, high, limits), room=0.12)
    step = step_of(*span, MOST_TICKS)

    def at(value: float) -> float:
        return LEFT + (value - span[0]) / (span[1] - span[0]) * (RIGHT - LEFT)

    ticks = tuple(
        Tick(number(at(count * step)), figure(count, step)) for count in multiples(*span, step)
    )
    hatched = None
    if limits:
        begin = LEFT if wanted[0] is None else at(wanted[0])
        end = RIGHT if wanted[1] is None else at(wanted[1])
        hatched = number(begin), number(end - begin)
    ends = tuple(number(at(limit)) for limit in limits)
    return Strip(
        ticks, hatched, ends, number(at(low)), number(at(typed)), number(at(high)), unit, told
    )


def _near_nought(low: float, high: float, limits: Sequence[float]) -> bool:
    """Tell whether nought lies so near that the axis had better begin there."""
    least, most = min([low, *limits]), max([high, *limits])
    return 0 <= least < 2 * (most - least)
