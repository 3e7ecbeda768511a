"""A rebuild with its true sizes drawn, ready to be asked."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from dryfit.model.rebuild import Check, Need, Rebuild
from dryfit.solve.bodies import BODIES
from dryfit.solve.luck import Array, Draws, Luck, NoLuck, full
from dryfit.solve.predict import Reading, predict
from dryfit.solve.sample import Sample, sample
from dryfit.solve.sizes import made_by, making_error, metres

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


Amount = Callable[[Draws], Array]
"""How much of something there is, one value a draw."""

Thick = Mapping[str, Array]
"""Thickness of what lies between faces, by part [m], shape (n,) each."""


@dataclass(frozen=True)
class Wrong:
    """What is other in the unit than was meant; nobody in the shop knows.

    Attributes
    ----------
    extra
        What lies under a part or on a face besides, or how far a cover or nut stands back [m].
    sizes
        What is to be added to sizes between spots [m], by key.
    thick
        From true sizes and what was meant to be fitted, what is as thick as something else [m].
    """

    extra: Mapping[str, Amount] = field(default_factory=dict)
    sizes: Mapping[str, Amount] = field(default_factory=dict)
    thick: Callable[[Sample, Thick], Thick] | None = None


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
    wrong
        What is other than meant, in the draws and as typed.
    told
        What was asked of the sizes as typed, kept as the same is asked many times.
    kept
        Packs that were chosen, slopes, and the like.
    """

    rebuild: Rebuild
    count: int = DRAWS
    assumed: Mapping[str, float] = field(default_factory=dict)
    sampled: Sample | None = None
    wrong: Wrong | None = None
    told: dict[tuple[object, ...], Reading] = field(init=False, default_factory=dict, compare=False)
    kept: dict[tuple[object, ...], Any] = field(init=False, default_factory=dict, compare=False)

    @cached_property
    def drawn(self) -> Sample:
        """All true sizes, one value a draw."""
        return self._off(self.sampled or sample(self.rebuild, Luck(self.count)))

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
        return self._off(sample(self.rebuild, NoLuck()))

    def side_by_side(self, count: int) -> Sample:
        """All sizes as typed, in so many draws beside each other."""
        key = ("side by side", count)
        if key not in self.kept:
            self.kept[key] = self._off(sample(self.rebuild, NoLuck(count)))
        found: Sample = self.kept[key]
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
            packs=self._fitted(nominal, meant),
            assumed=self.assumed,
            extra={**self._extra(nominal), **(extra or {})},
            state=state,
        )

    def true(self, asked: Check | Need, packs: Packs, *, state: str | None = None) -> Reading:
        """Say what may truly be found, packs made with their error [m], shape (n,)."""
        return predict(
            self.rebuild,
            asked,
            self.drawn,
            packs=self._fitted(self.drawn, self.made(packs)),
            assumed=self.assumed,
            extra=self._extra(self.drawn),
            state=state,
        )

    def with_fitted(self, packs: Packs) -> Packs:
        """Take what is fitted, or nothing, for a setting that is not among the packs."""
        settings = self.rebuild.settings.items()
        fitted = {part: metres(s.fitted) if s.fitted else 0.0 for part, s in settings}
        return {**fitted, **packs}

    def made(self, packs: Packs) -> Thick:
        """Make packs: whole and nipped each is as thick as meant but for the error of measuring."""
        rebuild, draws = self.rebuild, self.drawn.draws
        return {
            part: making_error(draws, part, rebuild.settings.get(part), made_by(rebuild, part))
            + thickness
            for part, thickness in self.with_fitted(packs).items()
        }

    def _off(self, drawn: Sample) -> Sample:
        """Change the sizes that are not what they were meant to be."""
        for key, amount in (self.wrong.sizes if self.wrong else {}).items():
            if key in drawn.sizes:
                drawn = drawn.with_size(self.rebuild, key, drawn.sizes[key] + amount(drawn.draws))
        return drawn

    def _extra(self, drawn: Sample) -> dict[str, Array]:
        """Say what lies there besides."""
        return {
            n: more(drawn.draws) for n, more in (self.wrong.extra if self.wrong else {}).items()
        }

    def _fitted(self, drawn: Sample, meant: Thick) -> Thick:
        """Say what is fitted where that was meant."""
        if self.wrong is None or self.wrong.thick is None:
            return meant
        return {**meant, **self.wrong.thick(drawn, meant)}
