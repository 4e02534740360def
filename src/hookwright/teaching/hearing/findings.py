"""One difference between what was said and what is written."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log
from typing import Literal, TypeAlias

Slip: TypeAlias = Literal["count", "row", "dialect", "left out", "number", "row never said", "count never said"]
SURE_ENOUGH = 0.5
"""From here on a difference is reported; below it is doubtful, and told only when asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """One difference. `at` seconds into the film (for what is never said: where it would have stood), `words` the very words, `row` the
    row of the pattern, `sure` from 0 to 1."""

    kind: Slip
    at: float | None
    words: str
    row: str
    message: str
    sure: float

    @property
    def doubtful(self) -> bool:
        return self.sure < SURE_ENOUGH


def sure_unsaid(*, edited: bool) -> float:
    """How sure it is that what should be told of a whole row is not, where a person has been over the words, and where a machine may have
    lost it (ours)."""
    return 0.64 if edited else 0.56


def plus(sure: float, weight: float) -> float:
    """The probability whose log-odds are those of `sure` and so much more.

    >>> plus(0.5, 0.0), round(plus(0.8, -2.0), 2)
    (0.5, 0.35)
    """
    held = min(max(sure, 0.01), 0.99)
    return 1 / (1 + exp(-(log(held / (1 - held)) + weight)))
