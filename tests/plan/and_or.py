"""All ways to take a product apart by splitting it, counted over connected groups."""

from collections.abc import Callable, Iterable
from functools import cache
from math import comb

from dryfit.plan.masks import bits

Allowed = Callable[[int, int], bool]


class Splits:
    """A product whose groups are split in two, both halves connected, one moving off the other."""

    def __init__(
        self,
        stops: tuple[list[int], list[int]],
        contacts: Iterable[tuple[int, int]],
        allowed: Allowed = lambda _a, _b: True,
    ) -> None:
        self.stops, self.allowed = stops, allowed
        self.full = (1 << len(stops[0])) - 1
        self.beside = [0] * len(stops[0])
        for a, b in contacts:
            self.beside[a] |= 1 << b
            self.beside[b] |= 1 << a
        self.splits = cache(self._splits)

    def connected(self, group: int) -> bool:
        """Tell whether a group hangs together."""
        seen = group & -group
        while True:
            more = seen
            for n in bits(seen):
                more |= self.beside[n] & group
            if more == seen:
                return seen == group
            seen = more

    def _splits(self, group: int) -> list[tuple[int, int]]:
        low = group & -group
        rest, found = group ^ low, []
        other = rest
        while other:
            one = group ^ other
            if self.connected(one) and self.connected(other) and self.allowed(one, other):
                ways = [self.stopped(side, one, other) for side in (0, 1)]
                if not all(ways):
                    found.append((one, other))
            other = (other - 1) & rest
        return found

    def stopped(self, side: int, one: int, other: int) -> bool:
        """Tell whether a group cannot leave another one way."""
        return any(self.stops[side][n] & other for n in bits(one))

    def graph(self) -> tuple[int, int]:
        """Count nodes and hyperarcs of the AND/OR graph that some complete plan uses."""

        @cache
        def works(group: int) -> bool:
            if not group & (group - 1):
                return True
            return any(works(a) and works(b) for a, b in self.splits(group))

        nodes, arcs, waiting = set(), 0, [self.full]
        while waiting:
            group = waiting.pop()
            if group not in nodes:
                nodes.add(group)
                for a, b in self.splits(group) if group & (group - 1) else []:
                    if works(a) and works(b):
                        arcs += 1
                        waiting += [a, b]
        return len(nodes), arcs

    def trees(self) -> int:
        """Count complete plans as trees."""

        @cache
        def count(group: int) -> int:
            if not group & (group - 1):
                return 1
            return sum(count(a) * count(b) for a, b in self.splits(group))

        return count(self.full)

    def sequences(self) -> int:
        """Count orders of all joins, work on different groups mixed in any way."""

        @cache
        def count(group: int) -> int:
            if not group & (group - 1):
                return 1
            size = group.bit_count()
            return sum(
                count(a) * count(b) * comb(size - 2, a.bit_count() - 1)
                for a, b in self.splits(group)
            )

        return count(self.full)
