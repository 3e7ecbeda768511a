"""What every formula of this layer has in common: floats or arrays in, the same out.

`@formula` holds a function to its conditions. Called with floats alone it gives a float, and an
argument that cannot be raises ValueError. As soon as one argument is an array all of them
broadcast, and an element with such an argument comes out as NaN. NaN in is NaN out, and NumPy
never warns. What the source of a fitted formula vouches for is kept beside it as `ranges`.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import wraps
from inspect import signature
from math import pi
from typing import Any, Generic, ParamSpec, TypeAlias, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

from dryfit.quantities.finding import Range

Array: TypeAlias = NDArray[np.float64]

Number: TypeAlias = float | Array
"""One value or many, in SI."""

Result: TypeAlias = Any
"""A float where all arguments are floats, else an array: as NumPy's own functions do it."""

Given = ParamSpec("Given")
Gives = TypeVar("Gives")

CONSTANTS = {"pi": pi, "pi/2": pi / 2}

VIOLATED: dict[str, Callable[[Any, Any], Any]] = {
    "<": np.greater_equal,
    "<=": np.greater,
    ">": np.less_equal,
    ">=": np.less,
}
"""When a comparison does not hold; with NaN on a side it is left to the result to be NaN."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """`left sign right`, where a side is the name of an argument or a number."""

    left: str
    sign: str
    right: str

    def broken(self, arguments: dict[str, Any]) -> Any:
        """Tell where it does not hold."""
        return VIOLATED[self.sign](
            self.limit(self.left, arguments), self.limit(self.right, arguments)
        )

    def told(self, arguments: dict[str, Any]) -> str:
        """Say for one value what was wanted and what was read."""
        sides = [side for side in (self.left, self.right) if side in arguments]
        read = " and ".join(f"{side} = {arguments[side]:g}" for side in sides)
        return f"wanted {self.left} {self.sign} {self.right}; read {read}"

    @staticmethod
    def limit(side: str, arguments: dict[str, Any]) -> Any:
        """Give what stands on a side."""
        if side in arguments:
            return arguments[side]
        return CONSTANTS[side] if side in CONSTANTS else float(side)


def _comparisons(condition: str) -> Iterator[Comparison]:
    """Read `0 <= bore < outside` as its two comparisons."""
    pieces = re.split(r"\s*(<=|>=|<|>)\s*", condition.strip())
    for at in range(0, len(pieces) - 2, 2):
        yield Comparison(*pieces[at : at + 3])


class Formula(Generic[Given, Gives]):
    """A function with its conditions and the ranges its source vouches for.

    Attributes
    ----------
    conditions
        What must hold for there to be an answer.
    ranges
        Where the source of the formula vouches for it; beyond, it is still worked out.
    names
        Of its arguments, in their order.
    """

    def __init__(
        self,
        function: Callable[Given, Gives],
        conditions: tuple[Comparison, ...],
        ranges: tuple[Range, ...],
    ) -> None:
        wraps(function)(self)
        self.function: Callable[..., Any] = function
        self.__name__ = function.__name__
        self.conditions = conditions
        self.ranges = ranges
        self.names = tuple(signature(function).parameters)
        self._defaults = {
            name: parameter.default
            for name, parameter in signature(function).parameters.items()
            if parameter.default is not parameter.empty
        }

    def arguments(self, *given: Any, **named: Any) -> dict[str, Any]:
        """Name all arguments of a call, defaults among them."""
        return self._defaults | dict(zip(self.names, given, strict=False)) | named

    def __call__(self, *given: Given.args, **named: Given.kwargs) -> Gives:
        """Work it out for floats, or element by element."""
        with np.errstate(all="ignore"):
            arguments = self.arguments(*given, **named)
            exact = {name: _as_number(value) for name, value in arguments.items()}
            many = any(isinstance(value, np.ndarray) for value in arguments.values())
            return cast(Gives, self._of_arrays(exact) if many else self._of_floats(exact))

    def _of_floats(self, arguments: dict[str, Any]) -> Any:
        for condition in self.conditions:
            if condition.broken(arguments):
                raise ValueError(f"{self.__name__}: {condition.told(arguments)}")
        return _each(self.function(**arguments), _as_float)

    def _of_arrays(self, arguments: dict[str, Any]) -> Any:
        masks = [condition.broken(arguments) for condition in self.conditions]
        broken = [mask for mask in masks if np.any(mask)]
        result = self.function(**arguments)
        if not broken:
            return result
        nowhere = np.logical_or.reduce(np.broadcast_arrays(*broken))
        return _each(result, lambda value: np.where(nowhere, np.nan, value))


def _as_number(value: Any) -> Any:
    """Make a Python number one of NumPy's, whose division by nothing does not raise."""
    plain = isinstance(value, int | float) and not isinstance(value, bool)
    return np.float64(value) if plain else value


def _as_float(value: Any) -> Any:
    return float(value) if isinstance(value, np.floating | np.ndarray) else value


def _each(result: Any, change: Callable[[Any], Any]) -> Any:
    """Do the same with a result or with every part of a named tuple."""
    return type(result)(*map(change, result)) if isinstance(result, tuple) else change(result)


def formula(
    *conditions: str, ranges: tuple[Range, ...] = ()
) -> Callable[[Callable[Given, Gives]], Formula[Given, Gives]]:
    """Hold a function to its conditions: `@formula("0 < bore < outside")`.

    Parameters
    ----------
    *conditions
        Comparisons of arguments with each other, numbers, pi or pi/2 [text]
    ranges
        Where the source vouches for the formula; named after arguments [text]

    Returns
    -------
    decorator
        What turns the function into a `Formula` [text]

    Valid
    -----
    Functions of floats and arrays that give a number or a named tuple of numbers.

    Source
    ------
    Ours.

    Examples
    --------
    >>> @formula("side >= 0")
    ... def area(side: Number) -> Result:
    ...     return side * side
    >>> area(3.0)
    9.0
    >>> area(np.array([3.0, -1.0]))
    array([ 9., nan])
    >>> area(-1.0)
    Traceback (most recent call last):
    ValueError: area: wanted side >= 0; read side = -1
    """
    wanted = tuple(one for condition in conditions for one in _comparisons(condition))

    def hold(function: Callable[Given, Gives]) -> Formula[Given, Gives]:
        return Formula(function, wanted, ranges)

    return hold
