"""What the drawer can make: packs from stock, washers to choose from, parts cut to size."""

from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from dryfit.model.rebuild import Setting, System
from dryfit.quantities import Size

MOST_PIECES = 6
"""A pack of more pieces is springy and hard to measure: common practice, no source."""

CUT_STEP = {"mm": Fraction(1, 100), "inch": Fraction(254, 20000)}
"""To what a part is cut [mm]: 0.01 mm, or half a thou."""


SET_STEP = {"mm": Fraction(1, 1000), "inch": Fraction(254, 200000)}
"""To what a nut is set by what the dial shows [mm]: 0.001 mm, or half a tenth: estimate."""


@dataclass(frozen=True, slots=True)
class Pack:
    """A thickness that can be made, or a float to which a nut can be set.

    Attributes
    ----------
    exact
        Its thickness [mm], exact.
    pieces
        What it is made of; empty for no pack, and for a part cut to size.
    """

    exact: Fraction
    pieces: tuple[Size, ...] = ()

    @property
    def thickness(self) -> float:
        """Its thickness [m]."""
        return float(self.exact / 1000)


def packs_about(
    setting: Setting, ideal: float, system: System, *, within: float = 1e-3
) -> tuple[Pack, ...]:
    """List what can be made near an ideal thickness [m], thinnest first."""
    middle = Fraction(round(ideal * 1e9), 10**6)
    if setting.set_by is not None:
        step = SET_STEP[system]
        nearest = round(middle / step)
        return tuple(Pack(step * n) for n in range(nearest - 4, nearest + 5))
    if setting.cut_to_size is not None:
        step = CUT_STEP[system]
        nearest = round(middle / step)
        return tuple(Pack(step * n) for n in range(nearest - 3, nearest + 4) if n > 0)
    if setting.one_of:
        return tuple(sorted((Pack(s.value, (s,)) for s in setting.one_of), key=_exact))
    reach = Fraction(round(within * 1e9), 10**6)
    made = _made_from(setting, middle + reach)
    return tuple(p for p in made if abs(p.exact - middle) <= reach)


def _made_from(setting: Setting, most: Fraction) -> tuple[Pack, ...]:
    """Add up pieces, fewest for each sum; in whole parts of a millimetre that they all share."""
    parts = lcm(*(stock.size.value.denominator for stock in setting.made_from))
    best: dict[int, tuple[Size, ...]] = {0: ()}
    for stock in sorted(setting.made_from, key=lambda s: -s.size.value):
        limit = MOST_PIECES if stock.count is None else min(stock.count, MOST_PIECES)
        best = _with(best, stock.size, limit, step=int(stock.size.value * parts), most=most * parts)
    return tuple(Pack(Fraction(total, parts), pieces) for total, pieces in sorted(best.items()))


def _with(
    best: dict[int, tuple[Size, ...]], size: Size, limit: int, *, step: int, most: Fraction
) -> dict[int, tuple[Size, ...]]:
    """Add none to `limit` pieces of one thickness to every sum so far."""
    new: dict[int, tuple[Size, ...]] = {}
    for total, pieces in best.items():
        for count in range(min(limit, MOST_PIECES - len(pieces)) + 1):
            grown = total + count * step
            if grown > most:
                break
            candidate = (*pieces, *[size] * count)
            if grown not in new or len(candidate) < len(new[grown]):
                new[grown] = candidate
    return new


def _exact(pack: Pack) -> Fraction:
    return pack.exact
