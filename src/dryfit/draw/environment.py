"""The one way to make templates: whatever is put into one is escaped, and XML can hold it.

A test sees to it that no other environment or template of Jinja is made anywhere.
"""

import re
from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from dryfit.draw.lettering import coded

FORBIDDEN = re.compile("[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What a text in XML 1.0 cannot hold, not even escaped (its production 2, Char)."""


@cache
def environment(folder: Path) -> Environment:
    """Make templates of the files in a folder; a name that is not filled in raises."""
    return Environment(
        loader=FileSystemLoader(folder),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_sayable,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def drawn(svg: str) -> Markup:
    """Let a drawing of `draw.svg` into a page as it is: what a user typed was escaped in it."""
    return Markup(svg)


def escaped(typed: str) -> str:
    """Escape what a user typed, to be put into such a drawing."""
    return str(escape(typed))


def _sayable(value: object) -> object:
    """Write what XML cannot hold as its number."""
    if not isinstance(value, str):
        return value
    return type(value)(FORBIDDEN.sub(lambda found: coded(found[0]), value))
