"""Lands are read as typed, each slip with them is told at its line, and a rename leaves them be."""

import pytest

from dryfit.app.usecases.opening import FindingAnswer, open_text
from dryfit.document.edit import Edit
from dryfit.document.mentions import change
from dryfit.document.read import read_document
from dryfit.model.lands import Land
from dryfit.model.parts import Housing, Shaft
from dryfit.quantities import NotKnown, Size

TEXT = """\
dryfit: 1
sizes in: mm
lines:
  spindle:
    from nose to tail:
      on the shaft: [spindle.shoulder, front, nut]
      in the case:  [case.register, front, cover.spigot]
      joint:        [case.joint, cover.flange]
parts:
  case:    {kind: housing, bore: {register to joint: 80.005 by bore gauge}, outside: 120}
  cover:   {kind: cover}
  spindle:
    kind: shaft
    outside:
      nose to shoulder: 70
      thread to shoulder: 40.010 by micrometer
      thread to last end: 39.8
    bore: {nose to shoulder: 30, shoulder to last end: not known}
  front:   {kind: deep groove ball, bore: 40, outside: 80, width: 18}
  nut:     {kind: nut, thread: M40x1.5, torque: 50 N.m, outside: 58}
  washer:  {kind: thrust washer, bore: 41, outside: 60}
sizes:
  case.register to case.joint: 20.00
  cover.flange to cover.spigot: -1.90
  spindle.nose to spindle.shoulder: 60
  spindle.shoulder to spindle.thread: 30
"""


def _told(old: str, new: str) -> dict[str, FindingAnswer]:
    assert old in TEXT
    opened = open_text(TEXT.replace(old, new, 1))
    return {f.code: f for f in opened.findings}


def test_lands_are_kept_as_typed() -> None:
    """Names, order and digits of each land are kept, and one size for all is one size."""
    document = read_document(TEXT)
    assert document.findings == ()
    spindle, case = (document.rebuild.parts[name] for name in ("spindle", "case"))
    assert isinstance(spindle, Shaft)
    assert isinstance(case, Housing)
    assert isinstance(spindle.outside, tuple)
    assert [land.key for land in spindle.outside] == [
        "nose to shoulder",
        "thread to shoulder",
        "thread to last end",
    ]
    assert [getattr(land.size, "text", None) for land in spindle.outside] == [
        "70",
        "40.010 by micrometer",
        "39.8",
    ]
    assert isinstance(spindle.bore, tuple)
    assert isinstance(spindle.bore[1].size, NotKnown)
    assert isinstance(case.outside, Size)
    assert isinstance(case.bore, tuple)
    (pocket,) = case.bore
    assert isinstance(pocket, Land)
    assert (pocket.start, pocket.end) == ("register", "joint")


def test_a_unit_with_lands_is_sound() -> None:
    """Nothing is found wrong, and a washer that lies in no stack is the only thing noted."""
    opened = open_text(TEXT)
    assert not opened.stopped
    assert [f.code for f in opened.findings] == ["part.idle"]


SLIPS = [
    ("nose to shoulder: 70", "nose: 70", "land.between", "nose to shoulder: 70"),
    ("nose to shoulder: 70", "nose to: 70", "land.between", "SPOT to SPOT"),
    ("nose to shoulder: 70", "nose to shoulder to thread: 70", "land.between", "SPOT to SPOT"),
    (
        "nose to shoulder: 70",
        "spindle.nose to spindle.shoulder: 70",
        "land.part",
        "nose to shoulder",
    ),
    ("nose to shoulder: 70", "nose to nose: 70", "land.nowhere", "two ends"),
    ("nose to shoulder: 70", "nose to shoulder: 0", "size.not positive", "larger than 0"),
    ("nose to shoulder: 70", "nose to shoulder: -70", "size.not positive", "larger than 0"),
    ("nose to shoulder: 70", "nose to shoulder: '70,5'", "size.comma", "70.5"),
    ("nose to shoulder: 70", "nose to shoulder: [70]", "shape.value", "type one"),
    ("nose to shoulder: 30", "nose to shoulder: 70", "land.wall", "exchange the two"),
    ("nose to shoulder: 30", "shoulder to nose: 71", "land.wall", "exchange the two"),
    ("outside: 120}", "outside: 80}", "land.wall", "exchange the two"),
    ("outside: 120}", "outside: 0}", "size.not positive", "larger than 0"),
    ("bore: {register to joint: 80.005 by bore gauge}", "bore: 130", "size.order", "exchange"),
    ("bore: {register to joint: 80.005 by bore gauge}", "bore: [80]", "shape.value", "type one"),
    ("thread to last end: 39.8", "shoulder to thread: 39.8", "land.twice", "take one"),
    ("thread to last end: 39.8", "thread to shoulder: 39.8", "name.twice", "delete one"),
    ("thread to last end: 39.8", "thred to last end: 39.8", "land.spot", "'thread'"),
    (
        "thread to last end: 39.8",
        "spline to last end: 39.8",
        "land.spot",
        "add spindle.nose to spindle.spline: SIZE",
    ),
    ("39.8", "39.8 by mikrometer", "instrument.unknown", "micrometer"),
    ("80.005 by bore gauge", "80.005 by bor gauge", "instrument.unknown", "bore gauge"),
    ("outside: 58", "outside: 0", "size.not positive", "larger than 0"),
    ("bore: 41, outside: 60", "bore: 60, outside: 41", "size.order", "exchange"),
    ("bore: 41, outside: 60", "bore: 41, outsde: 60", "key.unknown", "'outside'"),
    ("bore: 41, outside: 60", "bore: {nose to tail: 41}, outside: 60", "shape.value", "type one"),
]


@pytest.mark.parametrize(
    ("old", "new", "code", "way_out"), SLIPS, ids=[f"{n[:34]}" for _, n, _, _ in SLIPS]
)
def test_slip_with_a_land_is_told(old: str, new: str, code: str, way_out: str) -> None:
    """Each slip is told at its line with a way out that names what to type."""
    told = _told(old, new)
    assert code in told, list(told)
    assert told[code].message
    assert way_out in told[code].way_out
    line = next(n for n, row in enumerate(TEXT.splitlines(), 1) if old in row)
    assert told[code].line == line


def test_a_spot_without_a_place_is_noted_and_no_more() -> None:
    """A land whose place is not known keeps no answer back; nor does an end without a size."""
    told = _told("thread to last end: 39.8", "spline to last end: 39.8")
    assert told["land.spot"].level == "note"
    assert "not known where this land lies" in told["land.spot"].message
    assert "land.spot" not in _told("nose to shoulder: 70", "first end to nose: 70")
    assert "land.spot" in _told("register to joint: 80.005", "lip to last end: 80.005")


def test_a_wall_is_told_by_both_its_sizes() -> None:
    """A bore of 70 in an outside of 70 leaves nothing: both lands and sizes are named."""
    told = _told("bore: {nose to shoulder: 30,", "bore: {nose to shoulder: 70,")["land.wall"]
    assert "from nose to shoulder (70) is not less than" in told.message
    assert told.message.endswith("its outside from nose to shoulder (70)")


@pytest.mark.parametrize(
    "slip", ["seat: 40.002 by mikrometer", "ball: 9.5 by mikrometer", "pocket: 80 by mikrometer"]
)
def test_an_instrument_of_any_size_of_a_part_is_looked_up(slip: str) -> None:
    """A seat read by a misspelt instrument is told, and not left out without a word."""
    told = _told("width: 18}", f"width: 18, {slip}}}")
    assert "micrometer" in told["instrument.unknown"].way_out


@pytest.mark.parametrize(
    ("part", "new"), [("nut", "ring nut"), ("front", "nose bearing"), ("spindle", "quill")]
)
def test_a_renamed_part_leaves_lands_as_they_are(part: str, new: str) -> None:
    """Lands name spots, not parts: a part called like a spot is renamed alone."""
    text = TEXT.replace("nut:     {", "thread:  {").replace("front, nut]", "front, thread]")
    place = ("parts", "thread" if part == "nut" else part)
    done = change(text, Edit("rename", place, typed=new))
    assert done.findings == ()
    lands = [line for line in text.splitlines() if "nose to shoulder" in line]
    assert [line for line in done.text.splitlines() if "nose to shoulder" in line][:2] == lands[:2]
    assert not open_text(done.text).stopped
