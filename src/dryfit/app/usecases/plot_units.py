"""What all plots of a rebuild share: the unit as it is asked, packs in hand, units and decimals."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from dryfit.ask.asking import Asking, usual_draws
from dryfit.ask.settings import choose_all
from dryfit.ask.slopes import lacking_or_none
from dryfit.ask.targets import Target, targets
from dryfit.model.rebuild import BUILT, Rebuild
from dryfit.quantities import System, decimals_for
from dryfit.solve.sizes import metres

INCH, POUND = 25.4, 4.4482216152605
"""Millimetres of an inch, newtons of a pound: exact by definition."""


@dataclass(frozen=True)
class Plotting:
    """A rebuild that plots are drawn of.

    Attributes
    ----------
    asking
        The unit, with the draws of a first look.
    wanted
        What is wanted of it and can be said.
    """

    asking: Asking
    wanted: tuple[Target, ...]

    @property
    def rebuild(self) -> Rebuild:
        """The records."""
        return self.asking.rebuild

    @cached_property
    def packs(self) -> dict[str, float]:
        """What is fitted, and for what is not the pack by the sum of sizes [m]."""
        settings = self.rebuild.settings
        fitted = {part: metres(s.fitted) for part, s in settings.items() if s.fitted}
        free = [part for part in settings if part not in fitted]
        return {**fitted, **choose_all(self.asking, self.wanted, free, fitted)}


def plotting(rebuild: Rebuild) -> Plotting:
    """Make a rebuild ready to be plotted."""
    asking = Asking(rebuild, usual_draws(rebuild)).first_look
    wanted = targets(rebuild)
    return Plotting(asking, tuple(t for t in wanted if not lacking_or_none(asking, t.need, {})))


@dataclass(frozen=True)
class Unit:
    """A unit in which a plot shows something.

    Attributes
    ----------
    name
        As it is written.
    rate
        How many of it are one of SI.
    other
        The unit on the other side, and how many of it are one of this.
    """

    name: str
    rate: float
    other: tuple[str, float] | None = None


def length_unit(system: System) -> Unit:
    """Give the unit of lengths of a document, with that of the other system."""
    if system == "inch":
        return Unit("in", 1e3 / INCH, ("mm", INCH))
    return Unit("mm", 1e3, ("thou", 1e3 / INCH))


def fine_unit(system: System) -> Unit:
    """Give the unit of what rows yield."""
    return Unit("thou", 1e6 / INCH) if system == "inch" else Unit("µm", 1e6)


def force_unit(system: System) -> Unit:
    """Give the unit of forces."""
    pound = 1 / POUND
    return Unit("lbf", pound, ("N", POUND)) if system == "inch" else Unit("N", 1.0, ("lbf", pound))


def length_places(half_width: float, system: System) -> int:
    """Say how many decimals a length deserves [-] that is known to so much [m]."""
    return decimals_for(max(half_width * 1e3, 1e-6), system)


def warm(words: str, state: str) -> str:
    """Add in which state something is, if not as built."""
    return words if state == BUILT else f"{words}, {state}"


def capital(words: str) -> str:
    """Begin with a capital."""
    return words[:1].upper() + words[1:]


def listed(names: Sequence[str]) -> str:
    """Join names.

    >>> listed(("front", "rear", "tail bearing"))
    'front, rear and tail bearing'
    """
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
