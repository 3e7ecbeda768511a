"""Lines written out by hand as bodies and springs, and brought to rest by scipy.

Nothing here is taken from `dryfit.solve`: what lies between two bodies is listed by whoever writes
a unit, and its energy added up in plain Python. Only single rows and rings use `dryfit.mechanics`,
which has checks of its own.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize

from dryfit.mechanics.ball_rows import ball_row, groove_distance
from dryfit.mechanics.hertz import contact_constant, contacts_in_line, groove_curvature
from dryfit.mechanics.internals import FILLINGS, estimated_internals
from dryfit.mechanics.roller_rows import taper_row

FACE = 5e9
MODULUS = 206e9
MICRO = 1e-6

Vector = NDArray[np.float64]

SOFT = 1e-2
"""Holds what nothing stops about where it was [N/m]."""

TINY = 1e-11
"""Half of the step by which a stiffness is felt [m]."""

POINTS, WEIGHTS = np.polynomial.legendre.leggauss(40)

Force = Callable[[float], float]
"""Force [N] against overlap [m]."""


def work(force: Force, overlap: float) -> float:
    """Add up the work of pressing a spring from nothing to an overlap, by Gauss and Legendre."""
    along = overlap * (POINTS + 1) / 2
    return float(overlap / 2 * sum(w * force(d) for w, d in zip(WEIGHTS, along, strict=True)))


@dataclass
class ByHand:
    """A line of bodies: each spring is pressed by offset + x(before) - x(after)."""

    springs: list[tuple[str, str, float, Force]] = field(default_factory=list)
    loads: dict[str, float] = field(default_factory=dict)

    def face(self, before: str, after: str, length: float, give: float = 0.0) -> None:
        """Add two faces."""
        stiffness = 1 / (1 / FACE + give)
        self.springs.append((before, after, length, lambda d: stiffness * max(d, 0.0)))

    def row(self, before: str, after: str, offset: float, force: Force) -> None:
        """Add a row or spring."""
        self.springs.append((before, after, offset, force))

    def pull(self, before: str, after: str, force: float) -> None:
        """Add a steady force that pulls two bodies together."""
        self.springs.append((before, after, 0.0, lambda _: force))

    def rest(self, case: str, start: dict[str, float]) -> "AtRest":
        """Find where all forces balance."""
        names = [name for name in start if name != case]

        def at(x: Vector) -> dict[str, float]:
            moved = {n: start[n] + MICRO * float(v) for n, v in zip(names, x, strict=True)}
            return {case: 0.0, **moved}

        def energy(x: Vector) -> float:
            here = at(x)
            total = -sum(load * (here[name] - start[name]) for name, load in self.loads.items())
            total += SOFT / 2 * sum((here[n] - start[n]) ** 2 for n in names)
            for before, after, offset, force in self.springs:
                total += work(force, offset + here[before] - here[after])
            return total / MICRO**2

        def slope(x: Vector) -> Vector:
            here = at(x)
            left = {name: SOFT * (here[name] - start[name]) for name in names} | {case: 0.0}
            for name, load in self.loads.items():
                left[name] -= load
            for before, after, offset, force in self.springs:
                push = force(offset + here[before] - here[after])
                left[before] += push
                left[after] -= push
            return np.array([left[name] for name in names]) / MICRO

        def curve(x: Vector) -> Vector:
            here, number = at(x), {name: n for n, name in enumerate(names)}
            found = SOFT * np.eye(len(names))
            for before, after, offset, force in self.springs:
                d = offset + here[before] - here[after]
                stiff = (force(d + TINY) - force(d - TINY)) / (2 * TINY)
                for one, sign in ((before, 1.0), (after, -1.0)):
                    for two, other in ((before, 1.0), (after, -1.0)):
                        if case not in (one, two):
                            found[number[one], number[two]] += sign * other * stiff
            return found

        x: Vector = np.zeros(len(names))
        for _ in range(20):
            x = minimize(
                energy, x, jac=slope, hess=curve, method="trust-exact", options={"gtol": 1e-1}
            ).x
        for _ in range(5):  # the sum of work is rounder than the forces: sharpen on these alone
            sharper = x - np.linalg.solve(curve(x), slope(x))
            x = min(x, sharper, key=lambda y: float(np.max(np.abs(slope(y)))))
        assert np.max(np.abs(slope(x))) * MICRO < 2e-3, slope(x) * MICRO
        here = at(x)
        return AtRest(here, [(b, a, f(o + here[b] - here[a])) for b, a, o, f in self.springs])


@dataclass
class AtRest:
    """Where the bodies are [m] and what the springs carry [N]."""

    places: dict[str, float]
    forces: list[tuple[str, str, float]]

    def force(self, before: str, after: str) -> float:
        """Give the force between two bodies."""
        return sum(f for b, a, f in self.forces if (b, a) == (before, after))


def annulus(outside: float, inside: float) -> float:
    """Area of a ring [m^2]."""
    return float(np.pi / 4 * (outside**2 - inside**2))


def half_ring(bore: float, outside: float, width: float, *, inner: bool) -> float:
    """Half of a ring's give under force [m/N]: its wall is 0.205 of outside less bore."""
    wall = 0.205 * (outside - bore)
    area = annulus(bore + 2 * wall, bore) if inner else annulus(outside, outside - 2 * wall)
    return width / (MODULUS * area) / 2


def balls(bore: float, outside: float, width: float, angle: float) -> Force:
    """Give the force of an angular contact row of a bearing nobody has opened."""
    filling = FILLINGS["angular contact"]
    ball, pitch, count = estimated_internals(
        bore, outside, width, share=filling.share, first=filling.first, arc=filling.arc
    )
    lean = ball * np.cos(angle) / pitch
    inner, outer = (
        contact_constant(*groove_curvature(ball, filling.conformity, sign * lean))
        for sign in (1, -1)
    )
    given = {
        "distance": groove_distance(ball, filling.conformity, filling.conformity),
        "balls": count,
        "constant": contacts_in_line(inner, outer),
    }
    return lambda d: float(ball_row(d, angle, **given).force)


def tapers(bore: float, outside: float, width: float, angle: float) -> Force:
    """Give the force of a taper row."""
    filling = FILLINGS["taper"]
    _, _, count = estimated_internals(
        bore, outside, width, share=filling.share, first=filling.first, arc=filling.arc
    )
    length = width * filling.length
    return lambda d: float(taper_row(d, angle, rollers=count, length=length).force)
