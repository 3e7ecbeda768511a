"""A unit with one thing wrong in it, as every check and need then has it.

Each thing that may be wrong is looked at with all sizes as typed, a little of it where it has an
amount, and in a few draws, with as much of it as there may be. Both are asked at once, and those
that only add to lengths all beside each other.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

import numpy as np

from dryfit.ask.asking import Amount, Asking, Packs, Wrong
from dryfit.ask.changes import thickness
from dryfit.ask.slopes import STEP
from dryfit.ask.variants import Variant, variants
from dryfit.model.rebuild import Check, Need
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.luck import Array, Draws, Joined, Luck, NoLuck, full
from dryfit.solve.predict import Reading, lines_of
from dryfit.solve.sample import sample

LOOKS = 200
"""Draws with which each thing wrong is looked at."""

Asked = Check | Need
Seen = Reading | NoAnswer


def by_little(variant: Variant) -> bool:
    """Tell what is looked at by a little of it; the rest is looked at whole."""
    return bool(variant.between or variant.steps) and not variant.jumps


@dataclass(frozen=True)
class _Look:
    """Some draws of a unit, and what was found in them.

    Attributes
    ----------
    unit
        The unit with nothing wrong.
    packs
        Thickness of each setting, one value or one a draw [m].
    typed
        Whether the first draw has all sizes as typed.
    seen
        What each question found with each thing wrong, by its name; nothing wrong has none.
    changed
        The unit with each thing wrong, by its name.
    begun
        What was asked of all that can be asked beside each other.
    lots
        Units with each of many things wrong, lot after lot, by the names of these.
    """

    unit: Asking
    packs: Packs
    typed: bool
    seen: dict[tuple[Asked, str], Seen] = field(default_factory=dict)
    changed: dict[str, Asking] = field(default_factory=dict)
    begun: set[Asked] = field(default_factory=set)
    lots: dict[tuple[str, ...], Asking] = field(default_factory=dict)

    def find(self, asked: Asked, variant: Variant | None, beside: Sequence[Variant]) -> Seen:
        """Ask; when it is asked for the first time, of all that can be asked beside each other."""
        name = variant.name if variant else ""
        if asked not in self.begun and (variant is None or self._adds(variant)):
            self.begun.add(asked)
            self.seen.update(self._side_by_side(asked, [one for one in beside if self._adds(one)]))
        if (asked, name) not in self.seen:
            self.seen[asked, name] = self._alone(asked, variant)
        return self.seen[asked, name]

    def _alone(self, asked: Asked, variant: Variant | None) -> Seen:
        try:
            return (self._wrong(variant) if variant else self.unit).true(asked, self.packs)
        except NoAnswer as why:
            return why

    def _wrong(self, variant: Variant) -> Asking:
        if variant.name not in self.changed:
            self.changed[variant.name] = variant.change(self.unit, self._amount(variant))
        return self.changed[variant.name]

    def _adds(self, variant: Variant) -> bool:
        """Tell what adds to lengths alone, and leaves the unit itself as it is."""
        return self._wrong(variant).rebuild is self.unit.rebuild and not variant.jumps

    def _amount(self, variant: Variant) -> Amount:
        """As it may be in each draw; a little where all is as typed."""

        def amount(draws: Draws) -> Array:
            drawn = variant.amounts(draws)
            if self.typed and by_little(variant):
                drawn = np.concatenate([[STEP], drawn[1:]])
            return drawn

        return amount

    def _side_by_side(
        self, asked: Asked, adding: Sequence[Variant]
    ) -> dict[tuple[Asked, str], Seen]:
        """Ask for nothing wrong and for many things at once; nothing if one has no answer."""
        names = ("", *(one.name for one in adding))
        if names not in self.lots:
            self.lots[names] = self._beside(adding)
        try:
            found = self.lots[names].true(asked, {})
        except NoAnswer:
            return {}
        here = self.unit.count
        return {
            (asked, name): _cut(found, slice(n * here, (n + 1) * here))
            for n, name in enumerate(names)
        }

    def _beside(self, adding: Sequence[Variant]) -> Asking:
        """Put nothing wrong, and then each thing alone, into as many lots of the same draws."""
        drawn, made = self.unit.drawn, self.unit.made(self.packs)
        here, lots = self.unit.count, 1 + len(adding)
        many = drawn.beside(lots)
        sizes = {**many.sizes}
        extra: dict[str, Array] = {}
        thick = {part: np.tile(pack, lots) for part, pack in made.items()}
        for n, variant in enumerate(adding, start=1):
            mine = slice(n * here, (n + 1) * here)
            wrong: Any = self._wrong(variant).wrong
            for name, more in wrong.extra.items():
                extra.setdefault(name, np.zeros(lots * here))[mine] += more(drawn.draws)
            for key, more in wrong.sizes.items():
                sizes[key][mine] += more(drawn.draws)
            for part, pack in (wrong.thick(drawn, made) if wrong.thick else {}).items():
                was = thickness(drawn, made, part)
                thick.setdefault(part, np.tile(pack if was is None else was, lots))[mine] = pack
        amounts = {name: _given(more) for name, more in extra.items()}
        wrong = Wrong(amounts, thick=lambda _, __: thick)
        return replace(
            self.unit, count=lots * here, sampled=replace(many, sizes=sizes), wrong=wrong
        )


def _given(more: Array) -> Amount:
    return lambda _: more


def _cut(found: Reading, which: slice) -> Reading:
    return replace(found, true=found.true[which], shown=found.shown[which])


@dataclass(frozen=True)
class Looks:
    """All that may be wrong with a unit, to be looked at.

    Attributes
    ----------
    asking
        The unit.
    packs
        Thickness of each setting as typed [m].
    meant
        Thickness in the few draws, one value or one a draw, of which the first `LOOKS` count [m];
        None where only what is typed is looked at.
    as_made
        What may be wrong with how settings are made that are still open.
    """

    asking: Asking
    packs: Packs
    meant: Packs | None = None
    as_made: tuple[Variant, ...] = ()
    _near: dict[tuple[str, str], frozenset[str]] = field(
        default_factory=dict, init=False, compare=False
    )

    @cached_property
    def variants(self) -> tuple[Variant, ...]:
        """What may be wrong with the unit itself."""
        return tuple(one for one in variants(self.asking) if not one.reading)

    def typed(self, asked: Asked, variant: Variant | None = None) -> Reading:
        """Say what is found as typed, with one thing wrong.

        Raises `NoAnswer` where nothing stops a part, or what is asked is not there.
        """
        return self._find(asked, variant, slice(1))

    def drawn(self, asked: Asked, variant: Variant | None = None) -> Reading:
        """Say what is found in the few draws, in the same way."""
        return self._find(asked, variant, slice(1, None))

    def bears_on(self, asked: Any, variant: Variant) -> bool:
        """Tell whether a part lies in a line of what is asked, or is what is asked for."""
        key = (asked.kind, asked.name)
        if key not in self._near:
            lines = lines_of(self.asking.rebuild, asked)
            stacks = [stack for line in lines for stack in line.stacks]
            self._near[key] = frozenset(s.part for stack in stacks for s in stack.spots)
        return not self._near[key].isdisjoint(variant.parts)

    def _find(self, asked: Asked, variant: Variant | None, which: slice) -> Reading:
        every = (*self.variants, *self.as_made)
        here = [one for one in every if self.bears_on(asked, one)]
        variant = variant if variant in here else None
        found = self._both.find(asked, variant, here)
        if isinstance(found, Reading):
            return _cut(found, which)
        if found.open_end:
            raise found
        alone = self._as_typed if which.start is None else self._as_drawn
        found = alone.find(asked, variant, here)
        if isinstance(found, NoAnswer):
            raise found
        return found

    @cached_property
    def _both(self) -> _Look:
        return self._as_typed if self.meant is None else self._look(NoLuck(), Luck(LOOKS))

    @cached_property
    def _as_typed(self) -> _Look:
        return self._look(NoLuck())

    @cached_property
    def _as_drawn(self) -> _Look:
        return self._look(Luck(LOOKS))

    def _look(self, *parts: NoLuck | Luck) -> _Look:
        draws = Joined(parts)
        drawn = sample(self.asking.rebuild, draws)
        unit = replace(self.asking, count=draws.count, sampled=drawn)
        each = [self._packs(part) for part in parts]
        packs = {name: np.concatenate([one[name] for one in each]) for name in each[0]}
        return _Look(unit, packs, isinstance(parts[0], NoLuck))

    def _packs(self, draws: NoLuck | Luck) -> dict[str, Array]:
        """Give the packs of some draws, one value a draw."""
        given = self.packs if isinstance(draws, NoLuck) else self.meant or {}
        packs = self.asking.with_fitted(given).items()
        return {
            part: t[: draws.count] if isinstance(t, np.ndarray) else full(draws, t)
            for part, t in packs
        }
