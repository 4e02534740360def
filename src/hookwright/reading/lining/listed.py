"""Rows told as the items of a numbered list ("2. Round 1: …"): the list's own numbers are no rows."""

from __future__ import annotations

import re

_ITEM = re.compile(r"(?m)^[ \t]{0,6}(?:\d{1,3}[.)]|\(\d{1,3}\))(?=[ \t]+\S)")
_LABELLED = re.compile(r"(?i)[ \t]+[*_]{0,3}(?:(?:rows?|rounds?|rnds?|rds?|r)\s?\d|\d{1,3}(?:st|nd|rd|th)\s(?:row|round|rnd)\b)")
LEAST = 2
"""So many items that open with a row's own label make the numbers before them a list's."""


def unlisted(text: str) -> str:
    """The text with the numbers of such a list made blank, equally long.

    >>> unlisted("1. Ch 12.\\n2. Row 1: sc across.\\n3. Row 2: sc across.")
    '   Ch 12.\\n   Row 1: sc across.\\n   Row 2: sc across.'
    >>> unlisted("1. Ch 12.\\n2. Sc across.")
    '1. Ch 12.\\n2. Sc across.'
    """
    items = list(_ITEM.finditer(text))
    if len(items) < LEAST or sum(_LABELLED.match(text, item.end()) is not None for item in items) < LEAST:
        return text
    out = list(text)
    for item in items:
        out[item.start() : item.end()] = " " * len(item[0])
    return "".join(out)
