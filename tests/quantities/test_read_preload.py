"""What a preload is wanted to be, as typed."""

import pytest

from dryfit.quantities import Unreadable, read_preload


@pytest.mark.parametrize(
    ("text", "classes", "low", "high"),
    [
        ("light", ("light", "light"), None, None),
        ("none to light", ("none", "light"), None, None),
        ("Light to Medium", ("light", "medium"), None, None),
        ("150 to 400 N", None, 150.0, 400.0),
        ("0.15 to 0.4 kN", None, 150.0, 400.0),
        ("150 N to 0.4 kN", None, 150.0, 400.0),
        ("at least 100 N", None, 100.0, None),
        ("at most 50 lbf", None, None, 222.4111),
    ],
)
def test_words_and_forces(
    text: str, classes: tuple[str, str] | None, low: float | None, high: float | None
) -> None:
    """Words of the trade, or forces with their unit; 1 lbf = 4.448222 N (NIST SP 811, memory)."""
    found = read_preload(text)
    assert found.classes == classes
    assert found.low == (None if low is None else pytest.approx(low, rel=1e-6))
    assert found.high == (None if high is None else pytest.approx(high, rel=1e-6))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("harmful", "nobody wants"),
        ("light to harmful", "nobody wants"),
        ("medium to light", "write light to medium"),
        ("400 to 150 N", "the larger"),
        ("some", "no limits"),
        ("150 N", "no limits"),
        ("150 to 400", "150 to 400 N"),
        ("0.05 to 0.15 mm", "150 to 400 N"),
        ("", "no limits"),
        ("-5 to 10 N", "cannot be less than nought"),
        ("at least -5 N", "cannot be less than nought"),
    ],
)
def test_what_cannot_be_read_is_told_with_a_way_out(text: str, words: str) -> None:
    """Nothing is guessed."""
    with pytest.raises(Unreadable) as told:
        read_preload(text)
    assert words in str(told.value)
