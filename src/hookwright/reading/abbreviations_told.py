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
_ONE_LETTER = re.compile(r"(?<![\w.])(?P<letter>[XVAxva])\s?(?:=|:|[-\u2013\u2014])\s?(?P<long>[a-z]+(?:\s[a-z]+)?)(?![a-z])")
""" "X = sc, V = increase, A - dec" among the notes."""
_NOTED = {"X": ("st", "sc"), "V": ("inc", "inc"), "A": ("dec", "dec")}
"""What the letters stand for that makers of toys write instead of abbreviations (common practice, no source)."""
_USED = re.compile(r"(?<![\w.])\d{1,3}\s?(?P<letter>[Xx])(?![\w'])(?!\s?\d)|(?<![\w.])\d{0,3}(?P<shaped>[VA]|(?<=\d)[va])(?![\w'])")
_SPELLED = re.compile(r"(?i)(?<![a-z])(?:sc|h?dc|htr|tr|single|double|treble|inc|dec)(?![a-z])")
_LEAST = 3
"""So often a letter must stand for a stitch before all of them are taken to, where nobody says it."""


def letters_meant(notes: str, rows: str) -> dict[tuple[str, ...], Entry]:
    """X, V and A where they stand for single crochet, increase and decrease: told so, or used so in rows that name no stitch otherwise.

    >>> letters_meant("", "6X in MR ¦ 6V ¦ (1X, V)*6 ¦ 18X")[("v",)]
    ('inc', 'inc')
    >>> letters_meant("", "(sc, inc) x 6 ¦ 18 sc"), letters_meant("V: increase", "6 sc ¦ 6 V")
    ({}, {('v',): ('inc', 'increase')})
    """
    base = base_entries()
    told: dict[tuple[str, ...], Entry] = {}
    for match in _ONE_LETTER.finditer(notes):
        words = tuple(match["long"].split())
        meaning = base.get(words) or base.get(words[:1])
        if meaning is not None and meaning[0] in ("st", "inc", "dec"):
            told[(match["letter"].lower(),)] = meaning
    if told or _SPELLED.search(rows):
        return told
    used = [match["letter"] or match["shaped"] for match in _USED.finditer(rows)]
    plain, shaped = sum(one in "Xx" for one in used), sum(one in "VAva" for one in used)
    return {(letter.lower(),): meaning for letter, meaning in _NOTED.items()} if plain >= _LEAST and shaped else {}


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
