"""Volume, weight, overlap, and what is seen along the axis."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from dryfit.quantities import Finding
from dryfit.shape.cells import Cell, Guess, Solid, What

STEEL = 7850.0
"""Density that is taken where none is told [kg/m^3]: common practice."""

GRAVITY = 9.80665
"""Standard gravity [m/s^2]: CGPM 1901, resolution 2 (from memory)."""

ENDWAYS, ACROSS = 0.05, 0.25
"""Overlaps no greater than this are nip and press fits [mm]: estimate."""


def weight(solid: Solid, density: float = STEEL) -> float:
    """Weight of a part [N] from the density of what it is made of [kg/m^3]."""
    return solid.volume * 1e-9 * density * GRAVITY


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two parts in one place.

    Attributes
    ----------
    one, other
        Their names.
    endways, across
        By how much, along the axis and across it [mm].
    """

    one: str
    other: str
    endways: float
    across: float

    @property
    def amount(self) -> float:
        """By how much one would have to give way [mm]."""
        return min(self.endways, self.across)


def overlaps(solids: Sequence[Solid]) -> tuple[Overlap, ...]:
    """List parts that are in each other's place, by sizes that are known; the worst of each two."""
    found = []
    for one, other in combinations(solids, 2):
        pairs = [_overlap(one, other, a, b) for a in one.laid for b in other.laid]
        worst = max((p for p in pairs if p), key=lambda p: p.amount, default=None)
        if worst:
            found.append(worst)
    return tuple(found)


def _overlap(one: Solid, other: Solid, a: Cell, b: Cell) -> Overlap | None:
    """Put two cells together; sides that are estimates, and keys in their ways, prove nothing."""
    first, last = max(a.first, b.first), min(a.last, b.last)
    if last - first <= ENDWAYS:
        return None
    middle = (first + last) / 2
    (low_a, high_a), (low_b, high_b) = a.radii(middle), b.radii(middle)
    low, high = max(low_a, low_b), min(high_a, high_b)
    if high - low <= ACROSS or not (_sure(a) and _sure(b)):
        return None
    return Overlap(one.part, other.part, last - first, high - low)


def _sure(cell: Cell) -> bool:
    return cell.guess is Guess.NONE and cell.what is not What.KEY


def overlap_findings(solids: Sequence[Solid]) -> tuple[Finding, ...]:
    """Tell overlaps as findings, with names and amount."""
    return tuple(
        Finding(
            "shape.overlap",
            ("parts", lap.one),
            f"'{lap.one}' and '{lap.other}' are in one place: {lap.endways:.2f} mm endways and "
            f"{lap.across:.2f} mm across",
            f"look for a slip in a diameter or length of '{lap.one}' or '{lap.other}'",
            "note",
        )
        for lap in overlaps(solids)
    )


@dataclass(frozen=True, slots=True)
class Seen:
    """A part that is seen along the axis from an end, between two radii [mm]."""

    part: str
    inner: float
    outer: float


def seen_from_end(solids: Iterable[Solid], *, first: bool) -> tuple[Seen, ...]:
    """List what is seen from an end of the line, from the axis outwards."""
    cells = [(solid.part, cell) for solid in solids for cell in solid.laid]
    steps = sorted({r for _, cell in cells for r in (*cell.inner, *cell.outer)})
    found: list[Seen] = []
    for low, high in pairwise(steps):
        name = _nearest(cells, (low + high) / 2, first=first)
        if name and found and found[-1].part == name and found[-1].outer == low:
            found[-1] = Seen(name, found[-1].inner, high)
        elif name:
            found.append(Seen(name, low, high))
    return tuple(found)


def _nearest(cells: Iterable[tuple[str, Cell]], radius: float, *, first: bool) -> str | None:
    """Name the part that is met first at a radius."""
    met = [
        (cell.first if first else -cell.last, name)
        for name, cell in cells
        if min(cell.inner) <= radius <= max(cell.outer)
    ]
    return min(met)[1] if met else None


def heaviest(
    solids: Iterable[Solid], densities: Mapping[str, float]
) -> tuple[tuple[str, float], ...]:
    """List parts by weight [N], the heaviest first; density by part [kg/m^3], steel where none."""
    weights = [(s.part, weight(s, densities.get(s.part, STEEL))) for s in solids]
    return tuple(sorted(weights, key=lambda pair: -pair[1]))
