"""Benches that are otherwise than the document tells, what is told of each demo, what comes true.

Reading order: the benches, the demos that have a chance, what is told of one, and what comes of
it on a bench.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np
from tests.bench.gone import Bands, Closed, closed, pack_of, right, with_state_of
from tests.bench.test_readings import Words, opened, packs

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.closing import close_up
from dryfit.ask.instruments import USUAL_INSTRUMENT
from dryfit.ask.looks import Looks
from dryfit.ask.route import Route
from dryfit.ask.settings import chance
from dryfit.ask.settling import made_unsettled
from dryfit.ask.targets import Target
from dryfit.ask.usual import OUTSIDE, with_the_usual
from dryfit.ask.variants import PRIORS, Variant
from dryfit.bench.readings import bands, readings
from dryfit.bench.wrong_units import Lot, WorseGauges, lots, priors_with
from dryfit.mechanics.instruments import SHARED
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import Array, Flags

DRAWS, UNITS, SEED = 4_000, 4_000, 77

OPTIMISTIC, PESSIMISTIC = 0.10, 0.25

COVER = ("thickness: 10", "thickness: 7.94")
"""A cover twice as soft, as the cube of its thickness."""

MODELS: dict[str, dict[str, Words]] = {
    "": {},
    "steeper": {
        "bevel-box": (COVER, ("angle: 25 deg", "angle: 28 deg")),
        "headstock": (("angle: 14 deg", "angle: 17 deg"),),
        "quill": (("angle: 25 deg", "angle: 28 deg"),),
    },
    "flatter": {
        "bevel-box": (COVER, ("angle: 25 deg", "angle: 22 deg")),
        "headstock": (("angle: 14 deg", "angle: 11 deg"),),
        "quill": (("angle: 25 deg", "angle: 22 deg"),),
    },
}
"""Softer covers, and contact angles 3 degrees off either way; the other demos have neither."""


@dataclass(frozen=True)
class Bench:
    """How true units differ from what the document tells.

    Attributes
    ----------
    model
        Which of `MODELS` they are made by.
    shared
        How many times as large what all readings of an instrument share is [-].
    wrong
        Share of units with something wrong that no eye found [-].
    """

    model: str = ""
    shared: float = 1.0
    wrong: float = 0.0


WHOLE, TWICE = 1 / SHARED, 2.0
"""What readings of an instrument share: its whole limit; twice what is told."""

WRONG = 0.20
OTHERWISE = Bench("steeper", WHOLE, WRONG)
"""All of it at once."""

DEMOS_WITH_A_CHANCE: dict[str, tuple[str, Words]] = {
    "feed-box": ("feed-box", ()),
    "lay-shaft": ("lay-shaft", ()),
    "bevel-box": ("bevel-box", ()),
    "quill": ("quill", ()),
    "headstock, set to 0.010": ("headstock", (("set to: 0.060", "set to: 0.010"),)),
    "bench-drill, new spring": (
        "bench-drill",
        (("free: 3.10, force: 140 N, at: 1.95", "free: 4.20, force: 140 N, at: 3.05"),),
    ),
}
"""As they stand headstock and bench drill are surely not as wanted."""


@dataclass(frozen=True)
class Told:
    """What is told of a demo before it is closed.

    Attributes
    ----------
    wanted
        What is wanted.
    in_hand
        Thickness of each setting for which readings are told [m].
    routes
        The recommended route to each.
    by_sizes
        The first figure [-].
    usual, second
        The second, by the table of priors and with so many things wrong as on the bench [-].
    limits
        By check, what all but 1 in 100 readings lie within [m] or [N].
    as_made
        Settings made by a float that was read before the rows had settled.
    """

    wanted: tuple[Target, ...]
    in_hand: dict[str, float]
    routes: dict[str, Route]
    by_sizes: float
    usual: float
    second: float
    limits: Bands
    as_made: tuple[Variant, ...]


@cache
def told(case: str) -> Told:
    """Ask all that is told of a demo."""
    asking = Asking(opened(*DEMOS_WITH_A_CHANCE[case]), DRAWS)
    closing = close_up(asking)
    in_hand = {one.part: one.in_hand or 0.0 for one in closing.settings}
    gone = {one.part: one.route for one in closing.settings if one.route is not None}
    made = {part: route.made for part, route in gone.items() if route.made is not None}
    meant: Packs = {**in_hand, **made}
    wanted = closing.targets
    by_sizes = chance(asking, wanted, meant) if closing.chance is None else closing.chance
    open_ = {one.part: one.route for one in closing.settings if one.fitted is None and one.route}
    each = (made_unsettled(asking, part, route) for part, route in open_.items())
    as_made = tuple(variant for variant in each if variant)
    priors = priors_with(asking.rebuild, WRONG, as_made)
    looks = Looks(asking, in_hand, meant, as_made)
    usual, second = (with_the_usual(looks, wanted, by_sizes, p).chance for p in (PRIORS, priors))
    limits = _limits(asking, meant)
    return Told(wanted, in_hand, gone, by_sizes, usual, second, limits, as_made)


def _limits(asking: Asking, packs: Packs) -> Bands:
    limits = {}
    for name, check in asking.rebuild.checks.items():
        shown = readings(asking, check, packs, by=USUAL_INSTRUMENT[check.kind])
        low, high = (float(q) for q in np.quantile(shown, OUTSIDE))
        limits[name] = (low, high)
    return limits


@dataclass(frozen=True)
class Came:
    """What came true on a bench: shares of all units, and of those with something wrong [-]."""

    meant: float
    unread: float
    read: float
    found: float


def came(
    case: str, bench: Bench, *, early: bool = False, units: int = UNITS, seed: int = SEED
) -> Came:
    """Close true units by the recommended routes.

    What is wrong comes in as the unit is put together for the last time; `early`, it is there
    when the readings of the routes are taken, which are taken again where a check shows it.
    """
    each = [_closed(case, lot, early) for lot in _lots(case, bench, units, seed)]
    meant, unread, read = (
        float(np.mean(np.concatenate(flags)))
        for flags in zip(*((c.meant, c.unread, c.read) for c, _ in each), strict=True)
    )
    wrong = [c.found for c, is_wrong in each if is_wrong]
    return Came(meant, unread, read, float(np.mean(np.concatenate(wrong))) if wrong else 0.0)


def _lots(case: str, bench: Bench, units: int, seed: int) -> Iterator[Lot]:
    demo, words = DEMOS_WITH_A_CHANCE[case]
    rebuild = opened(demo, words + MODELS[bench.model].get(demo, ()))
    for route in told(case).routes.values():
        rebuild = with_state_of(rebuild, route)
    as_made = told(case).as_made
    priors = priors_with(rebuild, bench.wrong, as_made)
    return lots(rebuild, WorseGauges(units, seed, bench.shared), priors, as_made)


def _closed(case: str, lot: Lot, early: bool) -> tuple[Closed, bool]:
    one = told(case)
    put_right = made = _packs(one, lot.meant)
    if early and lot.wrong is not None and lot.wrong not in one.as_made:
        try:
            made = _packs(one, lot.units)
        except NoAnswer:  # what is wrong shows as the reading is taken
            meant = right(lot.meant, one.wanted, put_right)
            return Closed(meant, meant, meant, np.ones_like(meant)), True
    return closed(lot, one.wanted, made, put_right, one.limits), lot.wrong is not None


def _packs(one: Told, units: Asking) -> Packs:
    return {
        part: pack_of(units, part, route, {p: t for p, t in one.in_hand.items() if p != part})
        for part, route in one.routes.items()
    }


def within(
    name: str, check: str, bench: Bench, *, units: int = UNITS, seed: int = SEED
) -> tuple[float, float]:
    """Say which share of readings their bands hold: of units with nothing wrong, and of all.

    A unit in which nothing stops the part has none.
    """
    truth = opened(name, MODELS[bench.model].get(name, ()))
    luck = WorseGauges(units, seed, bench.shared)
    low, high = _bands(name, check, units, seed)
    flags, first = [], 0
    for lot in lots(truth, luck, priors_with(truth, bench.wrong)):
        mine = slice(first, first + lot.units.count)
        first = mine.stop
        flags.append(_held(lot.units, check, packs(name), (low[mine], high[mine])))
    return float(np.mean(flags[0])), float(np.mean(np.concatenate(flags)))


@cache
def _bands(name: str, check: str, units: int, seed: int) -> tuple[Array, Array]:
    asked = opened(name).checks[check]
    by = USUAL_INSTRUMENT[asked.kind]
    return bands(opened(name), asked, packs(name), by=by, units=units, seed=seed)


def _held(units: Asking, name: str, fitted: Packs, band: tuple[Array, Array]) -> Flags:
    check = units.rebuild.checks[name]
    try:
        shown = readings(units, check, fitted, by=USUAL_INSTRUMENT[check.kind])
    except NoAnswer:
        return np.zeros(units.count, dtype=np.bool_)
    return (shown >= band[0]) & (shown <= band[1])
