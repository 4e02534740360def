"""`hookwright editor`: the Language Server Protocol over standard input and output.

Findings as diagnostics, repairs as quick fixes, hover, completion, outline, tidying, and the running count of every row as an inlay hint.
"""

from __future__ import annotations

from collections.abc import Generator
from typing import Any

from lsprotocol import types
from pygls.lsp.server import LanguageServer
from pygls.protocol import LanguageServerProtocol, lsp_method

from .. import __version__
from ..pattern import Finding
from ..session import Session, Units, complete, format_edits, hover, symbols, tallies
from . import convert
from .documents import Documents

SETTLE_SECONDS = 0.03
"""Several changes in one keystroke's time are worked once."""


class Utf16Protocol(LanguageServerProtocol):
    """Keeps to UTF-16 positions, which every client speaks, so that one module converts them."""

    @lsp_method(types.INITIALIZE)
    def lsp_initialize(self, params: types.InitializeParams) -> Generator[Any, Any, types.InitializeResult]:
        if params.capabilities.general is not None:
            params.capabilities.general.position_encodings = None
        return (yield from super().lsp_initialize(params))


def make_server() -> LanguageServer:
    """A server ready to be started."""
    server = LanguageServer("hookwright", __version__, protocol_cls=Utf16Protocol)
    documents = Documents()
    _follow_texts(server, documents)
    _answer(server, documents)
    return server


def _follow_texts(server: LanguageServer, documents: Documents) -> None:
    import asyncio

    async def proof(uri: str, version: int | None) -> None:
        await asyncio.sleep(SETTLE_SECONDS)
        document = documents.take(uri, *_newest(server, uri))
        if version is not None and document.version != version:
            return  # a newer text has come; its own task reports
        found = await documents.ask(uri, lambda session, units: [convert.diagnostic(units, uri, one) for one in session.findings])
        if found is not None and document.version == version:
            server.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri=uri, version=version, diagnostics=found))

    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    async def opened(params: types.DidOpenTextDocumentParams) -> None:
        document = params.text_document
        documents.take(document.uri, document.text, document.version)
        await proof(document.uri, document.version)

    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    async def changed(params: types.DidChangeTextDocumentParams) -> None:
        uri = params.text_document.uri
        documents.take(uri, *_newest(server, uri))
        await proof(uri, params.text_document.version)

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    def closed(params: types.DidCloseTextDocumentParams) -> None:
        documents.drop(params.text_document.uri)
        server.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri=params.text_document.uri, diagnostics=[]))


def _newest(server: LanguageServer, uri: str) -> tuple[str, int | None]:
    document = server.workspace.get_text_document(uri)
    return document.source, document.version


def _answer(server: LanguageServer, documents: Documents) -> None:
    @server.feature(types.TEXT_DOCUMENT_HOVER)
    async def told(params: types.HoverParams) -> types.Hover | None:
        def work(session: Session, units: Units) -> types.Hover | None:
            card = hover(session, convert.point(units, params.position))
            return convert.hover_card(units, card) if card else None

        return await documents.ask(params.text_document.uri, work)

    @server.feature(types.TEXT_DOCUMENT_COMPLETION, types.CompletionOptions(trigger_characters=["(", " "]))
    async def suggested(params: types.CompletionParams) -> types.CompletionList:
        def work(session: Session, units: Units) -> list[types.CompletionItem]:
            found = complete(session, convert.point(units, params.position))
            return [convert.completion_item(units, item, rank) for rank, item in enumerate(found)]

        items = await documents.ask(params.text_document.uri, work)
        return types.CompletionList(is_incomplete=True, items=items or [])

    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    async def outline(params: types.DocumentSymbolParams) -> list[types.DocumentSymbol]:
        def work(session: Session, units: Units) -> list[types.DocumentSymbol]:
            return [convert.document_symbol(units, symbol) for symbol in symbols(session)]

        return await documents.ask(params.text_document.uri, work) or []

    @server.feature(types.TEXT_DOCUMENT_FORMATTING)
    async def tidied(params: types.DocumentFormattingParams) -> list[types.TextEdit]:
        def work(session: Session, units: Units) -> list[types.TextEdit]:
            return [convert.text_edit(units, edit) for edit in format_edits(session)]

        return await documents.ask(params.text_document.uri, work) or []

    @server.feature(types.TEXT_DOCUMENT_CODE_ACTION, types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix]))
    async def repairs(params: types.CodeActionParams) -> list[types.CodeAction]:
        uri = params.text_document.uri

        def work(session: Session, units: Units) -> list[types.CodeAction]:
            wanted = convert.range_span(units, params.range)
            near = [one for one in session.findings if one.span.start <= wanted.end and wanted.start <= one.span.end]
            return [_repair(units, uri, finding) for finding in near if finding.repair and finding.repair.edits]

        return await documents.ask(uri, work) or []

    @server.feature(types.TEXT_DOCUMENT_INLAY_HINT)
    async def counts(params: types.InlayHintParams) -> list[types.InlayHint]:
        def work(session: Session, units: Units) -> list[types.InlayHint]:
            wanted = convert.range_span(units, params.range)
            shown = [tally for tally in tallies(session) if tally.text and wanted.start <= tally.span.end <= wanted.end + 1]
            return [convert.inlay_hint(units, tally, tally.span.start + len(tally.span.of(session.text).rstrip())) for tally in shown]

        return await documents.ask(params.text_document.uri, work) or []


def _repair(units: Units, uri: str, finding: Finding) -> types.CodeAction:
    assert finding.repair is not None
    return types.CodeAction(
        title=finding.repair.title,
        kind=types.CodeActionKind.QuickFix,
        is_preferred=finding.repair.grade == "safe",
        diagnostics=[convert.diagnostic(units, uri, finding)],
        edit=types.WorkspaceEdit(changes={uri: [convert.text_edit(units, edit) for edit in finding.repair.edits]}),
    )
