"""One thing that may be wrong, as a change of what is put to the model."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from dryfit.ask.asking import Amount, Asking
from dryfit.model.rebuild import Check
from dryfit.solve.luck import Array, Draws, full
from dryfit.solve.predict import Reading

Change = Callable[[Asking, Amount], Asking]
Misread = Callable[[Array, Array], Array]


def unchanged(asking: Asking, _: Amount) -> Asking:
    """Leave the unit as it is."""
    return asking


@dataclass(frozen=True)
class Variant:
    """One thing that may be wrong.

    Attributes
    ----------
    name
        Tells it from all others of the unit.
    kind
        Row of the table of priors.
    parts
        What it is wrong with; of a reading, nothing.
    words
        What to look for, in the fitter's words.
    change
        What it makes of the unit, by how much of it there is.
    between
        Least and greatest amount: of a length in [m], else a share [-]; None where it has none.
    steps
        Amounts to choose from instead, each as likely [m].
    jumps
        Whether the least of it changes much already, as a nut that has lost its clamp.
    either_way
        Whether it may go either way, whatever it does as typed.
    reading
        Whether only the reading is at fault and the unit is right.
    check
        The one check that is misread; empty for all.
    misread
        What is shown, of what should be shown and how much of the fault there is.
    """

    name: str
    kind: str
    parts: tuple[str, ...]
    words: str
    change: Change = unchanged
    between: tuple[float, float] | None = None
    steps: tuple[float, ...] = ()
    jumps: bool = False
    either_way: bool = False
    reading: bool = False
    check: str = ""
    misread: Misread | None = None

    def amounts(self, draws: Draws) -> Array:
        """Draw how much of it there is, one value a draw; the middle where there are no errors."""
        share = (1 + draws.flat("wrong", self.name)) / 2
        if self.steps:
            last = len(self.steps) - 1
            which = np.minimum(share * len(self.steps), last).astype(int)
            chosen: Array = np.array(self.steps)[which]
            return chosen
        low, high = self.between or (0.0, 0.0)
        drawn: Array = low + (high - low) * share
        return drawn

    def asking(self, asking: Asking, amount: float | None = None) -> Asking:
        """Put the same question of a unit with that wrong in it, all other sizes as they are.

        An amount, where it is given, stands for those drawn.
        """
        return asking if self.reading else self.when_read(asking, amount)

    def when_read(self, asking: Asking, amount: float | None = None) -> Asking:
        """Put the same of the unit as it stands when it is read."""
        return self.change(asking, self._by(amount))

    def shown(
        self, check: Check, reading: Reading, asking: Asking, amount: float | None = None
    ) -> Array:
        """Say what is shown of a reading, if this is wrong with how it is read."""
        if self.misread is None or self.check not in ("", check.name):
            return reading.shown
        return self.misread(reading.shown, self._by(amount)(asking.drawn.draws))

    def _by(self, amount: float | None) -> Amount:
        return self.amounts if amount is None else lambda draws: full(draws, amount)
