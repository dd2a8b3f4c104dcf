"""A page that is served to this computer alone, and tells who has it open when it is another one.

The server listens on the loopback address. Pages of other origins must not read what it serves: a
request for another host, as after a name was made to lead here, or from another origin is refused,
and the path has a part that cannot be guessed. RFC 9110, section 7.2 (Host), RFC 6454, section 7
(Origin); the stream is that of the HTML standard, section 9.2, Server-sent events (from memory).
"""

from __future__ import annotations

import secrets
import socketserver
import sys
import threading
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import cast

from matrixgen.emit.sheet.followed import marked

LOOPBACK = "127.0.0.1"

PATIENCE_S = 10
"""How long a request may take to come, and after how long a silent stream shows that it lives."""

HEADERS = {
    "Cache-Control": "no-store",
    "Content-Security-Policy": "frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}
"""Of every answer. The page's own content policy, which is in it, allows less."""


class ShownPage:
    """The page that is shown now, known by a name for what it shows."""

    def __init__(self, page: bytes) -> None:
        self._is_another = threading.Condition()
        self._turn = 0
        self.name, self.page = marked(page)

    def show(self, page: bytes, turn: int) -> None:
        """Show a page from now on, unless one of a later turn is already shown."""
        with self._is_another:
            if turn < self._turn:
                return
            self._turn = turn
            self.name, self.page = marked(page)
            self._is_another.notify_all()

    def name_after(self, name: str) -> str:
        """Return the name of what is shown once that is another one, or after a while."""
        with self._is_another:
            self._is_another.wait_for(lambda: self.name != name, PATIENCE_S)
            return self.name


class PageServer(ThreadingHTTPServer):
    """Serves what a `ShownPage` shows."""

    daemon_threads = True
    allow_reuse_address = sys.platform != "win32"  # there it lets two programs share a port

    def __init__(self, shown: ShownPage, port: int) -> None:
        """Listen on a port, 0 for any that is free; raises `OSError`."""
        self.shown = shown
        super().__init__((LOOPBACK, port), PageRequest)
        self.host = f"{LOOPBACK}:{self.server_address[1]}"
        self.path = f"/{secrets.token_urlsafe(16)}/"

    @property
    def url(self) -> str:
        """Where the page is."""
        return f"http://{self.host}{self.path}"

    def server_bind(self) -> None:
        """Bind, without the look-up of a name that the base class does."""
        socketserver.TCPServer.server_bind(self)

    def handle_error(self, request: object, client_address: object) -> None:
        """Say nothing of a browser that has gone."""
        if not isinstance(sys.exception(), OSError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


class PageRequest(BaseHTTPRequestHandler):
    """One request: for the page, or for the stream of its changes."""

    timeout = PATIENCE_S
    server_version, sys_version = "matrixgen", ""

    @property
    def _server(self) -> PageServer:
        return cast(PageServer, self.server)

    def do_GET(self) -> None:
        """Answer a GET, or refuse what another origin asks for."""
        answers = {"": self._give_page, "events": self._give_events}
        start, _, last = self.path.rpartition("/")
        if not self._is_from_here():
            self.send_error(HTTPStatus.FORBIDDEN)
        elif last in answers and secrets.compare_digest(_bytes(f"{start}/"), _bytes(self._home)):
            answers[last]()
        else:
            self.send_error(HTTPStatus.NOT_FOUND)

    @property
    def _home(self) -> str:
        return self._server.path

    def _is_from_here(self) -> bool:
        hosts = self.headers.get_all("Host", [])
        origins = self.headers.get_all("Origin", [])
        own = self._server.host
        return hosts == [own] and all(origin == f"http://{own}" for origin in origins)

    def _give_page(self) -> None:
        page = self._server.shown.page
        self._begin("text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(page)))
        self.end_headers()
        self.wfile.write(page)

    def _give_events(self) -> None:
        """Send the name of what is shown, and again when it changes, until the browser goes."""
        self._begin("text/event-stream")
        self.end_headers()
        name = ""
        while True:
            now = self._server.shown.name_after(name)
            self.wfile.write(b":\n\n" if now == name else f"data: {now}\n\n".encode())
            name = now

    def _begin(self, kind: str) -> None:
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", kind)

    def end_headers(self) -> None:
        """End them with those of every answer."""
        for name, value in HEADERS.items():
            self.send_header(name, value)
        super().end_headers()

    def log_message(self, format: str, *words: object) -> None:
        """Print nothing: the terminal is for what is found in the file."""


def _bytes(path: str) -> bytes:
    return path.encode("utf-8", "surrogateescape")
