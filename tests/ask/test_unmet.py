"""How often a pack is not what was wanted, and whether a check shows it."""

from dataclasses import replace

import numpy as np
import pytest
from tests.bench.test_readings import opened

from dryfit.ask.asking import Asking, Packs
from dryfit.ask.settings import chance
from dryfit.ask.targets import targets
from dryfit.ask.unmet import Unmet, unmet
from dryfit.model.rebuild import Check, Need
from dryfit.solve.predict import Reading

DRAWS = 4_000
PACK = {"thrust shim": 0.4e-3}


def told(packs: Packs, *words: tuple[str, str]) -> tuple[Unmet, ...]:
    """Ask of the feed box with these packs."""
    asking = Asking(opened("feed-box", words), DRAWS)
    return unmet(asking, targets(asking.rebuild), packs, lambda asked: asking.true(asked, packs))


BY_RULE = ("shaft: 148.70", "shaft: 148.70 by rule")


def test_it_is_what_the_first_figure_lacks() -> None:
    """One need, one pack: it is not met in all draws but those of the first figure."""
    asking = Asking(opened("feed-box", (BY_RULE,)), DRAWS)
    (one,) = told(PACK, BY_RULE)
    assert one.part == "thrust shim"
    assert one.chance == pytest.approx(1 - chance(asking, targets(asking.rebuild), PACK))
    assert 0.2 < one.chance < 1.0


def test_pack_far_too_thick_is_never_right_and_the_dial_shows_it() -> None:
    """Half a millimetre too much: it binds in each draw, and the dial stands at nothing."""
    (one,) = told({"thrust shim": 0.95e-3})
    assert one.chance == 1.0
    assert one.seen == {"end float": pytest.approx(1.0)}


def test_dial_misses_what_lies_within_its_error() -> None:
    """Of floats 2 um beyond their limit a dial that may be 10 um off shows three in five.

    By hand: the dial is off by 9.54 u + 3 v um, u and v even between -1 and 1 (a third of its limit
    is common to all its readings). It reads 2 um less in (1 - 2 / 9.54) / 2 = 0.395, so 0.605 are
    shown; a float 13 um beyond is always. Tolerance: three standard errors of 40 000 draws.
    """
    beyond = np.array([2e-6] * 20_000 + [13e-6] * 20_000)
    asking = Asking(opened("feed-box"), len(beyond))
    (target,) = targets(asking.rebuild)
    true = (target.high or 0.0) + beyond

    def drawn(asked: Check | Need) -> Reading:
        return replace(asking.true(asked, PACK), true=true, shown=true)

    (one,) = unmet(asking, (target,), PACK, drawn)
    assert one.chance == 1.0
    assert one.seen["end float"] == pytest.approx((0.605 + 1.0) / 2, abs=0.006)


def test_nothing_wanted_is_nothing_unmet() -> None:
    """A unit of which nothing is wanted has no pack that could be wrong."""
    asking = Asking(opened("feed-box"), DRAWS)
    assert unmet(asking, (), PACK, lambda asked: asking.true(asked, PACK)) == ()
