"""The book of every demo: its sheets, what stands on each, and that its figures are the answers'.

Figures are read back from the PDF by pypdf and compared with the answer as plain numbers, so the
words that print them are not their own witness.
"""

import re
from itertools import pairwise
from math import floor, log10

import pytest
from tests.book.pages import (
    DAY,
    DRAWS,
    FOOT,
    SIZES,
    answer,
    asked,
    made,
    raw,
    reader,
    texts,
    titles_on,
)

from dryfit.app.paper.press import PAPERS, Paper
from dryfit.app.usecases import demos
from dryfit.app.usecases.answers import CheckAnswer
from dryfit.app.usecases.book import BookRequest, book

MM = 25.4
"""An inch in millimetres, exactly: NIST SP 811, Appendix B, from memory."""

NUMBER = r"(-?\d+(?:\.\d+)?)"

both_papers = pytest.mark.parametrize("paper", PAPERS)
every_demo = pytest.mark.parametrize("name", demos.names())


@every_demo
@both_papers
def test_each_section_begins_a_sheet(name: str, paper: Paper) -> None:
    """A sheet taken out of the book to the bench begins with what it is about."""
    done = made(name, paper)
    begun = ["".join(lines).replace("  ", " ") for lines in titles_on(done.pdf)]
    places = [
        next((n for n, large in enumerate(begun) if large.startswith(title)), -1)
        for title in done.titles
    ]
    assert -1 not in places
    assert all(one < other for one, other in pairwise(places))


@every_demo
@both_papers
def test_each_page_stands_alone(name: str, paper: Paper) -> None:
    """Every page has the unit, its number of how many, the limits of use, the file and the day."""
    done = made(name, paper)
    pages = texts(done.pdf)
    unit = answer(name).title
    for n, (text, page) in enumerate(zip(pages, reader(done.pdf).pages, strict=True), 1):
        assert unit in text
        assert f"{n} of {len(pages)}" in text
        assert [line for line in FOOT if line not in text] == []
        assert f"{name}.yaml" in text
        assert f"printed {DAY.day} May {DAY.year}" in text
        wide, high = SIZES[paper]
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
            (wide, high),
            abs=0.1,  # a tenth of a point is 0.04 mm: no printer cuts finer
        )


@pytest.mark.parametrize("name", ["feed-box", "bevel-box"])
def test_same_text_and_day_give_the_same_bytes(name: str) -> None:
    """A book can be compared with the one printed last year: only what changed differs."""
    assert book(asked(name)).pdf == made(name).pdf


def test_another_day_gives_another_book() -> None:
    """The day is in the file: it is not the same bytes by throwing everything away."""
    request = asked("feed-box")
    later = type(request)(request.text, request.file, DAY.replace(day=15), "a4", request.draws)
    assert book(later).pdf != made("feed-box").pdf


@every_demo
def test_faces_are_inside(name: str) -> None:
    """The book prints alike on any machine: every face it uses is in the file."""
    fonts = [
        font.get_object()
        for page in reader(made(name).pdf).pages
        for font in page["/Resources"]["/Font"].values()  # type: ignore[index]
    ]
    assert fonts
    for font in fonts:
        inner = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
        described = inner["/FontDescriptor"].get_object()
        assert {"/FontFile2", "/FontFile3"} & set(described), font["/BaseFont"]


def _last_digit(text: str) -> float:
    """Half of one in the last digit, which is what rounding may take; and a hair for binary."""
    return 0.5 * 10.0 ** -len(text.partition(".")[2]) * (1 + 1e-6)


def _agree(printed: str, value: float) -> bool:
    return abs(float(printed) - value) <= _last_digit(printed)


def _page_of(check: CheckAnswer, name: str) -> str:
    pages = texts(made(name).pdf)
    return next(p for p in pages[1:] if f"Check: {check.name}" in p and "should" in p)


@every_demo
def test_expected_readings_are_the_answers(name: str) -> None:
    """What a check should read, and its band, is on its sheet as the answer has it."""
    for check in answer(name).checks:
        text = _page_of(check, name)
        if check.force:
            (typed, low, high) = re.search(rf"{NUMBER} N {NUMBER} to {NUMBER} N", text).groups()  # type: ignore[union-attr]
            # Two figures are printed: half of the second is 5 % of a figure that begins with 1.
            # What is expected is as fine as the width of the band: half of its second figure.
            force = check.force
            fine = 10.0 ** (floor(log10(force.high_n - force.low_n)) - 1)
            assert float(typed) == pytest.approx(force.expected_n, abs=0.501 * fine)
            assert float(low) == pytest.approx(force.low_n, rel=0.05, abs=1e-6)
            assert float(high) == pytest.approx(force.high_n, rel=0.05)
            continue
        found = re.search(rf"{NUMBER} (mm|in) {NUMBER} to {NUMBER} (?:mm|in)", text)
        assert found is not None
        assert check.expected_mm is not None
        assert check.low_mm is not None
        assert check.high_mm is not None
        unit = 1.0 if found[2] == "mm" else MM
        assert _agree(found[1], check.expected_mm / unit)
        assert _agree(found[3], check.low_mm / unit)
        assert _agree(found[4], check.high_mm / unit)


@every_demo
def test_packs_are_the_answers(name: str) -> None:
    """The pack to fit and its pieces stand on the sheet of the setting."""
    done, pages = answer(name), texts(made(name).pdf)
    for one in done.settings:
        if one.pack is None or one.nut is not None:
            continue
        text = next(p for p in pages[1:] if f"Fit: {one.part}" in p)
        found = re.search(rf"{NUMBER} (mm|in) \({NUMBER} (?:mm|in)\)", text)
        assert found is not None
        unit = 1.0 if found[2] == "mm" else MM
        assert _agree(found[1], one.pack.thickness_mm / unit)
        if len(one.pack.pieces) > 1:
            assert " + ".join(one.pack.pieces) in text


@every_demo
def test_chances_are_the_answers(name: str) -> None:
    """The cover has the first-time chances, by the sizes and with what usually goes wrong."""
    done = answer(name)
    cover = texts(made(name).pdf)[0]
    told = re.findall(r"(over|under)? ?(\d+) in 100\b(?! mm)", cover)
    chances = [c for c in (done.chance_as_it_is, done.chance) if c is not None]
    chances += [done.usual.chance] if done.usual else []
    assert len(told) in (len(chances), len(chances) - 1)  # advice that changes nothing is not told
    for beyond, figure in told:
        assert any(_is_chance(beyond, int(figure), chance) for chance in chances)
    if done.usual is not None:
        assert _is_chance(*_as_told(told[-1]), done.usual.chance)
    advised = len(told) == len(chances) or done.chance_as_it_is is None
    assert ("done as advised" in " ".join(cover.split())) == (advised and done.chance is not None)


def _as_told(one: tuple[str, str]) -> tuple[str, int]:
    return one[0], int(one[1])


def _is_chance(beyond: str, figure: int, chance: float) -> bool:
    """Nothing is said to be certain: over 99 and under 1 stand for the ends."""
    if beyond:
        return chance > 0.995 if beyond == "over" else chance < 0.005
    return abs(figure / 100 - chance) <= 0.005 + 1e-9


@every_demo
def test_every_size_stands_with_its_instrument(name: str) -> None:
    """No size that was typed is left out of the book, nor what it was measured with."""
    from dryfit.app.usecases.opening import open_text

    rebuild = open_text(demos.text(name)).rebuild
    text = " ".join(texts(made(name).pdf)).replace(" ", "")
    for key, between in rebuild.sizes.items():
        assert key.replace(" ", "") in text
        if instrument := getattr(between.size, "instrument", None):
            assert instrument.replace(" ", "") in text
    for part in rebuild.parts:
        assert part.replace(" ", "") in text


@every_demo
def test_each_check_has_its_caution_and_boxes(name: str) -> None:
    """A check's sheet has its set-up, its caution before its steps, and room for three readings."""
    from dryfit.app.words.trade import CARE

    for check in answer(name).checks:
        text = _page_of(check, name)
        assert text.index("Tools") < text.index(f"Care. {CARE[check.kind]}")
        assert text.index("Care.") < text.index("should")
        assert "first second third their mean date" in text
        assert "If it reads more" in text
        assert "If it reads less" in text


@pytest.mark.parametrize("title", ["lathe " * 33, "W" * 200])
def test_a_long_title_leaves_room_for_the_drawing(title: str) -> None:
    """With a title of 200 characters the cover is still one sheet, its picture not a stamp."""
    text = demos.text("feed-box").decode().replace("title: Scarth Foss feed box", f"title: {title}")
    found = book(BookRequest(text.encode(), "x.yaml", DAY, "a4", DRAWS))
    cover, second = reader(found.pdf).pages[:2]
    assert "What is wanted" in second.extract_text()
    heights: list[float] = []

    def seen(text: str, cm: list[float], tm: list[float], _font: object, _size: float) -> None:
        if "That it closes up" in text:
            heights.append(tm[5] * cm[3] + cm[5])

    cover.extract_text(visitor_text=seen)
    assert len(heights) == 1
    assert heights[0] > 842 / 2  # points from the foot of A4: the picture has the lower half


def test_contents_name_the_page_on_which_a_section_begins() -> None:
    """The list on the cover can be trusted to turn up a sheet."""
    pdf = made("bevel-box").pdf
    listed = dict(re.findall(r"^(.+?) (\d+)$", raw(pdf)[0], re.MULTILINE))
    begun = titles_on(pdf)
    for title in made("bevel-box").titles[1:]:
        assert "".join(begun[int(listed[title]) - 1]).startswith(title)


@every_demo
@both_papers
def test_no_page_is_left_nearly_empty(name: str, paper: Paper) -> None:
    """No page holds but a line or two that did not fit: what is left of one is ruled for notes."""
    done = made(name, paper)
    drawn = {title for title in done.titles if title.startswith("Drawing: ")}
    for text, large in zip(raw(done.pdf), titles_on(done.pdf), strict=True):
        if "".join(large) not in drawn:
            assert len(text.splitlines()) >= 12  # header and footer are 8 of them
