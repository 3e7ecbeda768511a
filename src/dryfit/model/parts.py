"""One record for each kind of part.

A part's lengths are not here but among the sizes of the rebuild, between two named spots of the
part; only a size that belongs to the kind itself (a gasket nipped, the rings of a bearing) and
diameters are fields. Reading order: what is common to many, what stands and turns, distance
pieces, bearings, what holds them.
"""

from dataclasses import dataclass

from dryfit.model.lands import Diameters
from dryfit.model.reads import reads
from dryfit.model.spots import Spot
from dryfit.quantities import NotKnown, Quantity, Size

Known = Size | NotKnown | None


@dataclass(frozen=True)
class Part:
    """One thing on the bench, called by its owner's name for it."""

    name: str
    kind: str
    material: str | None = reads("material")


@dataclass(frozen=True)
class Turned(Part):
    """A part with lands: each of its sides has one size all along, or one for each land."""

    outside: Diameters = reads("diameters")
    bore: Diameters = reads("diameters")


@dataclass(frozen=True)
class Ring(Part):
    """A part that is one ring, for the shaft to go through."""

    bore: Known = reads("size")
    outside: Known = reads("size")


@dataclass(frozen=True)
class Housing(Turned):
    """The case: it stands still, and all other parts are placed from it.

    `opening` says how wide it is open at its side, all along or between two of its spots;
    `split along` on which lines it parts in two halves.
    """

    opening: Diameters = reads("diameters")
    split_along: tuple[str, ...] = reads("part list", default=())


@dataclass(frozen=True)
class Cover(Turned):
    """A cover or cap: its screws pull its flange on to the joint it stands on.

    Between the circle of its screws and its spigot it gives like a plate, if both are known.
    """

    screw_circle: Known = reads("size")
    spigot: Known = reads("size")
    thickness: Known = reads("size")
    o_ring: Quantity | None = reads("force", key="o-ring holds")


@dataclass(frozen=True)
class Cartridge(Cover):
    """A housing in the housing, screwed to it by a flange: it holds bearings of its own."""


@dataclass(frozen=True)
class Pin(Cover):
    """A pin that stands still in the case, on which something turns."""


@dataclass(frozen=True)
class Shaft(Turned):
    """A shaft or spindle with its shoulders; where the line stands upright it weighs on it.

    `gears put on` names meshes whose gear is a wheel of its own on it, not cut from it.
    """

    weight: Quantity | None = reads("force")
    weighs_towards: str | None = reads("end")
    gears_put_on: tuple[str, ...] = reads("part list", default=())


@dataclass(frozen=True)
class Cluster(Shaft):
    """Several gears in one piece, or any other part that turns and may float."""


@dataclass(frozen=True)
class Spacer(Ring):
    """A distance piece; with its bore and outside it shortens under clamp."""


@dataclass(frozen=True)
class ThrustWasher(Ring):
    """A thrust washer or thrust ring, often with a tang that sits in a slot."""


@dataclass(frozen=True)
class ShimPack(Ring):
    """One or more shims at one place."""


@dataclass(frozen=True)
class Gasket(Ring):
    """A gasket, thinner when nipped than free."""

    free: Known = reads("size")
    nipped: Known = reads("size")


@dataclass(frozen=True)
class Bearing(Part):
    """A bearing: two rings with a row between them.

    `width` is that of both rings where they are alike. `set width` reaches from the face on which
    the inner ring is pushed to the face on which the outer ring rests, as the row just touches.
    """

    bore: Known = reads("size")
    outside: Known = reads("size")
    width: Known = reads("size")
    inner_width: Known = reads("size")
    outer_width: Known = reads("size")
    set_width: Known = reads("size")
    on: str | None = reads("part")
    in_: str | None = reads("part", key="in")
    seat: Known = reads("size")
    pocket: Known = reads("size")
    balls: int | None = reads("count")
    ball: Known = reads("size")
    rating: Quantity | None = reads("force")
    pressed_with: Quantity | None = reads("force")
    fitted_hot_by: Quantity | None = reads("temperature difference")
    cage: str | None = reads("text")
    sealed: str | None = reads("text")
    greased: str | None = reads("text")


@dataclass(frozen=True)
class AngularContactBall(Bearing):
    """A row of balls that stops the shaft one way."""

    angle: Quantity | None = reads("angle")
    stops: str | None = reads("end", key="stops shaft going", required=True)
    ground_for: Quantity | None = reads("force", key="ground for")


@dataclass(frozen=True)
class DeepGrooveBall(Bearing):
    """A row of balls that stops the shaft both ways."""

    clearance: str | None = reads("text")
    play: Known = reads("size")


@dataclass(frozen=True)
class TaperRoller(Bearing):
    """A cone, a cup and tapers between them: it stops the shaft one way."""

    angle: Quantity | None = reads("angle")
    stops: str | None = reads("end", key="stops shaft going", required=True)


@dataclass(frozen=True)
class ThrustBall(Bearing):
    """A row of balls between two washers: it stops the shaft one way."""

    stops: str | None = reads("end", key="stops shaft going", required=True)


@dataclass(frozen=True)
class TwoRowBall(Bearing):
    """Two rows of angular contact in one bearing: it stops the shaft both ways."""

    angle: Quantity | None = reads("angle")
    play: Known = reads("size")
    ground_for: Quantity | None = reads("force", key="ground for")


@dataclass(frozen=True)
class CylindricalRoller(Bearing):
    """A row of rollers that lets the shaft go endways."""


@dataclass(frozen=True)
class Nut(Part):
    """A nut on a shaft.

    Where the parts before it stand on the shaft it clamps them, by its torque; where they do not
    it adjusts, and is set to a float, or beyond nothing if less than 0.
    """

    thread: str | None = reads("text")
    torque: Quantity | None = reads("torque")
    face: Known = reads("size")
    outside: Known = reads("size")
    set_to: Size | None = reads("known size", key="set to")
    locked_by: str | None = reads("text")


@dataclass(frozen=True)
class ThreadedRing(Nut):
    """A ring screwed into the case or a cover, that holds or adjusts an outer ring."""

    bore: Known = reads("size")


@dataclass(frozen=True)
class SpringWasher(Ring):
    """A spring that pushes endways: `force` at a height `at`, `solid` when flat."""

    free: Known = reads("size")
    force: Quantity | None = reads("force")
    at: Known = reads("size")
    solid: Known = reads("size")


@dataclass(frozen=True)
class RetainingRing(Ring):
    """A ring in a groove, of the shaft or of the bore."""


@dataclass(frozen=True)
class Bush(Ring):
    """A plain bush: it lets the shaft go endways unless its face stops it."""


@dataclass(frozen=True)
class Key(Part):
    """A key: it turns what it fits and moves nothing endways.

    It lies from one spot of its shaft to another, and stands out of it there.
    """

    from_: Spot | None = reads("spot", key="from")
    to: Spot | None = reads("spot")
    stands_out: Known = reads("size")


@dataclass(frozen=True)
class PlainBearing(Part):
    """A split plain bearing, its cap on shims at both sides.

    `bore` is what the cap leaves upright, pulled down without any shim.
    """

    on: str | None = reads("part")
    bore: Known = reads("size")
    journal: Known = reads("size")
    left_shims: str | None = reads("part")
    right_shims: str | None = reads("part")


@dataclass(frozen=True)
class Seal(Part):
    """A lip seal: it drags on the shaft and moves nothing endways."""

    on: str | None = reads("part", required=True)
    shaft: Known = reads("size")
    outside: Known = reads("size")


PART_KINDS: dict[str, type[Part]] = {
    "housing": Housing,
    "cover": Cover,
    "cartridge": Cartridge,
    "pin": Pin,
    "shaft": Shaft,
    "cluster": Cluster,
    "spacer": Spacer,
    "thrust washer": ThrustWasher,
    "shim pack": ShimPack,
    "gasket": Gasket,
    "angular contact ball": AngularContactBall,
    "deep groove ball": DeepGrooveBall,
    "taper roller": TaperRoller,
    "thrust ball": ThrustBall,
    "two-row ball": TwoRowBall,
    "cylindrical roller": CylindricalRoller,
    "nut": Nut,
    "threaded ring": ThreadedRing,
    "spring washer": SpringWasher,
    "retaining ring": RetainingRing,
    "bush": Bush,
    "key": Key,
    "plain bearing": PlainBearing,
    "seal": Seal,
}
