"""A rebuild with its true sizes drawn, ready to be asked."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from dryfit.model.rebuild import Check, Need, Rebuild
from dryfit.solve.bodies import BODIES
from dryfit.solve.luck import Array, Draws, Luck, NoLuck, full
from dryfit.solve.predict import Reading, predict
from dryfit.solve.sample import Sample, sample
from dryfit.solve.sizes import gauge, making_error, metres

DRAWS, DEAR = 20_000, 5_000
"""Draws that answer, and where rows, nuts or springs make every question dear."""

FIRST_LOOK = 2_000
"""Draws to compare many things with."""


def usual_draws(rebuild: Rebuild) -> int:
    """Say how many draws answer a rebuild.

    Parameters
    ----------
    rebuild
        The unit [rebuild]

    Returns
    -------
    draws
        `DRAWS`, or `DEAR` where parts give [-]

    Valid
    -----
    Any rebuild.

    Source
    ------
    Estimate: of 5 000 draws a chance of 90 in 100 is good to half a hundredth.

    Examples
    --------
    >>> usual_draws(Rebuild("mm"))
    20000
    """
    return DEAR if any(BODIES[part.kind].gives for part in rebuild.parts.values()) else DRAWS


Packs = Mapping[str, "float | Array"]
"""Thickness of each setting, as meant [m]."""


@dataclass(frozen=True)
class Asking:
    """A rebuild and how it is asked.

    Attributes
    ----------
    rebuild
        The unit.
    count
        How many draws answer.
    assumed
        What stands in for sizes that are not known [m], by key.
    sampled
        True sizes to use instead of those drawn from the rebuild.
    told
        What was asked of the sizes as typed, kept as the same is asked many times.
    chosen
        Packs that were chosen, slopes, and the like.
    """

    rebuild: Rebuild
    count: int = DRAWS
    assumed: Mapping[str, float] = field(default_factory=dict)
    sampled: Sample | None = None
    told: dict[tuple[object, ...], Reading] = field(init=False, default_factory=dict, compare=False)
    chosen: dict[tuple[object, ...], Any] = field(init=False, default_factory=dict, compare=False)

    @cached_property
    def drawn(self) -> Sample:
        """All true sizes, one value a draw."""
        return self.sampled or sample(self.rebuild, Luck(self.count))

    @cached_property
    def first_look(self) -> "Asking":
        """The same with fewer draws where parts give, to compare many things quickly."""
        if self.count <= FIRST_LOOK or self.sampled or not self.gives:
            return self
        return replace(self, count=FIRST_LOOK)

    @cached_property
    def gives(self) -> bool:
        """Whether rows, nuts or springs make every question dear."""
        return usual_draws(self.rebuild) < DRAWS

    @cached_property
    def nominal(self) -> Sample:
        """All sizes as typed."""
        return sample(self.rebuild, NoLuck())

    def side_by_side(self, count: int) -> Sample:
        """All sizes as typed, in so many draws beside each other."""
        key = ("side by side", count)
        if key not in self.chosen:
            self.chosen[key] = sample(self.rebuild, NoLuck(count))
        found: Sample = self.chosen[key]
        return found

    def typed(self, asked: Check | Need, packs: Packs, *, state: str | None = None) -> float:
        """Say what is found when every size is as typed [m]."""
        return float(self.as_typed(asked, packs, state=state).true[0])

    def as_typed(self, asked: Check | Need, packs: Packs, *, state: str | None = None) -> Reading:
        """Say the same with all that belongs to it."""
        key = (asked, state, *sorted(packs.items()))
        if key not in self.told:
            self.told[key] = self.typed_reading(asked, packs, state=state)
        return self.told[key]

    def typed_reading(
        self,
        asked: Check | Need,
        packs: Packs,
        *,
        of: Sample | None = None,
        extra: Mapping[str, float | Array] | None = None,
        state: str | None = None,
    ) -> Reading:
        """Say the same with all that belongs to it, `of` other sizes, `extra` under a part."""
        nominal = of or self.nominal
        meant = {part: full(nominal.draws, float(t)) for part, t in self.with_fitted(packs).items()}
        return predict(
            self.rebuild,
            asked,
            nominal,
            packs=meant,
            assumed=self.assumed,
            extra=extra,
            state=state,
        )

    def true(self, asked: Check | Need, packs: Packs, *, state: str | None = None) -> Reading:
        """Say what may truly be found, packs made with their error [m], shape (n,)."""
        made = {part: self._made(part, t) for part, t in self.with_fitted(packs).items()}
        return predict(
            self.rebuild, asked, self.drawn, packs=made, assumed=self.assumed, state=state
        )

    def with_fitted(self, packs: Packs) -> Packs:
        """Take what is fitted, or nothing, for a setting that is not among the packs."""
        settings = self.rebuild.settings.items()
        fitted = {part: metres(s.fitted) if s.fitted else 0.0 for part, s in settings}
        return {**fitted, **packs}

    def _made(self, part: str, thickness: "float | Array") -> Array:
        """Make a pack: whole and nipped it is as thick as meant but for the error of measuring."""
        by = gauge(self.rebuild, "micrometer")
        draws: Draws = self.drawn.draws
        return making_error(draws, part, self.rebuild.settings.get(part), by) + thickness
