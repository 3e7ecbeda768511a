"""What to write down before a unit is taken apart: common practice, no source."""

from collections.abc import Iterator

from dryfit.model.parts import Gasket, RetainingRing, ShimPack, ThrustWasher
from dryfit.model.rebuild import Line, Rebuild

BEFORE = (
    "Photographs square-on and sharp, a rule beside: every side, the levers, how it is piped.",
    "Mark the sides as they stand at the machine: front, rear, left, right, top.",
    "Belt off, oil drained and looked at: metal in it? how much came out?",
    "Stiff, noisy, leaking, warm: when, and at which speed? Cold, or only warm?",
    "Read what is in the table below while the unit is whole. It cannot be read again.",
)

DO_NOT_LOSE = (
    "Shims by side: string each pack together and tag it with its line, its end and its side.",
    "Rings and paper in joints: each may be a shim. Measure it, keep it, torn or not.",
    "Bearings: which face looks to which end. Write it down before a ring moves; a cone stays "
    "with its cup.",
    "Seals: which way the lip looks, and how deep it sits.",
    "Lash: write the radius beside it, and what was held.",
    "Nuts: mark nut and shaft before the nut is turned, and count the turns.",
    "Figures in pencil, pair marks and arrows: read them before anything is wiped.",
    "Small parts: balls, springs, keys, pins. Open over a tray, a bag for each joint.",
)

HARM = (
    "Support what may drop; say what it weighs before it is lifted. Lock off the drive.",
    "Taper pins go out from the small end. Look for cross screws under paint and filler before "
    "you press: castings crack there.",
    "No force through balls or rollers that may stay. Air never spins a bearing.",
)

NOTE = {
    "housing": "sides marked; cross screws and taper pins found",
    "cover": "which joint, which way up: two punch marks; screws by length",
    "cartridge": "turned which way: mark flange and case",
    "pin": "which end comes out; what keeps it from turning",
    "shaft": "which end comes out, and which way; burrs; is it bent",
    "cluster": "which gear to which end; marked teeth",
    "spacer": "which face to which end; its length",
    "thrust washer": "which face to the thrust; tang in its slot; its thickness",
    "shim pack": "how many, each thickness; tied and tagged with its side",
    "gasket": "paper, or a metal ring that is a shim; its thickness; kept",
    "angular contact ball": "thrust face to which end; pair marks; figures on the rings",
    "deep groove ball": "shield to which end; which ring was loose; figures",
    "taper roller": "cone tagged with its cup; wide end to which end; figures",
    "thrust ball": "which washer is the tight one, and to which end",
    "two-row ball": "filling slot to which end; halves kept in order",
    "cylindrical roller": "which ring has lips, and to which end; figures",
    "nut": "marked before it is turned; turns to come off; hand; tab or pin",
    "threaded ring": "marked against the case; turns to come off; hand",
    "spring washer": "which way it dishes; how many; its height, free",
    "retaining ring": "which groove; sharp edge to which end; its thickness",
    "bush": "oil hole to where; proud or flush, by how much",
    "key": "which slot; rounded end to where",
    "plain bearing": "cap and side marked; shims left and right kept apart",
    "seal": "lip to which end; how deep from the face; its size",
}
"""By kind of part."""

PAIR = {
    "bevel": "marked teeth; back faces flush or not; where the teeth bear",
    "spur": "marked teeth; which gear slides; where the teeth bear",
    "helical": "hand of each; marked teeth; where the teeth bear",
    "worm": "starts; where on the wheel it bears; any sleeve marked before it turns",
}
"""By kind of mesh."""

EVERY = (
    "end float of each shaft",
    "shake at each bearing",
    "lash of each pair of gears, with its radius",
    "pull of a cord on each shaft",
)
"""What is read before any strip, where nothing is known of the unit."""

IN_JOINTS = (ShimPack, Gasket, ThrustWasher, RetainingRing)
"""Thin rings, of which the side and the thickness count."""


def in_joints(rebuild: Rebuild) -> list[str]:
    """List the thin rings of a unit."""
    return [name for name, part in rebuild.parts.items() if isinstance(part, IN_JOINTS)]


def notes_of(rebuild: Rebuild, line: Line) -> Iterator[tuple[str, str, str]]:
    """List the parts and meshes of a line in their order: name, kind, what to write down."""
    names = dict.fromkeys(spot.part for stack in line.stacks for spot in stack.spots)
    for part in (rebuild.parts[name] for name in names if name in rebuild.parts):
        yield part.name, part.kind, NOTE[part.kind]
    for mesh in rebuild.meshes.values():
        if {mesh.pinion, mesh.wheel} & names.keys():
            yield mesh.name, f"{mesh.kind} pair", PAIR[mesh.kind]


def between(rebuild: Rebuild, name: str) -> str | None:
    """Say which two parts a thin ring lies between, by the stacks."""
    for line in rebuild.lines.values():
        for stack in line.stacks:
            names = [*dict.fromkeys(spot.part for spot in stack.spots)]
            if name in names[1:-1]:
                at = names.index(name)
                return f"{names[at - 1]} and {names[at + 1]}"
    return None
