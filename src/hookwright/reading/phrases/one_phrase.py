"""The one phrase that begins at a word: those its kind may begin are tried in their order."""

from __future__ import annotations

from ...pattern import Step
from . import each_row, halves, manners
from .by_word import PHRASES
from .cursor import Cursor

_BEGINS_HALF = frozenset(("work", "cont", "complete", "w", "rep", "reversing", "same", "end", "o", "other", "the"))
"""How a row's second half may begin to be told by its first."""
_BEGINS_GROWTH = frozenset(("w", "each", "the", "inc", "dec", "with", "(", "[", "a", "more", "n", "skip", "counter", "having", "idle"))
"""How the sum of what repeated rows do may begin."""


def one(c: Cursor) -> list[Step] | None:
    """The steps of the one phrase that begins here, or None with the cursor unmoved."""
    start = c.i
    if c.kind in _BEGINS_GROWTH and (told := each_row.growth_beside(c)) is not None:
        return told
    if c.kind in _BEGINS_HALF and (half := halves.second_half(c)) is not None:
        return half
    counted = len(c.counts)
    for phrase in PHRASES.get(c.t[start].kind, ()):
        got = phrase(c)
        if got is not None and c.i > start:
            return got
        c.i = start
        del c.counts[counted:]
    if (
        (c.t[start].kind == "work" and c.look().kind != "work")
        or (c.t[start].kind == "place" and c.look().kind == "n")
        or (c.t[start].kind == "beg" and c.look().kind in ("n", "with", "by", "off", "st", "in"))
    ):
        c.i += 1
        c.drop("idle", "the", "of", "with", "by", "off") if c.t[start].kind == "beg" else c.drop("idle", "the", "of")
        if c.kind == "a" and c.look().kind == "mring":
            c.i += 1
        got = one(c)
        if got is not None:
            return got
        c.i = start
    return manners.manner(c)
