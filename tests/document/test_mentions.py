"""A part, check, state or own step renamed reaches every place that names it, and nothing else."""

from importlib.resources import files

import pytest

from dryfit.document.edit import Edit
from dryfit.document.mentions import change
from dryfit.document.read import read_document
from dryfit.model.rules import check
from dryfit.quantities import Place

TEXT = """\
dryfit: 1
sizes in: mm
title: The shaft of a box   # shaft stays here
lines:
  feed shaft:
    from blind end to cover:
      in the case: [case.face, shim, shaft, cover.boss]
      joint: [case.joint, gasket, 'cover.flange']
parts:
  case: {kind: housing}
  cover: {kind: cover}
  shaft: {kind: shaft}
  gasket: {kind: gasket, nipped: 0.21}
  shim: {kind: shim pack}
sizes:
  case.face to case.joint: 152.36
  cover.flange to cover.boss: -3.42
  shaft: 148.70
settings:
  shim: {made from: [0.05, 0.10]}
states:
  trial: {left out: [gasket, cover], fitted: {shim: 0.80}}
needs:
  shaft float: {kind: float, of: shaft, want: 0.05 to 0.15}
checks:
  float: {kind: end float, of: shaft, state: trial}
  depth: {kind: depth, from: case.joint, to: shaft.last end, held: blind end}
readings:
  float: 0.10
as found:
  readings: {float: 0.50}
  sizes: {shim: 0.75, shaft: 148.71}
walks:
  float: {with: shim, 0.70: 0.15, 0.75: 0.10, 0.80: 0.05}
"""


@pytest.mark.parametrize(
    ("place", "new", "lines"),
    [
        (("parts", "shaft"), "feed spindle", {7, 12, 18, 24, 26, 27, 32}),
        (("parts", "shim"), "thrust shim", {7, 14, 20, 22, 32, 34}),
        (("parts", "cover"), "end cap", {7, 8, 11, 17, 22}),
        (("parts", "case"), "box", {7, 8, 10, 16, 27}),
        (("parts", "gasket"), "joint ring", {8, 13, 22}),
        (("checks", "float"), "end float", {26, 29, 31, 34}),
        (("states", "trial"), "dry build", {22, 26}),
    ],
)
def test_rename_reaches_every_mention(place: Place, new: str, lines: set[int]) -> None:
    """The renamed rebuild is as sound as before, and only the lines that name it change."""
    before = read_document(TEXT)
    assert before.located(check(before.rebuild)) == ()
    done = change(TEXT, Edit("rename", place, typed=new))
    assert done.findings == ()
    after = read_document(done.text)
    assert after.located(check(after.rebuild)) == ()
    pairs = zip(TEXT.splitlines(), done.text.splitlines(), strict=True)
    assert {n for n, (old, now) in enumerate(pairs, 1) if old != now} == lines


GEARED = """\
dryfit: 1
sizes in: mm
title: The wheel of a drive   # wheel stays here
lines:
  pinion line:
    from crossing to nose:
      on the shaft: [pinion.shoulder, front, nut]
      in the case: [case.register, front, ring]
  wheel line:
    from low to high:
      in the case: [case.low, wheel, case.high]
parts:
  case: {kind: housing}
  pinion: {kind: shaft}
  wheel: {kind: shaft}
  front: {kind: two-row ball, bore: 30, outside: 62, width: 23.8, on: pinion, in: case}
  nut: {kind: nut, thread: M30x1.5, torque: 30 N.m}
  ring: {kind: threaded ring, thread: M64x2, torque: 40 N.m}
  seal: {kind: seal, on: wheel, shaft: 40}
  tail: {kind: plain bearing, on: wheel, left shims: left, right shims: right}
  left: {kind: shim pack}
  right: {kind: shim pack}
meshes:
  bevels:
    kind: bevel
    pinion: pinion
    wheel: wheel
    pinion teeth: 20
    wheel teeth: 40
    module: 3
    pinion apex: pinion.apex
    pinion crossing: case.wheel axis
    pinion away: nose
    wheel apex: wheel.apex
    wheel crossing: case.pinion axis
    wheel away: high
  spurs: {kind: spur, pinion: pinion, wheel: wheel, pinion teeth: 18, wheel teeth: 36,
          module: 2, centre distance: 54, centre shims: left}
sizes:
  case.wheel axis to case.register: 50
  case.pinion axis to case.low: 50
  pinion.apex to pinion.shoulder: 50
  wheel.apex to wheel.first end: 50
  wheel: 30
states:
  low gear: {gears in: low}
checks:
  lash: {kind: backlash, mesh: bevels, on: wheel, wheel: away, state: low gear}
  back faces: {kind: flushness, mesh: bevels}
  pull: {kind: cord pull, of: wheel, at radius: 30}
  lift: {kind: lift, of: tail}
"""


@pytest.mark.parametrize(
    ("place", "new", "lines"),
    [
        (("parts", "wheel"), "crown", {11, 15, 19, 20, 27, 34, 37, 43, 44, 50}),
        (("parts", "pinion"), "bevel shaft", {7, 14, 16, 26, 31, 37, 42}),
        (("parts", "case"), "box", {8, 11, 13, 16, 32, 35, 40, 41}),
        (("parts", "front"), "nose bearing", {7, 8, 16}),
        (("parts", "left"), "near pack", {20, 21, 38}),
        (("parts", "right"), "far pack", {20, 22}),
        (("parts", "tail"), "cap", {20, 51}),
        (("meshes", "bevels"), "right angle", {24, 48, 49}),
        (("states", "low gear"), "crawl", {46, 48}),
    ],
)
def test_rename_reaches_bearings_and_gears(place: Place, new: str, lines: set[int]) -> None:
    """What a bearing sits on and in, its shims and both gears of a mesh follow the new name."""
    before = read_document(GEARED)
    assert before.located((*before.findings, *check(before.rebuild))) == ()
    done = change(GEARED, Edit("rename", place, typed=new))
    assert done.findings == ()
    after = read_document(done.text)
    assert after.located((*after.findings, *check(after.rebuild))) == ()
    pairs = zip(GEARED.splitlines(), done.text.splitlines(), strict=True)
    assert {n for n, (old, now) in enumerate(pairs, 1) if old != now} == lines


ORDERED = """\
dryfit: 1
sizes in: mm
title: The front of a head   # front stays here
lines:
  spindle:
    from nose to tail:
      at the nose: [spindle.flange, front]
      at the tail: [rear, nut]
      front cup: [front, case.front register]
      rear cup: [case.rear register, rear]
parts:
  case: {kind: housing}
  spindle: {kind: shaft}
  front: {kind: taper roller, bore: 50, outside: 90, width: 20, stops shaft going: tail}
  rear: {kind: taper roller, bore: 45, outside: 85, width: 19.75, stops shaft going: nose}
  nut: {kind: nut, thread: M45x1.5, locked by: tab washer}
checks:
  end float: {kind: end float, of: spindle}
steps:
  pack it: {kind: grease, at: front, mind: front row only}
  oil: {kind: own, after: ['front, cone', pack it], before: read end float}
  seal it: {kind: seal, at: case.rear register, before: lock nut}
wishes:
  - rear, cup before front, cup
  - never oil after lock nut
  - 'pack it before spindle with what is on it'
  - never spindle with what is on it to tail
  - read end float after rear, cone
"""


@pytest.mark.parametrize(
    ("place", "new", "lines"),
    [
        (("parts", "front"), "nose bearing", {7, 9, 14, 20, 21, 24}),
        (("parts", "rear"), "tail bearing", {8, 10, 15, 24, 28}),
        (("parts", "spindle"), "quill", {7, 13, 18, 26, 27}),
        (("parts", "nut"), "ring nut", {8, 16, 22, 25}),
        (("parts", "case"), "head", {9, 10, 12, 22}),
        (("checks", "end float"), "float", {18, 21, 28}),
        (("steps", "pack it"), "grease it", {20, 21, 26}),
        (("steps", "oil"), "fill with oil", {21, 25}),
    ],
)
def test_rename_reaches_the_order_of_work(place: Place, new: str, lines: set[int]) -> None:
    """Steps are called after parts and checks: each in a wish or own step follows the new name."""
    before = read_document(ORDERED)
    assert before.located((*before.findings, *check(before.rebuild))) == ()
    done = change(ORDERED, Edit("rename", place, typed=new))
    assert done.findings == ()
    after = read_document(done.text)
    assert after.located((*after.findings, *check(after.rebuild))) == ()
    pairs = zip(ORDERED.splitlines(), done.text.splitlines(), strict=True)
    assert {n for n, (old, now) in enumerate(pairs, 1) if old != now} == lines


LINED = """\
dryfit: 1
sizes in: mm
title: The worm of a box   # worm stays here
lines:
  worm:
    from handle to blind end:
      stack: [case.worm face, worm shaft, case.worm end]
  wheel line:
    from low to high:
      stack: [case.low, wheel, case.high]
axes:
  worm over wheel: {kind: square, line: worm, other: wheel line, centre distance: 52,
                    crossing: case.worm face, other crossing: case.low}
parts:
  case: {kind: housing}
  worm shaft: {kind: shaft}
  wheel: {kind: shaft}
"""


@pytest.mark.parametrize(
    ("place", "new", "lines"),
    [
        (("lines", "worm"), "worm line", {5, 12}),
        (("lines", "wheel line"), "cross shaft", {8, 12}),
        (("parts", "case"), "box", {7, 10, 13, 15}),
    ],
)
def test_rename_reaches_how_lines_lie(place: Place, new: str, lines: set[int]) -> None:
    """Lines that lie to each other, and the spots by which they do, follow the new name."""
    before = read_document(LINED)
    assert before.located((*before.findings, *check(before.rebuild))) == ()
    done = change(LINED, Edit("rename", place, typed=new))
    assert done.findings == ()
    after = read_document(done.text)
    assert after.located((*after.findings, *check(after.rebuild))) == ()
    pairs = zip(LINED.splitlines(), done.text.splitlines(), strict=True)
    assert {n for n, (old, now) in enumerate(pairs, 1) if old != now} == lines


def test_which_gear_a_dial_is_on_is_no_name() -> None:
    """`on: wheel` and `wheel: away` mean the wheel of the mesh, whatever its part is called."""
    done = change(GEARED, Edit("rename", ("parts", "wheel"), typed="crown"))
    assert "{kind: backlash, mesh: bevels, on: wheel, wheel: away, state: low gear}" in done.text


def test_other_edits_are_spliced_as_they_are() -> None:
    """A size set by `change` touches its own line only."""
    text = (files("dryfit.app") / "demos" / "feed-box.yaml").read_text(encoding="utf-8")
    done = change(text, Edit("set", ("sizes", "shaft"), seen="148.70", typed="148.72"))
    assert done.text == text.replace("shaft: 148.70", "shaft: 148.72")
