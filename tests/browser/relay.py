"""What stands between playwright and Firefox: it passes on WebDriver BiDi, and adds to it.

Playwright speaks BiDi (W3C) to Firefox by itself. A session of BiDi belongs to one connection, so
whatever playwright has no call for, such as a touch, has to go over the same one.
"""

from __future__ import annotations

import itertools
import json
import threading
from concurrent.futures import Future
from typing import Any, Self

from playwright.sync_api import Page
from websockets.exceptions import ConnectionClosed
from websockets.sync.client import ClientConnection, connect
from websockets.sync.server import ServerConnection, serve

from tests.patience import HANGS_S

AS_IT_COMES: dict[str, Any] = {
    "max_size": None,
    "compression": None,
    "open_timeout": None,
    "ping_interval": None,
}
"""Messages of any size, and nobody gives up on a computer that is busy."""

OURS = 2**40
"""The number of our first command: playwright counts from 1, and ends with two near 2**53."""

UNKNOWN_TO_FIREFOX = "emulation.setMediaFeaturesOverride"
"""What playwright sends for each new window, and Firefox ESR does not know yet."""

AS_IT_IS = ({}, {"prefers-color-scheme": "light"})
"""What can be answered here with a yes; anything else Firefox is asked for, and refuses."""


class Relay:
    """A server for one client, which passes on what it and the browser say to each other.

    The client asks for `/PORT/session`, with the port at which the browser listens.
    """

    browser: ClientConnection

    def __init__(self) -> None:
        self.numbers = itertools.count(OURS)
        self.waiting: dict[int, Future[Any]] = {}
        self.server = serve(self._from_client, "127.0.0.1", 0, **AS_IT_COMES)
        self.url = f"ws://127.0.0.1:{self.server.socket.getsockname()[1]}"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def command(self, method: str, **parameters: Any) -> Any:
        """Return the browser's result; raises `RuntimeError` with its message if there is none."""
        number = next(self.numbers)
        self.waiting[number] = answer = Future()
        self.browser.send(json.dumps({"id": number, "method": method, "params": parameters}))
        said = answer.result(HANGS_S)
        if said["type"] == "error":
            raise RuntimeError(f"{method}: {said['message']}")
        return said["result"]

    def context_of(self, page: Page) -> str:
        """Return what BiDi calls a page; no other may show the same file."""
        shown = self.command("browsingContext.getTree")["contexts"]
        (context,) = (one["context"] for one in shown if one["url"] == page.url)
        return context

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *failure: object) -> None:
        self.server.shutdown()

    def _from_client(self, client: ServerConnection) -> None:
        assert client.request
        port, path = client.request.path.removeprefix("/").split("/")
        url = f"ws://127.0.0.1:{port}/{path}"
        with connect(url, **AS_IT_COMES) as self.browser:
            threading.Thread(target=self._from_browser, args=(client,), daemon=True).start()
            for text in client:
                said = json.loads(text)
                if said["method"] == UNKNOWN_TO_FIREFOX and said["params"]["features"] in AS_IT_IS:
                    client.send(json.dumps({"type": "success", "id": said["id"], "result": {}}))
                else:
                    self.browser.send(text)

    def _from_browser(self, client: ServerConnection) -> None:
        try:
            for text in self.browser:
                said = json.loads(text)
                if answer := self.waiting.pop(said.get("id"), None):
                    answer.set_result(said)
                else:
                    client.send(text)
        except ConnectionClosed:
            pass  # either has gone, and so has what it would have heard
        client.close()
