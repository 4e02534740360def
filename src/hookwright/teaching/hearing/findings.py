"""One difference between what was said and what is written."""

from __future__ import annotations

from dataclasses import dataclass
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
