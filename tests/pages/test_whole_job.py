"""One job from the first page to the book, as a builder would go through it."""

import re

from playwright.sync_api import Page, expect
from tests.pages.visiting import Opened

LONG = 120_000
"""How long an answer may take on a slow machine [ms]."""


def settled(page: Page) -> None:
    """Wait until all pieces of a page are there."""
    expect(page.locator(".later, [data-later], [aria-busy]")).to_have_count(0, timeout=LONG)


def phase(page: Page, name: str) -> None:
    """Go to a phase of the work by its strip on top."""
    strip = page.get_by_role("navigation", name="Phases of the work")
    strip.get_by_role("link", name=re.compile(f"^{name}")).click()
    settled(page)


def as_it_should(page: Page) -> str:
    """Read off a hold point what it should read: the figure and its unit."""
    told = page.locator("main").inner_text()
    found = re.search(r"hould (?:read|show) ([\d.]+ (?:mm|in|N))", told)
    assert found, told
    return found[1]


def test_from_the_first_page_to_the_book(page: Page, opened: Opened) -> None:
    """The right-angle box: begun, a size typed anew, shims looked up, built, run in, printed."""
    page.get_by_role("button", name="bevel box", exact=True).click()
    page.wait_for_url("**/unit/1/**")

    phase(page, "Measure")
    page.locator("#parts").get_by_role("link", name="cover").first.click()
    settled(page)
    box = page.locator(".size input:not([type=hidden])").first
    box.fill("-6,35")
    box.press("Enter")
    expect(page.locator(".size .echo").first).to_have_text("-0.2500 in")  # 6.35 / 25.4, by hand
    settled(page)

    phase(page, "Set")
    expect(page.locator(".headline").first).to_have_text(re.compile(r"^\d+"))
    expect(page.locator("body")).not_to_contain_text("irst look")

    phase(page, "Build")
    page.get_by_role("link", name="Begin with step 1").click()
    verdicts = []
    while page.get_by_text("All steps done").count() == 0:
        settled(page)
        if page.locator(".reading input").count():
            reading = page.locator(".reading input").first
            reading.fill(as_it_should(page).partition(" ")[0])
            reading.press("Enter")
            verdict = page.locator(".call .verdict").first
            expect(verdict).to_be_visible(timeout=LONG)
            verdicts.append(verdict.inner_text().strip())
            settled(page)
        page.get_by_role("button", name=re.compile("^Done")).click()
        page.wait_for_load_state()
    assert verdicts == ["Fits"] * 4

    page.goto(f"{opened.base}/unit/1/run-in")
    settled(page)
    expect(page.locator("h1")).to_contain_text("run in")

    phase(page, "Book")
    with page.context.expect_page() as shown:
        page.get_by_role("link", name="A4 of The whole book").click()
    shown.value.close()
    status, told = opened.ask("/unit/1/book/sheet/book")
    assert status == 200
    assert told.startswith("%PDF-")
    text = opened.ask("/unit/1/book/file/text")[1]
    assert "-6.35" in text
    assert "readings:" in text
