"""What each kind of part does along a line: the one table of `solve` by kind of part."""

from dataclasses import dataclass
from enum import Enum


class Stands(Enum):
    """What holds a part in its place."""

    STILL = "the case itself"
    SCREWED = "screws pull it on to its joint"
    LOOSE = "nothing but what it touches"


@dataclass(frozen=True, slots=True)
class Body:
    """How a kind of part behaves.

    Attributes
    ----------
    stands
        What holds it.
    floats
        Whether it is one of the parts whose float is asked for; these turn and run warm.
    material
        What it is taken to be made of when nothing is said; None if it does not count.
    """

    stands: Stands
    floats: bool
    material: str | None


BODIES: dict[str, Body] = {
    "housing": Body(Stands.STILL, floats=False, material="cast iron"),
    "cover": Body(Stands.SCREWED, floats=False, material="cast iron"),
    "shaft": Body(Stands.LOOSE, floats=True, material="steel"),
    "cluster": Body(Stands.LOOSE, floats=True, material="steel"),
    "spacer": Body(Stands.LOOSE, floats=False, material="steel"),
    "thrust washer": Body(Stands.LOOSE, floats=False, material="bronze"),
    "shim pack": Body(Stands.LOOSE, floats=False, material="steel"),
    "gasket": Body(Stands.LOOSE, floats=False, material=None),
}
