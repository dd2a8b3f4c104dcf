"""One editor's server: its files, the checks that run, and what is sent of what they find."""

from __future__ import annotations

import asyncio
import gc
import time

from lsprotocol import types as lsp
from pygls.exceptions import FeatureRequestError
from pygls.lsp.server import LanguageServer
from pygls.protocol import LanguageServerProtocol

import matrixgen
from matrixgen.editor import as_lsp
from matrixgen.editor.desk import Desk, ToShow
from matrixgen.editor.open_file import OpenFile
from matrixgen.editor.pages import page_address

LOOKS_S = 1.0
"""How often the files are looked at that open files name: no editor watches what is elsewhere."""

AT_A_TIME = 0.01
"""Seconds that a check takes before the next message is looked at."""

NOT_READABLE = ("(", "hold nav", "nowhere", "hold layer nav")
"""Cells that make the reader ask for all that it knows of mistakes."""


class KeysServer(LanguageServer):
    """A server of one editor. Texts come whole: there is nothing to lose count of."""

    def __init__(self, protocol: type[LanguageServerProtocol]) -> None:
        super().__init__(
            "matrixgen",
            matrixgen.__version__,
            text_document_sync_kind=lsp.TextDocumentSyncKind.Full,
            protocol_cls=protocol,
        )
        self.desk = Desk()
        self.settings: object = None
        self._checks: dict[str, asyncio.Task[None]] = {}
        self._versions: dict[str, int | None] = {}
        self._following: asyncio.Task[None] | None = None

    def take_text(self, address: str, text: str, version: int | None) -> None:
        """Take the text of a file, and check it; a check of an earlier text ends."""
        self._versions[address] = version
        self.check(address, self.desk.open(address, text))

    def check(self, address: str, file: OpenFile) -> None:
        """Check a file, while other messages go on."""
        self.stop(address)
        self._checks[address] = asyncio.ensure_future(self._check(file))

    def stop(self, address: str) -> None:
        """End the check of a file."""
        if address in self._checks:
            self._checks.pop(address).cancel()

    async def _check(self, file: OpenFile) -> None:
        await asyncio.sleep(0)
        begin = time.perf_counter()
        for one in self.desk.check(file):
            if one is not None:
                self.show(one)
            if time.perf_counter() - begin > AT_A_TIME:
                await asyncio.sleep(0)
                begin = time.perf_counter()

    def show(self, found: ToShow) -> None:
        """Send what is to be shown."""
        for path, some in found.by_path.items():
            address = self.desk.address_of(path)
            shown = [
                as_lsp.diagnostic(
                    one,
                    self.desk.source_of,
                    self.desk.address_of,
                    is_open=one in found.still_open,
                    page=page_address(one.slug) if self._takes_pages else None,
                )
                for one in some
            ]
            version = self._versions.get(address)
            self.text_document_publish_diagnostics(
                lsp.PublishDiagnosticsParams(uri=address, diagnostics=shown, version=version)
            )

    @property
    def _takes_pages(self) -> bool:
        """Whether the editor opens a page that a finding is linked to."""
        document = self.client_capabilities.text_document
        takes = document.publish_diagnostics if document else None
        return bool(takes and takes.code_description_support)

    def close_file(self, address: str) -> None:
        """Close a file."""
        self.stop(address)
        self._versions.pop(address, None)
        self.show(self.desk.close(address))

    async def follow_named(self) -> None:
        """Check a file again when a profile or a diode that it names has changed; never ends."""
        while True:
            await asyncio.sleep(LOOKS_S)
            for address in self.desk.addresses():
                file = self.desk.file(address)
                if file and file.now.is_old:
                    file.forget()
                    self.check(address, file)

    def report_server_error(self, error: Exception, source: object) -> None:
        """Put what went wrong into the editor's log, unless it is the answer to a request."""
        if source is FeatureRequestError:
            return
        text = f"{type(error).__name__}: {error}"
        self.window_log_message(lsp.LogMessageParams(lsp.MessageType.Error, text))

    def tell(self, text: str) -> None:
        """Show somebody what was done besides."""
        self.window_show_message(lsp.ShowMessageParams(lsp.MessageType.Info, text))

    def wants(self, setting: str) -> bool:
        """Whether the editor's settings ask for something that is not there by itself."""
        return isinstance(self.settings, dict) and self.settings.get(setting) is True

    def follow(self) -> None:
        """Follow from now on what open files name."""
        self._following = asyncio.ensure_future(self.follow_named())

    def make_ready(self) -> None:
        """Read files with mistakes: what that needs is loaded before somebody waits for it.

        What is loaded by then stays, so that nobody waits for it to be searched for what may go.
        """
        for cell in NOT_READABLE:
            Desk().open(
                "untitled:ready", f"plate\n  line A B\nlayer base\n  A = {cell}\n"
            ).examined()
        gc.collect()
        gc.freeze()
