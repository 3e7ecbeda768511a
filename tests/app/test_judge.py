"""The verdict on a reading. Bands and readings are set by hand, so are the verdicts."""

import pytest

from dryfit.app.usecases.answers import CheckAnswer, ForceAnswer, LackingAnswer, WantedAnswer
from dryfit.app.usecases.judge import JudgeAnswer, JudgeRequest, doubt_of, judge
from dryfit.app.words.figures import Figures
from dryfit.app.words.judged import told_value, verdict
from dryfit.document.read import read_document
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import System, Unreadable


def a_check(
    band: tuple[float, float] | None = (0.00, 0.06),
    wanted: tuple[float | None, float | None] | None = (0.02, 0.05),
    rare: tuple[float, float] | None = None,
) -> CheckAnswer:
    """End float: nine in ten from 0 to 0.06, wanted 0.02 to 0.05; as in the mock of a page."""
    low, high = band or (None, None)
    least, most = rare or band or (None, None)
    return CheckAnswer(
        name="end float",
        kind="end float",
        what="shaft",
        by="dial indicator",
        state="built",
        expected_mm=None if low is None or high is None else (low + high) / 2,
        low_mm=low,
        high_mm=high,
        too_long_by_mm=0.0,
        wanted=wanted
        and WantedAnswer("float", "shaft", "built", *wanted, "as typed", "it binds", "it rattles"),
        within=None,
        more=(),
        less=(),
        lacking=() if band else (LackingAnswer("spacer", 1.0),),
        read=None,
        least_mm=least,
        most_mm=most,
    )


def judged(
    *typed: str, check: CheckAnswer | None = None, system: System = "mm", doubt: float = 0.0
) -> JudgeAnswer:
    """Judge readings."""
    return judge(JudgeRequest(check or a_check(), typed, system, doubt))


MM = Figures("mm", both=True)


@pytest.mark.parametrize(
    ("typed", "system", "sort", "side"),
    [
        ("0.03", "mm", "fits", ""),
        ("0.11", "mm", "out", "more"),
        ("0", "mm", "out", "less"),
        ("0.0012", "inch", "fits", ""),  # 0.030 mm
        ("0.0043", "inch", "out", "more"),  # 0.109 mm
        ("0.3 thou", "inch", "out", "less"),  # 0.008 mm
        ("4.3 thou", "mm", "out", "more"),
    ],
)
def test_more_and_less_in_both_systems(typed: str, system: System, sort: str, side: str) -> None:
    """A reading too large is called more, one too small less, in thou as in millimetres."""
    found = judged(typed, system=system)
    assert (found.sort, found.side) == (sort, side)


@pytest.mark.parametrize("typed", ["0.02", "0.020", "0.05", "0.050"])
def test_a_limit_belongs_to_what_is_wanted(typed: str) -> None:
    """A reading on the limit fits, whichever way it is written."""
    assert judged(typed).sort == "fits"


@pytest.mark.parametrize(
    ("typed", "high"), [("0.06", 0.055), ("0.060", 0.0595), ("1/16 in", 1.5875)]
)
def test_the_last_that_is_written_like_the_limit_belongs_to_it(typed: str, high: float) -> None:
    """0.06 may be 0.055, which is inside; a fraction has no rounding, and 1/16 in is 1.5875 mm."""
    check = a_check(band=(-1.0, high), wanted=None)
    assert judged(typed, check=check).sort == "fits"
    check = a_check(band=(-1.0, high - 0.0001), wanted=None)
    assert judged(typed, check=check).sort == "out"


def test_nothing_is_inside_where_nothing_is_wanted() -> None:
    """A plain 0 on a limit of 0 fits: the pointer did not move, and that is what is wanted."""
    assert judged("0", check=a_check(band=(0.0, 0.0), wanted=(0.0, 0.0))).sort == "fits"


def test_a_limit_in_inches_holds_for_a_reading_in_inches() -> None:
    """Wanted at most 2 thou, 0.0508 mm: 2 thou read fits, though no binary fraction is that."""
    check = a_check(wanted=(0.0254, 0.0508))
    assert judged("0.002", check=check, system="inch").sort == "fits"
    assert judged("0.0508", check=check).sort == "fits"


@pytest.mark.parametrize(("typed", "sort"), [("0.06", "fits"), ("0.064", "again"), ("0.07", "out")])
def test_what_was_typed_is_taken_as_rounded(typed: str, sort: str) -> None:
    """0.06 stands for all from 0.055 to 0.065: a band up to 0.056 holds it, and 0.064 it does not.

    Of 0.064, typed to 0.001, the excess is 0.008: within the doubt of 0.010. Of 0.07 it is 0.014.
    """
    check = a_check(band=(0.0, 0.056), wanted=None)
    assert judged(typed, check=check, doubt=0.010).sort == sort


@pytest.mark.parametrize(
    ("typed", "sort"), [("0.060", "again"), ("0.061", "out"), ("0.010", "again"), ("0.009", "out")]
)
def test_just_outside_by_what_the_instrument_may_be_off(typed: str, sort: str) -> None:
    """A dial may be off by 0.010 (DIN 878, as the table has it): 0.060 for 0.050 is read again."""
    doubt = doubt_of(Rebuild("mm"), "dial indicator", 0.06)
    assert doubt == pytest.approx(0.010)
    assert judged(typed, doubt=doubt, check=a_check(band=(-1.0, 1.0))).sort == sort


def test_doubt_typed_with_a_reading_counts_before_that_of_the_instrument() -> None:
    """Who writes how sure the reading is, is believed."""
    assert judged("0.070 +/- 0.03", doubt=0.01).sort == "again"
    assert judged("0.070 +/- 0.001", doubt=0.1).sort == "out"


def test_an_instrument_of_ones_own_has_its_own_doubt() -> None:
    """A worn dial that the text lists with a limit is not trusted further than that."""
    text = (
        "dryfit: 1\nsizes in: mm\ninstruments:\n  old clock: {like: dial indicator, limit: 0.03}\n"
    )
    rebuild = read_document(text).rebuild
    assert doubt_of(rebuild, "old clock", 0.06) == pytest.approx(0.03)
    assert doubt_of(rebuild, "a spoon", 0.06) == 0.0


def test_within_what_is_wanted_but_not_what_the_sizes_say() -> None:
    """Two wrongs that make a right are not called fit: it says that something differs."""
    found = judged("0.049", check=a_check(band=(0.02, 0.03)), doubt=0.01)
    assert (found.sort, found.side) == ("again", "more")
    told = verdict(found, a_check(), MM).told
    assert told == "within what is wanted, but 0.019 mm more than your sizes explain: find out why"


def test_at_the_edge_of_what_is_expected() -> None:
    """One reading in ten lies beyond the band: what is rare, but not beyond all, is read again."""
    check = a_check(band=(0.10, 0.20), wanted=None, rare=(0.05, 0.25))
    assert judged("0.24", check=check, doubt=0.01).sort == "again"
    assert judged("0.27", check=check, doubt=0.01).sort == "out"


def test_nothing_known_is_said_so() -> None:
    """Where a size is not known and nothing is wanted, no verdict is made up."""
    check = a_check(band=None, wanted=None)
    found = judged("0.03", check=check)
    assert found.sort == "unknown"
    assert "until this is measured: spacer" in verdict(found, check, MM).told


def test_what_is_wanted_is_judged_without_what_is_expected() -> None:
    """What is wanted is enough for a verdict; that more is not known is said."""
    check = a_check(band=None)
    assert judged("0.03", check=check).sort == "fits"
    assert judged("0.2", check=check).sort == "out"


def test_a_limit_on_one_side_only() -> None:
    """At most 0.05: nothing is too little."""
    check = a_check(band=(-1.0, 1.0), wanted=(None, 0.05))
    assert judged("0.00", check=check).sort == "fits"
    assert judged("0.08", check=check).side == "more"


def test_a_reading_too_coarse_for_what_is_wanted() -> None:
    """0.1 may be anything from 0.05 to 0.15: it does not say whether 0.02 to 0.05 is met."""
    found = judged("0.1", check=a_check(band=(0.0, 0.2)))
    assert (found.sort, found.coarse) == ("again", True)


def test_a_balance_is_judged_in_newtons() -> None:
    """Nine in ten from 5 to 7 N: 6.5 fits, 9 is more, 1 lbf (4.448 N) less."""
    check = a_check(band=None, wanted=None)
    check = CheckAnswer(**{**vars(check), "force": ForceAnswer(6.0, 5.0, 7.0, 5.0, 7.0)})
    assert judged("6.5 N", check=check).sort == "fits"
    assert (judged("9 N", check=check).sort, judged("9 N", check=check).side) == ("out", "more")
    assert judged("1.000 lbf", check=check).side == "less"


def test_several_readings_are_judged_by_their_mean() -> None:
    """Read three times, as every check says: 0.02, 0.03 and 0.04 make 0.03."""
    found = judged("0.02", "0.03", "0.04")
    assert (found.sort, found.count) == ("fits", 3)
    assert found.value == pytest.approx(0.03)
    told = told_value(found, MM)
    assert told.startswith("0.03 mm (0.0012 in), mean of 3: 0.02 to 0.04 mm")


def test_the_verdict_says_by_how_much_and_what_it_means() -> None:
    """Out is said with the amount and with what was written for that side."""
    assert verdict(judged("0.11"), a_check(), MM).told == "0.06 mm more than wanted: it rattles"
    assert verdict(judged("0"), a_check(), MM).told == "0.02 mm less than wanted: it binds"


def test_what_is_no_reading_is_refused() -> None:
    """Two numbers are not one reading."""
    with pytest.raises(Unreadable):
        judged("0.1 0.2")
