"""Short forms that a book tells for itself in a sentence: "T. signifies treble; d. c., double crochet", "l. stands for long"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from .wording.vocabulary import Entry, base_entries

_SAYS = r"(?:signif(?:y|ies)|stands?\sfor|for|means?|denotes?|indicates?|is|=|,)"
_TOLD = re.compile(
    rf"(?i)(?<![\w.])(?P<short>[a-z](?:\.?\s?[a-z]){{0,2}})\.?\s?,?\s?{_SAYS}\s(?:an?\s)?"
    r"(?P<long>[a-z]+(?:\s[a-z]+){0,2})(?=\s?[.,;:()\n])"
)
_OPENS = re.compile(
    r"(?i)\babbreviat|\bsignif(?:y|ies)\b|\bstands?\sfor\b|\bdenotes?\b|\bin\s(?:these|the|all)\s(?:directions|instructions|receipts)\b"
)
"""A text of notes tells short forms only where it says so in some way."""
_EQUALS = re.compile(r"(?<![\w.])(?P<short>[A-Z]{2,5})\s?=\s?(?P<long>[a-z]+(?:\s[a-z]+){0,3})(?=\s?[.,;:()\n])")
""" "MDC = mosaic dc: dc in the front loop two rows below", in the middle of the notes. """
OWN = frozenset(
    "mosaic linked modified elongated long deep drop dropped spike relief wide split twisted tall standing chainless chained lined".split()  # noqa: SIM905
)
"""Words before a stitch's name that make another way of it, which counts as that stitch."""
_KINDS = frozenset(("st", "ch", "skip", "grp"))


def abbreviations_told(notes: str) -> Iterator[tuple[tuple[str, ...], Entry]]:
    """Every short form told in these notes that the craft does not know by itself, with what it means.

    >>> list(abbreviations_told("T. signifies treble; d. c., double crochet; ch., chain."))
    [(('t',), ('st', 'tr'))]
    """
    base = base_entries()
    for match in _EQUALS.finditer(notes):
        short, long = (match["short"].lower(),), tuple(match["long"].lower().split())
        found = next((base[long[k:]] for k in range(len(long)) if long[k:] in base and set(long[:k]) <= OWN), None)
        if found is not None and found[0] == "st" and short not in base:
            yield short, found
    if not _OPENS.search(notes):
        return
    for match in _TOLD.finditer(notes):
        short = tuple(match["short"].lower().replace(".", " ").split())
        meaning = base.get(tuple(match["long"].lower().split()))
        if meaning is not None and meaning[0] in _KINDS and short not in base:
            yield short, meaning
