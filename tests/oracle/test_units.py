"""Whole lines against the same lines written out by hand and solved by scipy.

The document is what a user types; beside it stands, by hand, which faces meet at what distance,
which row lies where, and what pulls. Positions agree to a nanometre, forces to a millionth. The
units of units.py are compared in all that can be read of them; below stand some more, one by one.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from tests.oracle.energies import CASE, MM, Rest, Spring, at_rest, pull, reach, room, travel
from tests.oracle.springs import AtRest, ByHand, Force, annulus, balls, half_ring, tapers
from tests.oracle.texts import RING_IN_QUILL
from tests.oracle.units import RIGID, UNITS, Unit, covered, fixed_and_floating

from dryfit.app.usecases.opening import open_text
from dryfit.mechanics.ball_rows import ball_row_under
from dryfit.solve import rigid
from dryfit.solve.benchtop import Bench, lay_on
from dryfit.solve.elastic import Held
from dryfit.solve.luck import Array, NoLuck, full
from dryfit.solve.predict import Reading, predict
from dryfit.solve.sample import sample
from dryfit.solve.states import COLD, Fitted
from dryfit.solve.threads import clamp_force

HEAD = """
dryfit: 1
sizes in: mm
measured with: micrometer
lines:
  spindle:
    from nose to tail:
"""

IN, OUT = "/inner ring", "/outer ring"


NEAR = 1e-9
"""Positions agree to this: both sides balance forces to 1e-5 N, so only a slip can differ [m]."""

ALL_BUT_NONE = 5e-9
"""Floats agree to this: by hand they are felt under 1e-4 N, to which a row yields 3 nm [m]."""


def their(body: str) -> str:
    """Name a body as the unit does: a drawing has "front in" for the inner ring of "front"."""
    if body.endswith(" in"):
        return body.removesuffix(" in") + IN
    return body.removesuffix(" out") + OUT if body.endswith(" out") else body


def typed(unit: Unit) -> Bench:
    """Lay what the user types on the bench, every size as typed."""
    opened = open_text(unit.text)
    assert not opened.stopped, [found.message for found in opened.findings]
    rebuild, luck = opened.rebuild, NoLuck()
    packs = {name: full(luck, thick * MM) for name, thick in unit.packs.items()}
    line = next(iter(rebuild.lines.values()))
    return lay_on(rebuild, sample(rebuild, luck), Fitted(packs, COLD, {}, {}), line)


def at(bench: Bench, unit: Unit, held: Held, body: str) -> float:
    """Say where the spot of a body that the drawing counts from stands [m]."""
    spot = bench.net.layouts[their(body)].offsets[unit.origins.get(body, "first end")]
    return float(held.place(their(body))[0] + spot[0])


def same(bench: Bench, unit: Unit, held: Held, hand: Rest) -> None:
    """Hold the typed unit to be where the drawing is, and to carry what it carries."""
    for body in hand.fast():
        mine = at(bench, unit, held, body) - at(bench, unit, held, CASE)
        assert mine == pytest.approx(hand.places[body] - hand.places[CASE], abs=NEAR), body
    for spring, force in zip(hand.springs, hand.forces, strict=True):
        ends = their(spring.before), their(spring.after)
        assert float(held.force(*ends)[0]) == pytest.approx(force, rel=1e-6, abs=1e-4), ends


def read(bench: Bench, check: str) -> Reading:
    """Read a check of the unit on the bench."""
    asked = bench.rebuild.checks[check]
    return predict(bench.rebuild, asked, bench.sample, packs=bench.put.packs)


@pytest.mark.parametrize("name", UNITS)
def test_at_rest_and_pushed(name: str) -> None:
    """Wherever the user pushes, each part stands and each row carries what a hand solution says."""
    unit = UNITS[name]()
    bench = typed(unit)
    for pushes in ({}, *unit.pushes):
        held = bench.at_rest({part: full(NoLuck(), force) for part, force in pushes.items()})
        same(bench, unit, held, at_rest(unit.drawing, pushes))


@pytest.mark.parametrize("name", [name for name in UNITS if UNITS[name]().floats])
def test_end_float_read_by_a_dial(name: str) -> None:
    """The dial shows the travel from a push to a pull, with what rows and rings yield."""
    unit = UNITS[name]()
    part, push = unit.floats or ("", 0.0)
    found = float(read(typed(unit), "float").shown[0])
    assert found == pytest.approx(travel(unit.drawing, part, push), abs=NEAR)
    assert travel(unit.drawing, part, 1.2 * push) - found > 10 * NEAR  # a wrong push would show


@pytest.mark.parametrize("name", [name for name in UNITS if UNITS[name]().floats])
def test_true_float(name: str) -> None:
    """The true float is the travel without force; less than nothing is how far rows are nipped."""
    unit = UNITS[name]()
    part, _ = unit.floats or ("", 0.0)
    true = float(read(typed(unit), "float").true[0])
    free = room(unit.drawing, part)
    if free > ALL_BUT_NONE:
        assert true == pytest.approx(free, abs=ALL_BUT_NONE)
    elif any(spring.row for spring in unit.springs):
        assert true == pytest.approx(-at_rest(unit.drawing, {}).nip(), abs=NEAR)
    else:
        assert true < 0


@pytest.mark.parametrize(
    "name", ["back to back with play", "cover and shim, float", "fixed and floating"]
)
def test_how_far_free_bodies_can_go(name: str) -> None:
    """Each part that may be moved has its whole range, and one that nothing stops has none."""
    unit = UNITS[name]()
    bench = typed(unit)
    pressed = bench.at_rest({}).pressed()
    for body in set(unit.drawn) - {CASE}:
        mine, hand = rigid.room(pressed, their(body), CASE), room(unit.drawing, body)
        if mine is None:
            assert hand > 10e-3, body
        else:
            assert float(mine[0]) == pytest.approx(hand, abs=ALL_BUT_NONE), body


def test_ranges_of_a_rigid_line_by_linear_programming() -> None:
    """Washers, wheels and sleeves without a bearing travel as far as linear programming finds."""
    bench = typed(RIGID)
    for name, check in bench.rebuild.checks.items():
        low, high = reach(RIGID.springs, [*RIGID.drawn], check.of)  # type: ignore[attr-defined]
        assert float(read(bench, name).true[0]) == pytest.approx(high - low, abs=NEAR), name


def test_gap_under_a_nipped_cover() -> None:
    """Nipped by fingers, a cover stands off its shim by less than lengths alone would say."""
    unit = covered(0.27)
    found = read(typed(unit), "gap")
    screws = Spring("cover", CASE, 0, pull(700))  # what fingers give, all screws together
    loose = [s for s in unit.springs if (s.before, s.after) != ("cover", CASE)]
    hand = at_rest(replace(unit.drawing, springs=(*loose, screws)), {})
    assert found.shown[0] == pytest.approx(hand.places["cover"] - (90 + 0.27) * MM, abs=NEAR)
    assert found.true[0] == pytest.approx(0.03 * MM, abs=NEAR)
    assert 0 < found.shown[0] < found.true[0] - 5e-6


def test_ring_in_a_cartridge_does_not_lift_it() -> None:
    """What a ring nips inside a cartridge stays inside: nipped by fingers the flange is home.

    By hand: cup, floor, quill and ring push on each other and on nothing else.
    """
    opened = open_text(RING_IN_QUILL)
    assert not opened.stopped
    luck, check = NoLuck(), opened.rebuild.checks["gap"]
    shim = {"shim": full(luck, 0.2 * MM)}
    found = predict(opened.rebuild, check, sample(opened.rebuild, luck), packs=shim)
    assert found.true[0] == pytest.approx(0, abs=NEAR)
    assert found.shown[0] == pytest.approx(0, abs=NEAR)


@pytest.mark.parametrize(
    ("left_out", "check"),
    [
        pytest.param(
            "shaft",
            "{kind: gap, at: cover, state: open}",
            id="both rings of the free bearing touch nothing",
        ),
        pytest.param(
            "cover",
            "{kind: depth, from: case.joint, to: fixed.first end, held: free end, state: open}",
            id="depth to a face of a bearing",
        ),
    ],
)
def test_parts_left_out_never_end_in_a_traceback(left_out: str, check: str) -> None:
    """With parts left out the user gets a reading, or words that say why there is none."""
    text = fixed_and_floating().text
    state = f"states:\n  open: {{left out: [{left_out}]}}\nchecks:\n  asked: {check}"
    for found in open_text(text.replace("checks:", state)).findings:
        assert found.way_out


def ours(text: str, pushes: dict[str, float] | None = None, **packs: float) -> Held:
    """Bring the typed unit to rest."""
    opened = open_text(text)
    assert not opened.stopped, [found.message for found in opened.findings]
    rebuild, luck = opened.rebuild, NoLuck()
    fitted: dict[str, Array] = {name: full(luck, thick) for name, thick in packs.items()}
    line = next(iter(rebuild.lines.values()))
    bench = lay_on(rebuild, sample(rebuild, luck), Fitted(fitted, COLD, {}, {}), line)
    return bench.at_rest({name: full(luck, force) for name, force in (pushes or {}).items()})


def compare(held: Held, hand: AtRest) -> None:
    """Hold both to be the same: every force, and the distance of all that is pressed together."""
    for before, after, force in hand.forces:
        mine = float(held.force(before, after)[0])
        assert mine == pytest.approx(force, rel=1e-6, abs=2e-3), (before, after)
        if force > 1:
            apart = float(held.place(after)[0] - held.place(before)[0])
            theirs = hand.places[after] - hand.places[before]
            assert apart == pytest.approx(theirs, abs=1e-9), (before, after)


def nut_force(text: str) -> float:
    """Read what the nut of a document pulls with, as its torque says."""
    rebuild = open_text(text).rebuild
    return float(clamp_force(rebuild, rebuild.parts["nut"], NoLuck())[0])  # type: ignore[arg-type]


PAIR = (
    HEAD
    + """
      on the shaft: [shaft.shoulder, front, inner spacer, rear, nut]
      in the case: [case.register, front, outer spacer, rear]
parts:
  case: {{kind: housing}}
  shaft: {{kind: shaft}}
  front: {{kind: angular contact ball, bore: 40, outside: 80, width: 18.000 +/- 0.001,
          angle: 25 deg, stops shaft going: {front}, ground for: 200 N}}
  rear: {{kind: angular contact ball, bore: 40, outside: 80, width: 18.000 +/- 0.001,
         angle: 25 deg, stops shaft going: {rear}, ground for: 200 N}}
  inner spacer: {{kind: spacer, bore: 40, outside: 50}}
  outer spacer: {{kind: spacer, bore: 70, outside: 80}}
  nut: {{kind: nut, thread: M40x1.5, torque: 33 N.m}}
sizes:
  inner spacer: {inner:.4f} +/- 0.001
  outer spacer: {outer:.4f} +/- 0.001
"""
)


def pair_by_hand(inner: float, outer: float, clamp: float, *, back_to_back: bool) -> ByHand:
    """Write the pair out: rings 18 wide, spacers between, the nut's pull from the rear."""
    width, row = 18e-3, balls(40e-3, 80e-3, 18e-3, np.radians(25))
    ring_in = half_ring(40e-3, 80e-3, width, inner=True)
    ring_out = half_ring(40e-3, 80e-3, width, inner=False)
    half_in = inner / (206e9 * annulus(50e-3, 40e-3)) / 2
    half_out = outer / (206e9 * annulus(80e-3, 70e-3)) / 2
    hand = ByHand()
    hand.face("shaft", "front" + IN, 0.0, ring_in)
    hand.face("front" + IN, "inner spacer", width, ring_in + half_in)
    hand.face("inner spacer", "rear" + IN, inner, ring_in + half_in)
    hand.face("rear" + IN, "nut", width, ring_in)
    hand.pull("nut", "shaft", clamp)
    hand.face("case", "front" + OUT, 0.0, ring_out)
    hand.face("front" + OUT, "outer spacer", width, ring_out + half_out)
    hand.face("outer spacer", "rear" + OUT, outer, ring_out + half_out)
    stand_off = proud(row)
    # a row that stops the shaft going to the tail is pressed by the inner ring moving that way
    first, second = ("front", "rear") if back_to_back else ("rear", "front")
    hand.row(first + IN, first + OUT, stand_off, row)
    hand.row(second + OUT, second + IN, stand_off, row)
    return hand


def proud(row: Force, load: float = 200.0) -> float:
    """Find by halving how far a row must be pressed to carry its preload."""
    low, high = 0.0, 100e-6
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if row(middle) < load else (low, middle)
    return (low + high) / 2


def start_of(inner: float, outer: float) -> dict[str, float]:
    """Put everything in its place without a load."""
    return {
        "shaft": 0.0, "front" + IN: 0.0, "inner spacer": 18e-3, "rear" + IN: 18e-3 + inner,
        "nut": 36e-3 + inner, "front" + OUT: 0.0, "outer spacer": 18e-3,
        "rear" + OUT: 18e-3 + outer,
    }  # fmt: skip


@pytest.mark.parametrize(("inner", "outer"), [(20, 20), (60, 60), (120, 120), (20.0, 20.006)])
def test_back_to_back_pair_with_spacers(inner: float, outer: float) -> None:
    """A pair matched to 200 N carries more under its nut, the more the longer its spacers are."""
    text = PAIR.format(front="tail", rear="nose", inner=inner, outer=outer)
    hand = pair_by_hand(inner / 1e3, outer / 1e3, nut_force(text), back_to_back=True)
    hand.loads = {}
    found = hand.rest("case", start_of(inner / 1e3, outer / 1e3))
    compare(ours(text), found)
    assert found.force("front" + IN, "front" + OUT) > 250


@pytest.mark.parametrize(("inner", "outer"), [(20.0, 19.985), (20.0, 19.980)])
def test_face_to_face_pair_with_spacers(inner: float, outer: float) -> None:
    """Face to face a shorter outer spacer adds preload; a ring holds the outer rings together."""
    text = PAIR.format(front="nose", rear="tail", inner=inner, outer=outer)
    text = text.replace("outer spacer, rear]", "outer spacer, rear, ring]")
    text = text.replace(
        "sizes:", "  ring: {kind: threaded ring, thread: M80x2, torque: 60 N.m}\nsizes:"
    )
    rebuild = open_text(text).rebuild
    pull = float(clamp_force(rebuild, rebuild.parts["ring"], NoLuck())[0])  # type: ignore[arg-type]
    hand = pair_by_hand(inner / 1e3, outer / 1e3, nut_force(text), back_to_back=False)
    hand.face("rear" + OUT, "ring", 18e-3, half_ring(40e-3, 80e-3, 18e-3, inner=False))
    hand.pull("ring", "case", pull)
    start = {**start_of(inner / 1e3, outer / 1e3), "ring": 36e-3 + outer / 1e3}
    compare(ours(text), hand.rest("case", start))


def test_pushed_pair() -> None:
    """Under a push the loaded row carries more and the other less, as scipy says."""
    text = PAIR.format(front="tail", rear="nose", inner=20, outer=20)
    hand = pair_by_hand(20e-3, 20e-3, nut_force(text), back_to_back=True)
    # outer rings need a stop at the tail for a push that way: none here, so push to the nose
    hand.loads = {"shaft": -150.0}
    compare(ours(text, {"shaft": -150.0}), hand.rest("case", start_of(20e-3, 20e-3)))


TANDEM = (
    HEAD
    + """
      on the shaft: [shaft.shoulder, one, two, three, nut]
      in the case: [case.register, one, two, three]
parts:
  case: {{kind: housing}}
  shaft: {{kind: shaft}}
  one: {{kind: angular contact ball, bore: 30, outside: 62, width: 16.000 +/- 0.001, angle: 15 deg,
        stops shaft going: tail, ground for: {one} N}}
  two: {{kind: angular contact ball, bore: 30, outside: 62, width: 16.000 +/- 0.001, angle: 15 deg,
        stops shaft going: tail, ground for: {one} N}}
  three: {{kind: angular contact ball, bore: 30, outside: 62, width: 16.000 +/- 0.001,
          angle: 15 deg, stops shaft going: nose, ground for: {one} N}}
  nut: {{kind: nut, thread: M30x1.5, torque: 20 N.m}}
"""
)


def test_set_of_three() -> None:
    """Two in tandem against one: the single row carries as much as the two together."""
    text = TANDEM.format(one=100)
    width, row = 16e-3, balls(30e-3, 62e-3, 16e-3, np.radians(15))
    ring_in, ring_out = (half_ring(30e-3, 62e-3, width, inner=way) for way in (True, False))
    hand, off = ByHand(), proud(row, 100.0)
    hand.face("shaft", "one" + IN, 0.0, ring_in)
    hand.face("one" + IN, "two" + IN, width, 2 * ring_in)
    hand.face("two" + IN, "three" + IN, width, 2 * ring_in)
    hand.face("three" + IN, "nut", width, ring_in)
    hand.pull("nut", "shaft", nut_force(text))
    hand.face("case", "one" + OUT, 0.0, ring_out)
    hand.face("one" + OUT, "two" + OUT, width, 2 * ring_out)
    hand.face("two" + OUT, "three" + OUT, width, 2 * ring_out)
    for name in ("one", "two"):
        hand.row(name + IN, name + OUT, off, row)
    hand.row("three" + OUT, "three" + IN, off, row)
    places = {"one": 0.0, "two": width, "three": 2 * width}
    start = {name + ring: at for name, at in places.items() for ring in (IN, OUT)}
    found = hand.rest("case", {"shaft": 0.0, **start, "nut": 3 * width})
    compare(ours(text), found)
    pair = found.force("one" + IN, "one" + OUT) + found.force("two" + IN, "two" + OUT)
    assert found.force("three" + OUT, "three" + IN) == pytest.approx(pair, rel=1e-5)


HEADSTOCK = (
    HEAD
    + """
      nose: [shaft.flange, front]
      tail: [rear, nut]
      front cup: [front, case.front]
      rear cup: [case.rear, rear]
parts:
  case: {{kind: housing}}
  shaft: {{kind: shaft}}
  front: {{kind: taper roller, bore: 50, outside: 90, width: 20.000 +/- 0.001,
          set width: 21.750 +/- 0.001, angle: 14 deg, stops shaft going: tail}}
  rear: {{kind: taper roller, bore: 45, outside: 85, width: 19.000 +/- 0.001,
         set width: 20.750 +/- 0.001, angle: 14 deg, stops shaft going: nose}}
  nut: {{kind: nut, thread: M45x1.5, set to: {set:.3f} +/- 0.0001}}
sizes:
  case.front to case.rear: 200.000 +/- 0.001
"""
)


def headstock(set_to: float) -> tuple[ByHand, dict[str, float]]:
    """Write the headstock out: cones pushed by flange and nut, cups on the case."""
    front, rear = (
        tapers(50e-3, 90e-3, 20e-3, np.radians(14)),
        tapers(45e-3, 85e-3, 19e-3, np.radians(14)),
    )
    hand = ByHand()
    hand.face("shaft", "front" + IN, 0.0, half_ring(50e-3, 90e-3, 20e-3, inner=True))
    hand.face("rear" + IN, "nut", 19e-3, half_ring(45e-3, 85e-3, 19e-3, inner=True))
    hand.face("front" + OUT, "case", 20e-3, half_ring(50e-3, 90e-3, 20e-3, inner=False))
    hand.face("case", "rear" + OUT, 200e-3, half_ring(45e-3, 85e-3, 19e-3, inner=False))
    hand.row("front" + IN, "front" + OUT, 21.75e-3 - 20e-3, front)
    hand.row("rear" + OUT, "rear" + IN, 20.75e-3 - 19e-3, rear)
    # just touching: 21.75 from flange to case face, 200 between faces, 20.75 to the nut
    apart = 21.75e-3 + 200e-3 + 20.75e-3 + set_to
    hand.face("nut", "shaft", -apart)
    start = {
        "shaft": -21.75e-3, "front" + IN: -21.75e-3, "front" + OUT: -20e-3,
        "rear" + OUT: 200e-3, "rear" + IN: 201.75e-3 + set_to, "nut": 220.75e-3 + set_to,
    }  # fmt: skip
    return hand, start


@pytest.mark.parametrize("set_to", [-0.005, -0.020])
def test_taper_headstock_nipped_by_its_nut(set_to: float) -> None:
    """A nut set past nothing loads both tapers alike, the more the further."""
    hand, start = headstock(set_to / 1e3)
    found = hand.rest("case", start)
    compare(ours(HEADSTOCK.format(set=set_to)), found)
    assert found.force("front" + IN, "front" + OUT) > 20


def test_taper_headstock_with_float_pushed() -> None:
    """With float left and pushed to the tail only the front taper carries."""
    hand, start = headstock(0.030e-3)
    hand.loads = {"shaft": 300.0}
    found = hand.rest("case", start)
    held = ours(HEADSTOCK.format(set=0.030), {"shaft": 300.0})
    assert float(held.force("front" + IN, "front" + OUT)[0]) == pytest.approx(300.0, rel=1e-6)
    assert float(held.force("rear" + OUT, "rear" + IN)[0]) == 0.0
    assert float(held.place("shaft")[0]) == pytest.approx(found.places["shaft"], abs=1e-9)


def test_preload_is_found_by_the_closed_row_too() -> None:
    """The stand-off of a matched bearing found by halving is that of the row asked backwards."""
    row: Callable[[float], float] = balls(40e-3, 80e-3, 18e-3, np.radians(25))
    text = PAIR.format(front="tail", rear="nose", inner=20, outer=20)
    rebuild = open_text(text).rebuild
    assert rebuild.parts["front"].kind == "angular contact ball"
    assert row(proud(row)) == pytest.approx(200.0, rel=1e-9)
    assert ball_row_under(0.0, 0.4, distance=1e-3, balls=9, constant=1e10).load == 0.0
