"""Threads: designations as people write them, and play that follows from the limits."""

from itertools import product
from math import pi, tan

import numpy as np
import pytest

from dryfit.mechanics.threads import (
    BOLTS,
    COARSE,
    NUTS,
    TABLE,
    WORDS,
    thread,
    thread_fit,
    thread_size,
)

PAIRS = [
    f"{nut}/{bolt}" for nut, bolt in product(NUTS, BOLTS) if NUTS[nut].form == BOLTS[bolt].form
]


@pytest.mark.parametrize(
    ("written", "same"),
    [
        ("m20 x 1", "M20x1"),
        ("M20×1", "M20x1"),
        ("M20x1 LH", "M20x1"),
        ("M8x1.25", "M8"),
        ('1/2" bsw', "1/2 BSW"),
        ("1/2-12 WHIT", "1/2 BSW"),
        ("G1/2", "1/2 BSP"),
        ("0.75-16 UN", "3/4 UNF"),
        ("1 1/4 x 9 BSF", "1 1/4 BSF"),
    ],
)
def test_designation_is_read_as_written(written: str, same: str) -> None:
    """However it is spaced or spelled, the same thread is found."""
    assert thread_size(written) == thread_size(same)


@pytest.mark.parametrize(
    "name", ["", "6 BA", "M12x1,5", "M9.5", "1/0 BSW", "7/16 WHIT", "4 1/2 UNC", "G 9", "Tr 20x4"]
)
def test_unknown_designation_says_what_there_is(name: str) -> None:
    """Whoever types a thread that is not there is told it as typed, and what can be typed."""
    with pytest.raises(ValueError, match=r"M20x1, 1/2 BSW") as told:
        thread_size(name)
    assert f"'{name}'" in str(told.value)


def test_every_thread_of_the_tables_can_be_cut() -> None:
    """No row of the series has a slip of the pen: lead angles are those of fastening threads."""
    names = [f"M{size:g}" for size in COARSE] + [f"G {size}" for size in TABLE["pipe"]]
    for series, given in TABLE["series"].items():
        names += [f"{size} {series}" for size in given["sizes"]]
    for name in names:
        lead = thread(*thread_size(name)).lead_angle * 180 / pi
        assert 0.45 < lead < 6.0, name


@pytest.mark.parametrize("series", ["BSW", "BSF", "UNC", "UNF"])
def test_pitch_grows_with_size(series: str) -> None:
    """A series has no size whose thread is finer than that of the next smaller one."""
    sizes = [thread_size(f"{size} {series}") for size in TABLE["series"][series]["sizes"]]
    assert sizes == sorted(sizes)
    assert np.all(np.diff([size.pitch for size in sizes]) >= 0)


@pytest.mark.parametrize("fit", [*PAIRS, *WORDS])
def test_play_is_never_less_than_none(fit: str) -> None:
    """Every class lets a nut go on its bolt; the play has a least and a greatest value."""
    diameters = np.array([0.006, 0.020, 0.045, 0.100])
    got = thread_fit(diameters, 0.1 * diameters**0.8, fit)
    assert np.all(got.play_low >= 0)
    assert np.all(got.play_high > got.play_low)
    assert np.all(got.bolt_high <= got.nut_low)


def test_play_is_the_gap_of_both_flanks() -> None:
    """Play is what the nut travels from flank to flank, found on the drawn profiles."""
    size = thread(0.045, 0.0015)
    got = thread_fit(0.045, 0.0015)
    radii = np.linspace(size.minor_diameter, 0.045, 5) / 2
    slope = tan(pi / 6)
    ridge = 0.0015 / 2 - 2 * (radii - got.bolt_low / 2) * slope
    space = 0.0015 / 2 - 2 * (radii - got.nut_high / 2) * slope
    np.testing.assert_allclose(space - ridge, got.play_high, rtol=1e-9)


@pytest.mark.parametrize("fit", ["loose", "6H/2A", "6H", "2A/6H", ""])
def test_unknown_fit_says_what_there_is(fit: str) -> None:
    """A fit that is none, or of two forms, is answered with the classes there are."""
    with pytest.raises(ValueError, match=r"close, medium, free.*6H.*6g"):
        thread_fit(0.010, 0.0015, fit)


def test_unknown_form_says_what_there_is() -> None:
    """A form that is none is answered with those there are."""
    with pytest.raises(ValueError, match="metric, unified, whitworth"):
        thread(0.010, 0.0015, "square")
