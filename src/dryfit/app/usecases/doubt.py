"""What makes up the doubt of each check that can be said, in words and as shares."""

from collections.abc import Iterator
from dataclasses import dataclass

from dryfit.app.usecases.opening import Opened
from dryfit.app.usecases.plot_doubts import worth_telling
from dryfit.app.usecases.plot_units import plotting
from dryfit.ask.expect import expect


@dataclass(frozen=True)
class ShareAnswer:
    """One thing that makes a reading doubtful, and its share of the variance [-]."""

    key: str
    words: str
    share: float


@dataclass(frozen=True)
class DoubtAnswer:
    """What makes up the doubt of a check, the greatest share first."""

    check: str
    shares: tuple[ShareAnswer, ...]


def doubts(opened: Opened) -> tuple[DoubtAnswer, ...]:
    """Say what makes up the doubt of each check, by the draws of a first look."""
    return () if opened.stopped else tuple(_doubts(opened))


def _doubts(opened: Opened) -> Iterator[DoubtAnswer]:
    asked = plotting(opened.rebuild)
    for found in expect(asked.asking, asked.wanted, asked.packs):
        if found.typed is not None:
            told = worth_telling(asked, found)
            shares = tuple(ShareAnswer(one.key, words, one.share) for one, words in told)
            yield DoubtAnswer(found.check.name, shares)
