"""What is found and offered, in the types of the Language Server Protocol 3.17."""

from __future__ import annotations

from collections.abc import Callable

from lsprotocol import types as lsp

from matrixgen.editor.kinds import kind_of
from matrixgen.editor.messages import message_of
from matrixgen.editor.offers import Offer
from matrixgen.editor.positions import At, stretch
from matrixgen.model import Diagnostic, Severity, SourceText, Span

SEVERITIES = {
    Severity.ERROR: lsp.DiagnosticSeverity.Error,
    Severity.WARNING: lsp.DiagnosticSeverity.Warning,
}

SourceOf = Callable[[str], SourceText]
"""The text of a file, by its path."""


def position(place: At) -> lsp.Position:
    """Return a place."""
    return lsp.Position(place.line, place.character)


def at_of(place: lsp.Position) -> At:
    """Return a place as it is known here."""
    return At(place.line, place.character)


def range_of(source: SourceText, span: Span) -> lsp.Range:
    """Return a span."""
    start, end = stretch(source, span)
    return lsp.Range(position(start), position(end))


def location(address_of: Callable[[str], str], source: SourceText, span: Span) -> lsp.Location:
    """Return a span with the file that it is of."""
    return lsp.Location(address_of(span.path), range_of(source, span))


def diagnostic(
    found: Diagnostic,
    source_of: SourceOf,
    address_of: Callable[[str], str],
    *,
    is_open: bool,
    page: str | None = None,
) -> lsp.Diagnostic:
    """Return a finding, with the address of its page; what a file only leaves open is a hint."""
    notes = [
        lsp.DiagnosticRelatedInformation(
            location(address_of, source_of(note.span.path), note.span), note.text
        )
        for note in found.notes
        if note.span
    ]
    return lsp.Diagnostic(
        range=range_of(source_of(found.span.path), found.span),
        severity=lsp.DiagnosticSeverity.Hint if is_open else SEVERITIES[found.severity],
        code=found.slug,
        code_description=lsp.CodeDescription(page) if page else None,
        source="matrixgen",
        message=message_of(found),
        related_information=notes or None,
    )


ITEM_KINDS = {
    "key": lsp.CompletionItemKind.Field,
    "wire": lsp.CompletionItemKind.Variable,
    "layer": lsp.CompletionItemKind.Module,
    "action": lsp.CompletionItemKind.Function,
    "cluster": lsp.CompletionItemKind.Class,
    "light": lsp.CompletionItemKind.Property,
    "knob": lsp.CompletionItemKind.Event,
    "word": lsp.CompletionItemKind.Keyword,
    "number": lsp.CompletionItemKind.Value,
    "text": lsp.CompletionItemKind.Value,
    "name": lsp.CompletionItemKind.EnumMember,
}


def completion_item(offer: Offer, number: int, replaced: lsp.Range) -> lsp.CompletionItem:
    """Return a word that is offered, the first of all with the number 0."""
    return lsp.CompletionItem(
        label=offer.text,
        kind=ITEM_KINDS[kind_of(offer.terminal)],
        detail=offer.says or None,
        sort_text=f"{number:04}",
        preselect=True if number == 0 else None,
        text_edit=lsp.TextEdit(replaced, offer.text),
    )
