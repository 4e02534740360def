"""One word, number or sign of an instruction."""

from __future__ import annotations

from typing import Any


class Token:
    """`kind` is the class of word the grammar knows ("n" number, "o" ordinal, "st" stitch, "in", "next" …, "w" = unknown word, else the
    sign itself); `val` its value; `start`, `end` into the source. `gap`: white space stands before it."""

    __slots__ = ("end", "gap", "kind", "start", "text", "val")

    def __init__(self, kind: str, val: Any, start: int, end: int, text: str, gap: bool) -> None:
        self.kind = kind
        self.val = val
        self.start = start
        self.end = end
        self.text = text
        self.gap = gap

    def __repr__(self) -> str:
        return f"{self.kind}:{self.val}" if self.val not in (None, self.text) else self.kind
