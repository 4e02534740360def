"""Rows that are only spoken of: seen ahead ("on round four we will have loops") or looked back to ("on round two it was sixteen")."""

from __future__ import annotations

from collections.abc import Sequence

from .lexicon import words
from .things import marked, sentence
from .tokens import Token

_LEADS = frozenset(("on", "in", "by", "for", "at", "until", "till", "remember", "during", "with"))
_OTHER_TIMES = words("previews", "other_times")
_STARTS = words("previews", "starts")
_WORK = ("st", "chain", "increase", "decrease", "skip", "repeat", "slip", "together", "join", "turn", "around", "ring")


def spoken_of(tokens: Sequence[Token], k: int, end: int) -> bool:
    """Whether the sentence that names the row at tokens[k:end] tells of another time and asks for no work."""
    lead = tokens[k - 1] if k and not (tokens[k - 1].stop and tokens[k - 1].mark in ".!?") else None
    if lead is None or lead.text not in _LEADS or not marked(tokens, k):
        return False
    first, last = sentence(tokens, k, 30)
    around = [*tokens[first:k], *tokens[end : last + 1]]
    if any(token.kind in ("row", "rows") for token in tokens[end : last + 1]):
        return False  # "for row nine you just do row six over again"
    if any(token.kind in _WORK for token in around) or any(token.text in _STARTS for token in tokens[first:k]):
        return False
    return any(token.text in _OTHER_TIMES for token in around)
