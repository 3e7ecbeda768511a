"""The page docs/virtual-bench.md shows what the bench finds."""

import re

import pytest
from tests.bench.page import PAGE, page

FIGURE = r"\b\d+\.\d\b"


@pytest.mark.prove
def test_page_is_made_from_the_bench(request: pytest.FixtureRequest) -> None:
    """Every figure of the tables is found again, within 0.3 in 100.

    Compiled or by arrays the last places differ, and of thousands of units a few may fall on the
    other side of a limit.
    """
    made = page()
    if request.config.getoption("--remake-schemas"):
        PAGE.write_text(made, encoding="utf-8", newline="\n")
    there = PAGE.read_text(encoding="utf-8")
    assert re.sub(FIGURE, "", there) == re.sub(FIGURE, "", made)
    figures = [[float(x) for x in re.findall(FIGURE, text)] for text in (there, made)]
    assert figures[0] == pytest.approx(figures[1], abs=0.3)
