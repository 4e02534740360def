"""`hookwright editor` as an editor meets it: a process, JSON-RPC over its standard input and output."""

from __future__ import annotations

import json
import queue
import subprocess
import sys
import threading
from collections.abc import Iterator
from typing import Any

import pytest

PATTERN = """# Coaster 🧶

Row 1: Ch 13, sc in 2nd ch from hook and in each ch across. (12 sc)
Row 2: Ch 1, turn, sc in each st across. 🧶 (14 sc)
"""
URI = "file:///patterns/coaster.md"


class Client:
    """The few lines of a client that the protocol needs."""

    def __init__(self) -> None:
        command = [sys.executable, "-c", "from hookwright.cli import main; main(['editor'])"]
        self.process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        self.answers: dict[int, queue.Queue[Any]] = {}
        self.news: queue.Queue[tuple[str, Any]] = queue.Queue()
        self.number = 0
        self.reader = threading.Thread(target=self._read, daemon=True)
        self.reader.start()

    def _read(self) -> None:
        out = self.process.stdout
        assert out is not None
        while True:
            length = 0
            while (line := out.readline().strip()) != b"":
                if line.lower().startswith(b"content-length:"):
                    length = int(line.split(b":")[1])
            if not length:
                return
            message = json.loads(out.read(length))
            if "id" in message and "method" not in message:
                self.answers[message["id"]].put(message)
            elif "method" in message:
                self.news.put((message["method"], message.get("params")))

    def _send(self, message: dict[str, Any]) -> None:
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        assert self.process.stdin is not None
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
        self.process.stdin.flush()

    def ask(self, method: str, params: Any) -> Any:
        self.number += 1
        self.answers[self.number] = queue.Queue()
        self._send({"id": self.number, "method": method, "params": params})
        answer = self.answers[self.number].get(timeout=30)
        assert "error" not in answer, answer
        return answer["result"]

    def tell(self, method: str, params: Any) -> None:
        self._send({"method": method, "params": params})

    def diagnostics(self, version: int) -> list[dict[str, Any]]:
        while True:
            method, params = self.news.get(timeout=30)
            if method == "textDocument/publishDiagnostics" and params.get("version") == version:
                found: list[dict[str, Any]] = params["diagnostics"]
                return found

    def close(self) -> None:
        self.ask("shutdown", None)
        self.tell("exit", None)
        assert self.process.wait(timeout=10) == 0
        self.reader.join(5)
        for pipe in (self.process.stdin, self.process.stdout, self.process.stderr):
            if pipe:
                pipe.close()


@pytest.fixture(scope="module")
def client() -> Iterator[Client]:
    client = Client()
    capabilities = {"general": {"positionEncodings": ["utf-32", "utf-8", "utf-16"]}}
    answer = client.ask("initialize", {"processId": None, "rootUri": None, "capabilities": capabilities})
    assert answer["capabilities"]["positionEncoding"] == "utf-16"
    client.tell("initialized", {})
    yield client
    client.close()


def opened(client: Client, version: int, text: str = PATTERN) -> list[dict[str, Any]]:
    client.tell("textDocument/didOpen", {"textDocument": {"uri": URI, "languageId": "markdown", "version": version, "text": text}})
    return client.diagnostics(version)


def test_findings_are_diagnostics_in_utf16(client: Client) -> None:
    found = [one for one in opened(client, 1) if one["severity"] == 1]
    assert [one["code"] for one in found] == ["count-differs"]
    line = PATTERN.split("\n")[3]
    where = found[0]["range"]
    assert where["start"]["line"] == where["end"]["line"] == 3
    units = line.encode("utf-16-le")
    words = units[2 * where["start"]["character"] : 2 * where["end"]["character"]].decode("utf-16-le")
    assert "14" in words
    assert "12" in found[0]["message"]


def test_an_edit_is_followed_and_a_repair_offered(client: Client) -> None:
    opened(client, 2)
    start = {"line": 2, "character": PATTERN.split("\n")[2].index("13")}
    change = {"range": {"start": start, "end": {**start, "character": start["character"] + 2}}, "text": "15"}
    client.tell("textDocument/didChange", {"textDocument": {"uri": URI, "version": 3}, "contentChanges": [change]})
    found = [one for one in client.diagnostics(3) if one["severity"] == 1]
    assert "Row 1" in found[0]["message"]
    actions = client.ask(
        "textDocument/codeAction", {"textDocument": {"uri": URI}, "range": found[0]["range"], "context": {"diagnostics": []}}
    )
    assert any(edit["newText"] for action in actions for edit in action["edit"]["changes"][URI])


def test_only_the_newest_text_is_reported(client: Client) -> None:
    opened(client, 10)
    for version in range(11, 21):
        whole = {"text": PATTERN.replace("14", str(version))}
        client.tell("textDocument/didChange", {"textDocument": {"uri": URI, "version": version}, "contentChanges": [whole]})
    found = client.diagnostics(20)
    assert any("20" in one["message"] for one in found)


def test_hover_completion_outline_tidying_and_counts(client: Client) -> None:
    opened(client, 30, PATTERN + "Row 3: Ch 1,turn, sc in each st across. (\n")
    document = {"textDocument": {"uri": URI}}
    card = client.ask("textDocument/hover", {**document, "position": {"line": 3, "character": 20}})
    assert "single crochet" in card["contents"]["value"]
    items = client.ask("textDocument/completion", {**document, "position": {"line": 4, "character": 43}})["items"]
    assert items[0]["textEdit"]["newText"].startswith("12 sc")
    outline = client.ask("textDocument/documentSymbol", document)
    assert [row["name"] for row in outline[0]["children"]][:2] == ["Row 1", "Row 2"]
    edits = client.ask("textDocument/formatting", {**document, "options": {"tabSize": 2, "insertSpaces": True}})
    assert any("Ch 1, turn" in edit["newText"] for edit in edits)
    hints = client.ask(
        "textDocument/inlayHint", {**document, "range": {"start": {"line": 0, "character": 0}, "end": {"line": 9, "character": 0}}}
    )
    assert any(hint["label"].startswith("12") and hint["label"].endswith("≠") for hint in hints)


def test_an_unknown_document_is_no_trouble(client: Client) -> None:
    assert (
        client.ask("textDocument/hover", {"textDocument": {"uri": "file:///nothing.md"}, "position": {"line": 0, "character": 0}}) is None
    )
