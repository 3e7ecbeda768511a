"""Makes `src/dryfit/draw/data/widths.txt`: how wide each character is at most, whatever the face.

    python tests/draw/widths_table.py FACES...

FACES are files of upright faces with ordinary width, or of variable ones: those used were Fira
Sans 4.203, Noto Sans 2.15 and Source Sans 3.052 (packages fontpkg-fira-sans, fontpkg-noto-sans,
fontpkg-source-sans-3), DejaVu Sans 2.37 and Liberation Sans 1.07.4 (Debian: fonts-dejavu-core,
fonts-liberation), each regular and bold. Of every character that Fira Sans has, and of what it
stands in for, the greatest advance is taken and rounded up to 1/100 of the size of type. What
shows nothing or sits on another character is left out.

Each line is: advance regular, advance bold [1/100 of the size of type], the characters.
"""

import sys
from collections import defaultdict
from collections.abc import Iterable
from math import ceil
from pathlib import Path
from unicodedata import category

from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

from dryfit.draw.lettering import STAND_INS

OUT = Path(__file__).resolve().parents[2] / "src" / "dryfit" / "draw" / "data" / "widths.txt"
WEIGHTS = (400, 700)


def advances(font: TTFont) -> dict[str, float]:
    """Give the advance of every character, in parts of the size of type."""
    em, wide = font["head"].unitsPerEm, font["hmtx"].metrics
    return {chr(code): wide[name][0] / em for code, name in font.getBestCmap().items()}


def faces(path: Path) -> Iterable[tuple[int, dict[str, float]]]:
    """Give the weight and the advances of each face in a file."""
    font = TTFont(path)
    if "fvar" not in font:
        weight = 700 if font["OS/2"].usWeightClass >= 600 else 400
        yield weight, advances(font)
        return
    axes = {axis.axisTag for axis in font["fvar"].axes}
    for weight in WEIGHTS:
        at = {tag: value for tag, value in {"wght": weight, "wdth": 100}.items() if tag in axes}
        yield weight, advances(instantiateVariableFont(TTFont(path), at))


def greatest(paths: Iterable[Path]) -> dict[str, tuple[int, int]]:
    """Give the greatest regular and bold advance of each character [1/100]."""
    most: dict[int, dict[str, float]] = {weight: defaultdict(float) for weight in WEIGHTS}
    shipped: set[str] = set()
    for path in paths:
        for weight, wide in faces(path):
            shipped |= {*wide} if path.name.startswith("FiraSans") else set()
            for character, advance in wide.items():
                shown = STAND_INS.get(character, character)
                most[weight][shown] = max(most[weight][shown], advance)
    told = [c for c in sorted(shipped) if category(c)[0] not in "CM"]
    return {c: (ceil(most[400][c] * 100), ceil(most[700][c] * 100)) for c in told}


def main() -> None:
    """Write the table."""
    by_width: dict[tuple[int, int], str] = defaultdict(str)
    for character, both in greatest(Path(word) for word in sys.argv[1:]).items():
        by_width[both] += character
    lines = [f"{one} {two} {text}\n" for (one, two), text in sorted(by_width.items())]
    OUT.write_text("".join(lines), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
