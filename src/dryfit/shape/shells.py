"""Cells of what rings sit in: the case, cartridges, covers.

Each is a hollow side, put together from what claims room in it, and a wall round that. Where
nobody typed an outside the wall is an estimate.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from dryfit.model.parts import RetainingRing
from dryfit.shape.bands import is_shaft, mm
from dryfit.shape.cells import Cell, Guess
from dryfit.shape.profile import HAIR, Step, beside, joined, profile, until
from dryfit.shape.scene import Face, Scene, Sitter

WALL, LEAST_WALL = 0.16, 5.0
"""Thickness of a wall, of its inside radius, and the least [mm]: estimate."""

CLEAR = 4.0
"""Room about what turns in a case [mm]: estimate."""

LIP = 0.35
"""How long a shoulder is where nothing ends it, of the radius of the shaft: estimate."""

SCREWS = 8.0
"""From the circle of the screws to the edge of a flange [mm]: estimate."""


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
    hollow = _hollow(scene, part, (first, last), faces)
    flanges = [
        _flange_on(scene, face, guest)
        for guest in scene.guests(part)
        if (face := scene.joint_of(guest))
    ]
    ends = (shut_first, shut_last, first, last)
    shut = [
        Step(
            *span, scene.reach(*span, part) + 1.0 if scene.reach(*span, part) else 0.0, known=False
        )
        for span in _end_walls(hollow, ends)
    ]
    inside = joined(sorted([*hollow, *shut], key=lambda step: step.first))
    open_ends = (Guess.NONE if shut_first else _end_guess(joints, first, Guess.FIRST)) | (
        Guess.NONE if shut_last else _end_guess(joints, last, Guess.LAST)
    )
    return _with_ends(_shell(scene, part, inside, flanges), shut_first, shut_last, open_ends)


def _end_guess(joints: Sequence[Face], end: float, flag: Guess) -> Guess:
    """Say whether an open end of a case is an estimate: where nothing is screwed to it."""
    return Guess.NONE if any(abs(j.at - end) < HAIR for j in joints) else flag


def _with_ends(
    cells: tuple[Cell, ...], shut_first: bool, shut_last: bool, guess: Guess
) -> tuple[Cell, ...]:
    """Mark the ends of a case that are estimates: those shut by a wall, and open ones told."""
    guess |= (Guess.FIRST if shut_first else Guess.NONE) | (Guess.LAST if shut_last else Guess.NONE)
    ends = {0: guess & Guess.FIRST, len(cells) - 1: guess & Guess.LAST}
    return tuple(
        replace(cell, guess=cell.guess | ends.get(n, Guess.NONE)) for n, cell in enumerate(cells)
    )


def _end(
    scene: Scene, part: str, faces: Sequence[Face], joints: Sequence[Face], way: float
) -> tuple[float, bool]:
    """Say where a case ends one way: at a joint, beyond a pocket, or shut by a wall."""
    own = [face.at for face in joints if face.way == -way]
    if own:
        return way * max(way * x for x in own), False
    sits = scene.sitters(part)
    pockets = [x for s in sits for x in (s.first, s.last)]
    every = [*pockets, *(face.at for face in faces), *_rooms(scene)]
    far = way * max(way * x for x in every)
    stopped = [f for f in faces if abs(f.at - far) < HAIR and f.way == way]
    turning = _turning(scene, way)
    if any(abs(far - x) < HAIR for x in pockets) and not stopped:
        return far + way * 1.5, False
    if stopped and not _is_plain(scene, stopped):
        return far + way * LIP * scene.scale, False
    if stopped:
        return far, True
    crossing = [g.apex for own in scene.gears.values() for g in own if g.apex is not None]
    if any(abs(far - x) < HAIR for x in crossing):
        return far, False
    return (way * max(way * far, way * turning + CLEAR), True)


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
    every = [
        x
        for name, cells in scene.cells.items()
        if is_shaft(scene.part(name))
        for c in cells
        for x in (c.first, c.last)
    ]
    return way * max((way * x for x in every), default=-1e9)


def _end_walls(
    hollow: Sequence[Step], ends: tuple[bool, bool, float, float]
) -> list[tuple[float, float]]:
    """Give the stretches of the walls that shut a case."""
    shut_first, shut_last, first, last = ends
    thick = wall(max(step.radius for step in hollow))
    found = [(first - thick, first)] if shut_first else []
    return found + ([(last, last + thick)] if shut_last else [])


def _hollow(
    scene: Scene, part: str, ends: tuple[float, float], faces: Sequence[Face]
) -> list[Step]:
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
    joint = scene.joint(guest)
    cells = scene.cells.get(guest, ())
    if joint is None:
        return None
    inside = [c for c in cells if joint.way * ((c.first + c.last) / 2 - joint.at) < 0]
    if not inside:
        return None
    a, b = min(c.first for c in inside), max(c.last for c in inside)
    radius = max(max(c.outer) for c in inside)
    known = not any(c.guess & Guess.OUTER for c in inside)
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
    inside = scene.reach(bare.first, bare.last, part, *scene.guests(part))
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
    claims = [*flanges, *typed, *sorted(round_it, key=lambda s: -s.radius)]
    outside = profile(claims, first, last, lambda bare: bare)
    cuts = sorted({x for s in (*inside, *outside) for x in (s.first, s.last)})
    return tuple(
        cell
        for a, b in pairwise(cuts)
        if b - a > HAIR and (cell := _between(inside, outside, a, b, (first, last)))
    )


def _between(
    inside: Sequence[Step],
    outside: Sequence[Step],
    a: float,
    b: float,
    ends: tuple[float, float],
) -> Cell | None:
    middle = (a + b) / 2
    low = next(s for s in inside if s.first <= middle <= s.last)
    high = next(s for s in outside if s.first <= middle <= s.last)
    guess = Guess.NONE if low.known else Guess.INNER
    guess |= Guess.NONE if high.known else Guess.OUTER
    del ends
    if high.radius - low.radius < 0.3:
        return None
    return Cell(a, b, (low.radius,) * 2, (high.radius,) * 2, guess=guess, piece="wall")


def cartridge(scene: Scene, part: str) -> tuple[Cell, ...]:
    """Give a cartridge: a sleeve about its bearings, and the flange it is screwed on by."""
    joint = scene.joint(part)
    if joint is None:
        return ()
    faces = [face for face in scene.faces(part) if face.spot != joint.spot]
    sits = scene.sitters(part)
    every = [x for s in sits for x in (s.first, s.last)] + [f.at for f in faces]
    thick = max(5.0, 0.3 * scene.scale)
    ends = [*every, joint.at, joint.at + joint.way * thick]
    ends += [f.at + f.way * LIP * scene.scale for f in faces]
    first, last = min(ends), max(ends)
    hollow = _hollow(scene, part, (first, last), faces)
    far = joint.at + joint.way * thick
    radius, known = _flange_radius(scene, part, max(s.radius for s in hollow) + 4)
    flange = Step(min(joint.at, far), max(joint.at, far), radius, known)
    return _sleeve(scene, part, hollow, flange)


def _sleeve(scene: Scene, part: str, hollow: Sequence[Step], flange: Step) -> tuple[Cell, ...]:
    """Put a straight sleeve round a hollow, with its flange."""
    first, last = hollow[0].first, hollow[-1].last
    thick = max(4.0, 0.10 * max(s.radius for s in hollow))
    sleeve = Step(first, last, max(s.radius for s in hollow) + thick, known=False)
    typed = scene.lands(part, "outside", first, last)
    outside = profile([flange, *typed, sleeve], first, last, lambda bare: bare)
    cuts = sorted({x for s in (*hollow, *outside) for x in (s.first, s.last)})
    return tuple(
        cell
        for a, b in pairwise(cuts)
        if b - a > HAIR and (cell := _between(hollow, outside, a, b, (first, last)))
    )


def _flange_radius(scene: Scene, part: str, inside: float) -> tuple[float, bool]:
    """Say how far out a flange goes, and whether that is known."""
    record: Any = scene.rebuild.parts[part]
    typed = [s.radius for s in scene.lands(part, "outside", 0.0, 0.0)]
    circle = mm(record.screw_circle)
    if typed:
        return max(typed), True
    if circle:
        return circle / 2 + SCREWS, False
    return inside + max(12.0, 0.3 * inside), False


def cover(scene: Scene, part: str) -> tuple[Cell, ...]:
    """Give a cover: its flange, the spigots that go into the case, the hole for the shaft."""
    joint = scene.joint(part)
    if joint is None:
        return ()
    record: Any = scene.rebuild.parts[part]
    faces = [face for face in scene.faces(part) if face.spot != joint.spot]
    spigots = [_spigot(scene, record, joint, face) for face in faces]
    inside = max([s.radius for _, s in spigots] + [1.2 * scene.scale])
    radius, known = _flange_radius(scene, part, inside)
    thick = mm(record.thickness) or max(4.0, 0.14 * radius)
    deep = max([0.0, *(joint.way * (f.at - joint.at) for f in faces)])
    far = joint.at + joint.way * (thick + deep)
    lo, hi = min(joint.at, far), max(joint.at, far)
    guess = Guess.NONE if known else Guess.OUTER
    if not mm(record.thickness):
        guess |= Guess.LAST if joint.way > 0 else Guess.FIRST
    recess = [s for hole, s in spigots if hole == 0.0 and deep and lo <= s.first and s.last <= hi]
    cells = _disc(scene, part, (lo, hi), radius, guess, recess)
    for hole, step in spigots:
        if step not in recess and step.last - step.first > HAIR:
            cells.append(_ring_of(step, hole))
    return tuple(cells)


def _ring_of(step: Step, hole: float) -> Cell:
    guess = Guess.INNER | (Guess.NONE if step.known else Guess.OUTER)
    return Cell(step.first, step.last, (hole,) * 2, (step.radius,) * 2, guess=guess, piece="wall")


def _spigot(scene: Scene, record: Any, joint: Face, face: Face) -> tuple[float, Step]:
    """Give the ring of metal from a face of a cover to its flange, with the hole in it."""
    lo, hi = min(face.at, joint.at), max(face.at, joint.at)
    band = scene.bands.get(face.other.part)
    told = mm(record.spigot)
    inner = scene.reach(lo, hi, record.name)
    if band is None:  # a boss that a shaft runs against
        radius = told / 2 if told else max(scene.scale, 1.05 * _tip(scene, face))
        return 0.0, Step(lo, hi, radius, known=bool(told))
    radius = told / 2 if told else band.outer
    hole = min(max(band.in_, inner + 0.5), radius - 1.0)
    if joint.way * (face.at - joint.at) > 0:
        return 0.0, Step(lo, hi, band.outer + 0.2, known=False)
    return hole, Step(lo, hi, radius, known=bool(told) or Guess.OUTER not in band.guess)


def _tip(scene: Scene, face: Face) -> float:
    """Radius of what runs against a boss [mm]."""
    at_face = [c for c in scene.cells.get(face.other.part, ()) if c.what is not c.what.TOOTH]
    near = [max(c.outer) for c in at_face if min(abs(c.first - face.at), abs(c.last - face.at)) < 3]
    return max(near, default=scene.scale)


def _disc(
    scene: Scene,
    part: str,
    span: tuple[float, float],
    radius: float,
    guess: Guess,
    recess: Sequence[Step],
) -> list[Cell]:
    """Give the flange of a cover, hollow where a recess or a shaft goes into it."""
    lo, hi = span
    cuts = sorted(
        {lo, hi, *(x for s in recess for x in (s.first, s.last)), *_seal_ends(scene, span)}
    )
    cells = []
    for a, b in pairwise(cuts):
        if b - a < HAIR:
            continue
        reach = scene.reach(a, b, part)
        hole = max(
            [
                reach + (0.0 if _seal_ends(scene, (a, b)) else 0.5) if reach else 0.0,
                *(s.radius for s in recess if s.first <= (a + b) / 2 <= s.last),
            ]
        )
        hole = min(hole, radius - 3.0)
        own = guess & ~(Guess.FIRST if a > lo else Guess.NONE)
        own &= ~(Guess.LAST if b < hi else Guess.NONE)
        bored = Guess.INNER if hole else Guess.NONE
        cells.append(Cell(a, b, (hole,) * 2, (radius,) * 2, guess=own | bored, piece="wall"))
    return cells


def _seal_ends(scene: Scene, span: tuple[float, float]) -> list[float]:
    """List where seals begin and end within a stretch [mm]."""
    lips = [c for c in scene.built() if c.what is c.what.LIP]
    return [x for c in lips for x in (c.first, c.last) if span[0] - HAIR <= x <= span[1] + HAIR]
