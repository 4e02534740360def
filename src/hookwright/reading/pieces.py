"""A text cut where nothing is told across the cut, so that what was found in a piece may be remembered by the piece's words.

While a pattern is written, all but one of its lines stay as they were. A cut lies after a closing bracket that ends a line and has a letter
before it ("… across. (28 dc)"): no expression of this package that is used piece by piece can match across one.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from string import ascii_letters
from typing import Generic, TypeVar

T = TypeVar("T")
LONGEST = 4_000
"""Longer pieces are not remembered: memory stays bounded."""
MOST_SILENT = 8_192
"""Pieces known to tell nothing, for each finder."""
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
        if at > begin and text[at - 1] in ascii_letters:
            yield begin, at + 1
            begin = at + 1
        at = text.find(")\n", at + 1, end)
    yield begin, end


def pieces(text: str) -> tuple[str, ...]:
    """The pieces of a text."""
    return _pieces_known(text) if len(text) <= WHOLE else _pieces(text)


def _pieces(text: str) -> tuple[str, ...]:
    return tuple([text[a:b] for a, b in cuts(text, 0, len(text))])


_pieces_known = lru_cache(maxsize=8)(_pieces)
"""Several readers go through the same text."""


class Remembered(Generic[T]):
    """What a finder tells of a piece, remembered by the piece's words; of most it tells nothing, and these are passed over at once."""

    __slots__ = ("_find", "_known", "_silent")

    def __init__(self, find: Callable[[str], T]) -> None:
        self._find = find
        self._known = lru_cache(maxsize=4096)(find)
        self._silent: set[str] = set()
        """Pieces of which nothing is told."""

    def __call__(self, piece: str) -> T:
        return self._known(piece) if len(piece) <= LONGEST else self._find(piece)

    def told(self, words: Iterable[str]) -> Iterator[T]:
        """What is told of the pieces that tell something, in their order."""
        return (found for _, found in self.where_told(words))

    def where_told(self, words: Iterable[str]) -> Iterator[tuple[int, T]]:
        """The same, with the place at which the piece begins in the text that the pieces make up."""
        silent = self._silent
        end = 0
        for piece in words:
            start, end = end, end + len(piece)
            if piece in silent:
                continue
            found = self(piece)
            if found and not (isinstance(found, tuple) and not any(found)):
                yield start, found
            elif len(piece) <= LONGEST:
                if len(silent) >= MOST_SILENT:
                    silent.clear()
                silent.add(piece)

    def any_of(self, words: Iterable[str]) -> bool:
        """Whether something is told of one of the pieces."""
        return not self._silent.issuperset(words) and any(True for _ in self.told(words))

    def forget(self) -> None:
        self._known.cache_clear()
        self._silent.clear()


def holds(piece: str, words: tuple[str, ...]) -> bool:
    """Whether one of the words (small letters) stands in a piece, in letters of any size; of a piece with other than plain letters and
    signs, whose capitals are not told so simply, it is always supposed.

    >>> holds("Sizes: S (M)", ("size",)), holds("Row 1: 2 sc", ("size",)), holds("Gr\u00f6\u00dfe", ("size",))
    (True, False, True)
    """
    if not piece.isascii():
        return True
    low = piece.lower()
    for word in words:  # noqa: SIM110 (asked of every line by every finder: `any` takes twice as long)
        if word in low:
            return True
    return False


def remembered(find: Callable[[str], T]) -> Remembered[T]:
    """What `find` finds in a piece, remembered by its words unless the piece is too long to keep. A falsy answer, or a tuple of falsy ones,
    tells nothing."""
    known = Remembered(find)
    _kept.append(known.forget)
    return known


def anywhere(expression: re.Pattern[str], *needs: str) -> Callable[[str], bool]:
    """Whether `expression`, which matches across no cut, is met in a text: asked piece by piece, and only of pieces not asked before.
    `needs`: words (small letters) one of which stands in all that it matches."""

    @remembered
    def met(piece: str) -> bool:
        return (not needs or holds(piece, needs)) and expression.search(piece) is not None

    def asked(text: str) -> bool:
        return met.any_of(pieces(text))

    return asked


def first_of(find: Remembered[T | None], text: str) -> T | None:
    """What the first piece holds in which `find` finds something."""
    return next(find.told(pieces(text)), None)


_kept: list[Callable[[], None]] = [_pieces_known.cache_clear]


def forget() -> None:
    """Forget what was found in pieces (for tests and measuring: an answer from memory must be the one read afresh)."""
    for clear in _kept:
        clear()


__all__ = ["LONGEST", "Remembered", "anywhere", "cuts", "first_of", "forget", "holds", "pieces", "remembered"]
