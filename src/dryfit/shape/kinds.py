"""Cells by kind of part: the one table of `shape`, and a whole line built from it.

Reading order: what lies beside the stacks (keys, seals, plain bearings), `CELLS`, `solids_of`.
"""

from collections.abc import Callable
from typing import Any

from dryfit.model.parts import Bearing, Gasket, Housing, PlainBearing, Seal, Shaft, ShimPack
from dryfit.model.rebuild import Rebuild
from dryfit.shape.bands import Band, is_case, is_shaft, mm
from dryfit.shape.cells import Cell, Guess, Solid, What, ring
from dryfit.shape.covers import cartridge, cover
from dryfit.shape.resting import Resting, Touch, owner
from dryfit.shape.rings import balls, bearing, cylinders, nut, plain, tapers, thrust, two_rows
from dryfit.shape.scene import Scene, scene_of
from dryfit.shape.shafts import shaft
from dryfit.shape.shells import housing

SEAL_WIDE, PLAIN_LONG = 8.0, 1.2
"""Width of a seal [mm], and length of a plain bearing over its bore: common practice."""


def seal(scene: Scene, part: str) -> tuple[Cell, ...]:
    """Give a seal on its shaft, in the cover there or behind the last bearing."""
    record: Any = scene.rebuild.parts[part]
    if record.on not in scene.cells:
        return ()
    near = _way_out(scene, record.on)
    inner, guess = mm(record.shaft), Guess.ENDS
    radius = inner / 2 if inner else _radius_of(scene, record.on, near)
    outside = mm(record.outside)
    high = outside / 2 if outside else radius + max(5.0, 0.3 * radius)
    guess |= (Guess.NONE if inner else Guess.INNER) | (Guess.NONE if outside else Guess.OUTER)
    return (ring(near, near + SEAL_WIDE, radius, high, what=What.LIP, guess=guess),)


def _way_out(scene: Scene, shaft_: str) -> float:
    """Say where the seal of a shaft begins: just inside the cover that it goes through [mm]."""
    for name in scene.rest.places:
        joint = scene.joint(name) if is_case(scene.rebuild.parts.get(name)) else None
        if joint:
            return joint.at + (1.0 if joint.way > 0 else -1.0 - SEAL_WIDE)
    sits = scene.sitters(shaft_)
    return min((s.first for s in sits), default=0.0) - 2 - SEAL_WIDE


def _radius_of(scene: Scene, part: str, at: float) -> float:
    """Give the radius of a shaft at a place [mm]."""
    near = [max(c.outer) for c in scene.cells[part] if c.first <= at <= c.last]
    return max(near, default=scene.scale)


def key(scene: Scene, part: str) -> tuple[Cell, ...]:
    """Give a key where it is typed; else on the shaft whose name it bears, or the first."""
    typed = _typed_key(scene, part)
    if typed is not None:
        return typed
    shafts = [n for n in scene.cells if isinstance(scene.rebuild.parts[n], Shaft)]
    named = [n for n in shafts if part.startswith(n)]
    if not shafts or _belongs_elsewhere(scene, part, shafts):
        return ()
    host = (named or shafts)[0]
    bare = _bare(scene, host)
    long = min(0.7 * bare.length, 2.5 * bare.outer[0])
    middle, top = (bare.first + bare.last) / 2, min(bare.outer)
    span = middle - long / 2, middle + long / 2
    return (_key_ring(span, top, KEY_STANDS_OUT * _key_deep(top), Guess.ALL),)


KEY_DEEP, KEY_LEAST, KEY_STANDS_OUT = 0.12, 1.5, 0.7
"""Depth of a keyway, of the radius of its shaft and at least [mm], and how far a key stands out, of
that depth: ISO 773 (from memory), roughly."""


def _key_deep(radius: float) -> float:
    return max(KEY_LEAST, KEY_DEEP * radius)


def _key_ring(span: tuple[float, float], top: float, stands_out: float, guess: Guess) -> Cell:
    """Give a key from its floor in a shaft, whose radius there is told, to its top [mm]."""
    low, high = top - _key_deep(top), top + stands_out
    return ring(*span, low, high, what=What.KEY, guess=guess, share=0.04)


def _typed_key(scene: Scene, part: str) -> tuple[Cell, ...] | None:
    """Give a key between its two spots; nothing in another line, None where no spots are told."""
    record: Any = scene.rebuild.parts[part]
    if record.from_ is None or record.to is None:
        return None
    host = record.from_.part
    spots = scene.rest.places.get(host, {})
    ends = [spots.get(spot.name) for spot in (record.from_, record.to)]
    if host not in scene.cells or None in ends:
        return ()
    span = min(x for x in ends if x is not None), max(x for x in ends if x is not None)
    top, stands_out = _radius_of(scene, host, sum(span) / 2), mm(record.stands_out)
    guess = Guess.INNER | (Guess.NONE if stands_out else Guess.OUTER)
    return (_key_ring(span, top, stands_out or KEY_STANDS_OUT * _key_deep(top), guess),)


def _bare(scene: Scene, host: str) -> Cell:
    """Give the longest stretch of a shaft on which nothing sits."""
    return max(
        (c for c in scene.cells[host] if c.piece == "shaft" and not _covered(scene, host, c)),
        key=lambda c: c.length,
        default=scene.cells[host][0],
    )


def _covered(scene: Scene, host: str, cell: Cell) -> bool:
    middle = (cell.first + cell.last) / 2
    return any(s.first <= middle <= s.last for s in scene.sitters(host))


def _belongs_elsewhere(scene: Scene, part: str, shafts: list[str]) -> bool:
    """Tell a key that bears the name of a shaft of another line, or is another line's anyway."""
    others = [n for n, p in scene.rebuild.parts.items() if isinstance(p, Shaft) and n not in shafts]
    here = any(part.startswith(n) for n in shafts)
    first = next(iter(scene.rebuild.lines), "")
    return not here and (any(part.startswith(n) for n in others) or scene.rest.name != first)


def plain_bearing(scene: Scene, part: str) -> tuple[Cell, ...]:
    """Give a split plain bearing on its shaft, and the packs between its halves beside it."""
    record: Any = scene.rebuild.parts[part]
    shafts = [n for n in scene.cells if isinstance(scene.rebuild.parts[n], Shaft)]
    host = record.on or (shafts[0] if shafts and _is_first(scene) else None)
    if host not in scene.cells:
        return ()
    bore = mm(record.bore) or mm(record.journal)
    radius = bore / 2 if bore else scene.scale
    bare = _bare(scene, host)
    long = min(PLAIN_LONG * 2 * radius, 0.8 * bare.length)
    first = (bare.first + bare.last - long) / 2
    guess = Guess.ENDS | Guess.OUTER | (Guess.NONE if bore else Guess.INNER)
    return (ring(first, first + long, radius, 1.3 * radius + 2, guess=guess),)


def _is_first(scene: Scene) -> bool:
    return scene.rest.name == next(iter(scene.rebuild.lines), "")


def pack(what: What) -> Callable[[Scene, str], tuple[Cell, ...]]:
    """Make cells of a pack or gasket: under a flange as wide as that, else as a ring."""

    def cells(scene: Scene, part: str) -> tuple[Cell, ...]:
        if part not in scene.rest.places:
            return _beside_a_cap(scene, part)
        first, last, guess = scene.ring_ends(part)
        band, own = _band_between(scene, part)
        return (ring(first, last, band.inner, band.outer, what=what, guess=guess | own),)

    return cells


def _beside_a_cap(scene: Scene, part: str) -> tuple[Cell, ...]:
    """Give a pack of a split bearing: it lies along it, outside."""
    for name, cells in scene.cells.items():
        record = scene.rebuild.parts[name]
        if isinstance(record, PlainBearing) and part in (record.left_shims, record.right_shims):
            shell = cells[0]
            out = shell.outer[0] + (0.0 if part == record.left_shims else 1.2)
            return (
                ring(
                    shell.first,
                    shell.last,
                    out,
                    out + 1.0,
                    what=What.SHIM,
                    guess=Guess.ALL,
                    share=0.1,
                ),
            )
    return ()


def _band_between(scene: Scene, part: str) -> tuple[Band, Guess]:
    """Give the radii of what lies between two faces: where both of them are."""
    band, record = scene.bands[part], scene.rebuild.parts[part]
    own: Any = record
    sides = [t for t in scene.rest.touches if part in (t.before.part, t.after.part)]
    others = [_face_band(scene, touch, part) for touch in sides]
    met = [other for other in others if other]
    if not met or (mm(own.bore) and mm(own.outside)):
        return band, band.guess
    inner = max(low for low, _ in met)
    outer = min(high for _, high in met)
    if outer - inner < 1.0:
        return band, band.guess
    inner, outer = (mm(own.bore) or 2 * inner) / 2, (mm(own.outside) or 2 * outer) / 2
    guess = Guess.NONE if mm(own.bore) else Guess.INNER
    guess |= Guess.NONE if mm(own.outside) else Guess.OUTER
    return Band(inner, outer, inner, outer, guess), guess


def _face_band(scene: Scene, touch: Touch, part: str) -> tuple[float, float] | None:
    """Say from where to where a neighbour has a face at a pack [mm]."""
    ahead = touch.before.part == part
    spot = touch.after if ahead else touch.before
    cells = scene.cells.get(owner(spot.part), ())
    at = scene.rest.at(spot)
    met = [c for c in cells if abs((c.first if ahead else c.last) - at) < 1e-6]
    if not met:
        return None
    return min(min(c.inner) for c in met), max(max(c.outer) for c in met)


CELLS: dict[str, Callable[[Scene, str], tuple[Cell, ...]]] = {
    "housing": housing,
    "cover": cover,
    "cartridge": cartridge,
    "pin": shaft,
    "shaft": shaft,
    "cluster": shaft,
    "spacer": plain(What.METAL),
    "thrust washer": plain(What.METAL),
    "shim pack": pack(What.SHIM),
    "gasket": pack(What.GASKET),
    "angular contact ball": bearing(balls),
    "deep groove ball": bearing(balls),
    "taper roller": bearing(tapers),
    "thrust ball": bearing(thrust),
    "two-row ball": bearing(two_rows),
    "cylindrical roller": bearing(cylinders),
    "nut": nut,
    "threaded ring": nut,
    "spring washer": plain(What.SPRING),
    "retaining ring": plain(What.METAL),
    "bush": plain(What.METAL),
    "key": key,
    "plain bearing": plain_bearing,
    "seal": seal,
}
"""For each kind of part the function that makes its cells along a line; none where it has no
place there."""


def _turn(scene: Scene, part: str) -> int:
    """Say when a part's turn is: rings, then what they sit on, then what goes round all."""
    record = scene.rebuild.parts[part]
    if isinstance(record, Housing):
        return 5
    if isinstance(record, ShimPack | Gasket):
        return 6
    if isinstance(record, Seal | PlainBearing):
        return 3
    if is_case(record):
        return 4
    if is_shaft(record):
        return 2
    return 0 if isinstance(record, Bearing) or part in scene.rest.places else 3


def built(rebuild: Rebuild, rest: Resting) -> Scene:
    """Build all parts of a line; widths that nobody typed are filled in before."""
    scene = scene_of(rebuild, rest)
    for part in sorted(rebuild.parts, key=lambda name: _turn(scene, name)):
        scene.cells[part] = CELLS[rebuild.parts[part].kind](scene, part)
        if not scene.cells[part]:
            del scene.cells[part]
    return scene


def solids_of(rebuild: Rebuild, rest: Resting) -> tuple[Solid, ...]:
    """Give the parts that have a place along a line, in the order of the text."""
    return built(rebuild, rest).solids()
