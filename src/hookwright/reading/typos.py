"""Typing and scanning slips: an unknown word is read as the nearest known one, when only one is near and the row is then understood."""

from __future__ import annotations

from functools import lru_cache
from string import ascii_lowercase

from .wording.everyday import EVERYDAY
from .wording.misread import alike
from .wording.token import Token
from .wording.vocabulary import base_entries

_KINDS = frozenset(("st", "grp", "ch", "skip", "turn", "join", "rep", "inc", "dec", "noun", "sp", "lp", "next", "each", "around", "across", "foff",  # noqa: E501
                    "rem", "same", "last", "times", "once", "ring", "corner", "work", "n", "o", "tog", "until", "counts", "in"))  # fmt: skip  # noqa: E501


@lru_cache(maxsize=1)
def _known() -> dict[str, tuple[str, object]]:
    """Single words of the craft of four letters or more."""
    return {words[0]: entry for words, entry in base_entries().items() if len(words) == 1 and len(words[0]) >= 4 and entry[0] in _KINDS}


_SHORT = {"sx": "sc", "sv": "sc", "xc": "sc", "dx": "dc", "dv": "dc", "fc": "dc", "tum": "turn"}
"""Slips to the key beside, in the two commonest names, and what a scanner makes of "turn": too short to be told by likeness alone."""


def _one_off(word: str) -> set[str]:
    """Every spelling one slip away: a letter too many, too few, wrong, or two exchanged."""
    cuts = [(word[:k], word[k:]) for k in range(len(word) + 1)]
    found = {a + b[1:] for a, b in cuts if b}
    found |= {a + b[1] + b[0] + b[2:] for a, b in cuts if len(b) > 1}
    for letter in ascii_lowercase:
        found |= {a + letter + b[1:] for a, b in cuts if b}
        found |= {a + letter + b for a, b in cuts}
    return found


@lru_cache(maxsize=2048)
def nearest(word: str) -> str | None:
    """The one known word within one slip of `word`; None when there is none or more than one meaning.

    >>> nearest("trun"), nearest("snigle"), nearest("sandwich")
    ('turn', None, None)
    >>> nearest("sarne"), nearest("comer")
    ('same', 'corner')
    """
    if word in _SHORT:
        return _SHORT[word]
    if len(word) < 4 or len(word) > 20 or word in EVERYDAY:
        return None
    known = _known()
    near = sorted(one for one in _one_off(word) | alike(word) if one in known)
    meanings = {known[one] if known[one][0] in ("n", "o", "st", "grp") else known[one][0] for one in near}
    return near[0] if len(meanings) == 1 else None


def mended(tokens: list[Token], start: int, end: int) -> list[tuple[int, str]]:
    """The unknown words between two places of the text and what they may mean: (token, word); "" for the second half of a word in two."""
    found: list[tuple[int, str]] = []
    for k, token in enumerate(tokens):
        if token.kind == "w" and start <= token.start < end and isinstance(token.val, str):
            after = tokens[k + 1] if k + 1 < len(tokens) else token
            before = tokens[k - 1].text.lower() if k and token.gap else ""
            if before + token.val in _known() and tokens[k - 1].kind != "w":  # "Rep eat": the first piece is a word by itself
                found += [(k - 1, before + token.val), (k, "")]
                continue
            whole = _in_two(token.val, str(after.val)) if after.kind == "w" and after.gap else None
            word = whole or nearest(token.val)
            if word is not None and (not found or found[-1] != (k, "")):
                found += [(k, word), (k + 1, "")] if whole else [(k, word)]
    return found


def _in_two(first: str, second: str) -> str | None:
    """The one known word whose halves these are, a letter between them lost or none: "ar und", "ske in"."""
    known = _known()
    near = [first + letter + second for letter in ("", *ascii_lowercase) if first + letter + second in known]
    return near[0] if len(near) == 1 else None


def replaced(tokens: list[Token], changes: list[tuple[int, str]]) -> list[Token]:
    """The tokens with the words changed."""
    out = list(tokens)
    for k, word in changes:
        if not word:
            continue
        old = out[k]
        kind, value = base_entries()[(word,)]
        out[k] = Token(kind, value, old.start, old.end, old.text, old.gap)
    halves = {k for k, word in changes if not word}
    return [token for k, token in enumerate(out) if k not in halves]
