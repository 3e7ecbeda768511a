"""The pages as an application of the web: addresses, forms, and what to say when it goes wrong."""

from collections.abc import Awaitable, Callable
from dataclasses import replace
from typing import Any

from starlette.applications import Starlette
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from dryfit.app.pages import registry
from dryfit.app.pages.asked import Asked, Done, File, Moved, Page, PageOf, Refused, Slip
from dryfit.app.pages.desk import Closing, Desk, Overtaken
from dryfit.app.pages.edits import place_in
from dryfit.app.pages.guard import TooMuch
from dryfit.app.pages.hand import Failed
from dryfit.app.pages.light import light_of, remember
from dryfit.app.pages.showing import STATIC, shown
from dryfit.app.pages.wrong import wrong_page
from dryfit.store.opening import Store
from dryfit.store.revisions import newest
from dryfit.store.trouble import Trouble

LONGEST_BOX = 1_500_000
"""Bytes of one box: a whole text of a unit goes into one."""

Handler = Callable[[Request], Awaitable[Response]]


def site(store: Store, desk: Desk) -> Starlette:
    """Make the application for a store."""
    app = Starlette(
        routes=[
            Mount("/static", StaticFiles(directory=STATIC)),
            Route("/unit/{unit:int}/{rest:path}", _told(_unit_page), methods=["GET"]),
            Route("/unit/{unit:int}/{name}", _told(_unit_act), methods=["POST"]),
            Route("/{rest:path}", _told(_site_page), methods=["GET"]),
            Route("/{name}", _told(_site_act), methods=["POST"]),
        ],
        exception_handlers={Exception: _broke},
    )
    app.state.store, app.state.desk = store, desk
    return app


def _asked(request: Request, at: str = "") -> Asked:
    state, number = request.app.state, request.path_params.get("unit")
    unit = None if number is None else newest(state.store, number)
    query = dict(request.query_params)
    return Asked(state.store, state.desk, unit, at, query, light=light_of(request.cookies))


async def _unit_page(request: Request) -> Response:
    name, at = _found(registry.UNIT_PAGES, request.path_params["rest"])
    return await _page(registry.UNIT_PAGES[name], _asked(request, at))


async def _site_page(request: Request) -> Response:
    name, at = _found(registry.SITE_PAGES, request.path_params["rest"])
    return await _page(registry.SITE_PAGES[name], _asked(request, at))


async def _page(page: PageOf, asked: Asked, status: int = 200) -> Response:
    answer = await page(asked)
    if isinstance(answer, Moved):
        return RedirectResponse(answer.to, 303)
    if isinstance(answer, File):
        keep = {"content-disposition": f'attachment; filename="{answer.keep_as}"'}
        return Response(answer.data, 200, keep if answer.keep_as else {}, answer.media)
    return _shown(answer, asked, status)


def _found(names: dict[str, PageOf], rest: str) -> tuple[str, str]:
    """Part an address into the name of a page and what it is about."""
    for name in sorted(names, key=len, reverse=True):
        if rest == name or (name and rest.startswith(f"{name}/")):
            return name, rest[len(name) + 1 :]
    raise HTTPException(404)


async def _unit_act(request: Request) -> Response:
    return await _act(request, registry.UNIT_ACTS, registry.UNIT_PAGES, "measure")


async def _site_act(request: Request) -> Response:
    return await _act(request, registry.SITE_ACTS, registry.SITE_PAGES, "")


async def _act(
    request: Request, acts: dict[str, Any], pages: dict[str, PageOf], usual: str
) -> Response:
    name = request.path_params["name"]
    if name not in acts:
        raise HTTPException(404)
    asked = await _with_form(request, _asked(request))
    try:
        done: Done = await acts[name](asked)
    except Refused as refused:
        slip = refused.slip
    except Trouble as trouble:
        slip = Slip(place_in(asked.form), asked.form, (trouble.finding,))
    else:
        answer = RedirectResponse(done.to, 303)
        remember(answer, asked.form.get("light"))
        return answer
    page = pages.get(asked.form.get("back", usual)) or pages[usual]
    again = _asked(request).again(asked.form.get("at", ""), slip)
    return await _page(page, again, 422 if slip.now is None else 409)


async def _with_form(request: Request, asked: Asked) -> Asked:
    async with request.form(max_part_size=LONGEST_BOX) as form:
        fields = {n: v for n, v in form.items() if isinstance(v, str)}
        brought = {n: v for n, v in form.items() if isinstance(v, UploadFile) and v.filename}
        files = {name: await file.read() for name, file in brought.items()}
    return replace(asked, form=fields, files=files)


def _told(handler: Handler) -> Handler:
    """Tell what goes wrong as a page with the way out; what was typed is in the page before it."""

    async def telling(request: Request) -> Response:
        try:
            return await handler(request)
        except (Trouble, TooMuch, Overtaken, Closing, Failed, HTTPException) as error:
            return _sorry(request, error)

    return telling


async def _broke(request: Request, error: Exception) -> Response:
    """Tell even of what nobody thought of; the whole of it goes to the window dryfit runs in."""
    return _sorry(request, error)


def _sorry(request: Request, error: Exception) -> Response:
    state = request.app.state
    asked = Asked(state.store, state.desk, light=light_of(request.cookies))
    page = wrong_page(error)
    return _shown(page, asked, page.status)


def _shown(page: Page, asked: Asked, status: int) -> Response:
    as_json = asked.query.get("as") == "json"
    return shown(page, light=asked.light, as_json=as_json, status=status)
