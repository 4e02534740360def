"""The patterns that lie open: who holds each, what the disk held when we last looked, and saving what is typed within half a second.

One window holds a pattern at a time. What is typed goes into `words`; a task writes it down at most `SAVE_SECONDS` later. A file that was
changed (or removed) outside is never covered: saving stops, the words are put aside where a restart finds them, and the window is asked.
"""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field
from typing import Any, Literal, TypeAlias

from .folder import ChangedOutside, Folder, FolderTrouble, Kept

SAVE_SECONDS = 0.35
LOOK_SECONDS = 1.0
"""How often open files are looked at for changes from outside."""

Push: TypeAlias = Callable[[dict[str, Any]], Awaitable[None]]
Settle: TypeAlias = Literal["mine", "theirs", "both"]


class Held(Exception):
    """Another window holds this pattern."""


@dataclass(eq=False)
class Open:
    """One pattern that lies open in one window."""

    name: str
    kept: Kept | None
    words: str
    push: Push
    version: int = 0
    saved_version: int = 0
    question: Kept | Literal["none"] | None = "none"
    """The other text while a question about it is open (None: the file was removed); "none" when there is no question."""
    stamp: tuple[int, int] | None = None
    dirty: asyncio.Event = field(default_factory=asyncio.Event)
    lock: asyncio.Lock = field(default_factory=asyncio.Lock)
    tasks: list[asyncio.Task[None]] = field(default_factory=list)

    @property
    def asked(self) -> bool:
        return self.question != "none"


class Desk:
    """All open patterns of one folder."""

    def __init__(self, folder: Folder) -> None:
        self.folder = folder
        self.open: dict[str, Open] = {}

    async def take(self, name: str, push: Push, *, over: bool = False) -> tuple[Open, str | None]:
        """Open a pattern for a window, with words rescued from an unfinished question, if any. Raises `Held`, `FolderTrouble`,
        `BadName`."""
        holder = self.open.get(name)
        if holder is not None:
            if not over:
                raise Held
            await self.put_back(holder)
            with contextlib.suppress(Exception):
                await holder.push({"is": "taken"})
        kept = await asyncio.to_thread(self.folder.read, name)
        document = Open(name, kept, kept.text, push, stamp=self.folder.stamp(name))
        self.open[name] = document
        document.tasks = [asyncio.create_task(self._keep_saving(document)), asyncio.create_task(self._keep_looking(document))]
        rescued = await asyncio.to_thread(self.folder.rescued, name)
        return document, rescued if rescued != kept.text else None

    async def put_back(self, document: Open) -> None:
        """Close: what is not written yet is written now."""
        for task in document.tasks:
            task.cancel()
        if self.open.get(document.name) is document:
            del self.open[document.name]
        await self.save(document)

    def write(self, document: Open, words: str, version: int) -> None:
        """Take what was typed."""
        document.words, document.version = words, version
        document.dirty.set()

    async def _keep_saving(self, document: Open) -> None:
        while True:
            await document.dirty.wait()
            await asyncio.sleep(SAVE_SECONDS)
            document.dirty.clear()
            await self.save(document)

    async def save(self, document: Open) -> None:
        """Write the words down, or put them aside while a question is open."""
        async with document.lock:
            words, version = document.words, document.version
            if document.kept is not None and words == document.kept.text and not document.asked:
                document.saved_version = version
                await self._tell(document, {"is": "kept", "version": version})
                return
            try:
                if document.asked:
                    await asyncio.to_thread(self.folder.rescue, document.name, words)
                    return
                document.kept = await asyncio.to_thread(self.folder.save, document.name, words, document.kept)
                document.stamp = self.folder.stamp(document.name)
                document.saved_version = version
                await self._tell(document, {"is": "kept", "version": version})
            except ChangedOutside as change:
                await self._ask(document, change.theirs)
            except FolderTrouble as trouble:
                await self._tell(document, {"is": "not-kept", "trouble": str(trouble)})
                asyncio.get_running_loop().call_later(3.0, document.dirty.set)

    async def _ask(self, document: Open, theirs: Kept | None) -> None:
        document.question = theirs
        await asyncio.to_thread(self.folder.rescue, document.name, document.words)
        await self._tell(document, {"is": "changed", "theirs": theirs.text if theirs else None})

    async def _keep_looking(self, document: Open) -> None:
        while True:
            await asyncio.sleep(LOOK_SECONDS)
            stamp = await asyncio.to_thread(self.folder.stamp, document.name)
            if stamp == document.stamp or document.lock.locked():
                continue
            async with document.lock:
                document.stamp = stamp
                theirs = await self._there(document)
                if theirs is None or document.kept is None or theirs.mark != document.kept.mark:
                    await self._ask(document, theirs)

    async def _there(self, document: Open) -> Kept | None:
        with contextlib.suppress(FolderTrouble):
            return await asyncio.to_thread(self.folder.read, document.name)
        return None

    async def settle(self, document: Open, choice: Settle) -> dict[str, Any]:
        """Carry out her answer: her words over theirs, theirs over hers, or both (theirs stays, hers becomes a copy)."""
        async with document.lock:
            theirs = await self._there(document)
            document.question, document.kept = "none", theirs
            answer: dict[str, Any] = {"name": document.name}
            if choice == "both":
                answer["copy"] = await asyncio.to_thread(self.folder.create, f"{document.name[:70]} (mine)", document.words)
            if choice in ("theirs", "both") and theirs is not None:
                document.words = answer["text"] = theirs.text
            document.stamp = self.folder.stamp(document.name)
            await asyncio.to_thread(self.folder.forget_rescued, document.name)
        document.dirty.set()
        return answer

    @staticmethod
    async def _tell(document: Open, message: dict[str, Any]) -> None:
        with contextlib.suppress(Exception):  # the window may be gone; the file matters, not the message
            await document.push(message)

    async def close(self) -> None:
        for document in list(self.open.values()):
            await self.put_back(document)
