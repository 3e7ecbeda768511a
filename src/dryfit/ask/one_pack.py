"""Wants that each could be met alone, but not by one pack: which thickness each asks for."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import combinations
from math import inf

from dryfit.ask.asking import Asking
from dryfit.ask.settings import ideal, moved_by
from dryfit.ask.slopes import lacking
from dryfit.ask.targets import Target, targets
from dryfit.model.rebuild import Rebuild
from dryfit.quantities import Finding
from dryfit.solve.benchtop import NoAnswer
from dryfit.solve.sizes import metres
from dryfit.solve.spelled import spelled

LEAST_APART = 1e-6
"""Windows of thickness no further apart are taken to meet [m]."""

Window = tuple[float, float]
"""Thinnest and thickest pack with which a need is met, as all is typed [m]."""


def no_one_pack(asking: Asking) -> Iterator[Finding]:
    """Find pairs of needs that hang on one pack alone and ask for different ones.

    Parameters
    ----------
    asking
        A unit in which nothing is wrong [asking]

    Yields
    ------
    finding
        One for each pair [finding]

    Valid
    -----
    Sizes as typed; needs whose sizes are not known, or that cannot be told, are left out.

    Source
    ------
    None needed.

    Examples
    --------
    >>> [*no_one_pack(Asking(Rebuild("mm"), 1))]
    []
    """
    rebuild = asking.rebuild
    wanted = targets(rebuild)
    if len(wanted) < 2 or not rebuild.settings:
        return
    packs = {part: metres(s.fitted) for part, s in rebuild.settings.items() if s.fitted}
    told = [target for target in wanted if _can_be_told(asking, target, packs)]
    movers = {part: _moved_by(asking, told, part, packs) for part in rebuild.settings}
    for first, second in combinations(told, 2):
        parts = {part for part, mine in movers.items() if first in mine or second in mine}
        if len(parts) == 1 and all(t in movers[min(parts)] for t in (first, second)):
            yield from _apart(asking, min(parts), (first, second), packs)


def _can_be_told(asking: Asking, target: Target, packs: Mapping[str, float]) -> bool:
    try:
        return not lacking(asking, target.need, packs)
    except NoAnswer:
        return False


def _moved_by(
    asking: Asking, told: list[Target], part: str, packs: Mapping[str, float]
) -> tuple[Target, ...]:
    try:
        return moved_by(asking, told, part, packs)
    except NoAnswer:
        return ()


def _apart(
    asking: Asking, part: str, pair: tuple[Target, Target], packs: Mapping[str, float]
) -> Iterator[Finding]:
    """Tell two needs whose windows of thickness do not meet."""
    try:
        one, other = (_window(asking, target, part, packs) for target in pair)
    except NoAnswer:
        return
    if max(one[0], other[0]) - min(one[1], other[1]) <= LEAST_APART:
        return
    first, second = (target.need.name for target in pair)
    asked = [_spelled(asking.rebuild, window) for window in (one, other)]
    yield Finding(
        "want.one pack",
        ("needs", second),
        f"no one '{part}' meets both '{first}' and '{second}': as all is typed one asks for "
        f"{asked[0]}, the other for {asked[1]}",
        "widen one of them until the two meet, take one out, or make another part that moves only "
        "one of them a setting too",
        "note",
    )


def _window(asking: Asking, target: Target, part: str, packs: Mapping[str, float]) -> Window:
    """Find the thicknesses with which a need is just met."""
    ends = [
        ideal(asking, [replace(target, low=limit, high=limit)], part, packs)
        for limit in (target.low, target.high)
        if limit is not None
    ]
    if len(ends) == 2:
        return min(ends), max(ends)
    inside = ideal(asking, [target], part, packs)
    return (ends[0], inf) if inside > ends[0] else (-inf, ends[0])


def _spelled(rebuild: Rebuild, window: Window) -> str:
    """Spell a window of thickness."""
    low, high = window
    if high < 0:
        return f"less than nothing, by {spelled(-high, rebuild)}"
    if low == -inf:
        return f"at most {spelled(high, rebuild)}"
    if high == inf:
        return f"at least {spelled(low, rebuild)}"
    return f"{spelled(max(low, 0.0), rebuild)} to {spelled(high, rebuild)}"
