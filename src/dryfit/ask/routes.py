"""By which measuring a pack is found: the sum of sizes, the closing gap, or the difference.

A route that starts from a reading is played draw by draw: the reading is taken with its error,
the pack is made from it as the sheet says, and the true float is looked at. What the reading
already holds cancels by itself, since the same true sizes stand behind both.
"""

from dataclasses import replace

import numpy as np

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.harm import MOST_HARM, harm
from dryfit.ask.nut_routes import is_nut, nut_route
from dryfit.ask.packs import CUT_STEP, Pack, packs_about
from dryfit.ask.route import DIFFERENCE, GAP, NAMES, SUM, TAKE_OUT, WALK, WALKED, Route
from dryfit.ask.settings import (
    Choice,
    chance,
    choose,
    ideal,
    moved_by,
    nearest_packs,
)
from dryfit.ask.slopes import lacking, pack_slope
from dryfit.ask.starts import Start, as_found_start, gap_start, own_start, stand_ins
from dryfit.ask.targets import Target, travel
from dryfit.ask.walk_starts import walk_start, walked_by
from dryfit.model.rebuild import LashNeed
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import Array, full
from dryfit.solve.predict import line_of

WORTH_A_READING = 0.02
"""A reading that gains less than this in chance is not asked for: estimate."""


def routes(
    asking: Asking,
    targets: tuple[Target, ...],
    part: str,
    packs: Packs,
    choice: Choice | None = None,
) -> tuple[Route, ...]:
    """Go every route for one setting; `choice` the pack by the sum, where it was chosen already."""
    if not moved_by(asking, targets, part, packs):
        return ()
    return tuple(gone(name, asking, targets, part, packs, choice) for name in NAMES)


def gone(
    name: str,
    asking: Asking,
    targets: tuple[Target, ...],
    part: str,
    packs: Packs,
    choice: Choice | None = None,
) -> Route:
    """Go one route for a setting that moves something wanted."""
    mine = _primary_first(asking, moved_by(asking, targets, part, packs), part)
    if is_nut(asking.rebuild, part):
        chosen = choice or choose(asking, mine, part, packs)
        return nut_route(name, asking, mine, packs, chosen)
    if name == SUM:
        return _by_sum(asking, mine, part, packs, choice)
    missing = stand_ins(asking, mine[0], part, packs)
    standing = replace(asking, assumed=missing) if missing else asking
    if name == GAP:
        return _by_gap(standing, mine, part, packs)
    if name == DIFFERENCE:
        return _by_difference(standing, mine, part, packs)
    return _by_itself(name, standing, mine, part, packs)


def _primary_first(asking: Asking, mine: tuple[Target, ...], part: str) -> tuple[Target, ...]:
    """Put the need of the setting's own line first, before the lash that follows from it."""

    def distant(target: Target) -> int:
        line = line_of(asking.rebuild, target.need)
        here = any(spot.part == part for stack in line.stacks for spot in stack.spots)
        return 0 if here and not isinstance(target.need, LashNeed) else 1

    return tuple(sorted(mine, key=distant))


def recommended(found: tuple[Route, ...]) -> Route | None:
    """Recommend a route: a reading in hand first, then the one that needs no further reading.

    Routes about as good as the best are equal; one that would bind too often comes last. A walk
    that was read is gone by: what is put in wrong is in its readings, and in no size.
    """
    walked = next((r for r in found if r.name == WALK and r.pack and r.taken is not None), None)
    if walked:
        return walked
    possible = [r for r in found if r.chance is not None]
    mild = [r for r in possible if r.harm < MOST_HARM] or possible
    top = max((r.chance or 0.0 for r in mild), default=0.0)
    good = [r for r in mild if (r.chance or 0.0) >= top - WORTH_A_READING]
    in_hand = (r for r in good if r.taken is not None and not (r.name == TAKE_OUT and r.quarrel))
    return next(in_hand, good[0] if good else None)


def _by_sum(
    asking: Asking,
    mine: tuple[Target, ...],
    part: str,
    packs: Packs,
    choice: Choice | None,
) -> Route:
    """Add up the sizes."""
    missing = dict.fromkeys(s.key for t in mine for s in lacking(asking, t.need, packs))
    if missing:
        return Route(SUM, why_not=f"not known: {', '.join(missing)}")
    choice = choice or choose(asking, mine, part, packs)
    if choice is None:
        return Route(SUM, why_not=NOTHING_NEAR)
    thick = choice.pack.thickness
    meant = {**packs, part: thick}
    likely, harmful = chance(asking, mine, meant), harm(asking, mine, meant)
    made = full(asking.drawn.draws, thick)
    return Route(SUM, likely, choice.pack, harm=harmful, made=made)


NOTHING_NEAR = "nothing in the drawer comes near"


def _by_gap(asking: Asking, mine: tuple[Target, ...], part: str, packs: Packs) -> Route:
    """Build it so that a gap stays open, and read the gap."""
    try:
        start = gap_start(asking, mine[0], part, packs)
        if start is not None:
            return _from_reading(GAP, asking, mine, part, packs, start)
    except NoAnswer as why:
        return Route(GAP, why_not=str(why))
    return Route(GAP, why_not="no pack from the drawer is thick enough to hold a gap open")


def _by_itself(
    name: str, asking: Asking, mine: tuple[Target, ...], part: str, packs: Packs
) -> Route:
    """Build it slack, read the float or lash itself, and take out what is too much."""
    walks = name == WALK
    mine = tuple(sorted(mine, key=lambda target: walked_by(asking, target, part) is None))
    if walks and isinstance(mine[0].need, LashNeed):
        return Route(name, why_not="a lash has no nothing to walk to")
    try:
        start = walk_start(asking, mine[0], part, packs)
        if start is None or walks == (len(start.trials) == 1):
            start = own_start(asking, mine[0], part, packs, trials=WALKED if walks else 1)
    except NoAnswer as why:
        return Route(name, why_not=str(why))
    if start is None:
        return Route(name, why_not="no pack from the drawer leaves float to be read")
    return _from_reading(name, asking, mine, part, packs, start)


def _by_difference(asking: Asking, mine: tuple[Target, ...], part: str, packs: Packs) -> Route:
    """Alter the old pack by what has changed since the float was read."""
    start = as_found_start(asking, mine[0], part, packs)
    if isinstance(start, str):
        return Route(DIFFERENCE, why_not=start)
    return _from_reading(DIFFERENCE, asking, mine, part, packs, start)


def _from_reading(
    name: str, asking: Asking, mine: tuple[Target, ...], part: str, packs: Packs, start: Start
) -> Route:
    """Make the pack from the reading in every draw, and see whether the needs are met."""
    slope = _even_slope(asking, mine[0], part, {**packs, part: start.trial})
    if not slope:
        return Route(name, why_not=f"{part} moves nothing there")
    sign = -start.follows / slope
    offset = _offset(asking, mine[0], part, packs, start, sign)
    for key, value in asking.assumed.items():
        other = replace(asking, assumed={**asking.assumed, key: value + 1e-5})
        if abs(_offset(other, mine[0], part, packs, start, sign) - offset) > 1e-9:
            return Route(name, why_not=f"it needs {key} too")
    wished = start.trial + offset + sign * start.drawn
    made = _nearest(asking, part, wished)
    if made is None:
        return Route(name, why_not=NOTHING_NEAR)
    taken = start.taken
    if taken is not None and start.follows < 0 and taken < LEAST_GAP:
        return Route(name, check=start.check, why_not=NO_GAP)
    pack = None if taken is None else _one(asking, part, start.trial + offset + sign * taken)
    if start.walked and pack and taken is not None:  # the drawer's remainder is known by now
        made = wished + pack.thickness - (start.trial + offset + sign * taken)
    low, middle, high = (float(q) for q in np.quantile(start.drawn, (0.05, 0.5, 0.95)))
    known = not asking.assumed
    return Route(
        name,
        chance(asking, mine, {**packs, part: made}),
        pack,
        start.check,
        start.left_out,
        start.trial,
        offset,
        sign,
        (low, middle, high) if known else None,
        taken,
        _quarrel(start.drawn, taken) if known and taken is not None else 0.0,
        harm(asking, mine, {**packs, part: made}),
        trials=start.trials,
        made=made,
    )


LEAST_GAP = 0.02e-3
"""A gap smaller than the thinnest feeler [m] is none: the cover may be home."""

NO_GAP = "no gap was found, so the cover may be home: fit a thicker pack and read again"


def _quarrel(drawn: Array, taken: float) -> float:
    """By how much a reading lies outside of all but 1 in 100 of what the sizes make of it [m]."""
    low, high = (float(q) for q in np.quantile(drawn, (0.005, 0.995)))
    return max(taken - high, 0.0) if taken > high else min(taken - low, 0.0)


OPENED = 0.05e-3
"""Float with which a part surely touches nothing [m]: estimate."""


def _even_slope(asking: Asking, target: Target, part: str, packs: Packs) -> float:
    """Say how float or lash follows a pack where rows do not yet press on each other.

    Pressed, they and the cover yield, and each hundredth of pack gives less than one of nip.
    """
    need = travel(target.need)
    if isinstance(need, LashNeed) or not asking.as_typed(need, packs).gives:
        return pack_slope(asking, need, packs, part)
    open_ = replace(target, need=need, low=OPENED, high=OPENED)
    at = ideal(asking, [open_], part, packs)
    return pack_slope(asking, need, {**packs, part: at}, part)


def _offset(
    asking: Asking, target: Target, part: str, packs: Packs, start: Start, sign: float
) -> float:
    """What is added to the pack fitted, besides the reading [m]: as typed sizes would have it."""
    begin = {**packs, part: start.trial}
    return ideal(asking, [target], part, begin) - start.trial - sign * start.typed(asking)


def _nearest(asking: Asking, part: str, wished: Array) -> Array | None:
    """Make in every draw the pack nearest to what is wished [m], shape (n,)."""
    setting, system = asking.rebuild.settings[part], asking.rebuild.system
    if setting.cut_to_size is not None:
        step = float(CUT_STEP[system] / 1000)
        return np.round(wished / step) * step
    middle = float(np.median(wished))
    spread = float(np.abs(wished - middle).max()) + 0.5e-3
    made = np.array([p.thickness for p in packs_about(setting, middle, system, within=spread)])
    if not len(made):
        return None
    at = np.clip(np.searchsorted(made, wished), 1, max(len(made) - 1, 1))
    low, high = made[at - 1], made[np.minimum(at, len(made) - 1)]
    return np.where(wished - low <= high - wished, low, high)


def _one(asking: Asking, part: str, wished: float) -> Pack | None:
    """Make the pack nearest to one thickness [m]."""
    near = nearest_packs(asking, part, wished)
    return min(near, key=lambda p: (abs(p.thickness - wished), len(p.pieces)), default=None)
