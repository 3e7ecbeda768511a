"""How lines of a sheet are set: 78 columns, heads underlined, sentences behind an indent."""

from textwrap import wrap

WIDTH = 78


def head(text: str) -> list[str]:
    """Underline a head."""
    return [text, "-" * len(text)]


def indented(text: str, by: int = 2, hang: int = 0) -> list[str]:
    """Wrap a sentence behind an indent."""
    lead = " " * by
    return wrap(text, WIDTH, initial_indent=lead, subsequent_indent=lead + " " * hang)
