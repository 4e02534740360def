"""Damage of pages that were scanned or typed off, undone before anything is read: the one place where it is called.

What kind of damage is known where: page heads in mid-sentence (`page_heads.py`), words in pieces (`broken_words.py`), letters taken for
others or for figures (`misread.py`). Every change keeps the length, so that spans stay those of the source. Only what can mean nothing
else is changed here; a word that is merely near another is a slip (`typos.py`), and is told.
"""

from __future__ import annotations

from ..pieces import pieces, remembered
from .broken_words import over_blanks, over_lines
from .misread import with_figures, with_letters
from .page_heads import without_heads


def mended(text: str) -> str:
    """The text (already plain) with the damage undone that a scan or a page's width did to it; as long as before.

    >>> mended("1 s. c. in the mid-\\ndle s. e., turn")
    '1 s. c. in the middle\\n  s. c., turn'
    """
    if not _damaged.any_of(pieces(text)) and without_heads(text) == text:
        return text
    return with_figures(with_letters(over_lines(without_heads(over_blanks(text)))))


@remembered
def _damaged(piece: str) -> bool:
    """Whether anything in a piece would be changed: what is damaged in the whole text, page heads apart, is so in one of its pieces."""
    return with_figures(with_letters(over_lines(over_blanks(piece)))) != piece
