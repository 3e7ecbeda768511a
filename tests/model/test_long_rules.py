"""Lengths longer than a machine: an estimate of ours, so only its two limits are held here."""

import pytest
from tests.model.test_walk_rules import TEXT

from dryfit.app.usecases.choose import ChooseRequest, choose
from dryfit.document.read import read_document
from dryfit.model.rules import check


def _told(was: str, now: str) -> list[tuple[str, tuple[str | int, ...], str]]:
    """Give level, place and words of what is too long."""
    assert was in TEXT
    document = read_document(TEXT.replace("walks:\n", "").replace(was, now))
    assert not document.findings
    return [
        (f.level, f.place, f"{f.message} -> {f.way_out}")
        for f in check(document.rebuild)
        if f.code == "size.long"
    ]


@pytest.mark.parametrize(
    ("was", "now", "place", "called"),
    [
        ("shaft: 98.00", "shaft: 5000 m", ("sizes", "shaft"), "'shaft' was"),
        (
            "boss: -1.38",
            "boss: -138000",
            ("sizes", "cover.flange to cover.boss"),
            "'cover.flange to cover.boss' was",
        ),
        (
            "shaft}\n  shim",
            "shaft, outside: 5000 m}\n  shim",
            ("parts", "shaft", "outside"),
            "outside of 'shaft' was",
        ),
        (
            "housing}",
            "housing, bore: {face to joint: 4600000 in}}",
            ("parts", "case", "bore", "face to joint"),
            "bore of 'case' face to joint was",
        ),
        (
            "[0.05, 0.10]}",
            "[0.05, 0.10], fitted: 500 m}",
            ("settings", "shim", "fitted"),
            "'shim' as fitted was",
        ),
    ],
)
def test_what_is_longer_than_any_machine_stops_at_its_place(
    was: str, now: str, place: tuple[str | int, ...], called: str
) -> None:
    """A shaft of 5 km is a slip: where it stands, what was read, the limit and the way out."""
    ((level, where, words),) = _told(was, now)
    assert (level, where) == ("stop", place)
    assert called in words
    assert "no part of a machine is longer than 100 m -> look at the point and at the unit" in words


@pytest.mark.parametrize(
    ("typed", "levels"),
    [("10 m", []), ("10000.1", ["note"]), ("100 m", ["note"]), ("100000.1", ["stop"])],
)
def test_a_line_shaft_is_noted_and_answered(typed: str, levels: list[str]) -> None:
    """More than 10 m is worth a look, more than 100 m no part."""
    assert [level for level, _, _ in _told("shaft: 98.00", f"shaft: {typed}")] == levels


def test_a_length_of_fifty_noughts_is_told_at_once() -> None:
    """Nothing is worked out for it, for that would take for ever."""
    text = TEXT.replace("walks:\n", "").replace("98.00", "1" + 50 * "0")
    answer = choose(ChooseRequest(text.encode(), 2000))
    assert not answer.answered
    assert "size.long" in [one.code for one in answer.findings]
