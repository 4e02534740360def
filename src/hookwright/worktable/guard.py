"""What keeps the worktable to its maker: who may ask (Host, Origin), how much may be sent, and what a page may load.

Everything is bound to the loopback address; these checks are against other web pages open in the same browser (cross-site requests,
DNS rebinding) and against a pattern's text becoming markup.
"""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterable

from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

JSON_LARGEST = 6_000_000
"""Bytes of an ordinary request: the largest pattern, and some."""
FILE_LARGEST = 25_000_000
"""Bytes of a file brought in."""

HEADERS = (
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"permissions-policy", b"camera=(), microphone=(), geolocation=(), payment=(), usb=()"),
    (b"x-frame-options", b"DENY"),
)


def policy(nonce: str | None = None) -> str:
    """The Content-Security-Policy of every answer. Styles that the editor makes at run time carry the page's nonce."""
    style = f"'self' 'nonce-{nonce}'" if nonce else "'self'"
    return (
        f"default-src 'none'; script-src 'self'; style-src {style}; img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; "
        "worker-src 'self'; manifest-src 'self'; frame-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'"
    )


SANDBOX = (
    "sandbox allow-scripts allow-modals allow-popups allow-downloads; default-src 'none'; script-src 'unsafe-inline'; "
    "style-src 'unsafe-inline'; img-src data: blob:; font-src data:; media-src data:"
)
"""For a published page looked at from here: it may run its own script, but as nobody: it has no origin, so it can ask us nothing."""


def new_nonce() -> str:
    return secrets.token_urlsafe(16)


class Guard:
    """ASGI middleware with every check. `hosts`: the names this listener answers to, without port."""

    def __init__(self, app: ASGIApp, hosts: Iterable[str]) -> None:
        self.app = app
        self.hosts = frozenset(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        reason = self._refuse(scope)
        if reason:
            await _answer_refusal(scope, send, 403, reason)
            return
        if scope["type"] == "websocket":
            await self.app(scope, receive, send)
            return
        await self._guarded(scope, receive, send)

    def _refuse(self, scope: Scope) -> str | None:
        headers = _headers(scope)
        host = headers.get("host", "")
        if _without_port(host) not in self.hosts:
            return "This address is not one the worktable answers to."
        origin = headers.get("origin")
        same = origin in (f"http://{host}", f"https://{host}")
        if origin is not None and not same:
            return "Another web page asked; only the worktable's own page may."
        site = headers.get("sec-fetch-site")
        navigating = scope.get("method") == "GET" and headers.get("sec-fetch-mode") == "navigate" and scope["path"] == "/"
        if site not in (None, "same-origin", "none") and not navigating:
            return "Another web page asked; only the worktable's own page may."
        changes = scope["type"] == "websocket" or scope.get("method") not in ("GET", "HEAD")
        if changes and origin is None:
            return "A request that changes something must say which page it comes from."
        return None

    async def _guarded(self, scope: Scope, receive: Receive, send: Send) -> None:
        largest = FILE_LARGEST if scope["path"] in ("/api/bring-in",) else JSON_LARGEST
        told = _headers(scope).get("content-length", "0")
        if not told.isdigit() or int(told) > largest:
            await _answer_refusal(scope, send, 413, f"That is more than {largest // 1_000_000} MB; nothing was taken in.")
            return
        taken = 0

        async def counted() -> Message:
            nonlocal taken
            message = await receive()
            taken += len(message.get("body", b""))
            if taken > largest:
                raise TooMuch(largest)
            return message

        async def dressed(message: Message) -> None:
            if message["type"] == "http.response.start":
                there = {name.lower() for name, _ in message["headers"]}
                extra = [pair for pair in HEADERS if pair[0] not in there]
                if b"content-security-policy" not in there:
                    extra.append((b"content-security-policy", policy().encode()))
                if b"cache-control" not in there:
                    extra.append((b"cache-control", b"no-store"))
                message = {**message, "headers": [*message["headers"], *extra]}
            await send(message)

        await self.app(scope, counted, dressed)


class TooMuch(HTTPException):
    """More bytes came than a request may have."""

    def __init__(self, largest: int) -> None:
        super().__init__(413, f"That is more than {largest // 1_000_000} MB; nothing was taken in.")


def _headers(scope: Scope) -> dict[str, str]:
    return {name.decode("latin-1").lower(): value.decode("latin-1") for name, value in scope["headers"]}


def _without_port(host: str) -> str:
    if host.startswith("["):
        return host.partition("]")[0] + "]"
    return host.partition(":")[0].lower()


async def _answer_refusal(scope: Scope, send: Send, status: int, sentence: str) -> None:
    if scope["type"] == "websocket":
        await send({"type": "websocket.close", "code": 4403, "reason": sentence[:120]})
        return
    body = json.dumps({"trouble": sentence}).encode()
    start = [(b"content-type", b"application/json"), (b"content-security-policy", policy().encode()), *HEADERS]
    await send({"type": "http.response.start", "status": status, "headers": start})
    await send({"type": "http.response.body", "body": body})
