"""Ordinals that are a count and the next row's: "forty eighth round" is forty, and the eighth round, where the pattern has none so high."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .figures import TENS
from .tokens import Token


def ordinals_split(tokens: Sequence[Token], last: int) -> list[Token]:
    """The tokens, every ordinal of tens and ones above the pattern's last row that is told of a row as a number and an ordinal."""
    out: list[Token] = []
    for k, token in enumerate(tokens):
        words = token.raw.lower().strip(".,;:!?").split()
        tens = TENS.get(words[0], 0) if len(words) == 2 else 0
        of_row = k + 1 < len(tokens) and tokens[k + 1].kind == "row" and not token.stop
        of_row = of_row and not (k and tokens[k - 1].text in ("the", "our", "my", "this"))
        if token.kind == "ord" and of_row and tens and last < token.number == tens + token.number % 10 and token.number % 10:
            count = replace(token, kind="num", text=words[0], raw=token.raw.split()[0], number=tens, stop=True, ends=".")
            out += [count, replace(token, raw=token.raw.split()[1], number=token.number % 10)]
        else:
            out.append(token)
    return out
