"""The pencil sheet of a walk: an empty form for the bench, one page of 78 by 60 characters."""

from dryfit.app.cli.page import WIDTH, indented
from dryfit.app.words.walk_trade import CARE, DO

ROWS = 7
"""Lines to write readings on."""

HIGH, WIDE = 20, 60
"""Lines and signs of the grid."""


def walk_form() -> str:
    """Print the form."""
    lines = ["WALK TO NOTHING".ljust(44) + "date ____________  by ____________", ""]
    lines += ["unit ______________________  pitch ________  marks on a diameter of ________"]
    lines += ["push ________  dial ________  float wanted ________  or past nothing _________"]
    lines += ["", "mark (degrees, turn or pack)   float read     again          line says"]
    lines += ["________________________       ___________    ___________    ___________"] * ROWS
    lines += [line for text in DO for line in indented(text, by=0, hang=3)]
    lines += ["float", *_grid(), _foot()]
    lines += ["nothing at ____________  stop at ____________  read after locking ____________"]
    return "\n".join([*lines, *indented(CARE, by=0)])


def _grid() -> list[str]:
    """Draw the grid, a crossing at every fifth row and tenth sign."""
    lines = []
    for row in range(HIGH, -1, -1):
        full = row % 5 == 0
        edge = "______ +" if full else "       |"
        cells = "".join(
            ("+" if full else "|") if sign % 10 == 0 else ("-" if full else " ")
            for sign in range(1, WIDE + 1)
        )
        lines.append(edge + cells)
    return lines


def _foot() -> str:
    """Leave room for the marks below the grid."""
    return ("    mark   " + "   ______ " * 6)[:WIDTH].rstrip()
