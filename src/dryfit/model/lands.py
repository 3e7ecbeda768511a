"""Lands: stretches of a part that have one diameter, between two spots of it."""

from collections.abc import Iterator
from dataclasses import dataclass

from dryfit.quantities import NotKnown, Size

OUTSIDE, BORE, OPENING = "outside", "bore", "opening"
"""What of a part is told by lands, as their keys are written; an opening has a width."""


@dataclass(frozen=True, slots=True)
class Land:
    """One diameter from one spot of a part to another; the names are the part's own.

    They may stand in either order: a land lies between them.
    """

    start: str
    end: str
    size: Size | NotKnown

    @property
    def key(self) -> str:
        """The key under which it stands in the text."""
        return f"{self.start} to {self.end}"

    @property
    def spots(self) -> frozenset[str]:
        """The two spots, in no order."""
        return frozenset((self.start, self.end))


Diameters = Size | NotKnown | tuple[Land, ...] | None
"""One size all along a part, or one for each land."""


def lands(diameters: Diameters) -> Iterator[Land]:
    """List the lands of one side; none where one size holds all along."""
    if isinstance(diameters, tuple):
        yield from diameters
