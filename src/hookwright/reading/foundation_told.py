"""The foundation told in the prose above the rows: "Chain 40 stitches for every hand of length, or 9 to a scallop."."""

from __future__ import annotations

import re

from ..pattern import Span

MOST = 20_000
_TOLD = re.compile(
    r"(?i)\b(?:make|work|crochet|begin with|commence with|cast on)\s+(?:a\s+)?"
    r"(?:chain|foundation|foundation chain)\s+of\s+(?P<n>\d[\d,]{0,5})"
    r"(?:\s+(?:stitches|sts|loops|chains?|ch))?(?:[^.\n]|\n(?!\s*\n)){0,60}"
)


def foundation_told(text: str, start: int, end: int) -> tuple[int, Span] | None:
    """How many chains the last such sentence between `start` and `end` tells, and where; None where none does."""
    found = None
    for match in _TOLD.finditer(text, start, end):
        number = int(match["n"].replace(",", ""))
        if 1 < number <= MOST:
            stop = text.find(".", match.end("n"), end)
            found = number, Span(match.start(), stop if stop >= 0 else match.end())
    return found
