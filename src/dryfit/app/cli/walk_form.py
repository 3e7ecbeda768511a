"""The pencil sheet of a walk: an empty form for the bench, one page of 78 by 60 characters."""

from dryfit.app.cli.page import WIDTH, indented
from dryfit.app.cli.walk_words import CARE

ROWS = 7
"""Lines to write readings on."""

HIGH, WIDE = 20, 60
"""Lines and signs of the grid."""

DO = (
    "1. Mark nut and shaft with a fine line, begin with float to spare. Seals out, light oil.",
    "2. Turn 10 to 20 times each way. Push hard while turning, dial to nought; pull as hard and "
    "turn, read. The same push at every mark.",
    "3. Tighten to the next mark, never back. Four marks or more, all with float left.",
    "4. Put the points on the grid, lay a straight edge through them. It must fall by pitch x "
    "degrees / 360 (a pack: by what it is thicker). A point off it: ring did not follow, or not "
    "turned enough; read it again.",
    "5. Where the edge meets the bottom line is nothing. Rows touch a shade before that: a few "
    "um (a tenth or two) are what yields under the push.",
    "6. From the last mark go on by (last float - wanted float) / pitch x 360 degrees. For a nip "
    "add it instead. Too far: back off well past, press the ring back, come again.",
)


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
