"""The designer's own words: notes of the front matter, and the prose between the rows, as written."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..pattern import Pattern
from .materials import texts

_MARKS = re.compile(r"^\s*(?:[-*+>]\s+|#+\s+)+|[*_]{2,}")
_FACT = re.compile(r"(?i)^\s*(?:US|UK|American|British)\s+(?:crochet\s+)?terms\b[^a-z]*$|^\s*abbreviations?\b")
MOST = 40
"""Lines of prose that are printed at most: more is a story, and belongs on the designer's page."""


def remarks_of(pattern: Pattern) -> tuple[str, ...]:
    """What the designer remarks, without the lines that state a fact printed elsewhere (gauge, hook, yarn, terms, abbreviations)."""
    told = texts(pattern.facts.notes.get("notes"))
    return (*told, *tuple(line for line in _prose(pattern) if line not in told)[:MOST])


def _prose(pattern: Pattern) -> Iterator[str]:
    facts = [span for span in pattern.facts.spans.values() if span.end > span.start]
    for note in pattern.notes:
        at = note.start
        for line in note.of(pattern.source).splitlines(keepends=True):
            start, at = at, at + len(line)
            words = " ".join(_MARKS.sub("", line).split())
            states = any(span.start < at and start < span.end for span in facts)
            if words and not states and not _FACT.match(line):
                yield words
