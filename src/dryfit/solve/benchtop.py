"""The unit as it lies on the bench when a check is read: fitted so, as warm as that, and pushed."""

from collections.abc import Mapping
from dataclasses import dataclass

from dryfit.model.rebuild import Line, Rebuild
from dryfit.quantities import Quantity
from dryfit.solve.elastic import Held, Stray, hold
from dryfit.solve.luck import Array, full
from dryfit.solve.network import Fitted, Network, network
from dryfit.solve.rings import owner
from dryfit.solve.sample import Sample

PUSH, PUSH_SPREAD = 50.0, 0.3
"""A push by hand on the end of a shaft where none is told [N], and how far it may differ [-]."""


class NothingStops(Exception):
    """A part runs out of the line: nothing stops it one way.

    Attributes
    ----------
    part
        The part that runs out.
    """

    def __init__(self, part: str) -> None:
        super().__init__(f"nothing stops {part} one way")
        self.part = part


@dataclass(frozen=True, slots=True)
class Bench:
    """A unit in the state in which a check is read, and the line along which it is read."""

    rebuild: Rebuild
    sample: Sample
    put: Fitted
    line: Line
    net: Network

    @property
    def left_out(self) -> frozenset[str]:
        """Parts that are not fitted."""
        return self.put.now.left_out

    def along(self, line: Line) -> "Bench":
        """Look along another line of the same unit."""
        net = network(self.rebuild, line, self.sample, self.put)
        return Bench(self.rebuild, self.sample, self.put, line, net)

    def at_rest(self, pushes: Mapping[str, Array], start: Held | None = None) -> Held:
        """Bring the line to rest; what runs away is told by the name of its part."""
        try:
            return hold(self.net, pushes, start)
        except Stray as stray:
            raise NothingStops(owner(stray.bodies[0])) from stray

    def push(self, check: str, told: Quantity | None) -> Array:
        """Draw a push by hand, as far as hands keep to it [N], shape (n,)."""
        force = full(self.sample.draws, told.si if told else PUSH)
        drawn: Array = force * (1 + PUSH_SPREAD * self.sample.draws.flat("checks", check, "push"))
        return drawn
