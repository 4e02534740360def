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

    def mark(self) -> int:
        """A place to look back to."""
        return len(self._pieces)

    def since(self, mark: int) -> str:
        """What was said from a mark on."""
        return "".join(self._pieces[mark:])

    def capital(self, mark: int) -> None:
        """Make the first letter said since a mark a capital, unless its word already holds one ("FPdc")."""
        text = self.since(mark)
        word = text.replace("\u00a0", " ").split(" ", 1)[0]
        if word and word[0].isalpha() and word == word.lower():
            self._pieces[mark:] = [text[0].upper() + text[1:]]

    @property
    def text(self) -> str:
        """Everything said."""
        return "".join(self._pieces)
