"""Routes gone on true units as the sheet says them, and what then comes true.

Fit, read with the instrument's error, work the pack out with a pencil, take the nearest from the
drawer, look at the finished unit. None of it asks the routes of `dryfit.ask` how they did it.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations_with_replacement

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.instruments import USUAL_INSTRUMENT
from dryfit.ask.route import Route
from dryfit.ask.targets import Target
from dryfit.bench.readings import readings
from dryfit.bench.wrong_units import Lot
from dryfit.model.parts import Nut
from dryfit.model.rebuild import Rebuild, State
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import Array, Flags
from dryfit.solve.sizes import gauge, making_error
from dryfit.solve.threads import pitch

Bands = Mapping[str, tuple[float, float]]


def with_state_of(rebuild: Rebuild, route: Route) -> Rebuild:
    """Add the state in which a route is read."""
    check = route.check
    if check is None or check.state in ("built", *rebuild.states):
        return rebuild
    state = State(check.state, left_out=route.left_out)
    return replace(rebuild, states={**rebuild.states, state.name: state})


def drawer(rebuild: Rebuild, part: str) -> Array:
    """List all thicknesses of up to five pieces from the drawer, or of one to choose [m]."""
    setting = rebuild.settings[part]
    stock = [float(s.size.value) for s in setting.made_from]
    sums = {
        round(sum(pieces), 6)
        for count in range(6)
        for pieces in combinations_with_replacement(stock, count)
    }
    single = {float(size.value) for size in setting.one_of}
    return np.array(sorted(single or sums)) * 1e-3


def nearest(made: Array, wished: Array) -> Array:
    """Take the nearest from the drawer."""
    at = np.clip(np.searchsorted(made, wished), 1, len(made) - 1)
    low, high = made[at - 1], made[at]
    return np.where(wished - low <= high - wished, low, high)


def pack_of(units: Asking, part: str, route: Route, others: Packs) -> Array:
    """Go a route on true units that have its state, and say which pack each gets [m]."""
    if isinstance(units.rebuild.parts[part], Nut):
        return float_of(units, part, route, others)
    if route.check is None:
        assert route.pack is not None
        return np.full(units.count, route.pack.thickness)
    check = route.check
    trials = route.trials or (route.trial,)
    each = []
    for n, trial in enumerate(trials):
        one = replace(check, name=f"{check.name} {n}") if len(trials) > 1 else check
        fitted = {**others, part: as_tried(units, part, trial, n)}
        shown = readings(units, one, fitted, by=USUAL_INSTRUMENT[check.kind])
        each.append(shown + (trial - trials[0]) / route.sign)
    wished = trials[0] + route.offset + route.sign * np.mean(each, axis=0)
    return nearest(drawer(units.rebuild, part), wished)


def float_of(units: Asking, part: str, route: Route, others: Packs) -> Array:
    """Set a nut: read a float, turn it by what is too much; or read three and turn by marks alone.

    A mark is set within 2 degrees either way. Given is what is set, the error of the dial left
    out that is added to all that is set.
    """
    assert route.pack is not None
    assert route.check is not None
    nut, luck, check = units.rebuild.parts[part], units.drawn.draws, route.check
    by = gauge(units.rebuild, units.rebuild.settings[part].set_by)
    left_out = making_error(luck, part, units.rebuild.settings[part], by)
    off = 2 / 360 * (pitch(nut) or 0.0) if isinstance(nut, Nut) else 0.0
    told = Asking(units.rebuild, 1)
    shows = [
        float(told.as_typed(check, {**others, part: at}).shown[0])
        for at in (route.pack.thickness, 0.08e-3)
    ]
    if not route.trials:
        read = readings(units, check, {**others, part: 0.08e-3 - left_out}, by=check.by or "")
        by_dial: Array = 0.08e-3 + shows[0] - read - left_out
        return by_dial
    over = []
    for n, at in enumerate(route.trials):
        stands = at + off * luck.flat("bench", f"mark {n}")
        one = replace(check, name=f"{check.name} {n}")
        read = readings(units, one, {**others, part: stands - left_out}, by=check.by or "")
        over.append(read - (shows[1] - 0.08e-3) - at)
    last = off * luck.flat("bench", "last mark")
    walked: Array = route.pack.thickness - np.mean(over, axis=0) + last - left_out
    return walked


def as_tried(units: Asking, part: str, trial: float, turn: int) -> Array:
    """Give a pack that is tried an error of its own instead of that of the pack made after it."""
    luck, by = units.drawn.draws, gauge(units.rebuild, "micrometer")
    own = making_error(luck, f"tried on the bench {turn}", None, by if trial else None)
    return trial + own - making_error(luck, part, units.rebuild.settings[part], by)


def right(units: Asking, wanted: Iterable[Target], packs: Packs) -> Flags:
    """Tell which true units are as wanted."""
    good = np.ones(units.count, dtype=np.bool_)
    for target in wanted:
        good &= target.holds(units.true(target.need, packs).true)
    return good


def found(units: Asking, bands: Bands, packs: Packs) -> Flags:
    """Tell which units some check shows outside its band; what nothing stops shows itself."""
    seen = np.zeros(units.count, dtype=np.bool_)
    for name, (low, high) in bands.items():
        check = units.rebuild.checks[name]
        try:
            shown = readings(units, check, packs, by=USUAL_INSTRUMENT[check.kind])
        except NoAnswer:
            return np.ones(units.count, dtype=np.bool_)
        seen |= (shown < low) | (shown > high)
    return seen


@dataclass(frozen=True)
class Closed:
    """Units that were closed, one flag each.

    Attributes
    ----------
    meant
        Right, were nothing wrong with any.
    unread
        Right as they stand.
    read
        Right where the checks are read first, and what they show is put right.
    found
        Shown to be wrong by a check.
    """

    meant: Flags
    unread: Flags
    read: Flags
    found: Flags


def closed(
    lot: Lot, wanted: Sequence[Target], packs: Packs, put_right: Packs, bands: Bands
) -> Closed:
    """Close units with the packs they have, or with those they get once they are put right."""
    meant = right(lot.meant, wanted, put_right)
    if lot.wrong is None:
        return Closed(meant, meant, meant, found(lot.units, bands, packs))
    try:
        unread = right(lot.units, wanted, packs)
    except NoAnswer:  # nothing stops a part: nobody closes that
        return Closed(meant, np.zeros_like(meant), meant, np.ones_like(meant))
    shown = found(lot.units, bands, packs)
    return Closed(meant, unread, np.where(shown, meant, unread), shown)
