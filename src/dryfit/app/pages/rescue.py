"""What is shown while the store cannot be opened: why, and for a damaged one its copies.

Nothing is touched before a button is pressed. A damaged database is set aside, never written over.
"""

import asyncio
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from typing import ClassVar

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from dryfit.app.pages.asked import Page
from dryfit.app.pages.copies import CopyRow, row
from dryfit.app.pages.frame import Frame
from dryfit.app.pages.light import light_of
from dryfit.app.pages.showing import STATIC, shown
from dryfit.store import copies
from dryfit.store.folder import Folder
from dryfit.store.opening import Store, open_store
from dryfit.store.trouble import Trouble

MENDED_BY_A_COPY = "store.damaged"
"""Code of what bringing back a copy mends."""


@dataclass(frozen=True)
class RescuePage(Page):
    """Why the store is shut; the copies, where one of them would help."""

    template: ClassVar[str] = "rescue.html"
    frame: Frame
    message: str
    way_out: str
    folder: str
    damaged: bool
    copies: tuple[CopyRow, ...]


Opened = Callable[[Store], None]


def rescue(folder: Folder, trouble: Trouble, opened: Opened) -> Starlette:
    """Make the application that is shown instead; `opened` is told the store once it is open."""
    last = trouble

    async def show(request: Request) -> Response:
        page = _page(folder, last)
        return shown(page, light=light_of(request.cookies), as_json=False, status=503)

    def act(do: Callable[[str], Store]) -> Callable[[Request], Awaitable[Response]]:
        async def acting(request: Request) -> Response:
            nonlocal last
            async with request.form() as form:
                chosen = form.get("copy", "")
            try:
                opened(await asyncio.to_thread(do, chosen if isinstance(chosen, str) else ""))
            except Trouble as again:
                last = again
            return RedirectResponse("/", 303)

        return acting

    return Starlette(
        routes=[
            Mount("/static", StaticFiles(directory=STATIC)),
            Route("/again", act(lambda _: open_store(folder.path)), methods=["POST"]),
            Route("/bring-back", act(lambda name: _copy_back(folder, name)), methods=["POST"]),
            Route("/begin-empty", act(lambda _: _empty(folder)), methods=["POST"]),
            Route("/{rest:path}", show, methods=["GET"]),
        ]
    )


def _page(folder: Folder, trouble: Trouble) -> RescuePage:
    found = trouble.finding
    damaged = found.code == MENDED_BY_A_COPY
    return RescuePage(
        Frame(""),
        found.message,
        found.way_out,
        str(folder.path),
        damaged,
        tuple(row(copy) for copy in copies.kept(folder)) if damaged else (),
    )


def _copy_back(folder: Folder, name: str) -> Store:
    """Set aside what is there and put a copy in its place."""
    if name not in {copy.name for copy in copies.kept(folder)}:
        raise Trouble("store.copy", f"there is no copy '{name[:60]}'", "choose one of the list")
    store = _empty(folder)
    try:
        store.bring_back(name)
    except BaseException:
        store.close()
        raise
    return store


def _empty(folder: Folder) -> Store:
    """Set aside what is there and begin with nothing."""
    copies.set_aside(folder)
    return open_store(folder.path)
