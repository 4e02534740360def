"""The wire between a window and the server: texts in; findings, counts and answers out. Nothing here computes; it passes on.

From the window: {"do": "open"|"text"|"ask"|"cancel"|"settle"|"close", …}.
To the window: answers {"id": …, "answer"|"trouble"|"stale": …} and
news {"is": "proof"|"kept"|"not-kept"|"changed"|"taken"|"step", …}. Every text has a version; an answer about an older one is dropped.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import time
from typing import Any

from starlette.websockets import WebSocket, WebSocketDisconnect

from .bench import Refusal
from .crew import Crew, Superseded
from .desk import Desk, Held, Open
from .folder import FolderTrouble
from .names import BadName

QUICK = frozenset({"hover", "complete", "tidy", "row", "history", "fact", "stand", "stitch"})
"""Asked of the proofer, which has the document worked already."""
LANES: dict[str, str] = {
    "chart": "see",
    "outline": "see",
    "colours": "see",
    "round": "see",
    "picture": "picture",
    "yarn": "ask",
    "stripes": "ask",
    "resize": "resize",
    "draft": "draft",
    "families": "draft",
    "write": "write",
    "film": "film",
    "heard": "heard",
}
"""Slower questions and the lane each runs in; a newer question ends the older one of its lane."""
LONG = frozenset({"publish"})
"""In a process of its own, with progress, to be cancelled."""
PROOF_PATIENCE_SECONDS = 6.0
"""A proof that newer words wait for is ended after this."""
LONGEST_MESSAGE = 6_000_000


class Window:
    """One connected window."""

    def __init__(self, socket: WebSocket, desk: Desk, crew: Crew) -> None:
        self.socket, self.desk, self.crew = socket, desk, crew
        self.document: Open | None = None
        self.size = 0
        self._newest = asyncio.Event()
        self._tasks: dict[Any, asyncio.Task[None]] = {}
        self._steps: set[asyncio.Task[None]] = set()
        self._sending = asyncio.Lock()

    async def push(self, message: dict[str, Any]) -> None:
        async with self._sending:
            await self.socket.send_text(json.dumps(message, ensure_ascii=False, separators=(",", ":")))

    async def serve(self) -> None:
        await self.socket.accept()
        proofing = asyncio.create_task(self._keep_proofing())
        try:
            while True:
                words = await self.socket.receive_text()
                if len(words) > LONGEST_MESSAGE:
                    await self.socket.close(1009)
                    return
                await self._take(json.loads(words))
        except (WebSocketDisconnect, json.JSONDecodeError, KeyError, TypeError, RuntimeError):
            pass
        finally:
            proofing.cancel()
            for task in self._tasks.values():
                task.cancel()
            if self.document:
                await self.desk.put_back(self.document)

    async def _take(self, message: dict[str, Any]) -> None:
        do = message["do"]
        if do == "text":
            self._text(message)
        elif do == "open":
            await self._open(message)
        elif do == "ask":
            self._tasks[message["id"]] = asyncio.create_task(self._ask(message))
        elif do == "cancel":
            await self._cancel(message["id"])
        elif do == "settle" and self.document and message["choice"] in ("mine", "theirs", "both"):
            await self._settle(message)
        elif do == "close" and self.document:
            document, self.document = self.document, None
            await self.desk.put_back(document)
            await self.push({"id": message.get("id"), "answer": True})

    async def _cancel(self, number: Any) -> None:
        """End one question. A task cancelled before its first step never runs, and so could not answer for itself."""
        task = self._tasks.get(number)
        if task is None:
            return
        task.cancel()
        await asyncio.wait({task})
        if task.cancelled():
            self._tasks.pop(number, None)
            await self.push({"id": number, "stale": True, "cancelled": True})

    async def _settle(self, message: dict[str, Any]) -> None:
        assert self.document
        try:
            answer = await self.desk.settle(self.document, message["choice"])
        except (FolderTrouble, BadName) as trouble:
            await self.push({"id": message["id"], "trouble": str(trouble)})
        else:
            await self.push({"id": message["id"], "answer": answer})

    async def _open(self, message: dict[str, Any]) -> None:
        if self.document:
            document, self.document = self.document, None
            await self.desk.put_back(document)
        try:
            self.document, rescued = await self.desk.take(str(message["name"]), self.push, over=bool(message.get("over")))
        except Held:
            await self.push({"id": message["id"], "answer": {"held": True}})
        except (FolderTrouble, BadName) as trouble:
            await self.push({"id": message["id"], "trouble": str(trouble)})
        else:
            self.document.version = int(message.get("version", 0))
            await self.push({"id": message["id"], "answer": {"name": self.document.name, "text": self.document.words, "rescued": rescued}})
            self._newest.set()

    def _text(self, message: dict[str, Any]) -> None:
        self.size = int(message.get("size", 0))
        if self.document:
            self.desk.write(self.document, str(message["text"]), int(message["version"]))
            self._newest.set()

    async def _keep_proofing(self) -> None:
        while True:
            await self._newest.wait()
            self._newest.clear()
            document = self.document
            if document is None:
                continue
            version, begun = document.version, time.perf_counter()
            payload = {"name": document.name, "text": document.words, "size": self.size, "version": version}
            try:
                answer = await self._patiently(self.crew.proof("proof", payload))
            except Superseded:
                continue
            except Refusal as refusal:
                answer = {"trouble": str(refusal)}
            if document is self.document:
                took = round((time.perf_counter() - begun) * 1000, 1)
                with contextlib.suppress(WebSocketDisconnect, RuntimeError):
                    await self.push({"is": "proof", "version": version, "took_ms": took, **answer})

    async def _patiently(self, work: Any) -> Any:
        """Wait for a proof; when newer words have waited too long for it, end it."""
        task = asyncio.ensure_future(work)
        done, _ = await asyncio.wait({task}, timeout=PROOF_PATIENCE_SECONDS)
        while not done:
            if self._newest.is_set():
                self.crew.end_proof()
            done, _ = await asyncio.wait({task}, timeout=0.2)
        return task.result()

    async def _ask(self, message: dict[str, Any]) -> None:
        number, verb = message["id"], str(message["verb"])
        version = self.document.version if self.document else 0
        payload = {
            **message.get("with", {}),
            "text": self.document.words if self.document else "",
            "name": self.document.name if self.document else "",
        }
        if self.document is None or "text" in message.get("with", {}):
            payload["text"] = str(message.get("with", {}).get("text", payload["text"]))
        try:
            answer = {"answer": await self._work(number, verb, payload, version)}
        except Superseded:
            answer = {"stale": True}
        except Refusal as refusal:
            answer = {"trouble": str(refusal)}
        except asyncio.CancelledError:
            answer = {"stale": True, "cancelled": True}
        finally:
            self._tasks.pop(number, None)
        with contextlib.suppress(WebSocketDisconnect, RuntimeError):
            await self.push({"id": number, "version": version, **answer})

    async def _work(self, number: Any, verb: str, payload: dict[str, Any], version: int) -> Any:
        if verb in QUICK:
            return await self.crew.proof(verb, payload)
        if verb in LANES:
            return await self.crew.make(f"{id(self)} {LANES[verb]}", verb, payload)
        if verb in LONG:
            payload["folder"] = str(self.desk.folder.root)
            loop = asyncio.get_running_loop()
            return await self.crew.alone(verb, payload, lambda step: self._step(loop, number, step))
        raise Refusal(f"The worktable knows no question “{verb}”.")

    def _step(self, loop: asyncio.AbstractEventLoop, number: Any, step: dict[str, Any]) -> None:
        task = loop.create_task(self.push({"is": "step", "id": number, **step}))
        self._steps.add(task)
        task.add_done_callback(self._steps.discard)
