"""A named place on a part."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Spot:
    """A named place on a part: `case.joint`."""

    part: str
    name: str

    def __str__(self) -> str:
        """Write it as it stands in the text."""
        return f"{self.part}.{self.name}"
