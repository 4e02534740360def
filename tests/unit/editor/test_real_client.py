"""`hookwright editor` talked to by the protocol library's own client, over standard input and output: every position in UTF-16 units."""

from __future__ import annotations

import asyncio
import sys
from collections.abc import Awaitable, Callable

import pytest
from lsprotocol import types
from pygls.lsp.client import LanguageClient

URI = "file:///patterns/mat.md"
LINES = (
    "# Mat 🧶",
    "",
    "Gauge: 16 sc and 18 rows = 10 cm",
    "",
    "Row 1: Ch 13, 🧶 sc in 2nd ch from hook and in each ch across. (12 sc)",
    "Row 2: Ch 1, turn, café\u0301 🧶🧶 sc in each st across. (14 sc)",
    "Rows 3-8: Rep Row 2. (12 sc)",
    "Row 9: Ch 1,turn, 2 sc in first st, sc in each st across. (13 sc)",
)
ENDS = {"LF": "\n", "CRLF": "\r\n", "CR": "\r"}


class Editor:
    """A client with one open document, that keeps its own copy of the text as an editor does: lines, UTF-16 units."""

    def __init__(self) -> None:
        self.client = LanguageClient("test editor", "1")
        self.text = ""
        self.version = 0
        self.news: dict[int, list[types.Diagnostic]] = {}
        self.came = asyncio.Event()

        @self.client.feature(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
        def published(params: types.PublishDiagnosticsParams) -> None:
            if params.version is not None:
                self.news[params.version] = list(params.diagnostics)
                self.came.set()

    async def start(self) -> None:
        await self.client.start_io(sys.executable, "-c", "from hookwright.cli import main; main(['editor'])")
        encodings = [types.PositionEncodingKind.Utf32, types.PositionEncodingKind.Utf16]
        capabilities = types.ClientCapabilities(general=types.GeneralClientCapabilities(position_encodings=encodings))
        answer = await self.client.initialize_async(types.InitializeParams(capabilities=capabilities))
        assert answer.capabilities.position_encoding == types.PositionEncodingKind.Utf16
        assert answer.capabilities.hover_provider and answer.capabilities.code_action_provider
        self.client.initialized(types.InitializedParams())

    async def stop(self) -> None:
        await self.client.shutdown_async(None)
        self.client.exit(None)
        await self.client.stop()

    async def open(self, text: str) -> list[types.Diagnostic]:
        self.text = text
        self.version += 1
        item = types.TextDocumentItem(uri=URI, language_id="markdown", version=self.version, text=text)
        self.client.text_document_did_open(types.DidOpenTextDocumentParams(text_document=item))
        return await self.findings()

    async def close(self) -> None:
        self.client.text_document_did_close(types.DidCloseTextDocumentParams(text_document=self.document))

    async def change(self, *edits: types.TextEdit) -> list[types.Diagnostic]:
        """Make edits one after the other, and tell them as an editor does: ranges, not the whole text."""
        changes: list[types.TextDocumentContentChangeEvent] = []
        for edit in edits:
            changes.append(types.TextDocumentContentChangePartial(range=edit.range, text=edit.new_text))
            self.text = applied(self.text, [edit])
        self.version += 1
        told = types.VersionedTextDocumentIdentifier(uri=URI, version=self.version)
        self.client.text_document_did_change(types.DidChangeTextDocumentParams(text_document=told, content_changes=changes))
        return await self.findings()

    async def findings(self) -> list[types.Diagnostic]:
        while self.version not in self.news:
            self.came.clear()
            await asyncio.wait_for(self.came.wait(), 60)
        return self.news[self.version]

    @property
    def document(self) -> types.TextDocumentIdentifier:
        return types.TextDocumentIdentifier(uri=URI)

    def words(self, place: types.Range) -> str:
        """The words of a range in the editor's own copy."""
        start, end = offset(self.text, place.start), offset(self.text, place.end)
        return self.text[start:end]

    def at(self, words: str, nth: int = 0, into: int = 0) -> types.Position:
        """Where some words stand in the editor's own copy."""
        point = -1
        for _ in range(nth + 1):
            point = self.text.index(words, point + 1)
        return position(self.text, point + into)


def starts(text: str) -> list[int]:
    """Where lines begin: after LF, CRLF or CR. (The editor's own reckoning; ours is not used.)"""
    found = [0]
    for i, character in enumerate(text):
        if character == "\n" or (character == "\r" and text[i + 1 : i + 2] != "\n"):
            found.append(i + 1)
    return found


def offset(text: str, place: types.Position) -> int:
    lines = starts(text)
    at = lines[place.line] if place.line < len(lines) else len(text)
    units = 0
    while units < place.character and at < len(text) and text[at] not in "\r\n":
        units += len(text[at].encode("utf-16-le")) // 2
        at += 1
    assert units == place.character, "a position splits a pair or lies beyond the line"
    return at


def position(text: str, point: int) -> types.Position:
    line = max(k for k, start in enumerate(starts(text)) if start <= point)
    return types.Position(line, len(text[starts(text)[line] : point].encode("utf-16-le")) // 2)


def applied(text: str, edits: list[types.TextEdit]) -> str:
    """The text with edits made, from behind."""
    for edit in sorted(edits, key=lambda edit: offset(text, edit.range.start), reverse=True):
        text = text[: offset(text, edit.range.start)] + edit.new_text + text[offset(text, edit.range.end) :]
    return text


def errors(found: list[types.Diagnostic]) -> list[types.Diagnostic]:
    return [one for one in found if one.severity == types.DiagnosticSeverity.Error]


Talk = Callable[[Editor], Awaitable[None]]


def talk(*talks: Talk) -> None:
    """Hold conversations with one server, one document after the other."""

    async def hold() -> None:
        editor = Editor()
        await editor.start()
        try:
            for one in talks:
                await one(editor)
                await editor.close()
        finally:
            await editor.stop()

    asyncio.run(hold())


@pytest.mark.parametrize("ends", ENDS)
def test_every_answer_stands_where_its_words_stand(ends: str) -> None:
    text = ENDS[ends].join(LINES) + ENDS[ends]

    async def diagnostics_and_repairs(editor: Editor) -> None:
        found = errors(await editor.open(text))
        assert [one.code for one in found] == ["count-differs"]
        assert "14" in editor.words(found[0].range) and found[0].range.start.line == 5
        assert "12" in found[0].message and found[0].source == "hookwright"
        context = types.CodeActionContext(diagnostics=found)
        asked = types.CodeActionParams(text_document=editor.document, range=found[0].range, context=context)
        actions = await editor.client.text_document_code_action_async(asked)
        assert actions
        action = next(one for one in actions if isinstance(one, types.CodeAction))
        assert action.edit is not None and action.edit.changes is not None
        mended = applied(editor.text, list(action.edit.changes[URI]))
        assert "(12 sc)" in mended.split(ENDS[ends])[5] and "🧶🧶" in mended
        assert errors(await editor.change(*action.edit.changes[URI])) == []
        assert editor.text == mended

    async def typed(editor: Editor) -> None:
        """Letter by letter, after emoji and before a combining mark."""
        await editor.open(text)
        here = editor.at("14 sc")
        for k, letter in enumerate("12"):
            place = types.Position(here.line, here.character + k)
            after = types.Position(place.line, place.character + 1)
            found = await editor.change(types.TextEdit(range=types.Range(start=place, end=after), new_text=letter))
        assert errors(found) == []
        many = [
            types.TextEdit(range=types.Range(start=editor.at("13", 0), end=editor.at("13", 0, 2)), new_text="16"),
            types.TextEdit(range=types.Range(start=editor.at("🧶 sc"), end=editor.at("🧶 sc", 0, 2)), new_text=""),
        ]
        found = errors(await editor.change(*many))
        assert found and found[0].range.start.line == 4 and "12" in editor.words(found[0].range)

    async def cards(editor: Editor) -> None:
        await editor.open(text)
        for words, said, covered in (
            ("sc in each st", "single crochet", "sc"),
            ("Row 2", "Row 2: 12 sc", "Row 2"),
            ("Gauge", "gauge", "Gauge"),
        ):
            card = await editor.client.text_document_hover_async(
                types.HoverParams(text_document=editor.document, position=editor.at(words, 0, 1))
            )
            assert card is not None and card.range is not None and isinstance(card.contents, types.MarkupContent)
            assert said in card.contents.value
            assert editor.words(card.range) == covered

    async def outline(editor: Editor) -> None:
        await editor.open(text)
        found = await editor.client.text_document_document_symbol_async(types.DocumentSymbolParams(text_document=editor.document))
        assert found
        part = found[0]
        assert isinstance(part, types.DocumentSymbol) and part.children
        for row in part.children:
            assert editor.words(row.selection_range).startswith(row.name.split()[0])
            assert offset(editor.text, row.range.start) <= offset(editor.text, row.selection_range.start)
            assert offset(editor.text, row.selection_range.end) <= offset(editor.text, row.range.end)

    async def tidied(editor: Editor) -> None:
        await editor.open(text)
        options = types.FormattingOptions(tab_size=2, insert_spaces=True)
        edits = await editor.client.text_document_formatting_async(
            types.DocumentFormattingParams(text_document=editor.document, options=options)
        )
        assert edits
        before = editor.text
        await editor.change(*edits)
        assert "Ch 1, turn, 2 sc" in editor.text
        assert editor.text.count(ENDS[ends]) == before.count(ENDS[ends])
        again = await editor.client.text_document_formatting_async(
            types.DocumentFormattingParams(text_document=editor.document, options=options)
        )
        assert not again

    async def offered(editor: Editor) -> None:
        await editor.open(text.replace("(14 sc)", "("))
        place = editor.at("across. (", 1, len("across. ("))
        got = await editor.client.text_document_completion_async(types.CompletionParams(text_document=editor.document, position=place))
        items = got.items if isinstance(got, types.CompletionList) else got
        assert items
        edit = items[0].text_edit
        assert isinstance(edit, types.TextEdit)
        assert errors(await editor.change(edit)) == []
        assert "🧶🧶 sc in each st across. (12 sc)" in editor.text
        last = position(editor.text, len(editor.text))
        got = await editor.client.text_document_completion_async(types.CompletionParams(text_document=editor.document, position=last))
        items = got.items if isinstance(got, types.CompletionList) else got
        assert items and items[0].label.startswith("Row 10")

    async def counts(editor: Editor) -> None:
        await editor.open(text)
        whole = types.Range(start=types.Position(0, 0), end=position(editor.text, len(editor.text)))
        hints = await editor.client.text_document_inlay_hint_async(types.InlayHintParams(text_document=editor.document, range=whole))
        assert hints
        lines = editor.text.split(ENDS[ends])
        for hint in hints:
            line = lines[hint.position.line]
            assert hint.position.character == len(line.encode("utf-16-le")) // 2, "beside the row, at its line's end"
        assert any(str(hint.label).startswith("12") and "≠" in str(hint.label) for hint in hints)

    talk(diagnostics_and_repairs, typed, cards, outline, tidied, offered, counts)
