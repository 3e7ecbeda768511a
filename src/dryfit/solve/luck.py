"""Draws that belong to a place in the text, so that one edit never moves another size's draw."""

from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from typing import Any

import numpy as np

Array = np.ndarray[tuple[int], np.dtype[np.float64]]
Flags = np.ndarray[tuple[int], np.dtype[np.bool_]]

SEED = 20_000
"""Fixed, so that the same text always gets the same answer."""

LOOKS = 2_000
"""Draws with which a doubt is looked into."""

TOO_RARE = 0.005
"""What would be so far out in fewer draws than this share is told."""

KEPT = 256
"""Draws remembered, so that many questions to one rebuild draw each error once."""


@dataclass(frozen=True, slots=True)
class Luck:
    """Where errors are drawn from: `count` draws for each key, always the same for that key.

    Attributes
    ----------
    count
        How many draws [-].
    seed
        Another seed gives other draws for every key [-].
    """

    count: int
    seed: int = SEED

    def normal(self, *key: str) -> Array:
        """Draw from the normal distribution with mean 0 and standard deviation 1."""
        return _normal(self.seed, key, self.count)

    def flat(self, *key: str) -> Array:
        """Draw from the rectangle between -1 and 1."""
        return _flat(self.seed, key, self.count)


def _generator(seed: int, key: tuple[str, ...]) -> np.random.Generator:
    digest = sha256("\x1f".join((str(seed), *key)).encode()).digest()
    return np.random.Generator(np.random.Philox(key=int.from_bytes(digest[:16], "big")))


@lru_cache(KEPT)
def _normal(seed: int, key: tuple[str, ...], count: int) -> Array:
    return _frozen(_generator(seed, key).standard_normal(count))


@lru_cache(KEPT)
def _flat(seed: int, key: tuple[str, ...], count: int) -> Array:
    return _frozen(_generator(seed, key).uniform(-1.0, 1.0, count))


def _frozen(draws: Array) -> Array:
    draws.flags.writeable = False
    return draws


@dataclass(frozen=True, slots=True)
class NoLuck:
    """Draws without any error: the nominal case, through the same model, once or side by side."""

    count: int = 1

    def normal(self, *_: str) -> Array:
        """Give no error."""
        return np.zeros(self.count)

    flat = normal


@dataclass(frozen=True, slots=True)
class Exchanged:
    """Draws of a unit in which two parts are in each other's place, each with its own errors.

    Attributes
    ----------
    luck
        Where the errors come from.
    one, other
        The places of the two parts.
    stays
        What belongs to the place and not to what is in it.
    """

    luck: "Draws"
    one: str
    other: str
    stays: frozenset[str] = frozenset()

    @property
    def count(self) -> int:
        """How many draws [-]."""
        return self.luck.count

    def normal(self, *key: str) -> Array:
        """Draw as `Luck` does, for what is in the place."""
        return self.luck.normal(*self._of(key))

    def flat(self, *key: str) -> Array:
        """Draw as `Luck` does, for what is in the place."""
        return self.luck.flat(*self._of(key))

    def _of(self, key: tuple[str, ...]) -> tuple[str, ...]:
        there = {self.one: self.other, self.other: self.one}
        if key[0] != "parts" or key[1] not in there:
            return key
        if key[2] in self.stays and key[-1] != "ring":
            return key
        return ("parts", there[key[1]], *key[2:])


@dataclass(frozen=True, slots=True)
class Joined:
    """Draws one after another, such as one without errors and then some with them.

    Attributes
    ----------
    parts
        The draws that follow each other.
    """

    parts: tuple["Draws", ...]

    @property
    def count(self) -> int:
        """How many draws [-]."""
        return sum(part.count for part in self.parts)

    def normal(self, *key: str) -> Array:
        """Draw as each part does."""
        return np.concatenate([part.normal(*key) for part in self.parts])

    def flat(self, *key: str) -> Array:
        """Draw as each part does."""
        return np.concatenate([part.flat(*key) for part in self.parts])


Draws = Luck | NoLuck | Exchanged | Joined


def full(draws: Draws, value: float) -> Array:
    """Give the same value in every draw.

    Parameters
    ----------
    draws
        Where the count is taken from [draws]
    value
        The value [any unit]

    Returns
    -------
    values
        The value, repeated [as value], shape (n,)

    Valid
    -----
    Any finite value.

    Source
    ------
    None needed.

    Examples
    --------
    >>> full(NoLuck(), 2.5)
    array([2.5])
    """
    return np.full(draws.count, value)


def as_array(value: Any) -> Array:
    """Take a sequence of numbers as an array of draws.

    Parameters
    ----------
    value
        Numbers [any unit], shape (n,)

    Returns
    -------
    values
        The same numbers [as value], shape (n,)

    Valid
    -----
    Any numbers.

    Source
    ------
    None needed.

    Examples
    --------
    >>> as_array([1, 2])
    array([1., 2.])
    """
    return np.asarray(value, dtype=np.float64)
