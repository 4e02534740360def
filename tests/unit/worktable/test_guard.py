"""Who may ask, how much, and what a page may load."""

from __future__ import annotations

import asyncio
from typing import Any

import pytest

from hookwright.worktable.guard import FILE_LARGEST, JSON_LARGEST, SANDBOX, policy

from .asgi import HOME, OURS, ask, get, knock, post


@pytest.mark.parametrize("host", ["evil.example", "evil.example:4173", "127.0.0.1.evil.example", "192.168.1.7:4173", "", "0.0.0.0:4173"])
def test_only_the_loopback_names_are_answered(app: Any, host: str) -> None:
    answer = get(app, "/api/patterns", {"host": host})
    assert answer.status == 403
    assert b"patterns" not in answer.body


@pytest.mark.parametrize("host", ["127.0.0.1:4173", "localhost:4173", "[::1]:4173", "LOCALHOST"])
def test_the_loopback_names_are_answered(app: Any, host: str) -> None:
    assert get(app, "/api/patterns", {"host": host}).status == 200


@pytest.mark.parametrize(
    "headers",
    [
        HOME,
        {**HOME, "origin": "http://evil.example"},
        {**HOME, "origin": "null"},
        {**HOME, "origin": "http://127.0.0.1:9999"},
        {**HOME, "origin": "http://localhost:4173"},
        {**OURS, "sec-fetch-site": "cross-site"},
        {**OURS, "sec-fetch-site": "same-site"},
    ],
)
def test_nobody_elses_page_changes_anything(app: Any, table: Any, headers: dict[str, str]) -> None:
    assert post(app, "/api/patterns", {"name": "Planted"}, headers).status == 403
    assert table.folder.names() == set()


def test_our_own_page_may(app: Any, table: Any) -> None:
    assert post(app, "/api/patterns", {"name": "Mine"}).json == {"name": "Mine"}
    assert table.folder.names() == {"Mine"}


def test_another_page_may_not_even_read(app: Any) -> None:
    assert get(app, "/api/patterns", {**HOME, "sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors"}).status == 403
    assert get(app, "/assets/index.js", {**HOME, "sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors"}).status == 403
    assert get(app, "/api/patterns", {**HOME, "origin": "http://evil.example"}).status == 403


def test_a_link_from_elsewhere_may_open_the_page_only(app: Any) -> None:
    followed = {**HOME, "sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate"}
    assert get(app, "/", followed).status in (200, 500)  # 500: the page is not built in this checkout
    assert get(app, "/api/patterns", followed).status == 403


@pytest.mark.parametrize(
    "headers", [HOME, {**HOME, "origin": "http://evil.example"}, {"host": "evil.example", "origin": "http://evil.example"}]
)
def test_the_wire_is_refused_to_others(app: Any, headers: dict[str, str]) -> None:
    assert asyncio.run(knock(app, headers)) == "websocket.close"


def test_too_much_is_refused_before_it_is_read(app: Any, table: Any) -> None:
    told = {**OURS, "content-length": str(JSON_LARGEST + 1)}
    assert asyncio.run(ask(app, "POST", "/api/patterns", told)).status == 413
    assert asyncio.run(ask(app, "POST", "/api/bring-in", {**OURS, "content-length": str(FILE_LARGEST + 1)})).status == 413
    untold = (b"x" * 1_000_000 for _ in range(JSON_LARGEST // 1_000_000 + 2))
    assert asyncio.run(ask(app, "POST", "/api/patterns", OURS, untold)).status == 413
    assert asyncio.run(ask(app, "POST", "/api/patterns", {**OURS, "content-length": "-1"})).status == 413
    assert table.folder.names() == set()


@pytest.mark.parametrize("path", ["/", "/api/patterns", "/nothing", "/published/x/y", "/assets/nothing.js"])
def test_every_answer_carries_the_policies(app: Any, path: str) -> None:
    answer = get(app, path)
    rules = answer.headers["content-security-policy"]
    assert "default-src 'none'" in rules
    assert "script-src 'self';" in rules
    assert "unsafe" not in rules
    assert "frame-ancestors 'none'" in rules
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["referrer-policy"] == "no-referrer"
    assert answer.headers["cross-origin-resource-policy"] == "same-origin"


def test_the_policy_names_no_other_host() -> None:
    assert "http" not in policy("abc").replace("'nonce-abc'", "")
    assert "http" not in SANDBOX
    assert "allow-same-origin" not in SANDBOX


def test_every_page_has_a_nonce_of_its_own(app: Any) -> None:
    first, second = get(app, "/"), get(app, "/")
    if first.status == 500:
        pytest.skip("the page is not built in this checkout")
    assert first.headers["content-security-policy"] != second.headers["content-security-policy"]
    nonce = first.headers["content-security-policy"].split("'nonce-")[1].split("'")[0]
    assert nonce.encode() in first.body
    assert b"http://" not in first.body and b"https://" not in first.body
