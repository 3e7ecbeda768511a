"""The first page."""

from playwright.sync_api import Page
from tests.pages.visiting import Visitor


def test_a_demo_is_one_press_away(page: Page) -> None:
    """Somebody who only wants to look has a worked example after one press."""
    page.get_by_role("button", name="lay shaft", exact=True).click()
    page.wait_for_url("**/unit/1/measure")


def test_the_question_stands_first(visitor: Visitor) -> None:
    """The first page asks what is on the bench."""
    assert "What is on your bench?" in visitor.read("/")
