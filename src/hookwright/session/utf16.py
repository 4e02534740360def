"""The one place where code points (ours) and UTF-16 units (editors', browsers') are turned into each other.

A text without characters beyond U+FFFF needs no turning at all, which is nearly every pattern.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from ..pattern import Span


class Position(NamedTuple):
    """A place in a text as the Language Server Protocol tells it: line from 0, UTF-16 units from the line's start."""

    line: int
    character: int


class Units:
    """Both ways of counting in one text.

    >>> units = Units("a🧶b\\r\\nc")
    >>> units.from_point(2), units.to_point(3), units.position(2), units.point(Position(1, 1))
    (3, 2, Position(line=0, character=3), 6)
    """

    __slots__ = ("_astral", "_starts", "text")

    def __init__(self, text: str) -> None:
        self.text = text
        self._astral = [] if text.isascii() else [i for i, character in enumerate(text) if character > "\uffff"]
        self._starts: list[int] | None = None

    def from_point(self, point: int) -> int:
        """UTF-16 units before the code point number `point` (clamped to the text)."""
        point = min(max(point, 0), len(self.text))
        return point + bisect_left(self._astral, point) if self._astral else point

    def to_point(self, unit: int) -> int:
        """The code point that holds the UTF-16 unit number `unit` (clamped; the middle of a pair belongs to its character)."""
        if not self._astral:
            return min(max(unit, 0), len(self.text))
        low, high = 0, len(self.text)
        while low < high:
            middle = (low + high + 1) // 2
            if self.from_point(middle) <= unit:
                low = middle
            else:
                high = middle - 1
        return low

    def span(self, span: Span) -> tuple[int, int]:
        """A span in UTF-16 units."""
        return self.from_point(span.start), self.from_point(span.end)

    @property
    def starts(self) -> list[int]:
        """Code point at which each line begins. Lines end at LF, CRLF or CR, as the protocol has it."""
        if self._starts is None:
            self._starts = _line_starts(self.text)
        return self._starts

    def position(self, point: int) -> Position:
        """Line and UTF-16 character of a code point."""
        point = min(max(point, 0), len(self.text))
        line = bisect_right(self.starts, point) - 1
        return Position(line, self.from_point(point) - self.from_point(self.starts[line]))

    def point(self, position: Position) -> int:
        """The code point at a position; a character beyond the line's end means the line's end."""
        if position.line < 0:
            return 0
        if position.line >= len(self.starts):
            return len(self.text)
        start = self.starts[position.line]
        end = self.starts[position.line + 1] if position.line + 1 < len(self.starts) else len(self.text)
        while end > start and self.text[end - 1] in "\r\n" and position.line + 1 < len(self.starts):
            end -= 1
        return min(self.to_point(self.from_point(start) + max(position.character, 0)), end)


def line_at(text: str, point: int) -> tuple[int, int]:
    """Start and end (without its line end) of the line that holds a code point. Lines end at LF, CRLF or CR.

    >>> line_at("ab\\r\\ncd\\ref", 5), line_at("ab", 2)
    ((4, 6), (0, 2))
    """
    start = max(text.rfind("\n", 0, point), text.rfind("\r", 0, point)) + 1
    ends = [at for at in (text.find("\n", point), text.find("\r", point)) if at >= 0]
    return start, min(ends, default=len(text))


def lines_of(text: str) -> Iterator[tuple[int, str]]:
    """Every line with the code point where it begins, without its line end.

    >>> list(lines_of("ab\\r\\ncd\\r"))
    [(0, 'ab'), (4, 'cd'), (7, '')]
    """
    starts = _line_starts(text)
    for start, following in pairwise([*starts, len(text) + 1]):
        yield start, text[start:following].rstrip("\r\n")


def _line_starts(text: str) -> list[int]:
    starts, at = [0], 0
    if "\r" not in text:
        while (at := text.find("\n", at) + 1) > 0:
            starts.append(at)
        return starts
    while at < len(text):
        character = text[at]
        at += 1
        if character == "\r" and text[at : at + 1] == "\n":
            at += 1
        if character in "\r\n":
            starts.append(at)
    return starts
