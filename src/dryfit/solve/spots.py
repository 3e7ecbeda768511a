"""Where the spots of each part lie, from the sizes between them.

Sizes that tie the spots of a part together without a loop add up; where more sizes than needed
were typed the loops are told, and the offsets are the least-squares ones. A size that is not
known, or that nobody thought of, stands in with nothing or with what the caller assumes.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from dryfit.model.rebuild import FIRST_END, LAST_END, Between
from dryfit.model.spots import Spot
from dryfit.quantities import NotKnown
from dryfit.solve.luck import Array, Draws, full

MISSING = " to "
_NOT_TYPED = NotKnown("")


@dataclass(frozen=True, slots=True)
class Loop:
    """Sizes that contradict each other unless they close.

    Attributes
    ----------
    keys
        The size that closes the loop, then those it is compared with [keys]
    gap
        How much longer the first is than the others make it [m], shape (n,)
    """

    keys: tuple[str, ...]
    gap: Array


@dataclass(frozen=True, slots=True)
class Layout:
    """Offsets of the spots of one part from its first spot, in [m], shape (n,) each."""

    offsets: Mapping[str, Array]
    loops: tuple[Loop, ...]
    lacking: frozenset[str]


def lay_out(
    part: str,
    sizes: Iterable[Between],
    *,
    used: Iterable[str],
    values: Mapping[str, Array],
    doubts: Mapping[str, float],
    draws: Draws,
    assumed: Mapping[str, float],
) -> Layout:
    """Place the spots of one part along its line.

    Parameters
    ----------
    part
        Its name [text]
    sizes
        The sizes between its spots [sizes]
    used
        Spots that some stack or check names [text]
    values
        True sizes by key; a key that is absent is not known [m], shape (n,)
    doubts
        Standard uncertainty of each known size, the weights in a loop [m]
    draws
        For the count [draws]
    assumed
        Values for what is not known, by key; 0 where there is none [m]

    Returns
    -------
    layout
        Offsets, loops, and the keys of sizes that are lacking [m]

    Valid
    -----
    Any sizes; a loop that does not close is told, not mended.

    Source
    ------
    Least squares in loops: JCGM 100:2008, H.3 (method).

    Examples
    --------
    >>> from dryfit.solve.luck import NoLuck, as_array
    >>> from dryfit.quantities import read_size
    >>> a = Between("s.a to s.b", Spot("s", "a"), Spot("s", "b"), read_size("5", "mm"))
    >>> layout = lay_out("s", [a], used=["a", "b"], values={a.key: as_array([0.005])},
    ...                  doubts={}, draws=NoLuck(), assumed={})
    >>> layout.offsets["b"]
    array([0.005])
    """
    ordered = sorted(sizes, key=lambda size: size.key)
    names = sorted({*used, *(s.start.name for s in ordered), *(s.end.name for s in ordered)})
    known = [size for size in ordered if size.key in values]
    tree, extra = _forest(known)
    unknown = [size for size in ordered if size.key not in values]
    bridges, _ = _forest(unknown, joined=tree)
    implied = _implied(part, names, [*tree, *bridges])
    stand_in = {s.key: full(draws, assumed.get(s.key, 0.0)) for s in [*bridges, *implied]}
    ties = [*tree, *bridges, *implied]
    offsets = _walk(names, ties, {**stand_in, **{k: values[k] for k in (s.key for s in known)}})
    loops = tuple(_loop(size, tree, offsets, values) for size in extra)
    if extra:
        every = [*known, *bridges, *implied]
        offsets = _least_squares(names, every, {**stand_in, **values}, doubts)
    return Layout(offsets, loops, frozenset(stand_in))


Tie = Between


def _forest(sizes: list[Tie], joined: list[Tie] | None = None) -> tuple[list[Tie], list[Tie]]:
    """Part sizes into those that tie new spots together and those that close a loop."""
    group: dict[str, str] = {}

    def root(name: str) -> str:
        while group.get(name, name) != name:
            name = group[name]
        return name

    tree: list[Tie] = []
    extra: list[Tie] = []
    for size in [*(joined or []), *sizes]:
        a, b = root(size.start.name), root(size.end.name)
        (extra if a == b else tree).append(size)
        group[a] = b
    before = len(joined or [])
    return tree[before:], extra


def _implied(part: str, names: list[str], ties: list[Tie]) -> list[Tie]:
    """Name the sizes that nobody typed but without which the spots hang loose."""
    implied: list[Tie] = []
    for name in names[1:]:
        a, b = Spot(part, names[0]), Spot(part, name)
        key = part if {a.name, b.name} == {FIRST_END, LAST_END} else f"{a}{MISSING}{b}"
        size = Between(key, a, b, _NOT_TYPED)
        if _forest([size], joined=[*ties, *implied])[0]:
            implied.append(size)
    return implied


def _walk(names: list[str], ties: list[Tie], values: Mapping[str, Array]) -> dict[str, Array]:
    """Add up sizes from the first spot to all others."""
    if not names:
        return {}
    count = len(next(iter(values.values()))) if values else 1
    offsets: dict[str, Array] = {names[0]: np.zeros(count)}
    left = list(ties)
    while left:
        size = next(s for s in left if s.start.name in offsets or s.end.name in offsets)
        left.remove(size)
        if size.start.name in offsets:
            offsets[size.end.name] = offsets[size.start.name] + values[size.key]
        else:
            offsets[size.start.name] = offsets[size.end.name] - values[size.key]
    return offsets


def _loop(
    size: Tie, tree: list[Tie], offsets: Mapping[str, Array], values: Mapping[str, Array]
) -> Loop:
    """Compare one size with what the others make of it."""
    path = _path(size.start.name, size.end.name, tree)
    gap = values[size.key] - (offsets[size.end.name] - offsets[size.start.name])
    return Loop((size.key, *path), gap)


def _path(start: str, end: str, tree: list[Tie]) -> tuple[str, ...]:
    """Find the sizes that lead from one spot to another."""
    reached: dict[str, tuple[str, ...]] = {start: ()}
    while end not in reached:
        for size in tree:
            a, b = size.start.name, size.end.name
            if (a in reached) != (b in reached):
                here, there = (a, b) if a in reached else (b, a)
                reached[there] = (*reached[here], size.key)
    return reached[end]


def _least_squares(
    names: list[str], ties: list[Tie], values: Mapping[str, Array], doubts: Mapping[str, float]
) -> dict[str, Array]:
    """Place the spots so that all sizes are met as well as their doubts allow."""
    column = {name: i for i, name in enumerate(names[1:])}
    design = np.zeros((len(ties), len(column)))
    for row, size in enumerate(ties):
        for name, sign in ((size.start.name, -1.0), (size.end.name, 1.0)):
            if name in column:
                design[row, column[name]] = sign
    read = np.array([values[size.key] for size in ties])
    weight = 1 / np.array([max(doubts.get(size.key, 1.0), 1e-9) for size in ties])
    solved = np.linalg.pinv(design * weight[:, None]) @ (read * weight[:, None])
    return {names[0]: np.zeros(read.shape[1]), **{n: solved[i] for n, i in column.items()}}
