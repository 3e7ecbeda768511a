"""Slips at the bench: the place, what was read, and a way out that can be taken there."""

from importlib.resources import files

import pytest
from click.testing import CliRunner

from dryfit.app.cli.main import cli
from dryfit.app.usecases.review import ReviewRequest, review

TEXT = (files("dryfit.app") / "demos" / "feed-box.yaml").read_text(encoding="utf-8")
DRAWER = "made from: [0.05, 0.10, 0.25, 0.50]"
WANT = "want: 0.05 to 0.15"
AS_FOUND = "as found:\n  readings: {end float: 0.42}\n  sizes: {shaft: 148,68}\nchecks:\n"


@pytest.mark.parametrize(
    ("typed", "instead"),
    [
        ("0.50]}", "0.50], fitted: thick}"),
        ("[0.05, 0.10", "[thin, 0.10"),
        (DRAWER, "one of: [thin]"),
        (DRAWER, "cut to size: fine"),
        (WANT, "want: snug"),
        (WANT, "want: 0.05 to loose"),
    ],
)
def test_not_known_is_not_offered_where_it_is_no_answer(typed: str, instead: str) -> None:
    """The way out is one that will be read."""
    assert typed in TEXT
    (found,) = review(ReviewRequest(TEXT.replace(typed, instead).encode())).findings
    assert found.message.startswith("no number begins")
    assert "12.34" in found.way_out
    assert "not known" not in found.way_out


def test_not_known_is_offered_for_a_size() -> None:
    """A length may be left open, and that is said."""
    (found,) = review(ReviewRequest(TEXT.replace("148.70", "long").encode())).findings
    assert found.way_out.endswith("or: not known")


@pytest.mark.parametrize("want", ["light", "none to medium", "5 to 10 N", "at least 20 lbf"])
def test_preload_wanted_of_a_float(want: str) -> None:
    """N is not taken for inches, nor a word for a bad number: it is a preload."""
    (found,) = review(ReviewRequest(TEXT.replace(WANT, f"want: {want}").encode())).findings
    assert found.message == f"'{want}' is a preload, and here limits of a length are wanted"
    assert "kind: preload" in found.way_out


def test_comma_within_brackets_is_told_as_one() -> None:
    """148,68 in a list of keys is cut at its comma: a point is what is missing."""
    answer = review(ReviewRequest(TEXT.replace("checks:\n", AS_FOUND).encode()))
    told = [f.way_out for f in answer.findings if f.code == "name.no colon"]
    assert len(told) == 1
    assert told[0].endswith("a decimal has a point, not a comma")


def test_reading_of_the_wrong_sort_is_told_in_english() -> None:
    """An end float, not a end float."""
    text = TEXT.replace("checks:\n", "readings:\n  end float: 6 N\nchecks:\n")
    (found,) = review(ReviewRequest(text.encode())).findings
    assert found.message == "an end float shows a length"


def _walk(*words: str) -> str:
    done = CliRunner().invoke(cli, ["walk", *words])
    assert done.exit_code == 1
    return " ".join(done.output.split())


def test_float_typed_without_its_point() -> None:
    """82 for 0.082: no dial reads that, and the walk is not sent on by 5 700 degrees."""
    told = _walk("--pitch", "1.5", "0 deg: 82", "10 deg: 41", "15 deg: 20")
    assert told.count("more than the 10 mm that a dial on the bench travels") == 3
    assert "a float of 82 is 82 mm" in told
    assert "0.082, 82 um, 3 thou" in told


def test_walk_never_offers_not_known() -> None:
    """Every mark, float and option of a walk has to be there."""
    told = _walk("--pitch", "coarse", "--across", "wide", "0 deg: thin", "10 deg:")
    assert told.count("no number begins") == 3
    assert "nothing was typed for a length" in told
    assert "not known" not in told


def test_both_of_a_row_are_told_at_once() -> None:
    """A pack that is no size does not hide a float with a minus in the same row."""
    told = _walk("--pitch", "1.5", "slack: -0.1", "10 deg: 0.04", "20 deg: 0.02")
    assert "no number begins 'slack'" in told
    assert "less than nothing" in told


BEVEL = (files("dryfit.app") / "demos" / "bevel-box.yaml").read_text(encoding="utf-8")


def test_metric_bearings_in_an_inch_document() -> None:
    """The wrong unit at the top makes bores of a metre: told at each bearing, no traceback."""
    text = BEVEL.replace("sizes in: mm", "sizes in: inch")
    answer = review(ReviewRequest(text.encode()))
    told = [f for f in answer.findings if f.code == "bearing.bore"]
    assert len(told) == BEVEL.count("kind: angular contact ball")
    assert all("right unit" in found.way_out for found in told)
