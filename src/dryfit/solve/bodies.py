"""What each kind of part does along a line: the one table of `solve` by kind of part."""

from dataclasses import dataclass
from enum import Enum


class Stands(Enum):
    """What holds a part in its place."""

    STILL = "the case itself"
    SCREWED = "screws pull it on to its joint"
    THREADED = "its own thread, on a shaft or in the case"
    LOOSE = "nothing but what it touches"


class Side(Enum):
    """Which rings of bearings a part goes with."""

    SHAFT = "inner rings"
    CASE = "outer rings"
    EITHER = "those that its neighbours go with"


@dataclass(frozen=True, slots=True)
class Body:
    """How a kind of part behaves.

    Attributes
    ----------
    stands
        What holds it.
    material
        What it is taken to be made of when nothing is said; None if it does not count.
    side
        Which rings of bearings it goes with.
    floats
        Whether it is one of the parts whose float is asked for; these turn and run warm.
    hosts
        Whether covers and cartridges may be screwed to it.
    joins
        Whether it may lie in the joint between what is screwed and its host.
    gives
        Whether a line with such a part has to be solved with all that gives.
    """

    stands: Stands
    material: str | None
    side: Side = Side.EITHER
    floats: bool = False
    hosts: bool = False
    joins: bool = True
    gives: bool = False


_BEARING = Body(Stands.LOOSE, "steel", joins=False, gives=True)

BODIES: dict[str, Body] = {
    "housing": Body(Stands.STILL, "cast iron", Side.CASE, hosts=True),
    "cover": Body(Stands.SCREWED, "cast iron", Side.CASE),
    "cartridge": Body(Stands.SCREWED, "cast iron", Side.CASE, hosts=True),
    "pin": Body(Stands.SCREWED, "steel", Side.SHAFT, hosts=True),
    "shaft": Body(Stands.LOOSE, "steel", Side.SHAFT, floats=True, joins=False),
    "cluster": Body(Stands.LOOSE, "steel", Side.SHAFT, floats=True, joins=False),
    "spacer": Body(Stands.LOOSE, "steel"),
    "thrust washer": Body(Stands.LOOSE, "bronze"),
    "shim pack": Body(Stands.LOOSE, "steel"),
    "gasket": Body(Stands.LOOSE, None),
    "angular contact ball": _BEARING,
    "deep groove ball": _BEARING,
    "taper roller": _BEARING,
    "thrust ball": _BEARING,
    "two-row ball": _BEARING,
    "cylindrical roller": _BEARING,
    "nut": Body(Stands.THREADED, "steel", Side.SHAFT, joins=False, gives=True),
    "threaded ring": Body(Stands.THREADED, "steel", Side.CASE, joins=False, gives=True),
    "spring washer": Body(Stands.LOOSE, "steel", joins=False, gives=True),
    "retaining ring": Body(Stands.LOOSE, "steel"),
    "bush": Body(Stands.LOOSE, "bronze"),
    "key": Body(Stands.LOOSE, "steel"),
    "plain bearing": Body(Stands.LOOSE, "bronze"),
    "seal": Body(Stands.LOOSE, None),
}
