"""Cells of what is screwed to a case: cartridges and covers.

Reading order: `cartridge`, a sleeve with a flange; `cover`, a flange with spigots, a recess or a
hole for the shaft; the axes of their screws.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from dryfit.model.parts import Cartridge, Cover
from dryfit.shape.bands import mm
from dryfit.shape.cells import Cell, Guess
from dryfit.shape.profile import HAIR, Step, profile
from dryfit.shape.rings import Line
from dryfit.shape.scene import Face, Scene
from dryfit.shape.shells import LIP, between, hollow

SCREWS = 8.0
"""From the circle of the screws to the edge of a flange [mm]: estimate."""


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
    inside = hollow(scene, part, (first, last), faces)
    far = joint.at + joint.way * thick
    radius, known = _flange_radius(scene, part, max(s.radius for s in inside) + 4)
    flange = Step(min(joint.at, far), max(joint.at, far), radius, known)
    return _sleeve(scene, part, inside, flange)


def _sleeve(scene: Scene, part: str, inside: Sequence[Step], flange: Step) -> tuple[Cell, ...]:
    """Put a straight sleeve round a hollow, with its flange."""
    first, last = inside[0].first, inside[-1].last
    thick = max(4.0, 0.10 * max(s.radius for s in inside))
    sleeve = Step(first, last, max(s.radius for s in inside) + thick, known=False)
    typed = scene.lands(part, "outside", first, last)
    outside = profile([flange, *typed, sleeve], first, last, lambda bare: bare)
    cuts = sorted({x for s in (*inside, *outside) for x in (s.first, s.last)})
    return tuple(
        cell for a, b in pairwise(cuts) if b - a > HAIR and (cell := between(inside, outside, a, b))
    )


def _flange_radius(scene: Scene, part: str, inside: float) -> tuple[float, bool]:
    """Say how far out a flange goes, and whether that is known."""
    record: Any = scene.rebuild.parts[part]
    joint = scene.joint(part)
    beyond = joint.way * 1e-3 + joint.at if joint else 0.0
    lands = scene.lands(part, "outside", 0.0, 0.0)
    all_along = isinstance(record, Cartridge)  # then it is its sleeve that is told
    typed = [
        s.radius
        for s in lands
        if s.first < beyond < s.last or (s.first == s.last and not all_along)
    ]
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
    thick = mm(record.thickness) or _typed_thick(scene, part, joint)
    known_thick = thick is not None
    thick = thick or max(4.0, 0.14 * radius)
    deep = max([0.0, *(joint.way * (f.at - joint.at) for f in faces)])
    far = joint.at + joint.way * (thick + deep)
    lo, hi = min(joint.at, far), max(joint.at, far)
    guess = Guess.NONE if known else Guess.OUTER
    if not known_thick:
        guess |= Guess.LAST if joint.way > 0 else Guess.FIRST
    recess = [s for hole, s in spigots if hole == 0.0 and deep and lo <= s.first and s.last <= hi]
    cells = _disc(scene, part, (lo, hi), radius, guess, recess)
    for hole, step in spigots:
        if step not in recess and step.last - step.first > HAIR:
            cells.append(_ring_of(step, hole, bored=_bored(scene, part, step)))
    return tuple(cells)


def _typed_thick(scene: Scene, part: str, joint: Face) -> float | None:
    """Give the thickness of a flange from the land of it that is typed [mm]."""
    lands = scene.lands(part, "outside", joint.at, joint.at)
    far = [joint.way * (x - joint.at) for s in lands for x in (s.first, s.last)]
    thick = max(far, default=0.0)
    return thick if thick > 0.5 else None


def _ring_of(step: Step, hole: float, *, bored: float | None) -> Cell:
    guess = Guess.INNER if bored is None else Guess.NONE
    guess |= Guess.NONE if step.known else Guess.OUTER
    inner = hole if bored is None else bored
    return Cell(step.first, step.last, (inner,) * 2, (step.radius,) * 2, guess=guess, piece="wall")


def _bored(scene: Scene, part: str, step: Step) -> float | None:
    """Give the radius of a hole that was typed in what of a cover goes into the case [mm]."""
    lands = scene.lands(part, "bore", step.first, step.last)
    middle = (step.first + step.last) / 2
    return next((s.radius for s in lands if s.first < middle < s.last), None)


def _spigot(scene: Scene, record: Any, joint: Face, face: Face) -> tuple[float, Step]:
    """Give the ring of metal from a face of a cover to its flange, with the hole in it."""
    lo, hi = min(face.at, joint.at), max(face.at, joint.at)
    band = scene.bands.get(face.other.part)
    lands = scene.lands(record.name, "outside", lo, hi)
    typed = [s.radius for s in lands if s.first < (lo + hi) / 2 < s.last]
    told = mm(record.spigot) or (2 * typed[0] if typed else None)
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
        lands = scene.lands(part, "bore", lo, hi)
        bore = [s.radius for s in lands if s.first <= a + HAIR and b - HAIR <= s.last]
        hole = min(bore[0] if bore else hole, radius - 3.0)
        own = guess & ~(Guess.FIRST if a > lo else Guess.NONE)
        own &= ~(Guess.LAST if b < hi else Guess.NONE)
        bored = Guess.INNER if hole and not bore else Guess.NONE
        cells.append(Cell(a, b, (hole,) * 2, (radius,) * 2, guess=own | bored, piece="wall"))
    return cells


def _seal_ends(scene: Scene, span: tuple[float, float]) -> list[float]:
    """List where seals begin and end within a stretch [mm]."""
    lips = [c for c in scene.built() if c.what is c.what.LIP]
    return [x for c in lips for x in (c.first, c.last) if span[0] - HAIR <= x <= span[1] + HAIR]


def screw_span(scene: Scene, part: str) -> tuple[float, float, float] | None:
    """Say where the screws of a cover end, where their heads begin, and on which radius they stand.

    Nothing where the circle of the screws is not known; all in [mm].
    """
    record, joint = scene.part(part), scene.joint(part)
    circle = mm(record.screw_circle) if isinstance(record, Cover) else None
    if joint is None or not circle:
        return None
    faces = [x for c in scene.cells[part] for x in (c.first, c.last)]
    return joint.at - joint.way * IN_CASE, joint.way * max(joint.way * x for x in faces), circle / 2


IN_CASE, STANDS_OUT = 12.0, 3.0
"""How far a screw goes into the case, and its axis is drawn beyond a cover [mm]: estimates."""


def screw_lines(scene: Scene, part: str) -> list[Line]:
    """Give the axis of a screw of a cover, where the circle of its screws is known [mm]."""
    span = screw_span(scene, part)
    if span is None:
        return []
    point, under, radius = span
    beyond = STANDS_OUT if under > point else -STANDS_OUT
    return [((point, radius), (under + beyond, radius))]
