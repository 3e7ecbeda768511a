"""What fits and heat do to the tracks of a bearing in a state."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from dryfit.mechanics.fits import inner_track_growth, outer_track_growth, press_pressure
from dryfit.mechanics.materials import MATERIALS, Material
from dryfit.mechanics.press import FRICTION, slip_force
from dryfit.mechanics.thermal import length_change, warm_interference
from dryfit.mechanics.tolerances import bearing_bore_limits, bearing_outside_limits
from dryfit.model.bearing_rules import FIT
from dryfit.model.parts import Bearing
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Size
from dryfit.solve.bodies import BODIES
from dryfit.solve.luck import Array, Draws, full
from dryfit.solve.rings import INNER, OUTER
from dryfit.solve.roosts import seat_of
from dryfit.solve.sizes import gauge, metres, true_size

TRACK = 0.205
"""Wall of a ring at its track over outside less bore: estimate, half of what the balls leave."""

HOUSING = 1.6
"""Outside over inside of the iron round a pocket: estimate."""


@dataclass(frozen=True, slots=True)
class Growth:
    """What fits and heat do to a bearing, shape (n,) each.

    Attributes
    ----------
    inner, outer
        Growth of its tracks on the diameter [m].
    inner_grip, outer_grip
        Force along the line that moves a ring on its seat or in its pocket [N].
    inner_pressure, outer_pressure
        Between a ring and its seat or pocket [Pa].
    """

    inner: Array
    outer: Array
    inner_grip: Array
    outer_grip: Array
    inner_pressure: Array
    outer_pressure: Array


@dataclass(frozen=True, slots=True)
class Around:
    """What a bearing sits on and in, and how warm that is.

    Attributes
    ----------
    on, in_
        Names of the parts; empty where the rebuild does not say.
    rises
        How much warmer than the room each part is [K], shape (n,).
    """

    on: str
    in_: str
    rises: Mapping[str, Array]


def growth(rebuild: Rebuild, part: Bearing, around: Around, draws: Draws) -> Growth:
    """Say by how much the tracks of a bearing have grown by its fits and by heat.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    part
        The bearing [part]
    around
        What it sits on and in [parts]
    draws
        Where the errors come from [draws]

    Returns
    -------
    growth
        Of inner and outer track on their diameters [m], shape (n,) each

    Valid
    -----
    Rings of steel. A seat or pocket that is not told is that of the land under the ring, if this
    is known for certain and was measured; else it is taken for a sliding fit. A bearing is taken
    for one of the Normal class.

    Source
    ------
    [SHIGLEY] eq. 3-56 for the fits; [UGURAL] for expansion.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> growth(Rebuild("mm"), Bearing("front", "taper roller"), Around("", "", {}), NoLuck()).inner
    array([0.])
    """
    if not isinstance(part.bore, Size) or not isinstance(part.outside, Size):
        nought = full(draws, 0.0)
        return Growth(nought, nought, nought, nought, nought, nought)
    bore, outside = metres(part.bore), metres(part.outside)
    wall = TRACK * (outside - bore)
    inside, across = bore + wall, outside - wall
    on, in_ = (_metal(rebuild, name) for name in (around.on, around.in_))
    warm_on, warm_in = (_rise(around, name, draws) for name in (around.on, around.in_))
    steel = _expansion(draws, "steel", MATERIALS["steel"])
    seat = warm_interference(
        tight(rebuild, part, draws, "seat", around.on),
        bore,
        shaft_expansion=_expansion(draws, *on),
        shaft_rise=warm_on,
        hub_expansion=steel,
        hub_rise=warm_on,
    )
    pocket = warm_interference(
        tight(rebuild, part, draws, "pocket", around.in_),
        outside,
        shaft_expansion=steel,
        shaft_rise=warm_in,
        hub_expansion=_expansion(draws, *in_),
        hub_rise=warm_in,
    )
    pressed_in = outer_track_growth(
        pocket,
        outside,
        across,
        housing_outside=HOUSING * outside,
        housing_modulus=in_[1].modulus,
        housing_poisson=in_[1].poisson,
    )
    pressed_on = inner_track_growth(seat, bore, inside, shaft_modulus=on[1].modulus)
    held_on = press_pressure(np.maximum(seat, 0.0), bore, inside, shaft_modulus=on[1].modulus)
    held_in = press_pressure(
        np.maximum(pocket, 0.0),
        outside,
        HOUSING * outside,
        shaft_bore=across,
        hub_modulus=in_[1].modulus,
        hub_poisson=in_[1].poisson,
    )
    return Growth(
        pressed_on + length_change(across, steel, warm_on),
        pressed_in + length_change(across, steel, warm_in),
        _grip(held_on, bore, part, "inner_width", draws),
        _grip(held_in, outside, part, "outer_width", draws),
        held_on,
        held_in,
    )


def _grip(pressure: Array, diameter: float, part: Bearing, field: str, draws: Draws) -> Array:
    """Draw the force that moves a ring held by a pressure."""
    size = getattr(part, field) or part.width
    width = metres(size) if isinstance(size, Size) else 0.0
    slide = FRICTION["slide"]
    middle, half = (slide.low + slide.high) / 2, (slide.high - slide.low) / 2
    friction = middle + half * draws.flat("parts", part.name, field, "friction")
    grip: Array = slip_force(pressure, diameter, max(width, 0.0), friction=friction)
    return grip


def tight(rebuild: Rebuild, part: Bearing, draws: Draws, field: str, host: str) -> Array:
    """Draw the interference of a fit, from the size read and the bearing's own tolerance.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    part
        The bearing [part]
    draws
        Where the errors come from [draws]
    field
        seat or pocket [text]
    host
        What the ring sits on or in [text]

    Returns
    -------
    tight
        On the diameter, minus where it is loose; 0 where nothing was measured [m], shape (n,)

    Valid
    -----
    A bearing whose bore or outside is known; else it is taken as nothing.

    Source
    ------
    Tolerance of the Normal class: see `mechanics.tolerances`.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> float(tight(Rebuild("mm"), Bearing("front", "taper roller"), NoLuck(), "seat", "")[0])
    0.0
    """
    size, place = _read(rebuild, part, field, host)
    by = gauge(rebuild, size.instrument) if isinstance(size, Size) else None
    if by is None or not isinstance(size, Size):
        return full(draws, 0.0)
    read = true_size(draws, place, size, by)
    seat = field == "seat"
    ring = part.bore if seat else part.outside
    nominal = metres(ring) if isinstance(ring, Size) else 0.0
    allowed = bearing_bore_limits(nominal) if seat else bearing_outside_limits(nominal)
    middle, half = (allowed.upper + allowed.lower) / 2, (allowed.upper - allowed.lower) / 2
    own: Array = nominal + middle + half * draws.flat("parts", part.name, field, "ring")
    return read - own if seat else own - read


def measured(rebuild: Rebuild, part: Bearing, field: str, host: str) -> bool:
    """Tell whether a fit was measured.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    part
        The bearing [part]
    field
        seat or pocket [text]
    host
        What the ring sits on or in [text]

    Returns
    -------
    measured
        Whether its seat or pocket, or the land there, was read [-]

    Valid
    -----
    Any bearing.

    Source
    ------
    None needed.

    Examples
    --------
    >>> measured(Rebuild("mm"), Bearing("front", "taper roller"), "seat", "")
    False
    """
    return _read(rebuild, part, field, host)[0] is not None


def _read(
    rebuild: Rebuild, part: Bearing, field: str, host: str
) -> tuple[Size | None, tuple[str, ...]]:
    """Give what a seat or pocket was read to be, and where that stands; its land's size if not."""
    typed = part.seat if field == "seat" else part.pocket
    if isinstance(typed, Size):
        return typed, ("parts", part.name, field)
    ring, own = (INNER, part.bore) if field == "seat" else (OUTER, part.outside)
    land = seat_of(rebuild, part.name, ring, host)
    if land is None or not isinstance(land.size, Size) or not isinstance(own, Size):
        return None, ()
    measured = land.size.instrument is not None or land.size.plus is not None
    if not measured or abs(land.size.value - own.value) > FIT:
        return None, ()
    return land.size, tuple(str(key) for key in land.place)


def _metal(rebuild: Rebuild, name: str) -> tuple[str, Material]:
    part = rebuild.parts.get(name)
    named = (part.material or BODIES[part.kind].material) if part else None
    metal = named if named in MATERIALS else "steel"
    return metal, MATERIALS[metal]


def _expansion(draws: Draws, name: str, metal: Material) -> Array:
    return metal.expansion + metal.expansion_spread * draws.flat("materials", name)


def _rise(around: Around, name: str, draws: Draws) -> Array:
    found = around.rises.get(name)
    return full(draws, 0.0) if found is None else found
