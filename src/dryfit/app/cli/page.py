"""How lines of a sheet are set: 78 columns, heads underlined, sentences behind an indent."""

from collections.abc import Iterable
from textwrap import wrap

from dryfit.app.words.said import Said

WIDTH = 78

LINE = {"head": "-", "title": "="}
"""What stands below a head."""


def printed(lines: Iterable[Said]) -> str:
    """Set sentences in lines."""
    return "\n".join(line for said in lines for line in _lines(said))


def blocks(those: Iterable[list[Said]]) -> str:
    """Set blocks of sentences, a line between two."""
    return "\n\n".join(printed(block) for block in those if block) + "\n"


def _lines(said: Said) -> list[str]:
    if said.sort in LINE:
        lines = wrap(said.text, WIDTH)
        return [*lines, LINE[said.sort] * max(len(line) for line in lines)]
    if said.sort == "row":
        return [said.text]
    return indented(said.text, said.by, said.hang)


def indented(text: str, by: int = 2, hang: int = 0) -> list[str]:
    """Wrap a sentence behind an indent."""
    lead = " " * by
    return wrap(text, WIDTH, initial_indent=lead, subsequent_indent=lead + " " * hang)
