"""What friction holds: rings on their seats, cartridges by their O-rings."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dryfit.mechanics.materials import MATERIALS
from dryfit.mechanics.press import draw_off
from dryfit.model.parts import Bearing, Cover
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Size
from dryfit.solve.growth import Growth
from dryfit.solve.luck import Array, full
from dryfit.solve.rings import INNER, OUTER, ring
from dryfit.solve.sample import Sample
from dryfit.solve.sizes import metres

LIGHT = 2.0
"""What any ring holds on its seat, so that it stays where it was put [N]: estimate; it is asked
for only in units where some ring grips."""


@dataclass(frozen=True, slots=True)
class Grip:
    """What friction holds.

    Attributes
    ----------
    body, host
        What is held, and on or in what.
    limit
        Force that moves it [N], shape (n,).
    short
        How far it may have stopped short of its seat when it was put on [m], shape (n,).
    """

    body: str
    host: str
    limit: Array
    short: Array


def grips(part: Bearing, on: str, in_: str, grown: Growth, sample: Sample) -> list[Grip]:
    """Say which rings of a bearing grip, and how far short of its seat each may have stopped.

    Parameters
    ----------
    part
        The bearing [part]
    on, in_
        What its rings sit on and in [text]
    grown
        How its fits have come out [growth]
    sample
        Where its errors come from [sample]

    Returns
    -------
    grips
        Of its rings, each with the force that moves it [N], shape (n,)

    Valid
    -----
    Rings with a host.

    Source
    ------
    As `mechanics.press`.

    Examples
    --------
    See tests/solve/test_replay.py.

    >>> LIGHT
    2.0
    """
    found = []
    for body, host, limit, width in (
        (ring(part.name, INNER), on, grown.inner_grip, part.inner_width or part.width),
        (ring(part.name, OUTER), in_, grown.outer_grip, part.outer_width or part.width),
    ):
        if host:
            wide = metres(width) if isinstance(width, Size) else 0.0
            short = _short(part, limit, wide, sample)
            found.append(Grip(body, host, np.maximum(limit, LIGHT), short))
    return found


def _short(part: Bearing, limit: Array, width: float, sample: Sample) -> Array:
    """Say how far a ring stopped short: pressed too weakly, or fitted hot and drawn off."""
    short = full(sample.draws, 0.0)
    if part.pressed_with:
        entered = part.pressed_with.si / np.maximum(limit, 1e-9)
        short = width * np.maximum(1 - entered, 0.0)
    if part.fitted_hot_by:
        steel = MATERIALS["steel"].expansion
        most = draw_off(width, 0.0, 1.0, expansion=steel, rise=part.fitted_hot_by.si).most
        share = (1 + sample.draws.flat("parts", part.name, "drawn off")) / 2
        short = short + np.where(limit > 0, most * share, 0.0)
    return short


def sealed(rebuild: Rebuild, bodies: Sequence[str], sample: Sample, case: str) -> list[Grip]:
    """Let an O-ring hold a cartridge or cover.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    bodies
        Of one line [text]
    sample
        For its number of draws [sample]
    case
        The housing [text]

    Returns
    -------
    grips
        One for each O-ring whose force is told [N], shape (n,)

    Valid
    -----
    Any line.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> from dryfit.solve.sample import sample
    >>> sealed(Rebuild("mm"), [], sample(Rebuild("mm"), NoLuck()), "case")
    []
    """
    nought = full(sample.draws, 0.0)
    return [
        Grip(name, case, full(sample.draws, part.o_ring.si), nought)
        for name in bodies
        if isinstance(part := rebuild.parts.get(name), Cover) and part.o_ring
    ]
