"""What may be typed in a box of a page but not in a file: a decimal comma, a plain `?`."""

import re

COMMA = re.compile(r"(?<![\d.,])([+-]?\d+),(\d+)(?![\d.,])")
"""One comma between digits: a decimal comma, for a size never has thousands."""

UNKNOWN = "not known"


def as_written(typed: str) -> str:
    """Write what was typed in a box as a file has it.

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
    """
    wanted = typed.strip()
    if wanted in ("", "?"):
        return UNKNOWN
    return COMMA.sub(r"\1.\2", wanted)
