"""How a value or a name is written so that it reads back the same: plain, or in quotes."""

import re

from dryfit.document.nodes import Style

_ENDS_EARLY = re.compile(r": |:$| #")
_FLOW_SIGNS = re.compile(r"[,\[\]{}]")
_OPENS = re.compile(r"[!&*?|>@%`\"'#{}\[\],:]|-(?:\s|$)|---|\.\.\.")


def plain_enough(text: str, *, flow: bool) -> bool:
    """Tell whether a text can stand without quotes; in brackets (`flow`) less can."""
    if text != text.strip() or _OPENS.match(text) or _ENDS_EARLY.search(text):
        return False
    return not (flow and _FLOW_SIGNS.search(text))


def spellings(text: str, *, flow: bool, style: Style = "") -> list[str]:
    """Give the ways to write a text in one line, the best first.

    Quotes that are there already (`style`) are kept where there is something to put in them.
    """
    quoted = [style] if style in ("'", '"') and text else []
    plain = [""] if plain_enough(text, flow=flow) else []
    return [spell(text, each) for each in dict.fromkeys([*quoted, *plain, "'", '"'])]


def spell(text: str, style: str) -> str:
    """Write a text in one style."""
    if style == "'":
        return "'" + text.replace("'", "''") + "'"
    if style == '"':
        return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return text
