"""From the session's answers to the protocol's types. Every position goes through `session.utf16`."""

from __future__ import annotations

from lsprotocol import types

from ..pattern import Edit, Finding, Span
from ..session import Completion, Hover, Position, Symbol, Tally, Units

SEVERITY = {
    "error": types.DiagnosticSeverity.Error,
    "warning": types.DiagnosticSeverity.Warning,
    "note": types.DiagnosticSeverity.Information,
}
KIND = {
    "stitch": types.CompletionItemKind.Keyword,
    "place": types.CompletionItemKind.Text,
    "row": types.CompletionItemKind.Snippet,
    "count": types.CompletionItemKind.Value,
    "word": types.CompletionItemKind.Text,
}


def position(units: Units, point: int) -> types.Position:
    line, character = units.position(point)
    return types.Position(line=line, character=character)


def span_range(units: Units, span: Span) -> types.Range:
    return types.Range(start=position(units, span.start), end=position(units, span.end))


def point(units: Units, place: types.Position) -> int:
    return units.point(Position(place.line, place.character))


def range_span(units: Units, place: types.Range) -> Span:
    return Span(point(units, place.start), point(units, place.end))


def text_edit(units: Units, edit: Edit) -> types.TextEdit:
    return types.TextEdit(range=span_range(units, edit.span), new_text=edit.text)


def diagnostic(units: Units, uri: str, finding: Finding) -> types.Diagnostic:
    message = "\n".join((finding.message, *(f"  {line}" for line in finding.working)))
    related = [
        types.DiagnosticRelatedInformation(location=types.Location(uri=uri, range=span_range(units, span)), message=words)
        for span, words in finding.notes
    ]
    return types.Diagnostic(
        range=span_range(units, finding.span),
        message=message,
        severity=SEVERITY[finding.severity],
        code=finding.rule,
        source="hookwright",
        related_information=related or None,
    )


def hover_card(units: Units, card: Hover) -> types.Hover:
    lines = "\n\n".join("---" if line == "—" else line for line in card.lines)
    value = f"**{card.head}**\n\n{lines}".rstrip()
    return types.Hover(contents=types.MarkupContent(kind=types.MarkupKind.Markdown, value=value), range=span_range(units, card.span))


def completion_item(units: Units, item: Completion, rank: int) -> types.CompletionItem:
    return types.CompletionItem(
        label=item.label,
        kind=KIND[item.kind],
        detail=item.detail or None,
        sort_text=f"{rank:04d}",
        filter_text=item.span and item.insert,
        text_edit=types.TextEdit(range=span_range(units, item.span), new_text=item.insert),
    )


def document_symbol(units: Units, symbol: Symbol) -> types.DocumentSymbol:
    part = bool(symbol.inside)
    return types.DocumentSymbol(
        name=symbol.name or "Piece",
        detail=symbol.detail or None,
        kind=types.SymbolKind.Module if part else types.SymbolKind.Field,
        range=span_range(units, symbol.span),
        selection_range=span_range(units, symbol.name_span),
        children=[document_symbol(units, inner) for inner in symbol.inside],
    )


def inlay_hint(units: Units, tally: Tally, end: int) -> types.InlayHint:
    mark = {"agrees": "✓", "differs": "≠", "unstated": "", "uncompared": "–", "unread": "?", "assumed": "≈"}[tally.state]
    return types.InlayHint(position=position(units, end), label=f"{tally.text} {mark}".rstrip(), padding_left=True, tooltip=tally.full)
