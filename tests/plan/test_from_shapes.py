"""Demos taken apart from their shapes alone: what a fitter would do, found and not typed in."""

import pytest

from dryfit.app.usecases import demos
from dryfit.app.usecases.lying import lying
from dryfit.document.read import read_document
from dryfit.plan.actions import Job
from dryfit.plan.build_up import build_up
from dryfit.plan.from_shapes import bodies_of, seats_of
from dryfit.plan.nest import Nest
from dryfit.plan.order import best_order
from dryfit.plan.placing import tidied
from dryfit.plan.strip import strip
from dryfit.plan.tangles import tangles
from dryfit.shape.cells import Solid, What, ring
from dryfit.shape.kinds import solids_of


def laid(name: str, number: int = 0) -> tuple[Nest, list[str]]:
    """Give a line of a demo as bodies, and its case."""
    whole = lying(read_document(demos.text(name)).rebuild)
    rest = whole.lines[number]
    solids = solids_of(whole.rebuild, rest)
    bodies = bodies_of(solids)
    nest = Nest(bodies, rest.first, rest.last, sits=seats_of(solids, bodies))
    return nest, [solid.part for solid in solids if solid.kind == "housing"]


def came_off(name: str, number: int = 0) -> list[str]:
    """Give what comes off a demo, in order, with the way."""
    return [f"{' + '.join(t.bodies)} {t.way}" for t in strip(*laid(name, number)).taken]


def test_headstock_comes_apart() -> None:
    """Nut and rear bearing come off at the tail, the spindle goes out at the nose with the rest."""
    assert came_off("headstock") == [
        "nut to tail",
        "rear, cone to tail",
        "rear, cup to tail",
        "spindle + distance piece + front, cone to nose",
        "front, cup to nose",
    ]


def test_quill_comes_apart() -> None:
    """The tail bearing comes off under its circlip, then the spindle with its pair at the nose."""
    off = came_off("quill")
    assert off.index("circlip to tail") < off.index("tail bearing to tail")
    assert "spindle + front + second + inner spacer + outer spacer + nut to nose" in off


def test_estimates_are_passed_only_at_last_and_told() -> None:
    """Bores that nobody typed do not lock the quill, and are told; typed ones are not passed."""
    past = {taken.past for taken in strip(*laid("quill")).taken}
    assert past <= {(), ("quill",)}
    assert ("quill",) in past
    assert {taken.past for taken in strip(*laid("headstock")).taken} == {()}


def test_cluster_in_a_closed_case_is_locked() -> None:
    """A cluster between two cheeks leaves neither way; each part is told with what stops it."""
    locked = strip(*laid("lay-shaft")).locked
    assert locked["cluster"] == "to rear: 'case', 'rear washer'; to front: 'case', 'front washer'"


@pytest.mark.parametrize("name", ["headstock", "quill", "feed-box", "bench-drill"])
def test_demo_has_an_order_from_its_shapes(name: str) -> None:
    """Every part of the demo gets its step, and there is an order in which all can be done."""
    nest, case = laid(name)
    built = build_up(nest, case)
    job = Job(built.steps)
    assert tangles(job) == ()
    order = tidied(job, best_order(job).steps)
    assert {body.name for body in nest.bodies} - set(case) <= set(order)


def test_headstock_is_put_together() -> None:
    """The spindle is built up with its front cone on the bench, and goes in before the rear one."""
    nest, case = laid("headstock")
    job = Job(build_up(nest, case).steps)
    order = tidied(job, best_order(job).steps)
    whole = order.index("spindle with what is on it")
    assert {"spindle", "distance piece", "front, cone"} <= set(order[:whole])
    assert order.index("front, cup") < whole < order.index("rear, cone") < order.index("nut")


def test_key_rides_in_its_slot() -> None:
    """A key drawn on a shaft gets its slot, so that shaft and key are not in each other's way."""
    shaft = Solid("shaft", "shaft", (ring(0, 80, 0, 15),))
    key = Solid("key", "key", (ring(30, 50, 12, 17, what=What.KEY),))
    hub = Solid("hub", "spacer", (ring(30, 55, 15, 30),))
    plain = Solid("ring", "spacer", (ring(10, 20, 15, 25),))
    nest = Nest(bodies_of([shaft, key, hub, plain]))
    to_last = nest.moves[nest.at["ring"]][0]
    assert nest.told(to_last.stops) == ("key", "hub")
    assert [t.bodies for t in strip(nest, ["shaft"]).taken] == [("ring",), ("hub",), ("key",)]


def test_nut_drawn_at_crest_size_holds_its_shaft() -> None:
    """A nut drawn as wide as the crest of its thread still has to be screwed off."""
    shaft = Solid("shaft", "shaft", (ring(0, 60, 0, 20), ring(60, 80, 0, 18, what=What.THREAD)))
    nut = Solid("nut", "nut", (ring(60, 70, 18, 27),))
    nest = Nest(bodies_of([shaft, nut]))
    assert nest.told(nest.moves[0][1].stops) == ("nut",)
    assert nest.moves[1][0].stops == 0


def test_lip_of_a_seal_gives_and_its_shell_does_not() -> None:
    """A seal slides 0.5 mm up over a land, and not over one 3 mm larger."""
    seal = Solid("seal", "seal", (ring(0, 8, 15, 25, what=What.LIP),))
    for radius, stopped in ((15.5, False), (18.0, True)):
        shaft = Solid("shaft", "shaft", (ring(0, 8, 0, 15), ring(8, 40, 0, radius)))
        nest = Nest(bodies_of([seal, shaft]))
        assert bool(nest.moves[0][0].stops) == stopped
