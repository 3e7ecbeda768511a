"""Pages are counted and measured in the bytes of the file, as PDF 32000-1 has them."""

import re
import time

import pytest
from hypothesis import given, settings
from tests.draw.hostile import TEXTS, any_text, lettered, one_of_everything

from dryfit.draw.lettering import in_print
from dryfit.draw.paper import Lettering
from dryfit.draw.pdf import in_print_only, pdf

POINT = 25.4 / 72
"""Millimetres: PDF 32000-1, 8.3.2.3, the unit of default user space is 1/72 inch."""

NEAR = 0.01
"""Millimetres; sizes of pages are written as single precision."""


def _pages(data: bytes) -> list[tuple[float, ...]]:
    boxes = re.findall(rb"/MediaBox\s*\[([^\]]*)\]", data)
    return [tuple(float(word) * POINT for word in box.split()) for box in boxes]


def test_it_is_one_page_of_the_size_of_the_drawing() -> None:
    """Printed as it is, the drawing has its size, and nothing else is on the sheet."""
    data = pdf(one_of_everything())
    assert data.startswith(b"%PDF-1.")
    assert _pages(data) == [pytest.approx((0.0, 0.0, 120.5, 80.25), abs=NEAR)]


def test_same_drawing_is_the_same_file() -> None:
    """Made again a second later it has the same bytes: no time of day is in it."""
    first = pdf(one_of_everything())
    time.sleep(1.1)
    assert pdf(one_of_everything()) == first
    assert b"CreationDate" not in first


def test_faces_of_the_package_are_in_it() -> None:
    """Text is set in the face that dryfit brings, whatever the machine has."""
    faces = set(re.findall(rb"/BaseFont/[A-Z]{6}\+(\w+)-", pdf(lettered("float 0.05 ⌀40"))))
    assert faces == {b"FiraSans"}


@pytest.mark.parametrize("text", TEXTS)
def test_text_is_never_taken_for_commands(text: str) -> None:
    """Whatever is typed is drawn as letters: the page is made, and is one."""
    assert len(_pages(pdf(lettered(text or "x")))) == 1


@settings(max_examples=30)
@given(any_text)
def test_no_text_keeps_the_page_from_being_made(text: str) -> None:
    """Halves of characters, control characters, any script: one page."""
    assert len(_pages(pdf(lettered(text)))) == 1


def test_letters_without_a_shape_are_told_by_number() -> None:
    """What no face in the package has a shape for is told by its number, not drawn as a box."""
    shown = in_print_only(lettered("軸 40"))
    (item,) = shown.groups[0].items
    assert isinstance(item, Lettering)
    assert item.text == shown.title == "‹8EF8› 40"
    assert in_print(item.text) == item.text
