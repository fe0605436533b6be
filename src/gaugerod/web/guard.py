"""What may come in, and what a browser is told not to do with what goes out.

The pages have no passwords: they are for one computer. So only requests that name this computer
are answered (another name would be a page elsewhere that was pointed here), and only forms of
these pages may change anything.
"""

from collections.abc import MutableMapping
from dataclasses import dataclass
from typing import Any

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

HOSTS = ("127.0.0.1", "localhost", "[::1]")
MOST_BYTES = 64_000_000
"""A job as one file, with its photos."""
_READING = ("GET", "HEAD")
_HEADERS = {
    "Content-Security-Policy": "default-src 'none'; style-src 'self'; img-src 'self'; "
    "script-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; "
    "frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}


@dataclass(frozen=True, slots=True)
class Guard:
    """Stands before the pages; `said` are its refusals by the status they have."""

    app: ASGIApp
    said: MutableMapping[int, str]

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or refuse it."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        async def out(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(raw=message["headers"])
                headers.update(_HEADERS)
                # What a job says is nobody else's, and is old as soon as somebody saves.
                headers.setdefault("Cache-Control", "no-store")
            await send(message)

        status = refused(scope["method"], Headers(scope=scope))
        answer: Any = PlainTextResponse(self.said[status], status) if status else self.app
        await answer(scope, receive, out)


def refused(method: str, headers: Headers) -> int:
    """Return the status that a request is refused with, or nought."""
    host = headers.get("host", "")
    name = host if host.endswith("]") else host.rpartition(":")[0] or host
    if name not in HOSTS:
        return 421
    if method in _READING:
        return 0
    if not _from_here(headers, host):
        return 403
    length = headers.get("content-length", "")
    return 0 if length.isdecimal() and int(length) <= MOST_BYTES else 413


def _from_here(headers: Headers, host: str) -> bool:
    """Tell whether a form of these pages sent it; every browser of today says so."""
    origin, site = headers.get("origin"), headers.get("sec-fetch-site")
    if origin is None:
        return site == "same-origin"
    return origin == f"http://{host}" and site in {None, "same-origin"}
