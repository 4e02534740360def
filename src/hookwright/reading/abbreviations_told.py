"""Short forms that a book tells for itself in a sentence: "T. signifies treble; d. c., double crochet", "l. stands for long"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from .wording.vocabulary import Entry, base_entries

_SAYS = r"(?:signif(?:y|ies)|stands?\sfor|for|means?|denotes?|indicates?|is|=|,)"
_TOLD = re.compile(
    rf"(?i)(?<![\w.])(?P<short>[a-z](?:\.?\s?[a-z]){{0,2}})\.?\s?,?\s?{_SAYS}\s(?:an?\s)?"
    r"(?P<long>[a-z]+(?:\s[a-z]+){0,2})(?=\s?[.,;:)\n])"
)
_OPENS = re.compile(r"(?i)\babbreviat|\bsignif(?:y|ies)\b|\bstands?\sfor\b|\bdenotes?\b")
"""A text of notes tells short forms only where it says so in some way."""
_KINDS = frozenset(("st", "ch", "skip", "grp"))


def abbreviations_told(notes: str) -> Iterator[tuple[tuple[str, ...], Entry]]:
    """Every short form told in these notes that the craft does not know by itself, with what it means.

    >>> list(abbreviations_told("T. signifies treble; d. c., double crochet; ch., chain."))
    [(('t',), ('st', 'tr'))]
    """
    if not _OPENS.search(notes):
        return
    base = base_entries()
    for match in _TOLD.finditer(notes):
        short = tuple(match["short"].lower().replace(".", " ").split())
        meaning = base.get(tuple(match["long"].lower().split()))
        if meaning is not None and meaning[0] in _KINDS and short not in base:
            yield short, meaning
