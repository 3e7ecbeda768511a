"""Whatever is typed: read or refused, never a crash; and whatever is printed reads back."""

import contextlib
import time
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.quantities import (
    Kind,
    NotKnown,
    Size,
    System,
    Unreadable,
    echo,
    read_quantity,
    read_range,
    read_size,
    typed,
)
from dryfit.quantities.lengths import FACTOR
from dryfit.quantities.rounding import rounded
from dryfit.quantities.units import KINDS

PIECES = """
    0 1 2 5 9 12 34 . .5 1.2 , / - − + +/- ± ½ ⅝ ' " ″ ° e E mm MM in thou tenths tenth of a m cm
    ft um µm mil by micrometer ? not known to at least most N lbf N.m K °C F° turn deg rpm cSt
    % ~ ( ) _ × ٣ １ ²
"""
UNSEEN = [" ", " ", " ", "\xa0", "\u200b", "\x00", "\ud800"]

SYSTEMS = st.sampled_from(["mm", "inch"])
NEAR_MISSES = st.lists(st.sampled_from([*PIECES.split(), *UNSEEN]), max_size=14).map("".join)
TEXTS = st.one_of(NEAR_MISSES, NEAR_MISSES, st.text(max_size=70))
FRACTIONS = st.fractions(min_value=-5000, max_value=5000, max_denominator=10**6)


def check_refusal(trouble: Unreadable, text: str, family: str) -> None:
    """See that a refusal names its sort, a place in the text, a reason and a way out."""
    assert trouble.code.startswith(family + ".")
    assert 0 <= trouble.column <= len(text)
    assert trouble.message
    assert trouble.way_out


@given(TEXTS, SYSTEMS, st.booleans())
def test_any_size_is_read_or_refused(text: str, system: System, box: bool) -> None:
    """No text typed for a size can bring the program down."""
    try:
        size = read_size(text, system, box=box)
    except Unreadable as trouble:
        check_refusal(trouble, text, "size")
        return
    assert size.text == text.strip()
    if isinstance(size, Size):
        assert (size.plus is None) == (size.minus is None)
        assert min(size.plus or 0, size.minus or 0) >= 0
        assert size.unit in FACTOR
        echo(size).encode("cp437")


@given(TEXTS, SYSTEMS, st.booleans())
def test_any_limits_are_read_or_refused(text: str, system: System, box: bool) -> None:
    """No text typed for limits can bring the program down, and limits are in order."""
    try:
        limits = read_range(text, system, box=box)
    except Unreadable as trouble:
        check_refusal(trouble, text, "size")
        return
    assert limits.low is not None or limits.high is not None
    if limits.low is not None and limits.high is not None:
        assert limits.low <= limits.high


@given(TEXTS, st.sampled_from(KINDS), st.booleans())
def test_any_quantity_is_read_or_refused(text: str, kind: Kind, box: bool) -> None:
    """No text typed for a quantity can bring the program down."""
    try:
        quantity = read_quantity(text, kind, box=box)
    except Unreadable as trouble:
        check_refusal(trouble, text, "quantity")
        return
    assert min(quantity.plus or 0, quantity.minus or 0) >= 0
    assert isinstance(quantity.si, float)


@given(FRACTIONS, SYSTEMS, st.integers(0, 6))
def test_printed_size_reads_back(mm: Fraction, system: System, decimals: int) -> None:
    """A size written into a document is, when read again, exactly the rounded size."""
    factor = FACTOR["in" if system == "inch" else "mm"]
    size = read_size(typed(mm, system, decimals), system)
    assert isinstance(size, Size)
    assert size.value == rounded(mm / factor, decimals) * factor
    assert abs(size.value - mm) <= factor / (2 * 10**decimals)
    assert size.step == factor / 10**decimals


@given(st.integers(-(10**7), 10**7), st.integers(0, 4))
def test_to_inches_and_back(digits: int, decimals: int) -> None:
    """A size in mm, written in inches with two digits more, comes back to the same mm."""
    mm = Fraction(digits, 10**decimals)
    size = read_size(typed(mm, "inch", decimals + 2) + " in", "mm")
    assert isinstance(size, Size)
    assert rounded(size.value, decimals) == mm


@given(st.integers(0, 99), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_bench_fractions(whole: int, above: int, below: int) -> None:
    """`1 5/8 in`, `1-5/8 in` and the same as a decimal are one size."""
    part = Fraction(above % below, below)
    texts = [f"{whole} {above % below}/{below} in", f'{whole}-{above % below}/{below}"']
    texts.append(f"{typed((whole + part) * 1, 'mm', 6)} in")
    values = {size.value for text in texts if isinstance(size := read_size(text, "mm"), Size)}
    assert values == {(whole + part) * Fraction(254, 10)}


@given(TEXTS, SYSTEMS)
def test_echo_says_what_was_read(text: str, system: System) -> None:
    """The echo itself, read again, is the size that was typed, so a misreading shows."""
    try:
        size = read_size(text, system, box=True)
    except Unreadable:
        return
    if isinstance(size, NotKnown):
        return
    own, _, _ = echo(size).partition(" = ")
    if len(own) <= 60 and size.step is not None:
        again = read_size(own, "mm")
        assert isinstance(again, Size)
        assert (again.value, again.step) == (size.value, size.step)


def test_same_text_same_answer_in_both_boxes() -> None:
    """A text that a file accepts means the same on a page."""
    for text in ("12.34", "5/8 in", "12 thou +/- 2", "not known"):
        assert read_size(text, "mm") == read_size(text, "mm", box=True)


@pytest.mark.parametrize("piece", ["1", "1 ", "-", "+/-", "'", "mm ", "1/", "½", " ", "by ", "."])
@pytest.mark.parametrize("read", [read_size, read_range])
def test_long_nonsense_is_refused_at_once(
    piece: str, read: Callable[[str, System], object]
) -> None:
    """A megabyte pasted by mistake does not hang the page (it takes a few ms; allowed is 1 s)."""
    began = time.perf_counter()
    with contextlib.suppress(Unreadable):
        read(piece * (10**6 // len(piece)), "mm")
    assert time.perf_counter() - began < 1
