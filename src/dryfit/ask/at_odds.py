"""Wants that no unit can meet: two that exclude each other, and one that nothing answers to."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from math import inf

from dryfit.ask.targets import Target, layout_of, named, targets
from dryfit.ask.uses import Layout
from dryfit.model.rebuild import FloatNeed, LashNeed, Need, NipNeed, PreloadNeed, Rebuild
from dryfit.quantities import Finding
from dryfit.solve.predict import line_of
from dryfit.solve.spelled import spelled

TRAVEL, LASH, NEWTON, WORDS = "travel", "lash", "newton", "words"

Limits = tuple[float, float]


@dataclass(frozen=True)
class _Want:
    """A need's limits in every measure in which they can be held against another's.

    Attributes
    ----------
    target
        What is wanted.
    limits
        By measure: of travel [m], lash [m], preload in newtons [N] or in words [-].
    """

    target: Target
    limits: dict[str, Limits]

    @property
    def about(self) -> tuple[object, ...]:
        """What it is of, and when."""
        need = self.target.need
        held = (getattr(need, which, None) for which in ("on", "pinion", "wheel"))
        return (isinstance(need, LashNeed), named(need), need.state, *held)


def at_odds(rebuild: Rebuild) -> Iterator[Finding]:
    """Find wants that exclude each other, and such as nothing can meet.

    Parameters
    ----------
    rebuild
        The unit [rebuild]

    Yields
    ------
    finding
        One for each pair of needs, and for each need that cannot be met [finding]

    Valid
    -----
    Needs of one part or mesh in one state. What a spring presses may float all the same.

    Source
    ------
    None needed: rows that are pressed together leave no float.

    Examples
    --------
    >>> [*at_odds(Rebuild("mm"))]
    []
    """
    wants = [_want(rebuild, target) for target in targets(rebuild)] if rebuild.needs else []
    for want in wants:
        yield from _without_rows(rebuild, want.target)
        yield from _no_room(want.target)
    for first, second in combinations(wants, 2):
        if first.about == second.about and _exclude(first.limits, second.limits):
            yield _told(rebuild, first.target, second.target)


def _want(rebuild: Rebuild, target: Target) -> _Want:
    """Say in what measures a need can be held against others."""
    need = target.need
    low = -inf if target.low is None else target.low
    high = inf if target.high is None else target.high
    if isinstance(need, LashNeed):
        return _Want(target, {LASH: (low, high)})
    if isinstance(need, NipNeed):  # a nip is a float the other way
        return _Want(target, {TRAVEL: (-high, -low)})
    if not isinstance(need, PreloadNeed):
        return _Want(target, {TRAVEL: (low, high)})
    limits = {WORDS if need.want and need.want.classes else NEWTON: (low, high)}
    if low > 0 and layout_of(rebuild, line_of(rebuild, need)) is not Layout.SPRUNG:
        limits[TRAVEL] = (-inf, 0.0)
    return _Want(target, limits)


def _exclude(one: dict[str, Limits], other: dict[str, Limits]) -> bool:
    """Tell whether in some measure nothing, or one figure alone, lies within both."""
    return any(
        one[measure][0] >= other[measure][1] or one[measure][1] <= other[measure][0]
        for measure in one.keys() & other.keys()
    )


def _told(rebuild: Rebuild, first: Target, second: Target) -> Finding:
    """Say which two exclude each other, why, and the way out."""
    one, other = first.need, second.need
    wanted = " and ".join(f"{_spelled(rebuild, t)} ('{t.need.name}')" for t in (first, second))
    if type(one) is type(other):
        why = f"no {one.kind} is both"
        way = "take one of them out, or widen it until they meet"
    else:
        why = "rows that are pressed together leave no float"
        way = (
            "take one of them out: want a float of what must turn free, a nip or preload of what "
            "must not move; or give one of them the state in which it holds"
        )
    return Finding(
        "want.at odds", _place(other), f"of '{named(other)}' {wanted} are wanted: {why}", way
    )


def _place(need: Need) -> tuple[str, ...]:
    """Say where its limits stand, if it has its own."""
    return ("needs", need.name, *(["want"] if getattr(need, "want", None) else []))


def _spelled(rebuild: Rebuild, target: Target) -> str:
    """Say what is wanted as it was typed, or as it is offered."""
    typed = getattr(target.need, "want", None)
    if typed is not None:
        return f"a {target.need.kind} of {typed.text}"
    if isinstance(target.need, FloatNeed | LashNeed):
        low, high = (spelled(limit or 0.0, rebuild) for limit in (target.low, target.high))
        return f"a {target.need.kind} of {low} to {high}, as the use offers"
    return f"a {target.need.kind}, as the use offers"


def _without_rows(rebuild: Rebuild, target: Target) -> Iterator[Finding]:
    """Tell a preload of what runs in no bearing."""
    need = target.need
    if not isinstance(need, PreloadNeed) or not target.low:
        return
    line = line_of(rebuild, need)
    if layout_of(rebuild, line) is Layout.PLAIN:
        yield Finding(
            "want.no rows",
            _place(need),
            f"{_spelled(rebuild, target)} is wanted of '{need.of}', and in '{line.name}' there is "
            "neither a bearing nor a spring to be pressed",
            "want a float of it; or put its bearings into the stacks of that line",
        )


def _no_room(target: Target) -> Iterator[Finding]:
    """Tell limits that are one figure: nothing made is exact."""
    want = getattr(target.need, "want", None)
    if want is not None and target.low is not None and target.low == target.high:
        yield Finding(
            "want.no room",
            _place(target.need),
            f"'{want.text}' leaves nothing between its limits, and nothing is made exact",
            "say how much more and how much less will do: 0.10 +/- 0.05",
            "note",
        )
