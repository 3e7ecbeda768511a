"""What may be typed in a box of a page but not in a file, and what stands beside it."""

import re

from dryfit.quantities import NotKnown, System
from dryfit.quantities.show import echo
from dryfit.quantities.size import read_size
from dryfit.quantities.unreadable import Unreadable

COMMA = re.compile(r"(?<![0-9.,])([+-]?[0-9]+),([0-9]+)(?![0-9.,])")
"""One comma between digits: a decimal comma, for a size never has thousands."""

UNKNOWN = "not known"


def as_written(typed: str) -> str:
    r"""Write what was typed in a box as a file has it.

    Parameters
    ----------
    typed
        What stands in a box.

    Returns
    -------
    str
        With a point for a decimal comma, and `not known` for `?` or nothing.

    Examples
    --------
    >>> as_written("12,34"), as_written(" ? "), as_written("12,34 +/- 0,02")
    ('12.34', 'not known', '12.34 +/- 0.02')
    >>> as_written("1,2,3"), as_written("cover shim, outer")
    ('1,2,3', 'cover shim, outer')

    Figures of other scripts are left as they are, to be told as what they are.

    >>> "," in as_written("\N{ARABIC-INDIC DIGIT ONE},\N{ARABIC-INDIC DIGIT TWO}")
    True
    """
    wanted = typed.strip()
    if wanted in ("", "?"):
        return UNKNOWN
    return COMMA.sub(r"\1.\2", wanted)


def echoed(typed: str, system: System) -> str:
    """Say in both systems what was typed in a box; nothing where it is no size.

    >>> echoed("12,34", "mm"), echoed("?", "mm"), echoed("abc", "mm")
    ('12.34 mm = 0.486 in', '', '')
    """
    try:
        size = read_size(typed, system, box=True)
    except Unreadable:
        return ""
    return "" if isinstance(size, NotKnown) else echo(size)
