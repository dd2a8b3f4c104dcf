"""The Language Server Protocol 3.17 over standard input and output."""

from __future__ import annotations

import logging
from collections.abc import Generator
from typing import Any, BinaryIO

from lsprotocol import types as lsp
from pygls.protocol import LanguageServerProtocol, lsp_method

from matrixgen.editor.features import serve_completion, serve_files
from matrixgen.editor.features_changing import serve_actions, serve_forms, serve_names
from matrixgen.editor.features_reading import serve_colours, serve_outline, serve_reading
from matrixgen.editor.server import KeysServer

Steps = Generator[Any, Any, Any]


class KeysProtocol(LanguageServerProtocol):
    """The protocol, with places in UTF-16, and texts that only the server itself keeps.

    The library's own copies of the texts end the handling of a message that does not fit them.
    """

    @lsp_method(lsp.INITIALIZE)
    def lsp_initialize(self, params: lsp.InitializeParams) -> Steps:
        """Agree on UTF-16, which every editor has to know."""
        if params.capabilities.general:
            params.capabilities.general.position_encodings = None
        server = self._server
        if isinstance(server, KeysServer):
            server.settings = params.initialization_options
        return (yield from super().lsp_initialize(params))

    @lsp_method(lsp.TEXT_DOCUMENT_DID_OPEN)
    def lsp_text_document__did_open(self, params: lsp.DidOpenTextDocumentParams) -> Steps:
        """Pass a file on that is opened."""
        yield self.fm.features[lsp.TEXT_DOCUMENT_DID_OPEN], (params,), None

    @lsp_method(lsp.TEXT_DOCUMENT_DID_CHANGE)
    def lsp_text_document__did_change(self, params: lsp.DidChangeTextDocumentParams) -> Steps:
        """Pass a file on that is changed."""
        yield self.fm.features[lsp.TEXT_DOCUMENT_DID_CHANGE], (params,), None

    @lsp_method(lsp.TEXT_DOCUMENT_DID_CLOSE)
    def lsp_text_document__did_close(self, params: lsp.DidCloseTextDocumentParams) -> Steps:
        """Pass a file on that is closed."""
        yield self.fm.features[lsp.TEXT_DOCUMENT_DID_CLOSE], (params,), None

    @property
    def was_shut_down(self) -> bool:
        """Whether the editor has said that it will end the server."""
        return self._shutdown


def made_server() -> KeysServer:
    """Return a server with all that it can do."""
    server = KeysServer(KeysProtocol)
    serve_files(server)
    serve_completion(server)
    for serve_some in (serve_reading, serve_outline, serve_colours, serve_names, serve_forms):
        serve_some(server)
    serve_actions(server)
    return server


def serve(stdin: BinaryIO, stdout: BinaryIO) -> int:
    """Serve one editor until it ends; return the exit status: 0 if it said so before.

    Section "Exit Notification" of the protocol.
    """
    logging.getLogger("pygls").setLevel(logging.CRITICAL)  # what goes wrong is told to the editor
    server = made_server()
    server.start_io(stdin, stdout)
    protocol = server.protocol
    return 0 if isinstance(protocol, KeysProtocol) and protocol.was_shut_down else 1
