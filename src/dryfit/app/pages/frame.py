"""What stands round every page: name of the unit, phases of the work, title block."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from dryfit.app.pages.asked import Asked
from dryfit.app.pages.rows import sizes_words
from dryfit.document.read import Document
from dryfit.quantities.finding import near


@dataclass(frozen=True, slots=True)
class Phase:
    """One phase in the strip on top: its page, its name, how far it is."""

    page: str
    name: str
    told: str


@dataclass(frozen=True)
class Frame:
    """Round a page; `unit` is 0 and there are no phases where it belongs to none.

    Attributes
    ----------
    here
        The page it is round.
    title, told
        Of the unit, and what it is.
    revision, saved
        The newest text, and when it was kept.
    can_undo, can_redo
        Whether there is a text to go back to, or forward.
    at, query
        What the page is about, and what follows the question mark, to come back to after an act.
    """

    here: str
    title: str = "dryfit"
    told: str = "the dry build in numbers"
    unit: int = 0
    revision: int = 0
    saved: str = ""
    figures_in: str = ""
    can_undo: bool = False
    can_redo: bool = False
    phases: tuple[Phase, ...] = ()
    at: str = ""
    query: Mapping[str, str] = field(default_factory=dict)


def frame(asked: Asked, here: str) -> Frame:
    """Make the frame of a page."""
    if asked.unit is None:
        return Frame(here)
    kept, document = asked.unit, asked.document
    rebuild = document.rebuild
    return Frame(
        here,
        rebuild.title or f"Unit {kept.rebuild}",
        _kind(document),
        kept.rebuild,
        kept.number,
        when(kept.at),
        "inch, mm beside" if rebuild.system == "inch" else "mm, inch beside",
        kept.can_undo,
        kept.can_redo,
        tuple(Phase(page, name, told(document)) for page, name, told in PHASES),
        asked.at,
        {name: value for name, value in asked.query.items() if name != "as"},
    )


def no_longer(kind: str, name: str, there: Iterable[str]) -> str:
    """Say that an address names what is not in the text, and what may be meant.

    >>> no_longer("part", "shaftt", ["case", "shaft"])
    "There is no part 'shaftt' in the text now: did you mean 'shaft'?"
    """
    told = f"There is no {kind} '{name[:LONGEST]}' in the text now"
    return f"{told}: {near(name[:LONGEST], there)}"


LONGEST = 80
"""Letters of an address that are repeated."""


def when(at: str) -> str:
    """Write a time of the store as the clock on the wall shows it.

    Examples
    --------
    >>> when("2026-11-26T02:42:39.123+00:00")[-5:-3].isdigit()
    True
    """
    local = datetime.fromisoformat(at).astimezone()
    return f"{local.day} {local:%B %Y, %H:%M}"


def _kind(document: Document) -> str:
    used_for = document.rebuild.used_for
    lines = len(document.rebuild.lines)
    kind = used_for.kind if used_for else ""
    return kind or (f"{lines} lines" if lines != 1 else "1 line")


def _settings(document: Document) -> str:
    number = len(document.rebuild.settings)
    return f"{number} setting{'' if number == 1 else 's'}"


def _checks(document: Document) -> str:
    number = len(document.rebuild.checks)
    return f"{number} check{'' if number == 1 else 's'}"


def _said(words: str) -> Callable[[Document], str]:
    return lambda _document: words


PHASES: tuple[tuple[str, str, Callable[[Document], str]], ...] = (
    ("strip", "Strip", _said("as found")),
    ("measure", "Measure", sizes_words),
    ("set", "Set", _settings),
    ("build", "Build", _checks),
    ("run-in", "Prove and run in", _said("warmth, leaks")),
    ("book", "Book", _said("to print")),
)
"""The phases in their order: page, name, how far it is."""
