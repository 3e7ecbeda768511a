"""Numbers on the sheet: lengths in the system asked for, chances in words."""

from dataclasses import dataclass
from typing import Literal

from dryfit.quantities import System, decimals_for, show_length

AS_TYPED = 0.02
"""Half width [mm] that shows a typed or chosen length to 0.01 mm or a tenth of a thou."""

Units = Literal["mm", "inch", "both"]


@dataclass(frozen=True)
class Figures:
    """How lengths are shown: `first` in front, the other system in brackets if `both`."""

    first: System
    both: bool

    def length(self, mm: float, half_width: float = AS_TYPED) -> str:
        """Show a length with the digits its doubt deserves."""
        return self._with_other([mm], half_width)

    def band(self, low: float, high: float, half_width: float | None = None) -> str:
        """Show a range."""
        width = (high - low) / 2 if half_width is None else half_width
        return self._with_other([low, high], width)

    def bare(self, mm: float, half_width: float = AS_TYPED) -> str:
        """Show a length in the first system only, with its unit."""
        return _joined([mm], self.first, half_width)

    def _with_other(self, values: list[float], half_width: float) -> str:
        shown = _joined(values, self.first, half_width)
        if not self.both:
            return shown
        other: System = "inch" if self.first == "mm" else "mm"
        return f"{shown} ({_joined(values, other, half_width)})"


def _joined(values: list[float], system: System, half_width: float) -> str:
    """Join values by `to`, the unit once behind them."""
    decimals = decimals_for(half_width, system)
    shown = [show_length(value, system, decimals=decimals) for value in values]
    unit = shown[-1].split(" ")[-1]
    return " to ".join(text.split(" ")[0] for text in shown) + f" {unit}"


def figures(system: System, units: Units | None) -> Figures:
    """Take the document's system first, unless another was asked for."""
    if units is None or units == "both":
        return Figures(system, both=True)
    return Figures("mm" if units == "mm" else "inch", both=False)


def in_hundred(share: float) -> str:
    """Say a chance as so many in a hundred, never as certain."""
    if share > 0.995:
        return "over 99 in 100"
    if share < 0.005:
        return "under 1 in 100"
    return f"{round(share * 100)} in 100"
