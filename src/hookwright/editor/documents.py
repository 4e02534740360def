"""The open documents of one editor, each with its session, and the one thread that works on them.

The protocol's loop only takes notes: reading and working happen on the thread, one job after the other, so that no two touch a session at
once, and typing is answered at once whatever is being worked. Before a text is worked, newer texts replace it.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import TypeVar

from ..session import Session, Units

T = TypeVar("T")


@dataclass(slots=True)
class Document:
    """One open document: the newest text and version told, and the session that follows."""

    uri: str
    text: str
    version: int | None
    session: Session | None = None
    units: Units = field(default_factory=lambda: Units(""))

    def follow(self) -> Session:
        """The session, brought up to the newest text (on the thread only)."""
        if self.session is None:
            self.session = Session(self.text)
        else:
            self.session.update(self.text)
        if self.units.text != self.session.text:
            self.units = Units(self.session.text)
        return self.session


class Documents:
    """All open documents."""

    def __init__(self) -> None:
        self._open: dict[str, Document] = {}
        self._thread = ThreadPoolExecutor(max_workers=1, thread_name_prefix="working")

    def take(self, uri: str, text: str, version: int | None) -> Document:
        """Note a document's newest text."""
        document = self._open.get(uri)
        if document is None:
            document = self._open[uri] = Document(uri, text, version)
        document.text, document.version = text, version
        return document

    def drop(self, uri: str) -> None:
        self._open.pop(uri, None)

    async def ask(self, uri: str, work: Callable[[Session, Units], T]) -> T | None:
        """Do something with a document's session, on the thread; None when the document is not open."""
        document = self._open.get(uri)
        if document is None:
            return None

        def job() -> T:
            session = document.follow()
            return work(session, document.units)

        return await asyncio.get_running_loop().run_in_executor(self._thread, job)

    def close(self) -> None:
        self._thread.shutdown(wait=False, cancel_futures=True)
