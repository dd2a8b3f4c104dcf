"""An editor for the tests: pygls' own client, with the server as a program behind a pipe."""

from __future__ import annotations

import asyncio
import contextlib
import sys
from collections.abc import AsyncIterator, Callable, Coroutine
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

from lsprotocol import types as lsp
from pygls.lsp.client import LanguageClient

from tests.patience import HANGS_S

ROOT = Path(__file__).parents[2]


class Editor(LanguageClient):
    """Keeps the findings that it is sent, the last of each file, and what it is told."""

    def __init__(self) -> None:
        super().__init__("editor", "1")
        self.findings: dict[str, lsp.PublishDiagnosticsParams] = {}
        self.errors: list[Exception] = []
        self.is_odd = False  # whether it sends what no editor should
        self._sent = asyncio.Event()
        self.said: list[str] = []

        @self.feature(lsp.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
        def shown(params: lsp.PublishDiagnosticsParams) -> None:
            self.findings[params.uri] = params
            self._sent.set()

        @self.feature(lsp.WINDOW_SHOW_MESSAGE)
        def says(params: lsp.ShowMessageParams) -> None:
            self.said.append(params.message)

        @self.feature(lsp.WINDOW_LOG_MESSAGE)
        def told(params: lsp.LogMessageParams) -> None:
            self.errors.append(RuntimeError(params.message))
            self._sent.set()

    def report_server_error(self, error: Exception, source: Any) -> None:
        self.errors.append(error)

    async def shown(self, uri: str, version: int | None) -> list[lsp.Diagnostic]:
        """What is found in that version of a file."""
        async with asyncio.timeout(HANGS_S):
            while uri not in self.findings or self.findings[uri].version != version:
                self._sent.clear()
                await self._sent.wait()
                assert self.errors == [] or self.is_odd
        return list(self.findings[uri].diagnostics)

    def open(self, uri: str, text: str, version: int = 1) -> None:
        one = lsp.TextDocumentItem(uri, "keys", version, text)
        self.text_document_did_open(lsp.DidOpenTextDocumentParams(one))

    def change(self, uri: str, text: str, version: int) -> None:
        whole = lsp.TextDocumentContentChangeWholeDocument(text)
        one = lsp.VersionedTextDocumentIdentifier(version, uri)
        self.text_document_did_change(lsp.DidChangeTextDocumentParams(one, [whole]))

    def close(self, uri: str) -> None:
        one = lsp.TextDocumentIdentifier(uri)
        self.text_document_did_close(lsp.DidCloseTextDocumentParams(one))


CAN = lsp.ClientCapabilities(
    general=lsp.GeneralClientCapabilities(position_encodings=["utf-32", "utf-8", "utf-16"]),
    text_document=lsp.TextDocumentClientCapabilities(
        publish_diagnostics=lsp.PublishDiagnosticsClientCapabilities(code_description_support=True)
    ),
)


@contextlib.asynccontextmanager
async def editing() -> AsyncIterator[Editor]:
    """An editor with a server that has begun; at the end the server has to have ended well."""
    editor = Editor()
    await editor.start_io(sys.executable, "-m", "matrixgen", "language-server", cwd=ROOT)
    begun = await editor.initialize_async(
        lsp.InitializeParams(capabilities=CAN, initialization_options={"inlayHints": True})
    )
    assert begun.capabilities.position_encoding == "utf-16"
    editor.initialized(lsp.InitializedParams())
    yield editor
    await editor.shutdown_async(None)
    editor.exit(None)
    async with asyncio.timeout(HANGS_S):
        assert await editor._server.wait() == 0
    await editor.stop()


def run(session: Callable[[Editor], Coroutine[Any, Any, None]]) -> None:
    """Run what an editor does with a server.

    It has a thread of its own: the browser of other tests leaves a loop running in this one, beside
    which none can be run.
    """

    async def whole() -> None:
        async with editing() as editor:
            await session(editor)

    with ThreadPoolExecutor(max_workers=1) as thread:
        thread.submit(asyncio.run, whole()).result()
