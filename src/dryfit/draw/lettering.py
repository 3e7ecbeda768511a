"""Lettering: what is written for a text, and how much room it takes, whatever face it is set in.

`data/widths.txt` has the greatest advance of each character over several sans faces; how it was
made is told in `tests/draw/widths_table.py`. It holds the characters that the faces of a PDF have.
"""

from collections.abc import Iterable, Iterator
from functools import cache
from itertools import accumulate
from pathlib import Path
from unicodedata import category, normalize

from dryfit.draw.paper import Anchor, Item, Lettering, Ring

CAP = 0.72
"""Height of capitals, in parts of the size of type: 0.69 to 0.73 in common sans faces."""

TABLE = Path(__file__).parent / "data" / "widths.txt"
STAND_INS = {"⌀": "∅", "′": "ʹ", "″": "ʺ"}
"""Signs of the trade that the faces of a PDF lack, and what looks like them there."""

UNSEEN = {"Cc", "Cf", "Cn", "Co", "Cs", "Zl", "Zp"}
"""Categories of Unicode that show nothing, break lines or turn the direction of writing."""


def size_of_type(lettering: Lettering) -> float:
    """Size of type for the height of capitals that is wanted [mm]."""
    return lettering.height / CAP


def coded(character: str) -> str:
    r"""Write a character as its number in Unicode.

    >>> coded("\n")
    '‹000A›'
    """
    return f"‹{ord(character):04X}›"


def written(text: str) -> str:
    r"""Write a text as it is, but for characters that nobody would see: those by their number.

    >>> written("shim\t<0.05> & 'x'")
    "shim‹0009›<0.05> & 'x'"
    """
    return "".join(coded(c) if category(c) in UNSEEN else c for c in normalize("NFC", text))


def in_print(text: str) -> str:
    """Write a text with the characters that the faces of a PDF have, any other by its number.

    >>> in_print("軸 ⌀40")
    '‹8EF8› ∅40'
    """
    known = widths()
    shown = (STAND_INS.get(c, c) for c in written(text))
    return "".join(c if c in known else coded(c) for c in shown)


@cache
def widths() -> dict[str, tuple[float, float]]:
    """Give the greatest advance of each character, regular and bold, to a size of type of 1."""
    found = {}
    for line in TABLE.read_text(encoding="utf-8").split("\n")[:-1]:
        regular, bold, characters = line.split(" ", 2)
        found.update(dict.fromkeys(characters, (int(regular) / 100, int(bold) / 100)))
    return found


def width(text: str, height: float, *, bold: bool = False) -> float:
    """Width that a line of text takes at most [mm] with capitals so high [mm].

    >>> width("MM", 0.72)
    1.82
    """
    known = widths()
    return sum(known[c][bold] for c in in_print(text)) * height / CAP


def lines_of(text: str, wide: float, height: float, *, bold: bool = False) -> list[str]:
    """Break a text into lines no wider than so much [mm], within a word only if it must be.

    >>> lines_of("end float of the shaft", 30.0, 2.5)
    ['end float of the', 'shaft']
    """
    lines = [""]
    for word in text.split(" "):
        for piece in _pieces(word, wide, height, bold=bold):
            longer = f"{lines[-1]} {piece}" if lines[-1] else piece
            if width(longer, height, bold=bold) <= wide:
                lines[-1] = longer
            else:
                lines.append(piece)
    return lines if lines[0] else lines[1:]


def _pieces(word: str, wide: float, height: float, *, bold: bool) -> Iterator[str]:
    while width(word, height, bold=bold) > wide and len(word) > 1:
        widths = accumulate(width(letter, height, bold=bold) for letter in word)
        fits = max(1, sum(so_far <= wide for so_far in widths))
        yield word[:fits]
        word = word[fits:]
    yield word


def box(lettering: Lettering) -> tuple[float, float, float, float]:
    """Room that a piece of lettering takes: left, lower, right, upper [mm]."""
    wide = width(lettering.text, lettering.height, bold=lettering.bold)
    start = {Anchor.START: 0.0, Anchor.MIDDLE: -wide / 2, Anchor.END: -wide}[lettering.anchor]
    low, high = -0.3 * lettering.height, 1.15 * lettering.height
    x, y = lettering.at
    if lettering.turned:
        return x - high, y + start, x - low, y + start + wide
    return x + start, y + low, x + start + wide, y + high


def hull(items: Iterable[Item]) -> tuple[float, float, float, float]:
    """Room that items take together: left, lower, right, upper [mm].

    >>> from dryfit.draw.paper import Stroke
    >>> hull([Stroke(((0, 1), (4, 2))), Ring((6.0, 2.0), 1.5)])
    (0, 0.5, 7.5, 3.5)
    """
    left, low, right, high = zip(*map(_room_of, items), strict=True)
    return min(left), min(low), max(right), max(high)


def _room_of(item: Item) -> tuple[float, float, float, float]:
    if isinstance(item, Lettering):
        return box(item)
    if isinstance(item, Ring):
        (x, y), far = item.centre, item.radius
        return x - far, y - far, x + far, y + far
    xs, ys = zip(*item.points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
