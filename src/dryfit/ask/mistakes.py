"""What may be wrong with each kind of part and mesh.

`MISTAKES` has one entry for each kind of part, `MESH_MISTAKES` one for each kind of mesh; each
gives what such a part of this unit can have. All amounts are estimates, from reports of rebuilds.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Any

from dryfit.ask.changes import (
    another,
    apart,
    bearings_exchanged,
    dirt,
    exchanged,
    further,
    interchangeable,
    less_one,
    made,
    no_longer_there,
)
from dryfit.ask.touches import Touch, is_host, is_spring, is_threaded
from dryfit.ask.variant import Change, Variant
from dryfit.model.parts import Bearing, ShimPack, Spacer, ThrustWasher
from dryfit.model.rebuild import Between, Rebuild
from dryfit.quantities import Size
from dryfit.solve.luck import NoLuck
from dryfit.solve.rings import INNER, OUTER, owner, ring
from dryfit.solve.sizes import metres
from dryfit.solve.threads import LOCK_NUT, thread_play

MM = 1e-3

NOT_HOME = (0.02 * MM, 0.30 * MM)
BURR = (0.02 * MM, 0.15 * MM)
TANG = (0.05 * MM, 0.40 * MM)
EDGE = (0.03 * MM, 0.10 * MM)
SHIM = (0.05 * MM, 0.25 * MM)
"""One shim, where the drawer does not say."""
STANDS_OFF = (0.02 * MM, 0.20 * MM)
SETS = (0.01 * MM, 0.05 * MM)
"""By how much a gasket is not nipped yet."""
THICKER = (0.05 * MM, 0.30 * MM)
NOT_UP = (0.02 * MM, 0.20 * MM)
DRAGGED = (0.005 * MM, 0.05 * MM)
"""Of a nut whose thread is not told; else up to the play of its thread."""
LOCKED_ON = (0.005 * MM, 0.03 * MM)
"""Of a nut whose lock nut has taken up that play already."""
TURNED_BACK = (0.01 * MM, 0.10 * MM)
GEAR_OUT = (0.05 * MM, 0.30 * MM)
CENTRES = (0.01 * MM, 0.06 * MM)
THIN = 5 * MM
"""Nobody takes two pieces for one that are thicker than this."""
STUCK = (0.020, 0.010)
"""How tight a pocket is that was meant to slide, and two standard deviations of it [mm]."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit, and where its bodies touch."""

    rebuild: Rebuild
    touches: tuple[Touch, ...]

    def of(self, body: str) -> list[Touch]:
        """List where a body touches another."""
        return [t for t in self.touches if body in (t.before.part, t.after.part)]


Maker = Callable[[Unit, Any], Iterator[Variant]]


def variant(
    kind: str, parts: tuple[str, ...], words: str, change: Change, *, told: str = "", **others: Any
) -> Variant:
    """Name a variant by its kind, its parts and, where these have several, by what is told."""
    name = f"{kind}: {', '.join(parts)}{told and f', {told}'}"
    return Variant(name, kind, parts, words, change, **others)


def _rings_not_home(unit: Unit, part: Any) -> Iterator[Variant]:
    """Let each ring stand off the face it was pushed against, on the side of its host."""
    for which in (INNER, OUTER):
        body = ring(part.name, which)
        solid = [t for t in unit.of(body) if _solid(unit.rebuild, t.other(body))]
        if solid:
            first = min(solid, key=lambda t: not _sits_on(unit.rebuild, t.other(body)))
            words = f"{which} of {part.name} not home: tight, or dirt or a burr behind it"
            change = dirt(str(first.face(body)))
            yield variant("not home", (part.name,), words, change, told=which, between=NOT_HOME)


def _solid(rebuild: Rebuild, body: str) -> bool:
    return not is_threaded(rebuild, body) and not is_spring(rebuild, body)


def _sits_on(rebuild: Rebuild, body: str) -> bool:
    return body in rebuild.parts and is_host(rebuild, body)


def _burr(unit: Unit, part: Any) -> Iterator[Variant]:
    """Put dirt on a face of what lies between others; a shaft has it where no ring sits."""
    here = [t for t in unit.of(part.name) if _solid(unit.rebuild, t.other(part.name))]
    if is_host(unit.rebuild, part.name):
        here = [t for t in here if t.other(part.name) in unit.rebuild.parts]
    if here:
        face = here[0].face(part.name)
        words = f"dirt or a burr on {part.name}"
        yield variant("burr", (part.name,), words, dirt(str(face)), between=BURR)


def _left_out(unit: Unit, part: Any) -> Iterator[Variant]:
    if unit.of(part.name):
        words = f"{part.name} left out"
        yield variant("left out", (part.name,), words, no_longer_there(part.name))


def _doubled(unit: Unit, part: Any) -> Iterator[Variant]:
    """Let a thin piece have a second one stuck to it."""
    own = unit.rebuild.sizes.get(part.name)
    thick = own is not None and isinstance(own.size, Size) and metres(own.size) > THIN
    if unit.of(part.name) and _has_thickness(unit.rebuild, part) and not thick:
        words = f"{part.name} doubled: two stuck together"
        yield variant("doubled", (part.name,), words, made(part.name, lambda was, _: 2 * was))


def _has_thickness(rebuild: Rebuild, part: Any) -> bool:
    own = rebuild.sizes.get(part.name)
    sizes = (own and own.size, getattr(part, "nipped", None), getattr(part, "free", None))
    return part.name in rebuild.settings or any(isinstance(size, Size) for size in sizes)


def _tang(unit: Unit, part: Any) -> Iterator[Variant]:
    for one in _burr(unit, part):
        words = f"tang of {part.name} not in its slot, or {part.name} reversed or burred"
        yield variant("not in its slot", (part.name,), words, one.change, between=TANG)


def _shims(unit: Unit, part: Any) -> Iterator[Variant]:
    """Let a pack have an edge turned up, one shim too many, or one missing."""
    name = part.name
    if not _has_thickness(unit.rebuild, part):
        return
    setting = unit.rebuild.settings.get(name)
    steps = tuple(metres(stock.size) for stock in setting.made_from) if setting else ()
    shim = {"steps": steps} if steps else {"between": SHIM}
    up = f"a shim edge of {name} turned up"
    yield variant("edge turned up", (name,), up, made(name, _more), between=EDGE)
    if setting is None or steps:
        many = f"two shims of {name} stuck together, or one too many"
        yield variant("shim too many", (name,), many, made(name, _more), **shim)
        gone = f"a shim of {name} missing: measure the whole pack, nipped"
        yield variant("shim missing", (name,), gone, made(name, less_one), **shim)


def _more(was: Any, amount: Any) -> Any:
    return was + amount


def _cocked(unit: Unit, part: Any) -> Iterator[Variant]:
    if any(t.joint == part.name for t in unit.touches):
        words = f"{part.name} cocked, or not pulled home all round"
        yield variant("cocked", (part.name,), words, dirt(part.name), between=STANDS_OFF)


def _gasket(unit: Unit, part: Any) -> Iterator[Variant]:
    name = part.name
    if not unit.of(name):
        return
    sealant = f"{name} left out, or sealant in its place"
    yield variant("sealant", (name,), sealant, no_longer_there(name))
    if _has_thickness(unit.rebuild, part):
        yield variant("doubled", (name,), f"{name} doubled", made(name, lambda was, _: 2 * was))
        words = f"{name} of thicker sheet"
        yield variant("thicker gasket", (name,), words, made(name, _more), between=THICKER)
        words = f"{name} not nipped down yet"
        yield variant("not nipped down", (name,), words, made(name, _more), between=SETS)


def _reversed(unit: Unit, part: Any) -> Iterator[Variant]:
    """Turn a bearing round that stops one way."""
    ends = [
        (line.first, line.last)
        for line in unit.rebuild.lines.values()
        if any(spot.part == part.name for stack in line.stacks for spot in stack.spots)
    ]
    if ends and part.stops in ends[0]:
        other = ends[0][1] if part.stops == ends[0][0] else ends[0][0]
        words = f"{part.name} in back to front"
        change = another(part.name, lambda _, was: replace(was, stops=other))
        yield variant("reversed", (part.name,), words, change)


def _unmatched(_: Unit, part: Any) -> Iterator[Variant]:
    if part.ground_for is not None and part.set_width is None:
        words = f"{part.name} not one of the matched set"
        change = another(part.name, lambda _, was: replace(was, ground_for=None))
        yield variant("wrong pair", (part.name,), words, change, either_way=True)


def _stuck(unit: Unit, part: Any) -> Iterator[Variant]:
    """Let a pocket grip that holds an outer ring nothing else holds."""
    outer = ring(part.name, OUTER)
    held = [t for t in unit.of(outer) if not is_spring(unit.rebuild, t.other(outer))]
    if held or not unit.of(ring(part.name, INNER)) or not isinstance(part.outside, Size):
        return
    tight, spread = (type(part.outside.value)(str(mm)) for mm in STUCK)
    words = f"{part.name} stuck in its pocket, where it should slide: paint, sealant, a tight bore"

    def gripped(_: Rebuild, was: Any) -> Any:
        value = was.outside.value - tight
        pocket = replace(
            was.outside, value=value, plus=spread, minus=spread, instrument=None, step=None
        )
        return replace(was, pocket=pocket)

    yield variant("floating end stuck", (part.name,), words, another(part.name, gripped))


def _nut(unit: Unit, part: Any) -> Iterator[Variant]:
    """Let a nut that clamps not be up; one that adjusts is dragged on, or turned back."""
    here, name = unit.of(part.name), part.name
    if any(t.joint == name for t in here):
        words = f"{name} not pulled up"
        yield variant("nut not up", (name,), words, dirt(name), between=NOT_UP, jumps=True)
    elif here:
        play = float(thread_play(part, NoLuck())[0])
        drag = (play / 5, play) if play else DRAGGED
        drag = LOCKED_ON if part.locked_by == LOCK_NUT else drag
        words = f"{name} dragged on as it was locked: read again after locking"
        yield variant("dragged in locking", (name,), words, dirt(name, -1.0), between=drag)
        words = f"{name} turned back: not locked, or not held by its lock"
        yield variant("turned back", (name,), words, dirt(name), between=TURNED_BACK)


def _none(_: Unit, __: Any) -> Iterator[Variant]:
    return iter(())


def _all(*makers: Maker) -> Maker:
    def every(unit: Unit, part: Any) -> Iterator[Variant]:
        for maker in makers:
            yield from maker(unit, part)

    return every


MISTAKES: dict[str, Maker] = {
    "housing": _none,
    "cover": _cocked,
    "shaft": _burr,
    "cluster": _burr,
    "spacer": _all(_burr, _left_out, _doubled),
    "thrust washer": _all(_tang, _left_out, _doubled),
    "shim pack": _shims,
    "cartridge": _cocked,
    "pin": _cocked,
    "angular contact ball": _all(_rings_not_home, _reversed, _unmatched, _stuck),
    "deep groove ball": _all(_rings_not_home, _stuck),
    "taper roller": _all(_rings_not_home, _reversed),
    "thrust ball": _rings_not_home,
    "two-row ball": _all(_rings_not_home, _unmatched, _stuck),
    "cylindrical roller": _rings_not_home,
    "nut": _nut,
    "threaded ring": _nut,
    "spring washer": _left_out,
    "retaining ring": _burr,
    "bush": _burr,
    "key": _none,
    "plain bearing": _none,
    "seal": _none,
    "gasket": _gasket,
}


def swapped(unit: Unit) -> Iterator[Variant]:
    """Give what may lie in each other's place: pieces of one kind, bearings of one size."""
    parts = unit.rebuild.parts.values()
    pieces = [
        p for p in parts if isinstance(p, Spacer | ThrustWasher | ShimPack) and _lies(unit, p)
    ]
    for one, other in combinations(pieces, 2):
        if type(one) is type(other) and _goes_for(unit, one, other):
            words = f"{one.name} and {other.name} in each other's place"
            pair = (one.name, other.name)
            yield variant("swapped", pair, words, exchanged(*pair))
    bearings = [p for p in parts if isinstance(p, Bearing) and unit.of(ring(p.name, INNER))]
    for first, second in combinations(bearings, 2):
        if interchangeable(first, second):
            words = f"{first.name} and {second.name} in each other's place"
            pair = (first.name, second.name)
            yield variant("bearings swapped", pair, words, bearings_exchanged(*pair))


def _lies(unit: Unit, part: Any) -> bool:
    return bool(unit.of(part.name)) and _has_thickness(unit.rebuild, part)


def _goes_for(unit: Unit, one: Any, other: Any) -> bool:
    """Tell whether a ring goes where another belongs: of one metal, and no diameter against it.

    Where no diameter is told, only one that lies on the same shaft, against the same rings.
    """
    pairs = [(one.bore, other.bore), (one.outside, other.outside)]
    told = [(a, b) for a, b in pairs if isinstance(a, Size) and isinstance(b, Size)]
    if one.material != other.material or any(abs(a.value - b.value) > 1 for a, b in told):
        return False
    return bool(told) or _beside(unit, one.name) == _beside(unit, other.name)


def _beside(unit: Unit, name: str) -> tuple[set[str], set[str]]:
    """Say in which lines a piece lies, and which rings of bearings it touches."""
    here = unit.of(name)
    bodies = {t.other(name) for t in here} - {*unit.rebuild.parts}
    return {t.line for t in here}, {body.removeprefix(owner(body)) for body in bodies}


def _apex(unit: Unit, mesh: Any) -> Iterator[Variant]:
    """Let a bevel stand off its place on its shaft, out of the mesh or into it."""
    for which in ("pinion", "wheel"):
        apex, away = getattr(mesh, f"{which}_apex"), getattr(mesh, f"{which}_away")
        part = getattr(mesh, which)
        sizes = [b for b in unit.rebuild.sizes.values() if apex in (b.start, b.end)]
        line = _line_of(unit.rebuild, part)
        if len(sizes) != 1 or line is None:
            continue
        out = 1.0 if line.last == away else -1.0
        for sign, told in ((1.0, "too far out"), (-1.0, "too deep")):
            words = f"{which} of {mesh.name} {told}: a key or fillet in the way"
            change = _moved(sizes[0], apex, sign * out)
            named = f"{which} of {mesh.name} {told}"
            yield variant("gear out of place", (part,), words, change, told=named, between=GEAR_OUT)


def _line_of(rebuild: Rebuild, part: str) -> Any:
    lines = rebuild.lines.values()
    return next((x for x in lines if any(s.part == part for k in x.stacks for s in k.spots)), None)


def _moved(size: Between, spot: Any, way: float) -> Change:
    """Move a spot along its part."""
    return further({size.key: way if size.end == spot else -way})


def _centres(_: Unit, mesh: Any) -> Iterator[Variant]:
    """Let two shafts stand too far apart, or too near."""
    for sign, told in ((1.0, "too far apart"), (-1.0, "too near")):
        words = f"shafts of {mesh.name} {told}: a bush off centre, a joint skimmed or dirty"
        change = apart(mesh.name, sign)
        parts = (mesh.pinion, mesh.wheel)
        named = f"{mesh.name} {told}"
        yield variant("centres off", parts, words, change, told=named, between=CENTRES)


MESH_MISTAKES: dict[str, Maker] = {
    "bevel": _apex,
    "spur": _centres,
    "helical": _centres,
    "worm": _centres,
}
