"""The second figure: what usually goes wrong, and what the checks catch of it.

The table of priors is an estimate; what is held here is what is made of it.
"""

import numpy as np
import pytest
from tests.bench.test_readings import opened, packs

from dryfit.ask.asking import Asking
from dryfit.ask.looks import Looks
from dryfit.ask.settings import met
from dryfit.ask.targets import targets
from dryfit.ask.usual import Usual, with_the_usual
from dryfit.ask.variants import DOUBLE, PRIORS, Prior, read, scaled, variants

NEVER = {kind: Prior(0.0, 0.0, "") for kind in PRIORS}
NAMES = ("feed-box", "lay-shaft", "bevel-box")


def looked(asking: Asking, fitted: dict[str, float]) -> Looks:
    """Look at a unit with these packs in."""
    return Looks(asking, fitted, fitted)


def usual(name: str, priors: dict[str, Prior] | None = None, *words: tuple[str, str]) -> Usual:
    """Ask for the second figure of a demo with a chance of 90 in 100 by its sizes."""
    asking = Asking(opened(name, words), 400)
    return with_the_usual(
        looked(asking, packs(name)), targets(asking.rebuild), 0.9, priors or PRIORS
    )


@pytest.mark.parametrize("name", NAMES)
def test_nothing_that_goes_wrong_takes_nothing(name: str) -> None:
    """With priors of nothing the second figure is the first."""
    found = usual(name, NEVER)
    assert found.chance == found.half == found.double == found.unchecked == 0.9
    assert found.slips == ()


@pytest.mark.parametrize("name", NAMES)
def test_twice_as_much_wrong_takes_twice_as_much(name: str) -> None:
    """First order: what is lost goes with the priors; reading the checks never loses."""
    found = usual(name)
    assert 0.9 - found.double == pytest.approx(2 * (0.9 - found.chance), rel=1e-9)
    assert 0.9 - found.half == pytest.approx(0.5 * (0.9 - found.chance), rel=1e-9)
    assert found.unchecked <= found.chance <= 0.9


def test_one_mistake_by_hand() -> None:
    """Only sealant for the gasket, each time, and nobody sees it: 0.21 of room is gone.

    The float of 0.10 is then 0.11 too small: the shaft binds, so no unit is right; the dial reads
    nothing instead of 0.06 to 0.14, so every unit is caught, and nothing is lost. With a dial that
    nobody reads all is lost.
    """
    certain = {**NEVER, "sealant": Prior(1.0, 0.0, "")}
    found = usual("feed-box", certain)
    assert found.chance == pytest.approx(0.9, abs=0.01)
    assert found.unchecked < 0.05


def test_without_a_check_nothing_is_caught() -> None:
    """No check in the box: what is lost is all that goes wrong and stays unseen."""
    checks = (
        "checks:\n  end float: {kind: end float, of: shaft, by: dial indicator}\n"
        "  shim pack: {kind: thickness, of: thrust shim, by: micrometer}\n",
        "",
    )
    found = usual("feed-box", None, checks)
    assert found.chance == pytest.approx(found.unchecked, abs=1e-12)
    assert found.chance < usual("feed-box").chance - 0.02


def test_first_order_against_units_on_which_several_things_go_wrong() -> None:
    """4 000 true units at double priors: each mistake comes by itself, some units have two.

    A unit of which a check catches its first mistake is mended; one with a second mistake is
    judged by its first. The figure told is within a point and a half of what comes right.
    """
    rebuild = opened("feed-box")
    asking, table = Asking(rebuild, 4_000), scaled(PRIORS, DOUBLE)
    wanted, fitted = targets(rebuild), packs("feed-box")
    luck = np.random.default_rng(5)
    right = met(asking, wanted, fitted)
    came = right.copy()
    free = np.ones(4_000, dtype=bool)
    checks = rebuild.checks.values()
    told = {c.name: np.quantile(asking.true(c, fitted).shown, (0.005, 0.995)) for c in checks}
    for variant in variants(asking):
        prior = table[variant.kind]
        happens = free & (luck.random(4_000) < prior.chance * (1 - prior.seen))
        if variant.reading or not np.any(happens):
            continue
        free &= ~happens
        wrong = met(variant.asking(asking), wanted, fitted)
        caught = np.zeros(4_000, dtype=bool)
        for check in checks:
            shown = read(asking, variant, check, fitted).shown
            low, high = told[check.name]
            caught |= (shown < low) | (shown > high)
        came = np.where(happens & ~caught, wrong, came)
    base = float(np.mean(right))
    figure = with_the_usual(looked(asking, fitted), wanted, base).double
    assert float(np.mean(came)) == pytest.approx(figure, abs=0.015)
