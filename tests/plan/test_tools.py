"""Tools as shapes, other lines, and steps from bodies."""

import pytest

from dryfit.plan.actions import Act, Job
from dryfit.plan.bodies import Body, Level, stretch
from dryfit.plan.build_up import build_up
from dryfit.plan.instruments import feelers, probes
from dryfit.plan.lines import across, beside
from dryfit.plan.masks import masks_of
from dryfit.plan.nest import Nest
from dryfit.plan.order import best_order, next_best
from dryfit.plan.placing import tidied
from dryfit.plan.pulling import Tight, kept_on, pullers, sleeves
from dryfit.plan.reach import blocked, least_shut
from dryfit.plan.seats import seats
from dryfit.plan.spanners import spanners
from dryfit.plan.tangles import tangles

Ring = tuple[float, float, float, float]


def body(name: str, *rings: Ring, can: Level = Level.PRESS, thread: str = "") -> Body:
    """Give a body of level rings: from, to, inner and outer radius."""
    return Body(name, tuple(stretch(*ring, thread=thread) for ring in rings), can)


SHAFT = Body(
    "shaft", (stretch(0, 10, 0, 30), stretch(10, 80, 0, 20), stretch(80, 95, 0, 18, thread="M36"))
)
NUT = Body("nut", (stretch(80, 90, 17.1, 26, thread="M36"),), Level.SCREW)
BEARING = body("bearing", (50, 68, 20, 27), (50, 68, 33, 40))
SLEEVE = body("sleeve", (10, 50, 20, 26))
SPACER = body("spacer", (68, 80, 20, 26))
CARTRIDGE = body("cartridge", (40, 100, 40, 50))
COVER = body("cover", (100, 108, 19, 50), (95, 100, 30, 40))


def head() -> Nest:
    """Give a shaft with a bearing under a nut, in a cartridge with a cover before the nut."""
    bodies = (SHAFT, SLEEVE, BEARING, SPACER, NUT, CARTRIDGE, COVER)
    return Nest(bodies, "gear", "drive", sits=seats(bodies))


def test_spanner_does_not_reach_a_nut_behind_its_cover() -> None:
    """With the cover on the nut cannot be turned; without it a socket goes in at the drive end."""
    nest = head()
    reaches = spanners(nest, "nut")
    assert blocked(nest, reaches, nest.full).split("; ") == [
        "socket, to drive: 'cover' is in the way",
        "socket, to gear: 'shaft', 'sleeve', 'bearing', 'spacer' are in the way",
        "hook spanner, from outside: 'cartridge' is in the way",
    ]
    assert blocked(nest, reaches, nest.full & ~nest.mask(["cover"])) == ""


def test_socket_too_thick_for_its_bore() -> None:
    """A bore that leaves 14 mm round the nut takes a socket of 6 mm wall, not one of 16."""
    nest = head()
    there = nest.full & ~nest.mask(["cover"])
    assert blocked(nest, spanners(nest, "nut", 6.0), there) == ""
    assert "'cartridge'" in blocked(nest, spanners(nest, "nut", 16.0), there)


@pytest.mark.parametrize(("rim", "shut"), [(80.5, False), (82, True)])
def test_socket_takes_hold_of_a_nut_above_its_chamfer(rim: float, shut: bool) -> None:
    """A rim that stands past the foot of a nut, no further than its chamfer of 1, hinders none."""
    foot, rest = (80, 81, 17.1, 25), (81, 90, 17.1, 26)
    cells = tuple(stretch(*ring, thread="M36") for ring in (foot, rest))
    nut, beside_it = Body("nut", cells, Level.SCREW), body("rim", (70, rim, 27, 40))
    nest = Nest((SHAFT, nut, beside_it), "gear", "drive")
    socket = next(one for one in spanners(nest, "nut") if one.way == "to drive")
    assert nest.told(socket.shut_by) == (("rim",) if shut else ())


INNER = Tight("bearing", (50, 68), (20, 27), inside=True)
OUTER = Tight("bearing", (50, 68), (33, 40), inside=False)


def test_sleeve_on_the_tight_ring() -> None:
    """A sleeve gets to the inner ring from the drive end once spacer, nut and cover are off."""
    nest = head()
    for way, names in (("to drive", ("spacer", "nut", "cover")), ("to gear", ("shaft", "sleeve"))):
        assert {nest.told(reach.shut_by) for reach in sleeves(nest, INNER, way)} == {names}


@pytest.mark.parametrize(("collar", "shut"), [(36.4, False), (36.6, True)])
def test_sleeve_half_as_thick_as_the_ring_is_high(collar: float, shut: bool) -> None:
    """By hand: a ring from 33 to 40 takes a sleeve of 3.5, past a collar up to 36.5, no higher."""
    shaft = body("shaft", (0, 50, 0, 20), (50, 68, 0, 20), (70, 80, 0, collar))
    nest = Nest((shaft, BEARING), "gear", "drive")
    assert bool(least_shut(nest, sleeves(nest, OUTER, "to drive"), nest.full)) == shut


def test_feeler_and_dial_paths() -> None:
    """The gap at the spacer is felt along the bore, not across it, and not past a cover."""
    nest = head()
    reaches = feelers(nest, ("bearing", "spacer"), (67.75, 68.25), radius=26)
    words = blocked(nest, reaches, nest.full)
    assert "feeler, from outside: 'cartridge' is in the way" in words
    open_ = nest.full & ~nest.mask(["cover", "nut"])
    assert blocked(nest, reaches, open_) == ""
    to_drive, to_gear = probes(nest, 95, 9)
    assert nest.told(to_drive.shut_by) == ()
    assert nest.told(to_gear.shut_by) == ("shaft",)


def test_puller_needs_room_behind_the_ring() -> None:
    """The cartridge is too near for claws and plates, the cover before them; no drift gets past the
    flange. On the bench claws and plates have the last millimetre of a ring of 27, over a sleeve of
    26."""
    nest = head()
    reaches = pullers(nest, INNER, "to drive")
    assert [(r.tool, r.way, nest.told(r.shut_by)) for r in reaches] == [
        ("claws", "to drive", ("cartridge", "cover")),
        ("plates", "outwards", ("cartridge",)),
        ("drift", "to gear", ("shaft",)),
    ]
    assert kept_on(nest, INNER, "shaft", ["cartridge"]) == ()


@pytest.mark.parametrize(
    ("sleeve", "flange", "kept"), [(26, 30, ()), (27, 30, ("sleeve",)), (27, 25, ())]
)
def test_ring_is_drawn_by_what_lies_against_it(
    sleeve: float, flange: float, kept: tuple[str, ...]
) -> None:
    """A sleeve as high as the ring hides all of its face, and is pulled with it: behind the sleeve
    there has to be a millimetre then, and a flange of 30 leaves none, one of 25 does."""
    shaft = body("shaft", (0, 10, 0, flange), (10, 80, 0, 20))
    bodies = (shaft, body("sleeve", (10, 50, 20, sleeve)), BEARING)
    nest = Nest(bodies, "gear", "drive", sits=seats(bodies))
    assert kept_on(nest, INNER, "shaft", ["shaft"]) == kept


@pytest.mark.parametrize(("lip", "kept"), [(34.1, True), (33.9, False)])
def test_cup_is_drawn_by_the_edge_it_shows(lip: float, kept: bool) -> None:
    """A cup of 33 to 40 in a blind bore wants 1 mm of its edge free: a lip of 34.1 shows it."""
    cup = body("cup", (50, 68, 33, 40))
    case = body("case", (44, 50, lip, 60), (30, 44, 0, 60), (50, 100, 40, 60))
    nest = Nest((case, cup), "gear", "drive")
    tight = Tight("cup", (50, 68), (33, 40), inside=False)
    assert (kept_on(nest, tight, "case", ["case"]) == ("case",)) == (not kept)


def test_way_names_the_step_that_shuts_it() -> None:
    """A tool's way is told with the step that puts the cover on, whatever unit that is."""
    nest = head()
    way = spanners(nest, "nut")[0].as_way(nest, {"cover": "cover with what is on it"})
    assert way.name == "socket, to drive"
    assert way.shut_by == {"cover with what is on it"}


def test_order_from_shapes() -> None:
    """The stack goes on its shaft in its order, and the nut is tight before the cover hides it."""
    nest = head()
    steps = build_up(nest, ["cartridge"]).steps
    assert tangles(Job(steps)) == ()
    order = tidied(Job(steps), best_order(Job(steps)).steps)
    on_shaft = [name for name in order if name in ("sleeve", "bearing", "spacer", "nut")]
    assert on_shaft == ["sleeve", "bearing", "spacer", "nut"]
    acts = {step.name: step.act for step in steps}
    assert acts["nut"] is Act.SCREW
    assert acts["sleeve"] is Act.PUT


def test_nut_goes_on_while_its_spanner_still_gets_to_it() -> None:
    """A plate whose hole lets the nut through, but no socket, goes on after the nut is tight.

    By hand: nut of radius 26, hole 29, socket 26 + 6 = 32.
    """
    plate = body("plate", (100, 108, 29, 50))
    bodies = (SHAFT, SLEEVE, BEARING, SPACER, NUT, CARTRIDGE, plate)
    nest = Nest(bodies, "gear", "drive", sits=seats(bodies))
    nut = next(s for s in build_up(nest, ["cartridge"]).steps if s.name == "nut")
    assert ["plate"] in [sorted(way.shut_by) for way in nut.ways if "socket, to drive" in way.name]
    assert all("plate" in way.shut_by or "shaft" in way.shut_by for way in nut.ways)
    job = Job(build_up(nest, ["cartridge"]).steps)
    for order in next_best(job, 1):
        assert order.steps.index("nut") < order.steps.index("plate")
    assert masks_of(job).locked() == 0


def test_share_of_a_face_that_is_seen() -> None:
    """Of a bearing's face three quarters show past its spacer, nothing past the cover.

    Between radii 20 and 40 past a spacer of 20 to 26: 1 - (26^2 - 20^2) / (40^2 - 20^2) = 0.77.
    """
    nest = head()
    open_ = nest.mask(["shaft", "bearing", "spacer"])
    share = nest.seen(open_, 68, (20, 40), toward="to drive")
    assert share == pytest.approx(1 - (26**2 - 20**2) / (40**2 - 20**2))
    assert nest.seen(nest.full, 68, (20, 40), toward="to drive") == pytest.approx(0.0)


def test_unit_goes_in_whole() -> None:
    """A shaft with rings on both sides of its gear is built up on the bench and goes in as one."""
    shaft = body("shaft", (0, 100, 0, 20), (40, 60, 20, 35))
    left, right = body("left", (20, 40, 20, 40)), body("right", (60, 80, 20, 40))
    case = body("case", (0, 80, 40, 60), (80, 90, 25, 60))
    bodies = (case, shaft, left, right)
    nest = Nest(bodies, "open", "blind", sits=seats(bodies))
    built = build_up(nest, ["case"])
    names = [step.name for step in built.steps]
    assert names[-1] == "left"
    assert built.inside == {"shaft with what is on it": ("shaft", "right")}
    job = Job(built.steps)
    assert tangles(job) == ()
    assert best_order(job).steps == ("shaft", "right", "shaft with what is on it", "left")


def line(name: str, *bodies: Body) -> Nest:
    """Give a line with ends of its own name."""
    return Nest(bodies, f"{name} front", f"{name} rear")


def test_gear_beside_stops_a_wider_one() -> None:
    """On parallel shafts a gear cannot slide past one that reaches beyond, but along its own mate.

    By hand: radii 30 and 25 reach past 50 mm of centres by 5.
    """
    upper = line("upper", body("gear", (0, 20, 10, 30)), body("bush", (30, 40, 10, 20)))
    lower = line("lower", body("wheel", (10, 30, 10, 25)), body("far", (100, 120, 10, 25)))
    stops = beside(upper, lower, 50.0)
    assert stops["gear", "to upper rear"] == {"wheel", "far"}
    assert stops["gear", "to upper front"] == {"wheel"}
    assert ("bush", "to upper rear") not in stops
    mates = beside(upper, lower, 50.0, meshing=[("gear", "wheel")])
    assert mates["gear", "to upper rear"] == {"far"}
    assert ("gear", "to upper front") not in mates


@pytest.mark.parametrize(("radius", "stopped"), [(20.0, True), (9.0, False)])
def test_shaft_across_stops_what_must_pass_it(radius: float, stopped: bool) -> None:
    """A shaft across the end of a pinion stops it one way, unless it lies within the hollow one."""
    pinion = line("pinion", body("pinion", (30, 80, 0, 15)))
    wheel = line("wheel", body("wheel shaft", (-60, 60, 0, 25)))
    stops = across(pinion, wheel, (0.0, 0.0))
    assert stops == {("pinion", "to pinion front"): frozenset({"wheel shaft"})}
    tube = line("tube", body("tube", (30, 80, 10, radius + 5)))
    small = line("small", body("pin", (-radius, radius, 0, radius)))
    assert bool(across(tube, small, (0.0, 0.0))) == stopped


@pytest.mark.parametrize(("first", "stopped"), [(27.0, True), (27.5, False)])
def test_race_beside_a_wheel_at_right_angles(first: float, stopped: bool) -> None:
    """A worm's race passes its wheel only where the wheel's round does not reach down to it.

    By hand: a wheel of radius 42, its centre 52 off, 20 of which the race takes: half the chord is
    the root of 42^2 - 32^2, 27.2; before, as if the wheel were square, it was 42.
    """
    worm = line("worm", body("race", (first, first + 10, 8, 20)))
    wheel = line("wheel", body("wheel", (-10, 10, 0, 42)))
    stops = across(worm, wheel, (0.0, 0.0), apart=52.0)
    assert stops["race", "to worm front"] == {"wheel"}
    assert (("race", "to worm rear") in stops) == stopped
    assert across(worm, wheel, (0.0, 0.0), apart=62.1) == {}
    beside_it = line("wheel", body("wheel", (19, 39, 0, 42)))
    assert across(worm, beside_it, (0.0, 0.0), apart=52.0) == {}


def test_seats() -> None:
    """A bearing goes with its shaft, a sleeve and a nut too, a cover with what it is let into."""
    assert seats((SHAFT, SLEEVE, BEARING, SPACER, NUT, CARTRIDGE, COVER)) == {
        "sleeve": "shaft",
        "bearing": "shaft",
        "spacer": "shaft",
        "nut": "shaft",
        "cover": "cartridge",
    }


def test_seal_sits_in_its_cover() -> None:
    """A seal goes with the cover that its shell is in, not with the shaft that its lip is on."""
    seal = Body("seal", (stretch(101, 107, 18, 20, gives=1.0), stretch(101, 107, 20, 28)))
    cover = body("cover", (100, 108, 28, 50))
    shaft = body("shaft", (0, 120, 0, 18))
    assert seats((seal, cover, shaft))["seal"] == "cover"


def test_nut_that_no_spanner_reaches_still_has_its_step() -> None:
    """A nut deep in a narrow bore, which no socket of ours gets to, is still put on in its turn."""
    narrow = body("cartridge", (40, 100, 40, 50), (79, 110, 27, 40))
    bodies = (SHAFT, SLEEVE, BEARING, SPACER, NUT, narrow)
    nest = Nest(bodies, "gear", "drive", sits=seats(bodies))
    assert blocked(nest, spanners(nest, "nut")[:1], nest.mask(["cartridge"])) != ""
    job = Job(build_up(nest, ["cartridge"]).steps)
    assert tangles(job) == ()
    assert "nut" in job.named


def test_nut_inside_a_skirt_is_no_dead_end() -> None:
    """A nut inside the skirt of a spacer, where no spanner goes, still gets its turn."""
    skirted = body("spacer", (68, 80, 20, 35), (80, 95, 28, 35))
    bodies = (SHAFT, SLEEVE, BEARING, skirted, NUT)
    nest = Nest(bodies, "gear", "drive", sits=seats(bodies))
    steps = build_up(nest, ["shaft"]).steps
    assert tangles(Job(steps)) == ()
    nut = next(step for step in steps if step.name == "nut")
    assert [way.name for way in nut.ways] == ["to drive"]
