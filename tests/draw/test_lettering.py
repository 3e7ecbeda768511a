"""Widths are compared with those in the files of real faces, read by fontTools."""

from functools import cache
from pathlib import Path
from unicodedata import category

import fontpkg_fira_sans
import fontpkg_noto_sans
import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from dryfit.draw.lettering import CAP, STAND_INS, box, in_print, width, widths, written
from dryfit.draw.paper import Anchor, Lettering

FIRA = Path(fontpkg_fira_sans.__file__).parent / "files"
NOTO = Path(fontpkg_noto_sans.__file__).parent / "files"
FACES = {
    "Fira Sans": (FIRA / "FiraSans-Regular.ttf", False),
    "Fira Sans Bold": (FIRA / "FiraSans-Bold.ttf", True),
    "Noto Sans": (NOTO / "NotoSans[wdth,wght].ttf", False),
}


@cache
def _advances(path: Path) -> dict[str, float]:
    font = TTFont(path)
    em = font["head"].unitsPerEm
    wide = font["hmtx"].metrics
    return {chr(code): wide[name][0] / em for code, name in font.getBestCmap().items()}


def _set(text: str, face: str, height: float) -> float:
    """Width of a text as that face sets it, for characters that it has [mm]."""
    advances = _advances(FACES[face][0])
    return sum(advances.get(c, 0.0) for c in text) * height / CAP


@pytest.mark.parametrize("face", FACES)
@given(text=st.text(st.sampled_from(sorted(widths())), max_size=80))
def test_no_text_is_wider_than_told(face: str, text: str) -> None:
    """Room that was left for a text is enough in either face."""
    told = width(text, 3.5, bold=FACES[face][1])
    assert _set(written(text), face, 3.5) <= told + 1e-9


@pytest.mark.parametrize("face", FACES)
@given(text=st.text(max_size=40))
def test_no_strange_text_is_wider_than_told(face: str, text: str) -> None:
    """Room is enough also where characters are told by their number, and where they are not."""
    told = width(text, 3.5, bold=FACES[face][1])
    assert _set(in_print(text), face, 3.5) <= told + 1e-9
    assert _set(written(text), face, 3.5) <= told + 1e-9


def test_widths_are_not_wasteful() -> None:
    """A line of words leaves less than a fifth of its room empty in the widest of the faces."""
    line = "End float of the wheel shaft against the cover pack, 0.35 mm"
    widest = max(_set(line, face, 3.5) for face in FACES)
    assert width(line, 3.5) < 1.2 * widest


def test_capitals_are_as_high_as_told() -> None:
    """Type for capitals of 1 mm gives 0.95 to 1.03 mm, by what the faces say of themselves."""
    for path, _ in FACES.values():
        font = TTFont(path)
        capitals = font["OS/2"].sCapHeight / font["head"].unitsPerEm
        assert 0.95 < capitals / CAP < 1.03


def test_every_character_in_the_table_is_in_the_package() -> None:
    """What counts as printable has a shape in both faces of the package."""
    for face in ("Fira Sans", "Fira Sans Bold"):
        assert {*widths()} <= {*_advances(FACES[face][0])}
    assert {*STAND_INS.values()} <= {*widths()}
    assert not {*STAND_INS} & {*widths()}


def test_what_cannot_be_seen_is_told_by_number() -> None:
    """Control characters and those that turn the direction of writing do not hide."""
    assert written("a\0‮\ud800b") == "a‹0000›‹202E›‹D800›b"
    assert not [c for c in widths() if category(c)[0] in "CM"]


@given(st.text(max_size=40))
def test_writing_it_twice_changes_nothing(text: str) -> None:
    """A text that was made legible once stays as it is."""
    assert written(written(text)) == written(text)
    assert in_print(in_print(text)) == in_print(text)


@pytest.mark.parametrize(
    ("anchor", "turned", "want"),
    [
        (Anchor.START, False, (10.0, 19.1, 16.0, 23.45)),
        (Anchor.MIDDLE, False, (7.0, 19.1, 13.0, 23.45)),
        (Anchor.END, False, (4.0, 19.1, 10.0, 23.45)),
        (Anchor.START, True, (6.55, 20.0, 10.9, 26.0)),
        (Anchor.END, True, (6.55, 14.0, 10.9, 20.0)),
    ],
)
def test_box_lies_about_the_text(
    anchor: Anchor, turned: bool, want: tuple[float, float, float, float]
) -> None:
    """By hand: 3 mm capitals, 0.9 below and 3.45 above the line, 6 mm long by its own width."""
    text = Lettering((10.0, 20.0), "|", 3.0, anchor, turned=turned)
    long = 6.0 / width("|", 3.0)
    found = box(Lettering((10.0, 20.0), "|", 3.0, anchor, turned=turned))
    wide = width(text.text, 3.0)
    grown = 0 if not turned else 1
    low, high = found[grown], found[grown + 2]
    assert high - low == pytest.approx(wide)
    assert low == pytest.approx((10.0, 20.0)[grown] + (want[grown] - (10.0, 20.0)[grown]) / long)
    other = 1 - grown
    assert (found[other], found[other + 2]) == pytest.approx((want[other], want[other + 2]))
