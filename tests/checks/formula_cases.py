"""Published values of single formulas, in formulas/*.toml, and what dryfit makes of them.

A case names a function of `dryfit.mechanics`, its arguments as printed, and what the source prints.
Text with a unit is turned into SI by pint. A printed value may be missed by half of its last digit,
unless the case says by how much and why.
"""

import importlib
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pint

from dryfit.mechanics.formula import Formula

FOLDER = Path(__file__).parent / "formulas"
UNITS: Any = pint.UnitRegistry()

KINDS = ("published", "closed form", "other program", "common practice")


@cache
def in_si(text: str) -> float:
    """Turn `1.5 in` into metres; a number alone stays as it is."""
    number, _, unit = text.partition(" ")
    return float(UNITS.Quantity(float(number), unit or None).to_base_units().magnitude)


def _argument(value: Any) -> Any:
    if isinstance(value, list):
        return np.array([_argument(one) for one in value], dtype=float)
    return in_si(value) if isinstance(value, str) else float(value)


@dataclass(frozen=True)
class Printed:
    """One number of a source.

    Attributes
    ----------
    printed
        With its digits.
    unit
        As pint reads it; `word` where the answer is one.
    of
        The field of a named tuple; empty where there is one result.
    within
        How far ours may be from it, in the same unit, where half of the last digit will not do.
    because
        Why not.
    """

    printed: str
    unit: str = ""
    of: str = ""
    within: float | None = None
    because: str = ""

    @property
    def value(self) -> float:
        """The number."""
        return float(self.printed)

    @property
    def half_digit(self) -> float:
        """Half of the last digit that is printed."""
        mantissa, _, power = self.printed.lower().partition("e")
        return float(0.5 * 10.0 ** (int(power or 0) - len(mantissa.partition(".")[2])))

    @property
    def allowed(self) -> float:
        """How far ours may be from theirs."""
        return (self.half_digit if self.within is None else self.within) + 1e-9 * abs(self.value)

    def ours(self, result: Any) -> Any:
        """Take out of a result what is printed here, in the unit of the print."""
        got = getattr(result, self.of) if self.of else result
        if self.unit == "word":
            return got
        if self.unit:
            got = UNITS.Quantity(got, _base_of(self.unit)).to(self.unit).magnitude
        return float(got)

    def is_met(self, result: Any) -> bool:
        """Tell whether a result agrees."""
        if self.unit == "word":
            return bool(self.ours(result) == self.printed)
        return bool(abs(self.ours(result) - self.value) <= self.allowed)


@cache
def _base_of(unit: str) -> Any:
    return UNITS.Quantity(1.0, unit).to_base_units().units


@dataclass(frozen=True)
class FormulaCase:
    """One example of a source.

    Attributes
    ----------
    name, function, source, where, kind
        What it is, `module.function`, key of the source, place in it, one of `KINDS`.
    arguments
        In SI, and words.
    values
        What is printed.
    memory
        Whether it was recalled rather than read.
    moved
        Factor for an argument that does not show at 1.1.
    instead
        Other values of an argument, each of which must show.
    unmoved
        Why an argument rightly has no effect.
    """

    name: str
    function: str
    source: str
    where: str
    kind: str
    arguments: dict[str, Any]
    values: tuple[Printed, ...]
    memory: bool = False
    moved: dict[str, float] = field(default_factory=dict)
    instead: dict[str, list[Any]] = field(default_factory=dict)
    unmoved: dict[str, str] = field(default_factory=dict)

    @property
    def is_numeric(self) -> bool:
        """Tell whether the answer is one of numbers, not a word."""
        return all(value.unit != "word" for value in self.values)

    @property
    def formula(self) -> Formula[..., Any]:
        """The function itself."""
        return find(self.function)

    def missed(self) -> list[str]:
        """List the printed values that are not met."""
        result = self.formula(**self.arguments)
        return [
            f"{one.of or 'value'}: {one.ours(result)} for {one.printed} {one.unit}"
            for one in self.values
            if not one.is_met(result)
        ]

    def shows(self, name: str, value: Any) -> bool:
        """Tell whether the case notices another value of an argument; a refusal is noticed."""
        try:
            return bool(replace(self, arguments=self.arguments | {name: value}).missed())
        except ValueError:
            return True

    def others(self) -> Iterator[tuple[str, Any]]:
        """Walk the changes that must show."""
        for name, value in self.arguments.items():
            if name in self.instead:
                for other in self.instead[name]:
                    yield name, other
            elif name not in self.unmoved:
                yield name, value * self.moved.get(name, 1.1)


@cache
def find(name: str) -> Formula[..., Any]:
    """Find `module.function` in `dryfit.mechanics`."""
    module, _, function = name.partition(".")
    home = importlib.import_module(f"dryfit.mechanics.{module}")
    found: Formula[..., Any] = getattr(home, function)
    return found


def _read(path: Path) -> Iterator[FormulaCase]:
    for given in tomllib.loads(path.read_text(encoding="utf-8"))["case"]:
        words = given.pop("words", {})
        numbers = {name: _argument(value) for name, value in given.pop("args", {}).items()}
        instead = {
            name: others if name in words else [_argument(other) for other in others]
            for name, others in given.pop("instead", {}).items()
        }
        values = tuple(Printed(**value) for value in given.pop("values"))
        yield FormulaCase(**given, arguments=numbers | words, values=values, instead=instead)


def _sources(path: Path) -> dict[str, str]:
    found: dict[str, str] = tomllib.loads(path.read_text(encoding="utf-8"))["sources"]
    return found


FILES = sorted(FOLDER.glob("*.toml"))
SOURCES = {key: text for path in FILES for key, text in _sources(path).items()}
ALL_CASES = [case for path in FILES for case in _read(path)]
FORMULA_CASES = {case.name: case for case in ALL_CASES}
