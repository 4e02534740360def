"""`Pattern` → words: US or UK terms, one house style, with the place of every step in them."""

from .counts import with_counts
from .lexicon import Lexicon
from .numbers import plural
from .one_size import one_size
from .rows import RowWords, count_words, label_words
from .settle import settled
from .style import HOUSE, PLAIN, SPOKEN, Style
from .used import every_step, stitches_used
from .write import LANGUAGES, PartWords, Written, write

__all__ = [
    "HOUSE", "LANGUAGES", "PLAIN", "SPOKEN", "Lexicon", "PartWords", "RowWords", "Style", "Written", "count_words", "every_step",
    "label_words", "one_size", "plural", "settled", "stitches_used", "with_counts", "write",
]  # fmt: skip
