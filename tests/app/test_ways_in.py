"""Ways in beside the line: openings, halves of a split case, wheels that are put on their shaft."""

import pytest

from dryfit.app.usecases.demos import text
from dryfit.app.usecases.order import OrderRequest, order
from dryfit.app.usecases.ordering.answers import OrderAnswer

SPLIT = b"""
dryfit: 1
sizes in: mm
title: A shaft between two lips
lines:
  shaft:
    from left to right:
      left in the case:   [case.left register, left bearing]
      left on the shaft:  [left bearing, shaft.left shoulder]
      right on the shaft: [shaft.right shoulder, right bearing]
      right in the case:  [right bearing, case.right register]
parts:
  case:
    kind: housing
    split along: [shaft]
    bore: {left mouth to left register: 36, left register to right register: 52, right register to right mouth: 36}
    outside: {left mouth to right mouth: 80}
  shaft: {kind: shaft, outside: {first end to left shoulder: 25, left shoulder to right shoulder: 40, right shoulder to last end: 25}}
  left bearing:  {kind: deep groove ball, bore: 25, outside: 52, width: 15}
  right bearing: {kind: deep groove ball, bore: 25, outside: 52, width: 15}
sizes:
  case.left register to case.right register: 110.10
  case.left register to case.left mouth: -6
  case.right register to case.right mouth: 6
  shaft.left shoulder to shaft.right shoulder: 80.00
  shaft.left shoulder to shaft.first end: -40
  shaft.right shoulder to shaft.last end: 40
checks:
  end float: {kind: end float, of: shaft}
"""  # noqa: E501


def _off(answer: OrderAnswer) -> list[tuple[tuple[str, ...], str]]:
    return [(one.parts, one.way) for one in answer.strip]


def _told(answer: OrderAnswer, code: str) -> list[str]:
    return [found.message for found in answer.findings if found.code == code]


def _names(answer: OrderAnswer) -> list[str]:
    return [step.name for step in answer.steps]


def test_wheel_of_the_bevel_box_goes_in_by_its_opening() -> None:
    """The wheel comes off its shaft inside the case and out at the side; the shaft goes in with
    its bearing alone, and nothing is told as having no way."""
    answer = order(OrderRequest(text("bevel-box")))
    assert (("wheel shaft, gear of bevels",), "out of the opening") in _off(answer)
    assert (("wheel shaft", "inner bearing"), "to cover") in _off(answer)
    assert _told(answer, "plan.no way") == []
    names = _names(answer)
    assert names.index("wheel shaft with what is on it") < names.index(
        "wheel shaft, gear of bevels"
    )


@pytest.mark.parametrize(
    ("opening", "window", "told"),
    [
        # over the tips, by hand: 120 + 2 x 4 cos(atan(30/20)) = 124.4
        ("inside to chamber: 120", 20, "'case' (it is 120.0 wide, and 124.4 are needed)"),
        ("window to chamber: 130", 40, "'case' (it is 9.0 long, and 22.7 are needed)"),
    ],
)
def test_opening_too_small_is_told_with_what_is_needed(
    opening: str, window: int, told: str
) -> None:
    """A wheel wider or longer than the opening is told with the figures to look at."""
    (note, *_) = _told(_with_window(opening, window), "plan.no way")
    assert note.startswith("'wheel shaft, gear of bevels' does not come off")
    assert told in note


def test_wheel_goes_along_first_where_the_opening_lies_beside() -> None:
    """An opening that ends 30 mm before the wheel's back still lets it out: off its shaft first."""
    answer = _with_window("inside to window: 130", 20)
    assert (("wheel shaft, gear of bevels",), "out of the opening") in _off(answer)


def _with_window(opening: str, window: int) -> OrderAnswer:
    """Give the bevel box with another opening, and a spot of the case so far from the crossing."""
    changed = text("bevel-box").replace(b"inside to chamber: 130", opening.encode(), 1)
    sizes = f"sizes:\n  case.wheel crossing to case.window: {window}\n"
    return order(OrderRequest(changed.replace(b"sizes:\n", sizes.encode(), 1)))


def test_wheel_cut_from_its_shaft_keeps_the_bearing_off() -> None:
    """With the wheel in one piece with its shaft the bearing behind it has no way on: that is told
    with what stops it each way, and so it is not before the word for a wheel of its own."""
    cut = text("bevel-box").replace(b"gears put on: [bevels], ", b"")
    notes = _told(order(OrderRequest(cut)), "plan.no way")
    assert any(
        note.startswith("'inner bearing' does not come off")
        and "to cover: 'wheel shaft'" in note
        and "to crossing: 'case', 'wheel shaft'" in note
        for note in notes
    )


def test_cluster_goes_in_by_the_opening_above_it() -> None:
    """Between two cheeks the cluster and its washers go in from the side, each by itself."""
    answer = order(OrderRequest(text("lay-shaft")))
    assert {way for _, way in _off(answer)} == {"out of the opening"}
    assert _told(answer, "plan.no way") == []


def test_split_case_is_parted_first_and_closed_last() -> None:
    """The upper half comes off, the shaft is lifted out with both bearings; built, the shaft is
    laid in before the upper half, and its bolts follow that."""
    answer = order(OrderRequest(SPLIT))
    assert _off(answer)[0] == (("case, upper half",), "outwards")
    names = _names(answer)
    assert names.index("shaft") < names.index("case, upper half")
    assert names.index("case, upper half") < names.index("screws of case")
    assert names.index("screws of case") < names.index("read end float")
    assert {found.code for found in answer.findings} == {"plan.fits"}  # no seat was measured


def test_split_case_is_parted_before_what_would_come_out_along_the_line() -> None:
    """With its right end as wide as the bearing there that could be drawn out to the right, and so
    the shaft after it; a case that parts is parted first all the same."""
    wide = SPLIT.replace(b"right register to right mouth: 36", b"right register to right mouth: 52")
    assert _off(order(OrderRequest(wide)))[0] == (("case, upper half",), "outwards")


def test_case_in_one_piece_locks_the_same_shaft() -> None:
    """Without the split neither bearing gets past its lip: each is told, with what to write."""
    answer = order(OrderRequest(SPLIT.replace(b"    split along: [shaft]\n", b"")))
    notes = _told(answer, "plan.no way")
    assert {note.split("'")[1] for note in notes} == {"shaft", "left bearing", "right bearing"}
    assert any("split along: [shaft]" in found.way_out for found in answer.findings)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        (b"[shaft]\n    bore", b"[shft]\n    bore", "did you mean 'shaft'?"),
        (b"gears put on: [bevels]", b"gears put on: [bevel]", "did you mean 'bevels'?"),
        (b"{inside to chamber: 130}", b"{inside to chamber: -130}", "larger than 0"),
        (b"{inside to chamber: 130}", b"{inside to chambre: 130}", "'chamber'"),
    ],
)
def test_slip_in_these_words_is_told(old: bytes, new: bytes, told: str) -> None:
    """A line, mesh or spot that is not there, or a width of less than nothing, is told."""
    data = SPLIT if b"shft" in new else text("bevel-box")
    assert old in data
    answer = order(OrderRequest(data.replace(old, new)))
    assert any(told in found.way_out for found in answer.findings)
