"""Rows named behind their work throughout a film: "An increase in each stitch, sixteen, and that was round two."."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .anchors import Anchor
from .things import marked, sentence
from .tokens import Token

MOSTLY_BEHIND = 3
"""So many rows at least, and more than are named before, must be named behind their work for all to be taken so (ours)."""


def named_behind(tokens: Sequence[Token], anchors: list[Anchor]) -> list[Anchor]:
    """The namings of a speaker who names each row behind its work ("…, and that was round three"), each where the work of its row begins;
    any others as they are."""
    behind = [one for one in anchors if one.how == "closes"]
    if len(behind) < MOSTLY_BEHIND or len(behind) <= 2 * sum(one.how == "begins" for one in anchors):
        return anchors
    out, begins = [], 0
    for one in behind:
        out.append(replace(one, k=begins, end=begins, how="begins", said=(one.k, one.end)))
        begins = min(_behind(tokens, one.end - 1), len(tokens) - 1)
    return out


def _behind(tokens: Sequence[Token], k: int) -> int:
    """The token behind the sentence of token k (its caption where nobody set marks), and behind the count that follows alone."""
    if not marked(tokens, k):
        return next((i for i in range(k + 1, len(tokens)) if tokens[i].until != tokens[k].until), len(tokens))
    end = sentence(tokens, k)[1] + 1
    if end >= len(tokens):
        return end
    last = sentence(tokens, end)[1]
    counts = last - end < 4 and any(token.kind == "num" for token in tokens[end : last + 1])
    return last + 1 if counts and not any(t.kind in ("chain", "st", "increase", "row") for t in tokens[end : last + 1]) else end
