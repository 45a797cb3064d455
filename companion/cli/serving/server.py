"""The server: one page, one socket, the files that the page needs. Each browser gets an app of its own, as each
terminal does, so a piece that is open twice is told so in both."""

from __future__ import annotations

import logging
import os
from collections.abc import Awaitable, Callable
from importlib.resources import files
from pathlib import Path
from string import Template

from aiohttp import web
from textual_serve.server import Server, to_int

from companion.cli.serving.gate import COOKIE, QUESTION, REFUSED, Asked, answer

LEAST_FONT, MOST_FONT = 8, 48  # pixels
POLICY = (
    *("default-src 'none'", "script-src 'self'", "style-src 'self' 'unsafe-inline'", "font-src 'self' data:"),
    *("img-src 'self' data:", "connect-src 'self' ws://{host} wss://{host}"),
    *("frame-ancestors 'none'", "base-uri 'none'", "form-action 'none'"),
)
HEADERS = {
    "Content-Security-Policy": "; ".join(POLICY),
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cache-Control": "no-store",
}
OWN_FILES = {"page.css": "text/css", "page.js": "text/javascript"}
SEEN_WITH = {"COLORTERM": "truecolor", "TERM": "xterm-256color"}
Handler = Callable[[web.Request], Awaitable[web.StreamResponse]]


class TabletServer(Server):
    """Serves the app that `command` starts, to one who knows the word."""

    def __init__(self, command: str, host: str, port: int, word: str, told: Callable[[], None]) -> None:
        super().__init__(command, host, port, title="Tallycord")
        self._word, self._told = word, told
        self._page = Template(_own("page.html"))

    def run(self) -> None:
        """Serve until Ctrl+C. Raises OSError where the address can't be had."""
        logging.getLogger("textual-serve").disabled = True  # what a stranger sends is no news
        os.environ.update(SEEN_WITH)
        # What would print where it answers is called once it does.
        web.run_app(self._make_app(), host=self.host, port=self.port, print=lambda _: self._told(), access_log=None)

    async def _make_app(self) -> web.Application:
        app = web.Application(middlewares=[self._gate])
        app.router.add_get("/", self.handle_index)
        app.router.add_get("/ws", self.handle_websocket)
        app.router.add_static("/static", Path(self.statics_path), show_index=False)
        app.router.add_get("/{name}", self._own_file)
        return app

    async def handle_index(self, request: web.Request) -> web.Response:
        """The page. Nothing in it comes from the request but the name that the browser knows this machine by, and how
        large the letters are."""
        font = min(MOST_FONT, max(LEAST_FONT, to_int(request.query.get("fontsize", "18"), 18)))
        page = self._page.substitute(host=_plain_host(request.host), font=font)
        return web.Response(text=page, content_type="text/html")

    async def _own_file(self, request: web.Request) -> web.Response:
        name = request.match_info["name"]
        if name not in OWN_FILES:
            raise web.HTTPNotFound
        return web.Response(text=_own(name), content_type=OWN_FILES[name])

    @web.middleware
    async def _gate(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        asked = Asked(
            request.method,
            request.host,
            request.query.get(QUESTION),
            request.headers.get("Cookie", ""),
            request.headers.get("Origin"),
            request.path == "/ws",
        )
        match answer(asked, self._word):
            case "refuse":
                response: web.StreamResponse = web.Response(status=403, text=REFUSED)
            case "remember":
                response = web.HTTPSeeOther(request.rel_url.without_query_params(QUESTION))
                response.set_cookie(COOKIE, self._word, httponly=True, samesite="Strict")
            case _:
                response = await handler(request)
        if not response.prepared:
            host = _plain_host(request.host)
            response.headers.update({name: value.format(host=host) for name, value in HEADERS.items()})
        return response


def _own(name: str) -> str:
    return files("companion.cli.serving").joinpath(name).read_text("utf-8")


def _plain_host(host: str) -> str:
    """A name and a port as they can stand in a page: nothing but letters, digits and what separates them."""
    return "".join(one for one in host if one.isascii() and (one.isalnum() or one in ".:-[]"))
