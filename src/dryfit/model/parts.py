"""One record for each kind of part.

A part's lengths are not here but among the sizes of the rebuild, between two named spots of the
part; only a size that belongs to the kind itself (a gasket nipped) is a field.
"""

from dataclasses import dataclass

from dryfit.model.reads import reads
from dryfit.quantities import NotKnown, Size


@dataclass(frozen=True)
class Part:
    """One thing on the bench, called by its owner's name for it."""

    name: str
    kind: str
    material: str | None = reads("material")


@dataclass(frozen=True)
class Housing(Part):
    """The case: it stands still, and all other parts are placed from it."""


@dataclass(frozen=True)
class Cover(Part):
    """A cover or cap: its screws pull its flange on to the joint it stands on."""


@dataclass(frozen=True)
class Shaft(Part):
    """A shaft or spindle with its shoulders."""


@dataclass(frozen=True)
class Cluster(Part):
    """Several gears in one piece, or any other part that turns and may float."""


@dataclass(frozen=True)
class Spacer(Part):
    """A distance piece."""


@dataclass(frozen=True)
class ThrustWasher(Part):
    """A thrust washer or thrust ring, often with a tang that sits in a slot."""


@dataclass(frozen=True)
class ShimPack(Part):
    """One or more shims at one place."""


@dataclass(frozen=True)
class Gasket(Part):
    """A gasket, thinner when nipped than free."""

    free: Size | NotKnown | None = reads("size")
    nipped: Size | NotKnown | None = reads("size")


PART_KINDS: dict[str, type[Part]] = {
    "housing": Housing,
    "cover": Cover,
    "shaft": Shaft,
    "cluster": Cluster,
    "spacer": Spacer,
    "thrust washer": ThrustWasher,
    "shim pack": ShimPack,
    "gasket": Gasket,
}
