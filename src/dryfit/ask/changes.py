"""What a mistake changes of a unit: the few ways in which one is put to the model.

Dirt and the like lies there besides; a pack or spacer is as thick as something else; a part is
left out of every state; a part is another one, or is off; parts are warm. True sizes and draws of
all else stay as they are, and what was worked out of them is kept.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

import numpy as np

from dryfit.ask.asking import Amount, Asking, Thick, Wrong
from dryfit.ask.variant import Change
from dryfit.model.parts import Bearing, Part
from dryfit.model.rebuild import BUILT, HOT, Rebuild, State
from dryfit.quantities import Quantity
from dryfit.solve.luck import Array, Exchanged
from dryfit.solve.sample import Sample
from dryfit.solve.states import FROM_USE, states_of

PLACE = ("on", "in_", "seat", "pocket", "pressed_with", "fitted_hot_by", "stops")
"""What belongs to the place of a bearing and not to the bearing that is in it."""

Thickness = Callable[[Array, Array], Array]
"""Thickness of a part as it is, from that which was meant and the amount of the mistake [m]."""


def besides(asking: Asking, extra: Mapping[str, Amount]) -> Asking:
    """Put something under a part or on a face besides."""
    was = asking.wrong or Wrong()
    both = {name: _sum(was.extra.get(name), more) for name, more in extra.items()}
    wrong = replace(was, extra={**was.extra, **both})
    return replace(asking, sampled=_drawn(asking), wrong=wrong)


def off(asking: Asking, sizes: Mapping[str, Amount]) -> Asking:
    """Add something to sizes between spots."""
    was = asking.wrong or Wrong()
    both = {key: _sum(was.sizes.get(key), more) for key, more in sizes.items()}
    wrong = replace(was, sizes={**was.sizes, **both})
    return replace(asking, sampled=_drawn(asking), wrong=wrong)


def _sum(one: Amount | None, other: Amount) -> Amount:
    return other if one is None else lambda draws: one(draws) + other(draws)


def as_thick(asking: Asking, thick: Callable[[Sample, Thick], Thick]) -> Asking:
    """Make something as thick as something else."""
    was = asking.wrong or Wrong()
    first = was.thick

    def both(drawn: Sample, meant: Thick) -> Thick:
        before = {**meant, **first(drawn, meant)} if first else meant
        return {**before, **thick(drawn, before)}

    return replace(asking, sampled=_drawn(asking), wrong=replace(was, thick=both))


def _drawn(asking: Asking) -> Sample:
    """Keep what was worked out, before any size is off: that is put on each time."""
    return asking.sampled or asking.drawn


def thickness(drawn: Sample, meant: Thick, part: str) -> Array | None:
    """Find how thick a part is that lies between two faces."""
    for group in (meant, drawn.nipped, drawn.sizes):
        if part in group:
            return group[part]
    return None


def dirt(name: str, sign: float = 1.0) -> Change:
    """Give the change by which something lies under a part or on a face, or a nut stands back."""
    return lambda asking, amount: besides(asking, {name: lambda draws: sign * amount(draws)})


def made(part: str, how: Thickness) -> Change:
    """Give the change by which a part is as thick as `how` says."""

    def change(asking: Asking, amount: Amount) -> Asking:
        def thick(drawn: Sample, meant: Thick) -> Thick:
            was = thickness(drawn, meant, part)
            return {} if was is None else {part: how(was, amount(drawn.draws))}

        return as_thick(asking, thick)

    return change


def exchanged(one: str, other: str) -> Change:
    """Give the change by which two distance pieces lie in each other's place."""

    def thick(drawn: Sample, meant: Thick) -> Thick:
        first, second = (thickness(drawn, meant, part) for part in (one, other))
        return {} if first is None or second is None else {one: second, other: first}

    return lambda asking, _: as_thick(asking, thick)


def no_longer_there(part: str) -> Change:
    """Give the change by which a part is left out of every state."""

    def change(asking: Asking, _: Amount) -> Asking:
        def state(was: State) -> State:
            return replace(was, left_out=(*was.left_out, part))

        return in_states(asking, states_of(asking.rebuild), state)

    return change


def in_states(asking: Asking, names: Iterable[str], changed: Callable[[State], State]) -> Asking:
    """Change states; those that every unit has are written out."""
    own = asking.rebuild.states
    usual = {BUILT: State(BUILT), HOT: State(HOT, from_=FROM_USE)}
    states = {name: changed(own[name] if name in own else usual[name]) for name in names}
    rebuild = replace(asking.rebuild, states={**own, **states})
    return replace(asking, rebuild=rebuild, sampled=_drawn(asking))


def other_parts(asking: Asking, parts: Mapping[str, Part], sample: Sample | None = None) -> Asking:
    """Fit other parts than those that were meant; nothing is kept of those."""
    rebuild = replace(asking.rebuild, parts={**asking.rebuild.parts, **parts})
    drawn = sample or _drawn(asking).without(*parts)
    return replace(asking, rebuild=rebuild, sampled=drawn)


def another(part: str, how: Callable[[Rebuild, Any], Any]) -> Change:
    """Give the change by which a part is another one."""
    return lambda asking, _: other_parts(
        asking, {part: how(asking.rebuild, asking.rebuild.parts[part])}
    )


def bearings_exchanged(one: str, other: str) -> Change:
    """Give the change by which two bearings sit in each other's place, each facing as it should."""

    def change(asking: Asking, _: Amount) -> Asking:
        parts = asking.rebuild.parts
        found = {one: _moved(parts[other], parts[one]), other: _moved(parts[one], parts[other])}
        drawn = _drawn(asking)
        luck = drawn.draws
        draws = Exchanged(luck, one, other, frozenset(PLACE))
        return other_parts(asking, found, drawn.without(one, other, draws=draws))

    return change


def _moved(bearing: Any, place: Any) -> Any:
    """Put a bearing in the place of another."""
    stays = {key: getattr(place, key) for key in PLACE if hasattr(place, key)}
    return replace(bearing, name=place.name, **stays)


def interchangeable(one: Bearing, other: Bearing) -> bool:
    """Tell two bearings that go into each other's place and are not the same all the same."""
    alike = type(one) is type(other) and (one.bore, one.outside) == (other.bore, other.outside)
    return alike and _moved(one, other) != other


def warmed(parts: Iterable[str], rise: float, spread: float) -> Change:
    """Give the change by which parts are warmer than the room, where no state says how warm.

    The rise in [K], and two standard deviations of it.
    """
    names = tuple(parts)
    warm = Quantity(
        f"{rise:g} +/- {spread:g} K",
        "temperature difference",
        Fraction(rise),
        "K",
        None,
        Fraction(spread),
        Fraction(spread),
    )

    def state(was: State) -> State:
        return replace(
            was, warmer_than_room={**dict.fromkeys(names, warm), **(was.warmer_than_room or {})}
        )

    return lambda asking, _: in_states(asking, states_of(asking.rebuild), state)


def further(sizes: Mapping[str, float]) -> Change:
    """Give the change by which sizes between spots are longer by the amount, or minus it."""

    def by(sign: float, amount: Amount) -> Amount:
        return lambda draws: sign * amount(draws)

    return lambda asking, amount: off(asking, {key: by(s, amount) for key, s in sizes.items()})


def less_one(was: Array, amount: Array) -> Array:
    """Take a shim out of a pack, as far as there is one."""
    left: Array = np.maximum(was - amount, 0.0)
    return left


def apart(mesh: str, sign: float) -> Change:
    """Give the change by which the shafts of a mesh stand further apart, as by a shim."""

    def change(asking: Asking, amount: Amount) -> Asking:
        own: Any = asking.rebuild.meshes[mesh]
        pack = own.centre_shims or f"{mesh}: what its centres are off"

        def thick(drawn: Sample, meant: Thick) -> Thick:
            return {pack: meant.get(pack, 0.0) + sign * amount(drawn.draws)}

        meshes = {**asking.rebuild.meshes, mesh: replace(own, centre_shims=pack)}
        rebuild = replace(asking.rebuild, meshes=meshes)
        return as_thick(replace(asking, rebuild=rebuild, sampled=_drawn(asking)), thick)

    return change
