"""How a text was typed: in small letters or capitals throughout, its lines broken at a width or where sentences end."""

from __future__ import annotations

import re
from itertools import pairwise


def writes_small(text: str) -> bool:
    """Whether most paragraphs begin with a small letter."""
    lines = text.split("\n")
    opening = [line.lstrip() for before, line in pairwise(["", *lines]) if line.strip() and not before.strip()]
    return len(opening) >= 4 and 2 * sum(line[:1].islower() for line in opening) > len(opening)


def writes_large(text: str) -> bool:
    """Whether the text is in capitals throughout: a line that begins with one begins no sentence by that."""
    head = text[:4000]
    if len(head) <= 200 or sum(map(head.count, _SMALL)) * 20 > len(head):
        return False
    letters = [sign for sign in head if sign.isalpha()]
    return len(letters) > 200 and sum(sign.isupper() for sign in letters) > 0.95 * len(letters)


_SMALL = "etaonisr"
"""Small letters of which a text holds many: more than a twentieth of them, and it is in no capitals, whatever the others are."""
WIDEST = 90
"""Characters of a line, where lines are broken at a width."""
_NO_STOP = re.compile(r"[A-Z0-9,*]\s*$")
"""The end of a line that ends no sentence."""


_LABELLED = re.compile(r"(?i)\s*(?:(?:rows?|rnds?|rounds?|r)\s?\d|\d+(?:st|nd|rd|th)\s(?:row|round|rnd)\b)")


def is_wrapped(text: str) -> bool:
    """Print: lines are broken at a width, so that many begin in the middle of a sentence."""
    lines = text.split("\n")
    if writes_large(text):
        if max(map(len, lines)) > WIDEST:
            return False
        return sum(_NO_STOP.search(line) is not None for line, following in pairwise(lines) if len(line) >= 40 and following.strip()) >= 3
    if writes_small(text):
        return False
    pairs = within = 0
    for line, following in pairwise(map(str.strip, lines)):
        if len(line) < 40 or not following:
            continue
        pairs += 1
        if line[-1] in ".!?:)]}=>*" or _LABELLED.match(following):
            continue  # the line is whole, or the next a row of its own, though it begins with a small letter
        within += following[0].islower() or following[0] in "(*[" or following[0].isdigit()
    return pairs >= 4 and within > 0.35 * pairs
