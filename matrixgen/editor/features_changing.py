"""What an editor asks to be changed: names, forms, and what can be done about findings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from lsprotocol import types as lsp
from pygls.exceptions import JsonRpcInvalidParams

from matrixgen.editor.as_lsp import range_of
from matrixgen.editor.cures import EditOffered, can_be_wired, cures, wiring
from matrixgen.editor.features_reading import word_here
from matrixgen.editor.layer_forms import layer_actions
from matrixgen.editor.names import definition, things
from matrixgen.editor.open_file import OpenFile
from matrixgen.editor.renaming import renamed
from matrixgen.editor.rewriting import canonical
from matrixgen.editor.server import KeysServer
from matrixgen.model import Edit, SourceText
from matrixgen.source.edits import usual_line_end


def text_edits(source: SourceText, edits: Iterable[Edit]) -> list[lsp.TextEdit]:
    """Return edits, with line ends of the file's own kind."""
    end = usual_line_end(source.original)
    return [
        lsp.TextEdit(range_of(source, edit.span), edit.text.replace("\n", end)) for edit in edits
    ]


def serve_names(server: KeysServer) -> None:
    """Rename things."""

    @server.feature(lsp.TEXT_DOCUMENT_PREPARE_RENAME)
    def may_rename(ls: KeysServer, params: lsp.PrepareRenameParams) -> lsp.Range | None:
        found = word_here(ls, params)
        if found is None:
            return None
        file, word = found
        words = file.now.words
        is_name = any(definition(words, thing) for thing in things(words, word))
        return range_of(file.now.source, word.span) if is_name else None

    @server.feature(lsp.TEXT_DOCUMENT_RENAME, lsp.RenameOptions(prepare_provider=True))
    def rename(ls: KeysServer, params: lsp.RenameParams) -> lsp.WorkspaceEdit | None:
        found = word_here(ls, params)
        if found is None:
            return None
        file, word = found
        made = renamed(file.now, word, params.new_name)
        if isinstance(made, str):
            raise JsonRpcInvalidParams(f"`{word.text}` is not renamed: {made}")
        if made.also:
            ls.tell(made.also)
        edits = text_edits(file.now.source, made.edits)
        return lsp.WorkspaceEdit(changes={params.text_document.uri: edits})


def serve_forms(server: KeysServer) -> None:
    """Put a file, or some lines of it, into the canonical form."""

    @server.feature(lsp.TEXT_DOCUMENT_FORMATTING)
    def form(ls: KeysServer, params: lsp.DocumentFormattingParams) -> list[lsp.TextEdit]:
        file = ls.desk.file(params.text_document.uri)
        return text_edits(file.now.source, canonical(file.now)) if file else []

    @server.feature(lsp.TEXT_DOCUMENT_RANGE_FORMATTING)
    def form_of_lines(
        ls: KeysServer, params: lsp.DocumentRangeFormattingParams
    ) -> list[lsp.TextEdit]:
        file = ls.desk.file(params.text_document.uri)
        lines = _lines(params.range)
        return text_edits(file.now.source, canonical(file.now, lines)) if file else []


def _lines(asked: lsp.Range) -> range:
    """Return the lines of a range, from 1; one that ends where a line begins does not touch it."""
    start, end = sorted((asked.start.line, asked.end.line))
    ends_before = end > start and asked.end.character == 0
    return range(start + 1, end + 2 - ends_before)


WIRE = "write the wiring (`matrixgen fit`)"


def serve_actions(server: KeysServer) -> None:
    """Offer what can be done about findings, and to layers."""
    kinds = [lsp.CodeActionKind.QuickFix, lsp.CodeActionKind.RefactorRewrite]

    @server.feature(
        lsp.TEXT_DOCUMENT_CODE_ACTION,
        lsp.CodeActionOptions(code_action_kinds=kinds, resolve_provider=True),
    )
    def actions(ls: KeysServer, params: lsp.CodeActionParams) -> list[lsp.CodeAction]:
        file = ls.desk.file(params.text_document.uri)
        if file is None:
            return []
        uri, lines = params.text_document.uri, _lines(params.range)
        found = [_action(uri, file, one) for one in _offered(ls, file, lines)]
        if can_be_wired(ls.desk.examined(file)):
            kind = lsp.CodeActionKind.RefactorRewrite
            found.append(lsp.CodeAction(WIRE, kind=kind, data=uri))
        return found

    @server.feature(lsp.CODE_ACTION_RESOLVE)
    def resolved(ls: KeysServer, action: lsp.CodeAction) -> lsp.CodeAction:
        file = ls.desk.file(str(action.data))
        if file is not None:
            made = wiring(file.now, ls.desk.examined(file))
            if isinstance(made, str):
                raise JsonRpcInvalidParams(made)
            edits = text_edits(file.now.source, made)
            action.edit = lsp.WorkspaceEdit(changes={str(action.data): edits})
        return action


def _offered(server: KeysServer, file: OpenFile, lines: range) -> Iterator[EditOffered]:
    yield from cures(file, server.desk.examined(file), lines)
    yield from layer_actions(file.now, lines.start)


def _action(uri: str, file: OpenFile, one: EditOffered) -> lsp.CodeAction:
    is_fix = one.found is not None
    return lsp.CodeAction(
        title=one.title,
        kind=lsp.CodeActionKind.QuickFix if is_fix else lsp.CodeActionKind.RefactorRewrite,
        edit=lsp.WorkspaceEdit(changes={uri: text_edits(file.now.source, one.edits)}),
        is_preferred=True if one.is_sure else None,
    )
