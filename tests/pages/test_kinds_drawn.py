"""The half-sections of the first page are those that the program draws.

Made anew by: python run.py test tests/pages/test_kinds_drawn.py --remake-schemas
"""

import re

import pytest

from dryfit.app.pages.kind import DRAWN as FOLDER
from dryfit.app.pages.kind import bare, lettered
from dryfit.app.usecases import begin
from dryfit.app.usecases.drawing_kind import drawn_kind, letters_of
from dryfit.app.usecases.opening import open_text
from dryfit.app.words.first_sizes import Kind
from dryfit.app.words.kinds import KINDS
from dryfit.draw.svg import svg

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
NEAR = 0.01
"""Places on paper may differ by so much [mm]: it cannot be seen, and machines round differently."""


def _drawn(kind: Kind) -> dict[str, str]:
    values = [*((size.place, size.usual) for size in kind.sizes), *kind.drawn]
    done = begin.filled(begin.start(kind.start).decode(), values)
    assert done.findings == ()
    made = drawn_kind(done.text, {size.place: size.letter for size in kind.sizes})
    return {f"{kind.start}.svg": svg(made.bare), f"{kind.start}-lettered.svg": svg(made.lettered)}


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.start)
def test_half_sections_are_drawn_by_the_program(kind: Kind, request: pytest.FixtureRequest) -> None:
    """What is pointed at is what the program makes of that start, not an artist's picture."""
    made = _drawn(kind)
    if request.config.getoption("--remake-schemas"):
        for name, drawing in made.items():
            (FOLDER / name).write_text(drawing, encoding="utf-8", newline="\n")
    for drawing, kept in zip(made.values(), (bare(kind), lettered(kind)), strict=True):
        assert NUMBER.sub("#", drawing) == NUMBER.sub("#", kept)
        ours, theirs = (list(map(float, NUMBER.findall(text))) for text in (drawing, kept))
        assert ours == pytest.approx(theirs, abs=NEAR)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.start)
def test_letters_are_those_of_the_unit(kind: Kind) -> None:
    """A length keeps its letter from the first boxes to the book."""
    rebuild = open_text(begin.start(kind.start)).rebuild
    wanted = letters_of(rebuild, [size.place for size in kind.sizes])
    assert {size.place: size.letter for size in kind.sizes} == wanted


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.start)
def test_each_letter_stands_on_the_drawing(kind: Kind) -> None:
    """Whoever reads a letter beside a box finds it on the drawing."""
    shown = re.findall(r"<text[^>]*>([^<]*)</text>", lettered(kind))
    assert {size.letter for size in kind.sizes} <= {*shown}
    assert len(kind.sizes) <= 10


def test_every_start_can_be_pointed_at() -> None:
    """No kind that there is a start for is missing on the first page, and six there are."""
    assert {kind.start for kind in KINDS} == {*begin.kinds()} - {"blank"}
    assert len(KINDS) == 6
