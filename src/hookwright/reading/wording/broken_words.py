"""Words in pieces: broken by a hyphen over the line's end, or by a blank that a scan put in ("fi rst", "la st").

A word is put together over a blank only where its first piece is no word and the whole is one that patterns use (blanks beside fi
and fl are the commonest; from memory).
"""

from __future__ import annotations

import re
from functools import lru_cache

from .everyday import EVERYDAY
from .vocabulary import base_entries, base_trie

_BROKEN = re.compile(r"-(?<=[A-Za-z]-)(?P<gap>[ \t]*\n[ \t]*)(?P<b>[a-z]{2,14}(?![a-z])|\d{1,3})(?P<rest>\S*)")
_FIRST = re.compile(r"(?<![A-Za-z'])(?<![A-Za-z]-)[A-Za-z]{1,14}\Z")
_PIECES = re.compile(r"(?<![\w'.-])(?P<a>[A-Za-z]{1,3}) (?=(?P<b>[a-z]{2,12}|[A-Z]{2,12})(?![\w']))")
_MORE = frozenset(("coming", "making"))
"""Words of patterns that mean nothing by themselves, and that scans damage."""
_HEADINGS = frozenset(
    """
    materials material abbreviations abbreviation tension measurements border edging instructions directions cotton needle finishing
    """.split()  # noqa: SIM905
)


@lru_cache(maxsize=1)
def long_words() -> frozenset[str]:
    """Words of four letters or more that patterns use."""
    return frozenset(words[0] for words in base_entries() if len(words) == 1 and len(words[0]) >= 4) | _HEADINGS | _MORE


@lru_cache(maxsize=1)
def _beginnings() -> frozenset[str]:
    """The first one, two and three letters of these words."""
    return frozenset(word[:n] for word in long_words() for n in (1, 2, 3))


def over_lines(text: str) -> str:
    """The text with words whole that a line's end broke; the line's end stands behind the word. As long as before.

    >>> over_lines("1 s. c. in the mid-\\ndle s. c., turn")
    '1 s. c. in the middle\\n  s. c., turn'
    """
    return _BROKEN.sub(_whole, text) if "-" in text else text


def over_blanks(text: str) -> str:
    """The text with words whole that a blank broke; the blank stands before the word. As long as before.

    >>> over_blanks("in the fi rst of 4 sps, the la st")
    'in the  first of 4 sps, the  last'
    """
    pieces = {word for word in set(text.split()) if len(word) < 4 and word.isalpha() and _may_be_piece(word)}
    for match in _PIECES.finditer(text) if pieces else ():
        if match["a"] in pieces and _is_one(match["a"], match["b"]):
            text = f"{text[: match.start()]} {match['a']}{match['b']}{text[match.end('b') :]}"
    return text


def _whole(match: re.Match[str]) -> str:
    """What stands instead of the hyphen, the line's end, and the word's rest."""
    b, rest, gap = match["b"], match["rest"], match["gap"]
    first = _FIRST.search(match.string, max(0, match.start() - 15), match.start())
    if first is None:
        return match[0]
    a, known = first[0].lower(), base_trie()
    if b.isdigit():
        if a not in ("ch", "chain"):
            return match[0]
        word, blank = f"-{b}", ""
    elif a + b in known or not (a in known and b in known):
        word, blank = b, " "
    else:
        return f" {gap}{b}{rest}"  # "half-" and "treble": two words of one name
    after = match.string[match.end() : match.end() + 1]
    end = " " * len(gap) if after in ("\n", "") else "\n" + " " * (len(gap) - 1)
    return f"{word}{rest}{end}{blank}"


def _is_one(first: str, rest: str) -> bool:
    """Whether the two are pieces of one word, the first of them no word by itself."""
    whole = (first + rest).lower()
    if rest.isupper():
        return first.isupper() and whole in _HEADINGS
    if len(first) == 1 and first.isupper():
        return False
    return (first[1:].islower() or first.islower()) and whole in long_words()


@lru_cache(maxsize=4096)
def _may_be_piece(word: str) -> bool:
    """Whether long words begin so, and it is no word or short form by itself. A capital alone may begin a heading in capitals."""
    low = word.lower()
    if low not in _beginnings() or (low,) in base_entries():
        return False
    return low not in EVERYDAY or (word.isupper() and len(word) == 1 and low not in ("a", "i"))
