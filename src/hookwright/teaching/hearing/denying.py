"""Whether a speaker denies at once what she has just said: "That's nine. No it isn't, I counted the chain, silly me, it's eight."."""

from __future__ import annotations

from collections.abc import Sequence

from .lexicon import phrases, words
from .tokens import Token

REACH = 26
"""Words within which what holds instead is told (ours)."""
_DENIALS = phrases("denying", "denials")
_FILLERS = words("denying", "fillers")


def denied(tokens: Sequence[Token], k: int, end: int) -> bool:
    """Whether the words right behind token k, which ends its clause, deny it, and something may follow in its place before `end`."""
    if k < 0 or k + 1 >= min(end, len(tokens)):
        return False
    at = k + 1
    while at < min(end, k + 4) and tokens[at].text in _FILLERS:
        at += 1
    said = " ".join(token.text for token in tokens[at : at + 5]) + " "
    if any(said.startswith(f"{one} ") for one in _DENIALS):
        return True
    return at < end and tokens[at].text in ("no", "nope", "nah") and tokens[at].stop
