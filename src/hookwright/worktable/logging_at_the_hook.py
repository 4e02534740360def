"""The log at the hook: entries from the page, and from a phone on the same network while she allows it.

The phone gets a listener of its own that serves nothing but the log of one pattern. It answers on the computer's network address, asks
for a
six-figure code that works once, and ends when sharing or the worktable ends.
"""

from __future__ import annotations

import asyncio
import contextlib
import hmac
import math
import secrets
import socket
from pathlib import Path
from typing import TYPE_CHECKING, Any

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from ..records import KINDS, LogEntry, RecordsTrouble, rows_written, sum_up
from .bench import Refusal
from .folder import FolderTrouble
from .guard import Guard, new_nonce, policy

if TYPE_CHECKING:
    import uvicorn

    from .app import Table

STATIC = Path(__file__).parent / "static"
MOST_TRIES = 5
LONGEST_WORDS = 2000
COOKIE = "hookwright-log"


class LogDesk:
    """The log of every pattern, and the sharing of one."""

    def __init__(self, table: Table) -> None:
        self.table = table
        self.sharing: Sharing | None = None

    async def read(self, name: str) -> dict[str, Any]:
        """The log, what it amounts to, and the rows to come."""
        records = await asyncio.to_thread(lambda: self.table.records)
        entries = await asyncio.to_thread(records.entries, name)
        text = self._text(name)
        try:
            plan = await self.table.workers.proof("log_rows", {"name": name, "text": text}) if text is not None else []
        except Refusal:
            plan = []
        total = sum_up(entries, {number: row["total"] for number, row in enumerate(plan, start=1)})
        return {
            "entries": [
                {"id": entry.id, "kind": entry.kind, "at": entry.at, "row": entry.row, "value": entry.value, "words": entry.words}
                for entry in entries
            ],
            "plan": plan,
            "row": total.row,
            "stitches": total.stitches,
            "minutes": total.minutes,
            "minutes_from": total.minutes_from,
            "seconds_per_stitch": total.seconds_per_stitch,
            "grams_used": total.grams_used,
            "grams_stitches": total.grams_stitches,
            "hook_mm": total.hook_mm,
            "ripped": total.ripped,
            "written": list(rows_written(total)) if any(entry.words or entry.value is not None for entry in total.done) else [],
            "shared": self.sharing.told(name) if self.sharing else None,
        }

    def _text(self, name: str) -> str | None:
        document = self.table.desk.open.get(name)
        if document:
            return document.words
        with contextlib.suppress(FolderTrouble):
            return self.table.folder.read(name).text
        return None

    async def write(self, name: str, wish: dict[str, Any]) -> dict[str, Any]:
        """Write one entry. Raises `RecordsTrouble` for a figure that cannot be."""
        entry = entry_from(wish, self.table.clock())
        await asyncio.to_thread(self.table.records.log, name, entry)
        return await self.read(name)

    async def undo(self, name: str, number: int) -> dict[str, Any]:
        await asyncio.to_thread(self.table.records.unlog, name, number)
        return await self.read(name)

    async def start_sharing(self, name: str) -> dict[str, Any]:
        await self.stop_sharing()
        self.table.folder.path(name)  # refuses names that are none
        self.sharing = Sharing(self, name)
        return await self.sharing.start()

    async def stop_sharing(self) -> None:
        if self.sharing:
            sharing, self.sharing = self.sharing, None
            await sharing.stop()


def entry_from(wish: dict[str, Any], now: float) -> LogEntry:
    """An entry as a page sends it, checked. Raises `RecordsTrouble`."""
    kind = wish.get("kind")
    if kind not in KINDS:
        raise RecordsTrouble("The log takes rows, grams, minutes, a hook, a rip or a note.")
    value, row = wish.get("value"), wish.get("row")
    if value is not None and not (isinstance(value, int | float) and math.isfinite(value) and 0 <= value <= 100_000):
        raise RecordsTrouble("That figure cannot be: it must lie between 0 and 100,000.")
    if row is not None and not (isinstance(row, int) and 0 <= row <= 100_000):
        raise RecordsTrouble("That row number cannot be.")
    if kind in ("grams", "minutes", "hook") and value is None:
        raise RecordsTrouble("A figure is missing.")
    if kind in ("row", "ripped") and row is None:
        raise RecordsTrouble("The row's number is missing.")
    return LogEntry(
        kind=kind, at=now, row=row, value=None if value is None else float(value), words=str(wish.get("words", ""))[:LONGEST_WORDS]
    )


def network_address() -> str:
    """This computer's address on its network (no packet is sent); the loopback address when there is no network."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # TEST-NET-1, RFC 5737: reserved, nobody is there
            return str(probe.getsockname()[0])
        except OSError:
            return "127.0.0.1"


class Sharing:
    """The phone's listener for one pattern's log."""

    def __init__(self, desk: LogDesk, name: str) -> None:
        self.desk, self.name = desk, name
        self.code: str | None = f"{secrets.randbelow(1_000_000):06d}"
        self.pass_word: str | None = None
        self.tries = 0
        self.address = network_address()
        self.port = 0
        self._server: uvicorn.Server | None = None
        self._task: asyncio.Task[None] | None = None

    async def start(self) -> dict[str, Any]:
        """Listen; what the page shows her: address and code."""
        import uvicorn

        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        try:
            listener.bind((self.address, 0))
        except OSError as trouble:
            listener.close()
            raise Refusal("The network address of this computer could not be used; is it connected to a network?") from trouble
        self.port = listener.getsockname()[1]
        settings = uvicorn.Config(self.app(), log_level="critical", lifespan="off", access_log=False, server_header=False)
        self._server = uvicorn.Server(settings)
        self._server.install_signal_handlers = lambda: None  # type: ignore[attr-defined]
        self._task = asyncio.create_task(self._server.serve(sockets=[listener]))
        while not self._server.started and not self._task.done():
            await asyncio.sleep(0.02)
        return self.told(self.name)

    async def stop(self) -> None:
        if self._server and self._task:
            self._server.should_exit = self._server.force_exit = True
            with contextlib.suppress(asyncio.CancelledError, TimeoutError):
                await asyncio.wait_for(self._task, 3)

    def told(self, name: str) -> dict[str, Any]:
        return {
            "shared": True,
            "pattern": self.name,
            "here": name == self.name,
            "address": f"http://{self.address}:{self.port}",
            "code": self.code,
        }

    def app(self) -> Guard:
        routes = [
            Route("/", self._page),
            Mount("/assets", StaticFiles(directory=STATIC / "assets", check_dir=False)),
            Route("/enter", self._enter, methods=["POST"]),
            Route("/log", self._log, methods=["GET", "POST"]),
            Route("/log/{number:int}", self._unlog, methods=["DELETE"]),
        ]
        return Guard(Starlette(routes=routes), (self.address,))

    async def _page(self, _request: Request) -> Response:
        nonce = new_nonce()
        html = (STATIC / "log.html").read_text("utf-8").replace("__NONCE__", nonce)
        return HTMLResponse(html, headers={"content-security-policy": policy(nonce)})

    async def _enter(self, request: Request) -> Response:
        """POST {code}: let this phone in, once."""
        given = str((await request.json()).get("code", ""))
        if self.code is None:
            return JSONResponse({"trouble": "This code has been used. Share the log anew on the worktable for another."}, 403)
        self.tries += 1
        if not hmac.compare_digest(given.encode(), self.code.encode()):
            if self.tries >= MOST_TRIES:
                self.code = None
                return JSONResponse({"trouble": "Too many wrong codes. Share the log anew on the worktable."}, 403)
            return JSONResponse({"trouble": "That is not the code on the worktable."}, 403)
        self.code, self.pass_word = None, secrets.token_urlsafe(32)
        answer = JSONResponse({"pattern": self.name})
        answer.set_cookie(COOKIE, self.pass_word, httponly=True, samesite="strict", path="/")
        return answer

    def _let_in(self, request: Request) -> bool:
        given = request.cookies.get(COOKIE, "")
        return self.pass_word is not None and hmac.compare_digest(given.encode(), self.pass_word.encode())

    async def _log(self, request: Request) -> Response:
        if not self._let_in(request):
            return JSONResponse({"trouble": "Enter the code first."}, 401)
        try:
            if request.method == "POST":
                return self._without_address(await self.desk.write(self.name, await request.json()))
            return self._without_address(await self.desk.read(self.name))
        except (RecordsTrouble, Refusal) as trouble:
            return JSONResponse({"trouble": str(trouble)}, 422)
        except (ValueError, TypeError, AttributeError):
            return JSONResponse({"trouble": "That could not be understood."}, 400)

    async def _unlog(self, request: Request) -> Response:
        if not self._let_in(request):
            return JSONResponse({"trouble": "Enter the code first."}, 401)
        return self._without_address(await self.desk.undo(self.name, request.path_params["number"]))

    def _without_address(self, answer: dict[str, Any]) -> Response:
        return JSONResponse({**answer, "shared": None, "pattern": self.name})
