"""What the user adds to the order of work: own steps, what is greased, sealed or locked, wishes.

Reading order: how steps are called, own steps by kind, wishes. Which steps there are the shapes
say (`plan`), so here they are known by name alone.
"""

from dataclasses import dataclass

from dryfit.model.reads import reads
from dryfit.model.spots import Spot
from dryfit.quantities.finding import Place

READ, SCREWS, LOCK = "read ", "screws of ", "lock "
"""What stands before a check, cover or nut in the name of the step in which that is done to it."""

DRESSED = " with what is on it"
"""What follows a part in the name of the step in which it goes in dressed."""

PIECE = ", "
"""What stands between a part and a piece of it, put on by itself: `front, cup`."""


def named_in(step: str, name: str, section: str) -> tuple[int, int] | None:
    """Say from where to where a part, check or own step is named in the name of a step.

    Examples
    --------
    >>> named_in("front, cup", "front", "parts"), named_in("screws of cover", "cover", "parts")
    ((0, 5), (10, 15))
    >>> named_in("read end float", "end float", "checks"), named_in("front", "cup", "parts")
    ((5, 14), None)
    """
    heads = {"parts": ("", SCREWS, LOCK), "checks": (READ,), "steps": ("",)}[section]
    for head in heads:
        at = len(head)
        rest = step[at:] if step.startswith(head) else ""
        if section == "parts" and rest != name:
            rest = rest.removesuffix(DRESSED).partition(PIECE)[0]
        if rest == name:
            return at, at + len(name)
    return None


@dataclass(frozen=True)
class OwnStep:
    """Something that the user does besides; at a part, as late as it can be got at."""

    name: str
    kind: str
    at: Spot | None = reads("part or spot")
    after: tuple[str, ...] = reads("step list", default=())
    before: tuple[str, ...] = reads("step list", default=())
    minutes: float | None = reads("minutes")
    mind: str | None = reads("text")


@dataclass(frozen=True)
class Greasing(OwnStep):
    """Grease put into a bearing, on a part, or at a spot."""

    at: Spot | None = reads("part or spot", required=True)


@dataclass(frozen=True)
class Sealing(OwnStep):
    """Sealant put on the face of a part, or on a spot, before another covers it."""

    at: Spot | None = reads("part or spot", required=True)


@dataclass(frozen=True)
class Locking(OwnStep):
    """A nut, or the screws of a cover, locked."""

    at: Spot | None = reads("part or spot", required=True)


STEP_KINDS: dict[str, type[OwnStep]] = {
    "own": OwnStep,
    "grease": Greasing,
    "seal": Sealing,
    "lock": Locking,
}


@dataclass(frozen=True, slots=True)
class Before:
    """A wish: one step before another."""

    first: str
    then: str
    place: Place = ()


@dataclass(frozen=True, slots=True)
class NotBy:
    """A wish: a step is not done by a way to an end of its line."""

    step: str
    end: str
    place: Place = ()


Wish = Before | NotBy
