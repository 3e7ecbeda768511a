"""Which characters the faces inside can set, and what stands for one that none of them has.

`letters.txt` lists them by their numbers, first and last of each run: what Fira Sans 4.203, DejaVu
Sans Mono and Libertinus Serif, the last two as inside typst 0.15, have both in regular and in
bold. What cannot be seen, and what turns the direction of writing, is not among them.
"""

import re
from bisect import bisect_right
from functools import cache
from importlib.resources import files
from itertools import chain

RIGHT_TO_LEFT = "\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefe"
_RUN = re.compile(f"[{RIGHT_TO_LEFT}](?:[^A-Za-z0-9]*[{RIGHT_TO_LEFT}])*")
FIRST, LAST = "\u2067", "\u2069"
"""They keep a run from right to left to itself, so that figures behind it stay behind it."""


@cache
def _runs() -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Read the first and the last number of every run."""
    text = (files("dryfit.app.paper") / "letters.txt").read_text(encoding="ascii")
    pairs = [line.split("-") for line in text.split()]
    return tuple(int(a, 16) for a, _ in pairs), tuple(int(b, 16) for _, b in pairs)


def can_be_set(character: str) -> bool:
    r"""Tell whether a face inside has a character.

    >>> can_be_set("⌀"), can_be_set("\u202e")
    (True, False)
    """
    firsts, lasts = _runs()
    n = bisect_right(firsts, ord(character)) - 1
    return n >= 0 and ord(character) <= lasts[n]


def legible(text: str) -> str:
    r"""Give a text with the code of each character that cannot be set, in angle quotes.

    >>> legible("one\u202eway")
    'one‹U+202E›way'
    """
    if text.isascii() and text.isprintable():
        return text
    shown = "".join(c if c == "\n" or can_be_set(c) else f"‹U+{ord(c):04X}›" for c in text)
    return _RUN.sub(lambda run: f"{FIRST}{run.group()}{LAST}", shown)


def missing(texts: tuple[str, ...]) -> tuple[str, ...]:
    """List the characters of some texts that cannot be set, each once."""
    found = dict.fromkeys(c for c in chain(*texts) if c != "\n" and not can_be_set(c))
    return tuple(found)
