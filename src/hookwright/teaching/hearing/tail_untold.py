"""What ends a row, left out: the row is closed right behind what stands before it, by a speaker who tells the end of every other row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .lexicon import words
from .segments import Speech
from .things import sentence
from .tokens import Token
from .told_rows import DETAIL, ToldRow

_ONWARDS, _AGAIN, _VAGUE = words("evidence", "onwards"), words("evidence", "again"), words("untold", "vague")
CLOSED = 20
"""Words behind the last thing told within which the row is closed (ours)."""
TOLD = 2
"""So many other rows at least must be told to their end (ours)."""
COUNTED = 0.6
"""How surely the row's count closes it (ours)."""
_WHOLE = frozenset(("side", "other", "around", "across", "whole", "end"))
_TIMES = frozenset(("times", "time", "more", "another", "twice"))


def tails_untold(rows: Sequence[ToldRow], speech: Speech) -> Iterator[tuple[ToldRow, int, int]]:
    """(row, place of the first thing of its end that is not said, token that closes the row) of every such row."""
    ends = [(row, end) for row in rows if (end := _end(row)) >= 0 and not row.same]
    told = [row for row, end in ends if end in row.met and row.covered() >= DETAIL]
    untold = [(row, end) for row, end in ends if end not in row.met and row.met]
    if len(told) < TOLD or len(untold) != 1:
        return
    row, end = untold[0]
    first = max(row.met) + 1
    before = [k for k, named in enumerate(row.classes[:first]) if named not in ("start", "slip")]
    if not before or not set(before) <= row.right | {k for k in before if k in row.met and not row.asked[k].numbers} | _ones(row):
        return
    last = max((step.told for step in row.steps if step.told is not None), key=lambda one: one.k)
    if row.steps[-1].told is not None and row.steps[-1].place is None:
        return  # more is told behind it, in words not understood
    closing = _closing(row, speech, last.k)
    if closing >= 0 and all(step.agrees for step in row.steps):
        yield row, first, closing


def _reaches(said: Sequence[Token], k: int) -> bool:
    """Whether the whole row may be meant: "ten times around", "to the end", "on the other side"."""
    return said[k].text in _WHOLE or (
        said[k].text in ("to", "till", "until") and any(token.text in ("the", "end", "join") for token in said[k + 1 : k + 2])
    )


def _ones(row: ToldRow) -> set[int]:
    """The places of single things that are told without a number."""
    return {k for k in row.met if row.asked[k].numbers and min(row.asked[k].numbers) == 1}


def _end(row: ToldRow) -> int:
    """The place of the last thing worked in the row, where more is worked before it; -1 where all of it may be told as one."""
    worked = [k for k, named in enumerate(row.classes) if named in ("stitch", "increase", "decrease", "in group")]
    return worked[-1] if len(worked) > 1 and row.asked[worked[-1]].numbers else -1


def _closing(row: ToldRow, speech: Speech, last: int) -> int:
    """The token that closes the row right behind the last thing told, but for the words in which a repeat is told; -1 where there is none,
    or where the rest may be told in passing."""
    tokens = speech.tokens
    stop = min(last + CLOSED + 1, row.main.end)
    own = row.main.unit.any_allowed - row.main.unit.instructed
    counts = {told.k for told in row.main.counts if told.number in own and told.strength >= COUNTED}
    closing = next((k for k in range(last + 1, stop) if tokens[k].kind in ("turn", "join") or k in counts), -1)
    said = tokens[last + 1 : max(sentence(tokens, closing)[0] if closing in counts else closing, last + 1)]
    loose = [
        token for token in said if token.text in _ONWARDS | _AGAIN | _VAGUE and token.text not in _TIMES and token.text not in ("so", "on")
    ]
    return -1 if loose or any(_reaches(said, k) for k in range(len(said))) else closing
