"""Cells of what rings sit on: shafts, clusters, pins.

Reading order: `shaft`, then who claims a radius of it: its typed lands, what sits on it, the
shoulders behind its faces; last its ends, which nobody measures.
"""

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

from dryfit.model.parts import Cartridge, Cover, Nut, Pin, RetainingRing
from dryfit.model.rebuild import FIRST_END, LAST_END
from dryfit.shape.bands import is_case
from dryfit.shape.cells import Cell, Guess, What
from dryfit.shape.gears import Gear, gear_cells, gears_on
from dryfit.shape.profile import Step, at, beside, profile, until
from dryfit.shape.scene import Face, Scene, Sitter

CHAMFER = 1.0
"""Chamfer at the ends of a shaft [mm]: common practice."""

RELIEVED = 0.97
"""What a shaft is turned down to where nothing sits on it, of what does: estimate."""

STANDS_OUT = 0.9
"""How far a shaft stands out where no cover closes its end, in radii: estimate."""

COLLAR = 0.8
"""How long a shoulder is at most where nothing ends it, in radii: estimate."""


def shaft(scene: Scene, part: str) -> tuple[Cell, ...]:
    """Give a shaft with its lands, gears, threads and chamfers."""
    if part not in scene.rest.places:
        return ()
    sitters, faces = scene.sitters(part), [*scene.faces(part)]
    gears = gears_on(scene.rebuild, scene.rest, part, _free(scene, part, sitters), scene.scale)
    scene.gears[part] = gears
    first, last, ends = _ends(scene, part, sitters, gears)
    claims = _claims(scene, part, (first, last), sitters, faces)
    steps = profile(claims, first, last, lambda bare: _filled(claims, bare, scene.scale))
    bore = scene.lands(part, "bore", first, last)
    cells = [cell for step in steps for cell in _cut(step, steps, bore, ends)]
    return (*cells, *(cell for gear in gears for cell in gear_cells(_seated(gear, steps))))


def _free(scene: Scene, part: str, sitters: list[Sitter]) -> tuple[float, float]:
    """Find the longest stretch between the spots of a shaft on which nothing sits [mm]."""
    marks = [*scene.rest.places[part].values()]
    edges = sorted({*marks, *(s.first for s in sitters), *(s.last for s in sitters)})
    bare = [
        (a, b)
        for a, b in pairwise(edges)
        if not any(s.first < (a + b) / 2 < s.last for s in sitters)
    ]
    middle = sum(edges) / len(edges)
    return max(bare, key=lambda ab: ab[1] - ab[0], default=(middle - 20, middle + 20))


def _ends(
    scene: Scene, part: str, sitters: list[Sitter], gears: Iterable[Gear]
) -> tuple[float, float, Guess]:
    """Say where a shaft begins and ends: typed, or beyond all that is on it."""
    spots = scene.rest.places[part]
    on_it = [x for s in sitters for x in (s.first, s.last)]
    on_it += [x for gear in gears for x in (gear.first, gear.last)]
    used = [face.at for face in scene.faces(part)]
    if isinstance(scene.rebuild.parts[part], Pin):
        used += _carried(scene, part)
    every = [*on_it, *used] or [*spots.values()]
    first, last = min(every), max(every)
    guess = Guess.NONE
    toothed = [x for gear in gears for x in (gear.first, gear.last)]
    if FIRST_END in spots:
        first = spots[FIRST_END]
    else:
        first, guess = first - _stub(scene, first, toothed, -1.0), guess | Guess.FIRST
    if LAST_END in spots:
        last = spots[LAST_END]
    else:
        last, guess = last + _stub(scene, last, toothed, 1.0), guess | Guess.LAST
    return first, last, guess


def _carried(scene: Scene, pin: str) -> list[float]:
    """List where what goes on a pin begins and ends [mm]."""
    beside = {
        s.part for stack in scene.rest.stacks for s in stack if pin in {t.part for t in stack}
    }
    on_it = [scene.rest.ends(body) for body in beside if not is_case(scene.part(body))]
    return [x for ends in on_it if ends for x in ends]


def _stub(scene: Scene, end: float, toothed: list[float], way: float) -> float:
    """Say how far a shaft goes on beyond what is on it: out of the unit unless a cover shuts it."""
    closed = any(way * (x - end) > -2 * scene.scale for x in _joints(scene))
    if closed or end in toothed:
        return max(2.0, 0.1 * scene.scale)
    return max(6.0, STANDS_OUT * scene.scale)


def _joints(scene: Scene) -> list[float]:
    """List where covers stand on the line [mm]."""
    open_ = Cartridge | Pin
    shut = [
        name
        for name in scene.rest.joints
        if isinstance(scene.part(name), Cover) and not isinstance(scene.part(name), open_)
    ]
    return [joint.at for name in shut if (joint := scene.joint(name))]


def _claims(
    scene: Scene, part: str, ends: tuple[float, float], sitters: list[Sitter], faces: list[Face]
) -> list[Step]:
    """List what wants a radius of a shaft, what is surest first."""
    lands = scene.lands(part, "outside", *ends)
    grooves = [s for s in sitters if isinstance(scene.part(s.body), RetainingRing)]
    seats = [_seat(scene, sitter) for sitter in sitters if sitter not in grooves]
    cut = [_seat(scene, sitter) for sitter in grooves]
    flange = _flange(scene, part)
    return [*cut, *lands, *seats, *flange, *_shoulders(scene, ends, sitters, faces)]


def _seat(scene: Scene, sitter: Sitter) -> Step:
    """Give the stretch under a ring; under a nut it is thread."""
    known = Guess.INNER not in sitter.band.guess
    what = What.THREAD if isinstance(scene.part(sitter.body), Nut) else What.METAL
    first, last = sitter.first, sitter.last
    if isinstance(scene.part(sitter.body), RetainingRing):
        return Step(first, last, sitter.band.inner, known)
    return Step(first, last, sitter.band.inner, known, what)


def _shoulders(
    scene: Scene, ends: tuple[float, float], sitters: list[Sitter], faces: list[Face]
) -> list[Step]:
    """Stand the metal up behind each face, as far as the next ring, face or end."""
    bounds = [x for s in sitters for x in (s.first, s.last)] + [f.at for f in faces] + [*ends]
    found = []
    for face in faces:
        band = scene.bands.get(face.other.part)
        high = band.on if band else scene.scale * 1.25
        opposite = [f.at for f in faces if f.way != face.way]
        most = COLLAR * scene.scale
        far = until(face.at, face.way, bounds, most)
        across = until(face.at, face.way, opposite, 1e9)
        low, high_end = min(face.at, across), max(face.at, across)
        if not any(low < (s.first + s.last) / 2 < high_end for s in sitters):
            far = across if abs(across) < 1e8 else far
        far = min(max(far, ends[0]), ends[1])
        found.append(Step(min(face.at, far), max(face.at, far), high, known=False))
    return found


def _flange(scene: Scene, part: str) -> list[Step]:
    """Give the flange of a pin that is screwed on."""
    joint = scene.joint(part) if isinstance(scene.rebuild.parts[part], Pin) else None
    if joint is None:
        return []
    far = joint.at + joint.way * max(4.0, 0.4 * scene.scale)
    radius = 2.0 * scene.scale
    return [Step(min(joint.at, far), max(joint.at, far), radius, known=False)]


def _filled(claims: list[Step], bare: Step, scale: float) -> Step:
    """Give a bare stretch the lesser radius of what lies beside it, turned down a little."""
    radii = [claim.radius for claim in beside(claims, bare) if claim]
    least = min(radii, default=scale)
    if len(radii) < 2:
        least *= RELIEVED
    return Step(bare.first, bare.last, least, known=False)


def _cut(step: Step, steps: list[Step], bore: list[Step], ends: Guess) -> list[Cell]:
    """Make cells of a stretch, hollow where it is bored, chamfered at the ends of the shaft."""
    cuts = sorted({step.first, step.last, *_inside(step, bore)})
    cells = []
    for a, b in pairwise(cuts):
        hole = at(bore, (a + b) / 2) or 0.0
        hole = min(hole, 0.95 * step.radius)
        guess = Guess.NONE if step.known else Guess.OUTER
        guess |= ends & Guess.FIRST if a == steps[0].first else Guess.NONE
        guess |= ends & Guess.LAST if b == steps[-1].last else Guess.NONE
        cells.append(
            Cell(a, b, (hole, hole), (step.radius, step.radius), step.what, guess, piece="shaft")
        )
    return _chamfered(cells, steps)


def _inside(step: Step, bore: list[Step]) -> list[float]:
    return [x for b in bore for x in (b.first, b.last) if step.first < x < step.last]


def _chamfered(cells: list[Cell], steps: list[Step]) -> list[Cell]:
    """Take the edges off the two ends of a shaft."""
    found = []
    for cell in cells:
        cut = min(CHAMFER, cell.length / 3, (cell.outer[0] - cell.inner[0]) / 3)
        high, low = cell.outer[0], cell.outer[0] - cut
        inner, what, guess = cell.inner, cell.what, cell.guess
        first, last = cell.first, cell.last
        if cell.first == steps[0].first:
            first += cut
            found.append(
                Cell(
                    cell.first, first, inner, (low, high), what, guess & ~Guess.LAST, piece="shaft"
                )
            )
            guess &= ~Guess.FIRST
        tail = cell.last == steps[-1].last
        if tail:
            last -= cut
        found.append(
            Cell(
                first,
                last,
                inner,
                (high, high),
                what,
                guess & ~Guess.LAST if tail else guess,
                piece="shaft",
            )
        )
        if tail:
            found.append(
                Cell(last, cell.last, inner, (high, low), what, guess & ~Guess.FIRST, piece="shaft")
            )
    return found


def _seated(gear: Gear, steps: list[Step]) -> Gear:
    """Bring the body of a gear down on to the shaft under it."""
    under = [at(steps, x) for x in (gear.first, (gear.first + gear.last) / 2, gear.last)]
    hub = min([radius for radius in under if radius], default=0.0)
    low = min(r for _, r in gear.body)
    hub = min(hub, 0.95 * min(r for _, r in gear.teeth))
    body = tuple((x, hub if r == low else r) for x, r in gear.body)
    return replace(gear, body=body)
