"""What holds of every page: it can be read and worked by anybody, on any screen, and on paper."""

import re
from collections.abc import Iterator
from itertools import pairwise

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect
from tests.pages.visiting import Opened, Visitor, open_dryfit

from dryfit.app.pages import registry
from dryfit.app.usecases import demos

KIND = "/kind/bevel-drive"
SITE = ("/", "/copies", "/walk", KIND)
OF_A_UNIT = (
    *("strip", "measure", "text", "history", "set", "walk", "build", "run-in", "book"),
    "first-answer",
)
ABOUT = ("measure/cover", "build/5", "build/8")
PATHS = (*SITE, *(f"/unit/1/{name}" for name in (*OF_A_UNIT, *ABOUT)))
DEMO = "bevel-box"

PIECES = {
    *("strip/order", "photograph", "photograph/small", "first-answer/told"),
    *("drawing", "numbers", "walk-told", "book/sheet", "book/file"),
    *(f"set/{piece}" for piece in ("chance", "fit", "checks", "tried", "needs", "plots")),
    *(f"build/{piece}" for piece in ("steps", "step", "hold")),
}
"""What is no page by itself: pieces that a script puts in their place, and files."""


@pytest.fixture(scope="module")
def demo(
    browser: Browser, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[Opened, Page]]:
    """Open dryfit with a demo begun, on a laptop, for all tests here."""
    running = open_dryfit(tmp_path_factory.mktemp("demo") / "home")
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    tab = context.new_page()
    tab.goto(running.address)
    tab.get_by_role("button", name=DEMO.replace("-", " "), exact=True).click()
    tab.wait_for_url("**/unit/1/**")
    yield running, tab
    context.close()
    running.close()


def show(demo: tuple[Opened, Page], path: str) -> Page:
    """Go to a page and wait until all its pieces are there."""
    running, tab = demo
    tab.goto(running.base + path)
    expect(tab.locator(".later, [data-later]")).to_have_count(0, timeout=120_000)
    return tab


def test_every_page_is_looked_at() -> None:
    """A page that is added is held to what stands here, too."""
    listed = {name for name in registry.SITE_PAGES if name} | set(registry.UNIT_PAGES)
    site = {path[1:].partition("/")[0] for path in SITE if path != "/"}
    assert listed - PIECES == site | set(OF_A_UNIT)


@pytest.mark.parametrize("light", ["paper", "workshop"])
@pytest.mark.parametrize("path", PATHS)
def test_anybody_can_use_it(demo: tuple[Opened, Page], path: str, light: str) -> None:
    """Nothing serious stands in the way of a screen reader or weak eyes (axe-core, all rules)."""
    running, tab = demo
    address = {"name": "dryfit-light", "value": light, "url": running.base}
    tab.context.add_cookies([address])  # type: ignore[list-item]
    show(demo, path)
    found = [
        f"{one['id']}: {one['help']}: {[node['target'] for node in one['nodes']][:3]}"
        for one in Axe().run(tab).response["violations"]
        if one["impact"] in ("serious", "critical")
    ]
    assert not found, "\n".join(found)


@pytest.mark.parametrize("width", [360, 768, 1280, 1920])
@pytest.mark.parametrize("path", PATHS)
def test_nothing_runs_off_the_side(demo: tuple[Opened, Page], path: str, width: int) -> None:
    """On a phone and on a wide screen the page itself never slides sideways."""
    _, tab = demo
    tab.set_viewport_size({"width": width, "height": 800})
    show(demo, path)
    assert tab.evaluate("document.documentElement.scrollWidth") <= width
    tab.set_viewport_size({"width": 1280, "height": 900})


@pytest.mark.parametrize("path", PATHS)
def test_on_paper_it_is_black_on_white(demo: tuple[Opened, Page], path: str) -> None:
    """Printed, a page has no strip and nothing to press, and stands black on white."""
    _, tab = demo
    show(demo, path)
    tab.emulate_media(media="print")
    left = tab.evaluate(
        """() => [...document.querySelectorAll('.strip, .button, .plain')]
        .filter((one) => one.checkVisibility()).map((one) => one.outerHTML.slice(0, 90))"""
    )
    colours = tab.evaluate(
        "() => [getComputedStyle(document.body).color, "
        "getComputedStyle(document.body).backgroundColor]"
    )
    tab.emulate_media(media="screen")
    assert left == []
    assert colours == ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]


@pytest.mark.parametrize("path", PATHS)
def test_what_is_touched_is_large_enough(demo: tuple[Opened, Page], path: str) -> None:
    """On a phone every button and box can be hit: 44 px high, the least of WCAG 2.2's 2.5.5 (AAA).

    From memory; links within a sentence are left out there as well.
    """
    _, tab = demo
    tab.set_viewport_size({"width": 360, "height": 800})
    show(demo, path)
    small = tab.evaluate(
        """() => [...document.querySelectorAll('button, .button, input:not([type=hidden]), select')]
        .filter((one) => one.checkVisibility())
        .map((one) => [one.outerHTML.slice(0, 90), (one.closest('label') ?? one)
            .getBoundingClientRect().height])
        .filter(([, high]) => high < 44)"""
    )
    tab.set_viewport_size({"width": 1280, "height": 900})
    assert small == []


@pytest.mark.parametrize("path", PATHS)
def test_one_thing_to_do_next(visitor: Visitor, path: str) -> None:
    """At most one button of a page is the one to press next; headings go down step by step."""
    visitor.demo(DEMO)
    told = visitor.read(path)
    assert len(re.findall(r'class="button[^"]*\bfirst\b', told)) <= 1
    levels = [int(level) for level in re.findall(r"<h([1-6])", told)]
    assert levels[0] == 1
    assert levels.count(1) >= 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


@pytest.mark.parametrize("path", PATHS)
def test_every_page_is_data_too(visitor: Visitor, path: str) -> None:
    """What a page shows can be read as data, by a program of one's own."""
    visitor.demo(DEMO)
    assert "frame" in visitor.data(path)


HOSTILE = "<script>alert(1)</script>\"'&{{7*7}}"


@pytest.mark.parametrize("path", PATHS)
def test_a_strange_title_is_only_shown(visitor: Visitor, path: str) -> None:
    """A text mailed by a stranger can put nothing into a page: it is shown as it was typed."""
    text = demos.text(DEMO).decode()
    title = HOSTILE.replace("'", "''")
    changed = re.sub(r"(?m)^title:.*$", lambda _: f"title: '{title}'", text)
    assert changed != text
    visitor.begin(changed)
    told = visitor.read(path)
    assert "<script>alert" not in told
    if path not in ("/copies", "/walk", KIND):
        assert "alert(1)" in told
        assert "{{7*7}}" in told
    assert ">49<" not in told
