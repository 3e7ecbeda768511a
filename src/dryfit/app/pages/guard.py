"""The door of the pages: who may come in, how much may be brought, what a browser may load.

Only this machine gets here, and on it only a browser that was sent by `dryfit open`: it brings the
key of the data folder once, in the address, and then as a cookie. A page of another site can
neither read these pages nor post to them.
"""

import secrets
from http.cookies import CookieError, SimpleCookie

from starlette.datastructures import URL, Headers, MutableHeaders
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}

MOST = {"/bring-in": 100, "/photograph": 21}
"""Megabytes that may be brought to a path with this end; anywhere else `USUAL`."""

USUAL = 2

NO_KEY = (
    "These pages belong to whoever started dryfit here. Start it again (dryfit open) or use the "
    "address that it printed: it has a key in it."
)
NOT_HERE = "These pages are only at {}."
NOT_OURS = "That was posted by another page, not by one of dryfit. Nothing was changed."


class TooMuch(Exception):
    """More was brought than goes here: the limit in megabytes."""

    def __init__(self, most: int) -> None:
        super().__init__(f"more than {most} MB")
        self.most = most


class Guard:
    """What every request passes first."""

    def __init__(self, app: ASGIApp, *, key: str, port: int) -> None:
        self.app = app
        self.hosts = frozenset({f"127.0.0.1:{port}", f"localhost:{port}"})
        self.key, self.cookie = key, f"dryfit-{port}"

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request in, or answer it here."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        answer = self._answer(scope)
        if answer is None:
            await self.app(scope, _limited(scope["path"], receive), _with_headers(send))
        else:
            await answer(scope, receive, _with_headers(send))

    def _answer(self, scope: Scope) -> Response | None:
        headers = Headers(scope=scope)
        if headers.get("host") not in self.hosts:
            return PlainTextResponse(NOT_HERE.format(" or ".join(sorted(self.hosts))), 421)
        given = URL(scope=scope)
        if scope["method"] == "GET" and (key := _query(given).get("key")) is not None:
            return self._welcome(given) if self._right(key) else PlainTextResponse(NO_KEY, 403)
        if not self._right(_cookie(headers, self.cookie)):
            return PlainTextResponse(NO_KEY, 403)
        if scope["method"] != "GET" and headers.get("origin") != f"http://{headers['host']}":
            return PlainTextResponse(NOT_OURS, 403)
        return None

    def _right(self, key: str) -> bool:
        return secrets.compare_digest(key.encode(), self.key.encode())

    def _welcome(self, given: URL) -> Response:
        answer = RedirectResponse(given.path, 303)
        answer.set_cookie(self.cookie, self.key, httponly=True, samesite="strict", path="/")
        return answer


def _query(given: URL) -> dict[str, str]:
    from urllib.parse import parse_qsl

    return dict(parse_qsl(given.query, keep_blank_values=True))


def _cookie(headers: Headers, name: str) -> str:
    held: SimpleCookie = SimpleCookie()
    try:
        held.load(headers.get("cookie", ""))
    except CookieError:
        return ""
    return held[name].value if name in held else ""


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
            headers.setdefault("cache-control", "no-store")
        await send(message)

    return sending


def _limited(path: str, receive: Receive) -> Receive:
    """Count what comes; too much is taken off the wire to its end, so that a browser listens."""
    most = next((mb for end, mb in MOST.items() if path.endswith(end)), USUAL)
    came = 0

    async def receiving() -> Message:
        nonlocal came
        message = await receive()
        came += len(message.get("body", b""))
        if came <= most * 1_000_000:
            return message
        while message["type"] == "http.request" and message.get("more_body"):
            message = await receive()
        raise TooMuch(most)

    return receiving
