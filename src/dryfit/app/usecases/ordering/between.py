"""How feelers and depth gauges get between two faces: into a gap that opens, from one to another.

Reading order: feelers and where a gap opens, depth gauges, faces of parts.
"""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import pairwise, product

from dryfit.app.usecases.ordering.unit import LineOf
from dryfit.model.spots import Spot
from dryfit.plan.actions import Way
from dryfit.plan.instruments import BLADE, DEPTH, ROD, feelers, probes
from dryfit.plan.reach import as_ways, together
from dryfit.plan.sight import Face, face_at
from dryfit.shape.resting import Touch, owner

Ways = tuple[Way, ...]


@dataclass(frozen=True, slots=True)
class Mouth:
    """Where a gap opens: from where to where along the line, and at which radius [mm]."""

    span: tuple[float, float]
    radius: float


def felt(line: LineOf, at: str, out: Collection[str], *, typed: bool) -> Ways:
    """Say how a feeler gets into a gap: under a cover, or where a part is left out.

    Parameters
    ----------
    line
        The line.
    at
        The cover, or the part.
    out
        What is left out while it is felt; so is what lies in the joint of a cover.
    typed
        Whether only what somebody typed is in the way.
    """
    parts = dict.fromkeys((at, *out, *_in_joint(line, at)))
    own = [body for part in parts for body in line.bodies(part)]
    mouths = _under_cover(line, at) if at in line.rest.joints else _at_seat(line, at)
    found = [
        way
        for mouth in mouths
        for way in as_ways(
            line.nest, feelers(line.nest, own, mouth.span, radius=mouth.radius, typed=typed)
        )
    ]
    return tuple(dict.fromkeys(found))


def _under_cover(line: LineOf, cover: str) -> Iterator[Mouth]:
    """Say where the gap under a cover opens: off its joint, on the side on which it lies."""
    joint, flange = (_face(line, spot) for spot in line.rest.joints[cover])
    if joint and flange:
        span = (flange.at, flange.at + BLADE), (flange.at - BLADE, flange.at)
        radius = min(joint.radii[1], flange.radii[1])
        yield Mouth(span[line.nest.ways.index(joint.way)], radius)


def _at_seat(line: LineOf, part: str) -> Iterator[Mouth]:
    """Say where the seat of a part opens, halfway between its neighbours."""
    for before, after in pairwise(_touches(line, part)):
        sides = _face(line, before.before), _face(line, after.after)
        if owner(before.after.part) == part == owner(after.before.part) and all(sides):
            faces = [side for side in sides if side]
            low, high = sorted(face.at for face in faces)
            half, middle = min(BLADE, high - low) / 2, (low + high) / 2
            radius = min(face.radii[1] for face in faces)
            yield Mouth((middle - half, middle + half), radius)


def _touches(line: LineOf, part: str) -> list[Touch]:
    every = line.rest.touches
    return [touch for touch in every if part in (owner(touch.before.part), owner(touch.after.part))]


def _in_joint(line: LineOf, cover: str) -> Iterator[str]:
    """Name what lies between a cover and what it is screwed to: packs and gaskets."""
    joint = line.rest.joints.get(cover, ())
    for stack in line.rest.stacks if joint else ():
        if all(spot in stack for spot in joint):
            first, last = sorted(stack.index(spot) for spot in joint)
            yield from (owner(spot.part) for spot in stack[first + 1 : last])


def between(line: LineOf, start: Spot, end: Spot, *, typed: bool) -> Ways:
    """Say how a depth gauge gets from one spot to another, both from the same end of the line."""
    faces = [face for spot in (start, end) if (face := _face(line, spot))]
    if len(faces) < len((start, end)):
        return ()
    pairs = product(*(_probed(line, face, typed=typed) for face in faces))
    found = (together(one, other) for one, other in pairs if one.name == other.name)
    return tuple(dict.fromkeys(found))


def _probed(line: LineOf, face: Face, *, typed: bool) -> Ways:
    """Say how a rod gets to a face: near its bore, halfway, near its outside."""
    (low, high), own = face.radii, 1 << line.nest.at[face.body]
    found = (
        reach
        for radius in (low + ROD / 2, (low + high) / 2, high - ROD / 2)
        for reach in probes(line.nest, face.at, radius, thick=ROD, tool=DEPTH, typed=typed)
    )
    return as_ways(line.nest, (reach for reach in found if not reach.shut_by & own))


def _face(line: LineOf, spot: Spot) -> Face | None:
    """Find the face of a part at a spot; of a bearing that of either ring."""
    part = owner(spot.part)
    places = (spots for body, spots in line.rest.places.items() if owner(body) == part)
    at = next((spots[spot.name] for spots in places if spot.name in spots), None)
    if at is None:
        return None
    bodies = (line.nest.bodies[line.nest.at[body]] for body in line.bodies(part))
    found = (face_at(line.nest, body, body.name, at) for body in bodies)
    return next((face for face in found if face), None)
