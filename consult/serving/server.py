"""The same program in a browser on this machine. Nothing leaves it, and nothing is fetched from elsewhere.

Each page in a browser is a program of its own. The address holds a key, so that neither another user of the machine
nor a page from elsewhere gets in by guessing; whatever is asked under another name than the machine's own loopback is
refused.
"""

import logging
import secrets
import shlex
from collections.abc import Sequence
from pathlib import Path
from typing import Final

import aiohttp_jinja2
import jinja2
from aiohttp import web
from aiohttp.typedefs import Handler
from textual_serve.server import Server

LOOPBACK: Final = "127.0.0.1"
_TEMPLATES: Final = Path(__file__).parent / "templates"
_OWN: Final = Path(__file__).parent / "own"
_ONLY_OURS: Final = (
    "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; font-src 'self' data:; "
    "connect-src 'self' ws://{here}; frame-ancestors 'none'; base-uri 'none'; form-action 'none'"
)


class LocalServer(Server):
    """Serves one command on the loopback alone."""

    def __init__(self, command: Sequence[str], port: int) -> None:
        self.here = f"{LOOPBACK}:{port}"
        self.key = secrets.token_urlsafe(16)
        super().__init__(
            shlex.join(command),
            host=LOOPBACK,
            port=port,
            title="consult",
            public_url=f"http://{self.here}",
            templates_path=_TEMPLATES,
        )

    @property
    def address(self) -> str:
        """What is opened in the browser."""
        return f"{self.public_url}/{self.key}/"

    def serve(self, debug: bool = False) -> None:
        """Serve until it is ended. What goes wrong in there is the browser's to show; no traceback is printed. Raises
        OSError where the port cannot be had."""
        logging.disable(logging.CRITICAL)
        web.run_app(self._make_app(), host=self.host, port=self.port, print=self._tell)

    def _tell(self, *_: object) -> None:
        """Said once it listens."""
        print(f"consult: open {self.address} in a browser on this machine; Ctrl+C ends it", flush=True)

    async def _make_app(self) -> web.Application:
        app = web.Application(middlewares=[self._only_from_here])
        aiohttp_jinja2.setup(app, loader=jinja2.FileSystemLoader(self.templates_path))
        app.add_routes(
            [
                web.get(f"/{self.key}/", self.handle_index, name="index"),
                web.get(f"/{self.key}/ws", self.handle_websocket, name="websocket"),
                web.static("/static", self.statics_path, name="static"),
                web.static("/own", _OWN),
            ]
        )
        return app

    @web.middleware
    async def _only_from_here(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        """Refuse what was asked under another name, or by a page from elsewhere."""
        origin = request.headers.get("Origin", self.public_url)
        if request.headers.get("Host") != self.here or origin != self.public_url:
            raise web.HTTPForbidden(text="consult answers this machine alone\n")
        response = await handler(request)
        if not response.prepared:
            response.headers["Content-Security-Policy"] = _ONLY_OURS.format(here=self.here)
            response.headers["Referrer-Policy"] = "no-referrer"
        return response
