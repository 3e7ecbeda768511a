"""The pages as a browser sees them: over the wire without one, or in chromium.

`visitor` posts forms and reads answers in this process. `browser` is chromium, driven from outside,
at pages of a `dryfit open` of its own. Without chromium those tests are passed over and say how to
get it; where the variable DRYFIT_BROWSER is `must` they fail.
"""

import os
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from anyio import open_file
from playwright.sync_api import Browser, ConsoleMessage, Page, sync_playwright
from starlette.testclient import TestClient
from tests.pages.visiting import HOME, KEY, PORT, HereDesk, Opened, Visitor, open_dryfit

from dryfit.app.pages.guard import Guard
from dryfit.app.pages.site import site
from dryfit.store.opening import Store, open_store

LOADED = open_file
"""Loaded before a browser is driven: from then on Python 3.11 cannot always compile a module."""

NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome", "msedge")
NO_BROWSER = (
    "no chromium was found. On Debian: apt install chromium; elsewhere install it the way this "
    "machine gets programs, or name one by DRYFIT_CHROMIUM"
)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """Open a store of its own."""
    kept = open_store(tmp_path / "home")
    yield kept
    kept.close()


@pytest.fixture
def visitor(store: Store) -> Iterator[Visitor]:
    """Visit the pages of that store."""
    app = Guard(site(store, HereDesk()), key=KEY, port=PORT)
    with TestClient(app, base_url=HOME) as client:
        client.get("/", params={"key": KEY})
        yield Visitor(client, store)


def chromium() -> str | None:
    """Find a browser on this machine."""
    named = os.environ.get("DRYFIT_CHROMIUM")
    return named or next((found for name in NAMES if (found := shutil.which(name))), None)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start chromium."""
    found = chromium()
    if found is None:
        if os.environ.get("DRYFIT_BROWSER") == "must":
            pytest.fail(NO_BROWSER)
        pytest.skip(NO_BROWSER)
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=found, args=["--no-sandbox"])
        yield started
        started.close()


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[Opened]:
    """Open dryfit on an empty folder."""
    running = open_dryfit(tmp_path / "home")
    yield running
    running.close()


def is_trouble(said: ConsoleMessage) -> bool:
    """Tell what is wrong from an answer that says that something typed was not kept."""
    return said.type == "error" and not re.search(r"status of (409|422)", said.text)


@pytest.fixture
def page(browser: Browser, opened: Opened) -> Iterator[Page]:
    """Look at the first page on a laptop; what a script complains of fails the test."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    tab = context.new_page()
    trouble: list[str] = []
    tab.on("pageerror", lambda error: trouble.append(str(error)))
    tab.on("console", lambda said: trouble.append(said.text) if is_trouble(said) else None)
    tab.goto(opened.address)
    yield tab
    context.close()
    assert not trouble
