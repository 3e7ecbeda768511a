"""Faces that a part hides: by hand, on a stepped pin, a ring and a cap."""

import pytest

from dryfit.model.spots import Spot
from dryfit.plan.bodies import Body, stretch
from dryfit.plan.nest import Nest
from dryfit.plan.sight import Face, faces, in_sight
from dryfit.shape.resting import Resting

PIN = Body("pin", (stretch(0, 5, 0, 8), stretch(5, 30, 0, 5)))
RING = Body("ring", (stretch(5, 9, 5, 9),))
CAP = Body("cap", (stretch(9, 15, 0, 6),))
NEST = Nest((PIN, RING, CAP))
REST = Resting(
    "pin",
    "first",
    "last",
    {
        "pin": {"shoulder": 5.0, "middle": 20.0},
        "ring": {"first end": 5.0, "last end": 9.0},
        "cap": {"first end": 9.0},
    },
    (
        (Spot("pin", "shoulder"), Spot("ring", "first end")),
        (Spot("ring", "last end"), Spot("cap", "first end")),
    ),
)


def test_faces_are_those_that_something_bears_on() -> None:
    """A shoulder is the ring from the smaller to the larger radius, and looks to the free side."""
    found = {face.name: (face.radii, face.way) for face in faces(NEST, REST)}
    assert found == {
        "pin.shoulder": ((5, 8), "to last"),
        "ring.first end": ((5, 9), "to first"),
        "ring.last end": ((5, 9), "to last"),
        "cap.first end": ((0, 6), "to first"),
    }


def test_place_without_a_step_is_no_face() -> None:
    """A named place in the middle of a plain length has nothing to be looked at."""
    rest = Resting(
        "pin",
        "first",
        "last",
        REST.places,
        ((Spot("pin", "middle"), Spot("ring", "first end")),),
    )
    assert [face.name for face in faces(NEST, rest)] == ["ring.first end"]


@pytest.mark.parametrize(
    ("outer", "seen"),
    [
        (8.0, False),  # from 5 to 8 covers the whole shoulder
        (7.8, False),  # leaves (64 - 60.84) / (64 - 25) = 8 in 100: under a tenth
        (7.7, True),  # leaves (64 - 59.29) / 39 = 12 in 100
        (6.0, True),
    ],
)
def test_face_counts_as_hidden_under_a_tenth(outer: float, seen: bool) -> None:
    """Less than a tenth of a face, by area, is too little to look at it (estimate)."""
    nest = Nest((PIN, Body("ring", (stretch(5, 9, 5, outer),))))
    shoulder = Face("pin.shoulder", "pin", 5.0, (5.0, 8.0), "to last")
    assert in_sight(nest, shoulder, nest.mask(["pin"]))
    assert in_sight(nest, shoulder, nest.full) is seen
