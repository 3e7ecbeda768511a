"""What raises the chance, on demos whose answer is plain by hand."""

from tests.bench.test_readings import opened

from dryfit.ask.acts import MINUTES, SETTLE, Act
from dryfit.ask.asking import Asking
from dryfit.ask.closing import close_up

BY_RULE = ("shaft: 148.70", "shaft: 148.70 by rule")


def told(name: str, *words: tuple[str, str]) -> tuple[float, dict[tuple[str, str], Act]]:
    """Ask what raises the chance of a demo."""
    closing = close_up(Asking(opened(name, words), 2_000))
    assert closing.by_sum is not None
    return closing.by_sum, {(act.name, act.what): act for act in closing.acts}


def test_a_box_that_is_sure_by_its_sizes_needs_no_act() -> None:
    """99 in 100 by the sum: nothing gains a hundredth."""
    base, acts = told("feed-box")
    assert base > 0.97
    assert acts == {}


def test_a_shaft_by_rule_is_worth_measuring_again_before_any_trial_build() -> None:
    """Half a millimetre of doubt in one size: three minutes with a caliper beat half an hour."""
    base, acts = told("feed-box", BY_RULE)
    again, read = acts["caliper", "shaft"], acts["read it, then correct", "thrust shim"]
    assert base < 0.3
    assert again.chance > 0.9
    assert read.chance > 0.9
    assert again.minutes == MINUTES["caliper"]
    assert next(iter(acts)) == ("caliper", "shaft")


def test_gap_read_before_the_shim_is_cut_is_worth_its_minutes() -> None:
    """With the shaft by rule, the gap under the dry cover tells the shim, whatever the shaft is.

    By hand: what is left are feelers, gasket and pack, some 0.03 mm either way, in limits 0.05 mm
    either way; the sum leaves 0.5 mm. It takes more minutes than a caliper, fewer than a float.
    """
    base, acts = told("feed-box", BY_RULE)
    gap = acts["closing gap", "thrust shim"]
    assert gap.without == base
    assert gap.chance > 0.95
    assert gap.gain > 0.6
    assert MINUTES["caliper"] < gap.minutes < MINUTES["read it, then correct"]


def test_bevel_box_is_raised_most_by_reading_its_float() -> None:
    """No one size carries the doubt of a nip of two hundredths; the float itself does."""
    base, acts = told("bevel-box")
    read = acts["read it, then correct", "cover shim"]
    assert read.chance > base + 0.15
    sizes = [act.chance for act in acts.values() if act.now and act.name != SETTLE]
    assert all(chance < read.chance for chance in sizes)


def test_gain_for_its_time_comes_first() -> None:
    """Each act gains no more a minute than the one before it."""
    for words in ((), (BY_RULE,)):
        _, acts = told("feed-box", *words)
        gains = [act.gain / act.minutes for act in acts.values()]
        assert gains == sorted(gains, reverse=True)
