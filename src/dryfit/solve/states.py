"""What is fitted and how warm the parts are in each state of a rebuild."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from hashlib import blake2b

import numpy as np

from dryfit.mechanics.materials import MATERIALS
from dryfit.mechanics.thermal import length_change
from dryfit.model.rebuild import BUILT, HOT, LOCKED, TIGHT, Rebuild
from dryfit.quantities import Quantity, Size
from dryfit.solve.bodies import BODIES, Body, Side, Stands
from dryfit.solve.luck import Array, Draws, full

FROM_USE = "used for"
"""What a state writes behind `from:` to be as warm as the unit runs."""


@dataclass(frozen=True, slots=True)
class Conditions:
    """One state.

    Attributes
    ----------
    left_out
        Parts that are not fitted.
    fitted
        Packs that are not the chosen ones, by part.
    growth
        Factor on all lengths of a warm part, by part [-], shape (n,).
    rises
        How much warmer than the room each part is [K], shape (n,); absent if not at all.
    screws
        How the screws of covers are done up: `tight` or `fingers`.
    nuts
        Whether nuts are `set` and no more, or `locked`.
    """

    left_out: frozenset[str]
    fitted: Mapping[str, Size]
    growth: Mapping[str, Array]
    rises: Mapping[str, Array]
    screws: str = TIGHT
    nuts: str = LOCKED

    @property
    def warmth(self) -> str:
        """The same for states that are as warm, and nothing where all is as warm as the room."""
        return digest(self.growth, self.rises) if self.growth or self.rises else ""


def digest(*groups: Mapping[str, Array], words: str = "") -> str:
    """Tell values from others by a short text.

    Parameters
    ----------
    groups
        Arrays by name [any]
    words
        What else counts [text]

    Returns
    -------
    digest
        The same for the same values [text]

    Valid
    -----
    Any arrays.

    Source
    ------
    BLAKE2: RFC 7693.

    Examples
    --------
    >>> from numpy import ones
    >>> digest({"shaft": ones(2)}) == digest({"case": ones(2)})
    False
    """
    found = blake2b(words.encode(), digest_size=16)
    for group in groups:
        for name, values in sorted(group.items()):
            found.update(name.encode())
            found.update(np.ascontiguousarray(values).tobytes())
    return found.hexdigest()


@dataclass(frozen=True, slots=True)
class Fitted:
    """What is put together and how.

    Attributes
    ----------
    packs
        Thickness of each setting [m], shape (n,) each.
    now
        The state.
    extra
        What lies under a part besides, how far a cover is not home, or how far a nut stands back
        on its thread, by part; or what lies on a face, by its spot (of a bearing, on a ring) [m].
    assumed
        Values for what is not known, by key [m].
    """

    packs: Mapping[str, Array]
    now: Conditions
    extra: Mapping[str, float | Array]
    assumed: Mapping[str, float]

    @property
    def cold(self) -> "Fitted":
        """Give the same with all parts as warm as the room, as it was put together."""
        return replace(self, now=replace(self.now, growth={}, rises={}))


COLD = Conditions(frozenset(), {}, {}, {})
"""All fitted and as warm as the room."""


def conditions(rebuild: Rebuild, state: str, draws: Draws) -> Conditions:
    """Say what holds in a state.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    state
        Name of one of its states, `built` or `hot` [text]
    draws
        Where temperatures and expansions come from [draws]

    Returns
    -------
    conditions
        Parts, packs and growth factors [-], shape (n,) each

    Valid
    -----
    A state that the rebuild has; `hot` needs a temperature in `used for`.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> conditions(Rebuild("mm"), "built", NoLuck()).left_out
    frozenset()
    """
    warm = rises(rebuild, state, draws)
    growth = _growth(rebuild, warm, draws)
    if state not in rebuild.states:
        return Conditions(frozenset(), {}, growth, warm)
    own = rebuild.states[state]
    return Conditions(
        frozenset(own.left_out),
        own.fitted or {},
        growth,
        warm,
        own.cover_screws or TIGHT,
        own.nuts or LOCKED,
    )


def rises(rebuild: Rebuild, state: str, draws: Draws) -> dict[str, Array]:
    """Say how much warmer than the room each part is in a state.

    Parameters
    ----------
    rebuild
        The unit [rebuild]
    state
        Name of one of its states, `built` or `hot` [text]
    draws
        Where temperatures come from [draws]

    Returns
    -------
    rises
        By part; one as warm as the room is absent; what sits on a shaft or in the case alone is as
        warm as that, unless it is named [K], shape (n,) each

    Valid
    -----
    As `conditions`.

    Source
    ------
    None needed.

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck
    >>> rises(Rebuild("mm"), "built", NoLuck())
    {}
    """
    own = rebuild.states.get(state)
    runs = state == HOT if own is None else own.from_ == FROM_USE
    found = _running(rebuild, draws) if runs else {}
    named = {
        part: _kelvin(draws, ("states", state, part), rise)
        for part, rise in ((own and own.warmer_than_room) or {}).items()
    }
    found |= named
    return {**found, **_carried(rebuild, found), **named}


def _carried(rebuild: Rebuild, found: Mapping[str, Array]) -> dict[str, Array]:
    """Make spacers, washers and rings as warm as what they sit on or in.

    That is told by the stack that runs with one shaft alone, or in the case alone.
    """
    warm: dict[str, Array] = {}
    for line in rebuild.lines.values():
        for stack in line.stacks:
            here = [s.part for s in stack.spots if s.part in rebuild.parts]
            hosts = {
                n for n in here if BODIES[rebuild.parts[n].kind].side in (Side.SHAFT, Side.CASE)
            }
            carriers = {
                n for n in hosts if BODIES[rebuild.parts[n].kind].stands is not Stands.THREADED
            }
            if len(carriers) == 1 and (carrier := carriers.pop()) in found:
                warm |= {name: found[carrier] for name in here if _sits(rebuild, name)}
    return warm


def _carries(body: Body) -> bool:
    return body.side is not Side.EITHER and body.stands is not Stands.THREADED


def _sits(rebuild: Rebuild, name: str) -> bool:
    """Tell what is as warm as its host: rings of bearings are told apart elsewhere."""
    body = BODIES[rebuild.parts[name].kind]
    loose = body.stands is Stands.LOOSE and body.side is Side.EITHER and not body.gives
    return loose or body.stands is Stands.THREADED


def states_of(rebuild: Rebuild) -> tuple[str, ...]:
    """List the states that can be asked for.

    Parameters
    ----------
    rebuild
        The unit [rebuild]

    Returns
    -------
    names
        `built`, `hot` where the use says how warm it runs, and the rebuild's own [text]

    Valid
    -----
    Any rebuild.

    Source
    ------
    None needed.

    Examples
    --------
    >>> states_of(Rebuild("mm"))
    ('built',)
    """
    warm = rebuild.used_for is not None and rebuild.used_for.warmer_than_casing is not None
    named = (BUILT, HOT) if warm else (BUILT,)
    return tuple(dict.fromkeys([*named, *rebuild.states]))


def _running(rebuild: Rebuild, draws: Draws) -> dict[str, Array]:
    """Give each part the temperature it runs at, above the room."""
    use = rebuild.used_for
    casing, more = full(draws, 0.0), full(draws, 0.0)
    if use and use.casing_warmer_than_room:
        casing = _kelvin(draws, ("used for", "casing"), use.casing_warmer_than_room)
    if use and use.warmer_than_casing:
        more = _kelvin(draws, ("used for", "shaft"), use.warmer_than_casing)
    return {
        name: casing + more if BODIES[part.kind].floats else casing
        for name, part in rebuild.parts.items()
    }


def _kelvin(draws: Draws, key: tuple[str, ...], rise: Quantity) -> Array:
    """Draw a temperature difference; `+/-` is two standard deviations."""
    value = full(draws, float(rise.value))
    if rise.plus is None or rise.minus is None:
        return value
    return value + float((rise.plus + rise.minus) / 4) * draws.normal(*key)


def _growth(rebuild: Rebuild, rises: Mapping[str, Array], draws: Draws) -> dict[str, Array]:
    """Turn temperatures into factors on length; one metal has one expansion in the whole unit."""
    growth: dict[str, Array] = {}
    for name, rise in rises.items():
        part = rebuild.parts[name]
        metal = part.material or BODIES[part.kind].material
        if metal in MATERIALS:
            row = MATERIALS[metal]
            expansion = row.expansion + row.expansion_spread * draws.flat("materials", metal)
            growth[name] = 1 + length_change(full(draws, 1.0), expansion, rise)
    return growth
