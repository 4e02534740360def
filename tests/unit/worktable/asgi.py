"""A few lines that speak ASGI to an application, so that its answers can be looked at without a network."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any


@dataclass
class Answer:
    status: int
    headers: dict[str, str]
    body: bytes

    @property
    def json(self) -> Any:
        return json.loads(self.body)


HOME = {"host": "127.0.0.1:4173"}
OURS = {**HOME, "origin": "http://127.0.0.1:4173", "sec-fetch-site": "same-origin"}


async def ask(app: Any, method: str, path: str, headers: dict[str, str], pieces: Iterable[bytes] = (b"",), query: str = "") -> Answer:
    waiting = list(pieces)
    sent: list[dict[str, Any]] = []

    async def receive() -> dict[str, Any]:
        piece = waiting.pop(0) if waiting else b""
        return {"type": "http.request", "body": piece, "more_body": bool(waiting)}

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    from urllib.parse import unquote

    scope = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": method, "scheme": "http",
        "path": unquote(path), "raw_path": path.encode(),
        "query_string": query.encode(), "root_path": "", "headers": [(k.encode(), v.encode()) for k, v in headers.items()],
        "client": ("127.0.0.1", 50000), "server": ("127.0.0.1", 4173), "state": {},
    }  # fmt: skip
    await app(scope, receive, send)
    start = next(message for message in sent if message["type"] == "http.response.start")
    body = b"".join(message.get("body", b"") for message in sent if message["type"] == "http.response.body")
    return Answer(start["status"], {k.decode().lower(): v.decode() for k, v in start["headers"]}, body)


def get(app: Any, path: str, headers: dict[str, str] | None = None) -> Answer:
    return asyncio.run(ask(app, "GET", path, headers or OURS))


def post(app: Any, path: str, content: Any = None, headers: dict[str, str] | None = None) -> Answer:
    body = json.dumps(content).encode()
    return asyncio.run(ask(app, "POST", path, {**(headers or OURS), "content-length": str(len(body))}, (body,)))


async def knock(app: Any, headers: dict[str, str]) -> str:
    """What a websocket asked for at /live is told first."""
    sent: list[dict[str, Any]] = []

    async def receive() -> dict[str, Any]:
        return {"type": "websocket.connect"} if not sent else {"type": "websocket.disconnect", "code": 1000}

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    scope = {
        "type": "websocket", "asgi": {"version": "3.0"}, "http_version": "1.1", "scheme": "ws",
        "path": "/live", "raw_path": b"/live", "query_string": b"",
        "root_path": "", "headers": [(k.encode(), v.encode()) for k, v in headers.items()], "client": ("127.0.0.1", 50000),
        "server": ("127.0.0.1", 4173), "subprotocols": [], "state": {},
    }  # fmt: skip
    await app(scope, receive, send)
    return str(sent[0]["type"])
