"""Books of the demos, made once, and the text of PDF pages as pypdf reads it."""

import io
from datetime import date
from functools import cache, partial

from pypdf import PdfReader

from dryfit.app.paper.known import Known
from dryfit.app.paper.press import Imprint, Paper
from dryfit.app.usecases import demos
from dryfit.app.usecases.binding import BookAnswer, bound, known_of
from dryfit.app.usecases.book import BookRequest, sheets_of
from dryfit.app.usecases.choose import ChooseAnswer, ChooseRequest, choose
from dryfit.app.usecases.opening import open_text

DAY = date(2026, 5, 14)
DRAWS = 200
FOOT = (
    "Local rules and a competent person come first.",
    "Not for lifting gear, vehicle brakes or steering, or aircraft.",
    "Figures marked common practice come from no standard.",
)
SIZES: dict[Paper, tuple[float, float]] = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}
"""ISO 216: A4 is 210 x 297 mm; Letter is 8.5 x 11 in; in points of 1/72 in."""


def asked(name: str, paper: Paper = "a4") -> BookRequest:
    """Ask for the book of a demo."""
    return BookRequest(demos.text(name), f"{name}.yaml", DAY, paper, DRAWS)


@cache
def known(name: str) -> Known:
    """Ask all there is to ask of a demo, once for all papers."""
    text = demos.text(name)
    return known_of(open_text(text), DRAWS)


@cache
def made(name: str, paper: Paper = "a4") -> BookAnswer:
    """Make the book of a demo, once; as `book` makes it, which a test holds to the byte."""
    unit = known(name)
    imprint = Imprint(unit.answer.title, f"{name}.yaml", DAY, paper)
    return bound(unit, unit.answer.findings, imprint, partial(sheets_of, unit))


@cache
def answer(name: str) -> ChooseAnswer:
    """Answer a demo with as many draws as its book, by the other door."""
    return choose(ChooseRequest(demos.text(name), DRAWS))


def reader(pdf: bytes) -> PdfReader:
    """Open a PDF."""
    return PdfReader(io.BytesIO(pdf))


def raw(pdf: bytes) -> list[str]:
    """Give the text of each page, lines as they stand."""
    return [page.extract_text() for page in reader(pdf).pages]


def texts(pdf: bytes) -> list[str]:
    """Give the text of each page on one line."""
    return [" ".join(page.split()) for page in raw(pdf)]


def titles_on(pdf: bytes) -> list[tuple[str, ...]]:
    """Give for each page the lines set in the largest type, those of titles [24 pt and more]."""
    found = []
    for page in reader(pdf).pages:
        large: list[str] = []

        def note(text: str, _: object, matrix: list[float], __: object, size: float) -> None:
            if text.strip() and abs(size * matrix[3]) >= 24:
                large.append(text)  # noqa: B023

        page.extract_text(visitor_text=note)
        found.append(tuple(large))
    return found
