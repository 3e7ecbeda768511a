"""Units with something wrong are drawn as often as told, and worse gauges are worse as told."""

from math import sqrt

import numpy as np
import pytest
from tests.bench.test_readings import NAMES, opened, packs

from dryfit.bench.readings import readings, true_units
from dryfit.bench.wrong_units import WorseGauges, lots, priors_with
from dryfit.mechanics.instruments import INSTRUMENTS
from dryfit.quantities import Size, read_size
from dryfit.solve.luck import Luck
from dryfit.solve.sizes import Gauge, true_size

SHARE, UNITS = 0.20, 4_000


@pytest.mark.parametrize("name", NAMES)
def test_so_many_units_have_something_wrong(name: str) -> None:
    """20 in 100 of 4 000 units, within three standard errors of a share; each unit is there."""
    rebuild = opened(name)
    drawn = [*lots(rebuild, Luck(UNITS, 3), priors_with(rebuild, SHARE))]
    wrong = sum(lot.units.count for lot in drawn if lot.wrong is not None)
    assert sum(lot.units.count for lot in drawn) == UNITS
    assert wrong / UNITS == pytest.approx(SHARE, abs=3 * sqrt(SHARE * (1 - SHARE) / UNITS))


def test_what_is_wrong_is_what_usually_is() -> None:
    """By the table of priors sealant for a gasket is not seen in 0.02 x 0.5, a burr in 0.02 x 0.7.

    All that can be wrong with the feed box adds up to 0.1255 by hand from the table and the list:
    20 in 100 is 1.594 times as much. Three standard errors of 40 000 units.
    """
    rebuild, many = opened("feed-box"), 40_000
    drawn = lots(rebuild, Luck(many, 4), priors_with(rebuild, SHARE))
    counts = {lot.wrong.name: lot.units.count for lot in drawn if lot.wrong is not None}
    for name, slips in (("sealant: gasket", 0.02 * 0.5), ("burr: shaft", 0.02 * 0.7)):
        likely = slips * SHARE / 0.1255
        assert counts[name] / many == pytest.approx(likely, abs=3 * sqrt(likely / many)), name


def test_units_that_are_wrong_read_otherwise_and_are_put_right() -> None:
    """Sealant for a gasket of 0.21: the shaft floats 0.21 less, or binds; put right, it does not.

    About 0.10 of float is meant, so that nothing is left of it.
    """
    rebuild = opened("feed-box")
    drawn = lots(rebuild, Luck(UNITS, 5), priors_with(rebuild, SHARE))
    lot = next(lot for lot in drawn if lot.wrong and lot.wrong.name == "sealant: gasket")
    check = rebuild.checks["end float"]
    shown = readings(lot.units, check, packs("feed-box"), by="dial indicator")
    meant = readings(lot.meant, check, packs("feed-box"), by="dial indicator")
    assert np.median(shown) < 0.012e-3  # the dial's own error
    assert np.median(meant) == pytest.approx(0.10e-3, abs=0.01e-3)


def test_worse_gauges_share_more_and_read_no_worse_each() -> None:
    """Twice what readings share, 0.7 of the limit: variance 0.51 + 4 x 0.49 of limit squared / 3.

    By hand from JCGM 100:2008, 4.3.7 (a rectangle) and 5.1.2; the difference of two readings of
    one caliper holds nothing of it. Five standard errors of 200 000 draws.
    """
    caliper, worse = Gauge("caliper", INSTRUMENTS["caliper"]), WorseGauges(200_000, 6, 2.0)
    size = read_size("12.34", "mm")
    assert isinstance(size, Size)
    one, other = (true_size(worse, (key,), size, caliper) * 1e3 for key in "ab")
    assert one.std() == pytest.approx(0.030 * sqrt((0.51 + 4 * 0.49) / 3), rel=0.006)
    assert (one - other).std() == pytest.approx(0.030 * sqrt(2 * 0.51 / 3), rel=0.006)


def test_gauges_as_told_draw_as_luck_does() -> None:
    """Shared errors once as large are the very same units."""
    rebuild = opened("lay-shaft")
    same = true_units(rebuild, WorseGauges(100, 6)).drawn.sizes
    for key, drawn in true_units(rebuild, Luck(100, 6)).drawn.sizes.items():
        assert np.array_equal(same[key], drawn)
