"""What an editor asks about a text: what a word is, where else it stands, what belongs together."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol

from lsprotocol import types as lsp

from matrixgen.editor.as_lsp import at_of, position, range_of
from matrixgen.editor.colouring import coloured, hints
from matrixgen.editor.explained import explained
from matrixgen.editor.file_words import WordAt
from matrixgen.editor.names import definition, things, uses, word_at
from matrixgen.editor.open_file import OpenFile, OpenText
from matrixgen.editor.outline import Symbol, around, folds, symbols
from matrixgen.editor.positions import At, at, point, stretch, units
from matrixgen.editor.server import KeysServer

TOKEN_KINDS = {
    "word": lsp.SemanticTokenTypes.Keyword,
    "key": lsp.SemanticTokenTypes.Variable,
    "wire": lsp.SemanticTokenTypes.Property,
    "layer": lsp.SemanticTokenTypes.Namespace,
    "action": lsp.SemanticTokenTypes.Function,
    "cluster": lsp.SemanticTokenTypes.Class,
    "light": lsp.SemanticTokenTypes.Struct,
    "knob": lsp.SemanticTokenTypes.Event,
    "number": lsp.SemanticTokenTypes.Number,
    "text": lsp.SemanticTokenTypes.String,
    "name": lsp.SemanticTokenTypes.EnumMember,
    "comment": lsp.SemanticTokenTypes.Comment,
}
SYMBOL_KINDS = {
    "block": lsp.SymbolKind.Module,
    "key": lsp.SymbolKind.Key,
    "wire": lsp.SymbolKind.Field,
    "layer": lsp.SymbolKind.Namespace,
    "action": lsp.SymbolKind.Function,
    "cluster": lsp.SymbolKind.Class,
    "light": lsp.SymbolKind.Property,
    "knob": lsp.SymbolKind.Event,
}
HINTS = "inlayHints"
"""The setting of an editor's `initializationOptions` that asks for hints behind words."""


class AboutAPlace(Protocol):
    """A request about a place in a file."""

    @property
    def text_document(self) -> lsp.TextDocumentIdentifier:
        """The file."""
        ...

    @property
    def position(self) -> lsp.Position:
        """The place."""
        ...


def word_here(server: KeysServer, params: AboutAPlace) -> tuple[OpenFile, WordAt] | None:
    """Return the open file and the word that a request is about."""
    file = server.desk.file(params.text_document.uri)
    if file is None:
        return None
    word = word_at(file.now.words, point(file.now.source, at_of(params.position)))
    return (file, word) if word else None


def same_words(server: KeysServer, params: AboutAPlace) -> list[lsp.Location]:
    """Return where every word stands that names what the word of a request names."""
    found = word_here(server, params)
    if found is None:
        return []
    file, word = found
    words = file.now.words
    each = (one for thing in things(words, word) for one in uses(words, thing))
    same = sorted({one.span: one for one in each}.values(), key=lambda one: one.span)
    return [_location(params, file, one) for one in same]


def serve_reading(server: KeysServer) -> None:
    """Answer what is asked about words."""

    @server.feature(lsp.TEXT_DOCUMENT_HOVER)
    def hover(ls: KeysServer, params: lsp.HoverParams) -> lsp.Hover | None:
        found = word_here(ls, params)
        if found is None:
            return None
        file, word = found
        here = [one for one in ls.desk.found(file) if one.span.holds(word.span)]
        text = explained(file.now, word, here)
        shown = lsp.MarkupContent(lsp.MarkupKind.Markdown, text or "")
        return lsp.Hover(shown, range_of(file.now.source, word.span)) if text else None

    @server.feature(lsp.TEXT_DOCUMENT_DEFINITION)
    def defined(ls: KeysServer, params: lsp.DefinitionParams) -> list[lsp.Location]:
        found = word_here(ls, params)
        if found is None:
            return []
        file, word = found
        words = file.now.words
        each = [definition(words, thing) for thing in things(words, word)]
        return [_location(params, file, one) for one in each if one]

    @server.feature(lsp.TEXT_DOCUMENT_REFERENCES)
    def used(ls: KeysServer, params: lsp.ReferenceParams) -> list[lsp.Location]:
        return same_words(ls, params)

    @server.feature(lsp.TEXT_DOCUMENT_DOCUMENT_HIGHLIGHT)
    def marked(ls: KeysServer, params: lsp.DocumentHighlightParams) -> list[lsp.DocumentHighlight]:
        return [lsp.DocumentHighlight(one.range) for one in same_words(ls, params)]


def _location(params: AboutAPlace, file: OpenFile, one: WordAt) -> lsp.Location:
    return lsp.Location(params.text_document.uri, range_of(file.now.source, one.span))


def serve_outline(server: KeysServer) -> None:
    """Answer what belongs together in a file."""

    @server.feature(lsp.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def outline(ls: KeysServer, params: lsp.DocumentSymbolParams) -> list[lsp.DocumentSymbol]:
        file = ls.desk.file(params.text_document.uri)
        return [_symbol(file.now, one) for one in symbols(file.now)] if file else []

    @server.feature(lsp.TEXT_DOCUMENT_FOLDING_RANGE)
    def folding(ls: KeysServer, params: lsp.FoldingRangeParams) -> list[lsp.FoldingRange]:
        file = ls.desk.file(params.text_document.uri)
        return [
            lsp.FoldingRange(
                start - 1, end - 1, kind=lsp.FoldingRangeKind.Comment if is_comment else None
            )
            for start, end, is_comment in (folds(file.now) if file else ())
        ]

    @server.feature(lsp.TEXT_DOCUMENT_SELECTION_RANGE)
    def selection(ls: KeysServer, params: lsp.SelectionRangeParams) -> list[lsp.SelectionRange]:
        file = ls.desk.file(params.text_document.uri)
        return [_selection(file.now, at_of(one)) for one in params.positions] if file else []


def _symbol(text: OpenText, one: Symbol) -> lsp.DocumentSymbol:
    return lsp.DocumentSymbol(
        name=one.name,
        kind=SYMBOL_KINDS.get(one.kind, lsp.SymbolKind.Constant),
        range=range_of(text.source, one.whole),
        selection_range=range_of(text.source, one.named),
        children=[_symbol(text, part) for part in one.parts],
    )


def _selection(text: OpenText, place: At) -> lsp.SelectionRange:
    spans = around(text, point(text.source, place))
    found = lsp.SelectionRange(range_of(text.source, spans[-1]))
    for span in reversed(spans[:-1]):
        found = lsp.SelectionRange(range_of(text.source, span), parent=found)
    return found


def serve_colours(server: KeysServer) -> None:
    """Tell the kinds of words, and what may be shown behind them."""
    legend = lsp.SemanticTokensLegend([str(one.value) for one in TOKEN_KINDS.values()], [])

    @server.feature(lsp.TEXT_DOCUMENT_SEMANTIC_TOKENS_FULL, legend)
    def colours(ls: KeysServer, params: lsp.SemanticTokensParams) -> lsp.SemanticTokens:
        file = ls.desk.file(params.text_document.uri)
        return lsp.SemanticTokens(list(_tokens(file.now)) if file else [])

    @server.feature(lsp.TEXT_DOCUMENT_INLAY_HINT)
    def hinted(ls: KeysServer, params: lsp.InlayHintParams) -> list[lsp.InlayHint]:
        file = ls.desk.file(params.text_document.uri)
        if file is None or not ls.wants(HINTS):
            return []
        lines = range(params.range.start.line + 1, params.range.end.line + 2)
        return [
            lsp.InlayHint(position(at(file.now.source, place)), said, padding_left=True)
            for place, said in hints(file.now, lines)
        ]


def _tokens(text: OpenText) -> Iterator[int]:
    """Yield five numbers for each word (section "Semantic Tokens" of the protocol)."""
    kinds = list(TOKEN_KINDS)
    found = [(stretch(text.source, span), span, kind) for span, kind in coloured(text)]
    before = At(0, 0)
    for (start, _), span, kind in found:
        line = start.line - before.line
        character = start.character - (before.character if line == 0 else 0)
        word = text.source.line(span.line)[span.column - 1 : span.end_column - 1]
        yield from (line, character, units(word), kinds.index(kind), 0)
        before = start
