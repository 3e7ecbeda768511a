"""A touch on a drawing meets the part that is there."""

from itertools import pairwise

import pytest

from dryfit.app.usecases import demos
from dryfit.app.usecases.drawing import DrawRequest, draw
from dryfit.draw.paper import Drawing, Layer, Point, Ring, Stroke


def _within(point: Point, outlines: tuple[tuple[Point, ...], ...]) -> bool:
    """Count the edges to the right of a point: odd is within (Jordan)."""
    x, y = point
    right = 0
    for outline in outlines:
        for (a, b), (c, d) in pairwise((*outline, outline[0])):
            if (b > y) != (d > y) and x < a + (y - b) / (d - b) * (c - a):
                right += 1
    return right % 2 == 1


def _drawing(name: str) -> Drawing:
    drawing = draw(DrawRequest(demos.text(name))).drawing
    assert drawing is not None
    return drawing


@pytest.mark.parametrize("name", ["bevel-box", "feed-box", "headstock", "bench-drill", "quill"])
def test_where_a_leader_points_its_part_is_met(name: str) -> None:
    """The dot of a leader lies on the part that its number names; a touch there meets that one."""
    drawing = _drawing(name)
    parts = [group for group in drawing.groups if group.layer is Layer.PARTS]
    pointed = [group for group in drawing.groups if group.layer is Layer.BALLOONS]
    assert pointed
    for balloon in pointed:
        leader = balloon.items[0]
        assert isinstance(leader, Stroke)
        met = [part.part for part in parts if _within(leader.points[-1], part.reach)]
        assert met[-1:] == [balloon.part]


@pytest.mark.parametrize("name", ["bevel-box", "feed-box", "headstock"])
def test_a_number_is_met_too(name: str) -> None:
    """The ring about a number is as good as the part it names."""
    for group in _drawing(name).groups:
        if group.layer is Layer.BALLOONS:
            (ring,) = (item for item in group.items if isinstance(item, Ring))
            assert _within(ring.centre, group.reach)


def test_a_shim_can_be_met_by_a_finger() -> None:
    """A shim of a hair is met within 2.4 mm of paper about it, as an estimate has it."""
    drawing = _drawing("bevel-box")
    (shim,) = (g for g in drawing.groups if g.layer is Layer.PARTS and g.part == "cover shim")
    for outline in shim.reach:
        for axis in (0, 1):
            values = [point[axis] for point in outline]
            assert max(values) - min(values) >= 2.4 - 1e-9


def test_nothing_reaches_beyond_the_sheet() -> None:
    """A touch outside the drawing meets nothing."""
    drawing = _drawing("bevel-box")
    points = [point for group in drawing.groups for outline in group.reach for point in outline]
    assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in points)
