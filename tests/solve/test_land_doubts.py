"""Rings that cannot pass the lands on their way, lands that overlap, seats told twice.

Expected by hand: a part comes from one end of the line and passes each land up to its own place.
What may be pressed is 0.2 mm, an estimate.
"""

import re
from itertools import pairwise
from typing import Any

import pytest
import yaml
from tests.invariance.telling import text_of
from tests.invariance.turns import in_other_units, mirrored

from dryfit.app.usecases.opening import FindingAnswer, open_text
from dryfit.document.read import read_document
from dryfit.mechanics.threads import thread
from dryfit.model.lands import BORE, Land
from dryfit.model.parts import Bearing, Housing
from dryfit.model.rebuild import Between, Line, Rebuild, Stack
from dryfit.model.spots import Spot
from dryfit.quantities import read_size
from dryfit.solve.growth import Around, Growth, growth
from dryfit.solve.land_doubts import land_doubts
from dryfit.solve.lands import stretches
from dryfit.solve.luck import Luck, NoLuck
from dryfit.solve.passing import PRESSED

TEXT = """\
dryfit: 1
sizes in: mm
lines:
  spindle:
    from nose to tail:
      on the shaft: [spindle.shoulder, front, inner spacer, rear, nut]
      in the case:  [case.register, front, outer spacer, rear, lock ring]
parts:
  case:
    kind: housing
    bore: {first end to register: 74, register to mouth: 80, mouth to last end: 82.9}
  spindle:
    kind: shaft
    outside:
      nose to shoulder: 70
      shoulder to thread: 40.010 by micrometer
      thread to last end: 39.8
  front: {kind: angular contact ball, bore: 40, outside: 80, width: 18, angle: 25 deg, stops shaft going: tail}
  rear: {kind: angular contact ball, bore: 40, outside: 80, width: 18, angle: 25 deg, stops shaft going: nose}
  inner spacer: {kind: spacer, bore: 40.2, outside: 50}
  outer spacer: {kind: spacer, bore: 70, outside: 79.8}
  nut: {kind: nut, thread: M40x1.5, torque: 50 N.m}
  lock ring: {kind: threaded ring, thread: M85x2, torque: 60 N.m}
sizes:
  inner spacer: 20.000 by micrometer
  outer spacer: 20.000 by micrometer
  spindle.nose to spindle.shoulder: 60
  spindle.shoulder to spindle.thread: 56
  case.register to case.mouth: 56
checks:
  float: {kind: end float, of: spindle}
"""  # noqa: E501
"""18 + 20 + 18 = 56 from the shoulder to the thread, and from the register to the mouth."""

BLOCKS = "land.blocks"


def _changed(*changes: tuple[str, str]) -> str:
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def _told(text: str, code: str = BLOCKS) -> dict[str, FindingAnswer]:
    """Give the findings of one code by the part that each names first."""
    found = [f for f in open_text(text).findings if f.code == code]
    return {f.message.split("'")[1]: f for f in found}


def test_a_unit_that_goes_together_is_told_nothing_of_its_lands() -> None:
    """All come over 39.8 and 40.01 from the tail, none over the 70 of the nose."""
    opened = open_text(TEXT)
    assert [f.code for f in opened.findings if f.code.startswith("land")] == []
    assert not opened.stopped


@pytest.mark.parametrize(
    ("changes", "parts"),
    [
        (("thread to last end: 39.8", "thread to last end: 42"), ["front", "inner spacer", "nut"]),
        (("thread to last end: 39.8", "thread to last end: 40.3"), ["front", "nut"]),
        (("thread to last end: 39.8", "thread to last end: 40.2"), []),
        (("bore: 40.2, outside: 50", "bore: 39.81, outside: 50"), []),
        (("bore: 40.2, outside: 50", "bore: 39.80, outside: 50"), ["inner spacer"]),
        (("M40x1.5", "M39x1.5"), ["nut"]),
        (("M40x1.5", "M42x1.5"), []),
        (("shoulder to thread: 40.010", "shoulder to thread: 40.600"), ["front", "inner spacer"]),
    ],
)
def test_from_neither_end(changes: tuple[str, str], parts: list[str]) -> None:
    """A land on the tail's side larger than the bore and 0.2 mm, and the shoulder before it.

    40.01 - 39.80 = 0.21 is too much, 0.20 is not; a nut of M40 screws on a thread of 39.8, and
    stands behind the seats, so that 40.6 there is none of its business.
    """
    told = _told(_changed(changes))
    both = ["rear"] if "front" in parts else []
    assert {*told} == {*parts, *both}
    assert {f.level for f in told.values()} <= {"stop"}
    assert PRESSED == 0.2e-3


@pytest.mark.parametrize(
    "end", ["thread to last end: 42", "thread to last end: 400", "thread to last end: not known"]
)
def test_from_the_nose_where_the_shoulder_is_smaller(end: str) -> None:
    """With 39.9 before the shoulder each ring comes from there, whatever stands at the tail."""
    text = _changed(("nose to shoulder: 70", "nose to shoulder: 39.9"), ("39.8", "42"))
    text = text.replace("thread to last end: 42", end)
    assert _told(text) == {}


def test_the_message_names_part_bore_land_and_way_out() -> None:
    """The smaller of the two lands comes first: it is the likelier slip."""
    told = _told(_changed(("thread to last end: 39.8", "thread to last end: 42")))["front"]
    assert told.message == (
        "'front' (bore 40) cannot get to where it sits on 'spindle': from one end "
        "'thread to last end' is 42, from the other 'nose to shoulder' is 70, both larger"
    )
    assert "misread" in told.way_out
    assert "the shoulder there is smaller" in told.way_out
    assert told.line == 1 + TEXT.splitlines().index(
        next(row for row in TEXT.splitlines() if row.startswith("  front:"))
    )


def test_a_land_on_which_it_sits_is_in_the_way_from_both_ends() -> None:
    """A ring of 40 on a land of 45 with no shoulder told is kept off from either end."""
    text = _changed(("      nose to shoulder: 70\n", ""), ("40.010 by micrometer", "45"))
    told = _told(text)["front"]
    assert "from either end 'shoulder to thread' is 45, larger" in told.message


@pytest.mark.parametrize(("length", "told"), [("0.9", False), ("1.1", True)])
def test_a_collar_narrower_than_a_chamfer_is_let_be(length: str, told: bool) -> None:
    """A land of 45 beside the shoulder bars the front ring if it is wider than 1 mm (estimate)."""
    text = _changed(
        ("40.010 by micrometer", "45"),
        ("spindle.thread: 56", f"spindle.thread: {length}"),
    )
    assert ("front" in _told(text)) is told


def test_one_size_for_a_whole_shaft_may_be_rough() -> None:
    """60 all along a shaft with a shoulder is not the whole truth, so it is no more than noted."""
    rows = [r for r in TEXT.splitlines(keepends=True) if " to shoulder: 70" not in r]
    text = "".join(r for r in rows if " to thread: 40" not in r and "thread to last" not in r)
    text = text.replace("    outside:\n", "    outside: 60\n")
    told = _told(text)
    assert {*told} == {"front", "inner spacer", "rear"}
    assert {f.level for f in told.values()} == {"note"}
    assert "from either end all of it is 60, larger" in told["front"].message


def test_a_shoulder_alone_needs_no_size() -> None:
    """From the one spot of a shaft to its two ends all is placed, without any length.

    What stands on 42 cannot have come over 39 either; of the nut, with no length, that is open.
    """
    rows = [r for r in TEXT.splitlines(keepends=True) if not r.startswith("  spindle.")]
    bare = "".join(r for r in rows if "nose to shoulder" not in r and "to thread" not in r)
    for before, after, names in (
        ("70", "40.1", set()),
        ("70", "42", {"front", "inner spacer", "rear", "nut"}),
        ("39", "42", {"front", "inner spacer", "rear"}),
    ):
        ends = f"first end to shoulder: {before}\n      shoulder to last end: {after}"
        text = bare.replace("thread to last end: 39.8", ends)
        assert {*_told(text)} == names
        assert not _told(text, "land.spot")


SILENT = {
    "bore": ("front: {kind: angular contact ball, bore: 40", "front: {kind: angular contact ball"),
    "land": ("nose to shoulder: 70", "nose to shoulder: not known"),
    "no land": ("      nose to shoulder: 70\n", ""),
    "no way between": ("spindle.nose to spindle.shoulder", "spindle.nose to spindle.rim"),
    "place": ("spindle.shoulder: 60", "spindle.shoulder: not known"),
}


@pytest.mark.parametrize("change", SILENT.values(), ids=[*SILENT])
def test_what_is_not_known_is_silent(change: tuple[str, str]) -> None:
    """Without the bore, the land before the shoulder or its place, the front ring is let be."""
    assert "front" not in _told(_changed(("39.8", "42"), change))


def test_a_land_between_spots_that_no_size_joins_has_no_place() -> None:
    """Whichever of its two spots is named first."""
    text = _changed(
        ("39.8", "42"),
        ("nose to shoulder: 70", "shoulder to nose: 70"),
        ("spindle.nose to spindle.shoulder", "spindle.nose to spindle.rim"),
    )
    assert "front" not in _told(text)


def test_a_part_whose_neighbours_are_not_measured_may_lie_beyond() -> None:
    """With the spacer not known the rear ring may stop short of nothing: only the front is told."""
    text = _changed(("39.8", "42"), ("inner spacer: 20.000 by micrometer", "inner spacer:"))
    assert {*_told(text)} == {"front", "inner spacer"}


@pytest.mark.parametrize(
    ("fitted", "parts"),
    [
        (", fitted: 20.00", ["front", "inner spacer", "rear", "nut"]),
        ("", ["front", "inner spacer"]),
    ],
)
def test_a_setting_is_as_thick_as_is_fitted(fitted: str, parts: list[str]) -> None:
    """What lies behind a spacer still to be chosen has no place yet; with one in it has."""
    text = _changed(("39.8", "42"), ("  inner spacer: 20.000 by micrometer\n", ""))
    text += f"settings:\n  inner spacer: {{cut to size: +/- 0.01{fitted}}}\n"
    assert {*_told(text)} == {*parts}


def test_a_bearing_goes_by_what_it_says_it_sits_on() -> None:
    """With on: and in: typed the same is told."""
    text = _changed(("39.8", "42"), ("width: 18, angle", "width: 18, on: spindle, in: case, angle"))
    assert "front" in _told(text)


@pytest.mark.parametrize(
    ("kind", "level"),
    [("spacer", "stop"), ("thrust washer", "stop"), ("bush", "stop"), ("shim pack", "note")],
)
def test_what_may_be_slit_is_only_noted(kind: str, level: str) -> None:
    """A shim may be slit and go on sideways; a whole ring may not."""
    told = _told(_changed(("spacer, bore: 40.2", f"{kind}, bore: 39.5")))
    assert told["inner spacer"].level == level


def test_a_retaining_ring_springs_over() -> None:
    """Its bore is smaller than the shaft it goes over, by design."""
    assert _told(_changed(("spacer, bore: 40.2", "retaining ring, bore: 37.5"))) == {}


@pytest.mark.parametrize(
    ("changes", "parts"),
    [
        ([("register to mouth: 80,", "register to mouth: 79.75,")], ["front", "rear"]),
        ([("register to mouth: 80,", "register to mouth: 79.8,")], []),
        ([("mouth to last end: 82.9", "mouth to last end: 79")], ["front", "outer spacer", "rear"]),
        (
            [
                ("mouth to last end: 82.9", "mouth to last end: 79"),
                ("end to register: 74", "end to register: 81"),
            ],
            [],
        ),
        ([("mouth to last end: 82.9", "mouth to last end: 82.6")], ["lock ring"]),
    ],
)
def test_outer_rings_in_a_case(changes: list[tuple[str, str]], parts: list[str]) -> None:
    """The same in the case, by outsides; a case that parts lets them in, so it is a note.

    A thread of M85x2 measures 85 - 1.0825 x 2 = 82.835 at its root in the case: 82.6 is too small
    by 0.235, and so is the bore of 80 or 81 from the other end.
    """
    told = _told(_changed(*changes))
    lock = ["lock ring"] if ("mouth to last end: 82.9", "mouth to last end: 79") in changes else []
    assert {*told} == {*parts, *lock}
    assert {f.level for f in told.values()} <= {"note"}
    assert all("or the case parts there" in f.way_out for f in told.values())


def test_root_of_a_thread_by_hand() -> None:
    """ISO 68-1: D1 = d - 5/4 H, H = P sqrt(3)/2: 85 - 1.25 x 0.8660 x 2 = 82.835."""
    assert float(thread(85e-3, 2e-3).minor_diameter) == pytest.approx(82.835e-3, abs=0.5e-6)


CARTRIDGE = (
    ("in the case:  [case.register", "in the case:  [quill.register"),
    ("parts:\n", "      joint: [quill.flange, case.face]\nparts:\n"),
    ("    kind: housing\n", "    kind: cartridge\n"),
    ("  case:\n", "  case: {kind: housing}\n  quill:\n"),
    ("case.register to case.mouth: 56", "quill.register to quill.mouth: 56"),
    ("sizes:\n", "sizes:\n  quill.flange to quill.register: 5\n"),
)


def test_a_cartridge_does_not_part() -> None:
    """In one piece, a bore that is too small at both ends is impossible."""
    text = _changed(*CARTRIDGE, ("mouth to last end: 82.9", "mouth to last end: 79"))
    told = _told(text)
    assert {*told} == {"front", "rear", "outer spacer", "lock ring"}
    assert {f.level for f in told.values()} == {"stop"}
    assert "the bore there is larger" in told["front"].way_out
    assert "parts there" not in told["front"].way_out


def test_a_washer_in_a_recess_of_a_cluster_is_let_be() -> None:
    """Beside a cluster nobody can tell whether a washer lies round it or in it."""
    text = """\
dryfit: 1
sizes in: mm
lines:
  lay-shaft:
    from left to right:
      on the pin: [pin.head, left washer, cluster.face, cluster.last end, case.boss]
      joint:      [pin.flange, case.side]
parts:
  case: {kind: housing}
  pin: {kind: pin, outside: {head to last end: 20, flange to head: 36}}
  cluster: {kind: cluster, outside: 60, bore: 20.05}
  left washer: {kind: thrust washer, bore: 20.5, outside: 32}
sizes:
  pin.flange to pin.head: 6
  case.side to case.boss: 60.2
  cluster.face to cluster.last end: 48
  left washer: 6.00
"""
    assert not open_text(text).stopped
    assert _told(text) == {}
    tight = text.replace("bore: 20.5, outside: 32", "bore: 19.5, outside: 32")
    assert {*_told(tight)} == {"left washer"}
    head = text.replace("head to last end: 20", "head to last end: 20.4")
    assert {*_told(head)} == set()
    sits = head.replace("cluster.face, cluster.last end", "cluster").replace(
        "  cluster.face to cluster.last end: 48", "  cluster: 48"
    )
    assert {*_told(sits)} == {"cluster"}


OVERLAPS = [
    ("thread to last end: 39.8", "shoulder to last end: 39.8", "land.overlap"),
    ("nose to shoulder: 70", "nose to thread: 70", "land.overlap"),
    ("nose to shoulder: 70", "first end to last end: 70", "land.overlap"),
    ("nose to shoulder: 70", "first end to nose: 70", None),
]


@pytest.mark.parametrize(("old", "new", "code"), OVERLAPS)
def test_two_diameters_at_one_place_are_told(old: str, new: str, code: str | None) -> None:
    """Lands meet at a spot, they do not lie over each other; the way out says what to do."""
    found = [f for f in open_text(_changed((old, new))).findings if f.code == "land.overlap"]
    assert bool(found) is bool(code)
    for told in found:
        assert "two diameters" in told.message
        assert "let one end where the other begins" in told.way_out
        assert told.level == "stop"


@pytest.mark.parametrize(("bore", "told"), [("39.9", True), ("39.7", False)])
def test_a_bore_across_two_lands_leaves_a_wall_in_each(bore: str, told: bool) -> None:
    """From the shoulder to the end it lies under 40.010 and under 39.8: 39.9 is too much there."""
    text = _changed(
        ("    outside:\n", f"    bore: {{shoulder to last end: {bore}}}\n    outside:\n")
    )
    found = [f for f in open_text(text).findings if f.code == "land.wall"]
    assert bool(found) is told
    assert all("which lies over it" in f.message for f in found)


def test_bores_of_two_lines_do_not_overlap() -> None:
    """Two bores side by side, from one joint: each belongs to its own line."""
    text = _changed(
        (
            "parts:\n",
            "  other:\n    from left to right:\n      all: [case.seat, washer, case.mouth]\n"
            "parts:\n  washer: {kind: spacer}\n",
        ),
        ("mouth to last end: 82.9", "mouth to last end: 82.9, seat to mouth: 52"),
        ("sizes:\n", "sizes:\n  case.seat to case.mouth: 30\n  washer: 29\n"),
    )
    assert [f.code for f in open_text(text).findings if f.code.startswith("land")] == []
    one = _changed(
        ("mouth to last end: 82.9", "mouth to last end: 82.9, seat to mouth: 52"),
        ("sizes:\n", "sizes:\n  case.seat to case.mouth: 30\n"),
    )
    assert {*_told(one, "land.overlap")} == {"register to mouth"}


@pytest.mark.parametrize(
    ("key", "line"),
    [
        ("register to joint", "spindle"),
        ("joint to register", "spindle"),
        ("joint to lip", None),
        ("seat to joint", "other"),
        ("seat to lip", "other"),
        ("register to seat", None),
    ],
)
def test_a_bore_of_a_case_belongs_to_the_line_of_its_spots(key: str, line: str | None) -> None:
    """The joint is in both lines, the lip in none; a land from one line to the other is in none."""
    stacks = {"spindle": ("register", "joint"), "other": ("seat", "joint")}
    lines = {
        n: Line(n, "a", "b", (Stack("s", tuple(Spot("case", x) for x in names)),))
        for n, names in stacks.items()
    }
    names = ("register", "joint", "seat", "lip")
    keys = [f"case.{a} to case.{b}" for a, b in pairwise(names)]
    spots = [(Spot("case", a), Spot("case", b)) for a, b in pairwise(names)]
    size = read_size("10", "mm")
    sizes = {k: Between(k, *ab, size) for k, ab in zip(keys, spots, strict=True)}
    start, end = key.split(" to ")
    case = Housing("case", "housing", bore=(Land(start, end, size),))
    rebuild = Rebuild("mm", lines=lines, parts={"case": case}, sizes=sizes)
    found = {n for n, each in lines.items() if stretches(rebuild, "case", BORE, each)}
    assert found == ({line} if line else set())


def _in_inches(text: str) -> str:
    """Write each size of the document in inches, as an exact fraction."""
    return text_of(in_other_units(yaml.load(text, Loader=yaml.BaseLoader)))


def _from_the_tail(text: str) -> str:
    """Look at the line from its other end."""
    return text_of(mirrored(yaml.load(text, Loader=yaml.BaseLoader)))


SLIPS = [
    (),
    (("thread to last end: 39.8", "thread to last end: 42"),),
    (("thread to last end: 39.8", "thread to last end: 42"), ("shoulder: 70", "shoulder: 39")),
    (("bore: 40.2, outside: 50", "bore: 39.80, outside: 50"),),
    (("mouth to last end: 82.9", "mouth to last end: 79"),),
    (("register to mouth: 80,", "register to mouth: 79.75,"),),
    (("mouth to last end: 82.9", "mouth to last end: 82.6"),),
    (("nose to shoulder: 70", "nose to thread: 70"),),
    (("inner spacer: 20.000 by micrometer", "inner spacer:"), ("39.8", "42")),
    (("width: 18, angle", "width: 18, seat: 40.040 by micrometer, angle"),),
]


SOUND = [SLIPS[0], SLIPS[2]]


@pytest.mark.parametrize("changes", SLIPS)
@pytest.mark.parametrize("turn", [_in_inches, _from_the_tail])
def test_written_another_way_the_same_is_told(
    changes: tuple[tuple[str, str], ...], turn: Any
) -> None:
    """In an inch document, or from the other end, each finding names the same part."""
    text = _changed(*changes)

    def told(one: str) -> list[tuple[str, str, str]]:
        codes = ("land", "bearing.seat")
        found = [f for f in open_text(one).findings if f.code.startswith(codes)]
        return sorted(
            (f.code, f.level, f.message.split("'")[-2 if "overlap" in f.code else 1]) for f in found
        )

    assert turn(text) != text
    assert told(turn(text)) == told(text)
    assert bool(told(text)) is (changes not in SOUND)


def _grown(text: str) -> Growth:
    rebuild = read_document(text).rebuild
    front = rebuild.parts["front"]
    assert isinstance(front, Bearing)
    return growth(rebuild, front, Around("spindle", "case", {}), NoLuck())


def test_the_fit_is_worked_out_from_the_land_under_the_ring() -> None:
    """A solid shaft pressed into a ring of its metal: outside it grows by interference x d / D.

    Lame, plane stress (SHIGLEY eq. 3-50, 3-56 with equal moduli). A bore of the Normal class is
    0 to 12 um under 40, in the middle 6: 16 um of interference on 40.010. The track lies at
    40 + 0.205 x 40 = 48.2 (estimate): 16 x 40 / 48.2 = 13.278 um.
    """
    assert float(_grown(TEXT).inner[0]) == pytest.approx(16e-6 * 40 / 48.2, rel=1e-9)
    assert float(_grown(TEXT).inner_grip[0]) > 0


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("40.010 by micrometer", "40.010"),
        ("40.010 by micrometer", "not known"),
        ("40.010 by micrometer", "40.600 by micrometer"),
        ("width: 18, angle: 25 deg, stops shaft going: tail", "stops shaft going: tail"),
        ("spindle.shoulder to spindle.thread: 56", "spindle.shoulder to spindle.thread: 16.9"),
        ("spindle.shoulder to spindle.thread: 56", "spindle.shoulder to spindle.thread:"),
    ],
    ids=["no instrument", "not known", "no fit", "no width", "half on it", "no place"],
)
def test_a_land_that_is_not_the_seat_for_certain_is_not_taken(old: str, new: str) -> None:
    """Typed without an instrument, half a millimetre off, or not under the whole ring: no fit."""
    assert float(_grown(_changed((old, new))).inner[0]) == 0.0


def test_a_ring_may_stand_over_the_edge_by_its_chamfer() -> None:
    """18 wide on a land of 17.1: 0.9 over the edge is within 1 mm (estimate), 1.1 is not."""
    text = _changed(
        ("spindle.shoulder to spindle.thread: 56", "spindle.shoulder to spindle.thread: 17.1")
    )
    assert float(_grown(text).inner[0]) == pytest.approx(16e-6 * 40 / 48.2, rel=1e-9)


def test_each_ring_stands_by_its_own_width() -> None:
    """An outer ring of 25 beside an inner one of 18 does not reach over the shaft's land."""
    text = _changed(
        ("spindle.shoulder to spindle.thread: 56", "spindle.shoulder to spindle.thread: 17.1"),
        ("width: 18, angle", "inner width: 18, outer width: 25, angle"),
    )
    assert float(_grown(text).inner[0]) == pytest.approx(16e-6 * 40 / 48.2, rel=1e-9)


def test_two_stacks_that_point_to_two_lands_give_none() -> None:
    """Where one stack puts the ring on one land and the next on another, no fit is taken."""
    text = _changed(
        ("thread to last end: 39.8", "thread to last end: 39.9 by micrometer"),
        ("      in the case:", "      behind: [spindle.thread, front]\n      in the case:"),
    )
    assert float(_grown(text).inner[0]) == 0.0


def test_a_tolerance_does_as_well_as_an_instrument() -> None:
    """40.010 +/- 0.004 is a measured land too, and so is one size all along the shaft."""
    same = float(_grown(TEXT).inner[0])
    plus = _changed(("40.010 by micrometer", "40.010 +/- 0.004"))
    assert float(_grown(plus).inner[0]) == pytest.approx(same, rel=1e-12)
    rows = [row for row in TEXT.splitlines(keepends=True) if " to shoulder: 70" not in row]
    whole = "".join(r for r in rows if " to thread: 40" not in r and "thread to last" not in r)
    whole = whole.replace("    outside:\n", "    outside: 40.010 by micrometer\n")
    assert float(_grown(whole).inner[0]) == pytest.approx(same, rel=1e-12)


def test_a_pocket_from_the_bore_of_a_case() -> None:
    """An outside of the Normal class is 0 to 13 um under 80: 79.990 leaves 3.5 um of interference.

    The rings of one fit have one draw each, so the grip is that of the same pocket typed.
    """
    land = _changed(("register to mouth: 80,", "register to mouth: 79.990 by bore gauge,"))
    typed = _changed(("width: 18, angle", "width: 18, pocket: 79.990 by bore gauge, angle"))
    assert float(_grown(land).outer[0]) < 0.0
    assert float(_grown(land).outer[0]) == pytest.approx(float(_grown(typed).outer[0]), rel=1e-12)
    assert float(_grown(TEXT).outer[0]) == 0.0


def test_a_typed_seat_goes_before_the_land() -> None:
    """With a seat of 40.000 the interference is 6 um, whatever its land is: 6 x 40 / 48.2."""
    text = _changed(("width: 18, angle", "width: 18, seat: 40.000 by micrometer, angle"))
    assert float(_grown(text).inner[0]) == pytest.approx(6e-6 * 40 / 48.2, rel=1e-9)


def test_two_rings_on_one_land_share_its_error() -> None:
    """One land read a little large is large for both rings: their draws go together."""
    rebuild = read_document(TEXT).rebuild
    around = Around("spindle", "case", {})
    front, rear = (
        growth(rebuild, part, around, Luck(4000)).inner
        for part in rebuild.parts.values()
        if isinstance(part, Bearing)
    )
    moved = (front - front.mean()) * (rear - rear.mean())
    assert float(moved.mean()) / float(front.std() * rear.std()) > 0.1


@pytest.mark.parametrize(
    ("key", "size", "told"),
    [
        ("seat", "40.012 by micrometer", False),
        ("seat", "40.040 by micrometer", True),
        ("seat", "40.040 +/- 0.040", False),
        ("pocket", "80.02 by bore gauge", False),
        ("pocket", "80.40 by bore gauge", True),
    ],
)
def test_a_seat_and_its_land_that_differ_are_noted(key: str, size: str, told: bool) -> None:
    """0.030 between two readings by micrometer (0.004 either way) is no error of theirs; 0.002 is.

    The case's 80 without digits is known to the millimetre but by caliper: 0.40 is within that.
    """
    changes = [("width: 18, angle", f"width: 18, {key}: {size}, angle")]
    if key == "pocket":
        changes.append(("register to mouth: 80,", "register to mouth: 80.01,"))
    found = _told(_changed(*changes), f"bearing.{key} twice")
    assert bool(found) is told
    for answer in found.values():
        assert answer.level == "note"
        assert "differ by more than their instruments explain" in answer.message
        assert f"the {key} counts" in answer.way_out


def test_nothing_is_said_without_lands() -> None:
    """A document of before, without any land, is told nothing new."""
    bare = re.sub(r"    outside:\n(      .*\n)+", "", TEXT)
    bare = re.sub(r"    bore: \{first.*\n", "", bare)
    assert "shoulder:" not in bare.split("sizes:")[0]
    assert land_doubts(read_document(bare).rebuild) == ()
