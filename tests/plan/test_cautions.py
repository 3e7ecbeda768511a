"""What is said to mind: a lip over threads, keyways and steps, and what goes on under the press."""

import pytest

from dryfit.plan.bodies import Body, Stretch, keyed, stretch
from dryfit.plan.cautions import cautions
from dryfit.plan.nest import Nest

SEAL = Body("seal", (stretch(5, 12, 15, 17, gives=1.0), stretch(5, 12, 17, 25)))


def told(*bodies: Body, name: str = "seal", way: str = "to last") -> tuple[str, ...]:
    """Say what to mind, with all in place."""
    nest = Nest(bodies)
    return cautions(nest, name, way, there=nest.full)


def test_lip_over_a_plain_shaft_needs_no_care() -> None:
    """Over a plain land of its own size a seal just slides on."""
    assert told(Body("shaft", (stretch(0, 60, 0, 15),)), SEAL) == ()


def test_lip_over_a_thread_below_it_is_not_told() -> None:
    """A thread 3 mm smaller is not touched, one of the shaft's own size is."""
    for radius, count in ((12.0, 0), (15.0, 1)):
        thread = stretch(30, 45, 0, radius, thread="M")
        assert len(told(Body("shaft", (stretch(0, 30, 0, 15), thread)), SEAL)) == count


def test_thread_behind_the_seal_is_not_told() -> None:
    """What the seal does not pass on its way is left alone."""
    thread = stretch(30, 45, 0, 15, thread="M")
    assert told(Body("shaft", (stretch(0, 30, 0, 15), thread)), SEAL, way="to first") == ()


def test_lip_over_a_keyway() -> None:
    """A keyway that the lip is drawn over would cut it: cover it."""
    shaft = Body("shaft", (stretch(0, 30, 0, 15), stretch(30, 50, 0, 15)))
    bodies = keyed([shaft, Body("key", (stretch(32, 48, 12, 17),)), SEAL], ["key"])
    nest = Nest(tuple(bodies))
    assert cautions(nest, "seal", "to last", there=nest.mask(["shaft", "seal"])) == (
        "the lip of 'seal' passes a keyway of 'shaft': cover the edge",
    )


def test_ring_of_rubber_into_a_bore() -> None:
    """A ring that stands 0.4 out of its groove is drawn over the edge of the bore it goes into."""
    ring = Body("o-ring", (stretch(10, 13, 28, 31.4, gives=0.8),))
    case = Body("case", (stretch(-20, 40, 31, 50),))
    assert told(case, ring, name="o-ring") == (
        "the O-ring of 'o-ring' passes a step of 'case': cover the edge",
    )


@pytest.mark.parametrize(("nip", "count"), [(0.01, 1), (-0.01, 0)])
def test_press_is_told(nip: float, count: int) -> None:
    """A ring with nip is told as pressed, one with clearance not."""
    shaft = Body("shaft", (Stretch(0, 60, (0, 0), (20 + nip, 20 + nip)),))
    ring = Body("ring", (stretch(20, 35, 20, 30),))
    assert len(told(shaft, ring, name="ring")) == count
