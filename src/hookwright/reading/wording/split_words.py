"""Damage of scanned print inside words and figures: a blank in a word ("fi rst", "la st"), a letter in a number
("4O", "3o"), vv for w, e for c.

Every change keeps the length. A word is put together only where its first piece is no word and the whole is one that patterns use.
The confusions are those of scanned print (0/o, 1/l, w/vv, blanks beside fi and fl; from memory).
"""

from __future__ import annotations

import re
from functools import lru_cache

from .vocabulary import base_entries

_PIECES = re.compile(r"(?<![\w'.-])(?P<a>[A-Za-z]{1,3}) (?=(?P<b>[a-z]{2,12}|[A-Z]{2,12})(?![\w']))")
_WORDS = frozenset(
    """
    a am an and any are as at be big bo but by can co de did do due eh en far few fit for fro get go had has he her him his ho how i if in
    is it its let low lot may me mm my new no nor not now odd of off oh ok old on one or our out own per put re red run say see set sew she
    so tan ten the tie tip to too top try two up us use via was way we who why yd yds yes yet you
    b c ch cl d dc dk e eg g h ie k l lb lg lp lt m mc cc oz p pc r rd rs s sc sh sk sl sm sp ss st t tr v w ws x xl xs y yo z
    """.split()  # noqa: SIM905
)
"""Short words and short forms: what stands alone rightly."""
_HEADINGS = frozenset(
    """
    materials material abbreviations abbreviation tension measurements border edging instructions directions cotton needle finishing
    """.split()  # noqa: SIM905
)
_VV = re.compile(r"(?<![A-Za-z])([A-Za-z]*)vv([a-z]*)(?![A-Za-z])")
_O_IN_FIGURES = re.compile(
    r"(?<![A-Za-z0-9.,])(?P<a>\d{1,3})(?P<o>[oO]{1,2})(?![A-Za-z0-9])(?!\s(?:vuelta|giro|fila|hilera|carreira|volta|riga|pto))"
)
_S_E = re.compile(r"(?<![A-Za-z.])([sdSD]) e(?=\s(?:in|on|into|under|over)\s)")
_L_CHAINS = re.compile(r"\b(?P<ch>[Cc]h\.? )l(?=[,;.)])")


@lru_cache(maxsize=1)
def _known() -> frozenset[str]:
    """Words of four letters or more that patterns use."""
    return frozenset(words[0] for words in base_entries() if len(words) == 1 and len(words[0]) >= 4) | _HEADINGS


def rejoined(text: str) -> str:
    """The text with such words and figures mended; as long as before.

    >>> rejoined("Ch l, d c in the fi rst of 4O sps, Rovv 2")
    'Ch 1, d c in the  first of 40 sps, Row  2'
    """
    pieces = {word for word in set(text.split()) if len(word) < 4 and word.isalpha() and not _stands_alone(word)}
    for match in _PIECES.finditer(text) if pieces else ():
        if match["a"] in pieces and _is_one(match["a"], match["b"]):
            text = f"{text[: match.start()]} {match['a']}{match['b']}{text[match.end('b') :]}"
    if "vv" in text:
        text = _VV.sub(_double, text)
    if " e" in text:
        text = _S_E.sub(r"\1 c", text)
    return _L_CHAINS.sub(r"\g<ch>1", _O_IN_FIGURES.sub(lambda match: match["a"] + "0" * len(match["o"]), text))


def _is_one(first: str, rest: str) -> bool:
    """Whether the two are pieces of one word, the first of them no word by itself."""
    whole = (first + rest).lower()
    if rest.isupper():
        return first.isupper() and whole in _HEADINGS
    if len(first) == 1 and first.isupper():
        return False
    return (first[1:].islower() or first.islower()) and whole in _known()


def _stands_alone(word: str) -> bool:
    """Whether a short piece is a word or a short form by itself. A capital alone may begin a heading in capitals."""
    low = word.lower()
    return (low in _WORDS and not (word.isupper() and len(word) == 1 and low not in ("a", "i"))) or (low,) in base_entries()


def _double(match: re.Match[str]) -> str:
    word = f"{match[1]}w{match[2]}"
    return f"{word} " if word.lower() in _known() or word.lower() in ("row", "rows", "two") else match[0]
