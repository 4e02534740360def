"""What a maker tells between two rows and a film must not forget: stuffing, eyes, a change of yarn."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..pattern import Part, Pattern

_DOING = re.compile(
    r"(?i)^(?:now |then )?(?:(?:begin|start|keep|continue|finish) (?:to )?)?"
    r"(?:stuff(?:ing)?|insert|place|attach|sew|embroider|add|change|switch|turn)\b"
)
LONGEST = 160


def told_after(pattern: Pattern, part: Part, written: int) -> Iterator[str]:
    """The sentences of the pattern that stand between the written row with that id and the next, and tell something to do.

    They are the maker's own words; a heading ends them, and what is longer than a breath is left to the page.
    """
    at = next((k for k, row in enumerate(part.rows) if row.id == written), None)
    if at is None:
        return
    end = part.rows[at + 1].span.start if at + 1 < len(part.rows) else len(pattern.source)
    start = part.rows[at].span.end
    for line in pattern.source[start:end].split("\n") if start < end else ():
        words = line.strip().strip("*_").strip()
        if words.startswith("#"):
            return
        if _DOING.match(words) and len(words) <= LONGEST:
            yield words if words[-1] in ".!?" else f"{words}."
