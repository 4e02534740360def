"""Whether a speaker tells how many chains before the word or behind it: "three chain" or "chain three". Where a number stands on either
side, that tells whose it is ("two chain three trebles")."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .tokens import Token

FEWEST = 3
"""So many chains at least must be told the one way, with a number on one side only, to be a habit (ours)."""
SHARE = 0.8
"""And such a share of all of them (ours)."""
_NOT_OF_CHAINS = ("chain", "skip", "row", "rows", "around")


def with_leads(tokens: Sequence[Token]) -> list[Token]:
    """The tokens, all chains marked whose speaker has the habit of telling the number first."""
    before = sum(_numbered(tokens, k - 1, k) and not _number(tokens, k + 1) for k in range(1, len(tokens) - 1))
    behind = sum(
        tokens[k].kind == "chain" and _number(tokens, k + 1) and not tokens[k].stop and not _number(tokens, k - 1)
        for k in range(1, len(tokens) - 1)
    )
    if before < FEWEST or before < SHARE * (before + behind):
        return list(tokens)
    return [replace(token, led=True) if token.kind == "chain" else token for token in tokens]


def _numbered(tokens: Sequence[Token], k: int, chain: int) -> bool:
    """Whether the number at token k can be that of the chain behind it."""
    free = k < 1 or tokens[k - 1].stop or tokens[k - 1].kind not in _NOT_OF_CHAINS
    return tokens[chain].kind == "chain" and _number(tokens, k) and not tokens[k].stop and free


def _number(tokens: Sequence[Token], k: int) -> bool:
    return tokens[k].kind == "num"
