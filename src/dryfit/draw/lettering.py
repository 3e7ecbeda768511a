"""How much room lettering takes, whatever face it is set in: one table of widths."""

from dryfit.draw.paper import Anchor, Lettering

CAP = 0.72
"""Height of capitals, in parts of the size of type: 0.69 to 0.73 in common sans faces."""
WIDEST = 0.62
"""Advance that an ordinary character is given, in parts of the size of type [estimate]."""
WIDE, NARROW = frozenset("MWmw@%‰—…"), frozenset("ijl.,:;'|!()[]ftrI ")


def size_of_type(lettering: Lettering) -> float:
    """Size of type for the height of capitals that is wanted [mm]."""
    return lettering.height / CAP


def width(text: str, height: float, *, bold: bool = False) -> float:
    """Width that a line of text takes at most [mm] with capitals so high [mm]."""
    ems = sum(1.0 if c in WIDE else 0.45 if c in NARROW else WIDEST + 0.08 * c.isupper() for c in text)
    return ems * height / CAP * (1.06 if bold else 1.0)


def box(lettering: Lettering) -> tuple[float, float, float, float]:
    """Room that a piece of lettering takes: left, lower, right, upper [mm]."""
    wide = width(lettering.text, lettering.height, bold=lettering.bold)
    start = {Anchor.START: 0.0, Anchor.MIDDLE: -wide / 2, Anchor.END: -wide}[lettering.anchor]
    low, high = -0.3 * lettering.height, 1.15 * lettering.height
    x, y = lettering.at
    if lettering.turned:
        return x - high, y + start, x - low, y + start + wide
    return x + start, y + low, x + start + wide, y + high
