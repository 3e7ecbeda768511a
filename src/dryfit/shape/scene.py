"""What the shapes of a line look at: the rings with their bands, who sits where, what is built."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from dryfit.model.parts import Cartridge, Cover, Nut, Part, Pin
from dryfit.model.rebuild import FIRST_END, LAST_END, Rebuild
from dryfit.model.spots import Spot
from dryfit.quantities import Size
from dryfit.shape.bands import Band, bands_of, inside_stack, is_case, is_shaft, lands_of
from dryfit.shape.cells import Cell, Guess, Solid
from dryfit.shape.gears import Gear
from dryfit.shape.profile import Step
from dryfit.shape.resting import INNER_RING, Resting, owner


@dataclass(frozen=True, slots=True)
class Sitter:
    """A ring that sits on or in a part, from where to where [mm], and its band."""

    body: str
    first: float
    last: float
    band: Band


@dataclass(frozen=True, slots=True)
class Face:
    """A face of a part that another body may touch.

    Attributes
    ----------
    spot, other
        The face, and what it touches.
    at
        Where it lies along the line [mm].
    way
        Towards which end the part's own metal lies behind it: -1 the first, +1 the last.
    """

    spot: Spot
    other: Spot
    at: float
    way: float


@dataclass
class Scene:
    """A line while its shapes are made: each sees those made before it."""

    rebuild: Rebuild
    rest: Resting
    bands: dict[str, Band]
    cells: dict[str, tuple[Cell, ...]] = field(default_factory=dict)
    gears: dict[str, tuple[Gear, ...]] = field(default_factory=dict)

    @property
    def scale(self) -> float:
        """Radius of the largest bore of the line, to measure estimates by [mm]."""
        return max((band.inner for band in self.bands.values()), default=10.0) or 10.0

    def solids(self) -> tuple[Solid, ...]:
        """Give what is built, in the order of the text."""
        return tuple(self._solid(part) for part in self.rebuild.parts if part in self.cells)

    def _solid(self, part: str) -> Solid:
        """Count the cells of a part from its own first spot."""
        cells = self.cells[part]
        spots = self.rest.places.get(part) or self.rest.places.get(part + INNER_RING) or {}
        place = min(spots.values(), default=min(c.first for c in cells))
        ordered = sorted(cells, key=lambda c: (c.piece, c.first))
        kind = self.rebuild.parts[part].kind
        return Solid(part, kind, tuple(c.moved(-place) for c in ordered), place)

    def part(self, body: str) -> Part | None:
        """Give the record of the part a body belongs to."""
        return self.rebuild.parts.get(owner(body))

    def ring_ends(self, body: str) -> tuple[float, float, Guess]:
        """Say where a ring begins and ends, and which end is an estimate."""
        ends = self.rest.ends(body)
        if ends is not None and not isinstance(self.part(body), Nut):
            told = f"{owner(body)}.width" in self.rest.guessed or owner(body) in self.rest.guessed
            return min(ends), max(ends), Guess.LAST if told else Guess.NONE
        spots = self.rest.places[body]
        start = min(spots.values())
        band = self.bands[body]
        thick = 2.0 + 0.22 * band.outer
        if self.looks_back(body):
            return start, start + thick, Guess.LAST
        return start - thick, start, Guess.FIRST

    def looks_back(self, body: str) -> bool:
        """Tell a body whose face looks to the first end from one that looks to the last."""
        return all(touch.before.part != body for touch in self.rest.touches)

    def sitters(self, host: str) -> list[Sitter]:
        """List the rings that sit on or in a part."""
        found = []
        for body, band in self.bands.items():
            if body in self.rest.places and self.host_of(body) == host:
                first, last, _ = self.ring_ends(body)
                found.append(Sitter(body, first, last, band))
        return sorted(found, key=lambda sitter: sitter.first)

    def host_of(self, body: str) -> str | None:
        """Name what a ring sits on or in: as told, else the part of its kind in its stack."""
        if body in self.rest.hosts:
            return self._deeper(body, self.rest.hosts[body])
        side = inside_stack(self.rebuild, self.rest, body)
        if side == "between":
            return None
        wanted = is_shaft if side == "on" else is_case
        for stack in self.rest.stacks:
            bodies = [spot.part for spot in stack]
            if body in bodies:
                own = [name for name in bodies if wanted(self.rebuild.parts.get(name))]
                by_rings = [self.rest.hosts[name] for name in bodies if name in self.rest.hosts]
                by_rings = [name for name in by_rings if wanted(self.rebuild.parts.get(name))]
                host = next(iter([*own, *by_rings]), None)
                return self._deeper(body, host) if host else None
        return None

    def _deeper(self, body: str, host: str) -> str:
        """Name what a ring before the spigot of a cover sits in: what the cover is screwed to."""
        joint = self.joint(host)
        if joint is None or isinstance(self.part(host), Cartridge | Pin):
            return host
        first, last, _ = self.ring_ends(body)
        beyond = joint.way * ((first + last) / 2 - joint.at) > 0
        return host if beyond else self.rest.hosts[host]

    def faces(self, part: str) -> Iterator[Face]:
        """List the faces of a part that something may touch."""
        for touch in self.rest.touches:
            if touch.before.part == part:
                yield Face(touch.before, touch.after, self.rest.at(touch.before), -1.0)
            if touch.after.part == part:
                yield Face(touch.after, touch.before, self.rest.at(touch.after), 1.0)

    def lands(self, part: str, side: str, first: float, last: float) -> list[Step]:
        """Give the typed diameters of a side of a part, as far as their places are known."""
        spots = {FIRST_END: first, LAST_END: last, "": first} | dict(self.rest.places.get(part, {}))
        found = []
        for land in lands_of(self.rebuild, part, side):
            a, b = (spots.get(land.start), spots.get(land.end)) if land.start else (first, last)
            if isinstance(land.size, Size) and a is not None and b is not None:
                found.append(Step(min(a, b), max(a, b), land.size.mm / 2))
        return found

    def joint(self, part: str) -> Face | None:
        """Give the face by which a cover, cartridge or pin stands on what it is screwed to."""
        ends = self.rest.joints.get(part)
        return self._face(ends[1]) if ends else None

    def joint_of(self, guest: str) -> Face | None:
        """Give the face of its host on which something stands."""
        ends = self.rest.joints.get(guest)
        return self._face(ends[0]) if ends else None

    def _face(self, spot: Spot) -> Face | None:
        return next((face for face in self.faces(spot.part) if face.spot == spot), None)

    def guests(self, host: str) -> list[str]:
        """List what is screwed to a part by a joint."""
        mine = [name for name, to in self.rest.hosts.items() if to == host]
        return [name for name in mine if isinstance(self.rebuild.parts.get(name), Cover)]

    def built(self, *without: str) -> Iterator[Cell]:
        """List all cells made so far, but for those of some parts."""
        for name, cells in self.cells.items():
            if name not in without:
                yield from cells

    def reach(self, first: float, last: float, *without: str) -> float:
        """Say how far out what is built reaches between two places [mm]."""
        return max(
            (
                max(cell.outer)
                for cell in self.built(*without)
                if min(cell.last, last) - max(cell.first, first) > 1e-6
            ),
            default=0.0,
        )


def scene_of(rebuild: Rebuild, rest: Resting) -> Scene:
    """Begin a line."""
    return Scene(rebuild, rest, bands_of(rebuild, rest))
