"""What is wrong or missing in what was typed, and where.

`Place` says where by the keys that lead there, `Finding` says what was read, the limit and the
way out, `Range` says how far a formula may be trusted. Lines and columns belong to the layer
`document`, which alone knows the text.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal

Place = tuple[str | int, ...]
"""Keys from the top of a rebuild down to a value; a number counts along a list from 0."""

Level = Literal["stop", "note"]
"""`stop`: no answer until it is mended. `note`: answered, but worth a look."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing wrong, missing or doubtful in a rebuild.

    Attributes
    ----------
    code
        Short name of this sort of finding, fixed for good: `size.comma`.
    place
        Where in the rebuild.
    message
        What was read and which limit it breaks, as a sentence for the bench.
    way_out
        What to type or do instead.
    level
        `stop` or `note`.
    column
        Where inside the value's own text, counted from 0; None for the whole value.
    """

    code: str
    place: Place
    message: str
    way_out: str = ""
    level: Level = "stop"
    column: int | None = None


@dataclass(frozen=True, slots=True)
class Range:
    """How far the source of a formula vouches for it: low <= name <= high, in `unit`."""

    name: str
    low: float
    high: float
    unit: str
    source: str


def stops(findings: tuple[Finding, ...] | list[Finding]) -> bool:
    """Tell whether any of the findings keeps an answer from being given."""
    return any(f.level == "stop" for f in findings)


def a(word: str) -> str:
    """Put the article before a word."""
    return f"an {word}" if word[0] in "aeiou" else f"a {word}"


def near(word: str, choices: Iterable[str]) -> str:
    """Say what may have been meant, or what there is to choose from."""
    listed = list(choices)
    close = get_close_matches(word.lower(), listed, n=1, cutoff=0.6)
    if close:
        return f"did you mean '{close[0]}'?"
    return f"there are: {', '.join(listed)}" if listed else ""
