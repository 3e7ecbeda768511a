"""One sentence of a sheet: its words, and how deep it stands; who prints it breaks its lines."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence.

    Attributes
    ----------
    text
        Its words, without a break.
    by
        How deep it stands, in characters of a plain page.
    hang
        How much deeper it goes on after a break.
    sort
        `text`, `head`, `title`, or `row` of a table, whose blanks are kept.
    """

    text: str
    by: int = 2
    hang: int = 0
    sort: str = "text"


def head(text: str) -> list[Said]:
    """Head what follows."""
    return [Said(text, by=0, sort="head")]


def title(text: str) -> list[Said]:
    """Head a whole sheet."""
    return [Said(text, by=0, sort="title")]


def row(text: str) -> Said:
    """Give a line of a table as it stands."""
    return Said(text, by=0, sort="row")


def indented(text: str, by: int = 2, hang: int = 0) -> list[Said]:
    """Say a sentence behind an indent."""
    return [Said(text, by, hang)]
