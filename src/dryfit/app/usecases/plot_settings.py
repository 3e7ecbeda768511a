"""Plots of readings against settings: every want that a setting moves, asked pack by pack."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from dryfit.app.usecases.plot_questions import Found, Question, question_of
from dryfit.app.usecases.plot_units import (
    Plotting,
    Unit,
    capital,
    length_places,
    length_unit,
    warm,
)
from dryfit.ask.packs import packs_about
from dryfit.ask.settings import ideal, moved_by
from dryfit.draw.paper import Drawing
from dryfit.draw.plot_frame import Scale
from dryfit.draw.plot_setting import Asked, SettingPlot, setting_plot
from dryfit.draw.plot_ticks import Span, spread
from dryfit.model.parts import Nut
from dryfit.model.rebuild import Setting
from dryfit.quantities import System
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.threads import pitch

ALONG = 9
"""Packs that are asked along a plot."""

CLOSER, SEEN = 3, 0.04
"""How often it is asked more closely, and which bend is worth it [-]."""

MOST_IN_STOCK = 45
"""Packs that can be made and are still told apart in a row."""

LEAST_REACH = 0.03e-3
"""A plot shows at least so much to either side of the pack in hand [m]."""


@dataclass(frozen=True)
class Across:
    """How a setting is shown: its name, unit, and from a pack [m] to where it lies."""

    words: str
    unit: Unit
    at: Callable[[float], float]
    places: int


def setting_plots(asked: Plotting) -> Iterator[Drawing]:
    """Draw every want against every setting that moves it."""
    for part in asked.rebuild.settings:
        if part not in asked.packs:
            continue
        for target in moved_by(asked.asking, asked.wanted, part, asked.packs):
            try:
                yield _drawn(asked, part, question_of(asked, part, target))
            except NoAnswer:
                continue  # `set` and `expect` say why; there is nothing to draw


def _drawn(asked: Plotting, part: str, question: Question) -> Drawing:
    rebuild, in_hand = asked.rebuild, asked.packs[part]
    here = question.ask(in_hand)
    low, high = _reach(asked, part, question, here)
    across, unit = _across(asked, part), question.unit
    answers = _along(question.ask, {in_hand: here}, low, high)
    spots = tuple(
        sorted((_spot(across, unit, pack, found) for pack, found in answers), key=lambda s: s.at)
    )
    setting = rebuild.settings[part]
    limits = tuple(None if w is None else w * unit.rate for w in here.wanted)
    stock = _stock(asked, part, low, high)
    places = length_places((here.high - here.low) / 2, rebuild.system)
    return setting_plot(
        SettingPlot(
            warm(f"{capital(question.words)} against {part}", question.target.need.state),
            Scale(across.words, across.unit.name, (spots[0].at, spots[-1].at)),
            Scale(
                f"{question.words}{question.how}", unit.name, _upwards(spots, limits), unit.other
            ),
            spots,
            (limits[0], limits[1]),
            tuple(across.at(pack) for pack in stock),
            "washers there are" if setting.one_of else "packs that your stock makes",
            _spot(across, unit, in_hand, here),
            _why_in_hand(setting, is_nut=isinstance(rebuild.parts[part], Nut)),
            (across.places, places if unit.name != "N" else 0),
        )
    )


def _along(
    ask: Callable[[float], Found], known: dict[float, Found], low: float, high: float
) -> list[tuple[float, Found]]:
    """Ask along a setting, and again on both sides of where the answer bends."""
    known |= {pack: ask(pack) for pack in np.linspace(low, high, ALONG).tolist()}
    for _ in range(CLOSER):
        told = sorted(known.items())
        bends = [a for a in range(1, len(told) - 1) if _bends(told[a - 1 : a + 2])]
        sides = {(told[n + k][0] + told[n + k + 1][0]) / 2 for n in bends for k in (-1, 0)}
        known |= {pack: ask(pack) for pack in sides}
    return sorted(known.items())


def _bends(three: list[tuple[float, Found]]) -> bool:
    """Tell whether an answer leaves the straight line by more than the eye sees."""
    (a, one), (b, two), (c, other) = three
    share = (b - a) / (c - a)
    for pick in ("typed", "low", "high"):
        ends, middle = (getattr(one, pick), getattr(other, pick)), getattr(two, pick)
        off = middle - ends[0] - share * (ends[1] - ends[0])
        if abs(off) > SEEN * (two.high - two.low + abs(ends[1] - ends[0])):
            return True
    return False


def _spot(across: Across, unit: Unit, pack: float, found: Found) -> Asked:
    typed, low, high = (value * unit.rate for value in (found.typed, found.low, found.high))
    return Asked(across.at(pack), typed, low, high)


def _across(asked: Plotting, part: str) -> Across:
    """Show a pack by its thickness, a nut by how far it is turned from where it is."""
    system, now = asked.rebuild.system, asked.packs[part]
    nut = asked.rebuild.parts[part]
    lead = pitch(nut) if isinstance(nut, Nut) else None
    if lead:
        turn = Unit("degrees", 360 / lead)
        return Across(
            f"{part} tightened from where it is", turn, lambda to: (now - to) * turn.rate, 0
        )
    unit = length_unit(system)
    places = _pack_places(now, system)
    return Across(part, unit, lambda pack: pack * unit.rate, places)


def _pack_places(pack: float, system: System) -> int:
    """Say how many decimals a pack needs, two or three in millimetres, one more in inches."""
    shown = round(pack * length_unit(system).rate, 6)
    least = 3 if system == "inch" else 2
    return least if round(shown, least) == shown else least + 1


def _reach(asked: Plotting, part: str, question: Question, here: Found) -> Span:
    """Say from which pack to which it is worth looking [m]."""
    in_hand = asked.packs[part]
    step = LEAST_REACH / 2
    rate = abs(question.ask(in_hand + step).typed - question.ask(in_hand - step).typed) / step / 2
    aim = ideal(asked.asking, (question.target,), part, asked.packs)
    low, high = here.wanted
    band = here.high - here.low + (high - low if low is not None and high is not None else 0.0)
    reach = max(LEAST_REACH, min(band / rate, 10 * LEAST_REACH) if rate else 0.0)
    nut = isinstance(asked.rebuild.parts[part], Nut)
    least = -np.inf if nut else 0.0
    return max(min(in_hand, aim) - reach, least), max(in_hand, aim) + reach


def _upwards(spots: tuple[Asked, ...], limits: tuple[float | None, ...]) -> Span:
    """Show the line as typed whole, its band where there is room, and what is wanted."""
    typed = [spot.typed for spot in spots]
    middle = spots[len(spots) // 2]
    band = [middle.low, middle.high]
    return spread([*typed, *band, *(v for v in limits if v is not None)], nought=True)


def _why_in_hand(setting: Setting, *, is_nut: bool) -> str:
    """Say why this is the setting in hand."""
    if setting.fitted is None:
        return "by the sum of sizes"
    return "where it is" if is_nut else "fitted"


def _stock(asked: Plotting, part: str, low: float, high: float) -> tuple[float, ...]:
    """List what can be made between two thicknesses [m]; nothing of what is cut or turned."""
    setting = asked.rebuild.settings[part]
    if setting.cut_to_size is not None or setting.set_by is not None:
        return ()
    about = packs_about(setting, (low + high) / 2, asked.rebuild.system, within=(high - low) / 2)
    inside = [p.thickness for p in about if low <= p.thickness <= high]
    return tuple(inside) if len(inside) <= MOST_IN_STOCK else ()
