"""Published examples agree within what their print and the draws allow, and pin their inputs."""

from pathlib import Path

import pytest
from tests.checks.cases import CASES, as_published, missed, moved, ours
from tests.validation_page import page

PAGE = Path(__file__).resolve().parent.parent / "docs" / "validation.md"


@pytest.mark.parametrize("name", CASES)
def test_agrees_with_its_source(name: str) -> None:
    """What somebody else has printed is what dryfit's draws and formulas give."""
    assert missed(CASES[name], as_published(name)) == []


MOVED = [(name, argument) for name, case in CASES.items() for argument in case.moved]


@pytest.mark.parametrize(("name", "argument"), MOVED)
def test_an_input_a_tenth_larger_is_seen(name: str, argument: str) -> None:
    """A case that still passed with an input moved would prove nothing about that input."""
    changed = moved(CASES[name], argument)
    assert missed(changed, ours(changed)) != []


def test_every_case_moves_an_input_or_says_why_not() -> None:
    """A case without a moved input gives its reason, and what luck allows gives its own."""
    for case in CASES.values():
        assert case.moved or case.steady, case.name
        assert all(e.because for e in case.expected if e.luck), case.name


def test_page_is_made_from_the_cases(request: pytest.FixtureRequest) -> None:
    """The validation page shows these very cases and figures."""
    if request.config.getoption("--remake-schemas"):
        PAGE.write_text(page(), encoding="utf-8", newline="\n")
    assert PAGE.read_text(encoding="utf-8") == page()
