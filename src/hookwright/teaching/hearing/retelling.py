"""Rows told as another row again: "the same once more", "row six, row two again"; and from where on that holds."""

from __future__ import annotations

from collections.abc import Sequence

from .asked import steps_meant
from .lexicon import words
from .said import same_at
from .segments import Speech, Stretch
from .things import sentence
from .units import Unit

_AGAIN = words("retelling", "again")
"""Words that tell, beside the name of an earlier row, that it is worked again."""


def retold_at(unit: Unit, units: Sequence[Unit], speech: Speech, stretch: Stretch, end: int) -> int:
    """The token before `end` at which the row is told as one worked before, in words or by the number of a row with the same work; -1
    where it is not."""
    phrase = same_at(speech.tokens, stretch.start, end)
    named = _named_at(_worked_alike(unit, units), speech, stretch, end)
    return min((k for k in (phrase, named) if k >= 0), default=-1)


def _worked_alike(unit: Unit, units: Sequence[Unit]) -> frozenset[int]:
    """The numbers of the earlier rows of its part that are worked as it is; those it names itself too."""
    steps = steps_meant(unit, units)
    before = [other for other in units[: unit.index] if other.part == unit.part]
    return unit.refers | {n for other in before if steps_meant(other, units) == steps for n in other.numbers}


def _named_at(rows: frozenset[int], speech: Speech, stretch: Stretch, end: int) -> int:
    """The token that names one of these rows as worked again."""
    tokens = speech.tokens
    for k in range(stretch.begins, end - 1):
        if tokens[k].kind == "row" and tokens[k + 1].kind == "num" and tokens[k + 1].number in rows:
            first, last = sentence(tokens, k)
            if any(token.text in _AGAIN for token in tokens[max(first, stretch.start) : last + 1]):
                return k
    return -1
