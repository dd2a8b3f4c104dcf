"""Every request that the server answers, as an editor sends it, with its answer put into effect."""

from __future__ import annotations

import pytest
from lsprotocol import types as lsp
from pygls.exceptions import JsonRpcException

from matrixgen.editor.features_reading import TOKEN_KINDS
from matrixgen.editor.positions import At, changed_text
from tests.editor.editor import Editor, run

URI = "untitled:Pad"
TEXT = (
    'keyboard "\U0001d6d1 pad"  # \U0001d6d1\r\n  controller stick-32u4\r\n\r\nplate\r\n'
    "  line Q W Fn\r\n\r\nlayer base\r\n  Fn = hold layer nav\r\n\r\nlayer nav\r\n  Q = Up\r\n"
)
FILE = lsp.TextDocumentIdentifier(URI)


def after(text: str, edits: list[lsp.TextEdit]) -> str:
    """A text with edits made, the last one first (section "TextEdit[]" of the protocol)."""
    for edit in sorted(edits, key=lambda one: (one.range.start.line, one.range.start.character))[
        ::-1
    ]:
        start, end = (At(at.line, at.character) for at in (edit.range.start, edit.range.end))
        text = changed_text(text, start, end, edit.new_text.replace("\r\n", "\n"))
    return text


def test_each_request_is_answered():
    async def session(editor: Editor) -> None:
        editor.open(URI, TEXT)
        await editor.shown(URI, 1)
        key, layer = lsp.Position(4, 7), lsp.Position(7, 19)
        whole = lsp.Range(lsp.Position(0, 0), lsp.Position(99, 0))

        offered = await editor.text_document_completion_async(
            lsp.CompletionParams(FILE, lsp.Position(1, 13))
        )
        assert {"stick-32u4", "rp2040-40pin"} <= {one.label for one in offered.items}

        said = await editor.text_document_hover_async(lsp.HoverParams(FILE, key))
        assert "**key `Q`**" in said.contents.value

        (first,) = await editor.text_document_definition_async(lsp.DefinitionParams(FILE, layer))
        assert first.range.start == lsp.Position(9, 6)
        context = lsp.ReferenceContext(include_declaration=True)
        used = await editor.text_document_references_async(
            lsp.ReferenceParams(context, FILE, layer)
        )
        assert [one.range.start.line for one in used] == [7, 9]
        marked = await editor.text_document_document_highlight_async(
            lsp.DocumentHighlightParams(FILE, layer)
        )
        assert len(marked) == 2

        blocks = await editor.text_document_document_symbol_async(lsp.DocumentSymbolParams(FILE))
        assert [one.name for one in blocks][1:] == ["plate", "layer base", "layer nav"]
        folding = await editor.text_document_folding_range_async(lsp.FoldingRangeParams(FILE))
        assert (folding[0].start_line, folding[0].end_line) == (0, 1)
        (chosen,) = await editor.text_document_selection_range_async(
            lsp.SelectionRangeParams(FILE, [key])
        )
        assert chosen.range.end.character == 8 and chosen.parent

        tokens = await editor.text_document_semantic_tokens_full_async(
            lsp.SemanticTokensParams(FILE)
        )
        word, text = map(list(TOKEN_KINDS).index, ("word", "text"))
        assert list(tokens.data[:10]) == [0, 0, 8, word, 0, 0, 9, 8, text, 0]
        hints = await editor.text_document_inlay_hint_async(lsp.InlayHintParams(FILE, whole))
        assert [one.label for one in hints] == ["18 pins spare"]

    run(session)


def test_what_changes_a_file_does():
    async def session(editor: Editor) -> None:
        editor.open(URI, TEXT)
        await editor.shown(URI, 1)
        at = lsp.Position(4, 7)
        chosen = await editor.text_document_prepare_rename_async(lsp.PrepareRenameParams(FILE, at))
        assert chosen.start == at
        made = await editor.text_document_rename_async(lsp.RenameParams(FILE, at, "Fire"))
        new = after(TEXT, list(made.changes[URI]))
        assert "line Fire W" in new and "\r\n  Fire = Q\r\n" in new and "Fire = Up" in new
        assert editor.said == ["`layer base` now says what the key's name said: Fire = Q"]
        with pytest.raises(JsonRpcException, match="there is already a key `W`"):
            await editor.text_document_rename_async(lsp.RenameParams(FILE, at, "W"))

        options = lsp.FormattingOptions(tab_size=2, insert_spaces=True)
        editor.change(URI, TEXT.replace("  line Q W", " line  Q  W"), 2)
        edits = await editor.text_document_formatting_async(
            lsp.DocumentFormattingParams(FILE, options)
        )
        assert after(TEXT.replace("  line Q W", " line  Q  W"), list(edits)) == TEXT
        here = lsp.Range(lsp.Position(7, 0), lsp.Position(9, 0))
        assert not await editor.text_document_range_formatting_async(
            lsp.DocumentRangeFormattingParams(FILE, here, options)
        )

        editor.change(URI, TEXT, 3)
        context = lsp.CodeActionContext([])
        actions = await editor.text_document_code_action_async(
            lsp.CodeActionParams(FILE, lsp.Range(at, at), context)
        )
        (wire,) = [one for one in actions if one.data]
        wired = await editor.code_action_resolve_async(wire)
        text = after(TEXT, list(wired.edit.changes[URI]))
        editor.change(URI, text, 4)
        assert "wiring\r\n" in text
        assert [one.code for one in await editor.shown(URI, 4)] == []

    run(session)


def test_a_request_about_a_file_that_is_not_open_or_a_place_that_is_not_there_finds_nothing():
    async def session(editor: Editor) -> None:
        far = lsp.Position(10**6, 10**6)
        editor.open(URI, TEXT)
        for uri in (URI, "file:///not/there.keys"):
            file = lsp.TextDocumentIdentifier(uri)
            assert not await editor.text_document_definition_async(lsp.DefinitionParams(file, far))
            assert not await editor.text_document_rename_async(lsp.RenameParams(file, far, "x"))
            await editor.text_document_hover_async(lsp.HoverParams(file, far))
            await editor.text_document_completion_async(lsp.CompletionParams(file, far))
            context = lsp.CodeActionContext([])
            await editor.text_document_code_action_async(
                lsp.CodeActionParams(file, lsp.Range(far, far), context)
            )
        assert editor.errors == []

    run(session)
