"""Cells of the case, and how any part that rings sit in is put together.

It is a hollow side, put together from what claims room in it, and a wall round that. Where
nobody typed an outside the wall is an estimate.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from dryfit.model.parts import Pin, RetainingRing
from dryfit.shape.bands import is_shaft
from dryfit.shape.cells import Cell, Guess
from dryfit.shape.profile import HAIR, Step, beside, joined, profile, until
from dryfit.shape.scene import Face, Scene, Sitter

WALL, LEAST_WALL = 0.16, 5.0
"""Thickness of a wall, of its inside radius, and the least [mm]: estimate."""

CLEAR = 4.0
"""Room about what turns in a case [mm]: estimate."""

LIP = 0.35
"""How long a shoulder is where nothing ends it, of the radius of the shaft: estimate."""


def wall(radius: float) -> float:
    """Say how thick a wall is about a hollow of a radius [mm]."""
    return max(LEAST_WALL, WALL * radius)


def housing(scene: Scene, part: str) -> tuple[Cell, ...]:
    """Give the case along this line: pockets, shoulders, chambers about gears, flanges."""
    faces = [*scene.faces(part)]
    if not faces and not scene.sitters(part):
        return ()
    joints = [joint for guest in scene.guests(part) if (joint := scene.joint_of(guest))]
    (first, shut_first), (last, shut_last) = (
        _end(scene, part, faces, joints, way) for way in (-1.0, 1.0)
    )
    if last - first < HAIR:
        return ()
    room = hollow(scene, part, (first, last), faces)
    flanges = [
        _flange_on(scene, face, guest)
        for guest in scene.guests(part)
        if (face := scene.joint_of(guest))
    ]
    walls = _end_walls(scene, part, room, (shut_first, shut_last))
    shut = [Step(*span, _hole(scene, part, span), known=False) for span in walls]
    inside = joined(sorted([*room, *shut], key=lambda step: step.first))
    open_ends = (Guess.NONE if shut_first else _end_guess(joints, first, Guess.FIRST)) | (
        Guess.NONE if shut_last else _end_guess(joints, last, Guess.LAST)
    )
    typed = scene.lands(part, "outside", first, last)
    return _with_ends(
        _shell(scene, part, inside, flanges), (shut_first, shut_last), typed, open_ends
    )


def _end_guess(joints: Sequence[Face], end: float, flag: Guess) -> Guess:
    """Say whether an open end of a case is an estimate: where nothing is screwed to it."""
    return Guess.NONE if any(abs(j.at - end) < HAIR for j in joints) else flag


def _with_ends(
    cells: tuple[Cell, ...], shut: tuple[bool, bool], typed: Sequence[Step], guess: Guess
) -> tuple[Cell, ...]:
    """Mark the ends of a case that are estimates: where no typed land of its outside ends."""
    for flag, is_shut in zip((Guess.FIRST, Guess.LAST), shut, strict=True):
        guess |= flag if is_shut else Guess.NONE
    first, last = cells[0].first, cells[-1].last
    if any(abs(step.first - first) < HAIR for step in typed):
        guess &= ~Guess.FIRST
    if any(abs(step.last - last) < HAIR for step in typed):
        guess &= ~Guess.LAST
    ends = {0: guess & Guess.FIRST}
    ends[len(cells) - 1] = ends.get(len(cells) - 1, Guess.NONE) | guess & Guess.LAST
    return tuple(
        replace(cell, guess=cell.guess | ends.get(n, Guess.NONE)) for n, cell in enumerate(cells)
    )


def _end(
    scene: Scene, part: str, faces: Sequence[Face], joints: Sequence[Face], way: float
) -> tuple[float, bool]:
    """Say where a case ends one way, and whether a wall shuts it there.

    At the joint of a cover, or past it where a bore is typed that the cover is sunk into.
    """
    own = [face.at for face in joints if face.way == -way]
    if own:
        return _furthest([*own, *_bounds(scene, part, "bore")], way), False
    pockets = [x for s in scene.sitters(part) for x in (s.first, s.last)]
    far = _furthest([*pockets, *(face.at for face in faces), *_rooms(scene)], way)
    typed = [_furthest(_bounds(scene, part, side), way) for side in ("bore", "outside")]
    if way * typed[0] > way * far - HAIR:
        return typed[0], way * typed[1] > way * typed[0] + HAIR
    if way * typed[1] > way * far + HAIR:
        return far, True
    return _untyped_end(scene, faces, pockets, far, way)


def _furthest(places: Sequence[float], way: float) -> float:
    return way * max((way * x for x in places), default=-1e9)


def _bounds(scene: Scene, part: str, side: str) -> list[float]:
    """List where typed lands of a side begin and end [mm]."""
    return [x for s in scene.lands(part, side, 0.0, 0.0) for x in (s.first, s.last) if x or s.last]


def _untyped_end(
    scene: Scene, faces: Sequence[Face], pockets: Sequence[float], far: float, way: float
) -> tuple[float, bool]:
    """Say the same where no bore is typed: beyond a pocket, a shoulder, or what turns."""
    stopped = [f for f in faces if abs(f.at - far) < HAIR and f.way == way]
    if any(abs(far - x) < HAIR for x in pockets) and not stopped:
        return far + way * 1.5, False
    if stopped and not _is_plain(scene, stopped):
        return far + way * LIP * scene.scale, False
    if stopped:
        return far, True
    crossing = [g.apex for own in scene.gears.values() for g in own if g.apex is not None]
    if any(abs(far - x) < HAIR for x in crossing):
        return far, False
    return _furthest([far, _turning(scene, way) + way * CLEAR], way), True


def _is_plain(scene: Scene, faces: Sequence[Face]) -> bool:
    """Tell a face that a shaft or a plain washer runs against from a shoulder behind a ring."""
    return all(scene.host_of(face.other.part) is None for face in faces)


def _rooms(scene: Scene) -> list[float]:
    """List how far gears and their mates want room in a case [mm]."""
    gears = [gear for own in scene.gears.values() for gear in own]
    mates = [gear.mate_ends for gear in gears if gear.mate_ends is not None]
    ends = [x for gear in gears for x in (gear.first - CLEAR, gear.last + CLEAR)]
    crossings = [gear.apex for gear in gears if gear.apex is not None]
    return [*ends, *mates, *crossings]


def _turning(scene: Scene, way: float) -> float:
    """Say how far along what turns reaches [mm]."""
    turns = [own for name, own in scene.cells.items() if is_shaft(scene.part(name))]
    return _furthest([x for own in turns for c in own for x in (c.first, c.last)], way)


def _hole(scene: Scene, part: str, span: tuple[float, float]) -> float:
    """Give the hole through which what is built goes through a wall [mm]; nought if nothing."""
    reach = scene.reach(*span, part)
    return reach + 1.0 if reach else 0.0


def _end_walls(
    scene: Scene, part: str, room: Sequence[Step], shut: tuple[bool, bool]
) -> list[tuple[float, float]]:
    """Give the stretches of the walls that shut a case, as far as its typed outside goes."""
    first, last = room[0].first, room[-1].last
    thick = wall(max(step.radius for step in room))
    typed = scene.lands(part, "outside", first, last)
    far_first = min([s.first for s in typed if s.first < first - HAIR], default=first - thick)
    far_last = max([s.last for s in typed if s.last > last + HAIR], default=last + thick)
    found = [(far_first, first)] if shut[0] else []
    return found + ([(last, far_last)] if shut[1] else [])


def hollow(scene: Scene, part: str, ends: tuple[float, float], faces: Sequence[Face]) -> list[Step]:
    """Put the inside of a case or cartridge together."""
    first, last = ends
    sitters = scene.sitters(part)
    lands = scene.lands(part, "bore", first, last)
    pockets = [_pocket(scene, sitter) for sitter in sitters]
    guests = [room for guest in scene.guests(part) if (room := _room_for(scene, guest, ends))]
    claims = [*guests, *lands, *pockets, *_shoulders(scene, part, ends, sitters, faces)]
    raw = profile(claims, first, last, lambda bare: _bare(scene, part, claims, bare))
    return joined(raw)


def _pocket(scene: Scene, sitter: Sitter) -> Step:
    known = Guess.OUTER not in sitter.band.guess
    del scene
    return Step(sitter.first, sitter.last, sitter.band.outer, known)


def _room_for(scene: Scene, guest: str, ends: tuple[float, float]) -> Step | None:
    """Give the hole that the spigot of a cover or the sleeve of a cartridge goes into."""
    joint, stands_on = scene.joint(guest), scene.joint_of(guest)
    cells = scene.cells.get(guest, ())
    if joint is None or stands_on is None or isinstance(scene.part(guest), Pin):
        return None
    inside = [c for c in cells if joint.way * ((c.first + c.last) / 2 - joint.at) < 0]
    if not inside:
        return None
    a, b = min(c.first for c in inside), max(c.last for c in inside)
    radius = max(max(c.outer) for c in inside)
    known = not any(c.guess & Guess.OUTER for c in inside)
    a, b = (a, min(b, stands_on.at)) if joint.way > 0 else (max(a, stands_on.at), b)
    return Step(max(a, ends[0]), min(b, ends[1]), radius, known)


def _shoulders(
    scene: Scene,
    part: str,
    ends: tuple[float, float],
    sitters: Sequence[Sitter],
    faces: Sequence[Face],
) -> list[Step]:
    """Let the metal stand in behind each face that a ring rests on."""
    bounds = [x for s in sitters for x in (s.first, s.last)] + [f.at for f in faces] + [*ends]
    guests = {*scene.guests(part)}
    found = []
    for face in faces:
        band = scene.bands.get(face.other.part)
        if band is None or face.other.part in guests or scene.host_of(face.other.part) != part:
            continue
        far = until(face.at, face.way, bounds, LIP * scene.scale)
        inner = max(band.in_, scene.reach(min(face.at, far), max(face.at, far), part) + 0.5)
        if isinstance(scene.part(face.other.part), RetainingRing):
            inner = band.in_
        inner = min(inner, band.outer - 0.5)
        found.append(Step(min(face.at, far), max(face.at, far), inner, known=False))
    return found


def _bare(scene: Scene, part: str, claims: Sequence[Step], bare: Step) -> Step:
    """Give a stretch that nothing claims as much room as what lies in it wants."""
    guests = scene.guests(part)
    inside = scene.reach(bare.first, bare.last, part, *guests)
    pins = [guest for guest in guests if isinstance(scene.part(guest), Pin)]
    held = scene.reach(bare.first, bare.last, *({*scene.cells} - {*pins}))
    if held and not inside:
        return Step(bare.first, bare.last, held, known=False)
    sides = [claim.radius for claim in beside(claims, bare) if claim]
    wanted = inside + CLEAR if inside else scene.scale
    radius = max(wanted, min(sides, default=0.0))
    return Step(bare.first, bare.last, radius, known=False)


def _flange_on(scene: Scene, face: Face, guest: str) -> Step:
    """Give the rim of a case under the flange of what is screwed to it."""
    joint = scene.joint(guest)
    cells = scene.cells.get(guest, ())
    outside = [c for c in cells if joint and joint.way * ((c.first + c.last) / 2 - joint.at) > 0]
    radius = max((max(c.outer) for c in outside), default=2 * scene.scale)
    far = face.at + face.way * max(8.0, 0.25 * radius)
    known = bool(outside) and not any(c.guess & Guess.OUTER for c in outside)
    return Step(min(face.at, far), max(face.at, far), radius, known)


def _shell(
    scene: Scene, part: str, inside: Sequence[Step], flanges: Sequence[Step]
) -> tuple[Cell, ...]:
    """Put a wall round a hollow, and cut both into cells."""
    first, last = inside[0].first, inside[-1].last
    typed = scene.lands(part, "outside", first, last)
    most = max(step.radius for step in inside)
    thick = wall(most)
    round_it = [
        Step(s.first - thick, s.last + thick, s.radius + thick, known=False) for s in inside
    ]
    claims = [*typed, *flanges, *sorted(round_it, key=lambda s: -s.radius)]
    outside = profile(claims, first, last, lambda bare: bare)
    cuts = sorted({x for s in (*inside, *outside) for x in (s.first, s.last)})
    return tuple(
        cell for a, b in pairwise(cuts) if b - a > HAIR and (cell := between(inside, outside, a, b))
    )


def between(inside: Sequence[Step], outside: Sequence[Step], a: float, b: float) -> Cell | None:
    """Give the metal between two sides of a part, from one place to another; None if none."""
    middle = (a + b) / 2
    low = next(s for s in inside if s.first <= middle <= s.last)
    high = next(s for s in outside if s.first <= middle <= s.last)
    guess = Guess.NONE if low.known else Guess.INNER
    guess |= Guess.NONE if high.known else Guess.OUTER
    if high.radius - low.radius < 0.3:
        return None
    return Cell(a, b, (low.radius,) * 2, (high.radius,) * 2, guess=guess, piece="wall")
