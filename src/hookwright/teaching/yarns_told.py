"""The yarn a row is worked in where the pattern tells it between the rows in the materials' own words: "With slate.", "Change to oat."."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from ..pattern import Colour, Make, Part, Pattern, Refer, Repeat, Row, Together
from .needs import needed

_TAKEN = re.compile(
    r"(?i)\b(?:with|using|in|(?:change|switch|swap|go back|back|return) to|join(?:ing)?|take(?: up)?|pick up)\s+"
    r"(?:the\s+)?(?:yarn\s+|colou?r\s+)?"
    r"(?P<name>[a-z][\w'-]*(?:\s[a-z][\w'-]*)?)"
)
_NO_COLOUR = re.compile(
    r"(?:an?|all|and|any|back|balls?|chain|contrast|cotton|dk|double|each|extra|first|front|g|grams|hook|in|it|last|loops?|main|mm|needle|next"
    r"|of|on|one|or|pair|place|ring|round|row|same|stitch(?:es)?|the|thread|two|weight|wool|worsted|yarns?|your)$"
)
"""Words of the materials that name no colour."""


def yarns_told(pattern: Pattern) -> Mapping[int, str]:
    """Written row (`Row.id`) → the yarn told for it in words: one that the materials name, said last before its first stitch."""
    named = {word for _, line in needed(pattern) for word in re.findall(r"[a-z][\w'-]*", line.lower()) if not _NO_COLOUR.match(word)}
    found: dict[int, str] = {}
    begins = 0
    for part in pattern.parts:
        ends = begins
        for row in part.rows:
            ends = _first_stitch(row)
            told = list(_events(pattern.source, begins, ends, named))
            if told:
                found[row.id] = told[-1]
        begins = max(ends, _end(part, begins))
    return found


def _events(source: str, start: int, end: int, named: set[str]) -> Iterator[str]:
    for one in _TAKEN.finditer(source, start, end):
        words = one["name"].lower().split()
        known = [word for word in words if word in named]
        if known and words[0] in known:
            yield " ".join(known)


def _first_stitch(row: Row) -> int:
    """Where the row's first stitch is told, or a yarn that the row itself takes up; its end where neither is."""
    return next((step.span.start for step in row.steps if isinstance(step, Make | Together | Repeat | Refer | Colour)), row.span.end)


def _end(part: Part, start: int) -> int:
    return max((row.span.end for row in part.rows), default=start)
