"""Energies of all that gives along a line, and where scipy finds them least.

Nothing here comes from `dryfit.solve`. Each spring lies between two bodies and says what it stores,
how hard it pushes and how stiff it is when they are pressed together by so much. Single rows are
those of `dryfit.mechanics`, which has checks of its own; all the rest is written out here.
Lengths of a drawing are in mm; overlaps and places are in m.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog, minimize, root

from dryfit.mechanics.ball_rows import (
    ball_row,
    ball_row_energy,
    ball_row_under,
    deep_groove_row,
    groove_distance,
)
from dryfit.mechanics.bolts import force_band
from dryfit.mechanics.hertz import contact_constant, contacts_in_line, groove_curvature
from dryfit.mechanics.holders import cover_spring
from dryfit.mechanics.internals import FILLINGS, estimated_internals
from dryfit.mechanics.roller_rows import LINE, taper_row

Vector = NDArray[np.float64]

CASE = "case"
MM, MICRO = 1e-3, 1e-6

STEEL, IRON = 206e9, 118.5e9
"""Young's moduli [Pa]."""

FACE, SOLID = 5e9, 1e9
"""Stiffness of two faces that do not give, and of a spring pressed solid [N/m]."""

HELD = 1e-3
"""Keeps what nothing touches where it was drawn: a tenth of a millimetre off is 1e-7 N [N/m]."""

LEAST = 1e-4
"""A push that is all but none; the flattest row here takes up 3 nm under it both ways [N]."""

SHARP = 1e-5
"""Forces balance to this [N]."""


class Pressed(NamedTuple):
    """What a spring says: energy stored [N m], force [N], stiffness [N/m]."""

    energy: float
    force: float
    stiffness: float


Law = Callable[[float], Pressed]
"""Of the overlap [m]."""


@dataclass(frozen=True)
class Spring:
    """Two bodies that just touch where `after` lies `apart` further along than `before` [mm]."""

    before: str
    after: str
    apart: float
    law: Law
    row: bool = False


def faces(give: float = 0.0) -> Law:
    """Two faces of parts that shorten by `give` [m/N]; they push and never pull."""
    k = 1 / (1 / FACE + give)
    return lambda d: Pressed(k / 2 * d * d, k * d, k) if d > 0 else Pressed(0.0, 0.0, 0.0)


def pull(force: float) -> Law:
    """A thread or screws that pull with the same force [N] wherever they are."""
    return lambda d: Pressed(force * d, force, 0.0)


def spring_washer(rate: float, travel: float) -> Law:
    """A washer that gives evenly until it is solid; `rate` [N/m], `travel` [m]."""

    def law(d: float) -> Pressed:
        s, over = min(max(d, 0.0), travel), max(d - travel, 0.0)
        energy = rate * s * s / 2 + rate * travel * over + SOLID * over * over / 2
        stiffness = SOLID if over > 0 else rate if d > 0 else 0.0
        return Pressed(energy, rate * s + SOLID * over, stiffness)

    return law


class Balls(NamedTuple):
    """What is in a ball bearing that nobody has opened, as the ball row formulas want it."""

    distance: float
    balls: float
    constant: float


def filled(sort: str, size: tuple[float, float, float], angle: float) -> Balls:
    """Estimate what is in a bearing of these sizes [mm] and angle [rad]."""
    filling = FILLINGS[sort]
    ball, pitch, count = estimated_internals(
        *(length * MM for length in size), share=filling.share, first=filling.first, arc=filling.arc
    )
    lean = ball * np.cos(angle) / pitch
    both = (
        contact_constant(*groove_curvature(ball, filling.conformity, sign * lean))
        for sign in (1, -1)
    )
    apart = groove_distance(ball, filling.conformity, filling.conformity)
    return Balls(float(apart), float(count), float(contacts_in_line(*both)))


@dataclass(frozen=True)
class Row:
    """A row of balls that stops one way, with its bearing's bore, outside and width [mm]."""

    size: tuple[float, float, float]
    degrees: float
    sort: str = "angular contact"

    @property
    def inside(self) -> dict[str, float]:
        """What the formulas want."""
        return filled(self.sort, self.size, np.radians(self.degrees))._asdict()

    def proud(self, load: float) -> float:
        """How far the rings come together under a load [N] in mm: what a matched face is ground."""
        found = ball_row_under(load, np.radians(self.degrees), **self.inside)
        return float(found.approach) / MM

    @property
    def law(self) -> Law:
        """Of the approach of its rings."""
        angle, inside = np.radians(self.degrees), self.inside

        def law(d: float) -> Pressed:
            energy = ball_row_energy(d, angle, **inside)
            return Pressed(float(energy), *map(float, ball_row(d, angle, **inside)))

        return law


def deep_groove(size: tuple[float, float, float], play: float) -> Law:
    """A deep groove row, both ways from the middle of its float; `play` [mm] across.

    Energy (2/5) Z K (s - A)^(5/2) with s from y = shift and R = A - play / 2.
    """
    inside = filled("deep groove", size, 0.0)

    def law(d: float) -> Pressed:
        stretched = max(np.hypot(d, inside.distance - play * MM / 2) - inside.distance, 0.0)
        energy = 0.4 * inside.balls * inside.constant * stretched**2.5
        return Pressed(energy, *map(float, deep_groove_row(d, play * MM, **inside._asdict())))

    return law


def taper(size: tuple[float, float, float], degrees: float) -> Law:
    """A taper row: energy Z c L^(8/9) (9/19) (d sin(angle))^(19/9)."""
    filling, angle = FILLINGS["taper"], np.radians(degrees)
    *_, count = estimated_internals(
        *(length * MM for length in size), share=filling.share, first=filling.first, arc=filling.arc
    )
    length = size[2] * MM * filling.length

    def law(d: float) -> Pressed:
        squeezed = max(d * np.sin(angle), 0.0)
        energy = count * LINE * length ** (8 / 9) * 9 / 19 * squeezed ** (19 / 9)
        row = taper_row(d, angle, rollers=count, length=length)
        return Pressed(float(energy), *map(float, row))

    return law


def half(outside: float, inside: float, length: float) -> float:
    """Half of a steel tube's give, diameters and length in mm [m/N]."""
    return length * MM / (STEEL * np.pi / 4 * (outside**2 - inside**2) * MM**2) / 2


def half_rings(size: tuple[float, float, float]) -> tuple[float, float]:
    """Half the give of a bearing's inner and outer ring; walls 0.205 of outside less bore [m/N]."""
    bore, outside, width = size
    wall = 0.205 * (outside - bore)
    return half(bore + 2 * wall, bore, width), half(outside, outside - 2 * wall, width)


def plate(circle: float, spigot: float, thick: float) -> float:
    """How much an iron cover bends between its screws and its spigot, sizes in mm [m/N]."""
    return float(cover_spring(circle * MM, spigot * MM, thick * MM, modulus=IRON).give)


def tightened(torque: float, thread: float, pitch: float) -> float:
    """Pull of a nut on an oiled metric thread [N]: middle of friction 0.08 and 0.16.

    Its face is taken to reach from the thread out to 1.25 of it.
    """
    band = force_band(
        torque, (thread - 0.649519 * pitch) * MM, pitch * MM, face_diameter=1.125 * thread * MM
    )
    return float(band.low + band.high) / 2


@dataclass(frozen=True)
class Drawing:
    """A line by hand: its springs, where each body is drawn [mm], what pushes always [N]."""

    springs: tuple[Spring, ...]
    drawn: Mapping[str, float]
    loads: Mapping[str, float]


@dataclass(frozen=True)
class Rest:
    """A drawing at rest: places [m] from where the case is drawn, and forces of its springs [N]."""

    springs: tuple[Spring, ...]
    places: Mapping[str, float]
    forces: tuple[float, ...]
    energy: float

    def fast(self) -> set[str]:
        """Name the bodies that loaded springs tie to the case: only these have one place."""
        found = {CASE}
        for _ in self.springs:
            for spring, force in zip(self.springs, self.forces, strict=True):
                if abs(force) > 1e-2 and {spring.before, spring.after} & found:
                    found |= {spring.before, spring.after}
        return found

    def overlap(self, spring: Spring) -> float:
        """Say how far two bodies are pressed together [m]."""
        return spring.apart * MM + self.places[spring.before] - self.places[spring.after]

    def nip(self) -> float:
        """Add the most that a row is pressed either way [m]; minus: the play between them."""
        ways = {"in": [-np.inf], "out": [-np.inf]}
        for spring in self.springs:
            if spring.row:
                ways[spring.before.rsplit(" ", 1)[-1]].append(self.overlap(spring))
        return float(sum(max(overlaps) for overlaps in ways.values()))


def at_rest(drawing: Drawing, pushes: Mapping[str, float]) -> Rest:
    """Find where the energy is least, and sharpen that until its slope is nothing."""
    drawn, springs = drawing.drawn, drawing.springs
    names = [name for name in drawn if name != CASE]
    ends = np.zeros((len(springs), len(names)))
    for row, spring in zip(ends, springs, strict=True):
        for name, sign in ((spring.before, 1.0), (spring.after, -1.0)):
            if name != CASE:
                row[names.index(name)] += sign
    offset = np.array([s.apart + drawn[s.before] - drawn[s.after] for s in springs]) * MM
    loads = np.array([drawing.loads.get(n, 0.0) + pushes.get(n, 0.0) for n in names])

    def pressed(x: Vector) -> Vector:
        overlaps = offset + ends @ x * MICRO
        return np.array([s.law(d) for s, d in zip(springs, overlaps, strict=True)])

    def energy(x: Vector) -> float:
        held = HELD / 2 * MICRO * float(x @ x)
        return float(pressed(x)[:, 0].sum() / MICRO + held - loads @ x)

    def slope(x: Vector) -> Vector:
        return np.asarray(ends.T @ pressed(x)[:, 1] + HELD * MICRO * x - loads)

    def curve(x: Vector) -> Vector:
        stiff = ends.T @ (pressed(x)[:, 2:] * ends) + HELD * np.eye(len(names))
        return np.asarray(stiff * MICRO)

    near = minimize(
        energy, 0 * loads, jac=slope, hess=curve, method="trust-exact", options={"gtol": 1e-7}
    )
    x = min((near.x, _sharper(near.x, slope, curve)), key=lambda y: np.abs(slope(y)).max())
    left = np.abs(slope(x)).max()
    assert left < SHARP, f"{left} N out of balance"
    places = {n: drawn[n] * MM + v * MICRO for n, v in zip(names, x, strict=True)}
    forces = tuple(float(force) for force in pressed(x)[:, 1])
    return Rest(springs, places | {CASE: drawn[CASE] * MM}, forces, energy(x) * MICRO)


def _sharper(
    x: Vector, slope: Callable[[Vector], Vector], curve: Callable[[Vector], Vector]
) -> Vector:
    """Follow the slope to nothing from near by."""
    return np.asarray(root(slope, x, jac=curve, method="lm", options={"xtol": 1e-15}).x)


def travel(drawing: Drawing, body: str, push: float) -> float:
    """Say how far a body goes from a push one way to the same push the other way [m]."""
    there, back = (at_rest(drawing, {body: way * push}).places[body] for way in (1, -1))
    return there - back


def room(drawing: Drawing, body: str) -> float:
    """Say how far a body goes as the push goes to nothing: from where a newton takes it [m]."""
    ends = []
    for way in (1, -1):
        near = at_rest(drawing, {body: way * 1.0}).places
        there = replace(drawing, drawn={name: place / MM for name, place in near.items()})
        ends.append(at_rest(there, {body: way * LEAST}).places[body])
    return ends[0] - ends[1]


def reach(springs: Iterable[Spring], bodies: Sequence[str], body: str) -> tuple[float, float]:
    """Say between which places a body of a rigid line can lie, by linear programming [m]."""
    names = [name for name in bodies if name != CASE]
    listed = [*springs]
    less = np.zeros((len(listed), len(names)))
    for row, spring in zip(less, listed, strict=True):
        for name, sign in ((spring.before, 1.0), (spring.after, -1.0)):
            if name != CASE:
                row[names.index(name)] += sign
    most = np.array([-spring.apart for spring in listed])
    wanted = np.eye(len(names))[names.index(body)]
    ends = (linprog(sign * wanted, less, most, bounds=(None, None)) for sign in (1, -1))
    low, high = (float(sign * end.fun) * MM for sign, end in zip((1, -1), ends, strict=True))
    return low, high
