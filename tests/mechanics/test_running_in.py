"""The course of a run: on worked curves of a body that warms, with and without noise."""

from math import exp
from random import Random

import pytest

from dryfit.mechanics.running_in import LEVEL, Shape, course

FIVE = [5.0 * n for n in range(13)]
"""Read every five minutes for an hour."""


def warming(
    rise: float, lag: float, *, room: float = 20.0, until: float = 60.0
) -> tuple[list[float], list[float]]:
    """Warm as T = room + rise (1 - exp(-t/lag)).

    Incropera, Fundamentals of Heat and Mass Transfer, 6th ed., eq. 5.6 and 5.7 (from memory): after
    one lag 63.2 in a hundred of the rise are done, after three 95.0.
    """
    minutes = [when for when in FIVE if when <= until]
    return minutes, [room + rise * (1 - exp(-when / lag)) for when in minutes]


def kind(rise: float, lag: float, *, until: float = 60.0, whole: bool = True) -> Shape:
    """Tell the course, read to whole degrees as most guns show."""
    minutes, degrees = warming(rise, lag, until=until)
    return course(minutes, [round(d) if whole else d for d in degrees], 20.0).shape


def test_the_curve_itself() -> None:
    """What is tried here is the curve of the textbook: 12.64 of 20 after one lag."""
    assert warming(20.0, 15.0, until=15.0)[1][-1] == pytest.approx(32.642, abs=1e-3)


@pytest.mark.parametrize(
    ("until", "told"),
    [(5, "short"), (10, "short"), (20, "rising"), (30, "rising"), (45, "levelled")],
)
def test_a_sound_run_levels(until: float, told: str) -> None:
    """A rise of 17 with a lag of 15 min: by hand it rises 0.30 a minute about 20 min, 0.09 at 38.

    17/15 exp(-20/15) = 0.299 and 17/15 exp(-38/15) = 0.090; so it still rises at 30 min, for which
    the rate is told about 22 min, and has levelled at 45.
    """
    assert kind(17.0, 15.0, until=until) == told


def test_the_log_of_a_drive() -> None:
    """21 to 38 in 40 min: by hand the last four of them rise 17.5/125 = 0.14 a minute."""
    log = [21, 26, 30, 33, 35, 36, 37, 38, 38]
    found = course(FIVE[:9], log, 21.0)
    assert (found.shape, found.rise) == ("levelled", 17)
    assert found.rate == pytest.approx(0.14)


def test_a_slow_heavy_case_is_still_rising_after_an_hour() -> None:
    """A rise of 35 with a lag of an hour: 35/60 exp(-52/60) = 0.245 a minute, over 0.15."""
    assert kind(35.0, 60.0) == "rising"


@pytest.mark.parametrize("log", [[20, 31, 43, 54], [20, 35, 51, 58]])
def test_a_ring_that_cannot_slide_is_stopped(log: list[float]) -> None:
    """Over 1 degree a minute after half an hour: stop, before it is too hot to touch."""
    assert course([0, 10, 20, 30], log, 20.0).shape == "fast"


def test_fast_at_first_is_no_reason_to_stop() -> None:
    """Every run rises fast in its first quarter of an hour."""
    assert course([0, 5, 10, 15], [20, 26, 32, 38], 20.0).shape == "rising"


@pytest.mark.parametrize(("top", "told"), [(59.9, "rising"), (60.0, "hot")])
def test_too_hot_is_said_whatever_the_course(top: float, told: str) -> None:
    """60 degrees on the outside is the end of it, at the limit too, and after it has cooled."""
    assert course([0, 5, 10, 15], [20, 40, 50, top], 20.0).shape == told
    assert course([0, 5, 10, 15], [20, top, 59, 58], 20.0).shape != "levelled"


def test_fresh_grease_has_a_peak() -> None:
    """A churn that dies away over a sound rise: 15 (1 - exp(-t/12)) + 30 exp(-t/40)(1 - exp(-t/8)).

    By hand 10.7 + 16.7 = 27.4 at 15 min, 12.2 + 16.7 = 28.9 at 20, 13.1 + 15.3 = 28.5 at 25,
    13.8 + 13.8 = 27.6 at 30: its peak is about 20 min, and then it falls back.
    Read to whole degrees and smoothed over three, 15 min is as warm.
    """
    minutes = [5.0 * n for n in range(25)]
    log = [20 + 15 * (1 - exp(-t / 12)) + 30 * exp(-t / 40) * (1 - exp(-t / 8)) for t in minutes]
    found = course(minutes, [round(d) for d in log], 20.0)
    assert found.shape == "peaked"
    assert found.peak[0] in (15.0, 20.0, 25.0)


def test_a_peak_from_which_it_rises_again_is_rising() -> None:
    """What has peaked and rises anew is not let go on unseen."""
    log = [20, 30, 38, 40, 37, 35, 35, 37, 40, 43]
    assert course(FIVE[:10], log, 20.0).shape == "rising"


def test_one_reading_out_of_line_is_no_peak() -> None:
    """A gun held askew once does not make grease of it."""
    log = [20, 27, 31, 33, 45, 35, 36, 36, 36, 36, 36, 36]
    assert course(FIVE[:12], log, 20.0).shape == "levelled"


def test_noise_of_a_gun_does_not_hide_a_level() -> None:
    """With readings off by up to 1 degree, 19 in 20 sound runs of an hour are called levelled.

    By hand: the slope of four readings over 15 min is then off by 0.58/sqrt(125) = 0.05 (one
    standard deviation), and a lag of 12 min leaves 0.02: 0.15 is two and a half of them away.
    """
    told = []
    for seed in range(200):
        noise = Random(seed)
        minutes, degrees = warming(17.0, 12.0)
        read = [d + noise.uniform(-1, 1) for d in degrees]
        told.append(course(minutes, read, 20.0).shape)
    assert told.count("levelled") >= 190


def test_noise_does_not_hide_what_rises() -> None:
    """A steady 1.3 a minute is stopped at half an hour, read off by up to 1 degree."""
    for seed in range(200):
        noise = Random(seed)
        log = [20 + 1.3 * when + noise.uniform(-1, 1) for when in FIVE[:7]]
        assert course(FIVE[:7], log, 20.0).shape == "fast"


def test_a_rate_is_not_taken_of_a_moment() -> None:
    """Three readings within ten minutes say nothing yet; over a quarter of an hour they do."""
    assert course([0, 5, 10], [20, 25, 29], 20.0).rate is None
    assert course([0, 8, 15], [20, 21, 22], 20.0).rate == pytest.approx(0.133, abs=1e-3)


def test_order_of_typing_does_not_matter() -> None:
    """A reading that was forgotten may be typed later."""
    log = dict(zip(FIVE[:9], [21, 26, 30, 33, 35, 36, 37, 38, 38], strict=True))
    back = sorted(log, reverse=True)
    assert course(back, [log[m] for m in back], 21.0).rate == pytest.approx(LEVEL - 0.01)
