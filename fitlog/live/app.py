"""The page over HTTP: four addresses, read-only, behind a token for others."""

import asyncio
import secrets
import time
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager, suppress
from functools import cache

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response, StreamingResponse
from starlette.types import ASGIApp, Receive, Scope, Send

from fitlog.live.watch import Watch

MOST_LISTENERS = 250
LONGEST_PATH = 256
MOST_WRONG, WRONG_WITHIN_S = 30, 60.0
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src data:; base-uri 'none';"
    " form-action 'none'; frame-ancestors 'none'"
)
_HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}
_TYPES = {"page.html": "text/html", "page.js": "text/javascript", "page.css": "text/css"}
_LOCAL = ("127.0.0.1", "localhost", "[::1]")


def make_app(watch: Watch, token: str = "", hosts: tuple[str, ...] = _LOCAL) -> Starlette:
    """The application, with its addresses behind a ``token`` where one is given.

    Without one only ``hosts`` are answered, so that no page of elsewhere reaches it under a name of its own.
    """

    @asynccontextmanager
    async def lifespan(_: Starlette) -> AsyncIterator[None]:
        looking = asyncio.create_task(watch.run())
        try:
            yield
        finally:
            looking.cancel()
            with suppress(asyncio.CancelledError):
                await looking

    app = Starlette(lifespan=lifespan)
    door = Door(watch, token, hosts)
    app.add_route("/{path:path}", door.answer, methods=["GET", "HEAD"])
    app.add_middleware(Limits, door=door)
    return app


class Door:
    """Who may see what: everything else is not there."""

    def __init__(self, watch: Watch, token: str, hosts: tuple[str, ...]) -> None:
        self.watch, self.token, self.hosts = watch, token, hosts
        self._failures: dict[str, list[float]] = {}

    async def answer(self, request: Request) -> Response:
        """One request."""
        path = request.scope["path"].removeprefix("/")
        if self.token:
            given, _, path = path.partition("/")
            if not secrets.compare_digest(given.encode(), self.token.encode()):
                return self._refuse(request)
        elif request.headers.get("host", "").rpartition(":")[0].lower() not in self.hosts:
            return _response(403, "this page is for this machine alone")
        if path == "":
            return _file("page.html")
        if path in ("page.js", "page.css"):
            return _file(path)
        if path == "events":
            return self._events()
        return _response(404, "there is nothing here")

    def _events(self) -> Response:
        if self.watch.listeners >= MOST_LISTENERS:
            return _response(503, "too many are watching")
        return StreamingResponse(
            self.watch.events(), media_type="text/event-stream", headers={**_HEADERS, "X-Accel-Buffering": "no"}
        )

    def _refuse(self, request: Request) -> Response:
        """A wrong token: nothing is there, and whoever guesses on is put off."""
        who, now = request.client.host if request.client else "", time.monotonic()
        recent = [each for each in self._failures.get(who, []) if now - each < WRONG_WITHIN_S]
        if len(self._failures) > MOST_LISTENERS:
            self._failures.clear()
        self._failures[who] = [*recent, now][-MOST_WRONG - 1 :]
        if len(recent) >= MOST_WRONG:
            return _response(429, "too many tries; wait a minute")
        return _response(404, "there is nothing here")


class Limits:
    """Refuse other methods, a body or a long address before anything is read."""

    def __init__(self, app: ASGIApp, door: Door) -> None:
        self.app, self.door = app, door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        refused = _excess(scope)
        if refused is not None:
            await refused(scope, receive, send)
            return
        await self.app(scope, receive, send)


def _excess(scope: Scope) -> Callable[[Scope, Receive, Send], Awaitable[None]] | None:
    headers = dict(scope["headers"])
    if scope["method"] not in ("GET", "HEAD"):
        return _response(405, "this page can only be read")
    if len(scope.get("raw_path") or b"") + len(scope.get("query_string") or b"") > LONGEST_PATH:
        return _response(414, "this address is too long")
    if headers.get(b"content-length", b"0") != b"0" or b"transfer-encoding" in headers:
        return _response(413, "this page takes nothing in")
    return None


def _response(status: int, text: str) -> Response:
    return PlainTextResponse(text + "\n", status, headers=_HEADERS)


def _file(name: str) -> Response:
    return Response(_read(name), media_type=_TYPES[name], headers=_HEADERS)


@cache
def _read(name: str) -> bytes:
    from importlib.resources import files

    return files("fitlog.live").joinpath(name).read_bytes()
