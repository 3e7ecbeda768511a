"""The published examples beside this file, and what dryfit makes of them.

Each *.toml holds one publication: cases with a model, its inputs, and what is printed there. A
printed value may be missed by half of its last digit, and by what `luck` says the draws may do.
"""

import tomllib
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
from tests.checks.models import MODELS, Inputs

from dryfit.solve.luck import Array

FOLDER = Path(__file__).parent


@dataclass(frozen=True)
class Expect:
    """One printed value.

    Attributes
    ----------
    what
        Name in `STATISTICS`.
    printed
        The value as printed, with its digits.
    unit
        Its unit, where it has one.
    at
        Argument of the statistic.
    luck
        How far the draws may miss it besides, in the same unit.
    because
        Where `luck` comes from.
    exact
        Whether the value is exact as written, so that its last digit allows nothing.
    """

    what: str
    printed: str
    unit: str = ""
    at: float = 0.0
    luck: float = 0.0
    because: str = ""
    exact: bool = False

    @property
    def value(self) -> float:
        """The printed value as a number."""
        return float(self.printed)

    @property
    def decimals(self) -> int:
        """Digits printed behind the point."""
        return len(self.printed.partition(".")[2])

    @property
    def allowed(self) -> float:
        """How far ours may be from theirs; a hair more, for sums end in the last binary place."""
        half = 0.0 if self.exact else 0.5 * 10.0**-self.decimals
        return half + self.luck + 1e-9 * abs(self.value)


@dataclass(frozen=True)
class Case:
    """One published example.

    Attributes
    ----------
    name
        What it is.
    source
        Publication and place.
    model
        Name in `MODELS`.
    inputs
        Its inputs.
    expected
        What is printed there.
    moved
        Inputs that must show when they are a tenth larger: `name.key`.
    steady
        Why there are none.
    unmet
        Why dryfit does not agree yet; empty where it does.
    """

    name: str
    source: str
    model: str
    inputs: Inputs
    expected: tuple[Expect, ...]
    moved: tuple[str, ...]
    steady: str = ""
    unmet: str = ""


def read_cases(path: Path) -> tuple[Case, ...]:
    """Read the cases of one publication."""
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    return tuple(
        Case(
            given["name"],
            f"{data['publication']}, {given['where']}",
            given["model"],
            given["inputs"],
            tuple(Expect(**expected) for expected in given["expected"]),
            tuple(given["moved"]),
            given.get("steady", ""),
            given.get("unmet", ""),
        )
        for given in data["case"]
    )


CASES = {case.name: case for path in sorted(FOLDER.glob("*.toml")) for case in read_cases(path)}


def moved(case: Case, argument: str) -> Case:
    """Make one argument of a case a tenth larger."""
    name, _, key = argument.rpartition(".")
    inputs = deepcopy(case.inputs)
    inputs[name][key] *= 1.1
    return Case(case.name, case.source, case.model, inputs, case.expected, case.moved)


def ours(case: Case) -> list[float]:
    """Work out what dryfit makes of each printed value."""
    found = MODELS[case.model](case.name, case.inputs)
    return [STATISTICS[expect.what](found, expect.at) for expect in case.expected]


@cache
def as_published(name: str) -> tuple[float, ...]:
    """Work out a case as it is printed, once."""
    return tuple(ours(CASES[name]))


def missed(case: Case, found: list[float] | tuple[float, ...]) -> list[str]:
    """List the printed values that are missed by more than is allowed."""
    return [
        f"{expect.what}: {value:.6g} for {expect.printed} within {expect.allowed:.2g}"
        for expect, value in zip(case.expected, found, strict=True)
        if not abs(value - expect.value) <= expect.allowed
    ]


def _shortest(values: Array) -> tuple[float, float]:
    """Ends of the shortest interval that holds 95 % of the draws (JCGM 101:2008, 7.7)."""
    ordered = np.sort(values)
    held = round(0.95 * len(ordered))
    first = int(np.argmin(ordered[held:] - ordered[:-held]))
    return float(ordered[first]), float(ordered[first + held])


def _skewness(values: Array) -> float:
    return float(np.mean(((values - values.mean()) / values.std()) ** 3))


def _half_width(values: Array) -> float:
    low, high = np.quantile(values, (0.025, 0.975))
    return float(high - low) / 2


STATISTICS: dict[str, Callable[[Array, float], float]] = {
    "value": lambda values, at: float(values[int(at)]),
    "mean": lambda values, _: float(values.mean()),
    "standard deviation": lambda values, _: float(values.std()),
    "three standard deviations": lambda values, _: 3 * float(values.std()),
    "skewness": lambda values, _: _skewness(values),
    "share below": lambda values, at: float(np.mean(values < at)),
    "share above": lambda values, at: float(np.mean(values > at)),
    "95 %, lower end": lambda values, _: float(np.quantile(values, 0.025)),
    "95 %, upper end": lambda values, _: float(np.quantile(values, 0.975)),
    "95 %, half width": lambda values, _: _half_width(values),
    "coverage factor, 95 %": lambda values, _: _half_width(values) / float(values.std()),
    "shortest 95 %, lower end": lambda values, _: _shortest(values)[0],
    "shortest 95 %, upper end": lambda values, _: _shortest(values)[1],
}
"""What is printed of a distribution; intervals leave 2.5 % at each side unless shortest."""
