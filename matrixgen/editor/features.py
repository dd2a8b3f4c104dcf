"""What the server does for each message of the Language Server Protocol 3.17."""

from __future__ import annotations

from lsprotocol import types as lsp

from matrixgen.editor.as_lsp import at_of, completion_item, range_of
from matrixgen.editor.offers import offers_at
from matrixgen.editor.place import Place
from matrixgen.editor.positions import changed_text, point
from matrixgen.editor.server import KeysServer


def serve_completion(server: KeysServer) -> None:
    """Offer words where the cursor stands."""

    @server.feature(
        lsp.TEXT_DOCUMENT_COMPLETION, lsp.CompletionOptions(trigger_characters=[" ", "=", "+", ","])
    )
    def completion(ls: KeysServer, params: lsp.CompletionParams) -> lsp.CompletionList | None:
        file = ls.desk.file(params.text_document.uri)
        if file is None:
            return None
        source = file.now.source
        place = Place(source, point(source, at_of(params.position)))
        replaced = range_of(source, place.span)
        offers = offers_at(file.now, place.line, place.column)
        items = [completion_item(one, number, replaced) for number, one in enumerate(offers)]
        return lsp.CompletionList(is_incomplete=False, items=items)


def serve_files(server: KeysServer) -> None:
    """Take the texts of files as they are opened, changed and closed."""

    @server.feature(lsp.INITIALIZED)
    def initialized(ls: KeysServer, params: lsp.InitializedParams) -> None:
        ls.make_ready()
        ls.follow()

    @server.feature(lsp.TEXT_DOCUMENT_DID_OPEN)
    def opened(ls: KeysServer, params: lsp.DidOpenTextDocumentParams) -> None:
        one = params.text_document
        ls.take_text(one.uri, one.text, one.version)

    @server.feature(lsp.TEXT_DOCUMENT_DID_CHANGE)
    def changed(ls: KeysServer, params: lsp.DidChangeTextDocumentParams) -> None:
        one = params.text_document
        file = ls.desk.file(one.uri)
        text = file.now.source.original if file else ""
        for change in params.content_changes:
            if isinstance(change, lsp.TextDocumentContentChangePartial):
                start, end = map(at_of, (change.range.start, change.range.end))
                text = changed_text(text, start, end, change.text)
            else:
                text = change.text
        ls.take_text(one.uri, text, one.version)

    @server.feature(lsp.TEXT_DOCUMENT_DID_CLOSE)
    def closed(ls: KeysServer, params: lsp.DidCloseTextDocumentParams) -> None:
        ls.close_file(params.text_document.uri)
