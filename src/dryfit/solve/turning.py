"""How hard a shaft turns: its preloaded rows, and its seals where they are fitted."""

from collections.abc import Callable
from typing import Any

import numpy as np

from dryfit.mechanics.bearing_torque import ROLLING, SPREAD, load_torque
from dryfit.mechanics.ratings import static_factor, static_rating
from dryfit.mechanics.seals import DRAG, seal_drag
from dryfit.model.parts import Seal
from dryfit.model.rebuild import CordPull
from dryfit.quantities import Size
from dryfit.solve.benchtop import Bench
from dryfit.solve.elastic import Held
from dryfit.solve.luck import Array, full
from dryfit.solve.rings import owner
from dryfit.solve.rows import Inside
from dryfit.solve.sizes import metres


def cord_pull(bench: Bench, check: CordPull) -> tuple[Array, Array]:
    """Say what a spring balance shows on a cord round a shaft that turns steadily.

    Parameters
    ----------
    bench
        The unit [bench]
    check
        Whose shaft, and at which radius the cord is wound [check]

    Returns
    -------
    pull, shown
        The same force twice, for a balance shows what there is [N], shape (n,)

    Raises
    ------
    NothingStops
        A body of the line is not stopped.

    Valid
    -----
    Light oil, slow steady turning; a factor `SPREAD` either way for the rows.

    Source
    ------
    [ISO14179] and [HARRIS] for rows; seals are estimates.

    Examples
    --------
    >>> sorted(LOADS)
    ['angular contact ball', 'deep groove ball', 'taper roller', 'thrust ball', 'two-row ball']
    """
    still = bench.at_rest({})
    draws = bench.sample.draws
    rows = full(draws, 0.0)
    for name in {owner(c.before) for c in still.contacts if owner(c.before) == owner(c.after)}:
        torque = LOADS.get(bench.rebuild.parts[name].kind)
        if torque:
            rows = rows + torque(bench, still, name)
    luck = SPREAD ** draws.flat("checks", check.name, "friction")
    radius = metres(check.at_radius) if check.at_radius else 1.0
    pull: Array = (rows * luck + _seals(bench, check.of)) / radius
    return pull, pull


def row_force(still: Held, name: str) -> Array:
    """Add up what the rows of a bearing carry.

    Parameters
    ----------
    still
        A line at rest [held]
    name
        The bearing [text]

    Returns
    -------
    force
        Along the line, of all its rows without their signs [N], shape (n,)

    Valid
    -----
    Any line at rest.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.solve.equilibrium import Rest
    >>> from dryfit.solve.network import Network
    >>> bare = Held(Network("case", (), {}, {}), (), (), Rest(np.zeros((0, 1)), np.zeros((0, 1))))
    >>> float(row_force(bare, "front")[0])
    0.0
    """
    found = np.zeros(still.rest.forces.shape[1])
    for contact, force in zip(still.contacts, still.rest.forces, strict=True):
        if owner(contact.before) == owner(contact.after) == name:
            found = found + np.abs(force)
    return found


def _angle(still: Held, name: str) -> Array:
    """Find the contact angle of a row."""
    flat = np.zeros(still.rest.forces.shape[1])
    own = [c.law for c in still.contacts if owner(c.before) == owner(c.after) == name and c.law]
    angle: Array = own[0].arguments.get("angle", flat) if own else flat
    return angle


def _ball_rows(sort: str, factor: float) -> Callable[[Bench, Held, str], Array]:
    def torque(bench: Bench, still: Held, name: str) -> Array:
        force, angle = row_force(still, name), _angle(still, name)
        inside: Inside = bench.sample.others[("filled", name)]
        lean = np.clip(inside.ball * np.cos(angle) / inside.pitch, 0.0, 0.4)
        upright = np.minimum(angle, 1.5)
        rating = static_rating(static_factor(lean), inside.ball, inside.count, angle=upright)
        rolling = ROLLING[sort]
        found: Array = load_torque(
            factor * force,
            inside.pitch,
            static_load=force,
            rating=rating,
            factor=rolling.factor,
            power=rolling.power,
        )
        return found

    return torque


def _tapers(bench: Bench, still: Held, name: str) -> Array:
    force, angle = row_force(still, name), _angle(still, name)
    inside: Inside = bench.sample.others[("filled", name)]
    rolling = ROLLING["taper"]
    found: Array = load_torque(
        2 * 0.4 / np.tan(angle) * force,
        inside.pitch,
        static_load=force,
        rating=1.0,
        factor=rolling.factor,
        power=rolling.power,
    )
    return found


def _seals(bench: Bench, shaft: str) -> Array:
    """Add up the drag of the seals on a shaft that are fitted."""
    draws = bench.sample.draws
    total = full(draws, 0.0)
    for name, part in bench.rebuild.parts.items():
        if isinstance(part, Seal) and part.on == shaft and name not in bench.left_out:
            across = metres(part.shaft) if isinstance(part.shaft, Size) else 30e-3
            low, high = (seal_drag(across, load, mu) for load, mu in LIP)
            share = (1 + draws.flat("parts", name, "drag")) / 2
            total = total + low + (high - low) * share
    return total


LIP = tuple(zip(DRAG["lip, new"]["load"], DRAG["lip, new"]["friction"], strict=True))
"""Least and greatest lip load and friction of a new seal: estimates."""

LOADS: dict[str, Callable[[Any, Any, str], Array]] = {
    "angular contact ball": _ball_rows("angular contact", 1.0),
    "deep groove ball": _ball_rows("deep groove", 3.3),
    "two-row ball": _ball_rows("angular contact", 1.0),
    "thrust ball": _ball_rows("thrust ball", 1.0),
    "taper roller": _tapers,
}
