"""What is doubtful in how a shaft is held is told in a note: two fixed ends, springs, open ends."""

import pytest

from dryfit.app.usecases.opening import FindingAnswer, open_text

TEXT = """\
dryfit: 1
sizes in: mm
lines:
  spindle:
    from nose to tail:
      on the shaft: [spindle.front shoulder, front, front ring, spindle.front groove]
      rear end:     [spindle.rear shoulder, rear, rear ring, spindle.rear groove]
      in the case:  [case.front register, front, case.front lip]
      rear pocket:  [case.rear register, rear, cover.spigot]
      joint:        [case.joint, cover.flange]
parts:
  case: {kind: housing}
  cover: {kind: cover}
  spindle: {kind: shaft}
  front: {kind: deep groove ball, bore: 40, outside: 80, width: 18.00 by micrometer}
  rear: {kind: deep groove ball, bore: 35, outside: 72, width: 17.00 by micrometer}
  front ring: {kind: retaining ring}
  rear ring: {kind: retaining ring}
sizes:
  front ring: 1.70
  rear ring: 1.70
  spindle.front shoulder to spindle.front groove: 19.70
  spindle.front shoulder to spindle.rear shoulder: 100.00
  spindle.rear shoulder to spindle.rear groove: 18.70
  case.front register to case.front lip: 18.00
  case.front register to case.rear register: 100.00
  case.rear register to case.joint: 20.00
  cover.flange to cover.spigot: -3.00
checks:
  float: {kind: end float, of: spindle}
"""
"""Two deep groove bearings, each ring held on both sides: 20.00 - 3.00 = 17.00 behind the rear."""


def _told(*changes: tuple[str, str]) -> dict[str, FindingAnswer]:
    text = TEXT
    for typed, instead in changes:
        assert typed in text
        text = text.replace(typed, instead, 1)
    opened = open_text(text)
    assert [f.message for f in opened.findings if f.level == "stop"] == []
    return {f.code: f for f in opened.findings}


def test_two_fixed_ends_are_told() -> None:
    """With both outer rings held both ways only sizes decide, and warm the shaft is nipped."""
    told = _told()["line.two fixed"]
    assert "'front' and 'rear' each hold the shaft both ways" in told.message
    assert "gap beside one outer ring" in told.way_out
    assert told.level == "note"


@pytest.mark.parametrize(
    ("typed", "instead"),
    [
        ("cover.spigot: -3.00", "cover.spigot: -2.50"),
        ("[case.rear register, rear, cover.spigot]", "[rear, cover.spigot]"),
        ("case.front lip: 18.00", "case.front lip: 18.20"),
        ("cover.spigot: -3.00", "cover.spigot: not known"),
        ("rear: {kind: deep groove ball", "rear: {kind: cylindrical roller"),
    ],
    ids=["gap of 0.5", "one side only", "gap of 0.2", "not known", "rollers let it go"],
)
def test_one_end_that_may_move_is_not_told(typed: str, instead: str) -> None:
    """A gap, an open side, rollers, or a size that is not known: nothing is said of fixed ends."""
    assert "line.two fixed" not in _told((typed, instead))


SPRUNG = (
    ("[case.rear register, rear, cover.spigot]", "[rear, wave spring, cover.spigot]"),
    (
        "parts:\n",
        "parts:\n  wave spring: {kind: spring washer, free: 4.0, force: 120 N, at: 2.8, "
        "solid: 1.2}\n",
    ),
)


@pytest.mark.parametrize(
    ("depth", "code"),
    [("0.00", None), ("-2.40", "spring.solid"), ("2.00", "spring.loose")],
    ids=["at work", "solid", "loose"],
)
def test_a_spring_is_told_where_it_does_not_work(depth: str, code: str | None) -> None:
    """Room 20.00 - 17.00 + depth: 3.00 works, 0.60 is less than 1.2 solid, 5.00 more than 4.0."""
    told = _told(*SPRUNG, ("cover.spigot: -3.00", f"cover.spigot: {depth}"))
    assert {c for c in told if c.startswith("spring")} == ({code} if code else set())
    if code:
        assert told[code].level == "note"
        assert "wave spring" in told[code].message


def test_a_spring_that_stands_clear_is_told_by_how_much() -> None:
    """20.00 + 2.00 - 17.00 = 5.00 for 4.00 of spring: 1.00, and what the rows play lets it move.

    Two bearings of these sizes play less than 0.2 mm each (estimate).
    """
    told = _told(*SPRUNG, ("cover.spigot: -3.00", "cover.spigot: 2.00"))["spring.loose"]
    clear = float(told.message.split(" has ")[1].split(" mm")[0])
    assert 1.0 <= clear <= 1.4


@pytest.mark.parametrize(
    ("typed", "instead", "code"),
    [
        ("force: 120 N, at: 2.8", "force: 0 N, at: 2.8", "spring.no force"),
        ("force: 120 N, at: 2.8", "at: 2.8", "spring.half told"),
        ("force: 120 N, at: 2.8", "force: 120 N", "spring.half told"),
        ("at: 2.8", "at: 4.0", "size.order"),
        ("at: 2.8", "at: 1.0", "size.order"),
        ("free: 4.0", "free: 0", "size.not positive"),
    ],
)
def test_a_spring_that_contradicts_itself_is_told(typed: str, instead: str, code: str) -> None:
    """Free above at above solid, with some force: each slip is told at the spring."""
    text = TEXT
    for old, new in (*SPRUNG, (typed, instead)):
        assert old in text
        text = text.replace(old, new, 1)
    found = [f for f in open_text(text).findings if f.code == code]
    assert found
    assert "wave spring" in found[0].message


def test_a_shaft_that_nothing_stops_is_told_without_a_check() -> None:
    """Nobody asks for its float, and yet it can run out towards the nose."""
    told = _told(
        ("  float: {kind: end float, of: spindle}", "  pack: {kind: thickness, of: front ring}"),
        ("[case.front register, front, case.front lip]", "[front, case.front lip]"),
        ("[case.rear register, rear, cover.spigot]", "[rear, cover.spigot]"),
    )
    assert "can run out of its line" in told["shaft.open end"].message
    assert told["shaft.open end"].level == "note"


def test_a_line_without_a_shaft_is_told() -> None:
    """A line of a case, a washer and a cover holds nothing that floats."""
    told = _told(
        (
            "parts:\n",
            "  idle:\n    from left to right:\n      all: [case.left, washer, case.right]\n"
            "parts:\n  washer: {kind: spacer}\n",
        ),
        ("sizes:\n", "sizes:\n  washer: 3\n  case.left to case.right: 4\n"),
    )
    assert "no shaft or cluster lies in 'idle'" in told["line.no shaft"].message


def test_an_angle_that_is_not_told_is_said_once_for_all() -> None:
    """Two angular contact bearings without angle: one note with both names, figure and spread."""
    text = TEXT
    for name, end in (("front", "tail"), ("rear", "nose")):
        text = text.replace(
            f"  {name}: {{kind: deep groove ball,",
            f"  {name}: {{kind: angular contact ball, stops shaft going: {end},",
        )
    (told,) = (f for f in open_text(text).findings if f.code == "bearing.no angle")
    assert "'front', 'rear': it is taken as 30 deg, give or take 12" in told.message


def test_a_solid_spring_is_told_by_how_much() -> None:
    """Spigot 5.40 deep: room 20.00 - 17.00 - 5.40 = -2.40, flat the spring is 1.20: 3.60 short.

    What the rows play is room too; two bearings of these sizes play less than 0.2 mm each.
    """
    told = _told(*SPRUNG, ("cover.spigot: -3.00", "cover.spigot: -5.40"))["spring.solid"]
    assert "pressed solid, to 1.2, with" in told.message
    short = float(told.message.split(" with ")[1].split(" mm")[0])
    assert 3.2 <= short <= 3.6


@pytest.mark.parametrize(
    ("force", "told"), [("119 kN", False), ("121 kN", True), ("14000 kN", True)]
)
def test_a_spring_stiffer_than_any_washer_is_told(force: str, told: bool) -> None:
    """Free 4.0, pushing at 2.8: 1.2 mm by 100 000 N for each mm is 120 kN."""
    typed = ("force: 120 N, at: 2.8", f"force: {force}, at: 2.8")
    assert ("spring.stiff" in _told(*SPRUNG, typed)) is told
