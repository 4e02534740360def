"""The log at the hook: what may be logged, and the phone's listener: the log alone, one code, ended with the session."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

import pytest

from hookwright.records import RecordsTrouble
from hookwright.worktable import Table
from hookwright.worktable import logging_at_the_hook as module
from hookwright.worktable.logging_at_the_hook import COOKIE, MOST_TRIES, Sharing, entry_from

from .asgi import Answer, ask


class NoCrew:
    async def proof(self, verb: str, payload: dict[str, Any]) -> list[dict[str, Any]]:
        return [{"part": "", "label": f"Row {n}", "words": "sc", "total": 12, "side": "RS"} for n in (1, 2, 3)]


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    monkeypatch.setattr(module, "network_address", lambda: "127.0.0.1")
    table = Table(tmp_path, clock=lambda: 7.0)
    table.folder.create("Hat", "Row 1: Ch 13.")
    table.folder.create("Secret", "Row 1: Ch 2.")
    table.crew = NoCrew()  # type: ignore[assignment]
    yield table.log
    if table._records:
        table._records.close()


@pytest.mark.parametrize(
    "wish",
    [{}, {"kind": "sigh"}, {"kind": "row"}, {"kind": "row", "row": -1}, {"kind": "row", "row": "1"},
     {"kind": "grams"}, {"kind": "grams", "value": -3},
     {"kind": "grams", "value": float("nan")}, {"kind": "minutes", "value": "x"}, {"kind": "ripped"}, {"kind": "hook", "value": 1e9}],
)  # fmt: skip
def test_impossible_entries_are_refused(wish: dict[str, Any]) -> None:
    with pytest.raises(RecordsTrouble):
        entry_from(wish, 1.0)


def test_the_log_counts_on(desk: Any) -> None:
    async def scene() -> None:
        await desk.write("Hat", {"kind": "row", "row": 1})
        state = await desk.write("Hat", {"kind": "row", "row": 2, "value": 13, "words": "<img src=x onerror=alert(1)>"})
        assert (state["row"], state["stitches"]) == (2, 25)
        state = await desk.write("Hat", {"kind": "ripped", "row": 1})
        assert (state["row"], state["stitches"], state["ripped"]) == (1, 12, 1)
        state = await desk.undo("Hat", state["entries"][-1]["id"])
        assert state["row"] == 2
        assert (await desk.read("Secret"))["entries"] == []

    asyncio.run(scene())


async def phone(sharing: Sharing, method: str, path: str, content: Any = None, cookie: str = "", **more: str) -> Answer:
    host = f"{sharing.address}:{sharing.port}"
    headers = {"host": host, "origin": f"http://{host}", **more}
    if cookie:
        headers["cookie"] = cookie
    return await ask(sharing.app(), method, path, headers, (json.dumps(content).encode(),))


def shared(desk: Any, scene: Callable[[Sharing], Awaitable[None]]) -> None:
    async def run() -> None:
        told = await desk.start_sharing("Hat")
        assert told["code"] and len(told["code"]) == 6
        try:
            await scene(desk.sharing)
        finally:
            await desk.stop_sharing()

    asyncio.run(run())


def test_without_the_code_there_is_nothing(desk: Any) -> None:
    async def scene(sharing: Sharing) -> None:
        for method in ("GET", "POST"):
            assert (await phone(sharing, method, "/log", {"kind": "row", "row": 1})).status == 401
        assert (await phone(sharing, "DELETE", "/log/1")).status == 401
        assert (await phone(sharing, "GET", "/log", cookie=f"{COOKIE}=guess")).status == 401

    shared(desk, scene)


def test_the_code_lets_one_phone_in_once(desk: Any) -> None:
    async def scene(sharing: Sharing) -> None:
        code = sharing.code
        entered = await phone(sharing, "POST", "/enter", {"code": code})
        assert entered.status == 200
        cookie = entered.headers["set-cookie"]
        assert "HttpOnly" in cookie and "SameSite=strict" in cookie
        own = cookie.split(";")[0]
        state = (await phone(sharing, "POST", "/log", {"kind": "row", "row": 1}, own)).json
        assert state["row"] == 1 and state["shared"] is None
        assert (await phone(sharing, "POST", "/enter", {"code": code})).status == 403
        assert (await phone(sharing, "POST", "/log", {"kind": "grams", "value": -1}, own)).status == 422
        assert (await phone(sharing, "POST", "/log", [1], own)).status == 400

    shared(desk, scene)


def test_guessing_ends_the_code(desk: Any) -> None:
    async def scene(sharing: Sharing) -> None:
        code = str(sharing.code)
        wrong = f"{(int(code) + 1) % 1_000_000:06d}"
        for _ in range(MOST_TRIES):
            assert (await phone(sharing, "POST", "/enter", {"code": wrong})).status == 403
        assert (await phone(sharing, "POST", "/enter", {"code": code})).status == 403

    shared(desk, scene)


@pytest.mark.parametrize(
    "path", ["/api/patterns", "/live", "/api/log/Secret", "/published/x/y", "/api/patterns/Hat/delete", "/../Secret.md"]
)
def test_the_phone_reaches_the_log_alone(desk: Any, path: str) -> None:
    async def scene(sharing: Sharing) -> None:
        own = (await phone(sharing, "POST", "/enter", {"code": sharing.code})).headers["set-cookie"].split(";")[0]
        for method in ("GET", "POST"):
            assert (await phone(sharing, method, path, {}, own)).status in (404, 405)

    shared(desk, scene)


def test_other_hosts_and_pages_are_refused(desk: Any) -> None:
    async def scene(sharing: Sharing) -> None:
        assert (await phone(sharing, "GET", "/", host="evil.example")).status == 403
        assert (await phone(sharing, "POST", "/enter", {"code": sharing.code}, origin="http://evil.example")).status == 403

    shared(desk, scene)


def test_it_ends_with_the_session(desk: Any) -> None:
    async def run() -> None:
        told = await desk.start_sharing("Hat")
        host, port = told["address"].removeprefix("http://").split(":")
        _, writer = await asyncio.open_connection(host, int(port))
        writer.close()
        await writer.wait_closed()
        await desk.stop_sharing()
        assert desk.sharing is None
        with pytest.raises(OSError):
            await asyncio.open_connection(host, int(port))

    asyncio.run(run())
