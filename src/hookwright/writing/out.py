"""A text that remembers where each step's words stand."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from ..pattern import Span


class Out:
    """Text being written, and `where`: node id → the span of its words so far."""

    def __init__(self) -> None:
        self._pieces: list[str] = []
        self._length = 0
        self.where: dict[int, Span] = {}

    def __len__(self) -> int:
        return self._length

    def say(self, text: str) -> None:
        self._pieces.append(text)
        self._length += len(text)

    def gap(self) -> None:
        """A blank line, unless this is the beginning."""
        if self._length:
            self.say("\n")

    @contextmanager
    def node(self, identity: int) -> Iterator[None]:
        """Everything said inside belongs to the node; id 0 is nobody's."""
        start = self._length
        yield
        if identity:
            self.where[identity] = Span(start, self._length)

    def capital(self, at: int) -> None:
        """Make the first letter said from `at` on a capital, unless the word already holds one ("FPdc")."""
        text = self.text
        head = text[at:].split(" ", 1)[0].split("\u00a0", 1)[0]
        if head and head[0].isalpha() and head == head.lower():
            self._pieces = [text[:at], head[0].upper(), text[at + 1 :]]

    @property
    def text(self) -> str:
        joined = "".join(self._pieces)
        self._pieces = [joined]
        return joined
