"""A text cut where nothing is told across the cut, so that what was found in a piece may be remembered by the piece's words.

While a pattern is written, all but one of its lines stay as they were. A cut lies after a closing bracket that ends a line and has a letter
before it ("… across. (28 dc)"): no expression of this package that is used piece by piece can match across one.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import lru_cache
from typing import TypeVar

T = TypeVar("T")
LONGEST = 4_000
"""Longer pieces are not remembered: memory stays bounded."""
WHOLE = 200_000
"""Nor are the pieces of longer texts."""


def cuts(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    """The pieces of `text[start:end]` as (start, end), in order and without gaps; each but the first begins with its line's end.

    >>> [("ab (2 dc)\\ncd (3)\\nef")[a:b] for a, b in cuts("ab (2 dc)\\ncd (3)\\nef", 0, 19)]
    ['ab (2 dc)', '\\ncd (3)\\nef']
    """
    begin = start
    at = text.find(")\n", start, end)
    while at != -1:
        if at > begin and "A" <= text[at - 1] <= "z" and text[at - 1].isalpha():
            yield begin, at + 1
            begin = at + 1
        at = text.find(")\n", at + 1, end)
    yield begin, end


def pieces(text: str) -> tuple[str, ...]:
    """The pieces of a text."""
    return _pieces_known(text) if len(text) <= WHOLE else _pieces(text)


def _pieces(text: str) -> tuple[str, ...]:
    return tuple(text[a:b] for a, b in cuts(text, 0, len(text)))


_pieces_known = lru_cache(maxsize=8)(_pieces)
"""Several readers go through the same text."""


def remembered(count: Callable[[str], T]) -> Callable[[str], T]:
    """What `count` finds in a piece, remembered by its words unless the piece is too long to keep."""
    kept = lru_cache(maxsize=4096)(count)

    _kept.append(kept.cache_clear)

    def known(piece: str) -> T:
        return kept(piece) if len(piece) <= LONGEST else count(piece)

    return known


def anywhere(expression: re.Pattern[str]) -> Callable[[str], bool]:
    """Whether `expression`, which matches across no cut, is met in a text: asked piece by piece, and only of pieces not asked before."""

    @remembered
    def met(piece: str) -> bool:
        return expression.search(piece) is not None

    def asked(text: str) -> bool:
        return any(met(piece) for piece in pieces(text))

    return asked


def first_of(find: Callable[[str], T | None], text: str) -> T | None:
    """What the first piece holds in which `find` finds something."""
    return next((found for piece in pieces(text) if (found := find(piece)) is not None), None)


_kept: list[Callable[[], None]] = [_pieces_known.cache_clear]


def forget() -> None:
    """Forget what was found in pieces (for tests and measuring: an answer from memory must be the one read afresh)."""
    for clear in _kept:
        clear()


__all__ = ["LONGEST", "anywhere", "cuts", "first_of", "forget", "pieces", "remembered"]
