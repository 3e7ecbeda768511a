"""Readings that are far out: bands are set by hand, the ones of a demo are hand sums."""

from dataclasses import replace

import pytest
from tests.app.test_judge import a_check, judged

from dryfit.app.usecases import demos
from dryfit.app.usecases.answers import ForceAnswer
from dryfit.app.usecases.choose import ChooseRequest, choose
from dryfit.app.usecases.judge import JudgeRequest, judge

DRAWS = 2000


def readings(typed: str, more: str = "") -> bytes:
    """Write readings of its end float into the feed box, which should have about 0.10 of it."""
    return demos.text("feed-box") + f"readings: {{end float: {typed}}}\n{more}".encode()


@pytest.mark.parametrize(
    ("typed", "far"),
    [
        (("900",), (0,)),
        (("0.03", "0.04", "900"), (2,)),
        (("0.9", "0.03", "0.4 in"), (0, 2)),
        (("0.35",), ()),  # 0.06 + 5 x 0.06 = 0.36
        (("0.37",), (0,)),
        (("0",), ()),
    ],
)
def test_each_reading_is_looked_at_by_itself(typed: tuple[str, ...], far: tuple[int, ...]) -> None:
    """Which of the readings lies five bands beyond 0 to 0.06 is told by its number and figure."""
    found = judged(*typed).far
    places = [
        ("readings", "end float", n) if len(typed) > 1 else ("readings", "end float") for n in far
    ]
    assert [one.place for one in found] == places
    for n, one in zip(far, found, strict=True):
        assert f"was read as {typed[n]}, and 0.00 to 0.06 mm is expected" in one.message
        assert "strike it out or type it again" in one.way_out


def test_a_band_as_narrow_as_a_yielding_row_calls_no_small_float_far_out() -> None:
    """Of rows pressed together 0 to 0.002 is expected: 0.2 is out, and no slip of the pen."""
    assert not judged("0.2", check=a_check(band=(0.0, 0.002))).far
    assert judged("0.26", check=a_check(band=(0.0, 0.002))).far


def test_a_balance_is_looked_at_in_newtons() -> None:
    """60 N where 5 to 7 are expected is told so; 12 may well be too tight."""
    check = replace(a_check(band=None), force=ForceAnswer(6.0, 5.0, 7.0), lacking=())
    (found,) = judge(JudgeRequest(check, ("60 N",), "mm")).far
    assert "was read as 60 N, and 5 to 7 N is expected" in found.message
    assert not judge(JudgeRequest(check, ("12 N",), "mm")).far


def test_a_check_that_cannot_be_told_calls_nothing_far_out() -> None:
    """Without a band there is nothing to hold a reading against."""
    assert not judged("900", check=a_check(band=None)).far


def test_the_answer_tells_it_with_its_place() -> None:
    """900 typed for 0.09 stands among the findings, at its line, and all is answered."""
    answer = choose(ChooseRequest(readings("[0.09, 0.10, 900]"), DRAWS))
    (found,) = [one for one in answer.findings if one.code == "reading.far out"]
    assert answer.answered
    assert (found.level, found.place) == ("note", ("readings", "end float", 2))
    assert found.excerpt.splitlines()[1].index("^") == found.excerpt.index("900")
    assert "it counts in the mean of all" in found.message


def test_readings_as_expected_or_plainly_out_are_no_slip_of_the_pen() -> None:
    """0.30 where 0.07 to 0.14 is expected is out, and its verdict says so: it is not far out."""
    for typed in ("[0.09, 0.10, 0.11]", "0.30"):
        answer = choose(ChooseRequest(readings(typed), DRAWS))
        assert not [one for one in answer.findings if one.code == "reading.far out"]


def test_what_is_noted_of_the_text_is_told_once() -> None:
    """A note of the text itself does not come twice where a reading is far out."""
    noted = b"notes:\n  bore:46 as told\n#"
    data = readings("900").replace(b"notes:", noted, 1)
    codes = [one.code for one in choose(ChooseRequest(data, DRAWS)).findings]
    assert codes == ["value.colon", "reading.far out"]
