"""One record for each kind of gear mesh: two members, each part of something in a line.

The smaller member is called the pinion, in a worm pair the worm; the other is the wheel.
"""

from dataclasses import dataclass

from dryfit.model.reads import reads
from dryfit.model.spots import Spot
from dryfit.quantities import NotKnown, Quantity, Size

Known = Size | NotKnown | None


@dataclass(frozen=True)
class Mesh:
    """Two gears that turn each other.

    `lash` is what they have, along the pitch circle, where both stand as they were meant to. A
    sliding gear meshes only in a state whose `gears in` is its `engaged in`.
    """

    name: str
    kind: str
    pinion: str = reads("part", required=True)
    wheel: str = reads("part", required=True)
    pinion_teeth: int | None = reads("count", required=True)
    wheel_teeth: int | None = reads("count", required=True)
    module: Known = reads("size", required=True)
    pressure_angle: Quantity | None = reads("angle")
    lash: Known = reads("size")
    engaged_in: str | None = reads("text")


@dataclass(frozen=True)
class BevelMesh(Mesh):
    """A pair of bevels on crossing shafts.

    Each stands as meant when the spot at its `apex` lies on the spot where the axes cross. Moved
    towards `away` it opens.
    """

    shaft_angle: Quantity | None = reads("angle")
    spiral_angle: Quantity | None = reads("angle")
    face_width: Known = reads("size")
    teeth: str | None = reads("text")
    pinion_apex: Spot | None = reads("spot", required=True)
    pinion_crossing: Spot | None = reads("spot", required=True)
    pinion_away: str | None = reads("end", required=True)
    wheel_apex: Spot | None = reads("spot", required=True)
    wheel_crossing: Spot | None = reads("spot", required=True)
    wheel_away: str | None = reads("end", required=True)


@dataclass(frozen=True)
class SpurMesh(Mesh):
    """Spur gears on parallel shafts.

    Shims under a bearing add to the centre distance; an eccentric sleeve takes from it, most where
    it is turned to nought.
    """

    centre_distance: Known = reads("size", required=True)
    centre_shims: str | None = reads("part")
    eccentric: Known = reads("size")
    eccentric_turned: Quantity | None = reads("angle")


@dataclass(frozen=True)
class HelicalMesh(SpurMesh):
    """Helical gears on parallel shafts; `hand` is the pinion's, right or left."""

    helix_angle: Quantity | None = reads("angle", required=True)
    hand: str | None = reads("text")


@dataclass(frozen=True)
class WormMesh(Mesh):
    """A worm and its wheel; `pinion` is the worm, its teeth are its starts, the module is axial."""

    worm_diameter: Known = reads("size", required=True)
    centre_distance: Known = reads("size", required=True)
    centre_shims: str | None = reads("part")
    eccentric: Known = reads("size")
    eccentric_turned: Quantity | None = reads("angle")


MESH_KINDS: dict[str, type[Mesh]] = {
    "bevel": BevelMesh,
    "spur": SpurMesh,
    "helical": HelicalMesh,
    "worm": WormMesh,
}
