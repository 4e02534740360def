"""The wire: every question gets an answer, however quickly it is taken back."""

from __future__ import annotations

import asyncio
import json
from pathlib import Path
from typing import Any

import pytest
from starlette.websockets import WebSocketDisconnect

from hookwright.worktable.crew import Crew
from hookwright.worktable.desk import Desk
from hookwright.worktable.folder import Folder
from hookwright.worktable.live import Window


class Socket:
    """A connected window that says `words` in one breath and hangs up once `answers` messages have come back."""

    def __init__(self, words: list[dict[str, Any]], answers: int) -> None:
        self.words, self.wanted = [json.dumps(one) for one in words], answers
        self.heard: list[dict[str, Any]] = []
        self._enough = asyncio.Event()

    async def accept(self) -> None: ...

    async def receive_text(self) -> str:
        if self.words:
            return self.words.pop(0)
        await asyncio.wait_for(self._enough.wait(), 10)
        raise WebSocketDisconnect

    async def send_text(self, words: str) -> None:
        self.heard.append(json.loads(words))
        if len(self.heard) >= self.wanted:
            self._enough.set()


@pytest.mark.parametrize("verb", ["publish", "chart", "hover"])
def test_a_question_taken_back_at_once_is_answered(tmp_path: Path, verb: str) -> None:
    async def scene() -> Socket:
        loop = asyncio.get_running_loop()
        crew = Crew(loop)
        socket = Socket([{"do": "ask", "id": 7, "verb": verb, "with": {}}, {"do": "cancel", "id": 7}], answers=1)
        window = Window(socket, Desk(Folder(tmp_path)), crew)  # type: ignore[arg-type]
        try:
            await window.serve()
        finally:
            crew.close()
        return socket

    heard = asyncio.run(scene()).heard
    assert [(one["id"], one["stale"], one["cancelled"]) for one in heard] == [(7, True, True)]
